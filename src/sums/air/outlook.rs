//! From logged readings and the expected night low: when the gap closes, and by when to start.
//!
//! The rule (common practice, no source) leans to the careful side. Air falls in a straight line to the night low.
//! Steel falls as far as the air does, but does not warm when the air warms: warm damp air on cold steel is the
//! usual surprise. The dew point keeps its last value; if the last six hours show it rising, it goes on rising, at
//! 1 K/h at most; it cannot pass the air's own temperature.

use super::*;
use crate::sums::NotPossible;
use crate::units::{HOUR, Quantity, Time};

/// A logged reading, at a time counted from any start.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// When.
    pub at: Time,
    /// The air.
    pub air: Air,
    /// The steel, coldest spot.
    pub steel: Temperature,
}

/// The coming low.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Low {
    /// When, on the same clock as the readings.
    pub at: Time,
    /// How cold the air gets where the machine stands.
    pub air: Temperature,
}

/// What the job needs of the gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Needs {
    /// The gap itself.
    pub gap: TemperatureInterval,
    /// From the first stroke to the last.
    pub work: Time,
    /// From the last stroke to touch-dry.
    pub touch_dry: Time,
}

impl Default for Needs {
    /// 3 K, two and a quarter hours of spraying, touch-dry after four hours (common practice, no source).
    fn default() -> Self {
        Needs { gap: CELSIUS_DIFFERENCE.of(3.0), work: HOUR.of(2.25), touch_dry: HOUR.of(4.0) }
    }
}

/// One point of the picture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GapPoint {
    /// When.
    pub at: Time,
    /// Air.
    pub air: Temperature,
    /// Steel.
    pub steel: Temperature,
    /// Dew or frost point, the higher.
    pub against: Temperature,
    /// Steel less that point.
    pub gap: TemperatureInterval,
}

/// What comes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Outlook {
    /// The gap is too small already.
    ClosedNow,
    /// It closes before film begun now would be touch-dry.
    TooLate {
        /// When it closes.
        closes: Time,
    },
    /// Begin by `start_by`; the film is then touch-dry when the gap closes.
    StartBy {
        /// Latest start.
        start_by: Time,
        /// When it closes.
        closes: Time,
    },
    /// It holds down to the low. What comes after that, readings must show.
    HoldsToLow {
        /// The smallest gap on the way.
        smallest: TemperatureInterval,
    },
}

/// The forecast, with its curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Forecast {
    /// The readings as points.
    pub logged: Vec<GapPoint>,
    /// From the last reading to the low.
    pub ahead: Vec<GapPoint>,
    /// First time in the log at which the gap fell under the need.
    pub closed_in_log: Option<Time>,
    /// Rise of the dew point carried forward, in kelvin per hour.
    pub dew_rise_per_hour: TemperatureInterval,
    /// What comes.
    pub outlook: Outlook,
}

const STEPS: usize = 240;
const TREND_HOURS: f64 = 6.0;
const MOST_READINGS: usize = 20_000;

/// Says when the gap closes and by when to start, from readings in order of time and the expected low.
///
/// # Errors
/// An input outside its range; no readings; readings or low out of order.
///
/// ```
/// use coatwalk::{sums::air::{self, Air, Low, Needs, Outlook, Reading}, units::{CELSIUS, HOUR}};
/// let reading = |h: f64, air: f64, rh: f64, steel: f64| Reading {
///     at: HOUR.of(h), air: Air::new(CELSIUS.of(air), rh), steel: CELSIUS.of(steel),
/// };
/// let log = [reading(12.0, 18.0, 50.0, 16.0), reading(14.0, 18.0, 50.0, 17.0)];
/// let night = Low { at: HOUR.of(28.0), air: CELSIUS.of(4.0) };
/// let forecast = air::forecast(&log, night, &Needs::default())?;
/// let Outlook::StartBy { start_by, closes } = forecast.outlook else { panic!() };
/// assert!((HOUR.get(closes) - HOUR.get(start_by) - 6.25).abs() < 1e-9);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn forecast(readings: &[Reading], low: Low, needs: &Needs) -> Answer<Forecast> {
    let needed = Field::GapNeeded.take(needs.gap)?;
    let before_dry = Field::Duration.take(needs.work)? + Field::Duration.take(needs.touch_dry)?;
    let logged = points(readings)?;
    let last = *logged.last().ok_or(NotPossible::Nothing)?;
    let start = HOUR.get(last.at);
    let low_at = Field::ReadingTime.take(low.at)?;
    let low_air = Field::AirTemperature.take(low.air)?;
    if low_at <= start {
        return Err(NotPossible::OutOfOrder { at: low.at }.into());
    }
    let rise = dew_rise(&logged);
    let air_now = CELSIUS.get(last.air);
    let steel_now = CELSIUS.get(last.steel);
    let dew_now = CELSIUS.get(last.against);
    let ahead: Vec<GapPoint> = (0..=STEPS)
        .map(|i| {
            let part = i as f64 / STEPS as f64;
            let air = air_now + part * (low_air - air_now);
            let steel = steel_now + (air - air_now).min(0.0);
            let dew = (dew_now + rise * part * (low_at - start)).min(air);
            point(start + part * (low_at - start), air, steel, dew)
        })
        .collect();
    let closes = closing(&ahead, needed);
    let now_open = CELSIUS_DIFFERENCE.get(last.gap) >= needed;
    let outlook = match closes {
        _ if !now_open => Outlook::ClosedNow,
        None => Outlook::HoldsToLow {
            smallest: CELSIUS_DIFFERENCE
                .of(ahead.iter().map(|p| CELSIUS_DIFFERENCE.get(p.gap)).fold(f64::INFINITY, f64::min)),
        },
        Some(at) if at - before_dry < start => Outlook::TooLate { closes: HOUR.of(at) },
        Some(at) => Outlook::StartBy { start_by: HOUR.of(at - before_dry), closes: HOUR.of(at) },
    };
    Ok(Forecast {
        closed_in_log: closing(&logged, needed).map(|h| HOUR.of(h)),
        dew_rise_per_hour: TemperatureInterval::from_si(rise),
        logged,
        ahead,
        outlook,
    })
}

/// Readings as points, checked and in order.
fn points(readings: &[Reading]) -> Answer<Vec<GapPoint>> {
    if readings.len() > MOST_READINGS {
        return Err(NotPossible::TooMany { most: MOST_READINGS }.into());
    }
    let mut points: Vec<GapPoint> = Vec::with_capacity(readings.len());
    for reading in readings {
        let at = Field::ReadingTime.take(reading.at)?;
        let steel = Field::SteelTemperature.take(reading.steel)?;
        let (air, _) = reading.air.take()?;
        let against = condenses_at_c(reading.air.vapour_hpa()?);
        if points.last().is_some_and(|p| HOUR.get(p.at) > at) {
            return Err(NotPossible::OutOfOrder { at: reading.at }.into());
        }
        points.push(point(at, air, steel, against));
    }
    Ok(points)
}

fn point(at: f64, air: f64, steel: f64, against: f64) -> GapPoint {
    GapPoint {
        at: HOUR.of(at),
        air: CELSIUS.of(air),
        steel: CELSIUS.of(steel),
        against: CELSIUS.of(against),
        gap: CELSIUS_DIFFERENCE.of(steel - against),
    }
}

/// Slope of the dew point over the last hours, K/h, by least squares; nothing when it falls or the log is short.
fn dew_rise(points: &[GapPoint]) -> f64 {
    let Some(last) = points.last() else { return 0.0 };
    let end = HOUR.get(last.at);
    let recent: Vec<(f64, f64)> = points
        .iter()
        .map(|p| (HOUR.get(p.at) - end, CELSIUS.get(p.against)))
        .filter(|(hour, _)| *hour >= -TREND_HOURS)
        .collect();
    let span = recent.first().map_or(0.0, |(hour, _)| -hour);
    if recent.len() < 3 || span < 1.0 {
        return 0.0;
    }
    let n = recent.len() as f64;
    let mean_hour = recent.iter().map(|p| p.0).sum::<f64>() / n;
    let mean_dew = recent.iter().map(|p| p.1).sum::<f64>() / n;
    let cross: f64 = recent.iter().map(|p| (p.0 - mean_hour) * (p.1 - mean_dew)).sum();
    let square: f64 = recent.iter().map(|p| (p.0 - mean_hour).powi(2)).sum();
    (cross / square).clamp(0.0, 1.0)
}

/// First hour at which the gap falls under the need, between points along a straight line.
fn closing(points: &[GapPoint], needed: f64) -> Option<f64> {
    let gap = |p: &GapPoint| CELSIUS_DIFFERENCE.get(p.gap);
    let first = points.first()?;
    if gap(first) < needed {
        return Some(HOUR.get(first.at));
    }
    points.windows(2).find_map(|pair| {
        let (a, b) = (gap(&pair[0]), gap(&pair[1]));
        if b >= needed {
            return None;
        }
        let (from, to) = (HOUR.get(pair[0].at), HOUR.get(pair[1].at));
        Some(from + (to - from) * ((a - needed) / (a - b)))
    })
}
