//! The work on the floor: stretches, foil left on, clocks while the app was dead, clocks for the calendar.

use std::time::{SystemTime, UNIX_EPOCH};

use ical::parser::Component;
use ical::parser::ical::component::IcalCalendar;
use serde_json::json;

use crate::harness::*;
use crate::walk::open_trailer;

in_every_engine!(
    a_stretch_that_runs_over_calls_and_is_washed_again,
    foil_left_on_blocks_refit_and_close,
    a_clock_that_ran_out_while_the_app_was_dead_is_told,
    a_clock_leaves_for_the_calendar_and_moves_there,
);

/// A trailer's job, just opened; the page gets these scripts.
pub async fn begin(engine: Engine, profile: &Folder, inject: Vec<&'static str>) -> (Phone, Host) {
    let host = Host::start(Serve { inject, ..Serve::default() });
    let phone = Phone::start(engine, profile.path()).await;
    phone.open(&host.url).await;
    phone.wait_ready_offline().await;
    phone.click("ready-offline-ok").await;
    open_trailer(&phone, "Grey trailer").await;
    (phone, host)
}

impl Phone {
    /// Leaves these stages out on the whole machine.
    async fn leave_out(&self, stages: &[&str]) {
        for stage in stages {
            self.go(&format!("#/stage/{stage}")).await;
            self.click("not-apply").await;
            self.wait_for("next-stage").await;
        }
    }

    /// Sets a clock of one's own.
    async fn set_clock(&self, name: &str, minutes: &str) {
        const CLOCK: &str = r#"[data-id="clock"]"#;
        self.go("#/clocks").await;
        self.wait_for("clock-set").await;
        let before = self.count(CLOCK).await;
        self.fill("clock-name", name).await;
        self.fill("clock-minutes", minutes).await;
        self.click("clock-set").await;
        self.until("the clock is set", || async { self.count(CLOCK).await == before + 1 }).await;
    }

    /// The last text that was handed to the downloads.
    async fn saved_text(&self) -> String {
        let script = "window.savedFiles.at(-1).text().then(done, (error) => done(String(error)));";
        self.async_script(script, vec![]).await.as_str().unwrap_or_default().to_owned()
    }
}

async fn a_stretch_that_runs_over_calls_and_is_washed_again(engine: Engine) {
    let profile = Folder::new("stretch");
    let (phone, _host) = begin(engine, &profile, vec![]).await;
    phone.leave_out(&["survey", "take-off", "cover", "wipe", "dewax"]).await;
    phone.go("#/stage/degrease").await;
    phone.make_safe().await;

    // Nobody has read the air: three minutes. In the sun: two.
    phone.click(".area-by-area .ticket-open").await;
    phone.see("3 min").await;
    phone.click(r#"[data-choice="Sun or wind"]"#).await;
    phone.see("2 min").await;
    phone.click("soap-on").await;
    phone.wait_for("stretch").await;
    assert!(phone.text("strip").await.contains("rinse in"), "{}", phone.text("strip").await);
    assert!(!phone.has("call").await, "it calls at once");

    // A fifth before its end, 24 s, it calls over the whole screen.
    phone.minutes_pass(1.7).await;
    phone.wait_for("call").await;
    assert!(phone.text("call").await.starts_with("Rinse"), "{}", phone.text("call").await);
    let size = "const r = document.querySelector('[data-id=call]').getBoundingClientRect();
        const page = document.documentElement;
        return [r.width === page.clientWidth, r.height === page.clientHeight];";
    assert_eq!(phone.script(size, vec![]).await, json!([true, true]), "not over the whole screen");
    phone.minutes_pass(2.0).await;
    phone.until("too long", || async { phone.text("call").await.starts_with("Too long") }).await;

    // It ran over: the stretch is to be washed again, and the area can't be called done before.
    phone.click("call-rinsed").await;
    phone.wait_for("wash-again").await;
    phone.click("done").await;
    phone.wait_for("refused").await;
    let hold = phone.text(r#"[data-gate="second-wash"]"#).await;
    assert!(hold.contains("over its 2 min"), "{hold}");

    // Soaped once more and rinsed in time it is.
    phone.click("soap-on").await;
    phone.click(r#"[data-id="stretch"] [data-id="rinsed"]"#).await;
    phone.wait_gone("wash-again").await;
    phone.click("done").await;
    phone.until("back among the areas", || async { phone.text("#screen h1").await == "Degrease" }).await;
    phone.go("#/record").await;
    phone.see("Soap on").await;
    phone.see("Rinsed").await;
}

async fn foil_left_on_blocks_refit_and_close(engine: Engine) {
    let profile = Folder::new("foil");
    let (phone, _host) = begin(engine, &profile, vec![]).await;
    phone.go("#/stage/mask").await;
    phone.make_safe().await;
    phone.click(r#"[data-sort="Foil"] [data-id="cover-on"]"#).await;
    phone.until("it is on", || async { phone.has("cover-off").await }).await;
    phone
        .leave_out(&["survey", "take-off", "cover", "wipe", "dewax", "degrease", "neutralise", "dry", "mend", "mask"])
        .await;
    phone.leave_out(&["first-pass", "second-pass", "air-out"]).await;

    phone.go("#/stage/refit").await;
    let hold = phone.text(r#"[data-gate="foil-off"]"#).await;
    assert!(hold.to_lowercase().contains("foil"), "{hold}");
    phone.make_safe().await;
    let entries = phone.stored("entries").await.as_array().unwrap().len();
    phone.click(r#".area-by-area [data-id="area-done"]"#).await;
    phone.wait_for("refused").await;
    assert_eq!(phone.stored("entries").await.as_array().unwrap().len(), entries, "refitted with the foil on");

    // Closing names it, and wants a reason for it.
    phone.go("#/record/close").await;
    let open = r#"return [...document.querySelectorAll('[data-open]')].map((e) => e.dataset.open).join('|');"#;
    phone
        .until("the foil is among what is open", || async {
            phone.script(open, vec![]).await.as_str().unwrap().to_lowercase().contains("foil")
        })
        .await;
    phone.click("close-job").await;
    phone.see("Say why it stays so").await;
    assert_eq!(phone.stored("entries").await.as_array().unwrap().len(), entries, "closed with the foil on");

    // Off it comes, and the gate with it.
    phone.go("#/stage/air-out").await;
    phone.click(r#"[data-sort="Foil"] [data-id="cover-off"]"#).await;
    phone.wait_gone("cover-off").await;
    phone.go("#/stage/refit").await;
    phone.wait_gone(r#"[data-gate="foil-off"]"#).await;
    phone.go("#/record/close").await;
    phone.wait_for("close-job").await;
    assert!(!phone.script(open, vec![]).await.as_str().unwrap().to_lowercase().contains("foil"));
}

async fn a_clock_that_ran_out_while_the_app_was_dead_is_told(engine: Engine) {
    let profile = Folder::new("dead");
    let (phone, host) = begin(engine, &profile, vec![]).await;
    // Set two hours ago for an hour and a half: it ran out half an hour ago, as nobody looked.
    phone.minutes_pass(-120.0).await;
    phone.set_clock("Test patch", "90").await;
    assert!(!phone.has("rang").await);
    let mut phone = phone;
    phone.restart().await;
    phone.open(&host.url).await;
    phone.wait_for("rang").await;
    let told = phone.text("rang").await;
    assert!(told.contains("Test patch") && (told.contains("30 min") || told.contains("31 min")), "{told}");
    // Seen, it does not come back.
    phone.click("rang-ok").await;
    phone.wait_gone("rang").await;
    phone.reload().await;
    phone.wait_for("strip").await;
    tokio::time::sleep(std::time::Duration::from_millis(1500)).await;
    assert!(!phone.has("rang").await, "it rings again");
}

/// Read by a library that did not write it.
fn calendar(text: &str) -> IcalCalendar {
    let mut all: Vec<_> =
        ical::IcalParser::new(text.as_bytes()).collect::<Result<_, _>>().unwrap_or_else(|e| panic!("{e}: {text}"));
    assert_eq!(all.len(), 1);
    all.remove(0)
}

fn value(of: &impl Component, name: &str) -> String {
    of.get_property(name).and_then(|p| p.value.clone()).unwrap_or_else(|| panic!("no {name}"))
}

async fn a_clock_leaves_for_the_calendar_and_moves_there(engine: Engine) {
    let profile = Folder::new("ics");
    let (phone, _host) = begin(engine, &profile, vec!["saved.js"]).await;
    phone.set_clock("Cartridge change", "480").await;
    let mut seen: Vec<(String, u32)> = vec![];
    for _ in 0..2 {
        phone.click("to-calendar").await;
        phone.wait_for("calendar-answer").await;
        let made = calendar(&phone.saved_text().await);
        let [event] = made.events.as_slice() else { panic!("{} events", made.events.len()) };
        let ends =
            chrono::NaiveDateTime::parse_from_str(&value(event, "DTSTART"), "%Y%m%dT%H%M%SZ").unwrap().and_utc();
        let now = SystemTime::now().duration_since(UNIX_EPOCH).unwrap().as_secs();
        let wait = ends.timestamp() - i64::try_from(now).unwrap();
        assert!((479 * 60..=480 * 60).contains(&wait), "in {wait} s");
        assert!(value(event, "SUMMARY").contains("Cartridge change"));
        let [alarm] = event.alarms.as_slice() else { panic!("{} alarms", event.alarms.len()) };
        assert_eq!(value(alarm, "ACTION"), "DISPLAY");
        assert_eq!(value(alarm, "TRIGGER"), "PT0S");
        seen.push((value(event, "UID"), value(event, "SEQUENCE").parse().unwrap()));
        // Whatever is done to the job meanwhile, the next file of this clock moves the same date.
        phone.set_clock("Warm-up", "30").await;
        // The one that ends first stands first.
        phone.click(r#"[data-id="stop-clock"]"#).await;
        phone.until("one clock is left", || async { phone.count(r#"[data-id="clock"]"#).await == 1 }).await;
        phone.see("Cartridge change").await;
    }
    assert_eq!(seen[0].0, seen[1].0, "another event");
    assert!(seen[1].1 > seen[0].1, "a calendar would not take the update");
}
