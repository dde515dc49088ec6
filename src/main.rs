//! Mounts the app, and nothing else.

#[cfg(target_arch = "wasm32")]
fn main() {
    coatwalk::app::shell::mount();
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    eprintln!("Coatwalk runs in a browser: `make serve` builds and serves it.");
}
