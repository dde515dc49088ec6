//! The air-out clock: it runs on over a reload and a kill, and rings when it is over, where the browser lets it.

use serde_json::json;

use crate::harness::*;

in_every_engine!(the_air_out_clock_outlives_a_kill_and_rings_or_says_that_it_cannot);

/// A trailer with both passes behind it, at the air-out.
async fn at_air_out(phone: &Phone) {
    phone.click("start-job").await;
    phone.click("kind-trailer").await;
    phone.fill("job-name", "Ring").await;
    phone.click("open-job").await;
    phone.wait_for("go").await;
    phone.before_second_pass().await;
    phone.reading("20", "50", "19").await;
    phone.in_one().await;
    phone.go("#/stage/air-out").await;
    phone.wait_for("clock-air-out").await;
}

async fn the_air_out_clock_outlives_a_kill_and_rings_or_says_that_it_cannot(engine: Engine) {
    let profile = Folder::new("ring");
    let host = Host::start(Serve::default());
    let mut phone = Phone::start_notifying(engine, profile.path(), &host.url).await;
    phone.permit("notifications").await;
    phone.open(&host.url).await;
    phone.wait_ready_offline().await;
    phone.click("ready-offline-ok").await;
    at_air_out(&phone).await;
    assert_eq!(phone.text("clock-left").await, "48 h 0 min");

    // The clock is reckoned from the log: a kill changes nothing.
    phone.restart().await;
    phone.permit("notifications").await;
    phone.open(&format!("{}#/stage/air-out", host.url)).await;
    phone.wait_for("clock-air-out").await;
    assert!(["48 h 0 min", "47 h 59 min"].contains(&phone.text("clock-left").await.as_str()));

    // What the app says of ringing is true: with leave it rings, without it says so.
    let leave = phone.script("return window.Notification ? Notification.permission : 'none';", vec![]).await;
    if engine == Engine::Chromium {
        assert_eq!(leave, json!("granted"));
    }
    if leave == json!("granted") {
        assert!(phone.text("ring-words").await.contains("A sleeping phone may not ring"));
        // The app looks at the clock once a second, and rings when it sees it run out.
        phone.minutes_pass(1.0).await;
        phone.minutes_pass(48.0 * 60.0).await;
        phone.until("the clock is over", || async { phone.text("clock-left").await == "over" }).await;
        let shown = "navigator.serviceWorker.ready.then((r) => r.getNotifications())
            .then((all) => done(all.map((n) => n.title)), (error) => done(String(error)));";
        phone
            .until("it rings", || async {
                phone.async_script(shown, vec![]).await == json!(["Air out: ready since 1 min"])
            })
            .await;
    } else if leave == json!("default") {
        phone.wait_for("allow-ring").await;
    } else {
        assert!(phone.text("ring-words").await.contains("Set the phone's own alarm"));
    }
}
