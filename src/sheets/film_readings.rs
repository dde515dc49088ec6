//! Film readings held against the pattern of ISO 19840.

use super::draw::{Point, scale};
use super::words::{bare, count};
use super::{Ask, Filled, Outcome, Stop};
use crate::sums::film::{self, FilmReason};
use crate::sums::range::Field;
use crate::units::{Length, Measure};

const READ: &[(&str, &[&str])] = &[("how", &["readings"])];

/// What is asked for it.
pub const READINGS: [Ask; 4] = [
    Ask::list("readings", "Readings, a space between them", Measure::Film, Field::FilmReading)
        .start("16 14 17 15 18", "0.6 0.55 0.7 0.6 0.7")
        .only_if(READ),
    Ask::amount("nominal", "Dry film wanted", Measure::Film, Field::DryFilm).start("15", "0.6").only_if(READ),
    Ask::amount("maximum", "At most, if the TDS says", Measure::Film, Field::DryFilm).optional().only_if(READ),
    Ask::choice("with", "Read with", |_| vec![("gauge", "A dry film gauge"), ("comb", "A wet comb")]).only_if(READ),
];

/// What the readings say.
pub fn readings(f: &Filled) -> Result<Outcome, Stop> {
    let nominal = f.get::<Length>("nominal")?;
    let maximum = f.opt::<Length>("maximum")?;
    let verdict = film::judge(nominal, maximum, &f.list("readings")?)?;
    let say = |l: Length| f.say(Measure::Film, l);
    let big = match verdict.meets() {
        true => "Fits the pattern",
        false => "Does not fit the pattern",
    };
    let mut out = Outcome::of([big.to_owned(), format!("mean {}", say(verdict.mean))]);
    for reason in &verdict.reasons {
        out = out.warn(match reason {
            FilmReason::MeanBelowNominal { mean } => format!("The mean of {} is under {}.", say(*mean), say(nominal)),
            FilmReason::ReadingBelow80 { count: n } => {
                format!("{} under 80 % of {}.", count(*n as u64, "reading"), say(nominal))
            }
            FilmReason::TooManyBetween { share_percent, exactly_20: false } => {
                format!("{} % of the readings lie between 80 and 100 %: fewer than 20 % may.", bare(*share_percent))
            }
            FilmReason::TooManyBetween { .. } => {
                "Exactly 20 % of the readings lie between 80 and 100 %: fewer may. Some texts take 20 % itself."
                    .into()
            }
            FilmReason::AboveMaximum { count: n } => format!("{} over the most.", count(*n as u64, "reading")),
        });
    }
    out = out.small(format!(
        "{}, {} to {}.",
        count(verdict.count as u64, "reading"),
        say(verdict.least),
        say(verdict.most)
    ));
    let guide = match (f.choice("with"), verdict.under_scope) {
        ("comb", _) => "A wet comb is a guide only, and so is the pattern of ISO 19840, which is for dry readings.",
        (_, true) => "The pattern of ISO 19840 is a guide here: it starts at 40 µm (1.6 mil) nominal.",
        _ => "The pattern is that of ISO 19840, for dry readings. It certifies nothing.",
    };
    let unit = Measure::Film.unit(f.units);
    let at = |l: Length| unit.from_si(crate::units::Quantity::si(l));
    let mut points = vec![
        Point::mark(at(verdict.most), format!("thickest {}", say(verdict.most))),
        Point::strong(at(verdict.mean), format!("mean {}", say(verdict.mean))),
        Point::top(at(nominal), format!("wanted {}", say(nominal)), "wait"),
        Point::top(at(nominal) * 0.8, "80 % of it".into(), "stop"),
        Point::mark(at(verdict.least), format!("thinnest {}", say(verdict.least))),
    ];
    if let Some(most) = maximum {
        points.push(Point::mark(at(most), format!("at most {}", say(most))));
    }
    Ok(out.small(guide).picture(scale(&points, at(nominal) * 0.5)))
}
