//! Moments and lengths of time in words, as a wall clock and a person tell them.

use chrono::{DateTime, Datelike, NaiveDate, TimeDelta, TimeZone, Timelike, Utc};

use crate::sums::band::Band;

const MONTHS: [&str; 12] = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
/// A plan is told to so many minutes.
const STEP_MIN: i64 = 5;

/// "Tue 6 Oct".
pub fn date(day: NaiveDate) -> String {
    format!("{} {} {}", day.weekday(), day.day(), MONTHS[day.month0() as usize])
}

/// "12:25".
pub fn clock<Z: TimeZone>(at: DateTime<Utc>, zone: &Z) -> String {
    let t = at.with_timezone(zone);
    format!("{:02}:{:02}", t.hour(), t.minute())
}

/// "Tue 12:25"; with its date when that is not plain: "Tue 20 Oct, 12:25".
pub fn moment<Z: TimeZone>(at: DateTime<Utc>, now: DateTime<Utc>, zone: &Z) -> String {
    let day = at.with_timezone(zone).date_naive();
    let days = (day - now.with_timezone(zone).date_naive()).num_days();
    match (0..7).contains(&days) {
        true => format!("{} {}", day.weekday(), clock(at, zone)),
        false => format!("{}, {}", date(day), clock(at, zone)),
    }
}

/// The nearest five minutes: a plan is no closer.
pub(super) fn near(at: DateTime<Utc>) -> DateTime<Utc> {
    let past = at.timestamp().rem_euclid(60 * STEP_MIN);
    let up = 2 * past >= 60 * STEP_MIN;
    at - TimeDelta::seconds(past) + if up { TimeDelta::minutes(STEP_MIN) } else { TimeDelta::zero() }
}

/// The next five minutes: what must not begin before is never told too early.
pub(super) fn not_before(at: DateTime<Utc>) -> DateTime<Utc> {
    let past = at.timestamp().rem_euclid(60 * STEP_MIN);
    if past == 0 { at } else { at + TimeDelta::seconds(60 * STEP_MIN - past) }
}

/// A length of time: "35 min", "1 h 20 min", "48 h".
///
/// ```
/// use coatwalk::job::plan::length;
/// assert_eq!(length(34.6), "35 min");
/// assert_eq!(length(80.0), "1 h 20 min");
/// assert_eq!(length(48.0 * 60.0), "48 h");
/// ```
pub fn length(min: f64) -> String {
    let min = min.round() as i64;
    match (min / 60, min % 60) {
        _ if min < 60 => format!("{min} min"),
        (h, 0) => format!("{h} h"),
        (h, _) if h >= 10 => format!("{:.0} h", min as f64 / 60.0),
        (h, m) => format!("{h} h {m} min"),
    }
}

/// An estimate of time with its ends: "likely 40 min, 34 to 48 min". From three hours on in half hours.
///
/// ```
/// use coatwalk::{job::plan::lengths, sums::band::Band};
/// assert_eq!(lengths(Band::of([34.0, 40.0, 48.0])), "likely 40 min, 34 to 48 min");
/// assert_eq!(lengths(Band::of([535.0, 630.0, 756.0])), "likely 10.5 h, 9 to 12.5 h");
/// ```
pub fn lengths(min: Band) -> String {
    let (unit, show): (&str, fn(f64) -> f64) = match min.likely >= 180.0 {
        true => (" h", |v| (v / 30.0).round() / 2.0),
        false => (" min", f64::round),
    };
    let [low, likely, high] = [min.low, min.likely, min.high].map(show);
    match low == high {
        true => format!("{likely}{unit}"),
        false => format!("likely {likely}{unit}, {low} to {high}{unit}"),
    }
}
