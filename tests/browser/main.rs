//! The app in real browsers at phone size, driven through W3C WebDriver: Chromium, Firefox and WebKitGTK (the engine
//! family of the iPhone). `make browser` builds the app first; these tests take what is in `dist`.
//!
//! * `ENGINES=chromium,firefox,webkit` says which engines to use (default: all).
//! * `SEED=…` repeats the random moments of an earlier run.
//! * `COATWALK_DIST=…` takes another build than `dist`.
#![cfg(not(target_arch = "wasm32"))]

mod harness;

mod backup;
mod bags;
mod floor;
mod kill;
mod labels;
mod ladder;
mod offline;
mod plan;
#[path = "../raster/mod.rs"]
mod raster;
mod record;
mod ring;
mod stopped;
mod sums;
mod targets;
mod walk;
mod years;
