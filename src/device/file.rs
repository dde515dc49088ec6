//! Handing a file to the phone's downloads.
//!
//! May use: Blob and a link. Must not: know what is in the file.

use js_sys::Array;
use wasm_bindgen::JsCast;
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, Url};

use super::window;

/// Offers `text` as a download called `name`.
///
/// # Errors
/// Words for the screen when the browser refuses.
pub fn save_text(name: &str, mime: &str, text: &str) -> Result<(), String> {
    let options = BlobPropertyBag::new();
    options.set_type(mime);
    let blob = Blob::new_with_str_sequence_and_options(&Array::of1(&text.into()), &options).map_err(refused)?;
    save(name, &blob)
}

/// Offers a file as a download called `name`.
///
/// # Errors
/// Words for the screen when the browser refuses.
pub fn save(name: &str, blob: &Blob) -> Result<(), String> {
    let url = Url::create_object_url_with_blob(blob).map_err(refused)?;
    let document = window().document().ok_or("no document")?;
    let link: HtmlAnchorElement = document.create_element("a").map_err(refused)?.unchecked_into();
    link.set_href(&url);
    link.set_download(name);
    link.click();
    wasm_bindgen_futures::spawn_local(async move {
        // The download has to start before the address goes.
        super::pause(60_000).await;
        let _ = Url::revoke_object_url(&url);
    });
    Ok(())
}

fn refused(_: wasm_bindgen::JsValue) -> String {
    "The browser would not make the file.".into()
}
