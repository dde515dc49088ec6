//! Handing text to the phone's own "share", or to a file where there is none.
//!
//! May use: the navigator. Must not: know what is in the text.

use js_sys::{Array, Object, Promise, Reflect};
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;

use super::{call, file, navigator_has, window};

/// Shares `text`; saves it as a file called `name` where the browser can't share or will not.
///
/// # Errors
/// Words for the screen when neither goes.
pub async fn share_text(title: &str, name: &str, text: &str) -> Result<(), String> {
    if navigator_has("share").is_some() {
        let what = Object::new();
        let _ = Reflect::set(&what, &"title".into(), &title.into());
        let _ = Reflect::set(&what, &"text".into(), &text.into());
        let asked =
            call(&window().navigator(), "share", &Array::of1(&what)).and_then(|p| p.dyn_into::<Promise>().ok());
        if let Some(asked) = asked {
            match JsFuture::from(asked).await {
                Ok(_) => return Ok(()),
                // The person changed his mind.
                Err(why) if Reflect::get(&why, &"name".into()).is_ok_and(|n| n == "AbortError") => return Ok(()),
                Err(_) => {}
            }
        }
    }
    file::save_text(name, "text/plain", text)
}
