//! The pictures in README.md, taken from the running app: `make shots`. No test; the job in them is the invented example.
#![cfg(not(target_arch = "wasm32"))]
#![allow(dead_code, unused_imports, unused_macros)]

mod harness;

use harness::{Engine, Folder, Host, Phone, Serve, project};

fn main() {
    tokio::runtime::Builder::new_multi_thread().enable_all().build().unwrap().block_on(take());
}

async fn take() {
    let profile = Folder::new("shots");
    let host = Host::start(Serve::default());
    let phone = Phone::start(Engine::Chromium, profile.path()).await;
    let folder = project().join("docs/shots");
    phone.open(&host.url).await;
    phone.wait_ready_offline().await;
    phone.click("ready-offline-ok").await;
    phone.click("look-round").await;
    phone.wait_for("go").await;
    let places = [
        ("today", "#/", "[data-id=go]"),
        ("stage", "#/stage/first-pass", "[data-id=made-safe]"),
        ("machine", "#/machine", "svg.machine"),
        ("plan", "#/plan", "[data-id=plan-dates]"),
        ("buy", "#/plan/buy", "[data-id=buy-answer]"),
        ("sum", "#/sums/air", "[data-id=picture]"),
        ("record", "#/record", "[data-id=timeline]"),
    ];
    for (name, hash, wait) in places {
        phone.go(hash).await;
        phone.wait_for(wait).await;
        tokio::time::sleep(std::time::Duration::from_millis(400)).await;
        phone.script("scrollTo(0, 0);", vec![]).await;
        phone.shot(&folder.join(format!("{name}.png"))).await;
        println!("docs/shots/{name}.png");
    }
}
