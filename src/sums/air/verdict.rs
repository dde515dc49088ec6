//! Whether to coat now, with each reason as figures.

use super::*;
use crate::sums::NotPossible;
use crate::units::{HOUR, MINUTE, Time};

/// What must hold before coating. The product's data sheet goes before these defaults.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Steel above dew or frost point by at least this.
    pub gap: TemperatureInterval,
    /// Relative humidity at most, %.
    pub rh_most_percent: f64,
    /// Steel at least this, whatever the gap: ice in seams.
    pub steel_least: Temperature,
    /// Steel at most this, if the data sheet says.
    pub steel_most: Option<Temperature>,
    /// Air at least this, if the data sheet says.
    pub air_least: Option<Temperature>,
    /// Air at most this, if the data sheet says.
    pub air_most: Option<Temperature>,
    /// Product at least this, if the data sheet says.
    pub product_least: Option<Temperature>,
    /// Product at most this, if the data sheet says.
    pub product_most: Option<Temperature>,
}

impl Default for Limits {
    /// 3 K (ISO 8502-4 guidance), 85 % RH (ISO 12944-7, from memory), steel at 5 °C (common practice, no source).
    fn default() -> Self {
        Limits {
            gap: CELSIUS_DIFFERENCE.of(3.0),
            rh_most_percent: 85.0,
            steel_least: CELSIUS.of(5.0),
            steel_most: None,
            air_least: None,
            air_most: None,
            product_least: None,
            product_most: None,
        }
    }
}

/// Readings to judge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditions {
    /// The air.
    pub air: Air,
    /// The steel, the coldest of three spots ([`coldest`]).
    pub steel: Temperature,
    /// The product in its can, if taken.
    pub product: Option<Temperature>,
}

/// What a temperature belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)] // the names say it
pub enum Of {
    Steel,
    Air,
    Product,
}

/// One reason against coating now, with its figures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reason {
    /// Steel is too close to the dew or frost point, or under it.
    GapTooSmall {
        /// Steel less dew or frost point.
        gap: TemperatureInterval,
        /// What is needed.
        needed: TemperatureInterval,
    },
    /// The air is too damp.
    TooDamp {
        /// Relative humidity, %.
        rh_percent: f64,
        /// At most, %.
        most_percent: f64,
    },
    /// Steel, air or product is too cold.
    TooCold {
        /// Which.
        of: Of,
        /// What it is.
        is: Temperature,
        /// At least.
        least: Temperature,
    },
    /// Steel, air or product is too hot.
    TooHot {
        /// Which.
        of: Of,
        /// What it is.
        is: Temperature,
        /// At most.
        most: Temperature,
    },
}

/// The judgement. It advises; it certifies nothing.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// Steel against dew point.
    pub margin: Margin,
    /// All that stands against coating now; empty when nothing does.
    pub against: Vec<Reason>,
    /// The gap is there, but by less than its doubt: measure again, or wait.
    pub within_doubt: bool,
}

impl Verdict {
    /// Nothing stands against it.
    pub fn go(&self) -> bool {
        self.against.is_empty()
    }
}

/// Judges one set of readings.
///
/// # Errors
/// An input or limit outside its range.
///
/// ```
/// use coatwalk::{sums::air::{self, Air, Conditions, Doubts, Limits, Reason}, units::CELSIUS};
/// let now = Conditions { air: Air::new(CELSIUS.of(10.0), 85.0), steel: CELSIUS.of(9.1), product: None };
/// let verdict = air::verdict(now, &Limits::default(), Doubts::default())?;
/// assert!(matches!(verdict.against[..], [Reason::GapTooSmall { .. }]));
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn verdict(now: Conditions, limits: &Limits, doubts: Doubts) -> Answer<Verdict> {
    let margin = margin(now.air, now.steel, doubts)?;
    let needed = Field::GapNeeded.take(limits.gap)?;
    let most_percent = check(Field::RelativeHumidity, limits.rh_most_percent)?;
    let mut against = Vec::new();
    let gap = CELSIUS_DIFFERENCE.get(margin.gap);
    // A rounding error is no reason: 3.0 read from the instrument is 3.0.
    if gap < needed - 1e-9 {
        against.push(Reason::GapTooSmall { gap: margin.gap, needed: limits.gap });
    }
    if now.air.rh_percent > most_percent + 1e-9 {
        against.push(Reason::TooDamp { rh_percent: now.air.rh_percent, most_percent });
    }
    let mut span = |of, field: Field, is, least: Option<Temperature>, most: Option<Temperature>| {
        let is_c = field.take(is)?;
        if let Some(least) = least
            && is_c < field.take(least)? - 1e-9
        {
            against.push(Reason::TooCold { of, is, least });
        }
        if let Some(most) = most
            && is_c > field.take(most)? + 1e-9
        {
            against.push(Reason::TooHot { of, is, most });
        }
        Answer::Ok(())
    };
    span(Of::Steel, Field::SteelTemperature, now.steel, Some(limits.steel_least), limits.steel_most)?;
    span(Of::Air, Field::AirTemperature, now.air.temperature, limits.air_least, limits.air_most)?;
    if let Some(product) = now.product {
        span(Of::Product, Field::ProductTemperature, product, limits.product_least, limits.product_most)?;
    }
    let within_doubt = gap >= needed && gap - CELSIUS_DIFFERENCE.get(margin.doubt) < needed;
    Ok(Verdict { margin, against, within_doubt })
}

/// The coldest spot: counterweight, axle, low frame.
///
/// # Errors
/// No spots; one outside its range.
pub fn coldest(spots: &[Temperature]) -> Answer<Temperature> {
    let mut least = f64::INFINITY;
    for spot in spots {
        least = least.min(Field::SteelTemperature.take(*spot)?);
    }
    if spots.is_empty() {
        return Err(NotPossible::Nothing.into());
    }
    Ok(CELSIUS.of(least))
}

/// How long a reading is good for: 30 min while the gap is under 5 K or doors or heater have just changed, else 2 h
/// (common practice, no source).
///
/// ```
/// use coatwalk::{sums::air, units::{CELSIUS_DIFFERENCE, MINUTE}};
/// assert_eq!(MINUTE.get(air::reading_good_for(CELSIUS_DIFFERENCE.of(4.0), false)), 30.0);
/// assert_eq!(MINUTE.get(air::reading_good_for(CELSIUS_DIFFERENCE.of(7.0), false)), 120.0);
/// ```
pub fn reading_good_for(gap: TemperatureInterval, just_changed: bool) -> Time {
    if CELSIUS_DIFFERENCE.get(gap) >= 5.0 && !just_changed { HOUR.of(2.0) } else { MINUTE.of(30.0) }
}
