//! The coming night: when the gap between steel and dew point closes, and by when to start so that the film is
//! touch-dry before.
//!
//! May use: [`crate::sums::air`], readings of the job, chrono. Must not: reach for a clock or a zone of its own.

use chrono::{DateTime, TimeDelta, TimeZone, Timelike, Utc};

use super::fold::Reading;
use super::plan::{Days, Week};
use crate::sums::air::{self, Air, Forecast, Low, Needs, Outlook};
use crate::sums::range::{Field, check};
use crate::sums::{Answer, NotPossible};
use crate::units::{CELSIUS, CELSIUS_DIFFERENCE, HOUR, MINUTE};

/// The coldest hour of a night on the wall clock, min after midnight (common practice, no source: about sunrise).
pub const COLDEST_MIN: u32 = 5 * 60 + 30;

/// The night's low.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct NightLow {
    /// How cold the air gets where the machine stands.
    pub air_c: f64,
    /// When; see [`coldest_hour`].
    pub at: DateTime<Utc>,
}

/// What the night brings.
#[derive(Clone, PartialEq, Debug)]
pub struct Night {
    /// The gap falls under what is needed.
    pub closes: Option<DateTime<Utc>>,
    /// The steel reaches the dew point.
    pub dew: Option<DateTime<Utc>>,
    /// The latest start.
    pub start_by: Option<DateTime<Utc>>,
    /// The gap is too small already.
    pub closed_now: bool,
    /// Begun now, the film would not be touch-dry in time.
    pub too_late: bool,
    /// In plain lines, with local times.
    pub words: Vec<String>,
    /// For the plot; its hours count from `counted_from`.
    pub forecast: Forecast,
    /// The instant at which the forecast's clock stands at zero.
    pub counted_from: DateTime<Utc>,
}

/// The next coldest hour on the wall clock of a place.
pub fn coldest_hour<Z: TimeZone>(now: DateTime<Utc>, zone: &Z) -> DateTime<Utc> {
    let morning = Week { from_min: COLDEST_MIN, hours: 1.0, ..Week::default() };
    Days::new(morning, zone).next_start(now)
}

/// The night from the readings so far and the expected low: `work` from the first stroke to the last, `touch_dry` from
/// then on.
///
/// Readings without humidity or steel are left out.
///
/// # Errors
/// No full reading; a figure outside its range; a low that lies before the last reading.
pub fn night<Z: TimeZone>(
    readings: &[Reading],
    low: NightLow,
    work: TimeDelta,
    touch_dry: TimeDelta,
    zone: &Z,
) -> Answer<Night> {
    let mut full: Vec<(DateTime<Utc>, f64, f64, f64)> =
        readings.iter().filter_map(|r| Some((r.stamp.at, r.air_c, r.rh_pct?, r.steel_c?))).collect();
    // A phone whose clock went back: readings count in the order of their time.
    full.sort_by_key(|r| r.0);
    let from = full.first().ok_or(NotPossible::Nothing)?.0;
    check(Field::AirTemperature, low.air_c)?;
    let hour = |at: DateTime<Utc>| HOUR.of((at - from).num_seconds() as f64 / 3600.0);
    let log: Vec<air::Reading> = full
        .iter()
        .map(|(at, air, rh, steel)| air::Reading {
            at: hour(*at),
            air: Air::new(CELSIUS.of(*air), *rh),
            steel: CELSIUS.of(*steel),
        })
        .collect();
    let coming = Low { at: hour(low.at), air: CELSIUS.of(low.air_c) };
    let minutes = |t: TimeDelta| MINUTE.of(t.num_minutes() as f64);
    let needs = Needs { work: minutes(work), touch_dry: minutes(touch_dry), ..Needs::default() };
    let forecast = air::forecast(&log, coming, &needs)?;
    let at_dew = air::forecast(&log, coming, &Needs { gap: CELSIUS_DIFFERENCE.of(0.0), ..needs })?;
    let instant = |t| from + TimeDelta::seconds((HOUR.get(t) * 3600.0).round() as i64);
    let last = full[full.len() - 1].0;
    let closing = |outlook: &Outlook| match outlook {
        Outlook::ClosedNow => Some(last),
        Outlook::TooLate { closes } | Outlook::StartBy { closes, .. } => Some(instant(*closes)),
        Outlook::HoldsToLow { .. } => None,
    };
    let start_by = match forecast.outlook {
        Outlook::StartBy { start_by, .. } => Some(instant(start_by)),
        _ => None,
    };
    let mut night = Night {
        closes: closing(&forecast.outlook),
        dew: closing(&at_dew.outlook),
        start_by,
        closed_now: forecast.outlook == Outlook::ClosedNow,
        too_late: matches!(forecast.outlook, Outlook::TooLate { .. }),
        words: Vec::new(),
        forecast,
        counted_from: from,
    };
    night.words = night.lines(low, zone);
    Ok(night)
}

impl Night {
    fn lines<Z: TimeZone>(&self, low: NightLow, zone: &Z) -> Vec<String> {
        let gap = CELSIUS_DIFFERENCE.get(Needs::default().gap);
        let mut words = Vec::new();
        match (self.closed_now, self.closes) {
            (true, _) => words.push(format!("The gap between steel and dew point is under {gap:.0} °C already.")),
            (_, Some(at)) => words.push(format!("The gap falls under {gap:.0} °C about {}.", clock(at, zone))),
            (_, None) => words.push(format!(
                "The gap holds at {gap:.0} °C or more down to the low of {} °C about {}. Take a reading in the morning.",
                low.air_c,
                clock(low.at, zone),
            )),
        }
        if let Some(at) = self.dew {
            words.push(format!("Steel reaches the dew point about {}.", clock(at, zone)));
        }
        if let Some(at) = self.start_by {
            words.push(format!("Start by {}: the film is then touch-dry before the gap closes.", clock(at, zone)));
        }
        if self.too_late {
            words.push(
                "Begun now, the film is not touch-dry in time. Wait for a warmer day, or warm the shed.".into(),
            );
        }
        words
    }
}

/// The wall clock, down to the last five minutes: a forecast is no better, and early is on the careful side.
fn clock<Z: TimeZone>(at: DateTime<Utc>, zone: &Z) -> String {
    let wall = at.with_timezone(zone).time();
    format!("{:02}:{:02}", wall.hour(), wall.minute() / 5 * 5)
}
