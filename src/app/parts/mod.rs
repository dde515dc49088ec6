//! What screens are built of.
//!
//! May use: the session. Must not: hold a rule.

pub mod airplot;
pub mod ask;
pub mod banners;
pub mod bar;
pub mod bare;
pub mod choice;
pub mod coverings;
pub mod drawing;
pub mod field;
pub mod figure;
pub mod hand_over;
pub mod head;
pub mod holds;
pub mod kept;
pub mod line;
pub mod live;
pub mod mix;
pub mod picture;
pub mod press;
pub mod reading;
pub mod stepper;
pub mod stretches;
pub mod timeline;
