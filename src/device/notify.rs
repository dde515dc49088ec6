//! Notifications through the service worker. They come only while the app lives: a sleeping phone may not ring, and
//! the screen says so.
//!
//! May use: Notification, the service worker. Must not: keep clocks; the session does.

use js_sys::{Array, Object, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

use super::{call, navigator_has, window, within};

/// What the phone says about notifications.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Allowed {
    Yes,
    No,
    NotAsked,
    Unsupported,
}

/// What it says now, without asking.
pub fn allowed() -> Allowed {
    let Some(class) = class() else { return Allowed::Unsupported };
    match Reflect::get(&class, &"permission".into()).ok().and_then(|p| p.as_string()).as_deref() {
        Some("granted") => Allowed::Yes,
        Some("denied") => Allowed::No,
        _ => Allowed::NotAsked,
    }
}

/// Asks; must be called from a tap.
pub async fn ask() -> Allowed {
    let asked = class().and_then(|c| call(&c, "requestPermission", &Array::new()));
    if let Some(promise) = asked.and_then(|p| p.dyn_into::<Promise>().ok()) {
        within(60_000, promise).await;
    }
    allowed()
}

/// Shows one. `tag` makes a later one replace it; `address` is where a tap on it leads; each of the `buttons` has a word
/// that comes back as "coatwalk-action" and what stands on it, and is left out where the phone shows none.
///
/// # Errors
/// Words for the screen when it could not be shown.
pub async fn show(
    title: &str,
    body: &str,
    tag: &str,
    address: &str,
    buttons: &[(String, &str)],
) -> Result<(), String> {
    if allowed() != Allowed::Yes {
        return Err("Notifications are not allowed for this app.".into());
    }
    let options = Object::new();
    let data = Object::new();
    let set = |o: &Object, k: &str, v: &JsValue| Reflect::set(o, &k.into(), v).is_ok();
    set(&data, "url", &address.into());
    set(&options, "body", &body.into());
    set(&options, "tag", &tag.into());
    set(&options, "icon", &"icons/icon-192.png".into());
    set(&options, "data", &data);
    let actions = Array::new();
    for (word, title) in buttons {
        let action = Object::new();
        set(&action, "action", &word.into());
        set(&action, "title", &(*title).into());
        actions.push(&action);
    }
    set(&options, "actions", &actions);
    let workers = navigator_has("serviceWorker").ok_or("This browser has no service worker.")?;
    let ready = Reflect::get(&workers, &"ready".into()).ok().and_then(|r| r.dyn_into::<Promise>().ok());
    let registration = within(5_000, ready.ok_or("The app is not installed for no signal yet.")?)
        .await
        .ok_or("The app is not installed for no signal yet.")?;
    let shown = call(&registration, "showNotification", &Array::of2(&title.into(), &options))
        .and_then(|p| p.dyn_into::<Promise>().ok())
        .ok_or("This browser shows no notifications.")?;
    JsFuture::from(shown).await.map(|_| ()).map_err(|_| "The phone would not show the notification.".into())
}

fn class() -> Option<JsValue> {
    let w: JsValue = window().into();
    Reflect::get(&w, &"Notification".into()).ok().filter(|v| !v.is_undefined())
}
