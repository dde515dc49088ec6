//! No signal, no server, no other origin: what a farmer behind the shed has.

use std::process::Command;

use serde_json::{Value, json};

use crate::harness::*;

in_every_engine!(
    starts_with_the_server_stopped,
    starts_under_a_sub_path,
    no_breach_of_the_policy_and_no_other_origin,
    a_new_version_waits_until_asked,
);

/// First load with the server on, everything after it with the server off; also after the browser was killed.
async fn first_load_then_none(engine: Engine, prefix: &str) {
    let profile = Folder::new("profile");
    let mut host = Host::start(Serve { prefix: prefix.to_owned(), ..Serve::default() });
    let mut phone = Phone::start(engine, profile.path()).await;
    phone.open(&host.url).await;
    assert_eq!(phone.script("return [innerWidth, innerHeight];", vec![]).await, json!([360, 640]));
    phone.wait_ready_offline().await;
    wait_until_started(&phone).await;

    host.stop();
    let reached = "fetch('_headers?' + Math.random()).then(() => done(true), () => done(false));";
    assert_eq!(phone.async_script(reached, vec![]).await, json!(false), "the server still answers");

    phone.reload().await;
    wait_until_started(&phone).await;
    phone.restart().await;
    phone.open(&host.url).await;
    wait_until_started(&phone).await;
    phone.open(&format!("{}index.html#/sums", host.url)).await;
    wait_until_started(&phone).await;
}

/// The app has put its own screen in the place of the first paint.
async fn wait_until_started(phone: &Phone) {
    phone
        .until("the app starts", || async { phone.has("#app").await && !phone.has("#app .first-paint").await })
        .await;
    assert!(!phone.has("#stopped").await, "{}", phone.words().await);
}

async fn starts_with_the_server_stopped(engine: Engine) {
    first_load_then_none(engine, "").await;
}

async fn starts_under_a_sub_path(engine: Engine) {
    first_load_then_none(engine, "/our/tools/coatwalk").await;
}

async fn no_breach_of_the_policy_and_no_other_origin(engine: Engine) {
    let profile = Folder::new("profile");
    let host = Host::start(Serve { inject: vec!["watch.js"], ..Serve::default() });
    let phone = Phone::start(engine, profile.path()).await;
    phone.open(&host.url).await;
    phone.wait_ready_offline().await;
    wait_until_started(&phone).await;

    assert_eq!(phone.script("return window.breaches;", vec![]).await, json!([]));
    let loaded =
        phone.script("return performance.getEntriesByType('resource').map((entry) => entry.name);", vec![]).await;
    let loaded: Vec<String> = serde_json::from_value(loaded).unwrap();
    assert!(
        loaded.iter().any(|url| url.ends_with(".wasm")),
        "the list of requests is empty or incomplete: {loaded:?}"
    );
    for url in &loaded {
        assert!(url.starts_with(&host.url), "{url} is not of this origin");
    }

    // The watch does see a breach: an inline style, inline script, and a request to somewhere else.
    let breach = "document.body.setAttribute('style', 'color: red');
        fetch('http://127.0.0.1:9/').then(() => done('reached'), () => done('refused'));";
    assert_eq!(phone.async_script(breach, vec![]).await, json!("refused"));
    phone
        .until("both breaches are seen", || async {
            let seen = phone.script("return window.breaches.join(' ');", vec![]).await.to_string();
            seen.contains("style-src") && seen.contains("connect-src")
        })
        .await;
}

/// What Chromium itself holds against installing the app.
#[test]
fn chromium_finds_it_installable() {
    run(Engine::Chromium, "chromium_finds_it_installable", |engine| async move {
        let profile = Folder::new("profile");
        let host = Host::start(Serve::default());
        let phone = Phone::start(engine, profile.path()).await;
        phone.open(&host.url).await;
        phone.wait_ready_offline().await;
        let errors = phone.session().cdp().send_raw("Page.getInstallabilityErrors", json!({})).await.unwrap();
        assert_eq!(errors["installabilityErrors"], json!([]));
        let manifest = phone.session().cdp().send_raw("Page.getAppManifest", json!({})).await.unwrap();
        assert_eq!(manifest["errors"], json!([]));
        assert_eq!(manifest["url"], json!(format!("{}manifest.webmanifest", host.url)));

        // The question can be answered with no: without its manifest the page is not installable.
        phone.script("document.querySelector('link[rel=manifest]').remove();", vec![]).await;
        let errors = phone.session().cdp().send_raw("Page.getInstallabilityErrors", json!({})).await.unwrap();
        assert_ne!(errors["installabilityErrors"], json!([]));
    });
}

/// Every request the network stack of Chromium was given, the service worker's own loads apart.
#[test]
fn chromium_asks_no_other_origin() {
    run(Engine::Chromium, "chromium_asks_no_other_origin", |engine| async move {
        let profile = Folder::new("profile");
        let host = Host::start(Serve::default());
        let phone = Phone::start(engine, profile.path()).await;
        phone.open(&host.url).await;
        phone.wait_ready_offline().await;
        wait_until_started(&phone).await;
        let mut asked = Vec::new();
        for line in phone.session().get_log("performance").await.unwrap() {
            let line: Value = serde_json::from_str(&line.message).unwrap();
            if line["message"]["method"] == "Network.requestWillBeSent" {
                asked.push(line["message"]["params"]["request"]["url"].as_str().unwrap().to_owned());
            }
        }
        assert!(asked.iter().any(|url| url.ends_with(".wasm")), "the log is incomplete: {asked:?}");
        for url in &asked {
            // chrome: is the browser's own start page, behind us.
            let own = [host.url.as_str(), "data:", "blob:", "chrome:"].iter().any(|start| url.starts_with(start));
            assert!(own, "{url} is not of this origin");
        }
    });
}

/// A second build with one more line on its first paint, finished like the first.
fn newer_build(to: &Folder) {
    copy_folder(&dist(), to.path());
    let page = to.path().join("index.html");
    let html = std::fs::read_to_string(&page).unwrap();
    std::fs::write(&page, html.replace("<html lang=\"en\"", "<html data-newer=\"yes\" lang=\"en\"")).unwrap();
    let finished = Command::new("node")
        .args(["tools/finish.mjs", "--dir"])
        .arg(to.path())
        .current_dir(project())
        .output()
        .unwrap();
    assert!(finished.status.success(), "{}", String::from_utf8_lossy(&finished.stderr));
}

async fn a_new_version_waits_until_asked(engine: Engine) {
    let profile = Folder::new("profile");
    let newer = Folder::new("newer");
    newer_build(&newer);
    let mut host = Host::start(Serve::default());
    let phone = Phone::start(engine, profile.path()).await;
    phone.open(&host.url).await;
    phone.wait_ready_offline().await;
    assert_eq!(phone.script("return document.documentElement.dataset.offline;", vec![]).await, json!("just-ready"));

    host.serve_folder(newer.path());
    host.restart();
    phone.reload().await;
    phone.until("the update waits", || async { phone.has("html[data-update=waiting]").await }).await;
    assert_eq!(phone.script("return document.documentElement.dataset.offline;", vec![]).await, json!("ready"));
    // Nobody agreed yet: a reload still shows the old version.
    phone.reload().await;
    assert!(!phone.has("html[data-newer]").await);
    phone.until("the update still waits", || async { phone.has("html[data-update=waiting]").await }).await;

    phone.script("window.coatwalkTakeUpdate();", vec![]).await;
    phone.until("the new version is on screen", || async { phone.has("html[data-newer]").await }).await;
    wait_until_started(&phone).await;
    phone
        .until("only the new cache is left", || async {
            phone.async_script("caches.keys().then((names) => done(names.length));", vec![]).await == json!(1)
        })
        .await;
    host.stop();
    phone.reload().await;
    wait_until_started(&phone).await;
    assert!(phone.has("html[data-newer]").await);
}
