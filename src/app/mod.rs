//! Screens and their parts. They read the job through the [`session`], and send entries to it.
//!
//! May use: every other room. Must not: hold a rule (that is `job`) or do arithmetic (that is `sums`).

pub mod clocks;
pub mod desk;
pub mod parts;
pub mod route;
pub mod screens;
pub mod session;
pub mod shell;
