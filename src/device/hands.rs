//! Sound, vibration, voice, the badge and the screen that stays on: `window.coatwalkPhone` of `public/boot.js`. Each does
//! nothing where the phone can't.
//!
//! May use: that object. Must not: know what is said.

use js_sys::{Array, Reflect};
use wasm_bindgen::JsValue;

use super::{call, window};

fn phone(name: &str, args: &[JsValue]) -> Option<JsValue> {
    let w: JsValue = window().into();
    let phone = Reflect::get(&w, &"coatwalkPhone".into()).ok()?;
    call(&phone, name, &args.iter().collect::<Array>())
}

/// Three tones; silent until the first tap.
pub fn beep() {
    phone("beep", &[]);
}

/// Shakes: so long, a pause so long, and on, in milliseconds.
pub fn buzz(pattern: &[u32]) {
    phone("buzz", &pattern.iter().map(|ms| JsValue::from(*ms)).collect::<Vec<_>>());
}

/// Reads words aloud; false when the phone has no voice.
pub fn say(words: &str) -> bool {
    phone("say", &[words.into()]).is_some_and(|done| done.is_truthy())
}

/// The figure on the app's icon.
pub fn badge(count: usize) {
    phone("badge", &[JsValue::from(count as u32)]);
}

/// Keeps the screen on, or no longer; false when the phone can't.
pub fn keep_awake(on: bool) -> bool {
    phone("awake", &[on.into()]).is_some_and(|can| can.is_truthy())
}
