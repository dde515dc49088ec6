//! Warm-up: how long steel takes to follow the air, and what heater it takes.
//!
//! Source: one body at one temperature, m·c·dT/dt = h·A·(T_air − T), as in the textbooks of heat transfer (lumped
//! capacity); it holds while the Biot number is under 0.1. Heat transfer figures and the share of oil and tyres are
//! from memory.

use std::f64::consts::TAU;

use super::range::{Field, check};
use super::{Answer, NotPossible};
use crate::units::{
    Area, CELSIUS, CELSIUS_DIFFERENCE, HOUR, HeatTransfer, KILOGRAM, Length, Mass, Power, Quantity, SECOND,
    SpecificHeatCapacity, Temperature, TemperatureInterval, Time, Volume, WATT,
};

/// Steel, kg/m³.
pub const STEEL_KG_M3: f64 = 7850.0;
/// Steel, J/(kg·K) (from memory).
pub const STEEL_J_KG_K: f64 = 490.0;
/// Steel, W/(m·K) (from memory).
pub const STEEL_W_M_K: f64 = 50.0;
/// Still shed, W/(m²·K): least, likely, most (from memory).
pub const STILL_W_M2_K: [f64; 3] = [6.0, 9.0, 12.0];
/// Fan heater blowing on it, W/(m²·K): least, likely, most (from memory).
pub const FAN_W_M2_K: [f64; 3] = [12.0, 18.0, 30.0];
/// What oil and tyres add to the heat steel holds, %: least, likely, most (from memory).
pub const OIL_AND_TYRES_PERCENT: [f64; 3] = [20.0, 30.0, 40.0];
/// One temperature stands for the whole section while Biot is under this.
pub const BIOT_MOST: f64 = 0.1;

/// How the air goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AirCourse {
    /// At the start.
    pub start: Temperature,
    /// Rise in an hour.
    pub rise_per_hour: TemperatureInterval,
    /// Day and night, if any.
    pub swing: Option<Swing>,
}

/// A swing as a sine, which starts upwards.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swing {
    /// Up and down by this.
    pub by: TemperatureInterval,
    /// From crest to crest.
    pub period: Time,
}

impl AirCourse {
    /// Air that stays as it is.
    pub fn steady(at: Temperature) -> AirCourse {
        AirCourse { start: at, rise_per_hour: CELSIUS_DIFFERENCE.of(0.0), swing: None }
    }
}

/// A body in moving air, checked: seconds and °C.
struct Body {
    tau: f64,
    start: f64,
    air: f64,
    rise: f64,
    swing: Option<(f64, f64)>,
}

impl Body {
    fn new(tau: Time, start: Temperature, air: &AirCourse) -> Answer<Body> {
        let swing = match air.swing {
            None => None,
            Some(s) => Some((Field::Swing.take(s.by)?, TAU / (3600.0 * Field::SwingPeriod.take(s.period)?))),
        };
        Ok(Body {
            tau: Field::TimeConstant.take(tau)?,
            start: Field::BodyTemperature.take(start)?,
            air: Field::SurroundingTemperature.take(air.start)?,
            rise: Field::Ramp.take(air.rise_per_hour)? / 3600.0,
            swing,
        })
    }

    /// The exact solution, °C at `t` seconds.
    fn at(&self, t: f64) -> f64 {
        let fades = (-t / self.tau).exp();
        let lag = self.rise * self.tau;
        let mut steel = self.air + self.rise * t - lag + (self.start - self.air + lag) * fades;
        if let Some((by, w)) = self.swing {
            let x = w * self.tau;
            steel += by * ((w * t).sin() - x * (w * t).cos() + x * fades) / (1.0 + x * x);
        }
        steel
    }
}

/// Temperature of steel after a time.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::warmup::{self, AirCourse}, units::{CELSIUS, HOUR, SECOND}};
/// let steel = warmup::steel_at(
///     SECOND.of(3857.1429), CELSIUS.of(4.0), &AirCourse::steady(CELSIUS.of(15.0)), HOUR.of(1.0))?;
/// assert!((CELSIUS.get(steel) - 10.674).abs() < 0.001);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn steel_at(tau: Time, start: Temperature, air: &AirCourse, time: Time) -> Answer<Temperature> {
    let body = Body::new(tau, start, air)?;
    let hours = Field::WarmTime.take(time)?;
    Ok(CELSIUS.of(body.at(3600.0 * hours)))
}

/// Time until steel first reaches a target, from either side.
///
/// # Errors
/// An input outside its range; a target it never reaches (with moving air: not within the time looked at, the
/// longer of 40 time constants and 40 periods, at most 100,000 h).
///
/// ```
/// use coatwalk::{sums::warmup::{self, AirCourse}, units::{CELSIUS, SECOND}};
/// let time = warmup::time_to(
///     SECOND.of(3857.1429), CELSIUS.of(4.0), &AirCourse::steady(CELSIUS.of(15.0)), CELSIUS.of(10.0))?;
/// assert!((SECOND.get(time) - 3041.19).abs() < 0.01);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn time_to(tau: Time, start: Temperature, air: &AirCourse, target: Temperature) -> Answer<Time> {
    const LONGEST_S: f64 = 3600.0 * 100_000.0;
    const LOOKS: usize = 20_000;
    let body = Body::new(tau, start, air)?;
    let target_c = Field::BodyTemperature.take(target)?;
    if (body.start - target_c).abs() < 1e-9 {
        return Ok(SECOND.of(0.0));
    }
    let never = |ends_at| Err(NotPossible::NeverReaches { ends_at }.into());
    if body.rise == 0.0 && body.swing.is_none() {
        let left = (target_c - body.air) / (body.start - body.air);
        // Between the start and the air, and not the air itself, which is only approached.
        return match left > 0.0 && left < 1.0 {
            true => Ok(SECOND.of(-body.tau * left.ln())),
            false => never(Some(CELSIUS.of(body.air))),
        };
    }
    let period = body.swing.map_or(0.0, |(_, w)| TAU / w);
    let reach = match body.rise == 0.0 {
        true => 0.0,
        false => ((target_c - body.air) / body.rise).max(0.0) + 40.0 * body.tau,
    };
    let end = (40.0 * body.tau).max(40.0 * period).max(reach).min(LONGEST_S);
    let over = |t: f64| (body.at(t) - target_c) * (body.start - target_c) <= 0.0;
    let step = end / LOOKS as f64;
    let Some(hit) = (1..=LOOKS).find(|i| over(*i as f64 * step)) else {
        return never(None);
    };
    let (mut low, mut high) = ((hit - 1) as f64 * step, hit as f64 * step);
    for _ in 0..80 {
        let middle = 0.5 * (low + high);
        if over(middle) { high = middle } else { low = middle }
    }
    Ok(SECOND.of(high))
}

/// Time constant of a body: the time for 63 % of the way.
///
/// # Errors
/// An input outside its range.
pub fn time_constant(mass: Mass, heat: SpecificHeatCapacity, area: Area, film: HeatTransfer) -> Answer<Time> {
    let mc = Field::Mass.take(mass)? * Field::SpecificHeat.take(heat)?;
    Ok(SECOND.of(mc / (Field::FilmCoefficient.take(film)? * Field::WarmArea.take(area)?)))
}

/// A steel section in air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// Its thickness.
    pub thickness: Length,
    /// The air reaches it from both faces, or from one.
    pub both_faces: bool,
    /// Heat transfer to the air.
    pub film: HeatTransfer,
    /// What oil and tyres add to the heat it holds, %.
    pub extra_percent: f64,
}

/// How a section follows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Follows {
    /// Time for 63 % of the way.
    pub time_constant: Time,
    /// Biot number, stated with the answer.
    pub biot: f64,
    /// The sum holds: Biot is under 0.1. Above it the inside lags behind, and the answer is too short.
    pub holds: bool,
}

/// Time constant and Biot number of a section.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::warmup::{self, Section}, units::*};
/// let plate = Section {
///     thickness: MILLIMETRE.of(20.0), both_faces: true,
///     film: WATT_PER_SQUARE_METRE_KELVIN.of(9.0), extra_percent: 0.0,
/// };
/// let follows = warmup::section(&plate)?;
/// assert!((HOUR.get(follows.time_constant) - 1.187).abs() < 0.001);
/// assert!(follows.holds);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn section(section: &Section) -> Answer<Follows> {
    let thickness = Field::Thickness.take(section.thickness)? / 1000.0;
    let film = Field::FilmCoefficient.take(section.film)?;
    let extra = 1.0 + check(Field::ExtraHeat, section.extra_percent)? / 100.0;
    let depth = if section.both_faces { thickness / 2.0 } else { thickness };
    let biot = film * depth / STEEL_W_M_K;
    Ok(Follows {
        time_constant: SECOND.of(STEEL_KG_M3 * STEEL_J_KG_K * extra * depth / film),
        biot,
        holds: biot < BIOT_MOST,
    })
}

/// A shed to be heated, with a machine in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shed {
    /// Walls and roof.
    pub shell: Area,
    /// Heat they let through.
    pub shell_loss: HeatTransfer,
    /// Air inside.
    pub volume: Volume,
    /// Air changes in an hour.
    pub air_changes_per_hour: f64,
    /// Outdoors.
    pub outside: Temperature,
    /// Wanted indoors.
    pub inside: Temperature,
    /// Steel to be warmed.
    pub steel: Mass,
    /// What oil and tyres add, %.
    pub extra_percent: f64,
    /// Steel at the start.
    pub steel_start: Temperature,
    /// Steel in the end.
    pub steel_target: Temperature,
    /// In this time.
    pub within: Time,
}

/// A heater, term by term.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heater {
    /// Through walls and roof.
    pub shell: Power,
    /// With the air that is changed.
    pub air: Power,
    /// Into the steel.
    pub steel: Power,
    /// All together.
    pub total: Power,
}

/// Heater that holds a shed and warms the machine in time. Terms that would cool count as nothing.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::warmup::{self, Shed}, units::*};
/// let shed = Shed {
///     shell: SQUARE_METRE.of(300.0), shell_loss: WATT_PER_SQUARE_METRE_KELVIN.of(2.0),
///     volume: CUBIC_METRE.of(500.0), air_changes_per_hour: 1.0,
///     outside: CELSIUS.of(5.0), inside: CELSIUS.of(15.0),
///     steel: KILOGRAM.of(4000.0), extra_percent: 30.0,
///     steel_start: CELSIUS.of(5.0), steel_target: CELSIUS.of(13.0), within: HOUR.of(6.0),
/// };
/// let heater = warmup::heater(&shed)?;
/// assert!((KILOWATT.get(heater.shell) - 6.0).abs() < 1e-9);
/// assert!((KILOWATT.get(heater.total) - 8.62).abs() < 0.01);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn heater(shed: &Shed) -> Answer<Heater> {
    const AIR_J_M3_K: f64 = 1.2 * 1006.0;
    let warmer =
        Field::SurroundingTemperature.take(shed.inside)? - Field::SurroundingTemperature.take(shed.outside)?;
    let steel_warmer =
        Field::BodyTemperature.take(shed.steel_target)? - Field::BodyTemperature.take(shed.steel_start)?;
    let volume = Field::ShedVolume.take(shed.volume)?;
    let changes = check(Field::AirChanges, shed.air_changes_per_hour)?;
    let extra = 1.0 + check(Field::ExtraHeat, shed.extra_percent)? / 100.0;
    let seconds = 3600.0 * Field::HeatTime.take(shed.within)?;
    let ua = Field::FilmCoefficient.take(shed.shell_loss)? * Field::WarmArea.take(shed.shell)?;
    let shell = ua * warmer.max(0.0);
    let air = AIR_J_M3_K * volume * changes / 3600.0 * warmer.max(0.0);
    let steel = Field::Mass.take(shed.steel)? * STEEL_J_KG_K * extra * steel_warmer.max(0.0) / seconds;
    Ok(Heater {
        shell: WATT.of(shell),
        air: WATT.of(air),
        steel: WATT.of(steel),
        total: WATT.of(shell + air + steel),
    })
}

/// What an unvented flame heater burns.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fuel {
    /// C₃H₈.
    Propane,
    /// Kerosene or diesel, taken as C₁₂H₂₆.
    Kerosene,
}

impl Fuel {
    /// Water per fuel by mass, from the formula, and lower heating value, MJ/kg (from memory).
    fn figures(self) -> (f64, f64) {
        match self {
            Fuel::Propane => (4.0 * 18.015 / 44.096, 46.35),
            Fuel::Kerosene => (13.0 * 18.015 / 170.335, 43.1),
        }
    }
}

/// Water an unvented flame heater puts into the air. It also makes carbon monoxide, and is out and cold before any
/// can is opened.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::warmup::{self, Fuel}, units::{HOUR, KILOGRAM, KILOWATT}};
/// let water = warmup::flame_water(KILOWATT.of(20.0), HOUR.of(5.0), Fuel::Propane)?;
/// assert!((KILOGRAM.get(water) - 12.7).abs() < 0.1);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn flame_water(power: Power, time: Time, fuel: Fuel) -> Answer<Mass> {
    Field::HeaterPower.take(power)?;
    let hours = Field::WarmTime.take(time)?;
    let (water, megajoules) = fuel.figures();
    debug_assert!(HOUR.get(time) >= -1e-6);
    Ok(KILOGRAM.of(power.si() * 3600.0 * hours / (megajoules * 1e6) * water))
}
