//! The trade's arithmetic: pure functions, no browser, no clock, no job.
//!
//! Every sum takes quantities ([`crate::units`]) and hands back a plain struct with all a screen shows. Every input
//! has a range in one table ([`range`]); outside it, or with a NaN, the sum returns an error that names the field,
//! the range and the unit. Nothing is clamped in silence. The sums advise; they certify nothing.

pub mod air;
pub mod area;
pub mod band;
pub mod bucket;
pub mod cure;
pub mod dilution;
pub mod film;
pub mod galvanic;

pub mod nozzle;
pub mod packs;
pub mod range;
pub mod thread;
pub mod vapour;
pub mod warmup;

pub use range::{Field, OutOfRange};

use crate::units::{CELSIUS, HOUR, LITRE, Length, MILLIMETRE, Temperature, Time, Volume};

/// Why a sum has no answer.
#[derive(Clone, Debug, PartialEq)]
pub enum SumError {
    /// An input is outside its range.
    Range(OutOfRange),
    /// The inputs are fine one by one, but together there is no answer.
    NotPossible(NotPossible),
}

/// Inputs that do not go together.
#[derive(Clone, Debug, PartialEq)]
pub enum NotPossible {
    /// A mix cannot come out stronger than what goes in.
    StrongerThanConcentrate {
        /// Strength asked for, % by volume.
        target_percent: f64,
        /// Strength of the concentrate, %.
        concentrate_percent: f64,
    },
    /// A mix cannot come out weaker than the weaker of its two liquids.
    WeakerThanWeaker {
        /// Strength asked for, % by volume.
        target_percent: f64,
        /// Strength of the weaker liquid, %.
        weaker_percent: f64,
    },
    /// More concentrate than mix.
    PartLargerThanWhole,
    /// The vessel holds less.
    MoreThanItHolds {
        /// What was asked for.
        asked: Volume,
        /// What it holds.
        holds: Volume,
    },
    /// The level would be over the rim.
    LevelAboveRim {
        /// The level.
        asked: Length,
        /// The rim.
        rim: Length,
    },
    /// A joint the app gives no torque for.
    Refused(thread::Refusal),
    /// It levels off before the target.
    NeverReaches {
        /// Where a temperature ends up, when that is what levels off.
        ends_at: Option<Temperature>,
    },
    /// At that temperature nothing cures.
    NoCredit {
        /// The temperature assumed.
        at: Temperature,
    },
    /// No readings, shapes or sizes to work on.
    Nothing,
    /// Readings must be in order of time, the later ones later.
    OutOfOrder {
        /// The time that comes too early.
        at: Time,
    },
    /// More items than the sum takes.
    TooMany {
        /// How many it takes.
        most: usize,
    },
    /// The two of them cannot both hold, in words.
    Clash(&'static str),
}

impl From<OutOfRange> for SumError {
    fn from(e: OutOfRange) -> Self {
        SumError::Range(e)
    }
}
impl From<NotPossible> for SumError {
    fn from(e: NotPossible) -> Self {
        SumError::NotPossible(e)
    }
}

impl std::fmt::Display for SumError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            SumError::Range(e) => e.fmt(f),
            SumError::NotPossible(e) => e.fmt(f),
        }
    }
}

impl std::fmt::Display for NotPossible {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            NotPossible::StrongerThanConcentrate { target_percent, concentrate_percent } => {
                write!(f, "{target_percent} % cannot be made from a concentrate of {concentrate_percent} %")
            }
            NotPossible::WeakerThanWeaker { target_percent, weaker_percent } => {
                write!(f, "{target_percent} % cannot be made: the weaker liquid already has {weaker_percent} %")
            }
            NotPossible::PartLargerThanWhole => f.write_str("there cannot be more concentrate than mix"),
            NotPossible::MoreThanItHolds { asked, holds } => {
                write!(f, "it holds {}, not {}", LITRE.print(*holds), LITRE.print(*asked))
            }
            NotPossible::LevelAboveRim { asked, rim } => {
                write!(f, "{} is over the rim, which is at {}", MILLIMETRE.print(*asked), MILLIMETRE.print(*rim))
            }
            NotPossible::Refused(refusal) => f.write_str(refusal.words()),
            NotPossible::NeverReaches { ends_at: Some(t) } => {
                write!(f, "it levels off at {} and never gets there", CELSIUS.print(*t))
            }
            NotPossible::NeverReaches { ends_at: None } => f.write_str("it levels off before and never gets there"),
            NotPossible::NoCredit { at } => {
                write!(f, "at {} nothing cures", CELSIUS.print(*at))
            }
            NotPossible::Nothing => f.write_str("there is nothing to work on yet"),
            NotPossible::OutOfOrder { at } => {
                write!(f, "the reading at {} is earlier than the one before it", HOUR.print(*at))
            }
            NotPossible::TooMany { most } => write!(f, "at most {most} can be taken"),
            NotPossible::Clash(words) => f.write_str(words),
        }
    }
}

impl std::error::Error for SumError {}
impl std::error::Error for NotPossible {}

/// What every sum returns.
pub type Answer<T> = Result<T, SumError>;
