//! The plan: what to buy, when to start, whether the shed is fit. One screen a file.
//!
//! May use: [`crate::app::desk::planning`], the parts. Must not: reckon or hold a rule.

pub mod air;
pub mod area;
pub mod before;
pub mod buy;
pub mod days;
pub mod machine;
pub mod overview;
pub mod product;
pub mod products;
pub mod shed;
mod sizes;
pub mod took;
