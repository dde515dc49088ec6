//! A phone that kept its jobs with an earlier schema opens with this one: every rung of the ladder in `store/mod.rs` is
//! climbed here. What each schema kept stands in `tests/samples/schema-N.json`, written once and never changed.

use serde_json::{Value, json};

use crate::harness::*;

in_every_engine!(every_earlier_schema_still_opens);

/// The schema of this build, read from its source so that a new one can't be forgotten here.
fn schema() -> u32 {
    let source = std::fs::read_to_string(project().join("src/store/mod.rs")).unwrap();
    let (_, after) = source.split_once("pub const SCHEMA: u32 = ").expect("the store names its schema");
    after.split(';').next().unwrap().parse().unwrap()
}

async fn every_earlier_schema_still_opens(engine: Engine) {
    for earlier in 1..schema() {
        let file = project().join(format!("tests/samples/schema-{earlier}.json"));
        let kept: Value = std::fs::read_to_string(&file)
            .ok()
            .and_then(|text| serde_json::from_str(&text).ok())
            .unwrap_or_else(|| panic!("schema {earlier} was never exercised: {} is missing", file.display()));
        let profile = Folder::new("ladder");
        let host = Host::start(Serve::default());
        let phone = Phone::start(engine, profile.path()).await;
        // A file of the same origin that starts no app; Firefox shows JSON in a viewer of another origin.
        phone.open(&format!("{}boot.js", host.url)).await;
        assert_eq!(phone.async_script(BUILD, vec![kept.clone()]).await, json!("built"));
        phone.open(&host.url).await;
        phone.see(kept["name"].as_str().unwrap()).await;
        assert_eq!(phone.async_script(STANDS, vec![]).await["version"], json!(schema()));
        let stands = phone.async_script(STANDS, vec![]).await;
        assert_eq!(stands["entries"], kept["stores"]["entries"], "the entries changed on the way up");
        // And it can be written in.
        phone.go("#/stage/survey").await;
        phone.fill("note-text", "after the climb").await;
        phone.click("note-save").await;
        phone.wait_for("saved").await;
        let now = phone.async_script(STANDS, vec![]).await;
        let count = |v: &Value| v["entries"].as_object().unwrap().len();
        assert_eq!(count(&now), count(&stands) + 1);
    }
}

/// Builds a database as that schema did.
const BUILD: &str = "
    const kept = arguments[0];
    const open = indexedDB.open('coatwalk', kept.schema);
    open.onerror = () => done(String(open.error));
    open.onupgradeneeded = () => Object.keys(kept.stores).forEach((name) => open.result.createObjectStore(name));
    open.onsuccess = () => {
      const names = Object.keys(kept.stores);
      const transaction = open.result.transaction(names, 'readwrite');
      for (const name of names)
        for (const [key, value] of Object.entries(kept.stores[name])) transaction.objectStore(name).put(value, key);
      transaction.oncomplete = () => (open.result.close(), done('built'));
      transaction.onabort = () => done(String(transaction.error));
    };";

/// The version and every entry as they stand.
const STANDS: &str = "
    const open = indexedDB.open('coatwalk');
    open.onerror = () => done(String(open.error));
    open.onsuccess = () => {
      const store = open.result.transaction('entries').objectStore('entries');
      const keys = store.getAllKeys();
      const values = store.getAll();
      values.onsuccess = () => {
        const entries = Object.fromEntries(keys.result.map((key, i) => [key, values.result[i]]));
        const version = open.result.version;
        open.result.close();
        done({ version, entries });
      };
    };";
