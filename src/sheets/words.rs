//! Words that more than one sheet needs.

use super::Filled;
use crate::sums::{NotPossible, SumError};
use crate::units::{
    Area, HOUR, IMP_FLUID_OUNCE, MILLILITRE, MINUTE, Measure, Quantity, SECOND, Step, Time, US_FLUID_OUNCE, UnitSet,
    Volume, round_parts,
};

/// First letter large, full stop at the end.
pub fn sentence(words: &str) -> String {
    let mut chars = words.chars();
    let first = chars.next().map(|c| c.to_ascii_uppercase().to_string()).unwrap_or_default();
    let stop = if words.ends_with(['.', '?']) { "" } else { "." };
    format!("{first}{}{stop}", chars.as_str())
}

/// First letter small, for the middle of a line; "RH" stays.
pub fn small_first(words: &str) -> String {
    let mut chars = words.chars();
    match (chars.next(), chars.clone().next()) {
        (Some(first), Some(second)) if second.is_ascii_lowercase() => {
            std::iter::once(first.to_ascii_lowercase()).chain(chars).collect()
        }
        _ => words.to_owned(),
    }
}

/// A bare number, at most two places.
pub fn bare(value: f64) -> String {
    Step::Decimal { size: 0.01, places: 2 }.text(value)
}

/// A share, as short as it makes sense.
pub fn percent(value: f64) -> String {
    match value.abs() {
        v if v < 9.95 => format!("{} %", bare((value * 10.0).round() / 10.0)),
        _ => format!("{value:.0} %"),
    }
}

/// "1 bucket", "3 buckets".
pub fn count(n: u64, one: &str) -> String {
    format!("{n} {one}{}", if n == 1 { "" } else { "s" })
}

/// A time as one says it: "40 s", "25 min", "3 h 20 min", "6 days".
pub fn time(t: Time) -> String {
    let minutes = MINUTE.get(t);
    match minutes {
        m if m < 0.2 => format!("{} s", bare((SECOND.get(t) * 10.0).round() / 10.0)),
        m if m < 1.5 => format!("{:.0} s", SECOND.get(t)),
        m if m < 99.5 => format!("{m:.0} min"),
        m if m < 47.75 * 60.0 => {
            let m = m.round() as i64;
            match m % 60 {
                0 => format!("{} h", m / 60),
                rest => format!("{} h {rest} min", m / 60),
            }
        }
        m if m < 240.0 * 60.0 => format!("{} days ({:.0} h)", bare((m / 144.0).round() / 10.0), HOUR.get(t)),
        m => format!("{:.0} days", m / 1440.0),
    }
}

/// Volumes that are poured together, in the user's own measure and as his jug can hold them: the figures still add up.
pub fn pours(filled: &Filled, parts: &[Volume]) -> Vec<String> {
    let total: f64 = parts.iter().map(|p| p.si()).sum();
    let bucket = Measure::Volume.unit(filled.units);
    let jug = Measure::Jug.unit(filled.units);
    // Under a quart or so, the jug's own marks.
    let unit = if bucket.from_si(total) < 0.3 { jug } else { bucket };
    let fine = jug.from_si(total) < 100.0 && unit == jug;
    let step = match unit.step {
        Step::Decimal { size, places } if fine && filled.units == UnitSet::Metric => {
            Step::Decimal { size: size / 10.0, places }
        }
        step => step,
    };
    let shown: Vec<f64> = parts.iter().map(|p| unit.from_si(p.si())).collect();
    round_parts(&shown, step).into_iter().map(|v| format!("{} {}", step.text(v), unit.symbol)).collect()
}

/// An area; a small one finer than a machine's.
pub fn area(filled: &Filled, area: Area) -> String {
    let unit = Measure::Area.unit(filled.units);
    match (unit.from_si(area.si()), unit.step) {
        (value, Step::Decimal { size, places }) if value < 100.0 * size => {
            let fine = Step::Decimal { size: size / 10.0, places: places + 1 };
            format!("{} {}", fine.text(value), unit.symbol)
        }
        _ => unit.print(area.si()),
    }
}

/// A small volume in the marks of a jug.
pub fn jug(filled: &Filled, volume: Volume) -> String {
    match filled.units {
        UnitSet::Metric => MILLILITRE.print(volume),
        UnitSet::Us => US_FLUID_OUNCE.print(volume),
        UnitSet::Imperial => IMP_FLUID_OUNCE.print(volume),
    }
}

/// Why a sum has no answer, in the user's units.
pub fn error(e: &SumError, units: UnitSet) -> String {
    let volume = |v: &Volume| Measure::Volume.unit(units).print(v.si());
    match e {
        SumError::Range(e) => {
            let own = e.field.range().unit;
            let mut measures = Measure::ALL.iter();
            let shown = measures.find(|m| Some(m.unit(UnitSet::Metric)) == own).map(|m| m.unit(units));
            shown.map_or_else(|| e.to_string(), |u| e.words_as(u))
        }
        SumError::NotPossible(e) => match e {
            NotPossible::MoreThanItHolds { asked, holds } => {
                format!("it holds {}, not {}", volume(holds), volume(asked))
            }
            NotPossible::LevelAboveRim { asked, rim } => {
                let mm = Measure::Length.unit(units);
                format!("{} is over the rim, which is at {}", mm.print(asked.si()), mm.print(rim.si()))
            }
            NotPossible::NeverReaches { ends_at: Some(t) } => {
                let t = Measure::Temperature.unit(units).print(t.si());
                format!("it levels off at {t} and never gets there")
            }
            NotPossible::NoCredit { at } => {
                format!("at {} nothing cures", Measure::Temperature.unit(units).print(at.si()))
            }
            NotPossible::StrongerThanConcentrate { target_percent, concentrate_percent } => format!(
                "{} cannot be made from a concentrate of {}",
                percent(*target_percent),
                percent(*concentrate_percent)
            ),
            NotPossible::Refused(refusal) => format!("no figure from here. {}", sentence(refusal.words())),
            other => other.to_string(),
        },
    }
}
