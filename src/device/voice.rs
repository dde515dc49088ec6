//! A voice note on its way in: recorded by `public/voice.js`, a part that is fetched when one first speaks.
//!
//! May use: that part. Must not: keep anything; the session does.

use js_sys::{Array, ArrayBuffer, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

use super::{call, part};

/// Spoken words as they are kept.
pub struct Spoken {
    pub bytes: ArrayBuffer,
    pub mime: String,
    pub seconds: u32,
}

/// Records until called with the same button again, the screen goes dark, or the note is long enough. The
/// part puts its own words on the button meanwhile.
///
/// # Errors
/// Words for the screen: no microphone, not allowed, nothing recorded. No words from the call that ends a note.
pub async fn record(button: &JsValue) -> Result<Spoken, String> {
    let missing = "The recorder is not on this phone yet. Open the app once with a signal, then try again.";
    let voice = part("voice").await.ok_or(missing)?;
    let asked = call(&voice, "record", &Array::of1(button)).and_then(|p| p.dyn_into::<Promise>().ok());
    let note = JsFuture::from(asked.ok_or(missing)?).await.map_err(|why| why.as_string().unwrap_or_default())?;
    let of = |name: &str| Reflect::get(&note, &name.into()).unwrap_or_default();
    Ok(Spoken {
        bytes: of("bytes").unchecked_into(),
        mime: of("mime").as_string().unwrap_or_default(),
        seconds: of("seconds").as_f64().unwrap_or_default() as u32,
    })
}
