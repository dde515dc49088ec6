//! Nozzle: how wide a fan is, how hard the jet pushes, how long an area takes.
//!
//! Sources: geometry, w = 2·d·tan(θ/2); momentum, F = ρ·Q·v with v = √(2p/ρ), no discharge coefficient, so an upper
//! bound. The US form 0.0526·gpm·√psi (from memory) is the same thing.

use std::f64::consts::PI;

use super::Answer;
use super::range::{Field, check};
use crate::units::{
    Area, CENTIMETRE, Force, KILOGRAM_PER_CUBIC_METRE, Length, MILLIMETRE, MassDensity, NEWTON, PASCAL, Pressure,
    Quantity, SECOND, SQUARE_METRE, Time, Velocity, VolumeRate,
};

/// Cold water, kg/m³ (20 °C).
pub const WATER_KG_M3: f64 = 998.2;
/// Spread of a fan across its thin side, degrees (from memory).
pub const THIN_SIDE_DEG: f64 = 5.0;
/// Keep this far off, cm (common practice, no source).
pub const STAND_OFF_CM: f64 = 30.0;
/// Keep this far off tyres and bearings, cm (common practice, no source).
pub const TYRE_STAND_OFF_CM: f64 = 50.0;

/// Density of cold water.
pub fn water() -> MassDensity {
    KILOGRAM_PER_CUBIC_METRE.of(WATER_KG_M3)
}

/// Width of a fan on a plate.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::nozzle, units::INCH};
/// let width = nozzle::fan_width(65.0, INCH.of(12.0))?;
/// assert!((INCH.get(width) - 15.29).abs() < 0.01);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn fan_width(angle_deg: f64, distance: Length) -> Answer<Length> {
    let angle = check(Field::FanAngle, angle_deg)?.to_radians();
    let distance = Field::StandOff.take(distance)?;
    Ok(MILLIMETRE.of(2.0 * distance * (0.5 * angle).tan()))
}

/// Speed of the jet as it leaves the nozzle.
///
/// # Errors
/// An input outside its range.
pub fn velocity(pressure: Pressure, density: MassDensity) -> Answer<Velocity> {
    Field::WaterPressure.take(pressure)?;
    Field::WaterDensity.take(density)?;
    Ok(Velocity::from_si((2.0 * pressure.si() / density.si()).sqrt()))
}

/// Push of the jet, from flow and pressure: on the lance and, straight on, on the steel.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::nozzle, units::{POUND_FORCE, PSI, US_GPM}};
/// let push = nozzle::force(US_GPM.of(4.0), PSI.of(3000.0), nozzle::water())?;
/// assert!((POUND_FORCE.get(push) - 0.0526 * 4.0 * 3000f64.sqrt()).abs() < 0.05);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn force(flow: VolumeRate, pressure: Pressure, density: MassDensity) -> Answer<Force> {
    Field::WaterFlow.take(flow)?;
    let velocity = velocity(pressure, density)?;
    Ok(NEWTON.of(density.si() * flow.si() * velocity.si()))
}

/// Push of the jet, from the nozzle's bore: twice the pressure on it.
///
/// # Errors
/// An input outside its range.
pub fn force_of_bore(bore: Length, pressure: Pressure) -> Answer<Force> {
    Field::Orifice.take(bore)?;
    Field::WaterPressure.take(pressure)?;
    Ok(NEWTON.of(2.0 * pressure.si() * PI / 4.0 * bore.si().powi(2)))
}

/// Flow of the same nozzle at another pressure: as the square root.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::nozzle, units::{BAR, LITRE_PER_MINUTE}};
/// let flow = nozzle::flow_at(LITRE_PER_MINUTE.of(15.0), BAR.of(200.0), BAR.of(150.0))?;
/// assert!((LITRE_PER_MINUTE.get(flow) - 12.990381).abs() < 1e-6);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn flow_at(flow: VolumeRate, pressure: Pressure, new_pressure: Pressure) -> Answer<VolumeRate> {
    Field::WaterFlow.take(flow)?;
    Field::WaterPressure.take(pressure)?;
    Field::WaterPressure.take(new_pressure)?;
    Ok(VolumeRate::from_si(flow.si() * (new_pressure.si() / pressure.si()).sqrt()))
}

/// What the jet is aimed at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Target {
    /// Paint, steel, plastic.
    Panel,
    /// Tyres and bearings: further off.
    TyreOrBearing,
}

/// A washer and how it is held.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Jet {
    /// Fan angle, degrees.
    pub angle_deg: f64,
    /// From nozzle to steel.
    pub distance: Length,
    /// Flow.
    pub flow: VolumeRate,
    /// Pressure at the nozzle.
    pub pressure: Pressure,
    /// What it is aimed at.
    pub target: Target,
}

/// What to say about a jet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum JetWarning {
    /// A 0° tip cuts and injects: never.
    ZeroDegrees,
    /// Too close.
    TooClose {
        /// How far it is.
        distance: Length,
        /// How far it must be.
        least: Length,
    },
}

/// A jet on steel.
#[derive(Clone, Debug, PartialEq)]
pub struct JetOnSteel {
    /// Width of the fan there.
    pub width: Length,
    /// Push.
    pub force: Force,
    /// Speed at the nozzle.
    pub velocity: Velocity,
    /// Push spread over the wetted strip: an estimate, as the thin side of a fan is assumed.
    pub on_steel: Pressure,
    /// Bore that passes this flow, as an upper bound.
    pub bore: Length,
    /// Warnings; none is no promise.
    pub warnings: Vec<JetWarning>,
}

/// Width, push and pressure of a jet on steel, with its warnings.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::nozzle::{self, Jet, JetWarning, Target}, units::*};
/// let jet = Jet {
///     angle_deg: 25.0, distance: CENTIMETRE.of(20.0), flow: LITRE_PER_MINUTE.of(9.0),
///     pressure: BAR.of(130.0), target: Target::Panel,
/// };
/// assert!(matches!(nozzle::on_steel(&jet)?.warnings[..], [JetWarning::TooClose { .. }]));
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn on_steel(jet: &Jet) -> Answer<JetOnSteel> {
    let width = fan_width(jet.angle_deg, jet.distance)?;
    let force = force(jet.flow, jet.pressure, water())?;
    let velocity = velocity(jet.pressure, water())?;
    let bore = (4.0 * jet.flow.si() / (PI * velocity.si())).sqrt();
    let thin = fan_width(THIN_SIDE_DEG, jet.distance)?;
    let strip = (width.si().max(thin.si()) + bore) * (thin.si() + bore);
    let least = CENTIMETRE.of(match jet.target {
        Target::Panel => STAND_OFF_CM,
        Target::TyreOrBearing => TYRE_STAND_OFF_CM,
    });
    let mut warnings = Vec::new();
    // Sold as 0°; anything under the thin side of a fan is a needle as well.
    if jet.angle_deg < THIN_SIDE_DEG {
        warnings.push(JetWarning::ZeroDegrees);
    }
    if jet.distance.si() < least.si() * (1.0 - 1e-9) {
        warnings.push(JetWarning::TooClose { distance: jet.distance, least });
    }
    Ok(JetOnSteel {
        width,
        force,
        velocity,
        on_steel: PASCAL.of(force.si() / strip),
        bore: Length::from_si(bore),
        warnings,
    })
}

/// Time to go once over an area with a fan.
///
/// # Errors
/// An input outside its range, a fan of no width among them.
///
/// ```
/// use coatwalk::{sums::nozzle, units::*};
/// let time = nozzle::time_to_wash(
///     SQUARE_METRE.of(1.5), CENTIMETRE.of(15.0), METRE_PER_SECOND.of(0.2), 50.0)?;
/// assert!((SECOND.get(time) - 100.0).abs() < 1e-9);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn time_to_wash(area: Area, width: Length, speed: Velocity, overlap_percent: f64) -> Answer<Time> {
    let square_metres = Field::Area.take(area)?;
    let width_mm = Field::FanWidth.take(width)?;
    let speed = Field::WashSpeed.take(speed)?;
    let fresh = 1.0 - check(Field::Overlap, overlap_percent)? / 100.0;
    debug_assert!(SQUARE_METRE.get(area) > 0.0);
    Ok(SECOND.of(square_metres / (width_mm / 1000.0 * speed * fresh)))
}
