//! Working hours on the wall clock of a place, with its daylight-saving changes.
//!
//! The zone is any [`chrono::TimeZone`]: the phone's own on the phone, a named one in tests.

use chrono::{DateTime, Datelike, MappedLocalTime, NaiveDate, NaiveDateTime, TimeDelta, TimeZone, Utc};
use serde::{Deserialize, Serialize};

/// The hours one works. This is also the stored shape.
#[derive(Clone, Copy, PartialEq, Debug, Serialize, Deserialize)]
#[serde(default)]
pub struct Week {
    /// The day begins so many minutes after midnight.
    pub from_min: u32,
    /// And lasts so many hours, breaks not counted; it may pass midnight.
    pub hours: f64,
    /// Which days, Monday first.
    pub days: [bool; 7],
}

impl Default for Week {
    /// Eight hours from 08:00, every day.
    fn default() -> Week {
        Week { from_min: 8 * 60, hours: 8.0, days: [true; 7] }
    }
}

/// A stretch of time.
pub type Span = (DateTime<Utc>, DateTime<Utc>);

/// Days looked ahead for one with working hours.
const HORIZON_DAYS: u64 = 30;

/// Working hours at a place.
pub struct Days<'a, Z: TimeZone> {
    week: Week,
    zone: &'a Z,
}

impl<'a, Z: TimeZone> Days<'a, Z> {
    /// A week that has working days and hours in their range; anything else is the caller's to settle.
    pub fn new(week: Week, zone: &'a Z) -> Days<'a, Z> {
        Days { week, zone }
    }

    /// The instant at which the wall clock shows a time. A time that a change of the clock leaves out becomes the next
    /// one there is; of one that comes twice, the first.
    fn instant(&self, wall: NaiveDateTime) -> Option<DateTime<Utc>> {
        // A zone may leave out a whole day (the date line).
        (0..=26 * 4).find_map(|quarter| {
            match self.zone.from_local_datetime(&(wall + TimeDelta::minutes(15 * quarter))) {
                MappedLocalTime::Single(t) | MappedLocalTime::Ambiguous(t, _) => Some(t.with_timezone(&Utc)),
                MappedLocalTime::None => None,
            }
        })
    }

    /// When a day begins.
    pub(super) fn midnight(&self, date: NaiveDate) -> Option<DateTime<Utc>> {
        self.instant(date.and_hms_opt(0, 0, 0)?)
    }

    /// The hours of one day; none on a day off or one that the calendar leaves out.
    pub(super) fn of_day(&self, date: NaiveDate) -> Option<Span> {
        if !self.week.days[date.weekday().num_days_from_monday() as usize] {
            return None;
        }
        let from = date.and_hms_opt(0, 0, 0)? + TimeDelta::minutes(i64::from(self.week.from_min));
        let to = from + TimeDelta::minutes((self.week.hours * 60.0).round() as i64);
        let span = (self.instant(from)?, self.instant(to)?);
        (span.0 < span.1).then_some(span)
    }

    /// The first working hours that end after `at`, as whole spans, one after the other.
    fn spans(&self, at: DateTime<Utc>) -> impl Iterator<Item = Span> + use<'_, 'a, Z> {
        let today = at.with_timezone(self.zone).date_naive();
        let first = today.pred_opt().unwrap_or(today);
        first.iter_days().take(HORIZON_DAYS as usize).filter_map(|d| self.of_day(d)).filter(move |s| s.1 > at)
    }

    /// The first moment at or after `at` in working hours.
    pub fn next(&self, at: DateTime<Utc>) -> DateTime<Utc> {
        self.spans(at).next().map_or(at, |s| s.0.max(at))
    }

    /// The next beginning of a day's hours after `at`.
    pub fn next_start(&self, at: DateTime<Utc>) -> DateTime<Utc> {
        self.spans(at).map(|s| s.0).find(|start| *start > at).unwrap_or(at)
    }

    /// Where some work goes that is ready at a time: spans of working hours, as early as they come. Work in one go is
    /// put off to a day that holds it; when no day does, it begins with a day and runs on the next.
    pub fn place(&self, ready: DateTime<Utc>, work: TimeDelta, in_one_go: bool) -> Vec<Span> {
        if work <= TimeDelta::zero() {
            return Vec::new();
        }
        let mut at = ready;
        if in_one_go {
            let fits = |s: &Span| s.1 - s.0.max(ready) >= work;
            let whole = |s: &Span| s.0 >= ready;
            let never = (self.week.hours * 60.0).round() as i64 * 60 < work.num_seconds();
            let start = if never { self.spans(ready).find(whole) } else { self.spans(ready).find(fits) };
            at = start.map_or(ready, |s| s.0.max(ready));
        }
        let mut left = work;
        let mut placed = Vec::new();
        // A plan longer than the horizon is cut off by the caller's limits, not by a loop without end.
        while left > TimeDelta::zero() {
            let before = left;
            for (from, to) in self.spans(at) {
                let from = from.max(at);
                let to = to.min(from + left);
                placed.push((from, to));
                left -= to - from;
                at = to;
                if left <= TimeDelta::zero() {
                    break;
                }
            }
            if left == before {
                // No working hours at all within the horizon: on the clock then.
                placed.push((at, at + left));
                break;
            }
        }
        placed
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(text: &str) -> DateTime<Utc> {
        text.parse().unwrap()
    }

    #[test]
    fn work_goes_into_working_hours_only() {
        let days = Days::new(Week::default(), &Utc);
        let placed = days.place(at("2026-10-05T15:00:00Z"), TimeDelta::minutes(120), false);
        let monday = (at("2026-10-05T15:00:00Z"), at("2026-10-05T16:00:00Z"));
        assert_eq!(placed, [monday, (at("2026-10-06T08:00:00Z"), at("2026-10-06T09:00:00Z"))]);
        let placed = days.place(at("2026-10-05T15:00:00Z"), TimeDelta::minutes(120), true);
        assert_eq!(placed, [(at("2026-10-06T08:00:00Z"), at("2026-10-06T10:00:00Z"))]);
        let placed = days.place(at("2026-10-05T15:00:00Z"), TimeDelta::minutes(540), true);
        assert_eq!(placed[0], (at("2026-10-06T08:00:00Z"), at("2026-10-06T16:00:00Z")));
        assert_eq!(placed.len(), 2);
    }

    #[test]
    fn a_day_that_passes_midnight_is_still_one_day() {
        let week = Week { from_min: 20 * 60, hours: 8.0, days: [true, false, false, false, false, false, false] };
        let days = Days::new(week, &Utc);
        // Tuesday 02:00 still is Monday's day; after 04:00 there is nothing until next Monday.
        assert_eq!(days.next(at("2026-10-06T02:00:00Z")), at("2026-10-06T02:00:00Z"));
        assert_eq!(days.next(at("2026-10-06T04:00:00Z")), at("2026-10-12T20:00:00Z"));
    }
}
