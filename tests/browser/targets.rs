//! No tiny targets: every screen at 360 × 640, and on it everything that can be tapped, by its size, its name, what covers
//! it, and the contrast of every word on the light and the dark ground.
//!
//! Sizes are the project's own (work 80 px high, everything else 48 px, the work view 112 px); contrast is WCAG 2.2, 1.4.3.

use std::collections::{BTreeMap, BTreeSet, VecDeque};

use serde_json::json;

use crate::harness::*;

in_every_engine!(every_screen_can_be_tapped_with_gloves);

/// One screen of each sort is enough: ids are left out, of a stage's areas the first is taken.
fn sort_of(address: &str) -> String {
    let part = |p: &str| if p.len() == 36 && p.matches('-').count() == 4 { "ID".to_owned() } else { p.to_owned() };
    address.split('/').map(part).collect::<Vec<_>>().join("/")
}

async fn every_screen_can_be_tapped_with_gloves(engine: Engine) {
    let profile = Folder::new("targets");
    let host = Host::start(Serve::default());
    let phone = Phone::start(engine, profile.path()).await;
    phone.open(&host.url).await;
    phone.wait_ready_offline().await;
    phone.click("ready-offline-ok").await;
    let mut wrong: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    let (mut screens, mut targets) = (0, 0);
    look(&phone, "welcome", &mut wrong, &mut targets).await;
    phone.click("look-round").await;
    phone.wait_for("go").await;

    // From link to link, until no sort of screen is new.
    let mut to_see = VecDeque::from(["#/".to_owned(), "#/work".into()]);
    let mut known: BTreeSet<String> = to_see.iter().cloned().collect();
    while let Some(address) = to_see.pop_front() {
        phone.go(&address).await;
        phone.wait_for("#screen h1").await;
        // What is fetched or drawn after the title.
        tokio::time::sleep(std::time::Duration::from_millis(150)).await;
        phone.script("document.querySelectorAll('details').forEach((d) => (d.open = true));", vec![]).await;
        screens += 1;
        look(&phone, &sort_of(&address), &mut wrong, &mut targets).await;
        let links = "return [...document.querySelectorAll('a[href^=\"#\"]')].map((a) => a.getAttribute('href'));";
        let links: Vec<String> = serde_json::from_value(phone.script(links, vec![]).await).unwrap();
        for link in links {
            if known.insert(sort_of(&link)) {
                to_see.push_back(link);
            }
        }
    }

    // The work view's two buttons.
    phone.go("#/work").await;
    let heights =
        "return [...document.querySelectorAll('.work-buttons button')].map((b) => b.getBoundingClientRect().height);";
    phone.wait_for("work-done").await;
    let heights: Vec<f64> = serde_json::from_value(phone.script(heights, vec![]).await).unwrap();
    assert!(heights.len() == 2 && heights.iter().all(|h| *h >= 112.0), "{heights:?}");

    println!("    {engine}: {screens} screens, {targets} things to tap");
    let told: Vec<String> = wrong
        .iter()
        .map(|(what, where_)| {
            format!("{what}\n        on {}", where_.iter().take(4).cloned().collect::<Vec<_>>().join(", "))
        })
        .collect();
    assert!(told.is_empty(), "{} faults:\n{}", told.len(), told.join("\n"));
    assert!(screens > 60 && targets > 600, "{screens} screens, {targets} targets: too few to prove anything");
}

async fn look(phone: &Phone, screen: &str, wrong: &mut BTreeMap<String, BTreeSet<String>>, targets: &mut u64) {
    let found = phone.script(include_str!("targets.js"), vec![json!(screen)]).await;
    *targets += found[1].as_u64().unwrap();
    for fault in found[0].as_array().unwrap() {
        wrong.entry(fault.as_str().unwrap().to_owned()).or_default().insert(screen.to_owned());
    }
}
