//! Handing text to another app through the phone's share sheet, and to a printer.
//!
//! May use: `navigator.share` where the browser has it. Must not: know what the text says.

use js_sys::{Array, Object, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

use super::{call, navigator_has, window};

/// What came of it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Shared {
    /// Another app has it.
    Yes,
    /// The user closed the share sheet.
    PutAway,
    /// This browser has no share sheet, or would not open it: hand it over some other way.
    NoSheet,
}

/// True where the browser has a share sheet.
pub fn has_sheet() -> bool {
    navigator_has("share").is_some()
}

/// Opens the share sheet with a text. To be called from a tap: browsers refuse it at any other time.
pub async fn text(title: &str, text: &str) -> Shared {
    let what = Object::new();
    for (name, value) in [("title", title), ("text", text)] {
        let _ = Reflect::set(&what, &name.into(), &value.into());
    }
    let on: JsValue = window().navigator().into();
    let asked = has_sheet().then(|| call(&on, "share", &Array::of1(&what))).flatten();
    let Some(answer) = asked.and_then(|p| p.dyn_into::<Promise>().ok()) else { return Shared::NoSheet };
    match JsFuture::from(answer).await {
        Ok(_) => Shared::Yes,
        Err(why) => {
            let name = Reflect::get(&why, &"name".into()).ok().and_then(|n| n.as_string());
            if name.as_deref() == Some("AbortError") { Shared::PutAway } else { Shared::NoSheet }
        }
    }
}

/// Opens the phone's print dialogue for what the screen shows.
pub fn print() {
    let _ = window().print();
}
