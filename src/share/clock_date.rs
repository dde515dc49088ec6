//! A clock of a job as a date for the calendar.
//!
//! May use: the job's clocks, [`super::calendar`]. Must not: reach for a clock; `now` is an argument.

use chrono::{DateTime, Utc};

use super::calendar::{Event, When, uid};
use crate::job::clocks::Clock;
use crate::job::fold::Job;

/// The date; none while the end is not known. `sequence` must go up from one call to the next (the number of entries in
/// the log does): a calendar then moves the date it has instead of adding one.
pub fn event(job: &Job, clock: &Clock, sequence: u32, now: DateTime<Utc>) -> Option<Event> {
    Some(Event {
        uid: uid(job.id?, &clock.id),
        sequence,
        stamp: now,
        when: When::At(clock.ends?),
        lasts_min: 0,
        title: format!("{}: {}", job.name, clock.title),
        text: clock.words_when_over().into(),
        alarm_min_before: vec![0],
        repeat: None,
    })
}
