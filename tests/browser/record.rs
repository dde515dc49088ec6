//! The record in real browsers: a voice note, a timeline of two thousand photos, before and after, the report on paper and
//! as a file.

use std::time::Instant;

use serde_json::{Value, json};
use thirtyfour::prelude::*;

use crate::harness::*;

in_every_engine!(
    a_voice_note_is_kept_or_the_phone_says_why_not,
    two_thousand_photos_scroll,
    before_and_after_by_slider_and_keys,
    the_report_is_one_file_that_opens_without_the_app,
    the_report_fits_its_paper,
);

async fn example(engine: Engine, profile: &Folder, inject: Vec<&'static str>) -> (Phone, Host) {
    let mut host = Host::start(Serve { inject, ..Serve::default() });
    let phone = Phone::start(engine, profile.path()).await;
    phone.open(&host.url).await;
    phone.wait_ready_offline().await;
    phone.click("ready-offline-ok").await;
    host.stop();
    phone.click("look-round").await;
    phone.wait_for("go").await;
    (phone, host)
}

/// Every line of the log.
async fn lines(phone: &Phone) -> Vec<Value> {
    let script = "const open = indexedDB.open('coatwalk');
        open.onsuccess = () => {
          const all = open.result.transaction('entries').objectStore('entries').getAll();
          all.onsuccess = () => (open.result.close(), done(all.result));
        };";
    let all = phone.async_script(script, vec![]).await;
    all.as_array().unwrap().iter().map(|l| serde_json::from_str(l.as_str().unwrap()).unwrap()).collect()
}

async fn first_area(phone: &Phone) -> String {
    let all = lines(phone).await;
    let opened = all.iter().find(|l| l["kind"] == "opened").unwrap();
    opened["seeds"][0]["id"].as_str().unwrap().to_owned()
}

async fn photo(phone: &Phone, stage: &str, area: &str, file: &str) {
    let photos = |all: Vec<Value>| all.iter().filter(|l| l["kind"] == "photo").count();
    let before = photos(lines(phone).await);
    phone.go(&format!("#/stage/{stage}/{area}")).await;
    phone.upload("photo-input", &beside("photos").join(file)).await;
    phone.until("the photo is kept", || async { photos(lines(phone).await) > before }).await;
}

/// Chromium has a microphone for tests that beeps; the others have none, or none that is allowed.
async fn a_voice_note_is_kept_or_the_phone_says_why_not(engine: Engine) {
    let profile = Folder::new("voice");
    let (phone, _host) = example(engine, &profile, vec![]).await;
    let area = first_area(&phone).await;
    phone.go(&format!("#/stage/survey/{area}")).await;
    let before = lines(&phone).await.len();
    phone.fill("note-text", "typed before").await;
    phone.click("voice").await;
    if engine != Engine::Chromium {
        phone.until("words that say why", || async { !phone.text_now("voice-error").await.is_empty() }).await;
        let why = phone.text_now("voice-error").await;
        println!("  {engine}: {why}");
        assert!(why.contains("note") || why.contains("try again"), "{why}");
        phone.see("Voice note").await;
        assert_eq!(lines(&phone).await.len(), before);
        phone.click("note-save").await;
        phone.see("typed before").await;
        return;
    }
    phone.see("Stop, keep (").await;
    tokio::time::sleep(std::time::Duration::from_millis(1500)).await;
    phone.click("voice").await;
    phone.wait_for(".kept audio[src^='blob:']").await;
    let all = lines(&phone).await;
    assert_eq!(all.len(), before + 1);
    let voice = all.iter().find(|l| l["kind"] == "voice").unwrap();
    assert_eq!((voice["area"].as_str(), voice["stage"].as_str()), (Some(area.as_str()), Some("survey")));
    assert!(voice["seconds"].as_u64().unwrap() >= 1 && voice["bytes"].as_u64().unwrap() > 500, "{voice}");
    // It can be played: the browser itself reads it.
    let plays = "const sound = document.querySelector('.kept audio');
        sound.onerror = () => done('broken');
        sound.onplaying = () => done('plays');
        sound.muted = true;
        sound.play().catch((why) => done(String(why)));";
    assert_eq!(phone.async_script(plays, vec![]).await, json!("plays"));
    // What was half typed stays; leaving the screen in the middle keeps what was said.
    assert_eq!(
        phone.script("return document.querySelector('#note-text, [data-id=note-text]').value", vec![]).await,
        "typed before"
    );
    phone.click("voice").await;
    phone.see("Stop, keep (").await;
    tokio::time::sleep(std::time::Duration::from_millis(1200)).await;
    phone.go("#/record").await;
    phone.until("the note is kept", || async { lines(&phone).await.len() == before + 2 }).await;
}

impl Phone {
    /// What an element says now; it may be hidden or empty.
    async fn text_now(&self, id: &str) -> String {
        let script = "return document.querySelector(`[data-id=\"${arguments[0]}\"]`)?.textContent ?? '';";
        self.script(script, vec![json!(id)]).await.as_str().unwrap_or_default().to_owned()
    }
}

/// So many photos are put into the store as the app would write them.
const MANY: usize = 2000;

async fn two_thousand_photos_scroll(engine: Engine) {
    let profile = Folder::new("many");
    let (phone, mut host) = example(engine, &profile, vec![]).await;
    let area = first_area(&phone).await;
    photo(&phone, "survey", &area, "frame.jpg").await;
    let copies = r"
        const open = indexedDB.open('coatwalk');
        open.onsuccess = async () => {
          const db = open.result;
          const get = (store) => new Promise((ok) => { const q = db.transaction(store).objectStore(store).getAll(); q.onsuccess = () => ok(q.result); });
          const line = JSON.parse((await get('entries')).find((l) => l.includes('photo')));
          const picture = (await get('photos'))[0];
          const tx = db.transaction(['entries', 'photos'], 'readwrite');
          for (let n = 0; n < arguments[0]; n++) {
            const hex = n.toString(16).padStart(12, '0');
            const id = line.id.slice(0, 24) + hex, photo = '019a0000-00f1-7000-8000-' + hex;
            tx.objectStore('entries').put(JSON.stringify({ ...line, id, photo }), `${line.job}/${id}`);
            tx.objectStore('photos').put(picture, photo);
          }
          tx.oncomplete = () => (db.close(), done('in'));
          tx.onabort = () => done(String(tx.error));
        };";
    phone.session().set_script_timeout(PATIENCE * 6).await.unwrap();
    assert_eq!(phone.async_script(copies, vec![json!(MANY)]).await, json!("in"));
    host.restart();
    phone.go("#/record").await;
    phone.reload().await;
    phone.wait_for("timeline").await;
    phone
        .until("all lines are counted", || async {
            let words = phone.text_now("timeline-count").await;
            words.split(' ').next().and_then(|n| n.parse::<usize>().ok()).is_some_and(|n| n > MANY)
        })
        .await;
    // Down the whole list, a third of a view a frame; then back up, to rows whose heights were guessed once.
    let scroll = r"
        const frames = [];
        let most = 0, last = performance.now(), empty = 0, down = true;
        const rows = () => document.querySelectorAll('.timeline > li').length;
        const covered = () => {
          const box = document.querySelector('.timeline').getBoundingClientRect();
          const all = document.querySelector('.timeline-all').getBoundingClientRect();
          const from = Math.max(0, all.top), to = Math.min(innerHeight, all.bottom);
          return to <= from || (box.top <= from + 1 && box.bottom >= to - 1);
        };
        const step = (now) => {
          frames.push(now - last);
          last = now;
          most = Math.max(most, rows());
          if (!covered()) empty++;
          const bottom = document.documentElement.scrollHeight - innerHeight;
          if (down && scrollY >= bottom - 2) down = false;
          if (!down && scrollY <= 0 || frames.length > 20000) {
            frames.sort((a, b) => a - b);
            return done({ frames: frames.length, median: frames[frames.length >> 1], late: frames[Math.floor(frames.length * 0.95)], most, empty });
          }
          scrollBy(0, down ? 900 : -900);
          requestAnimationFrame(step);
        };
        requestAnimationFrame(step);";
    let start = Instant::now();
    let seen = phone.async_script(scroll, vec![]).await;
    println!("  {engine}: {MANY} photos, {} s: {seen}", start.elapsed().as_secs());
    assert!(seen["most"].as_u64().unwrap() < 60, "too many rows stand in the page: {seen}");
    assert!(seen["frames"].as_u64().unwrap() > 500, "it did not scroll through: {seen}");
    // Two frames at 60 Hz: the machine of the tests draws without a graphics card.
    assert!(seen["median"].as_f64().unwrap() < 34.0, "{seen}");
    // The small copies come once one stands still.
    phone.script("scrollTo(0, 60000);", vec![]).await;
    phone.wait_for(".small-place img[src^='blob:']").await;
    // By what they are about: one tap shows all again.
    phone.choose("filter-sort", "readings").await;
    phone.until("only readings", || async {
        phone.script("return [...document.querySelectorAll('.timeline > li')].every((l) => l.dataset.sort === 'readings')", vec![]).await
            == json!(true)
    })
    .await;
    assert!(phone.text_now("timeline-count").await.contains(" of "));
    phone.click("filter-all").await;
    phone.wait_for(".timeline > li[data-sort='photos']").await;
}

async fn before_and_after_by_slider_and_keys(engine: Engine) {
    let profile = Folder::new("compare");
    let (phone, _host) = example(engine, &profile, vec![]).await;
    phone.go("#/record/compare").await;
    phone.wait_for("compare-none").await;
    let area = first_area(&phone).await;
    photo(&phone, "survey", &area, "frame.jpg").await;
    photo(&phone, "refit", &area, "bag.jpg").await;
    phone.go("#/record/compare").await;
    phone.wait_for("[data-id='compare-before'] img[src^='blob:']").await;
    phone.wait_for("[data-id='compare-after'] img[src^='blob:']").await;
    assert_eq!(phone.text_now("compare-share").await, "50 % of the photo after");
    phone.wait_for("compare-slider").await.send_keys(Key::Right + "").await.unwrap();
    phone
        .until("a key moves it", || async { phone.text_now("compare-share").await == "55 % of the photo after" })
        .await;
    let cut = phone.script("return document.querySelector('[data-id=compare-after]').style.clipPath", vec![]).await;
    assert!(cut.as_str().unwrap().contains("45%"), "{cut}");
}

async fn the_report_is_one_file_that_opens_without_the_app(engine: Engine) {
    let profile = Folder::new("report");
    let (phone, _host) = example(engine, &profile, vec!["saved.js"]).await;
    let area = first_area(&phone).await;
    photo(&phone, "survey", &area, "frame.jpg").await;
    photo(&phone, "refit", &area, "bag.jpg").await;
    phone.go("#/record/report").await;
    phone.wait_for("[data-id='report'] img[src^='blob:']").await;
    phone.script("window.savedFiles.length = 0;", vec![]).await;
    phone.click("make-file").await;
    if phone.engine != Engine::Chromium {
        // A browser may have a share sheet for it; saving is the same file.
        phone
            .until("the file is made", || async {
                phone.has("save-file").await || phone.has("hand-over-answer").await
            })
            .await;
        if phone.has("save-file").await {
            phone.click("save-file").await;
        }
    }
    phone.wait_for("hand-over-answer").await;
    let text = phone.async_script("window.savedFiles.at(-1).text().then(done);", vec![]).await;
    let html = text.as_str().unwrap();
    assert!(html.starts_with("<!doctype html>") && html.trim_end().ends_with("</html>"));
    assert_eq!(html.matches("src=\"data:image/jpeg;base64,").count(), 2);
    assert!(!html.contains("<script") && !html.contains("http"), "it asks for something outside");
    // Opened from a disk, in a browser that never saw the app's page.
    let folder = Folder::new("opened");
    let file = folder.path().join("report.html");
    std::fs::write(&file, html).unwrap();
    phone.open(&format!("file://{}", file.display())).await;
    phone.see("It certifies nothing").await;
    let shown = "return [...document.images].map((i) => i.complete && i.naturalWidth > 100).join()";
    phone.until("its photos are shown", || async { phone.script(shown, vec![]).await == json!("true,true") }).await;
}

/// Chromium's printer alone can be asked for the size that the page itself names.
async fn the_report_fits_its_paper(engine: Engine) {
    if engine != Engine::Chromium {
        return;
    }
    let profile = Folder::new("paper");
    let (phone, _host) = example(engine, &profile, vec![]).await;
    phone.go("#/record/report").await;
    phone.wait_for("[data-id='report'] h1").await;
    for (choice, wide, high) in [("A4", 595.0, 842.0), ("US Letter", 612.0, 792.0)] {
        phone.click(&format!("[data-choice='{choice}']")).await;
        let asked = json!({ "preferCSSPageSize": true, "printBackground": false });
        let said = phone.session().cdp().send_raw("Page.printToPDF", asked).await.unwrap();
        let pdf = unpacked(said["data"].as_str().unwrap());
        let text = String::from_utf8_lossy(&pdf);
        let boxes: Vec<Vec<f64>> = text
            .split("/MediaBox [")
            .skip(1)
            .map(|b| b.split(']').next().unwrap().split_whitespace().map(|n| n.parse().unwrap()).collect())
            .collect();
        let sheets = text.matches("/Type /Page\n").count();
        println!("  {choice}: {sheets} sheets, {:?}", boxes.first());
        assert!((3..=8).contains(&sheets), "{sheets} sheets");
        assert_eq!(boxes.len(), sheets);
        for b in boxes {
            assert!((b[2] - wide).abs() < 1.5 && (b[3] - high).abs() < 1.5, "{choice}: {b:?}");
        }
    }
}

/// Base64, RFC 4648.
fn unpacked(text: &str) -> Vec<u8> {
    const LETTERS: &[u8] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let (mut out, mut bits, mut held) = (Vec::new(), 0u32, 0);
    for six in text.bytes().filter_map(|b| LETTERS.iter().position(|l| *l == b)) {
        bits = bits << 6 | six as u32;
        held += 6;
        if held >= 8 {
            held -= 8;
            out.push((bits >> held) as u8);
        }
    }
    out
}
