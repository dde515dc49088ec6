//! Small copies of photos for lists: made once, kept in a cache of the browser, and dropped first when room is short.
//!
//! May use: the Cache API, the canvas. Must not: be the only place a photo stands; they are made anew when they are gone.

use js_sys::{ArrayBuffer, Promise};
use uuid::Uuid;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, Cache, ImageBitmap, ImageBitmapOptions, ResizeQuality, Response};

use super::{photo, window};

/// The longer side, pixels: as wide as the picture of a list on a phone, at twice its pixels.
const LONGEST_PX: f64 = 400.0;
/// The cache. Its name must not begin as the service worker's do (`public/sw.js`), or it would go with the next version.
const CACHE: &str = "photos-small coatwalk";

/// The small copy of a photo, if one was made.
pub async fn kept(id: Uuid) -> Option<Blob> {
    let found = JsFuture::from(cache().await?.match_with_str(&address(id))).await.ok()?;
    let found: Response = found.dyn_into().ok()?;
    JsFuture::from(found.blob().ok()?).await.ok()?.dyn_into().ok()
}

/// Makes a small copy and keeps it. Where it can't be kept (no room, a private window) it is made all the same.
pub async fn make(id: Uuid, mime: &str, bytes: &ArrayBuffer) -> Option<Blob> {
    let small = shrink(mime, bytes).await.ok()?;
    if let Some(cache) = cache().await
        && let Ok(response) = Response::new_with_opt_blob(Some(&small))
    {
        let _ = JsFuture::from(cache.put_with_str(&address(id), &response)).await;
    }
    Some(small)
}

/// Drops all of them.
pub async fn drop_all() {
    if let Ok(caches) = window().caches() {
        let _ = JsFuture::from(caches.delete(CACHE)).await;
    }
}

async fn cache() -> Option<Cache> {
    let opened = window().caches().ok()?.open(CACHE);
    JsFuture::from(opened).await.ok()?.dyn_into().ok()
}

/// No request ever goes to this address: it only names the copy.
fn address(id: Uuid) -> String {
    format!("./photos-small/{id}")
}

async fn shrink(mime: &str, bytes: &ArrayBuffer) -> Result<Blob, JsValue> {
    let whole = photo::blob(mime, bytes).ok_or("no blob")?;
    // The browser makes it smaller off the main thread where it knows these options; where it does not, `draw` does.
    let options = ImageBitmapOptions::new();
    options.set_resize_width(LONGEST_PX as u32);
    options.set_resize_quality(ResizeQuality::Medium);
    let promise: Promise = window().create_image_bitmap_with_blob_and_image_bitmap_options(&whole, &options)?;
    let bitmap: ImageBitmap = JsFuture::from(promise).await?.unchecked_into();
    let (w, h) = (f64::from(bitmap.width()), f64::from(bitmap.height()));
    let scale = (LONGEST_PX / w.max(h)).min(1.0);
    let drawn = photo::draw(&bitmap, (w * scale).round().max(1.0), (h * scale).round().max(1.0)).await;
    bitmap.close();
    drawn
}
