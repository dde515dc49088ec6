//! The plan, as a man makes it at the kitchen table days ahead: a telehandler from nothing, in US units, with his own
//! product, server off from after the first load on.

use crate::harness::*;

in_every_engine!(
    a_telehandler_is_planned_from_nothing_in_us_units,
    the_air_opens_and_shuts_the_first_pass,
    absurd_figures_get_an_answer_and_a_plan,
    a_changed_input_is_painted_in_one_frame,
);

/// An app without signal, in US units, with a telehandler's plan open.
async fn planned(engine: Engine, profile: &Folder) -> (Phone, Host) {
    let mut host = Host::start(Serve { inject: vec!["rescue.js"], ..Serve::default() });
    let phone = Phone::start(engine, profile.path()).await;
    phone.open(&host.url).await;
    phone.wait_ready_offline().await;
    phone.click("ready-offline-ok").await;
    host.stop();
    phone.go("#/settings").await;
    phone.click("[data-choice^='US']").await;
    phone.go("#/").await;
    phone.click("start-job").await;
    phone.click("kind-telehandler").await;
    phone.fill("job-name", "Red telehandler (invented)").await;
    phone.click("open-plan").await;
    phone.wait_for("plan-dates").await;
    (phone, host)
}

impl Phone {
    /// Types a figure and leaves its field, as a person does who goes on to the next.
    async fn figure(&self, id: &str, text: &str) {
        self.fill(id, text).await;
        self.script("document.activeElement.blur();", vec![]).await;
    }

    /// His own film, with two sizes and their prices.
    async fn own_film(&self) {
        self.go("#/plan/products").await;
        self.click("new-liquid-film").await;
        self.figure("product-name", "Clear film (invented)").await;
        self.figure("product-batch", "B-17").await;
        self.figure("solids_pct", "50").await;
        self.figure("dry_um", "0.8").await;
        self.figure("rh_most_pct", "80").await;
        self.until("the answer follows", || async { self.text("product-answer").await.contains("US gal") }).await;
        self.click("all-products").await;
        self.see("Clear film (invented)").await;
    }
}

async fn a_telehandler_is_planned_from_nothing_in_us_units(engine: Engine) {
    let profile = Folder::new("plan");
    let (phone, _host) = planned(engine, &profile).await;
    // The defaults say that they are defaults, the estimate shows its ends.
    phone.see("US gal").await;
    phone.see("All figures are defaults").await;
    let before = phone.text("plan-answer").await;

    // His machine is longer than usual.
    phone.go("#/plan/machine").await;
    phone.see("ft²").await;
    phone.figure("machine-length", "20").await;
    phone.own_film().await;
    phone.go("#/plan").await;
    phone.see("1 of 4 from your sheets").await;
    let after = phone.text("plan-answer").await;
    assert_ne!(before, after, "his own figures change nothing");

    // One more pair of hands never ends later, and less work is left on the clock.
    phone.go("#/plan/days").await;
    let alone = phone.text("days-answer").await;
    phone.click("hands-more").await;
    phone.until("two hands", || async { phone.text("days-answer").await != alone }).await;

    // The list: every line that is shared stands on the screen in the same words.
    phone.go("#/plan/buy").await;
    phone.click("tick-rags").await;
    phone.until("rags are got", || async { phone.has(r#"[data-item="rags"][data-state="got"]"#).await }).await;
    phone.click("hand-over").await;
    let shared = phone.async_script("window.savedFile.then(done);", vec![]).await;
    let shared = shared.as_str().expect("the list is text").to_owned();
    let lines = phone
        .script(
            "const words = (e) => [...e.querySelectorAll('.good-open > span')].map((s) => s.textContent);
             return [...document.querySelectorAll('[data-item]')].map(words);",
            vec![],
        )
        .await;
    let lines: Vec<Vec<String>> = serde_json::from_value(lines).unwrap();
    assert!(lines.len() >= 14, "{lines:?}");
    for line in &lines {
        let same = |text: &str| line.iter().all(|word| text.contains(word.as_str()));
        assert!(shared.lines().any(same), "{line:?} stands nowhere in the shared list:\n{shared}");
    }
    assert_eq!(shared.lines().filter(|l| l.starts_with("- ")).count(), lines.len(), "{shared}");
    assert!(shared.contains("Clear film (invented)") && shared.contains("US gal"), "{shared}");

    // It is all there after the phone was put away.
    phone.reload().await;
    phone.go("#/plan").await;
    phone.until("the same plan", || async { phone.has("plan-dates").await }).await;
    phone.see("1 of 4 from your sheets").await;
    phone.go("#/record").await;
    phone.see("Clear film (invented)").await;
}

async fn the_air_opens_and_shuts_the_first_pass(engine: Engine) {
    let profile = Folder::new("plan-air");
    let (phone, _host) = planned(engine, &profile).await;
    phone.own_film().await;
    phone.before_second_pass().await;
    // 68 °F, 83 % RH: the film's own sheet says 80 at most.
    phone.reading("68", "83", "66").await;
    phone.wait_for(r#"[data-gate="film-air"]"#).await;
    phone.see("83 % RH").await;
    phone.see("80 %").await;
    phone.see("your data sheet").await;
    // Steel on the dew point.
    phone.reading("68", "70", "58").await;
    phone.see("dew point").await;
    phone.wait_for(r#"[data-gate="film-air"]"#).await;
    phone.reading("68", "50", "66").await;
    phone.wait_gone(r#"[data-gate="film-air"]"#).await;

    // The plot has all three, and tonight's low closes the gap.
    phone.go("#/plan/air").await;
    phone.wait_for("air-plot").await;
    let drawn = "return document.querySelectorAll('[data-id=air-plot] svg path').length;";
    assert!(phone.script(drawn, vec![]).await.as_u64().unwrap() >= 3, "three lines at least");
    phone.figure("night-low", "30").await;
    phone.wait_for("night-title").await;
    phone
        .until("a time of the night", || async {
            let words = phone.text("night").await;
            words.contains("about") && words.contains(':')
        })
        .await;
}

async fn absurd_figures_get_an_answer_and_a_plan(engine: Engine) {
    let profile = Folder::new("plan-absurd");
    let (phone, _host) = planned(engine, &profile).await;
    // A machine of no length.
    phone.go("#/plan/machine").await;
    phone.figure("machine-length", "0").await;
    phone.see("must be between").await;
    // Air that can't be, and hours that make no day.
    phone.go("#/plan/air").await;
    phone.fill("reading-air", "68").await;
    phone.fill("reading-rh", "140").await;
    phone.see("Relative humidity must be between 5 and 100 %").await;
    phone.go("#/plan/days").await;
    phone.figure("day-hours", "30").await;
    phone.see("must be between").await;
    phone.figure("day-hours", "mud").await;
    phone.see("Start with a number").await;
    phone.figure("day-hours", "6").await;
    // A film without a price and with nonsense in it, and the plan that still stands.
    phone.go("#/plan/products").await;
    phone.click("new-liquid-film").await;
    phone.figure("product-name", "Odd film (invented)").await;
    phone.figure("solids_pct", "0").await;
    phone.see("must be between").await;
    phone.go("#/plan").await;
    phone.wait_for("plan-dates").await;
    assert!(phone.text("plan-dates").await.contains("Coated about"), "{}", phone.text("plan-dates").await);
    phone.go("#/plan/buy").await;
    phone.see("No prices yet").await;
    assert!(!phone.has("#stopped").await);
}

/// From a typed figure to the pixels: the plan is reckoned and drawn anew within the frame that follows the key. Two
/// frames are allowed, as the key itself falls into the middle of one.
async fn a_changed_input_is_painted_in_one_frame(engine: Engine) {
    let profile = Folder::new("plan-frame");
    let (phone, _host) = planned(engine, &profile).await;
    phone.go("#/plan/machine").await;
    phone.wait_for("size-m2").await;
    let frames = phone
        .async_script(
            "const field = document.querySelector('[data-id=machine-length]');
             const shown = () => document.querySelector('[data-id=size-m2]').textContent;
             const frame = () => new Promise((next) => requestAnimationFrame(next));
             (async () => {
               const taken = [];
               for (const text of ['16', '17', '18', '19', '20']) {
                 await frame();
                 const before = shown();
                 field.value = text;
                 field.dispatchEvent(new Event('input', { bubbles: true }));
                 let frames = 0;
                 while (shown() === before && frames < 60) { await frame(); frames += 1; }
                 taken.push(frames);
               }
               done(taken);
             })();",
            vec![],
        )
        .await;
    let frames: Vec<u64> = serde_json::from_value(frames.clone()).unwrap_or_else(|_| panic!("{frames}"));
    assert!(frames.iter().all(|f| *f <= 2), "frames until painted: {frames:?}");
}
