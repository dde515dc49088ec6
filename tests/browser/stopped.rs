//! When the app cannot run, boot.js still gets the log out.

use serde_json::json;

use crate::harness::*;

in_every_engine!(a_missing_part_is_said_plainly, a_stopped_app_gives_its_log);

/// The WebAssembly file does not come: the card stands there, and an empty log is called empty.
async fn a_missing_part_is_said_plainly(engine: Engine) {
    let broken = Folder::new("broken");
    copy_folder(&dist(), broken.path());
    for entry in std::fs::read_dir(broken.path()).unwrap().flatten() {
        if entry.file_name().to_string_lossy().contains(".wasm") {
            std::fs::remove_file(entry.path()).unwrap();
        }
    }
    let profile = Folder::new("profile");
    let host = Host::start(Serve { dir: Some(broken.path().to_owned()), ..Serve::default() });
    let phone = Phone::start(engine, profile.path()).await;
    phone.open(&host.url).await;
    phone.wait_for("#stopped").await;
    phone.see("Coatwalk stopped").await;
    phone.click("stopped-save").await;
    phone.see("The log on this phone is empty.").await;
    let made = "indexedDB.databases().then((all) => done(all.filter((db) => db.name === 'coatwalk').length));";
    assert_eq!(phone.async_script(made, vec![]).await, json!(0), "asking left an empty database behind");
}

/// After a trap in the WebAssembly (what a Rust panic ends in) the log is written out line by line.
async fn a_stopped_app_gives_its_log(engine: Engine) {
    let profile = Folder::new("profile");
    let host = Host::start(Serve { inject: vec!["rescue.js"], ..Serve::default() });
    let phone = Phone::start(engine, profile.path()).await;
    phone.open(&host.url).await;
    phone.wait_ready_offline().await;
    let lines = ["{\"kind\":\"note\",\"text\":\"left arm, rust under the decal\"}", "{\"kind\":\"done\"}"];
    phone.async_script(WRITE_TWO, vec![json!(lines)]).await;

    phone.script("document.dispatchEvent(new Event('test-only-trap'));", vec![]).await;
    phone.wait_for("#stopped").await;
    phone.click("stopped-save").await;
    phone.see("2 entries written to coatwalk-log.txt.").await;
    let saved = phone.async_script("window.savedFile.then(done);", vec![]).await;
    assert_eq!(saved, json!(lines.map(|line| format!("{line}\n")).concat()));
}

/// Two entries put straight into the app's own store; makes it if the app has not yet.
const WRITE_TWO: &str = "
    const lines = arguments[0];
    const open = indexedDB.open('coatwalk');
    open.onupgradeneeded = () => open.result.createObjectStore('entries');
    open.onerror = () => done(String(open.error));
    open.onsuccess = () => {
      const transaction = open.result.transaction('entries', 'readwrite');
      lines.forEach((line, i) => transaction.objectStore('entries').put(line, `test/${i}`));
      transaction.oncomplete = () => (open.result.close(), done('written'));
      transaction.onabort = () => done(String(transaction.error));
    };";
