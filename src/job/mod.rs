//! What a job is, and what follows from it.
//!
//! May use: [`crate::sums`], [`crate::units`], serde, chrono types, uuid types. Must not: reach for a clock, random
//! numbers, the browser or a screen; time and ids come in as arguments.

pub mod aftercare;
pub mod air;
pub mod airlog;
pub mod bin;
pub mod clock;
pub mod clocks;
pub mod closing;
pub mod demo;
pub mod entry;
pub mod example;
mod finding;
pub mod fold;
pub mod gate;
pub mod guide;
pub mod head;
pub mod history;
pub mod hours;
pub mod kinds;
pub mod log;
pub mod machine;
pub mod materials;
pub mod moment;
pub mod outlook;
pub mod part_list;
pub mod passes;
pub mod plan;
pub mod product;
mod raw;
pub mod resume;
pub mod shed;
pub mod stage;
mod stored;
pub mod stretch;
pub mod surface;
pub mod tape_or_off;
pub mod tell;
pub mod thread_steps;
pub mod timeline;
pub mod took;
pub mod touch_up;
