//! What a job is, and what follows from it.
//!
//! May use: [`crate::sums`], [`crate::units`], serde, chrono types, uuid types. Must not: reach for a clock, random
//! numbers, the browser or a screen; time and ids come in as arguments.

pub mod demo;
pub mod guide;
pub mod kinds;
pub mod stage;
