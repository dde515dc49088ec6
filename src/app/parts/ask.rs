//! Reading a typed quantity: the number, the unit, the range, and the words when one of them is not right.
//!
//! May use: [`crate::units`], the ranges of the sums. Must not: reckon.

use leptos::prelude::*;

use super::field::Draft;
use crate::app::session::Session;
use crate::sums::range::Field;
use crate::units::{self, Gallons, Measure, ParseError, Quantity, Temperature, Unit, UnitSet, Volume};

/// The units a person thinks in.
#[derive(Clone, Copy, PartialEq)]
pub struct Units {
    /// Which ones.
    pub set: UnitSet,
    /// What a bare "gal" means, once he was asked.
    said: Option<Gallons>,
}

impl Units {
    /// As chosen in the settings, tracked.
    pub fn of(session: Session) -> Units {
        session.prefs.with(|p| Units { set: p.units, said: p.gallons })
    }

    /// For a bucket.
    pub fn volume(self) -> Unit<Volume> {
        Unit::by_id(Measure::Volume.unit(self.set).id).expect("a volume is measured in a unit of volume")
    }

    /// For air and steel.
    pub fn temperature(self) -> Unit<Temperature> {
        Unit::by_id(Measure::Temperature.unit(self.set).id).expect("so is a temperature")
    }

    /// What a bare "gal" means.
    pub fn gallons(self) -> Option<Gallons> {
        self.set.gallons().or(self.said)
    }
}

/// What was typed: nothing yet, a quantity, or what is wrong with it.
pub type Typed<Q> = Result<Option<Q>, String>;

/// Reads a field.
pub fn read<Q: Quantity>(draft: Draft, unit: Unit<Q>, field: Field, units: Units) -> Typed<Q> {
    match units::parse(&draft.get(), unit, units.gallons()) {
        Err(ParseError::Empty) => Ok(None),
        Err(e) => Err(sentence(&e.to_string())),
        Ok(typed) => {
            let q = typed.quantity();
            field.take(q).map_err(|e| sentence(&e.words_in(unit)))?;
            Ok(Some(q))
        }
    }
}

/// Reads a bare number.
pub fn number(draft: Draft, field: Field) -> Result<Option<f64>, String> {
    match units::parse(&draft.get(), units::PERCENT, None) {
        Err(ParseError::Empty) => Ok(None),
        Err(e) => Err(sentence(&e.to_string())),
        Ok(typed) => crate::sums::range::check(field, typed.value).map(Some).map_err(|e| sentence(&e.to_string())),
    }
}

/// The error side of what was typed, for a field; an empty one is a mistake only once it was asked for.
pub fn wrong<Q: 'static>(
    typed: impl Fn() -> Result<Option<Q>, String> + Send + Sync + 'static,
    asked: RwSignal<bool>,
) -> Signal<Option<String>> {
    Signal::derive(move || match typed() {
        Err(e) => Some(e),
        Ok(None) if asked.get() => Some("Type a number.".into()),
        Ok(_) => None,
    })
}

/// First letter large, full stop at the end.
pub fn sentence(words: &str) -> String {
    let mut chars = words.chars();
    let first = chars.next().map(|c| c.to_ascii_uppercase()).unwrap_or_default();
    let stop = if words.ends_with(['.', '?']) { "" } else { "." };
    format!("{first}{}{stop}", chars.as_str())
}
