//! Vapour: how much a solvent makes, the air it takes, and how a shed fills and clears.
//!
//! No answer here is ever called harmless: at the gun and low down it is above the explosive limit anyway, mist
//! burns below the flash point, and flammability is not the health limit. Flames out, phone out, doors open.
//!
//! Sources: ideal gas, V = ρ·R·T/(M·P); air for 25 % of LEL by 29 CFR 1910.94(c)(6)(ii) (from memory); mixture LEL by
//! Le Chatelier; well-mixed room with a mixing factor.

use super::range::{Field, check};
use super::{Answer, NotPossible};
use crate::units::{MassDensity, MolarMass, Pressure, Quantity, Temperature, Volume};

mod room;
mod solvents;

pub use room::*;
pub use solvents::*;

/// Gas constant, J/(mol·K), exact by definition to these digits.
const GAS_J_MOL_K: f64 = 8.314_462_618;

/// Limits in use, % of LEL: 25 (29 CFR 1910.94), 20 (California Title 8, 5153), 10 (29 CFR 1915, 1910.146, and the
/// usual alarm point); places differ.
pub const LIMITS_PERCENT_OF_LEL: [f64; 3] = [25.0, 20.0, 10.0];

/// Volumes of vapour from one volume of liquid.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::{air, vapour}, units::*};
/// let toluene = vapour::per_liquid(
///     KILOGRAM_PER_CUBIC_METRE.of(868.47), GRAM_PER_MOLE.of(92.138), CELSIUS.of(20.0), air::standard_pressure())?;
/// assert!((toluene - 226.7).abs() < 0.1);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn per_liquid(
    density: MassDensity,
    molar_mass: MolarMass,
    temperature: Temperature,
    pressure: Pressure,
) -> Answer<f64> {
    Field::LiquidDensity.take(density)?;
    Field::MolarMass.take(molar_mass)?;
    let kelvin = Field::LiquidTemperature.take(temperature)? + 273.15;
    Field::AirPressure.take(pressure)?;
    Ok(density.si() * GAS_J_MOL_K * kelvin / (molar_mass.si() * pressure.si()))
}

/// Air for one volume of liquid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AirNeeded {
    /// Volumes of air by the rule of 29 CFR 1910.94(c)(6)(ii), scaled to the share asked for. It leaves slightly
    /// more than that share.
    pub by_rule: f64,
    /// Volumes of clean air that leave exactly the share asked for.
    pub exactly: f64,
    /// What the rule really leaves, % of LEL.
    pub rule_leaves_percent_of_lel: f64,
}

/// Volumes of air for one volume of liquid, to stay at a share of LEL: the rule and the exact figure.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::sums::vapour;
/// // toluene, from memory of the regulation: 30.4 ft³ of vapour and LEL 1.4 % make 8564 ft³ of air per US gallon
/// let air = vapour::air_per_liquid(30.4, 1.4, 25.0)?;
/// assert!((air.by_rule - 8564.1).abs() < 0.1);
/// assert!((air.rule_leaves_percent_of_lel - 25.27).abs() < 0.01);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn air_per_liquid(vapour_per_liquid: f64, lel_percent: f64, percent_of_lel: f64) -> Answer<AirNeeded> {
    let vapour = check(Field::VapourRatio, vapour_per_liquid)?;
    let lel = check(Field::Lel, lel_percent)?;
    let times = 100.0 / check(Field::TargetOfLel, percent_of_lel)?;
    let by_rule = times * (100.0 - lel) * vapour / lel;
    Ok(AirNeeded {
        by_rule,
        exactly: (100.0 * times / lel - 1.0) * vapour,
        rule_leaves_percent_of_lel: 100.0 * (100.0 * vapour / (by_rule + vapour)) / lel,
    })
}

/// A share of a liquid, by volume.
#[derive(Clone, Debug, PartialEq)]
pub struct Share {
    /// The solvent or propellant.
    pub solvent: Solvent,
    /// Its parts by volume of the liquid.
    pub parts: f64,
}

/// What a litre of a blend does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Blended {
    /// Volumes of vapour from one volume of the whole liquid.
    pub vapour_per_liquid: f64,
    /// LEL of the mixed vapour, %.
    pub lel_percent: f64,
}

/// A liquid of several solvents, propellant included; `solids_parts` stay behind as film.
///
/// Ideal mixing; everything but the solids evaporates. LEL by Le Chatelier from each solvent's own.
///
/// # Errors
/// An input outside its range; no solvent in it.
///
/// ```
/// use coatwalk::{sums::{air, vapour::{self, Share}}, units::CELSIUS};
/// let toluene = vapour::solvent("108-88-3").unwrap();
/// let liquid = [Share { solvent: toluene, parts: 60.0 }];
/// let blend = vapour::blend(&liquid, 40.0, CELSIUS.of(20.0), air::standard_pressure())?;
/// assert!((blend.vapour_per_liquid - 0.6 * 226.7).abs() < 0.1);
/// assert!((blend.lel_percent - 1.0).abs() < 1e-9); // the lowest printed
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn blend(shares: &[Share], solids_parts: f64, temperature: Temperature, pressure: Pressure) -> Answer<Blended> {
    let mut parts = check(Field::BlendPart, solids_parts)?;
    let (mut vapour, mut over_lel) = (0.0, 0.0);
    for share in shares {
        let part = check(Field::BlendPart, share.parts)?;
        let lel = check(Field::Lel, share.solvent.lel_percent)?;
        let each = per_liquid(share.solvent.density, share.solvent.molar_mass, temperature, pressure)?;
        parts += part;
        vapour += part * each;
        over_lel += part * each / lel;
    }
    if vapour <= 0.0 {
        return Err(NotPossible::Nothing.into());
    }
    Ok(Blended { vapour_per_liquid: vapour / parts, lel_percent: vapour / over_lel })
}

/// What spraying so much liquid means.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sprayed {
    /// Vapour in all.
    pub vapour: Volume,
    /// Air by the rule.
    pub air_by_rule: Volume,
    /// Clean air that leaves exactly the share.
    pub air_exactly: Volume,
}

/// Vapour and air for a volume of liquid, to stay at a share of LEL.
///
/// # Errors
/// An input outside its range.
pub fn sprayed(liquid: Volume, blend: Blended, percent_of_lel: f64) -> Answer<Sprayed> {
    Field::SprayVolume.take(liquid)?;
    let air = air_per_liquid(blend.vapour_per_liquid, blend.lel_percent, percent_of_lel)?;
    let of = |per: f64| Volume::from_si(liquid.si() * per);
    Ok(Sprayed { vapour: of(blend.vapour_per_liquid), air_by_rule: of(air.by_rule), air_exactly: of(air.exactly) })
}
