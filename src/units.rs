//! Quantities in and out: reads what a person types, prints what he chose. No job, no browser.
//!
//! Inside Coatwalk a quantity is a [`uom`] type, so a litre never meets a US gallon by accident. A [`Unit`] names
//! what the user sees; it carries an exact factor of its own, because `uom` rounds the gallon and the fluid ounce
//! to seven digits.
//!
//! ```
//! use coatwalk::units::{self, Gallons, LITRE, US_GALLON, ParseError};
//!
//! let typed = units::parse("5 1/2", LITRE, None).unwrap();
//! assert_eq!(LITRE.print(typed.quantity()), "5.5 L");
//! assert_eq!(units::parse("3,5 mL", LITRE, None).unwrap().value, 3.5);
//!
//! // "5 gal" is two different things: ask once, then pass the answer.
//! assert!(matches!(units::parse("5 gal", LITRE, None), Err(ParseError::Ambiguous { .. })));
//! let us = units::parse("5 gal", LITRE, Some(Gallons::Us)).unwrap();
//! assert_eq!(us.unit, US_GALLON);
//! ```

mod parse;
mod print;
mod set;
mod table;

pub use parse::{Gallons, ParseError, Typed, parse, parse_as};
pub use print::{Step, round_parts, with_comma};
pub use set::{Measure, UnitSet};
pub use table::*;

use std::marker::PhantomData;

pub use uom::si::f64::{
    Area, Force, HeatTransfer, Length, Mass, MassDensity, MolarMass, Power, Pressure, Ratio, ReciprocalLength,
    SpecificHeatCapacity, TemperatureInterval, ThermodynamicTemperature, Time, Torque, Velocity, Volume, VolumeRate,
};

/// A point on the thermometer (not a difference).
pub type Temperature = ThermodynamicTemperature;
/// Spread of a coat, m²/L or ft²/US gal: an area per volume is one over a length.
pub type Spread = ReciprocalLength;

/// What a unit measures. Two units can be turned into each other only when their kinds agree.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs)] // the names say it
pub enum Kind {
    Volume,
    Length,
    Area,
    Temperature,
    TemperatureDifference,
    Torque,
    Pressure,
    Flow,
    Speed,
    Mass,
    Force,
    Power,
    Density,
    Spread,
    Time,
    Share,
    HeatTransfer,
    SpecificHeat,
    MolarMass,
}

/// A `uom` quantity Coatwalk can read and print.
pub trait Quantity: Copy + PartialEq + std::fmt::Debug + 'static {
    /// What it measures.
    const KIND: Kind;
    /// From the value in SI base units.
    fn from_si(value: f64) -> Self;
    /// The value in SI base units.
    fn si(self) -> f64;
}

macro_rules! quantities {
    ($($type:ident $kind:ident),* $(,)?) => {$(
        impl Quantity for $type {
            const KIND: Kind = Kind::$kind;
            fn from_si(value: f64) -> Self {
                $type { dimension: PhantomData, units: PhantomData, value }
            }
            fn si(self) -> f64 {
                self.value
            }
        }
    )*};
}

quantities! {
    Volume Volume, Length Length, Area Area, ThermodynamicTemperature Temperature,
    TemperatureInterval TemperatureDifference, Torque Torque, Pressure Pressure, VolumeRate Flow,
    Velocity Speed, Mass Mass, Force Force, Power Power, MassDensity Density, ReciprocalLength Spread,
    Time Time, Ratio Share, HeatTransfer HeatTransfer, SpecificHeatCapacity SpecificHeat,
    MolarMass MolarMass,
}

/// A unit without its type: the row of the table. Use [`Unit`] where the kind is known.
#[derive(Debug, PartialEq)]
pub struct Def {
    /// Kept in preferences and used in tables: `us_gal`.
    pub id: &'static str,
    /// Shown to the user: `US gal`.
    pub symbol: &'static str,
    /// What it measures.
    pub kind: Kind,
    /// SI base units in one of this unit, exact as defined.
    pub si_per_unit: f64,
    /// SI value at zero of this unit: only the thermometer scales have one.
    pub si_at_zero: f64,
    /// Usual rounding.
    pub step: Step,
    /// What people type for it, in lower case.
    pub spellings: &'static [&'static str],
}

impl Def {
    /// SI value of `value` of this unit.
    pub fn to_si(&self, value: f64) -> f64 {
        value * self.si_per_unit + self.si_at_zero
    }

    /// Value in this unit of an SI value.
    pub fn from_si(&self, si: f64) -> f64 {
        (si - self.si_at_zero) / self.si_per_unit
    }
}

/// A unit of one kind of quantity.
pub struct Unit<Q> {
    def: &'static Def,
    kind: PhantomData<fn() -> Q>,
}

impl<Q> Clone for Unit<Q> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<Q> Copy for Unit<Q> {}
impl<Q> PartialEq for Unit<Q> {
    fn eq(&self, other: &Self) -> bool {
        self.def.id == other.def.id
    }
}
impl<Q> Eq for Unit<Q> {}
impl<Q> std::fmt::Debug for Unit<Q> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.def.id)
    }
}

impl<Q: Quantity> Unit<Q> {
    const fn new(def: &'static Def) -> Self {
        Unit { def, kind: PhantomData }
    }

    /// The table row.
    pub const fn def(self) -> &'static Def {
        self.def
    }

    /// The name kept in preferences, such as `us_gal`.
    pub fn id(self) -> &'static str {
        self.def.id
    }

    /// The name shown, such as `US gal`.
    pub fn symbol(self) -> &'static str {
        self.def.symbol
    }

    /// The unit of this kind with that id, if there is one.
    ///
    /// ```
    /// use coatwalk::units::{LITRE, Unit, Volume};
    /// assert_eq!(Unit::<Volume>::by_id("l"), Some(LITRE));
    /// assert_eq!(Unit::<Volume>::by_id("mm"), None);
    /// ```
    pub fn by_id(id: &str) -> Option<Self> {
        Self::all().find(|u| u.def.id == id)
    }

    /// Every unit of this kind, in the order a list shows them.
    pub fn all() -> impl Iterator<Item = Self> {
        UNITS.iter().filter(|d| d.kind == Q::KIND).map(|d| Unit::new(d))
    }

    /// `value` of this unit as a quantity.
    ///
    /// ```
    /// use coatwalk::units::{LITRE, US_GALLON};
    /// assert!((LITRE.get(US_GALLON.of(1.0)) - 3.785411784).abs() < 1e-9);
    /// ```
    pub fn of(self, value: f64) -> Q {
        Q::from_si(self.def.to_si(value))
    }

    /// The quantity's value in this unit.
    pub fn get(self, quantity: Q) -> f64 {
        self.def.from_si(quantity.si())
    }
}

/// Turns a value from one named unit to another of the same kind.
///
/// # Errors
/// An unknown unit, or two units of different kinds.
///
/// ```
/// use coatwalk::units::convert;
/// assert!((convert(5.0, "imp_gal", "us_gal").unwrap() - 6.00474962752).abs() < 1e-8);
/// assert!((convert(3.0, "delta_degc", "delta_degf").unwrap() - 5.4).abs() < 1e-9);
/// assert!(convert(1.0, "l", "mm").is_err());
/// ```
pub fn convert(value: f64, from: &str, to: &str) -> Result<f64, ConvertError> {
    let find = |id: &str| UNITS.iter().find(|d| d.id == id).ok_or_else(|| ConvertError::Unknown(id.to_owned()));
    let (from, to) = (find(from)?, find(to)?);
    if from.kind != to.kind {
        return Err(ConvertError::KindsDiffer(from.id, to.id));
    }
    Ok(to.from_si(from.to_si(value)))
}

/// Why [`convert`] refused.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ConvertError {
    /// No such unit.
    Unknown(String),
    /// The two measure different things.
    KindsDiffer(&'static str, &'static str),
}

impl std::fmt::Display for ConvertError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            ConvertError::Unknown(id) => write!(f, "there is no unit called {id}"),
            ConvertError::KindsDiffer(a, b) => write!(f, "{a} and {b} measure different things"),
        }
    }
}
impl std::error::Error for ConvertError {}
