//! The whole walk, as a man in a shed does it: server off from after the first load on, from opening a job to its close.

use serde_json::{Value, json};
use thirtyfour::prelude::*;

use crate::harness::*;

in_every_engine!(
    the_whole_walk_without_signal,
    typed_rubbish_gets_an_answer_and_nothing_is_lost,
    two_tabs_stay_in_step,
    a_newer_log_is_only_read,
    the_example_can_be_looked_round,
);

/// Starts the app, waits until it is on the phone, and takes the signal away.
async fn phone_without_signal(engine: Engine, profile: &Folder) -> (Phone, Host) {
    let mut host = Host::start(Serve::default());
    let phone = Phone::start(engine, profile.path()).await;
    phone.open(&host.url).await;
    phone.wait_ready_offline().await;
    phone.click("ready-offline-ok").await;
    host.stop();
    (phone, host)
}

impl Phone {
    pub async fn count(&self, css: &str) -> usize {
        self.session().find_all(By::Css(css)).await.map_or(0, |all| all.len())
    }

    /// Taps every one that matches, each after the one before it is durable.
    async fn tap_all(&self, css: &str) {
        loop {
            let before = self.count(css).await;
            if before == 0 {
                return;
            }
            self.click(css).await;
            self.until(&format!("{css}: one less than {before}"), || async { self.count(css).await < before }).await;
        }
    }

    /// Answers every safety point of the stage in view.
    pub async fn make_safe(&self) {
        self.wait_for("stage-count").await;
        const POINT: &str = r#"[data-weight="safety"]"#;
        while let Ok(point) = self.session().find(By::Css(POINT)).await {
            let id = point.attr("data-gate").await.unwrap().unwrap();
            self.click(&format!(r#"[data-gate="{id}"] [data-id="made-safe"]"#)).await;
            self.wait_gone(&format!(r#"[data-gate="{id}"]"#)).await;
        }
    }

    /// Leaves out every stage up to the first pass, and stands before the second one with all made safe.
    pub async fn before_second_pass(&self) {
        const BEFORE: [&str; 11] = [
            "survey",
            "take-off",
            "cover",
            "wipe",
            "dewax",
            "degrease",
            "neutralise",
            "dry",
            "mend",
            "mask",
            "first-pass",
        ];
        for stage in BEFORE {
            self.go(&format!("#/stage/{stage}")).await;
            self.click("not-apply").await;
            self.wait_for("next-stage").await;
        }
        self.go("#/stage/second-pass").await;
        self.make_safe().await;
        self.bare_seen().await;
    }

    /// Answers the keep-bare list of the pass in view.
    pub async fn bare_seen(&self) {
        self.click("bare-seen").await;
        self.wait_gone(r#"[data-gate="keep-bare"]"#).await;
    }

    /// Finishes the stage in view on every area, one by one.
    pub async fn every_area(&self) {
        self.tap_all(r#".area-by-area [data-id="area-done"]"#).await;
        self.wait_for("next-stage").await;
    }

    /// Finishes the stage in view in one tap.
    pub async fn in_one(&self) {
        self.click("all-done").await;
        self.wait_for("next-stage").await;
    }

    /// Goes on to the next stage and checks that it is the one meant.
    async fn next_is(&self, title: &str) {
        self.click("next-stage").await;
        self.until(&format!("{title} comes up"), || async { self.text("#screen h1").await == title }).await;
    }

    /// Keeps a reading of air, humidity and steel.
    pub async fn reading(&self, air: &str, rh: &str, steel: &str) {
        self.fill("reading-air", air).await;
        self.fill("reading-rh", rh).await;
        self.fill("reading-steel", steel).await;
        self.click("reading-keep").await;
        let field = r#"return document.querySelector('[data-id="reading-air"]').value;"#;
        self.until("the reading is kept", || async { self.script(field, vec![]).await == json!("") }).await;
    }

    /// Lets time pass: the page's clock goes on by so many minutes.
    pub async fn minutes_pass(&self, minutes: f64) {
        let script = r"
            const Real = window.RealDate ?? Date;
            window.RealDate = Real;
            window.ahead = (window.ahead ?? 0) + arguments[0] * 60000;
            window.Date = class extends Real {
                constructor(...given) { given.length ? super(...given) : super(Real.now() + window.ahead); }
                static now() { return Real.now() + window.ahead; }
            };";
        self.script(script, vec![json!(minutes)]).await;
        // The app looks at the clock once a second.
        tokio::time::sleep(std::time::Duration::from_millis(1300)).await;
    }

    /// Fills one bag from wherever "Fill a bag" is in view, and comes back to the bags.
    async fn fill_bag(&self, number: u32, area: usize, part: &str, size: &str, length: &str, count: &str) {
        self.click("new-bag").await;
        self.until("the bag's number is shown", || async {
            self.text("bag-number").await.contains(&number.to_string())
        })
        .await;
        self.click(&format!("fieldset .chip:nth-of-type({area})")).await;
        self.fill("bag-part", part).await;
        self.fill("bag-size-0", size).await;
        self.fill("bag-length-0", length).await;
        self.fill("bag-count-0", count).await;
        self.click("bag-fill").await;
        self.wait_for("bag-back").await;
    }
}

async fn the_whole_walk_without_signal(engine: Engine) {
    let profile = Folder::new("walk");
    let (phone, host) = phone_without_signal(engine, &profile).await;
    let photos = beside("photos");

    // A job is opened from a kind, one area left out at once, others changed afterwards.
    phone.click("start-job").await;
    phone.click("kind-trailer").await;
    phone.fill("job-name", "Grey trailer, autumn").await;
    phone.click("open-job").await;
    phone.wait_for("go").await;
    phone.click("place-machine").await;
    phone.click("edit-areas").await;
    phone.wait_for("li[data-area]").await;
    let areas = phone.count("li[data-area]").await;
    phone.click(r#"[data-id="area-rename-open"]"#).await;
    phone.fill("area-rename", "Drawbar and eye").await;
    phone.click("area-rename-save").await;
    phone.see("Drawbar and eye").await;
    phone.click(r#"li[data-area]:nth-of-type(3) [data-id="area-remove"]"#).await;
    phone.until("one area less", || async { phone.count("li[data-area]").await == areas - 1 }).await;
    phone.fill("area-new", "Lashing rings").await;
    phone.click("area-add").await;
    phone.see("Lashing rings").await;

    // Survey: a photo with place data in its file, a note, all areas but the last.
    phone.click("place-today").await;
    assert_eq!(phone.text("now-stage").await, "Survey");
    phone.click("go").await;
    phone.make_safe().await;
    phone.click(".area-by-area .ticket-open").await;
    phone.upload("photo-input", &photos.join("frame.jpg")).await;
    phone.wait_for("img.photo").await;
    phone.fill("note-text", "Rust under the step, left").await;
    phone.click("note-save").await;
    phone.until("both are kept", || async { phone.count(".kept [data-entry]").await == 2 }).await;
    phone.click("done").await;
    phone.until("back among the areas", || async { phone.text("#screen h1").await == "Survey" }).await;
    while phone.count(r#".area-by-area [data-id="area-done"]"#).await > 1 {
        let left = phone.count(r#".area-by-area [data-id="area-done"]"#).await;
        phone.click(r#".area-by-area [data-id="area-done"]"#).await;
        phone
            .until("one area less", || async {
                phone.count(r#".area-by-area [data-id="area-done"]"#).await == left - 1
            })
            .await;
    }

    // Take off, with the survey still open on one area: not yet, and gone past with a reason.
    phone.go("#/stage/take-off").await;
    phone.until("Take off", || async { phone.text("#screen h1").await == "Take off" }).await;
    phone.make_safe().await;
    let hold = phone.text(r#"[data-gate="order"]"#).await;
    assert!(hold.contains("Not yet, because Survey is still open on"), "{hold}");
    phone.click(r#".area-by-area li:last-of-type [data-id="area-done"]"#).await;
    phone.wait_for("refused").await;
    phone.click("go-on").await;
    phone.click("go-on-confirm").await;
    phone.see("Say why").await;
    phone.fill("reason-order", "It lies under the deck, seen tomorrow").await;
    phone.click("go-on-confirm").await;
    phone.wait_gone(r#"[data-gate="order"]"#).await;

    // Three bags, one with a photo.
    phone.fill_bag(1, 1, "Left lamp", "M6", "25", "2").await;
    phone.upload("photo-input", &photos.join("bag.jpg")).await;
    phone.wait_for("img.photo").await;
    phone.click("back").await;
    phone.fill_bag(2, 2, "Mudguard", "M8", "1 1/4 in", "4").await;
    phone.click("back").await;
    phone.fill_bag(3, 2, "Cable cover", "clip", "", "6").await;
    phone.go("#/stage/take-off").await;
    phone.until("Take off", || async { phone.text("#screen h1").await == "Take off" }).await;
    phone.every_area().await;
    phone.go("#/stage/survey").await;
    phone.until("Survey", || async { phone.text("#screen h1").await == "Survey" }).await;
    phone.every_area().await;

    // Cover to Neutralise.
    phone.go("#/stage/cover").await;
    phone.until("Cover", || async { phone.text("#screen h1").await == "Cover" }).await;
    phone.click(r#"[data-id="cover-on"]"#).await;
    phone.until("one cover is on", || async { phone.count(r#"[data-id="cover-off"]"#).await == 1 }).await;
    phone.make_safe().await;
    phone.in_one().await;
    phone.next_is("Wipe").await;
    phone.make_safe().await;
    phone.in_one().await;
    phone.next_is("Dewax").await;
    phone.click("not-apply").await;
    phone.next_is("Degrease").await;
    phone.make_safe().await;
    phone.fill("mix-pail", "10").await;
    phone.see("7.5 L water").await;
    phone.see("3 water to 1 concentrate").await;
    phone.click("mix-log").await;
    phone.see("1 bucket mixed").await;
    phone.every_area().await;

    // Reload in the middle: nothing is lost.
    phone.reload().await;
    phone.see("1 bucket mixed").await;
    phone.next_is("Neutralise").await;
    phone.make_safe().await;
    phone.in_one().await;
    phone.next_is("Dry").await;
    phone.make_safe().await;
    phone.in_one().await;
    // Drops on the steel: back to Dry, and dry again.
    phone.click("wet-again").await;
    phone.see("Open on all").await;
    phone.in_one().await;
    phone.next_is("Mend").await;
    phone.make_safe().await;
    phone.every_area().await;
    phone.next_is("Mask").await;
    phone.make_safe().await;
    phone.click(r#"[data-sort="Foil"] [data-id="cover-on"]"#).await;
    phone.click(r#"[data-sort="Paper"] [data-id="cover-on"]"#).await;
    phone.until("foil and paper are on", || async { phone.count(r#"[data-id="cover-off"]"#).await == 2 }).await;
    phone.every_area().await;

    // First pass: damp steel holds it with its figures, and a safety point has no way past it.
    phone.next_is("First pass").await;
    phone.reading("10", "80", "8,5").await;
    let hold = phone.text(r#"[data-gate="film-air"]"#).await;
    assert!(hold.contains("steel is 1.8 °C above the dew point"), "{hold}");
    phone.reading("18", "55", "16").await;
    phone.wait_gone(r#"[data-gate="film-air"]"#).await;
    assert!(phone.count(r#"[data-weight="safety"]"#).await > 0);
    assert_eq!(phone.count(r#"[data-weight="safety"] [data-id="go-on"]"#).await, 0, "a way past a safety point");
    let entries = phone.stored("entries").await.as_array().unwrap().len();
    phone.click("all-done").await;
    phone.wait_for("refused").await;
    assert_eq!(phone.stored("entries").await.as_array().unwrap().len(), entries, "written past a safety point");
    phone.make_safe().await;
    // The steel is right and the points are safe: what stays bare is still to be answered.
    phone.click("all-done").await;
    phone.wait_for("refused").await;
    phone.bare_seen().await;
    phone.in_one().await;

    // Second pass: waits for the flash-off.
    phone.next_is("Second pass").await;
    phone.make_safe().await;
    phone.bare_seen().await;
    assert!(phone.text(r#"[data-gate="flash-off"]"#).await.contains("to flash off"));
    phone.minutes_pass(21.0).await;
    phone.wait_gone(r#"[data-gate="flash-off"]"#).await;
    phone.in_one().await;

    // Air out: the clock runs, foil and paper come off, and sixty hours later it is over.
    phone.next_is("Air out").await;
    assert!(phone.text("clock-marks").await.contains("Refit from"), "{}", phone.text("clock-marks").await);
    let left = phone.text("clock-left").await;
    assert!(left.starts_with("55 h"), "48 h at 20 °C are 55.1 h at 18 °C, not {left}");
    phone.tap_all(r#"[data-sort="Foil"] [data-id="cover-off"]"#).await;
    phone.tap_all(r#"[data-sort="Paper"] [data-id="cover-off"]"#).await;
    phone.minutes_pass(60.0 * 60.0).await;
    phone.tap_all(r#"[data-sort="Cover"] [data-id="cover-off"]"#).await;
    phone.make_safe().await;
    phone.in_one().await;

    // Refit: the bags come back last first.
    phone.next_is("Refit").await;
    phone.make_safe().await;
    phone.click(r#"[data-bag="1"]"#).await;
    phone.click("bag-back").await;
    phone.wait_for("refused").await;
    assert!(phone.text(r#"[data-gate="bag-order"]"#).await.contains("bag 3 (Cable cover) came off later"));
    for bag in [3, 2, 1] {
        phone.go("#/bags").await;
        phone.click(&format!(r#"[data-bag="{bag}"]"#)).await;
        phone.wait_for("bag-back").await;
        // Clips have no threads, the others four steps each.
        assert_eq!(phone.count(r#"[data-id="thread-step"]"#).await, if bag == 3 { 0 } else { 4 });
        phone.tap_all(r#"[data-id="thread-step"][aria-pressed="false"]"#).await;
        phone.click("count-all").await;
        phone.click("bag-back").await;
        phone.wait_for(&format!(r#"[data-bag="{bag}"][data-state="done"]"#)).await;
    }
    phone.go("#/stage/refit").await;
    phone.until("Refit", || async { phone.text("#screen h1").await == "Refit" }).await;
    phone.click(".checks summary").await;
    phone.tap_all(r#"[data-check][aria-checked="false"]"#).await;
    phone.every_area().await;
    phone.next_is("Aftercare").await;
    phone.make_safe().await;
    phone.tap_all(r#".area-by-area [data-id="area-done"]"#).await;

    // Close: nothing is open.
    phone.click("place-today").await;
    phone.click("go").await;
    phone.wait_for("nothing-open").await;
    phone.click("close-job").await;
    phone.until("closed", || async { phone.text("now-stage").await == "Closed" }).await;

    // A killed browser: all of it is still there, also what was gone past.
    let mut phone = phone;
    phone.restart().await;
    phone.open(&host.url).await;
    phone.until("closed", || async { phone.text("now-stage").await == "Closed" }).await;
    phone.click("place-record").await;
    phone.see("Job closed").await;
    check_photos(&phone).await;
}

impl Phone {
    /// Everything in one of the app's object stores, bytes as lists of numbers.
    pub async fn stored(&self, store: &str) -> Value {
        let script = r"
            const open = indexedDB.open('coatwalk');
            open.onerror = () => done(null);
            open.onsuccess = () => {
                const all = open.result.transaction(arguments[0]).objectStore(arguments[0]).getAll();
                all.onsuccess = () => {
                    open.result.close();
                    done(all.result.map((v) => v.bytes ? { type: v.type, bytes: [...new Uint8Array(v.bytes)] } : v));
                };
            };";
        self.async_script(script, vec![json!(store)]).await
    }
}

/// Both photos are JPEGs of at most 2048 px without EXIF (the APP1 segment), and so without the place in their files.
async fn check_photos(phone: &Phone) {
    for file in ["frame.jpg", "bag.jpg"] {
        let bytes = std::fs::read(beside("photos").join(file)).unwrap();
        assert!(bytes.windows(4).any(|w| w == b"Exif"), "{file} has no EXIF to lose");
    }
    let kept = phone.stored("photos").await;
    let kept = kept.as_array().unwrap();
    assert_eq!(kept.len(), 2);
    let mut sizes = vec![];
    for photo in kept {
        assert_eq!(photo["type"], "image/jpeg");
        let bytes: Vec<u8> = serde_json::from_value(photo["bytes"].clone()).unwrap();
        assert_eq!(bytes[..2], [0xff, 0xd8], "not a JPEG");
        assert!(!bytes.windows(4).any(|w| w == b"Exif"), "EXIF came through");
        assert!(!bytes.windows(8).any(|w| w == b"Invented"), "the camera's name came through");
        sizes.push(jpeg_size(&bytes));
    }
    sizes.sort_unstable();
    // The upright one is turned as its file says (orientation 6), the large one is made smaller.
    assert_eq!(sizes, [(600, 800), (2048, 1365)]);
}

/// Width and height from the frame header of a JPEG.
fn jpeg_size(bytes: &[u8]) -> (u16, u16) {
    let mut at = 2;
    loop {
        let (marker, length) = (bytes[at + 1], u16::from_be_bytes([bytes[at + 2], bytes[at + 3]]));
        if matches!(marker, 0xc0..=0xc2) {
            let word = |i: usize| u16::from_be_bytes([bytes[at + i], bytes[at + i + 1]]);
            return (word(7), word(5));
        }
        at += 2 + usize::from(length);
    }
}

/// Opens a trailer's job of this name.
pub async fn open_trailer(phone: &Phone, name: &str) {
    phone.click("start-job").await;
    phone.click("kind-trailer").await;
    phone.fill("job-name", name).await;
    phone.click("open-job").await;
    phone.wait_for("go").await;
}

async fn typed_rubbish_gets_an_answer_and_nothing_is_lost(engine: Engine) {
    let profile = Folder::new("rubbish");
    let (phone, _host) = phone_without_signal(engine, &profile).await;

    // A job without a name, and one with far too long a name.
    phone.click("start-job").await;
    phone.click("kind-trailer").await;
    phone.click("open-job").await;
    phone.see("Give the job a name").await;
    phone.fill("job-name", &"x".repeat(200)).await;
    phone.see("At most 80 characters").await;
    phone.fill("job-name", "<img src=x onerror=window.hacked=1>").await;
    phone.click("open-job").await;
    phone.wait_for("go").await;
    phone.see("<img src=x onerror=window.hacked=1>").await;

    // Numbers: each gets its words beside the field, and stays as typed.
    phone.go("#/stage/degrease").await;
    for (typed, answer) in [
        ("mud", "Start with a number"),
        ("-5", "must be"),
        ("0", "must be"),
        ("1000000000000000", "too big or too small"),
        ("1,250.5", "thousands mark"),
        ("5 gal", "US or imperial"),
        ("5 furlong", "is not known here"),
    ] {
        phone.fill("mix-pail", typed).await;
        phone
            .until(&format!("{typed:?} is answered"), || async {
                phone.field_answer("mix-pail").await.contains(answer)
            })
            .await;
        assert!(!phone.has("mix-answer").await, "{typed} gave an answer");
        assert_eq!(phone.value("mix-pail").await, typed);
    }
    phone.click("mix-log").await;
    phone.fill("mix-pail", "").await;
    phone.click("mix-log").await;
    phone
        .until("empty is answered", || async { phone.field_answer("mix-pail").await.contains("Type a number") })
        .await;
    for typed in ["2,5", "2.5", "2 1/2", "2½ l"] {
        phone.fill("mix-pail", typed).await;
        phone.until(typed, || async { phone.has("mix-answer").await }).await;
        phone.see("L water").await;
    }
    let mixes = phone.script("return document.querySelector('[data-id=\"mix-logged\"]') === null;", vec![]).await;
    assert_eq!(mixes, json!(true), "rubbish was logged");

    // A note of script stays words; half-typed words survive a reload.
    phone.go("#/stage/survey").await;
    phone.fill("note-text", "<script>window.hacked = 1</script> & \"quotes\"").await;
    phone.click("note-save").await;
    phone.see("<script>window.hacked = 1</script>").await;
    phone.click("note-save").await;
    phone.see("Type a few words first").await;
    phone.fill("note-text", "half a sente").await;
    phone.reload().await;
    phone.until("the draft is there", || async { phone.value("note-text").await == "half a sente" }).await;
    assert_eq!(phone.script("return window.hacked ?? null;", vec![]).await, json!(null));

    // Not a picture.
    let fake = profile.path().join("fake.jpg");
    std::fs::write(&fake, "no picture at all").unwrap();
    phone.upload("photo-input", &fake).await;
    assert!(phone.text("photo-error").await.contains("is not a picture"), "{}", phone.text("photo-error").await);
    assert_eq!(phone.stored("photos").await, json!([]));

    // A bag: the area is missing, the count is no number.
    phone.go("#/bags/new").await;
    phone.fill("bag-size-0", "M8").await;
    phone.fill("bag-count-0", "many").await;
    phone.click("bag-fill").await;
    phone.see("Tap the area").await;
    phone.see("Say which part").await;
    phone.see("A whole number from 1 to 500").await;
    assert_eq!(phone.value("bag-count-0").await, "many");
}

impl Phone {
    /// What stands under a field.
    async fn field_answer(&self, id: &str) -> String {
        let script = "return document.getElementById(arguments[0] + '-more')?.innerText ?? '';";
        self.script(script, vec![json!(id)]).await.as_str().unwrap_or_default().to_owned()
    }

    /// What is typed in a field.
    async fn value(&self, id: &str) -> String {
        let script = "return document.getElementById(arguments[0])?.value ?? '(no field)';";
        self.script(script, vec![json!(id)]).await.as_str().unwrap_or_default().to_owned()
    }
}

async fn two_tabs_stay_in_step(engine: Engine) {
    let profile = Folder::new("tabs");
    let (phone, host) = phone_without_signal(engine, &profile).await;
    open_trailer(&phone, "Two tabs").await;
    phone.go("#/stage/survey").await;
    phone.make_safe().await;
    let first = phone.session().window().await.unwrap();
    let second = phone.new_tab().await;
    phone.open(&format!("{}#/stage/survey", host.url)).await;
    phone.fill("note-text", "from the second tab").await;
    phone.click("note-save").await;
    phone.wait_for(".kept [data-entry]").await;
    phone.turn_to(&first).await;
    phone.see("from the second tab").await;
    let open = phone.count(r#"[data-id="area-done"]"#).await;
    phone.click(r#"[data-id="area-done"]"#).await;
    phone.until("done here", || async { phone.count(r#"[data-id="area-done"]"#).await == open - 1 }).await;
    phone.turn_to(&second).await;
    phone.until("and done there", || async { phone.count(r#"[data-id="area-done"]"#).await == open - 1 }).await;

    // Undo is a later entry, and the other tab follows it too.
    phone.turn_to(&first).await;
    phone.click("undo").await;
    phone.until("open here again", || async { phone.count(r#"[data-id="area-done"]"#).await == open }).await;
    phone.turn_to(&second).await;
    phone.until("and there", || async { phone.count(r#"[data-id="area-done"]"#).await == open }).await;
}

/// A later version of the app raised the schema: this one reads, and says plainly that it does not write.
async fn a_newer_log_is_only_read(engine: Engine) {
    let profile = Folder::new("newer");
    let (phone, _host) = phone_without_signal(engine, &profile).await;
    open_trailer(&phone, "From tomorrow").await;
    let raise = r"
        const open = indexedDB.open('coatwalk', 99);
        open.onupgradeneeded = () => open.result.createObjectStore('something-new');
        open.onerror = () => done('refused');
        open.onblocked = () => {};
        open.onsuccess = () => { open.result.close(); done('raised'); };";
    assert_eq!(phone.async_script(raise, vec![]).await, json!("raised"), "the app's tab holds the upgrade up");
    // The open tab gave way and knows why it can't write any more.
    phone.go("#/stage/survey").await;
    phone.fill("note-text", "typed as the newer one came").await;
    phone.click("note-save").await;
    phone.see("A newer Coatwalk has written here").await;
    phone.wait_for("unsaved").await;
    phone.reload().await;
    phone.see("A newer Coatwalk has written here").await;
    phone.go("#/").await;
    phone.see("From tomorrow").await;
    let before = phone.stored("entries").await;
    phone.go("#/stage/survey").await;
    phone.fill("note-text", "not to be lost").await;
    phone.click("note-save").await;
    phone.wait_for("unsaved").await;
    phone.see("not to be lost").await;
    phone.wait_for("unsaved-export").await;
    assert_eq!(phone.stored("entries").await, before);
}

async fn the_example_can_be_looked_round(engine: Engine) {
    let profile = Folder::new("example");
    let (phone, host) = phone_without_signal(engine, &profile).await;
    phone.click("look-round").await;
    phone.wait_for("go").await;
    assert_eq!(phone.text("now-stage").await, "Mask");
    for place in ["", "#/machine", "#/bags", "#/sums", "#/record", "#/stage/mask", "#/jobs"] {
        phone.open(&format!("{}{place}", host.url)).await;
        phone.see("Example job: all of it invented").await;
        assert!(!phone.has("#stopped").await);
    }
}
