//! Doing something once an element comes into view: pictures are read only when someone scrolls to them.
//!
//! May use: IntersectionObserver. Must not: know what is shown.

use js_sys::Array;
use wasm_bindgen::prelude::*;
use web_sys::{Element, IntersectionObserver, IntersectionObserverEntry};

/// Calls `then` the first time the element is nearly in view. Where the browser can't tell, at once.
pub fn once(element: &Element, then: impl FnOnce() + 'static) {
    let mut then = Some(then);
    let seen =
        Closure::<dyn FnMut(Array, IntersectionObserver)>::new(move |all: Array, watch: IntersectionObserver| {
            if all.iter().any(|e| e.unchecked_into::<IntersectionObserverEntry>().is_intersecting()) {
                watch.disconnect();
                if let Some(then) = then.take() {
                    then();
                }
            }
        });
    let callback = seen.into_js_value();
    // A screen ahead, so that it is there when one scrolls to it.
    let ahead = web_sys::IntersectionObserverInit::new();
    ahead.set_root_margin("640px 0px");
    if let Ok(watch) = IntersectionObserver::new_with_options(callback.unchecked_ref(), &ahead) {
        watch.observe(element);
    } else {
        let _ = callback.unchecked_ref::<js_sys::Function>().call0(&JsValue::NULL);
    }
}
