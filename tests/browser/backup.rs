//! A backup leaves one phone as a file and comes in on another, whichever engine that has.

use std::collections::BTreeMap;
use std::io::{Cursor, Read, Write};
use std::path::{Path, PathBuf};
use std::process::Command;

use chrono::{DateTime, TimeDelta, Utc};
use coatwalk::job::entry::{Entry, VERSION, What};
use coatwalk::job::moment;
use coatwalk::job::stage::Stage;
use coatwalk::share::backup::check::Seal;
use coatwalk::share::backup::write::{Writer, lines};
use coatwalk::share::backup::{Media, Role};
use serde_json::{Value, json};
use uuid::Uuid;

use crate::harness::*;

in_every_engine!(
    a_backup_brings_everything_to_another_phone,
    a_bad_file_changes_nothing,
    two_phones_become_one,
    a_killed_import_is_finished_by_the_next,
    the_share_sheet_takes_it,
);

/// A product as an earlier day left it on the shelf (invented).
const PRODUCT: (&str, &str) = (
    "019a0000-00f1-7000-8000-0000000000f1",
    r#"{"v":1,"id":"019a0000-00f1-7000-8000-0000000000f1","used_as":"liquid_film","name":"Sample film (invented)"}"#,
);

impl Phone {
    /// Everything that is stored, by key; bytes as hexadecimal digits.
    async fn kept(&self) -> Value {
        let script = r"
            const open = indexedDB.open('coatwalk');
            open.onerror = () => done(String(open.error));
            open.onsuccess = () => {
                const names = ['entries', 'photos', 'shelf'];
                const transaction = open.result.transaction(names);
                const all = {};
                const hex = (b) => [...new Uint8Array(b)].map((n) => n.toString(16).padStart(2, '0')).join('');
                const plain = (v) => (v.bytes ? { job: v.job, type: v.type, bytes: hex(v.bytes) } : v);
                for (const name of names) {
                    const [keys, values] = [transaction.objectStore(name).getAllKeys(), transaction.objectStore(name).getAll()];
                    values.onsuccess = () =>
                        (all[name] = Object.fromEntries(keys.result.map((key, i) => [key, plain(values.result[i])])));
                }
                transaction.oncomplete = () => (open.result.close(), done(all));
            };";
        self.async_script(script, vec![]).await
    }

    /// A product put on the shelf, as its own screen does.
    async fn shelve(&self) {
        let script = "
            const open = indexedDB.open('coatwalk');
            open.onsuccess = () => {
                const transaction = open.result.transaction('shelf', 'readwrite');
                transaction.objectStore('shelf').put(arguments[1], arguments[0]);
                transaction.oncomplete = () => (open.result.close(), done('put'));
            };";
        assert_eq!(self.async_script(script, vec![json!(PRODUCT.0), json!(PRODUCT.1)]).await, json!("put"));
    }

    /// The last file that was handed to the downloads.
    async fn saved_file(&self) -> Vec<u8> {
        let script = "
            window.savedFiles.at(-1).arrayBuffer().then((bytes) =>
                done([...new Uint8Array(bytes)].map((n) => n.toString(16).padStart(2, '0')).join('')));";
        let hex = self.async_script(script, vec![]).await;
        let hex = hex.as_str().unwrap().as_bytes();
        hex.chunks(2).map(|pair| u8::from_str_radix(std::str::from_utf8(pair).unwrap(), 16).unwrap()).collect()
    }

    /// A note on the survey.
    async fn note(&self, text: &str) {
        self.go("#/stage/survey").await;
        self.fill("note-text", text).await;
        self.click("note-save").await;
        self.until("the note is kept", || async { self.words().await.contains(text) }).await;
        let field = r#"return document.querySelector('[data-id="note-text"]').value;"#;
        self.until("the field is empty", || async { self.script(field, vec![]).await == json!("") }).await;
    }

    /// Makes a backup of everything and gives its bytes.
    async fn back_up(&self) -> Vec<u8> {
        self.go("#/record/backup").await;
        self.click("backup-all").await;
        self.wait_for("backup-ready").await;
        self.see("Handed to the downloads.").await;
        self.saved_file().await
    }

    /// Chooses a file to bring in.
    async fn choose_backup(&self, file: &Path) {
        // Away and back: a fresh screen.
        self.go("#/settings").await;
        self.go("#/record/bring").await;
        self.until("a file can be chosen", || async { self.has("bring-file").await }).await;
        self.upload("bring-file", file).await;
    }

    /// Brings a file in that has something new.
    async fn bring_in(&self, file: &Path) {
        self.choose_backup(file).await;
        self.click("bring-in").await;
        self.wait_for("bring-done").await;
    }
}

async fn start(engine: Engine, profile: &Folder, host: &Host) -> Phone {
    let phone = Phone::start(engine, profile.path()).await;
    phone.open(&host.url).await;
    phone.until("the app starts", || async { phone.has("#screen h1").await }).await;
    phone
}

fn host() -> Host {
    Host::start(Serve { inject: vec!["saved.js"], ..Serve::default() })
}

async fn open_trailer(phone: &Phone) {
    phone.click("start-job").await;
    phone.click("kind-trailer").await;
    phone.fill("job-name", "Grey trailer, Übung").await;
    phone.click("open-job").await;
    phone.wait_for("go").await;
}

fn write(folder: &Folder, name: &str, bytes: &[u8]) -> PathBuf {
    let path = folder.path().join(name);
    std::fs::write(&path, bytes).unwrap();
    path
}

/// By key: a driver hands an object over in any order.
fn rows(kept: &Value, store: &str) -> BTreeMap<String, Value> {
    kept[store].as_object().unwrap().clone().into_iter().collect()
}

fn count(kept: &Value, store: &str) -> usize {
    kept[store].as_object().unwrap().len()
}

async fn a_backup_brings_everything_to_another_phone(engine: Engine) {
    let (profile, files, host) = (Folder::new("backup"), Folder::new("file"), host());
    let phone = start(engine, &profile, &host).await;
    open_trailer(&phone).await;
    phone.note("Rust under the step, left “so”").await;
    phone.upload("photo-input", &beside("photos/frame.jpg")).await;
    phone.wait_for("img.photo").await;
    phone.shelve().await;
    phone.go("#/record").await;
    phone.see("No backup yet: 3 entries and 1 photo are on this phone only.").await;

    let bytes = phone.back_up().await;
    let name = phone.text("backup-name").await;
    assert!(name.starts_with("coatwalk-backup-20") && name.len() == "coatwalk-backup-2026-10-05.zip".len(), "{name}");
    phone.see("1 job, 3 entries and 1 photo").await;
    phone.wait_gone("backup-due").await;
    phone.wait_for("backup-last").await;
    let kept = phone.kept().await;
    assert_eq!((count(&kept, "entries"), count(&kept, "photos"), count(&kept, "shelf")), (3, 1, 1));
    let file = write(&files, &name, &bytes);
    unpacked_by_others(&file, &files, &kept);

    // What is written later is named until the next backup, on the record and in the list.
    phone.note("after the backup").await;
    phone.go("#/record").await;
    phone.see("1 entry is newer than the last backup.").await;
    phone.go("#/jobs").await;
    phone.see("1 entry is newer than the last backup.").await;
    drop(phone);

    // Another phone: of this engine, and of each other one that is asked for.
    for other in [Engine::Chromium, Engine::Firefox, Engine::WebKit] {
        if !other.asked_for() {
            continue;
        }
        let profile = Folder::new("other");
        let phone = start(other, &profile, &host).await;
        // The way of someone with a new phone: from the very first screen.
        phone.click("bring").await;
        phone.until("a file can be chosen", || async { phone.has("bring-file").await }).await;
        phone.upload("bring-file", &file).await;
        assert_eq!(phone.text("bring-new").await, "3 new entries and 1 new photo.");
        phone.see("1 new product for the shelf.").await;
        phone.see("not on this phone yet, 3 entries").await;
        let before = phone.kept().await;
        assert_eq!((count(&before, "entries"), count(&before, "photos"), count(&before, "shelf")), (0, 0, 0));
        phone.click("bring-in").await;
        phone.wait_for("bring-done").await;
        phone.see("3 entries and 1 photo came in.").await;
        assert!(phone.kept().await == kept, "what came in is not what went out");

        phone.choose_backup(&file).await;
        assert_eq!(phone.text("bring-new").await, "Nothing new.");
        phone.wait_for("bring-nothing").await;
        assert!(!phone.has("bring-in").await, "nothing new, and yet it can be brought in");
        assert!(phone.kept().await == kept, "brought in twice, it is another");

        // And it is a job like any other.
        phone.go("#/jobs").await;
        phone.click("[data-job]").await;
        phone.wait_for("go").await;
        phone.note("written on the other phone").await;
        phone.wait_for("img.photo").await;
        assert_eq!(count(&phone.kept().await, "entries"), 4);
        println!("    {engine} → {other}: {} bytes, the same on both", bytes.len());
    }
}

/// Info-ZIP's `unzip` opens it, coreutils' `sha256sum` finds every digest right, and what lies there is what was stored.
fn unpacked_by_others(file: &Path, folder: &Folder, kept: &Value) {
    let out = folder.path().join("unpacked");
    assert!(Command::new("unzip").arg("-q").arg(file).arg("-d").arg(&out).status().unwrap().success());
    let sums =
        Command::new("sha256sum").args(["--strict", "-c", "manifest.sha256"]).current_dir(&out).output().unwrap();
    let said = String::from_utf8_lossy(&sums.stdout);
    assert!(sums.status.success(), "{said}");
    assert_eq!(said.lines().count(), 4, "README, shelf, log, photo: {said}");
    let entries = rows(kept, "entries");
    let job = entries.keys().next().unwrap().split('/').next().unwrap();
    let log: String = entries.values().map(|line| format!("{}\n", line.as_str().unwrap())).collect();
    assert_eq!(std::fs::read_to_string(out.join(format!("job-{job}/job.jsonl"))).unwrap(), log);
    assert_eq!(std::fs::read_to_string(out.join("products.jsonl")).unwrap(), format!("{}\n", PRODUCT.1));
    for (id, photo) in rows(kept, "photos") {
        let bytes = std::fs::read(out.join(format!("job-{job}/photos/{id}.jpg"))).unwrap();
        let hex: String = bytes.iter().map(|b| format!("{b:02x}")).collect();
        assert!(photo["bytes"] == json!(hex), "{id}.jpg has other bytes");
    }
}

fn made() -> DateTime<Utc> {
    moment::read("2026-10-05T12:34:56.000Z").unwrap()
}

fn sample_job() -> Uuid {
    Uuid::try_parse("019a0000-0000-7000-8000-000000000000").unwrap()
}

fn sample() -> String {
    std::fs::read_to_string(project().join("tests/samples/v1.jsonl")).unwrap()
}

fn photo_id(n: usize) -> Uuid {
    Uuid::from_u128(0x019a_0000_0fff_7000_8000_0000_0000_0000 + n as u128)
}

/// A JPEG by its first bytes, else noise: no two are the same.
fn photo(n: usize, bytes: usize) -> Vec<u8> {
    let mut x = n as u32 + 1;
    let mut noise = || {
        x = x.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (x >> 24) as u8
    };
    let mut all = vec![0xff, 0xd8, 0xff, 0xe0];
    all.extend(std::iter::repeat_with(&mut noise).take(bytes - 4));
    all
}

/// The sample job with so many photos of so many bytes, as one backup.
fn big(photos: usize, bytes: usize) -> Vec<u8> {
    let entries = (0..photos).map(|n| Entry {
        v: VERSION,
        id: Uuid::from_u128(0x019a_0000_0eee_7000_8000_0000_0000_0000 + n as u128),
        job: sample_job(),
        at: made() + TimeDelta::seconds(n as i64),
        by: String::new(),
        what: What::Photo {
            stage: Stage::Survey,
            area: None,
            bag: None,
            photo: photo_id(n),
            mime: "image/jpeg".into(),
            bytes: bytes as u32,
            width_px: 1,
            height_px: 1,
        },
    });
    let log = sample() + lines(entries.map(|e| e.line())).as_str();
    let (mut w, mut out) = Writer::new(made(), &[(sample_job(), "Sample trailer (invented)")]).unwrap();
    out.extend(w.text(Role::Log { job: sample_job() }, &log).unwrap());
    for n in 0..photos {
        let bytes = photo(n, bytes);
        let role = Role::Media { job: sample_job(), id: photo_id(n), media: Media::Jpeg };
        out.extend(w.before(role, &Seal::of(&bytes)).unwrap());
        out.extend(bytes);
    }
    out.extend(w.end().unwrap());
    out
}

/// The same files in another ZIP, each through `change`.
fn zipped_anew(from: &[u8], how: zip::CompressionMethod, change: impl Fn(&str, Vec<u8>) -> Vec<u8>) -> Vec<u8> {
    let mut old = zip::ZipArchive::new(Cursor::new(from)).unwrap();
    let mut new = zip::ZipWriter::new(Cursor::new(Vec::new()));
    let options = zip::write::SimpleFileOptions::default().compression_method(how);
    for n in 0..old.len() {
        let mut file = old.by_index(n).unwrap();
        let name = file.name().unwrap().into_owned();
        let mut bytes = Vec::new();
        file.read_to_end(&mut bytes).unwrap();
        new.start_file(&name, options).unwrap();
        new.write_all(&change(&name, bytes)).unwrap();
    }
    new.finish().unwrap().into_inner()
}

async fn a_bad_file_changes_nothing(engine: Engine) {
    let (profile, files, host) = (Folder::new("bad"), Folder::new("file"), host());
    let good = big(3, 200_000);
    let place = good.windows(4).position(|w| w == b"Rust").unwrap();
    let mut flipped = good.clone();
    flipped[place] = b'B';
    let stored = zip::CompressionMethod::Stored;
    let edited = zipped_anew(&good, stored, |name, bytes| match name.ends_with("job.jsonl") {
        true => String::from_utf8(bytes).unwrap().replace("Rust", "None").into_bytes(),
        false => bytes,
    });
    let later = zipped_anew(&good, stored, |name, bytes| match name {
        "README.txt" => String::from_utf8(bytes).unwrap().replace("format 1", "format 9").into_bytes(),
        _ => bytes,
    });
    let bad: [(&str, Vec<u8>, &str); 7] = [
        ("no-zip.zip", b"no ZIP at all".to_vec(), "This is not a backup: it is no ZIP file. Nothing was taken in."),
        ("empty.zip", vec![], "This is not a backup: it is no ZIP file. Nothing was taken in."),
        ("cut.zip", good[..good.len() - 100].to_vec(), "The end of this backup is missing."),
        ("half.zip", good[..good.len() / 2].to_vec(), "The end of this backup is missing."),
        ("flipped.zip", flipped, "is damaged: its check sum is another one."),
        ("edited.zip", edited, "was changed after the backup was made."),
        ("later.zip", later, "A later Coatwalk wrote this"),
    ];
    let phone = start(engine, &profile, &host).await;
    open_trailer(&phone).await;
    phone.note("here before").await;
    let kept = phone.kept().await;
    for (name, bytes, words) in bad {
        phone.choose_backup(&write(&files, name, &bytes)).await;
        let said = phone.text("bring-bad").await;
        assert!(said.contains(words) && said.ends_with("Nothing was taken in."), "{name}: {said}");
        assert!(!phone.has("bring-in").await, "{name} can be brought in");
        assert!(phone.kept().await == kept, "{name} changed something");
    }

    // Packed anew by another tool it is the same backup; what it lacks is named.
    let packed = zipped_anew(&good, zip::CompressionMethod::Deflated, |_, bytes| bytes);
    phone.choose_backup(&write(&files, "packed.zip", &packed)).await;
    phone.see("2 photos or voice notes are neither here nor in the file.").await;
    phone.click("bring-in").await;
    phone.wait_for("bring-done").await;
    let now = phone.kept().await;
    assert_eq!(count(&now, "photos"), 3);
    assert_eq!(count(&now, "entries"), count(&kept, "entries") + sample().lines().count() + 3);
    for (n, (id, kept)) in rows(&now, "photos").into_iter().enumerate() {
        let hex: String = photo(n, 200_000).iter().map(|b| format!("{b:02x}")).collect();
        assert_eq!(id, photo_id(n).to_string());
        assert!(kept["bytes"] == json!(hex), "photo {n} has other bytes");
    }

    // A line that is here with another content stays as it is.
    let other = zipped_anew(&good, stored, |name, bytes| match name {
        _ if name.ends_with("job.jsonl") => String::from_utf8(bytes).unwrap().replace("Rust", "None").into_bytes(),
        "manifest.sha256" => manifest_with(&good, bytes),
        _ => bytes,
    });
    phone.choose_backup(&write(&files, "other.zip", &other)).await;
    assert_eq!(phone.text("bring-new").await, "Nothing new.");
    phone.see("1 entry is here with another content: the one here stays.").await;
    assert!(phone.kept().await == now);
}

/// The list of digests for the log in which "Rust" became "None".
fn manifest_with(good: &[u8], manifest: Vec<u8>) -> Vec<u8> {
    let hex = |bytes: &[u8]| -> String { Seal::of(bytes).sha256.iter().map(|b| format!("{b:02x}")).collect() };
    let mut zip = zip::ZipArchive::new(Cursor::new(good)).unwrap();
    let mut log = String::new();
    zip.by_name(&format!("job-{}/job.jsonl", sample_job())).unwrap().read_to_string(&mut log).unwrap();
    let (old, new) = (hex(log.as_bytes()), hex(log.replace("Rust", "None").as_bytes()));
    String::from_utf8(manifest).unwrap().replace(&old, &new).into_bytes()
}

/// Two people at one machine, each with his phone: what the other lacks goes over, and what both did is named.
async fn two_phones_become_one(engine: Engine) {
    let (files, host) = (Folder::new("file"), host());
    let (first, second) = (Folder::new("first"), Folder::new("second"));
    let phone = start(engine, &first, &host).await;
    open_trailer(&phone).await;
    phone.go("#/settings").await;
    phone.fill("setting-name", "Person one").await;
    let start_file = write(&files, "start.zip", &phone.back_up().await);
    finish_survey(&phone).await;
    phone.go("#/record/backup").await;
    phone.click(r#"[data-id="swap"] summary"#).await;
    phone.click("swap-show").await;
    let has = phone.text("swap-mine").await;
    assert!(has.starts_with("coatwalk has 1"), "{has}");
    drop(phone);

    let phone = start(engine, &second, &host).await;
    phone.go("#/record/bring").await;
    phone.bring_in(&start_file).await;
    phone.click("open-brought").await;
    phone.wait_for("go").await;
    phone.go("#/settings").await;
    phone.fill("setting-name", "Person two").await;
    finish_survey(&phone).await;
    phone.note("seen by the second").await;
    phone.go("#/record/backup").await;
    phone.click(r#"[data-id="swap"] summary"#).await;
    phone.fill("swap-theirs", "mud").await;
    phone.click("swap-send").await;
    phone.see("This is not what another phone has.").await;
    phone.fill("swap-theirs", "").await;
    let put = "const field = document.querySelector('[data-id=\"swap-theirs\"]');
        field.value = arguments[0];
        field.dispatchEvent(new Event('input', { bubbles: true }));";
    phone.script(put, vec![json!(has)]).await;
    phone.click("swap-send").await;
    phone.wait_for("backup-ready").await;
    let lacking = write(&files, "lacking.zip", &phone.saved_file().await);
    let theirs = phone.kept().await;
    drop(phone);

    let phone = start(engine, &first, &host).await;
    let ours = phone.kept().await;
    phone.bring_in(&lacking).await;
    assert!(phone.text("bring-conflicts").await.contains("was finished twice: by Person one"));
    let both = phone.kept().await;
    let union: serde_json::Map<String, Value> =
        [&ours, &theirs].iter().flat_map(|k| k["entries"].as_object().unwrap().clone()).collect();
    assert_eq!(both["entries"], Value::Object(union), "the union of both phones");
    // The open job shows it at once, without a reload.
    phone.go("#/stage/survey").await;
    phone.see("seen by the second").await;
    // An id above everything that came in: the next entry is the newest.
    phone.note("and on").await;
    let kept = phone.kept().await;
    let last = rows(&kept, "entries").values().last().unwrap().as_str().unwrap().to_owned();
    assert!(last.contains("and on"), "{last}");
}

async fn finish_survey(phone: &Phone) {
    phone.go("#/stage/survey").await;
    phone.make_safe().await;
    phone.every_area().await;
}

/// Killed while photos come in: no entry without its photo, and the same file brings the rest.
async fn a_killed_import_is_finished_by_the_next(engine: Engine) {
    const PHOTOS: usize = 60;
    const KILLS: usize = 4;
    let (profile, files, host) = (Folder::new("killed"), Folder::new("file"), host());
    let file = write(&files, "big.zip", &big(PHOTOS, 1_000_000));
    let mut chance = Chance::new("moments of the kills");
    let mut phone = start(engine, &profile, &host).await;
    let (mut partly, mut before) = (0, 0);
    for kill in 1..=KILLS {
        phone.go("#/record/bring").await;
        phone.choose_backup(&file).await;
        phone.until("it is checked", || async { phone.has("bring-preview").await }).await;
        if !phone.has("bring-in").await {
            break;
        }
        phone.click("bring-in").await;
        // From the first transaction on; before it a kill would prove nothing.
        let begun = "const word = document.querySelector('[data-id=\"bring-progress\"]')?.textContent ?? '';
            return document.querySelector('[data-id=\"bring-done\"]') !== null || Number(word.match(/Writing: (\\d+)/)?.[1]) > arguments[0];";
        let first = if before == 0 { sample().lines().count() + 8 } else { 8 };
        phone
            .until("it writes", || async { phone.try_script(begun, vec![json!(first)]).await == Some(json!(true)) })
            .await;
        let wait = std::time::Duration::from_millis(chance.between(0, 150));
        tokio::time::sleep(wait).await;
        phone.kill();
        phone.restart().await;
        phone.open(&host.url).await;
        phone.until("the app starts", || async { phone.has("#screen h1").await }).await;
        let (entries, photos, alone) = what_came(&phone).await;
        println!(
            "    {engine}: kill {kill} after {} ms: {entries} entries, {photos} photos are in",
            wait.as_millis()
        );
        assert_eq!(alone, 0, "photos that no entry names, or entries whose photo is missing");
        partly += usize::from(photos > before && photos < PHOTOS);
        before = photos;
    }
    phone.choose_backup(&file).await;
    phone.until("it is checked", || async { phone.has("bring-preview").await }).await;
    if phone.has("bring-in").await {
        phone.click("bring-in").await;
        phone.wait_for("bring-done").await;
    }
    assert_eq!(what_came(&phone).await, (sample().lines().count() + PHOTOS, PHOTOS, 0));
    println!("    {engine}: {partly} kills hit it half way");
    assert!(partly > 0, "no kill hit it half way: this proved nothing");
}

/// Entries, photos, and how many of one stand there without the other (the sample's own photo was never in the file).
async fn what_came(phone: &Phone) -> (usize, usize, usize) {
    let script = r#"
        const open = indexedDB.open('coatwalk');
        open.onsuccess = () => {
            const transaction = open.result.transaction(['entries', 'photos']);
            const lines = transaction.objectStore('entries').getAll();
            const ids = transaction.objectStore('photos').getAllKeys();
            transaction.oncomplete = () => {
                open.result.close();
                const named = lines.result.map((l) => JSON.parse(l)).filter((e) => e.kind === 'photo').map((e) => e.photo);
                const ours = named.filter((id) => id !== '019a0000-0009-7000-8000-000000000009');
                const alone = ours.filter((id) => !ids.result.includes(id)).length + ids.result.filter((id) => !ours.includes(id)).length;
                done([lines.result.length, ids.result.length, alone]);
            };
        };"#;
    serde_json::from_value(phone.async_script(script, vec![]).await).unwrap()
}

/// Where there is a share sheet it is asked first; given up it changes nothing, refused it becomes a download.
async fn the_share_sheet_takes_it(engine: Engine) {
    let (profile, host) =
        (Folder::new("sheet"), Host::start(Serve { inject: vec!["saved.js", "sheet.js"], ..Serve::default() }));
    let phone = start(engine, &profile, &host).await;
    open_trailer(&phone).await;
    phone.go("#/record/backup").await;
    phone.click("backup-job").await;
    phone.see("The backup is made. Hand it over now.").await;
    assert!(phone.text("backup-name").await.ends_with("-grey-trailer-bung.zip"), "{}", phone.words().await);
    // Given up: not handed over, and not counted as a backup.
    phone.script("window.sheetSays = 'AbortError';", vec![]).await;
    phone.click("backup-share").await;
    tokio::time::sleep(std::time::Duration::from_millis(300)).await;
    phone.see("The backup is made. Hand it over now.").await;
    phone.see("No backup yet: 1 entry is on this phone only.").await;
    phone.script("window.sheetSays = 'yes';", vec![]).await;
    phone.click("backup-share").await;
    phone.see("Handed to another app.").await;
    phone.wait_gone("backup-due").await;
    let shared = phone.script("return window.sharedNames;", vec![]).await;
    assert_eq!(shared[1], "application/zip");
    assert_eq!(phone.script("return window.savedFiles.length;", vec![]).await, json!(0));
    phone.script("window.sheetSays = 'NotAllowedError';", vec![]).await;
    phone.click("backup-share").await;
    phone.see("Handed to the downloads.").await;
    assert_eq!(phone.saved_file().await.len().to_string(), shared[2].as_str().unwrap());
}
