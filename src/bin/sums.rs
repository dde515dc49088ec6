//! The sums as a WebAssembly of their own, fetched when they are first opened: see `app::sums_part`.

#[cfg(target_arch = "wasm32")]
mod part {
    use wasm_bindgen::prelude::*;

    /// Opens the sums into an element.
    #[wasm_bindgen(js_name = openPart)]
    pub fn open_part(into: web_sys::HtmlElement, handed: &str) {
        console_error_panic_hook::set_once();
        coatwalk::app::sums_part::open(into, handed);
    }

    /// Closes them.
    #[wasm_bindgen(js_name = closePart)]
    pub fn close_part() {
        coatwalk::app::sums_part::close();
    }
}

fn main() {}
