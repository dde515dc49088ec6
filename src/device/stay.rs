//! Asking the browser not to clear this app's data on its own.
//!
//! May use: navigator.storage. Must not: hold up a write; nobody waits for the answer.

use js_sys::{Array, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue};

use super::{call, navigator_has, within};

/// What the browser answers.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Stays {
    /// It will not clear the data on its own.
    Yes,
    /// It may, when the phone runs short of room.
    Maybe,
    /// It gave no answer.
    Unknown,
}

/// Asks for storage that stays, once.
pub async fn ask() -> Stays {
    answer("persist", 20_000).await
}

/// What holds now, without asking.
pub async fn now() -> Stays {
    answer("persisted", 3_000).await
}

async fn answer(method: &str, ms: i32) -> Stays {
    let promise = navigator_has("storage").and_then(|s| call(&s, method, &Array::new()));
    let Some(promise) = promise.and_then(|p| p.dyn_into::<Promise>().ok()) else { return Stays::Unknown };
    match within(ms, promise).await.and_then(|v| v.as_bool()) {
        Some(true) => Stays::Yes,
        Some(false) => Stays::Maybe,
        None => Stays::Unknown,
    }
}

/// Bytes used and the browser's limit, if it says.
pub async fn room() -> Option<(f64, f64)> {
    let promise = navigator_has("storage").and_then(|s| call(&s, "estimate", &Array::new()))?;
    let said = within(3_000, promise.dyn_into::<Promise>().ok()?).await?;
    let part = |name: &str| Reflect::get(&said, &JsValue::from(name)).ok().and_then(|v| v.as_f64());
    Some((part("usage")?, part("quota")?))
}
