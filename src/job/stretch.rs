//! Soap on and not rinsed: how long it may stay, and what a stretch that ran over asks for.
//!
//! The minutes are from memory: 8 below 10 °C, 5 up to 20, 3 up to 28, 2 in sun or wind or on aluminium and zinc; none on
//! steel over 40 °C. The degreaser's own sheet wins.
//!
//! May use: the job, readings. Must not: reach for a clock; `now` is an argument.

use chrono::{DateTime, TimeDelta, Utc};
use uuid::Uuid;

use super::air::good_until;
use super::entry::AreaId;
use super::fold::{Job, Stamp};

/// Steel hotter than this is not soaped, °C (from memory).
pub const STEEL_MOST_C: f64 = 40.0;
/// Minutes by the air: up to and with so many °C (from memory). Under the first figure, not with it.
const BY_AIR: [(f64, f64); 3] = [(10.0, 8.0), (20.0, 5.0), (28.0, 3.0)];
/// In sun or wind, on aluminium and zinc, or hotter than the list (from memory).
const SHORTEST: f64 = 2.0;
/// When nobody has read the air: as from 20 to 28 °C (our own choice).
const UNREAD: f64 = 3.0;
/// A stretch with a longer limit than this is a slip of the finger, min.
pub const MOST_MINUTES: f64 = 60.0;

/// How many minutes soap may stay on.
///
/// # Errors
/// Words for why nothing is to be soaped at all.
///
/// ```
/// use coatwalk::job::stretch::limit;
/// assert_eq!(limit(Some(12.0), None, false, false), Ok(5.0));
/// assert_eq!(limit(Some(12.0), None, true, false), Ok(2.0));
/// assert!(limit(Some(25.0), Some(44.0), false, false).is_err());
/// ```
pub fn limit(
    air_c: Option<f64>,
    steel_c: Option<f64>,
    sun_or_wind: bool,
    soft_metal: bool,
) -> Result<f64, &'static str> {
    if steel_c.is_some_and(|c| c > STEEL_MOST_C) {
        return Err("The steel is over 40 °C. Do not soap: cool it with water, or wait for shade.");
    }
    if sun_or_wind || soft_metal {
        return Ok(SHORTEST);
    }
    let Some(air) = air_c else { return Ok(UNREAD) };
    let [cold, mild, warm] = BY_AIR;
    Ok(match air {
        c if c < cold.0 => cold.1,
        c if c <= mild.0 => mild.1,
        c if c <= warm.0 => warm.1,
        _ => SHORTEST,
    })
}

/// The same by the last reading, as long as it counts.
///
/// # Errors
/// As [`limit`].
pub fn limit_now(job: &Job, sun_or_wind: bool, soft_metal: bool, now: DateTime<Utc>) -> Result<f64, &'static str> {
    let reading = job.last_reading().filter(|r| now <= good_until(r));
    limit(reading.map(|r| r.air_c), reading.and_then(|r| r.steel_c), sun_or_wind, soft_metal)
}

/// One stretch.
#[derive(Clone, PartialEq, Debug)]
pub struct Stretch {
    pub id: Uuid,
    pub stamp: Stamp,
    pub area: AreaId,
    /// The limit in force when the soap went on, min.
    pub minutes: f64,
    /// Where on the area; may be empty.
    pub place: String,
    pub rinsed: Option<Stamp>,
}

impl Stretch {
    /// When it must be rinsed.
    pub fn ends(&self) -> DateTime<Utc> {
        // The fold takes in no limit that is not a figure of minutes.
        self.stamp.at + TimeDelta::milliseconds((self.minutes * 60_000.0) as i64)
    }

    /// When it has to be called for, so that there is time to rinse it: a fifth of its minutes before it ends, a minute at
    /// most (our own choice).
    pub fn calls(&self) -> DateTime<Utc> {
        self.ends() - TimeDelta::seconds((self.minutes * 12.0).min(60.0) as i64)
    }

    /// The call stands over the whole screen: until an hour after its end, then the soap has long dried and the gate
    /// `soap-off` holds (our own choice).
    pub fn is_called(&self, now: DateTime<Utc>) -> bool {
        (self.calls()..self.ends() + TimeDelta::hours(1)).contains(&now)
    }

    /// Minutes over its limit, when it was rinsed or until now; none when it is within.
    pub fn ran_over(&self, now: DateTime<Utc>) -> Option<f64> {
        let end = self.rinsed.as_ref().map_or(now, |r| r.at);
        let over = (end - self.ends()).num_milliseconds() as f64 / 60_000.0;
        (over > 0.0).then_some(over)
    }

    /// Its last entry: soap on, or rinsed.
    pub(super) fn last_entry(&self) -> Uuid {
        self.rinsed.as_ref().map_or(self.id, |r| r.entry.max(self.id))
    }

    /// Where, in words.
    pub fn words(&self, job: &Job) -> String {
        match self.place.trim() {
            "" => job.area_name(self.area).to_owned(),
            place => format!("{}, {place}", job.area_name(self.area)),
        }
    }

    /// Washed again here: the same place, or no place was named.
    fn covers(&self, earlier: &Stretch) -> bool {
        let place = earlier.place.trim();
        self.area == earlier.area && (place.is_empty() || place.eq_ignore_ascii_case(self.place.trim()))
    }
}

/// The stretches with soap on.
pub fn open(job: &Job) -> impl Iterator<Item = &Stretch> {
    job.stretches.iter().filter(|s| s.rinsed.is_none())
}

/// The first stretch of an area that ran over and was not washed again in time since: it wants a second wash.
pub fn second_wash(job: &Job, area: AreaId, now: DateTime<Utc>) -> Option<&Stretch> {
    let good = |s: &&Stretch| s.rinsed.is_some() && s.ran_over(now).is_none();
    job.stretches
        .iter()
        .filter(|s| s.area == area && s.ran_over(now).is_some())
        .find(|bad| !job.stretches.iter().filter(good).any(|again| again.id > bad.id && again.covers(bad)))
}

/// Minutes and seconds: "1:40".
pub fn clock_words(time: TimeDelta) -> String {
    let seconds = time.num_seconds().abs();
    format!("{}:{:02}", seconds / 60, seconds % 60)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_limit_follows_air_sun_and_metal() {
        for (air, minutes) in
            [(-3.0, 8.0), (9.9, 8.0), (10.0, 5.0), (20.0, 5.0), (20.1, 3.0), (28.0, 3.0), (28.1, 2.0)]
        {
            assert_eq!(limit(Some(air), Some(40.0), false, false), Ok(minutes), "{air} °C");
            assert_eq!(limit(Some(air), None, true, false), Ok(2.0));
            assert_eq!(limit(Some(air), None, false, true), Ok(2.0));
            assert!(limit(Some(air), Some(40.1), false, false).unwrap_err().contains("over 40 °C"));
        }
        assert_eq!(limit(None, None, false, false), Ok(3.0));
    }
}
