//! Cure: how many hours at the data sheet's temperature the logged hours are worth, and when the film is ready.
//!
//! Sources: equivalent age te = ∫ rate dt, in the form of ASTM C1074 (read in the DIANA material manual, 12.5.3).
//! That form is borrowed from concrete; solvent also leaves by airflow and film build, so the answer is a guide.
//! Half the speed for 10 °C colder is common practice, no source.

use super::range::{Field, check};
use super::{Answer, NotPossible};
use crate::units::{CELSIUS, HOUR, Temperature, Time};

/// Refit after so many hours at [`REFERENCE_C`] (common practice, no source).
pub const REFIT_HOURS: f64 = 48.0;
/// Touch-dry, hours: least, likely, most (from memory).
pub const TOUCH_DRY_HOURS: [f64; 3] = [1.0, 4.0, 12.0];
/// Between the passes, minutes: least, likely, most (from memory).
pub const FLASH_OFF_MINUTES: [f64; 3] = [10.0, 20.0, 60.0];
/// Hard, days: least, likely, most (from memory).
pub const HARD_DAYS: [f64; 3] = [5.0, 7.0, 14.0];
/// Temperature the hours above hold for, °C.
pub const REFERENCE_C: f64 = 20.0;
/// No extra credit above this, °C (common practice, no source).
pub const NO_MORE_ABOVE_C: f64 = 30.0;

/// How speed follows temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Law {
    /// Speed changes by a factor for every 10 °C.
    Q10 {
        /// The factor, 2 by default.
        q10: f64,
        /// Temperature at which the speed is one.
        reference: Temperature,
    },
    /// Speed by activation energy.
    Arrhenius {
        /// Ea/R, in kelvin.
        q_over_r_k: f64,
        /// Temperature at which the speed is one.
        reference: Temperature,
    },
}

impl Default for Law {
    /// Half the speed for 10 °C colder, counted at 20 °C (common practice, no source).
    fn default() -> Self {
        Law::Q10 { q10: 2.0, reference: CELSIUS.of(REFERENCE_C) }
    }
}

/// Where credit stops.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Credit {
    /// No credit below it: the data sheet's minimum.
    pub none_below: Option<Temperature>,
    /// No more credit above it than at it.
    pub no_more_above: Option<Temperature>,
}

impl Credit {
    /// The bare law.
    pub const FULL: Credit = Credit { none_below: None, no_more_above: None };
}

impl Default for Credit {
    /// No minimum until the data sheet gives one; none extra above 30 °C.
    fn default() -> Self {
        Credit { none_below: None, no_more_above: Some(CELSIUS.of(NO_MORE_ABOVE_C)) }
    }
}

/// Law and credit, checked once.
struct Speed {
    law: Law,
    reference_c: f64,
    none_below_c: f64,
    no_more_above_c: f64,
}

impl Speed {
    fn new(law: Law, credit: Credit) -> Answer<Speed> {
        let reference = match law {
            Law::Q10 { q10, reference } => {
                check(Field::Q10, q10)?;
                reference
            }
            Law::Arrhenius { q_over_r_k, reference } => {
                check(Field::ActivationQ, q_over_r_k)?;
                reference
            }
        };
        let edge = |t: Option<Temperature>, none: f64| t.map_or(Ok(none), |t| Field::CureTemperature.take(t));
        Ok(Speed {
            law,
            reference_c: Field::CureTemperature.take(reference)?,
            none_below_c: edge(credit.none_below, f64::NEG_INFINITY)?,
            no_more_above_c: edge(credit.no_more_above, f64::INFINITY)?,
        })
    }

    fn at(&self, t_c: f64) -> f64 {
        if t_c < self.none_below_c - 1e-9 {
            return 0.0;
        }
        let t_c = t_c.min(self.no_more_above_c);
        match self.law {
            Law::Q10 { q10, .. } => q10.powf((t_c - self.reference_c) / 10.0),
            Law::Arrhenius { q_over_r_k, .. } => {
                let inverse = |c: f64| 1.0 / (c + 273.15);
                (-q_over_r_k * (inverse(t_c) - inverse(self.reference_c))).exp()
            }
        }
    }
}

/// How many hours at the reference one hour at `temperature` is worth.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::cure::{self, Credit, Law}, units::CELSIUS};
/// assert_eq!(cure::rate(Law::default(), Credit::default(), CELSIUS.of(10.0))?, 0.5);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn rate(law: Law, credit: Credit, temperature: Temperature) -> Answer<f64> {
    let speed = Speed::new(law, credit)?;
    Ok(speed.at(Field::CureTemperature.take(temperature)?))
}

/// A stretch at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// How long.
    pub lasts: Time,
    /// How warm.
    pub temperature: Temperature,
}

/// Equivalent time of stretches at constant temperatures.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::cure::{self, Credit, Law, Step}, units::{CELSIUS, HOUR}};
/// let cold = Step { lasts: HOUR.of(24.0), temperature: CELSIUS.of(10.0) };
/// assert!((HOUR.get(cure::of_steps(Law::default(), Credit::FULL, &[cold])?) - 12.0).abs() < 1e-9);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn of_steps(law: Law, credit: Credit, steps: &[Step]) -> Answer<Time> {
    let speed = Speed::new(law, credit)?;
    let mut hours = 0.0;
    for step in steps {
        let lasts = Field::Duration.take(step.lasts)?;
        hours += lasts * speed.at(Field::CureTemperature.take(step.temperature)?);
    }
    Ok(HOUR.of(hours))
}

/// How long at one temperature makes an equivalent time.
///
/// # Errors
/// An input outside its range; a temperature that earns no credit.
///
/// ```
/// use coatwalk::{sums::cure::{self, Credit, Law}, units::{CELSIUS, HOUR}};
/// let refit = cure::time_to_reach(Law::default(), Credit::FULL, HOUR.of(48.0), CELSIUS.of(5.0))?;
/// assert!((HOUR.get(refit) - 135.8).abs() < 0.1);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn time_to_reach(law: Law, credit: Credit, equivalent: Time, temperature: Temperature) -> Answer<Time> {
    let needed = Field::EquivalentHours.take(equivalent)?;
    let speed = Speed::new(law, credit)?.at(Field::CureTemperature.take(temperature)?);
    if speed == 0.0 {
        return Err(NotPossible::NoCredit { at: temperature }.into());
    }
    Ok(HOUR.of(needed / speed))
}

/// A logged temperature, at a time counted from any start.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Logged {
    /// When.
    pub at: Time,
    /// How warm the film's steel was.
    pub temperature: Temperature,
}

/// How far the film is.
#[derive(Clone, Debug, PartialEq)]
pub struct Cure {
    /// Equivalent time so far.
    pub equivalent: Time,
    /// Equivalent time asked for.
    pub needed: Time,
    /// The one as a share of the other, %; more than 100 when it is over.
    pub percent: f64,
    /// Time that earned no credit: too cold.
    pub without_credit: Time,
    /// Time that earned no extra credit: warmer than counts.
    pub capped: Time,
    /// When it is (or was) reached, on the readings' clock; none when the temperature ahead earns no credit.
    pub finish: Option<Time>,
    /// The curve: (time, equivalent time so far) at each reading and now.
    pub curve: Vec<(Time, Time)>,
}

const MOST_READINGS: usize = 20_000;
/// Parts a stretch between two readings is cut into.
const SLICES: usize = 16;

/// Equivalent time over readings in order of time, up to `now`, and the finish when the steel stays at `ahead` from
/// now on. Between readings the temperature goes in a straight line; after the last it is held.
///
/// # Errors
/// An input outside its range; no readings; readings or `now` out of order.
///
/// ```
/// use coatwalk::{sums::cure::{self, Credit, Law, Logged}, units::{CELSIUS, HOUR}};
/// let log = [
///     Logged { at: HOUR.of(0.0), temperature: CELSIUS.of(20.0) },
///     Logged { at: HOUR.of(24.0), temperature: CELSIUS.of(20.0) },
/// ];
/// let film = cure::progress(Law::default(), Credit::default(), &log, HOUR.of(24.0), HOUR.of(48.0), CELSIUS.of(10.0))?;
/// assert!((film.percent - 50.0).abs() < 1e-9);
/// assert!((HOUR.get(film.finish.unwrap()) - 72.0).abs() < 1e-9);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn progress(
    law: Law,
    credit: Credit,
    readings: &[Logged],
    now: Time,
    needed: Time,
    ahead: Temperature,
) -> Answer<Cure> {
    let speed = Speed::new(law, credit)?;
    let needed_h = Field::EquivalentHours.take(needed)?;
    let ahead_c = Field::CureTemperature.take(ahead)?;
    let points = in_order(readings, now)?;
    let start = points.first().ok_or(NotPossible::Nothing)?.0;
    let (mut done, mut without, mut capped) = (0.0, 0.0, 0.0);
    let mut reached = (needed_h <= 0.0).then_some(start);
    let mut curve = vec![(HOUR.of(start), HOUR.of(0.0))];
    for pair in points.windows(2) {
        let ((from, t_from), (to, t_to)) = (pair[0], pair[1]);
        let slice = (to - from) / SLICES as f64;
        for i in 0..SLICES {
            let middle = (i as f64 + 0.5) / SLICES as f64;
            let t = t_from + middle * (t_to - t_from);
            let gain = slice * speed.at(t);
            if reached.is_none() && gain > 0.0 && done + gain >= needed_h {
                reached = Some(from + slice * (i as f64 + (needed_h - done) / gain));
            }
            done += gain;
            if gain == 0.0 {
                without += slice;
            } else if t > speed.no_more_above_c {
                capped += slice;
            }
        }
        curve.push((HOUR.of(to), HOUR.of(done)));
    }
    let ahead_speed = speed.at(ahead_c);
    let finish = reached.or_else(|| (ahead_speed > 0.0).then(|| HOUR.get(now) + (needed_h - done) / ahead_speed));
    Ok(Cure {
        equivalent: HOUR.of(done),
        needed,
        percent: if needed_h > 0.0 { 100.0 * done / needed_h } else { 100.0 },
        without_credit: HOUR.of(without),
        capped: HOUR.of(capped),
        finish: finish.map(|h| HOUR.of(h)),
        curve,
    })
}

/// (hour, °C) of each reading and of now, checked and in order.
fn in_order(readings: &[Logged], now: Time) -> Answer<Vec<(f64, f64)>> {
    if readings.len() > MOST_READINGS {
        return Err(NotPossible::TooMany { most: MOST_READINGS }.into());
    }
    let mut points: Vec<(f64, f64)> = Vec::with_capacity(readings.len() + 1);
    let held = readings.last().map(|last| Logged { at: now, temperature: last.temperature });
    for reading in readings.iter().copied().chain(held) {
        let at = Field::ReadingTime.take(reading.at)?;
        let t = Field::CureTemperature.take(reading.temperature)?;
        // Hours and back may differ by a rounding error.
        if points.last().is_some_and(|(before, _)| *before > at + 1e-9) {
            return Err(NotPossible::OutOfOrder { at: reading.at }.into());
        }
        points.push((at, t));
    }
    Ok(points)
}
