//! Files as the browser holds them: made of pieces, read in pieces, unpacked, shared.
//!
//! May use: Blob, the share sheet, the browser's unpacker. Must not: know what is in a file, or hold a whole one.

use std::ops::Range;

use js_sys::{Array, ArrayBuffer, Object, Promise, Reflect, Uint8Array};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, File, FilePropertyBag};

use super::{call, window};

/// So many bytes come over into this memory at once.
const PIECE: u32 = 64 * 1024;

/// Bytes, held by the browser from here on.
pub fn held(bytes: &[u8]) -> Result<Blob, String> {
    held_buffer(&Uint8Array::from(bytes).buffer())
}

/// The same for bytes that never were in this memory.
pub fn held_buffer(bytes: &ArrayBuffer) -> Result<Blob, String> {
    Blob::new_with_buffer_source_sequence(&Array::of1(bytes)).map_err(|_| no_room())
}

/// One file of many parts.
pub fn joined(parts: &[Blob], mime: &str) -> Result<Blob, String> {
    let options = BlobPropertyBag::new();
    options.set_type(mime);
    let parts: Array = parts.iter().collect();
    Blob::new_with_blob_sequence_and_options(&parts, &options).map_err(|_| no_room())
}

fn no_room() -> String {
    "The browser has no room to make the file. Close other apps and tabs, then try again.".into()
}

/// The bytes in that place; fewer at the end of the file.
///
/// # Errors
/// Words for the screen: the file is gone, or changed since it was chosen.
pub async fn slice(of: &Blob, range: Range<u64>) -> Result<ArrayBuffer, String> {
    let gone = |_| String::from("The phone can't read this file any more. Choose it again.");
    let part = of.slice_with_f64_and_f64(range.start as f64, range.end as f64).map_err(gone)?;
    Ok(JsFuture::from(part.array_buffer()).await.map_err(gone)?.unchecked_into())
}

/// Hands bytes over piece by piece, so that this memory never holds all of them.
pub fn pieces<E>(bytes: &ArrayBuffer, mut take: impl FnMut(&[u8]) -> Result<(), E>) -> Result<(), E> {
    let all = Uint8Array::new(bytes);
    let mut piece = vec![0; PIECE.min(all.length()) as usize];
    let mut at = 0;
    while at < all.length() {
        let end = all.length().min(at + PIECE);
        let here = &mut piece[..(end - at) as usize];
        all.subarray(at, end).copy_to(here);
        take(here)?;
        at = end;
    }
    Ok(())
}

/// The bytes as they are.
pub fn whole(bytes: &ArrayBuffer) -> Vec<u8> {
    Uint8Array::new(bytes).to_vec()
}

/// The bytes as a `data:` address, for a file that holds its pictures itself.
///
/// # Errors
/// Words for the screen: no room.
pub async fn data_address(of: &Blob) -> Result<String, String> {
    let reader = web_sys::FileReader::new().map_err(|_| no_room())?;
    let read = Promise::new(&mut |done, _| {
        reader.set_onloadend(Some(&done));
        let _ = reader.read_as_data_url(of);
    });
    let _ = JsFuture::from(read).await;
    reader.result().ok().and_then(|r| r.as_string()).ok_or_else(no_room)
}

/// The browser can unpack "deflate".
pub fn unpacks() -> bool {
    unpacker().is_some()
}

fn unpacker() -> Option<JsValue> {
    let class = Reflect::get(&window(), &"DecompressionStream".into()).ok()?.dyn_into::<js_sys::Function>().ok()?;
    Reflect::construct(&class, &Array::of1(&"deflate-raw".into())).ok()
}

/// Why unpacking stopped.
pub enum Unpack<E> {
    /// The packed bytes make no sense.
    Broken,
    /// Whoever takes the bytes wants no more.
    Refused(E),
}

/// Unpacks "deflate", piece by piece; stops as soon as `take` refuses one.
pub async fn unpack<E>(packed: &Blob, mut take: impl FnMut(&[u8]) -> Result<(), E>) -> Result<(), Unpack<E>> {
    let reader = unpacker().and_then(|unpacker| {
        let stream = call(packed, "stream", &Array::new())?;
        call(&call(&stream, "pipeThrough", &Array::of1(&unpacker))?, "getReader", &Array::new())
    });
    let reader = reader.ok_or(Unpack::Broken)?;
    loop {
        let next = call(&reader, "read", &Array::new()).and_then(|p| p.dyn_into::<Promise>().ok());
        let read = JsFuture::from(next.ok_or(Unpack::Broken)?).await.map_err(|_| Unpack::Broken)?;
        let part = |name: &str| Reflect::get(&read, &name.into()).unwrap_or(JsValue::UNDEFINED);
        if part("done").is_truthy() {
            return Ok(());
        }
        let bytes = part("value").dyn_into::<Uint8Array>().map_err(|_| Unpack::Broken)?;
        if let Err(e) = take(&bytes.to_vec()) {
            call(&reader, "cancel", &Array::new());
            return Err(Unpack::Refused(e));
        }
    }
}

/// A file with a name, for the share sheet.
pub fn named(blob: &Blob, name: &str, mime: &str) -> Option<File> {
    let options = FilePropertyBag::new();
    options.set_type(mime);
    File::new_with_blob_sequence_and_options(&Array::of1(blob), name, &options).ok()
}

/// What became of a file on the share sheet.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Shared {
    /// Handed to another app.
    Yes,
    /// The person closed the sheet.
    GivenUp,
    /// This browser shares no such file, whatever it said before.
    Refused,
}

/// There is a share sheet that says it takes such a file.
pub fn can_share(file: &File) -> bool {
    let nav: JsValue = window().navigator().into();
    call(&nav, "canShare", &Array::of1(&sheet(file))).is_some_and(|said| said.is_truthy())
}

/// Opens the share sheet; must be called from a tap.
pub async fn share(file: &File) -> Shared {
    let nav: JsValue = window().navigator().into();
    let asked = call(&nav, "share", &Array::of1(&sheet(file))).and_then(|p| p.dyn_into::<Promise>().ok());
    let Some(asked) = asked else { return Shared::Refused };
    match JsFuture::from(asked).await {
        Ok(_) => Shared::Yes,
        Err(e) => match Reflect::get(&e, &"name".into()).ok().and_then(|n| n.as_string()).as_deref() {
            Some("AbortError") => Shared::GivenUp,
            _ => Shared::Refused,
        },
    }
}

fn sheet(file: &File) -> Object {
    let data = Object::new();
    let _ = Reflect::set(&data, &"files".into(), &Array::of1(file));
    data
}
