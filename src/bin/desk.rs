//! The desk as a WebAssembly of its own, fetched when it is first opened: see `app::desk`.

#[cfg(target_arch = "wasm32")]
mod part {
    use wasm_bindgen::prelude::*;

    /// Opens the desk into an element of the walk's page.
    #[wasm_bindgen(js_name = openPart)]
    pub fn open_part(into: web_sys::HtmlElement) {
        console_error_panic_hook::set_once();
        coatwalk::app::desk::open(&into);
    }

    /// Takes it out of the page again.
    #[wasm_bindgen(js_name = closePart)]
    pub fn close_part() {
        coatwalk::app::desk::close();
    }
}

fn main() {}
