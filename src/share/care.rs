//! The aftercare as dates for a calendar: waits that end once, the rest as it comes again.
//!
//! May use: `job::aftercare`, [`super::calendar`]. Must not: reach for a clock; stamp and zone are arguments.

use chrono::{DateTime, TimeZone, Utc};

use super::calendar::{By, Event, MORNING, Repeat, When, uid};
use crate::job::aftercare::{Sort, Span, rows};
use crate::job::log::Log;

/// The dates of the open job's aftercare; empty while there is no film. A file made later has higher sequences, since a
/// log only grows: a calendar then replaces what it had.
pub fn events<Z: TimeZone>(log: &Log, stamp: DateTime<Utc>, zone: &Z) -> Vec<Event> {
    let job = log.job();
    let Some(id) = job.id else { return Vec::new() };
    let dated = rows(job).into_iter().filter_map(|r| Some((r.sort, r.every?, r.at?, r.basis)));
    let event = |(sort, every, at, basis): (Sort, Span, DateTime<Utc>, &'static str)| Event {
        uid: uid(id, &format!("aftercare-{}", sort.word())),
        sequence: log.len() as u32,
        stamp,
        when: When::Day(at.with_timezone(zone).date_naive()),
        lasts_min: 0,
        title: match sort {
            Sort::NoWash => format!("{}: first gentle wash may begin", job.name),
            Sort::NoHotWash => format!("{}: hot wash and degreaser may begin", job.name),
            _ => format!("{}: {}", job.name, sort.title()),
        },
        text: format!("{}\n{basis}.", sort.more()),
        alarm_min_before: vec![MORNING],
        repeat: (!sort.waits()).then(|| repeat(every)).flatten(),
    };
    dated.map(event).collect()
}

/// How it comes again; none for a span that no calendar repeats as it stands.
fn repeat(every: Span) -> Option<Repeat> {
    let (by, every) = match every {
        Span::Months(n) if n > 0 && n % 12 == 0 => (By::Year, n / 12),
        Span::Months(n) if n > 0 => (By::Month, n),
        Span::Days(n) if n > 0 && n % 7 == 0 => (By::Week, n / 7),
        _ => return None,
    };
    Some(Repeat { by, every, times: None })
}
