//! The record in real browsers: a voice note, a timeline of five thousand lines, before and after, the report on paper and
//! as a file that is read back and held against the log.

use std::collections::BTreeSet;
use std::time::{Duration, Instant};

use serde_json::{Value, json};
use thirtyfour::prelude::*;

use crate::harness::*;

in_every_engine!(
    a_voice_note_is_kept_or_the_phone_says_why_not,
    five_thousand_lines_scroll,
    before_and_after_by_slider_and_keys,
    the_report_is_one_file_that_opens_without_the_app,
    the_report_fits_its_paper,
);

async fn example(engine: Engine, profile: &Folder, inject: Vec<&'static str>) -> (Phone, Host) {
    let mut host = Host::start(Serve { inject, ..Serve::default() });
    // A microphone that beeps, and is allowed.
    let beeps = ["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream"].map(str::to_owned);
    let phone = Phone::start_with(engine, profile.path(), beeps.to_vec()).await;
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
    tokio::time::sleep(Duration::from_millis(1500)).await;
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
    tokio::time::sleep(Duration::from_millis(1200)).await;
    phone.go("#/").await;
    phone.until("the note is kept", || async { lines(&phone).await.len() == before + 2 }).await;
    // The record has both, and their bytes are as long as the lines say.
    phone.go("#/record").await;
    phone.choose("filter-sort", "voice").await;
    phone
        .until("both stand in the record", || async {
            phone.script("return document.querySelectorAll('.timeline audio[src]').length", vec![]).await == json!(2)
        })
        .await;
    let mut said: Vec<u64> = vec![];
    for line in lines(&phone).await.iter().filter(|l| l["kind"] == "voice") {
        said.push(line["bytes"].as_u64().unwrap());
        let kept = phone.async_script(BYTES, vec![line["sound"].clone()]).await;
        assert_eq!(kept["length"], line["bytes"], "{line}");
        assert!(kept["type"].as_str().unwrap().starts_with("audio/"), "{kept}");
    }
    println!("  {engine}: voice notes of {said:?} bytes");
    // Refused by the user: words, no entry. A stand-in, as the microphone of the tests is always allowed; Firefox and
    // WebKit have none, above.
    let no = "navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException('no', 'NotAllowedError'));";
    phone.script(no, vec![]).await;
    phone.go(&format!("#/stage/survey/{area}")).await;
    phone.click("voice").await;
    phone.see("The microphone is not allowed").await;
    assert_eq!(lines(&phone).await.len(), before + 2);
}

/// The length and type of what is kept beside the log under an id.
const BYTES: &str = "const open = indexedDB.open('coatwalk');
    open.onsuccess = () => {
      const one = open.result.transaction('photos').objectStore('photos').get(arguments[0]);
      one.onsuccess = () => (open.result.close(), done({ length: one.result.bytes.byteLength, type: one.result.type }));
    };";

impl Phone {
    /// What an element says now; it may be hidden or empty.
    async fn text_now(&self, id: &str) -> String {
        let script = "return document.querySelector(`[data-id=\"${arguments[0]}\"]`)?.textContent ?? '';";
        self.script(script, vec![json!(id)]).await.as_str().unwrap_or_default().to_owned()
    }
}

/// So many photos and other lines are put into the store as the app would write them.
const PHOTOS: usize = 2000;
const OTHERS: usize = 3000;
/// More elements than this never stand in the list, however long the job.
const ELEMENTS: u64 = 600;

async fn five_thousand_lines_scroll(engine: Engine) {
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
          for (let n = 0; n < arguments[1]; n++) {
            const id = line.id.slice(0, 24) + (n + 0x100000).toString(16).padStart(12, '0');
            const { v, job, at } = line;
            const what = n % 2 ? { kind: 'reading', air_c: 10 + n / 1000, rh_pct: 60 } : { kind: 'note', stage: 'survey', text: 'word '.repeat(n % 90 + 1) };
            tx.objectStore('entries').put(JSON.stringify({ v, id, job, at, ...what }), `${job}/${id}`);
          }
          tx.oncomplete = () => (db.close(), done('in'));
          tx.onabort = () => done(String(tx.error));
        };";
    phone.session().set_script_timeout(PATIENCE * 6).await.unwrap();
    assert_eq!(phone.async_script(copies, vec![json!(PHOTOS), json!(OTHERS)]).await, json!("in"));
    host.restart();
    phone.go("#/record").await;
    phone.reload().await;
    phone.wait_for("timeline").await;
    phone
        .until("all lines are counted", || async {
            let words = phone.text_now("timeline-count").await;
            words.split(' ').next().and_then(|n| n.parse::<usize>().ok()).is_some_and(|n| n > PHOTOS + OTHERS)
        })
        .await;
    // Down the whole list, a view and a half a frame; then back up, past rows that were measured meanwhile.
    let scroll = r"
        const frames = [];
        let most = 0, elements = 0, last = performance.now(), empty = 0, down = true;
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
          elements = Math.max(elements, document.querySelectorAll('.timeline-all *').length);
          if (!covered()) empty++;
          const bottom = document.documentElement.scrollHeight - innerHeight;
          if (down && scrollY >= bottom - 2) down = false;
          if (!down && scrollY <= 0 || frames.length > 20000) {
            frames.sort((a, b) => a - b);
            return done(JSON.stringify({ frames: frames.length, median: frames[frames.length >> 1], late: frames[Math.floor(frames.length * 0.95)], most, elements, empty }));
          }
          scrollBy(0, down ? 900 : -900);
          requestAnimationFrame(step);
        };
        requestAnimationFrame(step);";
    let start = Instant::now();
    // As text: WebKit's driver does not read these figures.
    let seen = phone.async_script(scroll, vec![]).await;
    let seen: Value = serde_json::from_str(seen.as_str().unwrap()).unwrap();
    println!("  {engine}: {} lines, {} s: {seen}", PHOTOS + OTHERS, start.elapsed().as_secs());
    assert!(seen["most"].as_u64().unwrap() < 60, "too many rows stand in the page: {seen}");
    assert!(seen["elements"].as_u64().unwrap() < ELEMENTS, "too much stands in the page: {seen}");
    assert!(seen["frames"].as_u64().unwrap() > 500, "it did not scroll through: {seen}");
    // Two frames at 60 Hz: the machine of the tests draws without a graphics card.
    assert!(seen["median"].as_f64().unwrap() < 34.0, "{seen}");
    // The small copies come once one stands still.
    // Firefox's driver would bring the list to the lower edge, under the bar.
    phone.script("document.getElementById('filter-sort').scrollIntoView({ block: 'center' });", vec![]).await;
    phone.choose("filter-sort", "photos").await;
    phone.wait_for(".timeline > li[data-sort='photos']").await;
    phone.script("scrollTo(0, 60000);", vec![]).await;
    phone.wait_for(".small-place img[src^='blob:']").await;
    // By what they are about: one tap shows all again.
    phone.script("document.getElementById('filter-sort').scrollIntoView({ block: 'center' });", vec![]).await;
    phone.choose("filter-sort", "readings").await;
    phone.until("only readings", || async {
        phone.script("return [...document.querySelectorAll('.timeline > li')].every((l) => l.dataset.sort === 'readings')", vec![]).await
            == json!(true)
    })
    .await;
    assert!(phone.text_now("timeline-count").await.contains(" of "));
    phone.click("filter-all").await;
    phone.until("all lines are back", || async { !phone.text_now("timeline-count").await.contains(" of ") }).await;
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
    let slider = phone.wait_for("compare-slider").await;
    slider.send_keys(Key::Right + "").await.unwrap();
    phone
        .until("a key moves it", || async { phone.text_now("compare-share").await == "45 % of the photo after" })
        .await;
    let cut = "return document.querySelector('[data-id=compare-after]').style.clipPath";
    assert!(phone.script(cut, vec![]).await.as_str().unwrap().contains("55%"));
    // By finger, from the middle to a quarter: only Chromium's driver has fingers, the others tap.
    slider.scroll_into_view().await.unwrap();
    let place = "const b = document.querySelector('[data-id=compare-slider]').getBoundingClientRect();
        return [b.left, b.top + b.height / 2, b.width];";
    let place = phone.script(place, vec![]).await;
    let [left, y, wide] = [0, 1, 2].map(|i| place[i].as_f64().unwrap());
    if engine == Engine::Chromium {
        let touch = async |kind: &str, at: f64| {
            let points = if kind == "touchEnd" { json!([]) } else { json!([{ "x": left + wide * at, "y": y }]) };
            let event = json!({ "type": kind, "touchPoints": points });
            phone.session().cdp().send_raw("Input.dispatchTouchEvent", event).await.unwrap();
        };
        touch("touchStart", 0.55).await;
        for step in (25..=55).rev().step_by(5) {
            touch("touchMove", f64::from(step) / 100.0).await;
        }
        touch("touchEnd", 0.25).await;
    } else {
        let from_middle = (-0.25 * wide) as i64;
        let tap = phone.session().action_chain().move_to_element_with_offset(&slider, from_middle, 0).click();
        tap.perform().await.unwrap();
    }
    // The knob has a width: a quarter of the bar is not a quarter of its way.
    phone
        .until("a finger moves it", || async {
            let share = phone.text_now("compare-share").await;
            let share = share.split(' ').next().and_then(|n| n.parse::<f64>().ok());
            share.is_some_and(|s| (65.0..=85.0).contains(&s))
        })
        .await;
    // Another photo than the one proposed; the list keeps the keys.
    let shown = |which: &'static str| {
        let script = format!("return document.querySelector('[data-id=compare-{which}] img')?.dataset.photo ?? ''");
        let phone = &phone;
        async move { phone.script(&script, vec![]).await }
    };
    let (before, after) = (shown("before").await, shown("after").await);
    assert!(before != after);
    phone.choose("pick-before", after.as_str().unwrap()).await;
    phone.until("the chosen photo stands before", || async { shown("before").await == after }).await;
    let chosen = phone.script("return document.querySelector('[data-id=pick-before]').value", vec![]).await;
    assert_eq!(chosen, after);
}

/// Puts lines into the store as another phone's would come in: after what is there, a second apart.
async fn put(phone: &Phone, whats: Vec<Value>) {
    let script = r"
        const open = indexedDB.open('coatwalk');
        open.onsuccess = () => {
          const db = open.result, tx = db.transaction('entries', 'readwrite'), store = tx.objectStore('entries');
          const all = store.getAll();
          all.onsuccess = () => {
            const { v, job } = JSON.parse(all.result[0]);
            let ms = Date.now();
            for (const what of arguments[0]) {
              const hex = (ms += 1000).toString(16).padStart(12, '0');
              const id = `${hex.slice(0, 8)}-${hex.slice(8)}-7000-8000-000000000000`;
              store.put(JSON.stringify({ v, id, job, at: new Date(ms).toISOString(), ...what }), `${job}/${id}`);
            }
          };
          tx.oncomplete = () => (db.close(), done('in'));
          tx.onabort = () => done(String(tx.error));
        };";
    assert_eq!(phone.async_script(script, vec![json!(whats)]).await, json!("in"));
}

/// The whole of it as the words of an element and what stands in it.
fn words_in(node: roxmltree::Node) -> String {
    node.descendants().filter(|n| n.is_text()).filter_map(|n| n.text()).collect::<Vec<_>>().join(" ")
}

async fn the_report_is_one_file_that_opens_without_the_app(engine: Engine) {
    let profile = Folder::new("report");
    let (phone, mut host) = example(engine, &profile, vec!["saved.js"]).await;
    host.restart();
    let area = first_area(&phone).await;
    photo(&phone, "survey", &area, "frame.jpg").await;
    photo(&phone, "refit", &area, "bag.jpg").await;
    let every: Vec<Value> = lines(&phone).await.iter().find(|l| l["kind"] == "opened").unwrap()["seeds"]
        .as_array()
        .unwrap()
        .iter()
        .map(|s| s["id"].clone())
        .collect();
    put(
        &phone,
        vec![
            json!({ "kind": "went_on", "stage": "mend", "areas": [area], "gate": "order",
                "because": "Dry is still open on one area", "reason": "Sun & wind <all> day, \"dry\" by 4 = so I went on" }),
            json!({ "kind": "reading", "air_c": 17.3, "rh_pct": 61.0, "steel_c": 13.9 }),
            json!({ "kind": "done", "stage": "first_pass", "areas": every }),
            json!({ "kind": "reading", "air_c": 16.4, "rh_pct": 58.0, "steel_c": 14.6 }),
            json!({ "kind": "done", "stage": "second_pass", "areas": every }),
            json!({ "kind": "used", "stage": "second_pass", "item": "film_liquid", "amount": 3.25 }),
            json!({ "kind": "worked", "stage": "dewax", "minutes": 90.0, "hands": 2 }),
        ],
    )
    .await;
    phone.reload().await;
    phone.go("#/record").await;
    phone.click("report").await;
    phone.wait_for("article img[src^='blob:']").await;
    phone.script("window.savedFiles.length = 0;", vec![]).await;
    phone.click("make-file").await;
    // A browser may have a share sheet for it; saving is the same file.
    phone
        .until("the file is made", || async { phone.has("save-file").await || phone.has("hand-over-answer").await })
        .await;
    if phone.has("save-file").await {
        phone.click("save-file").await;
    }
    phone.wait_for("hand-over-answer").await;
    let text = phone.async_script("window.savedFiles.at(-1).text().then(done);", vec![]).await;
    let html = text.as_str().unwrap();
    println!("  {engine}: {} bytes", html.len());
    for outside in ["<script", "http:", "https:", "url(", "@import", " href", "srcset"] {
        assert!(!html.contains(outside), "it asks for something outside: {outside}");
    }
    // Read back by a reader that had no part in writing it, and held against the log.
    let doc = roxmltree::Document::parse(html.strip_prefix("<!doctype html>\n").unwrap()).unwrap();
    let chapter = |id: &str| {
        let found = doc.descendants().find(|n| n.attribute("id") == Some(&format!("report-{id}")));
        words_in(found.unwrap_or_else(|| panic!("no chapter {id}")))
    };
    let log = lines(&phone).await;
    let mut cells = [BTreeSet::new(), BTreeSet::new()];
    let (mut gone_past, mut made_safe) = (0, BTreeSet::new());
    for line in &log {
        let kind = line["kind"].as_str().unwrap();
        if matches!(kind, "went_on" | "skipped") {
            gone_past += 1;
            let told = chapter("gone-past");
            for words in ["reason", "because"].iter().filter_map(|f| line[f].as_str()) {
                assert!(told.contains(words), "{words} is missing in: {told}");
            }
        }
        if kind == "made_safe" {
            // The second of its moment is not told: what was answered in one minute before one stage is one row.
            made_safe.insert((line["at"].as_str().unwrap()[..16].to_owned(), line["stage"].to_string()));
        }
        if let Some(which) = ["done", "skipped"].iter().position(|k| *k == kind) {
            let areas = line["areas"].as_array().unwrap().iter();
            cells[which].extend(areas.map(|a| (line["stage"].to_string(), a.to_string())));
        }
    }
    assert!(gone_past > 1 && made_safe.len() > 5, "{gone_past} gone past, {made_safe:?}");
    let rows = |id: &str| {
        let found = doc.descendants().find(|n| n.attribute("id") == Some(&format!("report-{id}"))).unwrap();
        found.descendants().filter(|n| n.has_tag_name("tr")).map(words_in).collect::<Vec<_>>()
    };
    assert_eq!(rows("made-safe").len(), made_safe.len() + 1);
    let stages = chapter("stages");
    assert_eq!(stages.matches("\u{25cf} done").count(), cells[0].len());
    assert_eq!(stages.matches("\u{2715} left out").count(), cells[1].difference(&cells[0]).count());
    for (pass, figures) in [("First pass", ["17.3", "61 %", "13.9"]), ("Second pass", ["16.4", "58 %", "14.6"])] {
        let all = rows("conditions");
        let row = all.iter().find(|r| r.starts_with(pass)).unwrap_or_else(|| panic!("no {pass}: {all:?}"));
        assert!(row.contains("whole machine") && figures.iter().all(|f| row.contains(f)), "{row}");
    }
    let film = chapter("film");
    let used = rows("work").into_iter().find(|r| r.starts_with("Film, liquid")).unwrap_or_default();
    assert!(film.contains("3.25 L") && used.contains("3.25 L"), "{film}; {used}");
    let hours = rows("work");
    assert!(hours.iter().any(|r| r.starts_with("Dewax") && r.contains("1.5 h") && r.contains("3.0 h")), "{hours:?}");
    // Every photo in it is the very photo that is kept.
    let kept = "const open = indexedDB.open('coatwalk');
        open.onsuccess = () => {
          const all = open.result.transaction('photos').objectStore('photos').getAll();
          all.onsuccess = async () => {
            open.result.close();
            const address = (p) => new Promise((ok) => {
              const reader = new FileReader();
              reader.onload = () => ok(reader.result);
              reader.readAsDataURL(new Blob([p.bytes], { type: p.type }));
            });
            done(await Promise.all(all.result.map(address)));
          };
        };";
    let kept = phone.async_script(kept, vec![]).await;
    let kept: BTreeSet<&str> = kept.as_array().unwrap().iter().map(|a| a.as_str().unwrap()).collect();
    let in_it: BTreeSet<&str> =
        doc.descendants().filter(|n| n.has_tag_name("img")).map(|n| n.attribute("src").unwrap()).collect();
    assert_eq!((in_it.len(), in_it == kept), (2, true), "the photos are not those of the store");
    // Opened from a disk, in a page that never saw the app.
    let folder = Folder::new("opened");
    let file = folder.path().join("report.html");
    std::fs::write(&file, html).unwrap();
    phone.open(&format!("file://{}", file.display())).await;
    phone.see("It certifies nothing").await;
    let shown = "return [...document.images].map((i) => i.complete && i.naturalWidth > 100).join()";
    phone.until("its photos are shown", || async { phone.script(shown, vec![]).await == json!("true,true") }).await;
}

/// Chromium's printer alone can be asked for the size that the page itself names. Firefox is told its paper by the driver and
/// packs what it prints, so that its sheets can't be counted here; WebKit's driver does not print.
async fn the_report_fits_its_paper(engine: Engine) {
    if engine != Engine::Chromium {
        println!("  {engine}: nothing to show");
        return;
    }
    let profile = Folder::new("paper");
    let (phone, _host) = example(engine, &profile, vec![]).await;
    phone.go("#/record/report").await;
    phone.wait_for("article h1").await;
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
        println!("  {engine}: {choice}: {sheets} sheets, {} bytes, {:?}", pdf.len(), boxes.first());
        assert!((3..=8).contains(&sheets), "{sheets} sheets");
        assert!(boxes.len() >= sheets);
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
