//! One browser at phone size with a profile that outlives it.

use std::fmt;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use serde_json::{Value, json};
use thirtyfour::bidi::modules::browsing_context::Viewport;
use thirtyfour::prelude::*;

use super::process::{Owned, descendants, first_line, free_port, kill_all, start, wait_for_port};
use super::{PATIENCE, beside};

const WIDTH: u32 = 360;
const HEIGHT: u32 = 640;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Engine {
    Chromium,
    Firefox,
    WebKit,
}

impl Engine {
    /// Does `ENGINES` (default: all) name this one?
    pub fn asked_for(self) -> bool {
        const ALL: [&str; 3] = ["chromium", "firefox", "webkit"];
        let Ok(list) = std::env::var("ENGINES") else { return true };
        let names: Vec<&str> = list.split(',').map(str::trim).filter(|name| !name.is_empty()).collect();
        for name in &names {
            assert!(ALL.contains(name), "ENGINES knows {ALL:?}, not {name:?}");
        }
        names.is_empty() || names.contains(&self.to_string().as_str())
    }
}

impl fmt::Display for Engine {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Chromium => "chromium",
            Self::Firefox => "firefox",
            Self::WebKit => "webkit",
        })
    }
}

/// A running browser. Dropping it ends the browser and its driver.
pub struct Phone {
    pub engine: Engine,
    profile: PathBuf,
    notifying: String,
    /// More arguments for Chromium.
    more: Vec<String>,
    session: Option<WebDriver>,
    // Dropped after the session: the driver first, then the screen it draws on.
    driver: Option<Owned>,
    _screen: Option<Owned>,
    display: Option<String>,
}

impl Phone {
    /// Starts the engine on `profile`, which keeps everything the browser stores.
    pub async fn start(engine: Engine, profile: &Path) -> Self {
        Self::start_notifying(engine, profile, "").await
    }

    /// The same, with the app at `url` allowed to notify in the WebKit host, which has to know at its start.
    pub async fn start_notifying(engine: Engine, profile: &Path, url: &str) -> Self {
        Self::start_as(engine, profile, url, vec![]).await
    }

    /// The same, with more arguments for Chromium: a camera that plays a file, for one.
    pub async fn start_with(engine: Engine, profile: &Path, more: Vec<String>) -> Self {
        Self::start_as(engine, profile, "", more).await
    }

    async fn start_as(engine: Engine, profile: &Path, url: &str, more: Vec<String>) -> Self {
        let (screen, display) = if engine == Engine::WebKit { own_screen() } else { (None, None) };
        // The origin alone: scheme, two slashes and host.
        let notifying = url.splitn(4, '/').take(3).collect::<Vec<_>>().join("/");
        let profile = profile.to_owned();
        let mut phone =
            Self { engine, profile, notifying, more, session: None, driver: None, _screen: screen, display };
        phone.start_browser().await;
        phone
    }

    async fn start_browser(&mut self) {
        let port = free_port();
        self.driver = Some(Owned(start(&mut self.driver_command(port))));
        wait_for_port(port, PATIENCE);
        let session = WebDriver::new(format!("http://127.0.0.1:{port}"), self.capabilities())
            .await
            .unwrap_or_else(|error| panic!("{} gives no session: {error}", self.engine));
        session.set_script_timeout(PATIENCE).await.unwrap();
        session.set_page_load_timeout(PATIENCE).await.unwrap();
        self.session = Some(session);
        self.make_phone_sized().await;
    }

    fn driver_command(&self, port: u16) -> Command {
        let mut command = match self.engine {
            Engine::Chromium => {
                let mut command = Command::new("chromedriver");
                command.arg(format!("--port={port}"));
                command
            }
            Engine::Firefox => {
                // A killed Firefox leaves the port of its last life in its profile.
                let _ = std::fs::remove_file(self.profile.join("MarionetteActivePort"));
                let mut command = Command::new("geckodriver");
                command.args(["--port", &port.to_string(), "--websocket-port", "0", "--log", "fatal"]);
                command
            }
            Engine::WebKit => {
                let mut command = Command::new("WebKitWebDriver");
                command.arg(format!("--port={port}"));
                command.env("DISPLAY", self.display.as_deref().unwrap()).env("GDK_BACKEND", "x11");
                command.env("NO_AT_BRIDGE", "1").env("LIBGL_ALWAYS_SOFTWARE", "1");
                command
            }
        };
        command.stdout(Stdio::null()).stderr(Stdio::null());
        command
    }

    fn capabilities(&self) -> Capabilities {
        let profile = self.profile.display();
        let mut capabilities = Capabilities::new();
        let mut set = |key: &str, value: Value| capabilities.set(key, value).unwrap();
        match self.engine {
            Engine::Chromium => {
                set("browserName", json!("chrome"));
                let mut args: Vec<String> = [
                    "--headless=new",
                    "--no-sandbox",
                    "--disable-gpu",
                    "--disable-dev-shm-usage",
                    "--no-first-run",
                    "--disable-background-networking",
                    "--disable-component-update",
                    "--disable-sync",
                ]
                .map(str::to_owned)
                .to_vec();
                args.push(format!("--user-data-dir={profile}"));
                args.extend(self.more.iter().cloned());
                set("goog:loggingPrefs", json!({ "performance": "ALL", "browser": "ALL" }));
                set(
                    "goog:chromeOptions",
                    json!({
                        "args": args,
                        "mobileEmulation": {
                            "deviceMetrics": { "width": WIDTH, "height": HEIGHT, "pixelRatio": 2, "touch": true, "mobile": true }
                        },
                    }),
                );
            }
            Engine::Firefox => {
                set("browserName", json!("firefox"));
                set("webSocketUrl", json!(true));
                set(
                    "moz:firefoxOptions",
                    json!({
                        "args": ["-headless", "-profile", profile.to_string()],
                        "prefs": {
                            // The storage prompt cannot be answered headless; this answers yes.
                            "dom.storageManager.prompt.testing": true,
                            "dom.storageManager.prompt.testing.allow": true,
                            // Nobody is there to answer: the microphone is refused.
                            "permissions.default.microphone": 2,
                            // A killed browser must come back as itself, not in safe mode or with its old tabs.
                            "toolkit.startup.max_resumed_crashes": -1,
                            "browser.sessionstore.resume_from_crash": false,
                        },
                    }),
                );
            }
            Engine::WebKit => {
                set("browserName", json!("host"));
                set(
                    "webkitgtk:browserOptions",
                    json!({
                        "binary": beside("webkit_host.py"),
                        "args": [format!("--profile={profile}"), format!("--size={WIDTH}x{HEIGHT}"), format!("--notify={}", self.notifying)],
                    }),
                );
            }
        }
        capabilities
    }

    /// The current tab is 360 × 640 CSS pixels. Chromium and the WebKit host are started so.
    pub async fn make_phone_sized(&self) {
        if self.engine == Engine::Firefox {
            let bidi = self.session().bidi().await.unwrap();
            let tab = self.session().window().await.unwrap().to_string();
            bidi.browsing_context()
                .set_viewport(tab.into(), Some(Viewport { width: WIDTH, height: HEIGHT }))
                .await
                .unwrap();
        }
    }

    /// The WebDriver session, for what has no step of its own.
    pub fn session(&self) -> &WebDriver {
        self.session.as_ref().expect("the browser is running")
    }

    /// Kills the browser with all its processes, as a phone does that runs out of memory: no event, no goodbye.
    pub fn kill(&mut self) {
        let Some(driver) = &self.driver else { return };
        kill_all(&descendants(driver.0.id()));
        self.end();
    }

    /// Starts the browser again on the same profile.
    pub async fn restart(&mut self) {
        self.kill();
        self.start_browser().await;
    }

    fn end(&mut self) {
        if let Some(session) = self.session.take() {
            // Nobody is left to say goodbye to.
            let _ = session.leak();
        }
        self.driver = None;
    }
}

impl Drop for Phone {
    fn drop(&mut self) {
        self.end();
    }
}

/// An X server of our own: WebKitGTK has no headless mode.
fn own_screen() -> (Option<Owned>, Option<String>) {
    let mut command = Command::new("Xvfb");
    command.args(["-displayfd", "1", "-screen", "0", "1024x1024x24", "-nolisten", "tcp"]);
    let mut screen = Owned(start(command.stdout(Stdio::piped()).stderr(Stdio::null())));
    let number = first_line(&mut screen.0);
    (Some(screen), Some(format!(":{number}")))
}
