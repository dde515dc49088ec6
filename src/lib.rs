//! Coatwalk walks an owner round a farm machine while he strips, washes and coats it against rust.
//!
//! **A job is its log.** Every tap appends one entry; what the screens show is computed from the entries.
//!
//! The rooms, and what each must not do:
//!
//! * [`units`]: quantities in and out: reads what a person types, prints what he chose. No job, no browser.
//! * [`sums`]: the trade's arithmetic. Pure functions; no browser, no clock, no job.
//! * [`sheets`]: a sum as it is asked and answered: fields, words and picture as data. No job, no browser.
//! * [`job`]: what a job is (the log and its fold) and what follows from it. Pure; time and ids are arguments.
//! * [`share`]: what leaves the phone, as text: log, calendar, labels. Pure.
//! * `store` (wasm only): what stays on the phone. Keeps entries, knows no rules.
//! * `device` (wasm only): the phone itself: notifications, photos.
//! * `app` (wasm only): screens and their parts. Reads a job, sends entries; no arithmetic, no rules.

pub mod job;
pub mod share;
pub mod sheets;
pub mod sums;
pub mod units;

#[cfg(target_arch = "wasm32")]
pub mod app;
#[cfg(target_arch = "wasm32")]
pub mod device;
#[cfg(target_arch = "wasm32")]
pub mod store;
