//! Parts and bags in the browser: what comes off, the form, and each part's way back with its threads, counts and photos.

use coatwalk::job::entry::{Fixing, What};
use coatwalk::job::log::Log;
use coatwalk::job::stage::Stage;
use serde_json::json;

use crate::floor::begin;
use crate::harness::*;

in_every_engine!(
    parts_come_off_and_go_back_step_by_step,
    a_part_is_taken_off_or_taped_from_the_list,
    the_form_answers_what_does_not_fit,
);

impl Phone {
    async fn log(&self) -> Log {
        let lines = self.stored("entries").await;
        Log::from_lines(lines.as_array().unwrap().iter().map(|l| l.as_str().unwrap().to_owned()))
    }

    /// Goes there and waits for the heading, which a screen before may share with nothing.
    async fn stand_at(&self, hash: &str, heading: &str) {
        self.go(hash).await;
        self.until(heading, || async { self.text("#screen h1").await == heading }).await;
    }

    async fn typed(&self, id: &str) -> String {
        let script = "return document.getElementById(arguments[0])?.value ?? '(no field)';";
        self.script(script, vec![json!(id)]).await.as_str().unwrap_or_default().to_owned()
    }

    async fn pressed(&self, css: &str) -> bool {
        self.wait_for(css).await.attr("aria-pressed").await.unwrap().as_deref() == Some("true")
    }

    /// Opens the bag with this number; the desk may still show the one before.
    async fn open_bag(&self, number: u32, part: &str) {
        self.stand_at("#/bags", "Bags").await;
        self.click(&format!(r#"[data-bag="{number}"]"#)).await;
        self.until(part, || async { self.text("#screen h1").await == part }).await;
    }

    /// Ticks what is not ticked, each once the one before is kept.
    async fn tick_threads(&self) {
        let open = r#"[data-id="thread-step"][aria-pressed="false"]"#;
        while let n @ 1.. = self.count(open).await {
            self.click(open).await;
            self.until("a step is ticked", || async { self.count(open).await < n }).await;
        }
    }

    /// Leaves out every stage before Refit, and stands there with all made safe.
    async fn to_refit(&self) {
        for stage in Stage::ALL.into_iter().filter(|s| *s < Stage::Refit) {
            self.stand_at(&format!("#/stage/{}", stage.slug()), stage.title()).await;
            self.click("not-apply").await;
            self.wait_for("next-stage").await;
        }
        self.stand_at("#/stage/refit", "Refit").await;
        self.make_safe().await;
    }
}

async fn parts_come_off_and_go_back_step_by_step(engine: Engine) {
    let profile = Folder::new("bags");
    let (phone, _host) = begin(engine, &profile, vec![]).await;

    // A part held by plain screws, with all that is asked, and a photo before it comes off.
    phone.stand_at("#/bags/new", "Fill a bag").await;
    phone.click("fieldset .chip:nth-of-type(2)").await;
    phone.fill("bag-part", "Side guard").await;
    phone.upload("photo-input", &beside("photos/frame.jpg")).await;
    phone.wait_for(r#"[data-id="before-photos"] img.photo"#).await;
    for (field, text) in [("size", "M8"), ("length", "25"), ("count", "4")] {
        phone.fill(&format!("bag-{field}-0"), text).await;
    }
    phone.click("more-fasteners").await;
    phone.fill("bag-size-1", "clip").await;
    phone.fill("bag-count-1", "3").await;
    phone.click("bag-plugs-more").await;
    phone.click("bag-plugs-more").await;
    phone.fill("bag-put", "Left shelf, on cardboard").await;
    phone.click(r#"[data-id="bag-more"] summary"#).await;
    phone.click(r#"[data-choice="Yes"]"#).await;
    // Nothing is in front of it: it is not asked.
    assert!(!phone.has("bag-behind").await);
    phone.click("bag-fill").await;
    phone.wait_for("bag-facts").await;
    let facts = phone.text("bag-facts").await;
    for fact in
        ["4 × M8 × 25 mm", "3 × clip", "Plugs opened: 2", "Left shelf, on cardboard", "Coat its edges and both faces"]
    {
        assert!(facts.contains(fact), "{fact} is not in {facts}");
    }
    // The photo is the part's.
    phone.wait_for(r#"[data-photos="take-off"] img.photo"#).await;

    // A part behind it, by the manual only. Half typed, it outlives a reload.
    phone.stand_at("#/bags/new", "Fill a bag").await;
    phone.click("fieldset .chip:nth-of-type(2)").await;
    phone.fill("bag-part", "Brake valve").await;
    phone.fill("bag-size-0", "M10").await;
    phone.fill("bag-count-0", "2").await;
    phone.click(r#"[data-id="bag-more"] summary"#).await;
    phone.click(r#"[data-behind="1"]"#).await;
    phone.click(r#"[data-choice="Manual only"]"#).await;
    let meant = phone.text("joint-meant").await;
    for joint in ["wheel", "brake", "seat belt"] {
        assert!(meant.to_lowercase().replace('-', " ").contains(joint), "{joint} is not in {meant}");
    }
    phone.reload().await;
    phone.wait_for("bag-fill").await;
    assert_eq!(phone.typed("bag-part").await, "Brake valve");
    phone.click(r#"[data-id="bag-more"] summary"#).await;
    assert!(phone.pressed(r#"[data-behind="1"]"#).await && phone.pressed(r#"[data-choice="Manual only"]"#).await);
    phone.click("bag-fill").await;
    phone.wait_for("bag-facts").await;
    assert!(phone.text("bag-facts").await.contains("Sits behind bag 1 (Side guard)"));

    // A part with one-use locking, its screws back in: it has no bag. Another area.
    phone.stand_at("#/bags/new", "Fill a bag").await;
    phone.click("fieldset .chip:nth-of-type(1)").await;
    phone.fill("bag-part", "Jaw pin").await;
    phone.click(r#"[data-choice="Back in, finger-tight"]"#).await;
    phone.see("No bag: the screws stay in their holes").await;
    phone.click(r#"[data-id="bag-more"] summary"#).await;
    phone.click(r#"[data-choice="New locking part"]"#).await;
    assert!(phone.text("joint-meant").await.contains("split pin"));
    // What is off elsewhere is not in front of it.
    assert!(!phone.has("bag-behind").await);
    phone.click("bag-fill").await;
    phone.wait_for("bag-facts").await;
    assert!(phone.text("bag-facts").await.contains("finger-tight"));

    let log = phone.log().await;
    let bags = &log.job().bags;
    assert_eq!(
        bags.iter().map(|b| (b.number, b.joint)).collect::<Vec<_>>(),
        [(1, Fixing::Plain), (2, Fixing::Manual), (3, Fixing::Replace)]
    );
    assert_eq!((bags[0].coat, bags[0].plugs, &bags[1].behind), (true, Some(2), &vec![bags[0].id]));
    assert_eq!(log.job().kept.iter().map(|k| k.bag).collect::<Vec<_>>(), [Some(bags[0].id)]);
    let ids: Vec<_> = bags.iter().map(|b| b.id).collect();

    phone.to_refit().await;
    let order =
        phone.script("return [...document.querySelectorAll('[data-bag]')].map((b) => b.dataset.bag);", vec![]);
    assert_eq!(order.await, json!(["3", "2", "1"]));

    // The part in front cannot go first, whatever else is done.
    phone.open_bag(1, "Side guard").await;
    let behind = phone.text(r#"[data-gate="behind"]"#).await;
    assert!(behind.contains("bag 2 (Brake valve) sits behind it and is not back yet"), "{behind}");
    assert!(phone.has(r#"[data-gate="behind"] [data-id="remedy"]"#).await);
    assert_eq!(phone.count(r#"[data-id="thread-step"]"#).await, 4);
    phone.tick_threads().await;
    phone.click(r#"[data-sort="0"] [data-id="count-all"]"#).await;
    phone.click(r#"[data-sort="1"] [data-id="count-all"]"#).await;
    phone.click("back-plugs-more").await;
    phone.click("back-plugs-more").await;
    assert_eq!(phone.text("back-plugs-now").await, "2 of 2");
    phone.click("bag-back").await;
    phone.wait_for("refused").await;
    let back = |log: &Log| log.job().bags.iter().filter(|b| b.back.is_some()).map(|b| b.number).collect::<Vec<_>>();
    assert_eq!(back(&phone.log().await), [0; 0]);

    // The last one off goes first: nothing to count, three steps, a new pin.
    phone.open_bag(3, "Jaw pin").await;
    assert_eq!(phone.count(r#"[data-id="thread-step"]"#).await, 3);
    phone.see("Take a new pin, tab washer or locking nut").await;
    assert!(phone.text("manual-only").await.contains("Clean, dry, and by the machine's manual only"));
    assert!(!phone.has("thread-sum").await && !phone.has("count-all").await);
    // With a step open it is refused.
    phone.click("bag-back").await;
    phone.wait_for("refused").await;
    assert!(phone.text(r#"[data-gate="thread-steps"]"#).await.contains("3 thread steps of"));
    phone.tick_threads().await;
    phone.wait_gone(r#"[data-gate="thread-steps"]"#).await;
    phone.click("bag-back").await;
    phone.wait_for(r#"[data-bag="3"][data-state="done"]"#).await;

    // By the manual only: no film on the threads, no figure. One screw less came back: count again, or say why.
    phone.open_bag(2, "Brake valve").await;
    assert_eq!(phone.count(r#"[data-id="thread-step"]"#).await, 3);
    phone.see("Clean threads and seats: no film, no grease").await;
    assert!(phone.has("manual-only").await && !phone.has("thread-sum").await);
    phone.tick_threads().await;
    phone.click("count-more").await;
    assert_eq!(phone.text("count-now").await, "1 of 2 in");
    phone.click("bag-back").await;
    phone.see("Count again, or say why").await;
    phone.fill("back-short", "One fell into the frame; a new one is in").await;
    phone.click("bag-back").await;
    phone.wait_for(r#"[data-bag="2"][data-state="done"]"#).await;

    // Now the part in front: what was ticked and counted still stands. The sum opens with its thread.
    phone.open_bag(1, "Side guard").await;
    phone.wait_gone(r#"[data-gate="behind"]"#).await;
    assert_eq!(phone.count(r#"[data-id="thread-step"][aria-pressed="true"]"#).await, 4);
    assert_eq!(phone.text(r#"[data-sort="0"] [data-id="count-now"]"#).await, "4 of 4 in");
    assert!(phone.text("thread-sum").await.contains("Torque for M8, wet with film"));
    phone.click("thread-sum").await;
    phone.until("the sum says a torque", || async { phone.text("#screen").await.contains("N·m") }).await;
    assert!(phone.words().await.contains("#/sums/thread"));
    // A plug left open is no less a difference than a screw.
    phone.open_bag(1, "Side guard").await;
    phone.click("back-plugs-less").await;
    phone.click("bag-back").await;
    phone.see("Count again, or say why").await;
    phone.click("back-plugs-more").await;
    phone.upload(r#"[data-id="after-photo"] [data-id="photo-input"]"#, &beside("photos/bag.jpg")).await;
    phone
        .until("the photo is kept", || async { phone.count(r#"[data-photos="refit"] [data-entry]"#).await == 1 })
        .await;
    phone.click("bag-back").await;
    phone.wait_for(r#"[data-bag="1"][data-state="done"]"#).await;
    phone.stand_at("#/bags", "Bags").await;
    phone.see("All bags are back").await;

    // Both photos stand with the part, each under its own heading.
    phone.open_bag(1, "Side guard").await;
    phone.see("Back on the machine").await;
    assert_eq!(phone.count(r#"[data-photos="take-off"] [data-entry]"#).await, 1);
    assert_eq!(phone.count(r#"[data-photos="refit"] [data-entry]"#).await, 1);
    let log = phone.log().await;
    let job = log.job();
    assert_eq!(back(&log), [1, 2, 3]);
    let photos: Vec<_> = job.kept.iter().map(|k| (k.stage, k.bag)).collect();
    assert_eq!(photos, [(Stage::TakeOff, Some(ids[0])), (Stage::Refit, Some(ids[0]))]);
    let counts: Vec<_> = log
        .entries()
        .filter_map(|e| match &e.what {
            What::BagBack { bag, counted, plugs, short } => Some((*bag, *counted, *plugs, short.is_empty())),
            _ => None,
        })
        .collect();
    assert_eq!(
        counts,
        [(ids[2], None, None, true), (ids[1], Some(1), None, false), (ids[0], Some(7), Some(2), true)]
    );
    phone.stand_at("#/stage/refit", "Refit").await;
    phone.every_area().await;
}

async fn a_part_is_taken_off_or_taped_from_the_list(engine: Engine) {
    let profile = Folder::new("parts");
    let (phone, _host) = begin(engine, &profile, vec![]).await;
    phone.stand_at("#/parts", "What comes off").await;
    let to_go = phone.count(r#"[data-part][data-state="open"]"#).await;
    assert!(to_go >= 3, "the list has {to_go} parts");
    phone.see(&format!("{to_go} still to go")).await;
    // Something speaks for either, in minutes and in what stays bare.
    let either = phone.text(".part-either").await;
    assert!(
        either.contains("Off and back") && either.contains("tape") && either.contains("no film gets to"),
        "{either}"
    );

    let name = |n: usize| {
        let script = "return document.querySelectorAll('[data-part]')[arguments[0]].dataset.part;";
        let phone = &phone;
        async move { phone.script(script, vec![json!(n)]).await.as_str().unwrap().to_owned() }
    };
    let (taped, off) = (name(0).await, name(1).await);
    phone.click(&format!(r#"[data-part="{taped}"] [data-id="part-tape"]"#)).await;
    phone.wait_for(&format!(r#"[data-part="{taped}"][data-state="hand"]"#)).await;
    phone.see(&format!("{} still to go", to_go - 1)).await;
    phone.see("0 off, 1 taped").await;

    phone.click(&format!(r#"[data-part="{off}"] [data-id="part-off"]"#)).await;
    phone.wait_for("bag-fill").await;
    assert_eq!(phone.typed("bag-part").await, off);
    phone.click("bag-fill").await;
    phone.wait_for("bag-back").await;
    assert_eq!(phone.text("#screen h1").await, off);
    phone.stand_at("#/parts", "What comes off").await;
    phone.see("1 off, 1 taped").await;
    phone.see("off, bag 1").await;
    // The tape is on the list that must be empty at touch-dry.
    phone.stand_at("#/stage/mask", "Mask").await;
    phone.see(&taped).await;
    let log = phone.log().await;
    assert_eq!((log.job().bags.len(), log.job().covers.len()), (1, 1));
    assert_eq!(log.job().covers[0].place, taped);
}

async fn the_form_answers_what_does_not_fit(engine: Engine) {
    let profile = Folder::new("bag-form");
    let (phone, _host) = begin(engine, &profile, vec![]).await;
    phone.stand_at("#/bags/new", "Fill a bag").await;
    phone.fill("bag-size-0", "M8").await;
    phone.fill("bag-length-0", "2000").await;
    phone.fill("bag-count-0", "0").await;
    phone.click("bag-fill").await;
    phone.see("Tap the area where the part sits").await;
    phone.see("Say which part").await;
    phone.see("A whole number from 1 to 500").await;
    phone.click("fieldset .chip:nth-of-type(1)").await;
    phone.fill("bag-part", "Lamp").await;
    phone.fill("bag-count-0", "2").await;
    phone.see("A length from 1 to 1000 mm").await;
    phone.click("bag-fill").await;
    assert_eq!(phone.text("#screen h1").await, "Fill a bag");
    // Inches are lengths too.
    phone.fill("bag-length-0", "1 1/4 in").await;
    phone.click("bag-fill").await;
    phone.wait_for("bag-facts").await;
    assert!(phone.text("bag-facts").await.contains("31.75 mm"), "{}", phone.text("bag-facts").await);
    // A bag that is not there says so.
    phone.go("#/bags/00000000-0000-0000-0000-000000000007").await;
    phone.wait_for("no-bag").await;
}
