//! One screen a file.
//!
//! May use: the session and the parts. Must not: hold a rule or do arithmetic.

pub mod area;
pub mod areas;
pub mod bags;
pub mod close;
pub mod desk_place;
pub mod floor;
pub mod jobs;
pub mod keep;
pub mod machine;
pub mod new_job;
pub mod plan;
pub mod record;
pub mod settings;
pub mod sheet;
pub mod stage;
pub mod stage_area;
pub mod sums;
pub mod today;
pub mod trouble;
pub mod welcome;
pub mod years;
