//! The job's readings as a picture over days.
//!
//! May use: [`air_plot`](crate::share::report::air_plot). Must not: judge a reading.

use chrono::Local;
use leptos::prelude::*;

use super::picture::picture;
use crate::job::airlog::AirLog;
use crate::share::report;
use crate::units::UnitSet;

/// The picture.
pub fn air_plot(log: &AirLog, units: UnitSet) -> AnyView {
    picture(&report::air_plot(log, units, &Local).draw())
}
