//! The floor: what one opens beside a stage while the work is on. One screen a file.
//!
//! May use: the session and the parts. Must not: hold a rule or do arithmetic.

pub mod clocks;
pub mod found;
pub mod pass;
pub mod work;
