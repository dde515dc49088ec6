//! The rear camera as a row of still pictures, and pictures out of files, four bytes a pixel.
//!
//! May use: getUserMedia, the canvas. Must not: know what is looked for. Nothing is kept.

use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    CanvasRenderingContext2d, File, HtmlCanvasElement, HtmlVideoElement, MediaStream, MediaStreamConstraints,
    MediaStreamTrack,
};

use super::{navigator_has, window};

/// The longer side of a picture that is looked at, pixels: a label at arm's length has three pixels a module.
const VIDEO_PX: f64 = 1024.0;
const FILE_PX: f64 = 2048.0;

/// Why there is no picture.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum NoCamera {
    /// The phone has none, or lets no page at it.
    None,
    /// The person or the phone's settings said no.
    Refused,
    /// Another app has it, or it broke off.
    Busy,
}

/// A picture to look at.
pub struct Still {
    pub width: u32,
    pub height: u32,
    pub rgba: Vec<u8>,
}

/// A camera that is running. Stop it: it is not stopped by being forgotten.
pub struct Camera {
    stream: MediaStream,
    video: HtmlVideoElement,
}

/// Starts the rear camera into a video element. There is no limit of time: the person may be reading the question, and
/// the way by a file stays open meanwhile.
///
/// # Errors
/// Why there is none.
pub async fn start(video: HtmlVideoElement) -> Result<Camera, NoCamera> {
    // Missing on pages that did not come over HTTPS.
    navigator_has("mediaDevices").ok_or(NoCamera::None)?;
    let devices = window().navigator().media_devices().map_err(|_| NoCamera::None)?;
    let wish = js_sys::JSON::parse(r#"{"facingMode":{"ideal":"environment"},"width":{"ideal":1280}}"#);
    let asked = MediaStreamConstraints::new();
    asked.set_audio(&false.into());
    asked.set_video(&wish.unwrap_or(true.into()));
    let given = devices.get_user_media_with_constraints(&asked).map_err(|_| NoCamera::None)?;
    let stream: MediaStream = JsFuture::from(given).await.map_err(|why| reason(&why))?.unchecked_into();
    let camera = Camera { stream, video };
    camera.video.set_muted(true);
    let _ = camera.video.set_attribute("playsinline", "");
    camera.video.set_src_object(Some(&camera.stream));
    if let Ok(playing) = camera.video.play() {
        // It starts by itself once it is in the page; the pictures tell whether it did.
        let _ = JsFuture::from(playing).await;
    }
    Ok(camera)
}

fn reason(why: &JsValue) -> NoCamera {
    // Not in every engine a DOMException: an OverconstrainedError is a thing of its own in WebKit.
    let name = js_sys::Reflect::get(why, &"name".into()).ok().and_then(|n| n.as_string());
    match name.as_deref() {
        Some("NotAllowedError" | "SecurityError") => NoCamera::Refused,
        Some("NotFoundError" | "OverconstrainedError" | "TypeError") => NoCamera::None,
        _ => NoCamera::Busy,
    }
}

impl Camera {
    /// What it sees now; none before its first picture.
    pub fn still(&self) -> Option<Still> {
        let (w, h) = (f64::from(self.video.video_width()), f64::from(self.video.video_height()));
        let (width, height) = fitted(w, h, VIDEO_PX)?;
        let (canvas, context) = canvas(width, height)?;
        context.draw_image_with_html_video_element_and_dw_and_dh(&self.video, 0.0, 0.0, width, height).ok()?;
        pixels(&canvas, &context)
    }

    /// Switches it off: its light goes out.
    pub fn stop(&self) {
        for track in self.stream.get_tracks().iter() {
            track.unchecked_into::<MediaStreamTrack>().stop();
        }
        self.video.set_src_object(None);
    }
}

/// A picture out of a file; none when it is none.
pub async fn picture(file: &File) -> Option<Still> {
    let promise = window().create_image_bitmap_with_blob(file).ok()?;
    let bitmap: web_sys::ImageBitmap = JsFuture::from(promise).await.ok()?.unchecked_into();
    let (width, height) = fitted(f64::from(bitmap.width()), f64::from(bitmap.height()), FILE_PX)?;
    let (canvas, context) = canvas(width, height)?;
    context.draw_image_with_image_bitmap_and_dw_and_dh(&bitmap, 0.0, 0.0, width, height).ok()?;
    bitmap.close();
    pixels(&canvas, &context)
}

/// As large as it is, or made smaller to the longest side.
fn fitted(w: f64, h: f64, longest: f64) -> Option<(f64, f64)> {
    let scale = (longest / w.max(h)).min(1.0);
    (w >= 1.0 && h >= 1.0).then(|| ((w * scale).round().max(1.0), (h * scale).round().max(1.0)))
}

fn canvas(width: f64, height: f64) -> Option<(HtmlCanvasElement, CanvasRenderingContext2d)> {
    let canvas: HtmlCanvasElement = window().document()?.create_element("canvas").ok()?.unchecked_into();
    canvas.set_width(width as u32);
    canvas.set_height(height as u32);
    let context = canvas.get_context("2d").ok()??.unchecked_into();
    Some((canvas, context))
}

fn pixels(canvas: &HtmlCanvasElement, context: &CanvasRenderingContext2d) -> Option<Still> {
    let (width, height) = (canvas.width(), canvas.height());
    let data = context.get_image_data(0.0, 0.0, f64::from(width), f64::from(height)).ok()?;
    Some(Still { width, height, rgba: data.data().0 })
}
