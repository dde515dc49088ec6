//! A sum as it is asked and answered: its fields, its words, its picture, as plain data.
//!
//! One screen shows any sheet; what is special about a sum stands here. A [`Sheet`] lists what it asks ([`Ask`]), and
//! its `answer` turns what was typed ([`Filled`]) into an [`Outcome`].
//!
//! May use: sums, units. Must not: reckon (the sums do), know a job, a screen, a browser.
//!
//! ```
//! use coatwalk::sheets::{self, Filled, Given};
//! use coatwalk::units::UnitSet;
//!
//! let sheet = sheets::by_slug("mix").unwrap();
//! let mut filled = Filled::start(sheet, UnitSet::Metric, Given::default());
//! filled.type_in("water", "4", None);
//! filled.type_in("fill", "10", None);
//! assert_eq!(filled.answer().big, ["8 L water", "2 L concentrate"]);
//! ```

mod draw;
mod filled;
mod words;

mod air;
mod area;
mod bucket;
mod cure;
mod film;
mod film_readings;
mod mix;
mod nozzle;
mod packs;
mod thread;
mod two_metals;
mod vapour;
mod warmup;

#[cfg(test)]
mod tests;

pub use draw::{Drawing, Mark};
pub use filled::{Filled, Given, Stop, Trouble};

use crate::sums::range::Field;
use crate::units::{Measure, UnitSet};

/// A sum with its screen.
#[derive(Debug)]
pub struct Sheet {
    /// Its address.
    pub slug: &'static str,
    /// Its name.
    pub name: &'static str,
    /// What it answers, in a line.
    pub what: &'static str,
    /// What it asks, in order.
    pub asks: &'static [Ask],
    /// What comes of it.
    answer: fn(&Filled) -> Result<Outcome, Stop>,
    /// How it is reckoned.
    pub formula: &'static str,
    /// Where that comes from.
    pub source: &'static str,
    /// What to mind, always in view.
    pub cautions: &'static [&'static str],
}

impl PartialEq for Sheet {
    fn eq(&self, other: &Self) -> bool {
        self.slug == other.slug
    }
}

/// Every sheet, as the list shows them.
pub static SHEETS: [&Sheet; 12] = [
    &mix::SHEET,
    &bucket::SHEET,
    &film::SHEET,
    &air::SHEET,
    &warmup::SHEET,
    &vapour::SHEET,
    &cure::SHEET,
    &thread::SHEET,
    &nozzle::SHEET,
    &area::SHEET,
    &packs::SHEET,
    &two_metals::SHEET,
];

/// The sheet of that address.
pub fn by_slug(slug: &str) -> Option<&'static Sheet> {
    SHEETS.iter().copied().find(|s| s.slug == slug)
}

/// How a question is answered.
#[derive(Clone, Copy, Debug)]
pub enum Kind {
    /// With a quantity, held to a range.
    Amount(Measure, Field),
    /// With several, a space between them.
    List(Measure, Field),
    /// With a bare number.
    Number(Field),
    /// With one of a few words: (id, words).
    Choice(fn(UnitSet) -> Vec<(&'static str, &'static str)>),
}

/// A question of a sheet.
#[derive(Clone, Copy, Debug)]
pub struct Ask {
    /// Its name in the sheet.
    pub id: &'static str,
    /// What is asked.
    pub label: &'static str,
    /// How it is answered.
    pub kind: Kind,
    /// What stands there at first, in metric and in US units. A choice starts with its first word.
    start: (&'static str, &'static str),
    /// A default and its basis, or an example.
    pub hint: &'static str,
    /// It may stay empty.
    pub optional: bool,
    /// Short enough to stand beside the one before or after it.
    pub half: bool,
    /// It is of the user's own things and is kept for the next time.
    pub kept: bool,
    /// Asked only while a choice has one of these ids.
    only_if: &'static [(&'static str, &'static [&'static str])],
    /// Taken from the job when there is one.
    given: Option<fn(&Given) -> Option<f64>>,
}

impl Ask {
    const fn new(id: &'static str, label: &'static str, kind: Kind) -> Ask {
        Ask {
            id,
            label,
            kind,
            start: ("", ""),
            hint: "",
            optional: false,
            half: false,
            kept: false,
            only_if: &[],
            given: None,
        }
    }

    const fn amount(id: &'static str, label: &'static str, measure: Measure, field: Field) -> Ask {
        Ask::new(id, label, Kind::Amount(measure, field))
    }

    const fn list(id: &'static str, label: &'static str, measure: Measure, field: Field) -> Ask {
        Ask::new(id, label, Kind::List(measure, field))
    }

    const fn number(id: &'static str, label: &'static str, field: Field) -> Ask {
        Ask::new(id, label, Kind::Number(field))
    }

    const fn choice(
        id: &'static str,
        label: &'static str,
        options: fn(UnitSet) -> Vec<(&'static str, &'static str)>,
    ) -> Ask {
        Ask::new(id, label, Kind::Choice(options))
    }

    const fn start(self, metric: &'static str, us: &'static str) -> Ask {
        Ask { start: (metric, us), ..self }
    }

    const fn hint(self, hint: &'static str) -> Ask {
        Ask { hint, ..self }
    }

    const fn optional(self) -> Ask {
        Ask { optional: true, ..self }
    }

    const fn kept(self) -> Ask {
        Ask { kept: true, ..self }
    }

    const fn half(self) -> Ask {
        Ask { half: true, ..self }
    }

    const fn only_if(self, all: &'static [(&'static str, &'static [&'static str])]) -> Ask {
        Ask { only_if: all, ..self }
    }

    const fn given(self, given: fn(&Given) -> Option<f64>) -> Ask {
        Ask { given: Some(given), ..self }
    }

    /// The unit shown behind the field, if there is one.
    pub fn unit(&self, units: UnitSet) -> Option<&'static str> {
        match self.kind {
            Kind::Amount(measure, _) | Kind::List(measure, _) => Some(measure.unit(units).symbol),
            Kind::Number(_) | Kind::Choice(_) => None,
        }
    }
}

/// What comes of a sheet, in words.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Outcome {
    /// The answer, large; empty while something is missing.
    pub big: Vec<String>,
    /// What is missing, or why there is no answer.
    pub wait: Option<String>,
    /// How far off it may be.
    pub doubt: Option<String>,
    /// What to mind with just this answer.
    pub warn: Vec<String>,
    /// What else it says.
    pub small: Vec<String>,
    /// What it looks like.
    pub picture: Option<Drawing>,
}

impl Outcome {
    fn of(big: impl IntoIterator<Item = String>) -> Outcome {
        Outcome { big: big.into_iter().collect(), ..Outcome::default() }
    }

    fn small(mut self, words: impl Into<String>) -> Outcome {
        self.small.push(words.into());
        self
    }

    fn warn(mut self, words: impl Into<String>) -> Outcome {
        self.warn.push(words.into());
        self
    }

    fn doubt(mut self, words: impl Into<String>) -> Outcome {
        self.doubt = Some(words.into());
        self
    }

    fn picture(mut self, drawing: Drawing) -> Outcome {
        self.picture = Some(drawing);
        self
    }
}
