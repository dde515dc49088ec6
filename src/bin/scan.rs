//! The reader of label codes as a WebAssembly of its own, fetched when a label is first scanned.

#[cfg(target_arch = "wasm32")]
mod part {
    use wasm_bindgen::prelude::*;

    /// What a code in a picture says. Four bytes a pixel, as a canvas gives them.
    #[wasm_bindgen(js_name = readQr)]
    pub fn read_qr(width: u32, height: u32, rgba: &[u8]) -> Option<String> {
        coatwalk::share::scan::read_rgba(width as usize, height as usize, rgba)
    }
}

fn main() {}
