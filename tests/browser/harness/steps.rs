//! The steps tests are told in. `what` is a `data-id` when it is a plain word such as `note-save`, else a CSS selector.
//! Each step waits for what it needs and fails with what the screen showed instead.

use std::future::Future;
use std::path::Path;
use std::time::{Duration, Instant};

use serde_json::{Value, json};
use thirtyfour::prelude::*;

use super::{Engine, PATIENCE, Phone};

fn selector(what: &str) -> String {
    let plain = what.chars().all(|c| c.is_ascii_alphanumeric() || c == '-' || c == '_');
    if plain { format!(r#"[data-id="{what}"]"#) } else { what.to_owned() }
}

impl Phone {
    /// Opens an address.
    pub async fn open(&self, url: &str) {
        if let Err(error) = self.session().goto(url).await {
            panic!("{}: {url} does not open: {error}", self.engine);
        }
    }

    /// Goes to a place in the app, as its own links do: the page stays.
    pub async fn go(&self, hash: &str) {
        self.script("location.hash = arguments[0];", vec![json!(hash)]).await;
        self.wait_for("#screen h1").await;
    }

    /// Loads the page again. Through script: the driver's own refresh shows Firefox's error page when the server is off.
    pub async fn reload(&self) {
        self.script("window.beforeReload = true; setTimeout(() => location.reload(), 0);", vec![]).await;
        self.until("the page loads again", || async {
            self.try_script("return !window.beforeReload && document.readyState === 'complete';", vec![]).await
                == Some(json!(true))
        })
        .await;
    }

    /// Runs script in the page and gives back what it returns; arguments are `arguments[0]`, ….
    pub async fn script(&self, script: &str, arguments: Vec<Value>) -> Value {
        match self.session().execute(script, arguments).await {
            Ok(value) => value.json().clone(),
            Err(error) => panic!("{}: script fails: {error}\n{script}", self.engine),
        }
    }

    /// The same for script that ends by calling `done(value)`.
    pub async fn async_script(&self, script: &str, arguments: Vec<Value>) -> Value {
        let script = format!("const done = arguments[arguments.length - 1];\n{script}");
        match self.session().execute_async(script.as_str(), arguments).await {
            Ok(value) => value.json().clone(),
            Err(error) => panic!("{}: script fails: {error}\n{script}", self.engine),
        }
    }

    /// The same, or nothing while the page is between two loads.
    pub async fn try_script(&self, script: &str, arguments: Vec<Value>) -> Option<Value> {
        self.session().execute(script, arguments).await.ok().map(|value| value.json().clone())
    }

    /// Polls until the condition holds.
    pub async fn until<F: Future<Output = bool>>(&self, what: &str, mut holds: impl FnMut() -> F) {
        let start = Instant::now();
        while !holds().await {
            if start.elapsed() > PATIENCE {
                panic!("{}: waited {PATIENCE:?} in vain: {what}\nOn screen:\n{}", self.engine, self.words().await);
            }
            tokio::time::sleep(Duration::from_millis(30)).await;
        }
    }

    /// Everything that can be read on screen.
    pub async fn words(&self) -> String {
        let words = self.try_script("return location.href + '\\n' + document.body.innerText;", vec![]).await;
        words.and_then(|value| value.as_str().map(str::to_owned)).unwrap_or_else(|| "(no page)".to_owned())
    }

    /// Waits for an element that is there and visible.
    pub async fn wait_for(&self, what: &str) -> WebElement {
        let css = selector(what);
        let start = Instant::now();
        loop {
            if let Ok(element) = self.session().find(By::Css(css.as_str())).await
                && element.is_displayed().await.unwrap_or(false)
            {
                return element;
            }
            if start.elapsed() > PATIENCE {
                panic!("{}: {css} does not come\nOn screen:\n{}", self.engine, self.words().await);
            }
            tokio::time::sleep(Duration::from_millis(30)).await;
        }
    }

    /// Waits until nothing matches any more.
    pub async fn wait_gone(&self, what: &str) {
        let css = selector(what);
        self.until(&format!("{css} goes"), || async {
            self.session().find_all(By::Css(css.as_str())).await.is_ok_and(|found| found.is_empty())
        })
        .await;
    }

    /// Is there such an element now?
    pub async fn has(&self, what: &str) -> bool {
        self.session().find(By::Css(selector(what).as_str())).await.is_ok()
    }

    /// Taps.
    pub async fn click(&self, what: &str) {
        let start = Instant::now();
        loop {
            let element = self.wait_for(what).await;
            let _ = self
                .session()
                .execute("arguments[0].scrollIntoView({ block: 'center' });", vec![element.to_json().unwrap()])
                .await;
            // The screen may be redrawn between finding and tapping: find it anew.
            match element.click().await {
                Ok(()) => return,
                Err(error) if start.elapsed() > PATIENCE => {
                    panic!("{}: {what} cannot be tapped: {error}\nOn screen:\n{}", self.engine, self.words().await)
                }
                Err(_) => tokio::time::sleep(Duration::from_millis(50)).await,
            }
        }
    }

    /// Types into a field, after what is there.
    pub async fn type_text(&self, what: &str, text: &str) {
        self.wait_for(what).await.send_keys(text).await.unwrap();
    }

    /// Empties a field, then types into it.
    pub async fn fill(&self, what: &str, text: &str) {
        let field = self.wait_for(what).await;
        // As a person does it: the driver's own "clear" tells the page of no key.
        field.send_keys(Key::Control + "a").await.unwrap();
        field.send_keys(Key::Delete + "").await.unwrap();
        // WebKit's driver takes no empty text.
        if !text.is_empty() {
            field.send_keys(text).await.unwrap();
        }
    }

    /// Chooses an option of a `<select>` by its value.
    pub async fn choose(&self, what: &str, value: &str) {
        self.click(&format!(r#"{} option[value="{value}"]"#, selector(what))).await;
    }

    /// What an element says.
    pub async fn text(&self, what: &str) -> String {
        let start = Instant::now();
        loop {
            // The screen may be redrawn between finding and reading: find it anew.
            match self.wait_for(what).await.text().await {
                Ok(words) => return words,
                Err(error) if start.elapsed() > PATIENCE => panic!("{}: {what} cannot be read: {error}", self.engine),
                Err(_) => tokio::time::sleep(Duration::from_millis(30)).await,
            }
        }
    }

    /// Waits until the words stand on screen.
    pub async fn see(&self, words: &str) {
        self.until(&format!("see {words:?}"), || async { self.words().await.contains(words) }).await;
    }

    /// Gives a file input a file from disk, as the camera does; the input may be hidden.
    pub async fn upload(&self, what: &str, file: &Path) {
        let css = selector(what);
        let path = file.canonicalize().unwrap_or_else(|error| panic!("{}: {error}", file.display()));
        let input = self.session().find(By::Css(css.as_str())).await.unwrap_or_else(|error| panic!("{css}: {error}"));
        input.send_keys(path.to_str().unwrap()).await.unwrap();
    }

    /// A picture of the screen as PNG.
    pub async fn shot(&self, file: &Path) {
        std::fs::create_dir_all(file.parent().unwrap()).unwrap();
        std::fs::write(file, self.session().screenshot_as_png().await.unwrap()).unwrap();
    }

    /// Opens one more tab, phone-sized, and turns to it.
    pub async fn new_tab(&self) -> WindowHandle {
        let tab = self.session().new_tab().await.unwrap();
        self.turn_to(&tab).await;
        self.make_phone_sized().await;
        tab
    }

    pub async fn turn_to(&self, tab: &WindowHandle) {
        self.session().switch_to_window(tab.clone()).await.unwrap();
    }

    /// Answers a permission question beforehand with yes, such as `notifications` or `persistent-storage`. Only Chromium
    /// needs it: Firefox is told by preferences, the WebKit host at its start.
    pub async fn permit(&self, name: &str) {
        if self.engine == Engine::Chromium {
            let permission = json!({ "permission": { "name": name }, "setting": "granted" });
            self.session().cdp().send_raw("Browser.setPermission", permission).await.unwrap();
        }
    }

    /// Waits until the whole app is stored for a start without signal.
    pub async fn wait_ready_offline(&self) {
        self.until("html[data-offline]", || async { self.has("html[data-offline]").await }).await;
    }
}
