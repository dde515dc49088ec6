//! A photo on its way in: made smaller, made anew as JPEG, so that place and camera data in the file stay outside.
//!
//! May use: the canvas. Must not: keep the file the camera wrote.

use js_sys::{Array, ArrayBuffer, Promise};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, CanvasRenderingContext2d, File, HtmlCanvasElement, ImageBitmap};

use super::window;

/// The longer side of a kept photo, pixels.
pub const LONGEST_PX: f64 = 2048.0;
/// A file above this is refused before it is opened: no phone's camera makes one.
pub const LARGEST_MB: f64 = 60.0;
const QUALITY: f64 = 0.85;

/// A photo as it is kept.
pub struct Taken {
    pub bytes: ArrayBuffer,
    pub mime: &'static str,
    pub width: u32,
    pub height: u32,
}

/// Takes in one picked file.
///
/// # Errors
/// Words for the screen: not a picture, too large, or the browser could not draw it.
pub async fn intake(file: &File) -> Result<Taken, String> {
    if file.size() > LARGEST_MB * 1e6 {
        return Err(format!("“{}” is larger than {LARGEST_MB} MB. Take a smaller picture.", file.name()));
    }
    let not_a_picture = |_| format!("“{}” is not a picture this phone can read.", file.name());
    let promise = window().create_image_bitmap_with_blob(file).map_err(not_a_picture)?;
    let bitmap: ImageBitmap = JsFuture::from(promise).await.map_err(not_a_picture)?.unchecked_into();
    let (w, h) = (f64::from(bitmap.width()), f64::from(bitmap.height()));
    let scale = (LONGEST_PX / w.max(h)).min(1.0);
    let (width, height) = ((w * scale).round().max(1.0), (h * scale).round().max(1.0));
    let drawn = async {
        let blob = draw(&bitmap, width, height).await?;
        JsFuture::from(blob.array_buffer()).await
    };
    let drawn = drawn.await;
    bitmap.close();
    let bytes = drawn.map_err(|_| format!("The phone could not draw “{}” (too little memory?).", file.name()))?;
    let bytes = bytes.unchecked_into();
    Ok(Taken { bytes, mime: "image/jpeg", width: width as u32, height: height as u32 })
}

/// Draws it so large, as a JPEG.
pub(super) async fn draw(bitmap: &ImageBitmap, width: f64, height: f64) -> Result<Blob, JsValue> {
    let canvas: HtmlCanvasElement =
        window().document().ok_or("no document")?.create_element("canvas")?.unchecked_into();
    canvas.set_width(width as u32);
    canvas.set_height(height as u32);
    let context: CanvasRenderingContext2d = canvas.get_context("2d")?.ok_or("no canvas")?.unchecked_into();
    context.draw_image_with_image_bitmap_and_dw_and_dh(bitmap, 0.0, 0.0, width, height)?;
    let mut started = Ok(());
    let promise = Promise::new(&mut |resolve, reject| {
        let done = Closure::once_into_js(move |blob: JsValue| {
            let _ = if blob.is_null() { reject.call0(&JsValue::NULL) } else { resolve.call1(&JsValue::NULL, &blob) };
        });
        started =
            canvas.to_blob_with_type_and_encoder_options(done.unchecked_ref(), "image/jpeg", &JsValue::from(QUALITY));
    });
    started?;
    Ok(JsFuture::from(promise).await?.unchecked_into())
}

/// An address under which kept bytes can be shown; give it back with [`forget`].
pub fn show(mime: &str, bytes: &ArrayBuffer) -> Option<String> {
    web_sys::Url::create_object_url_with_blob(&blob(mime, bytes)?).ok()
}

/// Kept bytes as the browser's own.
pub fn blob(mime: &str, bytes: &ArrayBuffer) -> Option<Blob> {
    // Only pictures and sounds are ever shown, whatever a file claims to be.
    let fits = mime.starts_with("image/") || mime.starts_with("audio/");
    let mime = if fits { mime } else { "application/octet-stream" };
    let options = web_sys::BlobPropertyBag::new();
    options.set_type(mime);
    Blob::new_with_buffer_source_sequence_and_options(&Array::of1(bytes), &options).ok()
}

/// Gives an address back.
pub fn forget(url: &str) {
    let _ = web_sys::Url::revoke_object_url(url);
}
