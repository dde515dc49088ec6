//! The phone itself: pictures, notifications, storage that stays.
//!
//! May use: web-sys. Must not: know a job or a screen. Every permission answer has a time limit: some browsers leave
//! the question open for ever.

pub mod bytes;
pub mod file;
pub mod hands;
pub mod notify;
pub mod photo;
pub mod seen;
pub mod share;
pub mod stay;

use js_sys::{Array, Promise};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// Waits for a promise, but no longer than `ms`; `None` when time ran out or it was refused.
pub(crate) async fn within(ms: i32, promise: Promise) -> Option<JsValue> {
    let late = Promise::new(&mut |resolve, _| {
        let _ = window().set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, ms);
    });
    let marker = JsValue::from_str("late");
    let late = JsFuture::from(late);
    let late = wasm_bindgen_futures::future_to_promise(async move { late.await.map(|_| marker) });
    let first = JsFuture::from(Promise::race(&Array::of2(&promise, &late))).await.ok()?;
    (first.as_string().as_deref() != Some("late")).then_some(first)
}

/// Waits `ms` milliseconds.
pub async fn pause(ms: i32) {
    let wait = Promise::new(&mut |resolve, _| {
        let _ = window().set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, ms);
    });
    let _ = JsFuture::from(wait).await;
}

/// The window; the app runs in no other place.
pub(crate) fn window() -> web_sys::Window {
    web_sys::window().expect("the app runs in a window")
}

/// A property of the navigator that this browser may lack.
pub(crate) fn navigator_has(name: &str) -> Option<JsValue> {
    let nav: JsValue = window().navigator().into();
    js_sys::Reflect::get(&nav, &name.into()).ok().filter(|v| !v.is_undefined() && !v.is_null())
}

/// Calls a method by name on an object that may lack it.
pub(crate) fn call(on: &JsValue, name: &str, args: &Array) -> Option<JsValue> {
    let f = js_sys::Reflect::get(on, &name.into()).ok()?.dyn_into::<js_sys::Function>().ok()?;
    f.apply(on, args).ok()
}
