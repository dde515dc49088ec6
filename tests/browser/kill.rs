//! What was acknowledged is there after the browser was killed.
//!
//! An entry counts as acknowledged when its element, `[data-entry="<id>"]`, stands on screen. During a burst of photos
//! and notes the browser is killed with SIGKILL at a random moment; afterwards every entry seen before must be there.
//! This shows that the app waits for the store. It does not show what a power cut does: the kernel outlives the kill.

use std::collections::BTreeSet;
use std::time::{Duration, Instant};

use serde_json::json;

use crate::harness::*;

in_every_engine!(nothing_acknowledged_is_lost, acknowledging_early_is_caught, writes_are_strict);

const KILLS: usize = 20;

/// Opens the page the bursts go to. Waits until photos and notes can be given.
async fn open_survey(phone: &Phone, host: &Host) {
    phone.open(&format!("{}#/stage/survey", host.url)).await;
    phone.until("the app starts", || async { phone.has("#screen h1").await }).await;
    if phone.has("start-job").await {
        phone.click("start-job").await;
        phone.click("kind-trailer").await;
        phone.fill("job-name", "Killed and killed again").await;
        phone.click("open-job").await;
        phone.wait_for("go").await;
        phone.open(&format!("{}#/stage/survey", host.url)).await;
    }
    phone.until("a photo can be given", || async { phone.has("photo-input").await }).await;
    phone.wait_for("note-text").await;
}

/// The entries that stand on screen, or none of the answers while the page is busy.
async fn on_screen(phone: &Phone) -> Option<BTreeSet<String>> {
    let script = "return [...document.querySelectorAll('[data-entry]')].map((element) => element.dataset.entry);";
    phone.try_script(script, vec![]).await.and_then(|ids| serde_json::from_value(ids).ok())
}

/// Starts a burst; tells how big its photos are.
async fn start_burst(phone: &Phone) -> Vec<u64> {
    let sizes = phone.session().execute_async(include_str!("burst.js"), vec![json!(3), json!(100)]).await.unwrap();
    serde_json::from_value(sizes.json().clone()).unwrap()
}

/// Waits until all of them stand on screen; gives back those that do not come.
async fn missing(phone: &Phone, acknowledged: &BTreeSet<String>) -> BTreeSet<String> {
    let start = Instant::now();
    let mut last = (0, Instant::now());
    loop {
        let shown = on_screen(phone).await.unwrap_or_default();
        let missing: BTreeSet<String> = acknowledged.difference(&shown).cloned().collect();
        if last.0 != shown.len() {
            last = (shown.len(), Instant::now());
        }
        // Lost means: the list has long stopped growing, and they are still not in it.
        if missing.is_empty() || last.1.elapsed() > Duration::from_secs(8) || start.elapsed() > PATIENCE {
            return missing;
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
}

struct Outcome {
    acknowledged: usize,
    lost: usize,
}

#[derive(PartialEq)]
enum Stop {
    AfterAll,
    AtFirstLoss,
}

/// Bursts, each cut off at a random moment.
async fn kill_in_bursts(engine: Engine, stop: Stop, inject: Vec<&'static str>, chance: &mut Chance) -> Outcome {
    let profile = Folder::new("profile");
    let host = Host::start(Serve { inject, ..Serve::default() });
    let mut phone = Phone::start(engine, profile.path()).await;
    let mut acknowledged = BTreeSet::new();
    let mut outcome = Outcome { acknowledged: 0, lost: 0 };
    for round in 1..=KILLS {
        open_survey(&phone, &host).await;
        let before = acknowledged.len();
        for size in start_burst(&phone).await {
            assert!(size > 800_000, "a photo of {size} bytes is too small to be caught in mid-write");
        }
        // Counted from the first acknowledged write on: killing before that would prove nothing.
        let mut moment = None;
        let wait = Duration::from_millis(chance.between(0, 1500));
        let start = Instant::now();
        loop {
            if let Some(shown) = on_screen(&phone).await {
                acknowledged.extend(shown);
            }
            if moment.is_none() && acknowledged.len() > before {
                moment = Some(Instant::now() + wait);
            }
            if moment.is_some_and(|moment| Instant::now() >= moment) {
                break;
            }
            assert!(start.elapsed() < PATIENCE, "{engine}: nothing was acknowledged\n{}", phone.words().await);
        }
        phone.kill();
        phone.restart().await;
        open_survey(&phone, &host).await;
        let lost = missing(&phone, &acknowledged).await;
        if !lost.is_empty() && stop == Stop::AfterAll {
            println!("    {engine}: lost, and on screen stands\n{}", phone.words().await);
        }
        println!(
            "    {engine}: kill {round} after {} ms: {} acknowledged in this burst, {} lost",
            wait.as_millis(),
            acknowledged.len() - before,
            lost.len()
        );
        outcome.lost += lost.len();
        acknowledged.retain(|id| !lost.contains(id));
        if stop == Stop::AtFirstLoss && outcome.lost > 0 {
            break;
        }
    }
    outcome.acknowledged = acknowledged.len() + outcome.lost;
    outcome
}

async fn nothing_acknowledged_is_lost(engine: Engine) {
    let mut chance = Chance::new("moments of the kills");
    let outcome = kill_in_bursts(engine, Stop::AfterAll, vec![], &mut chance).await;
    println!("    {engine}: {KILLS} kills, {} entries acknowledged, {} lost", outcome.acknowledged, outcome.lost);
    assert_eq!(outcome.lost, 0);
    assert!(outcome.acknowledged >= 2 * KILLS, "too few writes to prove anything");
}

/// The test above can fail: the same kills, at the latest by the last of them, catch an app that acknowledges before its
/// writes are durable.
async fn acknowledging_early_is_caught(engine: Engine) {
    let mut chance = Chance::new("moments of the kills");
    let outcome = kill_in_bursts(engine, Stop::AtFirstLoss, vec!["early.js"], &mut chance).await;
    assert!(outcome.lost > 0, "the early variant lost nothing in {KILLS} kills: the kill test proves nothing");
}

/// Every writing transaction really is "strict", as the browser reads it back.
async fn writes_are_strict(engine: Engine) {
    let profile = Folder::new("profile");
    let host = Host::start(Serve { inject: vec!["record.js"], ..Serve::default() });
    let phone = Phone::start(engine, profile.path()).await;
    open_survey(&phone, &host).await;
    start_burst(&phone).await;
    phone
        .until("a photo and a note are acknowledged", || async {
            on_screen(&phone).await.is_some_and(|shown| shown.len() >= 3)
        })
        .await;
    let seen: Vec<String> =
        serde_json::from_value(phone.script("return window.durabilities;", vec![]).await).unwrap();
    assert!(seen.len() >= 3, "only {} writing transactions were seen", seen.len());
    assert!(seen.iter().all(|durability| durability == "strict"), "{seen:?}");
}
