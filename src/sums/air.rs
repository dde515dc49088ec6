//! Air and steel: dew point, frost point, wet bulb, water in the air, and whether steel is far enough from it.
//!
//! Sources: Magnus form of the saturation pressure with 6.112 hPa, 17.62 and 243.12 °C over liquid water, 22.46 and
//! 272.62 °C over ice (WMO guide to instruments, constants from memory); wet bulb by the energy balance of the
//! ASHRAE Handbook, Fundamentals; the gap of 3 K is ISO 8502-4 guidance, 85 % RH is ISO 12944-7 (from memory).
//! Checked against `tests/checks/dew_point.csv`.

use super::Answer;
use super::range::{Field, check};
use crate::units::{
    CELSIUS, CELSIUS_DIFFERENCE, GRAM_PER_CUBIC_METRE, KILOPASCAL, MassDensity, PASCAL, Pressure, Temperature,
    TemperatureInterval,
};

mod outlook;
mod verdict;

pub use outlook::*;
pub use verdict::*;

/// Sea-level pressure, 101.325 kPa.
pub fn standard_pressure() -> Pressure {
    PASCAL.of(101_325.0)
}

/// What 100 % relative humidity means below 0 °C. Above it there is no difference.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum RhOver {
    /// Saturation over liquid water: how hand-held and weather instruments count.
    #[default]
    Water,
    /// Saturation over ice: how some engineering tables count.
    Ice,
}

/// A reading of the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Its temperature.
    pub temperature: Temperature,
    /// Its relative humidity, %.
    pub rh_percent: f64,
    /// What that humidity counts against below 0 °C.
    pub rh_over: RhOver,
}

impl Air {
    /// A reading as instruments give it.
    pub fn new(temperature: Temperature, rh_percent: f64) -> Air {
        Air { temperature, rh_percent, rh_over: RhOver::Water }
    }

    /// Checked: (°C, % RH).
    fn take(self) -> Answer<(f64, f64)> {
        Ok((Field::AirTemperature.take(self.temperature)?, check(Field::RelativeHumidity, self.rh_percent)?))
    }

    /// Vapour pressure, hPa.
    fn vapour_hpa(self) -> Answer<f64> {
        let (t, rh) = self.take()?;
        let surface = match self.rh_over {
            RhOver::Ice if t < 0.0 => ICE,
            _ => WATER,
        };
        Ok(rh / 100.0 * surface.saturation_hpa(t))
    }
}

/// A pair of Magnus constants.
#[derive(Clone, Copy)]
struct Magnus {
    slope: f64,
    offset_c: f64,
}

const WATER: Magnus = Magnus { slope: 17.62, offset_c: 243.12 };
const ICE: Magnus = Magnus { slope: 22.46, offset_c: 272.62 };
const SATURATION_AT_0_C_HPA: f64 = 6.112;

impl Magnus {
    fn saturation_hpa(self, t_c: f64) -> f64 {
        SATURATION_AT_0_C_HPA * (self.slope * t_c / (self.offset_c + t_c)).exp()
    }

    fn saturated_at_c(self, hpa: f64) -> f64 {
        let x = (hpa / SATURATION_AT_0_C_HPA).ln();
        self.offset_c * x / (self.slope - x)
    }

    /// K by which the point moves when the logarithm of the pressure moves by one.
    fn kelvin_per_ln(self, point_c: f64) -> f64 {
        (self.offset_c + point_c).powi(2) / (self.slope * self.offset_c)
    }
}

/// Dew point over liquid water, also below 0 °C, as instruments give it.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::air::{self, Air}, units::CELSIUS};
/// let dew = air::dew_point(Air::new(CELSIUS.of(20.0), 55.0))?;
/// assert!((CELSIUS.get(dew) - 10.7).abs() < 0.1); // printed table: 10.7 °C
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn dew_point(air: Air) -> Answer<Temperature> {
    Ok(CELSIUS.of(WATER.saturated_at_c(air.vapour_hpa()?)))
}

/// Frost point: where hoar forms. Below 0 °C it lies above the dew point and is the one to keep clear of; above
/// 0 °C there is no frost, and the dew point is returned.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::air::{self, Air}, units::CELSIUS};
/// let air = Air::new(CELSIUS.of(5.0), 50.0);
/// assert!((CELSIUS.get(air::frost_point(air)?) + 4.1).abs() < 0.1); // printed sheet: -4.1 °C
/// assert!((CELSIUS.get(air::dew_point(air)?) + 4.6).abs() < 0.1); // printed weather table: -4.6 °C
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn frost_point(air: Air) -> Answer<Temperature> {
    Ok(CELSIUS.of(condenses_at_c(air.vapour_hpa()?)))
}

/// Where water settles on steel, as dew or as frost, whichever comes first.
fn condenses_at_c(hpa: f64) -> f64 {
    if hpa < SATURATION_AT_0_C_HPA { ICE.saturated_at_c(hpa) } else { WATER.saturated_at_c(hpa) }
}

/// Water in the air, as mass per volume (ideal gas).
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::air::{self, Air}, units::{CELSIUS, GRAM_PER_CUBIC_METRE}};
/// let water = air::absolute_humidity(Air::new(CELSIUS.of(15.0), 100.0))?;
/// assert!((GRAM_PER_CUBIC_METRE.get(water) - 12.8).abs() < 0.1); // printed sheet: 12.8 g/m³
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn absolute_humidity(air: Air) -> Answer<MassDensity> {
    const VAPOUR_J_PER_KG_K: f64 = 461.5;
    let hpa = air.vapour_hpa()?;
    let kelvin = Field::AirTemperature.take(air.temperature)? + 273.15;
    let grams = 1000.0 * hpa * 100.0 / (VAPOUR_J_PER_KG_K * kelvin);
    Ok(GRAM_PER_CUBIC_METRE.of(grams))
}

/// Wet-bulb temperature: how cold a wet surface gets by drying. Below 0 °C the bulb is taken to carry ice.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::air::{self, Air}, units::CELSIUS};
/// let bulb = air::wet_bulb(Air::new(CELSIUS.of(25.0), 60.0), air::standard_pressure())?;
/// assert!((CELSIUS.get(bulb) - 19.47).abs() < 0.1); // PsychroLib 2.5.0
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn wet_bulb(air: Air, pressure: Pressure) -> Answer<Temperature> {
    let hpa = air.vapour_hpa()?;
    let t = Field::AirTemperature.take(air.temperature)?;
    let pressure_hpa = 10.0 * Field::AirPressure.take(pressure)?;
    debug_assert!(KILOPASCAL.get(pressure) > 0.0);
    // Water per dry air, kg/kg.
    let ratio = |e: f64| 0.621_945 * e / (pressure_hpa - e);
    let ours = ratio(hpa);
    // Water in air that a bulb at `bulb` leaves behind: ASHRAE Fundamentals, psychrometrics, equations 33 and 35.
    let with_bulb = |bulb: f64| {
        if bulb >= 0.0 {
            let full = ratio(WATER.saturation_hpa(bulb));
            ((2501.0 - 2.326 * bulb) * full - 1.006 * (t - bulb)) / (2501.0 + 1.86 * t - 4.186 * bulb)
        } else {
            let full = ratio(ICE.saturation_hpa(bulb));
            ((2830.0 - 0.24 * bulb) * full - 1.006 * (t - bulb)) / (2830.0 + 1.86 * t - 2.1 * bulb)
        }
    };
    let (mut low, mut high) = (condenses_at_c(hpa).min(t), t);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if with_bulb(middle) > ours {
            high = middle;
        } else {
            low = middle;
        }
    }
    Ok(CELSIUS.of(0.5 * (low + high)))
}

/// How far the instruments may be off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Doubts {
    /// Of the humidity, percentage points.
    pub rh_percent: f64,
    /// Of the air thermometer.
    pub air: TemperatureInterval,
    /// Of the steel thermometer.
    pub steel: TemperatureInterval,
}

impl Default for Doubts {
    /// ±4 % RH and ±0.5 °C on both thermometers: usual hand instruments (common practice, no source).
    fn default() -> Self {
        Doubts { rh_percent: 4.0, air: CELSIUS_DIFFERENCE.of(0.5), steel: CELSIUS_DIFFERENCE.of(0.5) }
    }
}

/// Steel against the point where water settles on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Margin {
    /// The steel, the coldest of its spots.
    pub steel: Temperature,
    /// Dew point over water.
    pub dew_point: Temperature,
    /// Frost point; the dew point when that is above 0 °C.
    pub frost_point: Temperature,
    /// The higher of the two: what the steel is held against.
    pub against: Temperature,
    /// Steel less that point; below zero when water already settles.
    pub gap: TemperatureInterval,
    /// The gap may be off by this much either way.
    pub doubt: TemperatureInterval,
}

/// The gap between steel and dew (or frost) point, with its doubt: the instruments' doubts, each carried through
/// to the gap, added as squares.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::air::{self, Air, Doubts}, units::{CELSIUS, CELSIUS_DIFFERENCE}};
/// let air = Air::new(CELSIUS.of(15.0), 80.0);
/// let margin = air::margin(air, CELSIUS.of(14.0), Doubts::default())?;
/// let gap = CELSIUS_DIFFERENCE.get(margin.gap);
/// let doubt = CELSIUS_DIFFERENCE.get(margin.doubt);
/// assert!((gap - 2.4).abs() < 0.1);
/// assert!((doubt - 1.0).abs() < 0.1); // about one kelvin
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn margin(air: Air, steel: Temperature, doubts: Doubts) -> Answer<Margin> {
    let (t, rh) = air.take()?;
    let steel_c = Field::SteelTemperature.take(steel)?;
    let rh_doubt = check(Field::RhDoubt, doubts.rh_percent)?;
    let air_doubt = Field::TemperatureDoubt.take(doubts.air)?;
    let steel_doubt = Field::TemperatureDoubt.take(doubts.steel)?;
    let hpa = air.vapour_hpa()?;
    let against = condenses_at_c(hpa);
    let surface = if hpa < SATURATION_AT_0_C_HPA { ICE } else { WATER };
    let per_ln = surface.kelvin_per_ln(against);
    let by_rh = per_ln * rh_doubt / rh;
    let by_air = per_ln / WATER.kelvin_per_ln(t) * air_doubt;
    let doubt = (by_rh.powi(2) + by_air.powi(2) + steel_doubt.powi(2)).sqrt();
    Ok(Margin {
        steel,
        dew_point: CELSIUS.of(WATER.saturated_at_c(hpa)),
        frost_point: CELSIUS.of(against),
        against: CELSIUS.of(against),
        gap: CELSIUS_DIFFERENCE.of(steel_c - against),
        doubt: CELSIUS_DIFFERENCE.of(doubt),
    })
}
