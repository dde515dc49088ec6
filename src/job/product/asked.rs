//! Which figures a use asks for, in the order of a data sheet and in the words of a screen.
//!
//! May use: the units. Must not: hold a figure; [`Sheet::generic`] does.

use super::{DEFAULT_NOTE, Figure, Product, Sheet, Use};
use crate::sums::range::Field;
use crate::units::Measure::{self, Film, Hours, Minutes, PerArea, Percent, Temperature};
use crate::units::UnitSet;

use Part::{AirAndSteel, Amount, Drying, Vapour};

/// A part of the data sheet.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Part {
    /// How much of it an area takes.
    Amount,
    /// Limits of air, steel and the product itself.
    AirAndSteel,
    /// Flash-off, drying, cure.
    Drying,
    /// What its vapour does.
    Vapour,
}

impl Part {
    /// All of them.
    pub const ALL: [Part; 4] = [Part::Amount, Part::AirAndSteel, Part::Drying, Part::Vapour];

    /// The title on the screen.
    pub fn title(self) -> &'static str {
        match self {
            Part::Amount => "Amount",
            Part::AirAndSteel => "Air and steel",
            Part::Drying => "Drying",
            Part::Vapour => "Vapour and fire",
        }
    }
}

/// A figure as a screen asks for it.
#[derive(PartialEq, Debug)]
pub struct Asked {
    /// Its name in the store.
    pub name: &'static str,
    /// The question.
    pub label: &'static str,
    /// Where it stands.
    pub part: Part,
    /// Decides the unit; none for a bare number.
    pub measure: Option<Measure>,
    /// Worth knowing while one types it; may be empty.
    pub more: &'static str,
}

const fn ask(
    name: &'static str,
    label: &'static str,
    part: Part,
    measure: Option<Measure>,
    more: &'static str,
) -> Asked {
    Asked { name, label, part, measure, more }
}

static ASKED: [Asked; 19] = [
    ask("solids_pct", "Solids by volume", Amount, Some(Percent), ""),
    ask("dry_um", "Dry film wanted", Amount, Some(Film), "Resin film is thin, wax or oil film thick."),
    ask("loss_pct", "Share that does not land", Amount, Some(Percent), ""),
    ask("can_sprays_pct", "Share of a can that comes out", Amount, Some(Percent), ""),
    ask("use_l_per_m2", "Liquid as used, per area", Amount, Some(PerArea), ""),
    ask("water_parts", "Parts of water", Amount, None, ""),
    ask("concentrate_parts", "to parts of concentrate", Amount, None, ""),
    ask("product_least_c", "Product, lowest", AirAndSteel, Some(Temperature), ""),
    ask("product_most_c", "Product, highest", AirAndSteel, Some(Temperature), ""),
    ask("steel_least_c", "Steel and air, lowest", AirAndSteel, Some(Temperature), ""),
    ask("rh_most_pct", "Humidity, highest", AirAndSteel, Some(Percent), ""),
    ask("flash_off_min", "Flash-off between the passes", Drying, Some(Minutes), ""),
    ask("touch_dry_h", "Touch-dry after", Drying, Some(Hours), ""),
    ask("refit_h", "Refit after", Drying, Some(Hours), "Longer when colder than the line below."),
    ask("reference_c", "These hours hold at", Drying, Some(Temperature), ""),
    ask("cure_least_c", "Does not cure under", Drying, Some(Temperature), "May stay empty."),
    ask("flash_point_c", "Flash point", Vapour, Some(Temperature), "Mist burns well below it."),
    ask(
        "lel_pct",
        "Lower explosive limit (LEL)",
        Vapour,
        Some(Percent),
        "From the safety sheet; the lowest printed.",
    ),
    ask(
        "vapour_l_per_l",
        "Vapour from a litre, in litres",
        Vapour,
        None,
        "Any measure from the same measure of liquid.",
    ),
];

impl Sheet {
    /// The figures that a product of this use is asked for: those with a generic value, and a film's lowest cure
    /// temperature, which has none.
    ///
    /// # Example
    /// ```
    /// use coatwalk::job::product::{Sheet, Use};
    /// let names: Vec<_> = Sheet::asked(Use::Degreaser).map(|a| a.name).collect();
    /// assert_eq!(names, ["use_l_per_m2", "water_parts", "concentrate_parts"]);
    /// ```
    pub fn asked(used_as: Use) -> impl Iterator<Item = &'static Asked> {
        let generic = Sheet::generic(used_as);
        let film = matches!(used_as, Use::LiquidFilm | Use::AerosolFilm);
        ASKED.iter().filter(move |a| generic.figure(a.name).is_some() || film && a.name == "cure_least_c")
    }

    /// A figure by its name in the store.
    pub fn figure(&self, name: &str) -> Option<&Figure> {
        self.rows().into_iter().find(|r| r.0 == name).and_then(|r| r.3)
    }

    /// Puts a figure in by its name in the store, or takes it out. A name that is not known changes nothing.
    pub fn put(&mut self, name: &str, figure: Option<Figure>) {
        if let Some((_, slot)) = self.slots().into_iter().find(|(n, _)| *n == name) {
            *slot = figure;
        }
    }
}

impl Product {
    /// Takes a figure from the user's data sheet; none puts the default back.
    ///
    /// # Example
    /// ```
    /// use coatwalk::job::product::{Product, Use};
    /// let mut film = Product::generic(Use::LiquidFilm, uuid::Uuid::nil());
    /// film.own("solids_pct", Some(36.0));
    /// assert_eq!(film.sheet.figure("solids_pct").unwrap().note, "your data sheet");
    /// film.own("solids_pct", None);
    /// assert_eq!(film, Product::generic(Use::LiquidFilm, uuid::Uuid::nil()));
    /// ```
    pub fn own(&mut self, name: &str, likely: Option<f64>) {
        let was = self.sheet.figure(name).filter(|f| !f.default).cloned();
        let now = match (likely, was) {
            (None, _) => Sheet::generic(self.used_as).figure(name).cloned(),
            (Some(likely), Some(was)) => Some(Figure { likely, ..was }),
            (Some(likely), None) => Some(Figure::own(likely)),
        };
        self.sheet.put(name, now);
    }

    /// Takes the range of an own figure. A default keeps its own.
    pub fn range(&mut self, name: &str, low: Option<f64>, high: Option<f64>) {
        if let Some(was) = self.sheet.figure(name).filter(|f| !f.default).cloned() {
            self.sheet.put(name, Some(Figure { low, high, ..was }));
        }
    }
}

impl Asked {
    /// The range it is held to.
    pub fn field(&self) -> Field {
        let row = Sheet::default().rows().into_iter().find(|r| r.0 == self.name).map(|r| r.2);
        row.expect("a test compares the names with the sheet's")
    }

    /// What stands under the field: the default with its range and basis, and what is worth knowing.
    ///
    /// # Example
    /// ```
    /// use coatwalk::{job::product::{Sheet, Use}, units::UnitSet};
    /// let solids = Sheet::asked(Use::LiquidFilm).next().unwrap();
    /// assert_eq!(
    ///     solids.hint(Use::LiquidFilm, UnitSet::Metric),
    ///     "Default 40 (20 to 55), replace from your data sheet. From memory."
    /// );
    /// ```
    pub fn hint(&self, used_as: Use, set: UnitSet) -> String {
        let generic = Sheet::generic(used_as);
        let words = generic.figure(self.name).map(|g| self.default_words(g, set));
        [words.as_deref().unwrap_or_default(), self.more].join(" ").trim().to_owned()
    }

    fn default_words(&self, generic: &Figure, set: UnitSet) -> String {
        let shown = |v: f64| brief(self.in_units(v, set));
        let spread = match (generic.low, generic.high) {
            (Some(low), Some(high)) => format!(" ({} to {})", shown(low), shown(high)),
            _ => String::new(),
        };
        let basis = generic.note.trim_start_matches(DEFAULT_NOTE).trim().trim_matches(['(', ')']);
        let mut letters = basis.chars();
        let first = letters.next().map(|c| c.to_ascii_uppercase()).unwrap_or_default();
        let likely = shown(generic.likely);
        format!("Default {likely}{spread}, replace from your data sheet. {first}{}.", letters.as_str())
    }

    /// A value of the store in the user's units.
    pub fn in_units(&self, value: f64, set: UnitSet) -> f64 {
        match (self.field().range().unit, self.measure) {
            (Some(own), Some(measure)) => measure.unit(set).from_si(own.to_si(value)),
            _ => value,
        }
    }
}

/// Three digits, as short as they go.
pub(in crate::job) fn brief(value: f64) -> String {
    let size = value.abs().max(1e-9).log10().floor() as i32;
    let text = format!("{value:.*}", (2 - size).clamp(0, 6) as usize);
    match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.').to_owned(),
        false => text,
    }
}
