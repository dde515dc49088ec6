//! Keeping the screen awake while a clock is in view.
//!
//! May use: navigator.wakeLock where there is one. Must not: promise it; the answer says whether it holds.

use js_sys::{Array, Promise};
use wasm_bindgen::{JsCast, JsValue};

use super::{call, navigator_has, within};

/// Asks for the screen to stay on; `None` where the browser can't or won't. Let go with [`release`].
pub async fn keep() -> Option<JsValue> {
    let lock = navigator_has("wakeLock")?;
    let promise = call(&lock, "request", &Array::of1(&"screen".into()))?.dyn_into::<Promise>().ok()?;
    within(3_000, promise).await
}

/// Lets the screen sleep again.
pub fn release(sentinel: &JsValue) {
    call(sentinel, "release", &Array::new());
}
