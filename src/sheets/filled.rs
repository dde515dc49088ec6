//! What was typed into a sheet, read and checked.

use super::words;
use super::{Ask, Kind, Outcome, Sheet};
use crate::sums::range::{Field, check};
use crate::sums::{NotPossible, OutOfRange, SumError, air};
use crate::units::{self, Def, Gallons, Measure, ParseError, Quantity, UnitSet};

/// What the open job knows already.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Given {
    /// The last reading of the air, °C.
    pub air_c: Option<f64>,
    /// Its relative humidity, %.
    pub rh_percent: Option<f64>,
    /// The coldest steel, °C.
    pub steel_c: Option<f64>,
    /// Every reading with all three, in order of time; the hour of the last one is 0.
    pub readings: Vec<air::Reading>,
    /// Hours since the last reading.
    pub age_hours: Option<f64>,
}

/// Why there is no answer yet.
#[derive(Clone, Debug, PartialEq)]
pub enum Stop {
    /// This question has no answer yet.
    Missing(&'static str),
    /// Something typed is not right; it is said beside its field.
    Bad,
    /// The sum has no answer.
    Sum(SumError),
}

impl From<SumError> for Stop {
    fn from(e: SumError) -> Stop {
        Stop::Sum(e)
    }
}
impl From<NotPossible> for Stop {
    fn from(e: NotPossible) -> Stop {
        Stop::Sum(e.into())
    }
}
impl From<OutOfRange> for Stop {
    fn from(e: OutOfRange) -> Stop {
        Stop::Sum(e.into())
    }
}

/// What is wrong with something typed.
#[derive(Clone, Debug, PartialEq)]
pub struct Trouble {
    /// What would be right.
    pub words: String,
    /// "gal" was typed: US or imperial has to be asked.
    pub which_gallon: bool,
}

/// An answer to one question.
#[derive(Clone, Debug, PartialEq)]
enum Value {
    Empty,
    Bad(Trouble),
    /// In SI base units, or bare.
    Si(Vec<f64>),
    Choice(&'static str),
}

/// A sheet with what was typed into it.
#[derive(Clone, Debug, PartialEq)]
pub struct Filled {
    /// The sheet.
    pub sheet: &'static Sheet,
    /// The user's units.
    pub units: UnitSet,
    /// What the job knows.
    pub given: Given,
    values: Vec<Value>,
}

impl Filled {
    /// A sheet as it opens.
    pub fn start(sheet: &'static Sheet, units: UnitSet, given: Given) -> Filled {
        let texts: Vec<String> = sheet.asks.iter().map(|a| a.start_text(units, &given)).collect();
        Filled::read(sheet, units, given, &texts, None)
    }

    /// A sheet with a text for each question, in their order.
    pub fn read(
        sheet: &'static Sheet,
        units: UnitSet,
        given: Given,
        texts: &[String],
        gallons: Option<Gallons>,
    ) -> Filled {
        let gallons = units.gallons().or(gallons);
        let values = sheet.asks.iter().zip(texts).map(|(ask, text)| ask.read(text, units, gallons)).collect();
        Filled { sheet, units, given, values }
    }

    /// Answers one question.
    ///
    /// # Panics
    /// When the sheet has no such question.
    pub fn type_in(&mut self, id: &str, text: &str, gallons: Option<Gallons>) {
        let at = self.at(id);
        self.values[at] = self.sheet.asks[at].read(text, self.units, self.units.gallons().or(gallons));
    }

    /// Is this question asked, as the choices stand?
    pub fn asks(&self, place: usize) -> bool {
        let only_if = self.sheet.asks[place].only_if;
        only_if.iter().all(|(choice, ids)| self.asks(self.at(choice)) && ids.contains(&self.choice(choice)))
    }

    /// What is wrong with the answer to a question, if anything is.
    pub fn trouble(&self, place: usize) -> Option<&Trouble> {
        match &self.values[place] {
            Value::Bad(trouble) => Some(trouble),
            _ => None,
        }
    }

    /// What comes of it, or what is missing.
    pub fn answer(&self) -> Outcome {
        let wait = |words: String| Outcome { wait: Some(words), ..Outcome::default() };
        match (self.sheet.answer)(self) {
            Ok(outcome) => outcome,
            Err(Stop::Missing(id)) => {
                let label = self.sheet.asks[self.at(id)].label;
                wait(format!("Still to fill in: {}.", words::small_first(label)))
            }
            Err(Stop::Bad) => wait("Put right what is marked below.".into()),
            Err(Stop::Sum(e)) => wait(words::sentence(&words::error(&e, self.units))),
        }
    }

    /// What was typed, in a line for the record.
    pub fn inputs(&self) -> String {
        let said = self.sheet.asks.iter().zip(&self.values).enumerate().filter(|(i, _)| self.asks(*i));
        let words = said.filter_map(|(_, (ask, value))| {
            let figures = match (value, ask.kind) {
                (Value::Choice(id), Kind::Choice(options)) => {
                    options(self.units).into_iter().find(|o| o.0 == *id)?.1.to_owned()
                }
                (Value::Si(all), Kind::Amount(measure, _) | Kind::List(measure, _)) => {
                    let unit = measure.unit(self.units);
                    all.iter().map(|v| unit.print(*v)).collect::<Vec<_>>().join(" ")
                }
                (Value::Si(all), _) => words::bare(all[0]),
                _ => return None,
            };
            Some(format!("{}: {figures}", words::small_first(ask.label)))
        });
        words.collect::<Vec<_>>().join(", ")
    }

    fn at(&self, id: &str) -> usize {
        self.sheet.asks.iter().position(|a| a.id == id).unwrap_or_else(|| panic!("{} asks no {id}", self.sheet.slug))
    }

    fn si(&self, id: &'static str) -> Result<Option<&[f64]>, Stop> {
        match &self.values[self.at(id)] {
            Value::Si(all) => Ok(Some(all)),
            Value::Bad(_) => Err(Stop::Bad),
            Value::Empty | Value::Choice(_) => Ok(None),
        }
    }

    /// A quantity that may be left out.
    pub(super) fn opt<Q: Quantity>(&self, id: &'static str) -> Result<Option<Q>, Stop> {
        debug_assert!(self.measure(id).is_some_and(|m| m.unit(self.units).kind == Q::KIND), "{id}");
        Ok(self.si(id)?.map(|all| Q::from_si(all[0])))
    }

    /// A quantity.
    pub(super) fn get<Q: Quantity>(&self, id: &'static str) -> Result<Q, Stop> {
        self.opt(id)?.ok_or(Stop::Missing(id))
    }

    /// Several quantities.
    pub(super) fn list<Q: Quantity>(&self, id: &'static str) -> Result<Vec<Q>, Stop> {
        let all = self.si(id)?.ok_or(Stop::Missing(id))?;
        Ok(all.iter().map(|v| Q::from_si(*v)).collect())
    }

    /// A bare number that may be left out; a share comes in %.
    pub(super) fn opt_number(&self, id: &'static str) -> Result<Option<f64>, Stop> {
        let percent = self.measure(id) == Some(Measure::Percent);
        Ok(self.si(id)?.map(|all| if percent { units::PERCENT.def().from_si(all[0]) } else { all[0] }))
    }

    /// A bare number; a share comes in %.
    pub(super) fn number(&self, id: &'static str) -> Result<f64, Stop> {
        self.opt_number(id)?.ok_or(Stop::Missing(id))
    }

    /// The id chosen.
    pub(super) fn choice(&self, id: &str) -> &'static str {
        match self.values[self.at(id)] {
            Value::Choice(chosen) => chosen,
            _ => "",
        }
    }

    fn measure(&self, id: &str) -> Option<Measure> {
        match self.sheet.asks[self.at(id)].kind {
            Kind::Amount(measure, _) | Kind::List(measure, _) => Some(measure),
            Kind::Number(_) | Kind::Choice(_) => None,
        }
    }

    /// A quantity in words, in the user's unit for that measure.
    pub(super) fn say<Q: Quantity>(&self, measure: Measure, quantity: Q) -> String {
        debug_assert_eq!(measure.unit(self.units).kind, Q::KIND, "{measure:?}");
        measure.unit(self.units).print(quantity.si())
    }
}

impl Ask {
    /// What stands there when the sheet opens.
    pub fn start_text(&self, units: UnitSet, given: &Given) -> String {
        let (measure, field) = match self.kind {
            Kind::Choice(options) => return options(units).first().map_or("", |o| o.0).into(),
            Kind::Number(_) => return self.start.0.into(),
            Kind::Amount(measure, field) | Kind::List(measure, field) => (measure, field),
        };
        let unit = measure.unit(units);
        if let (Some(value), Some(own)) = (self.given.and_then(|read| read(given)), field.range().unit) {
            let shown = unit.print(own.to_si(value));
            return shown.strip_suffix(unit.symbol).unwrap_or(&shown).trim_end().into();
        }
        // Imperial users start from the US text only where the unit is no metric one either.
        let metric = unit == measure.unit(UnitSet::Metric);
        if metric { self.start.0.into() } else { self.start.1.into() }
    }

    fn read(&self, text: &str, units: UnitSet, gallons: Option<Gallons>) -> Value {
        match self.kind {
            Kind::Choice(options) => {
                let all = options(units);
                let chosen = all.iter().find(|o| o.0 == text).or(all.first());
                chosen.map_or(Value::Empty, |o| Value::Choice(o.0))
            }
            Kind::Number(field) => one(text, field, units::PERCENT.def(), true, gallons),
            Kind::Amount(measure, field) => one(text, field, measure.unit(units), false, gallons),
            Kind::List(measure, field) => several(text, field, measure.unit(units), gallons),
        }
    }
}

fn several(text: &str, field: Field, unit: &'static Def, gallons: Option<Gallons>) -> Value {
    let mut all = Vec::new();
    // "42, 38 45; 51": a comma before a space parts, one before a digit is a decimal mark.
    for part in text.split(|c: char| c.is_whitespace() || c == ';').map(|p| p.trim_end_matches(',')) {
        match one(part, field, unit, false, gallons) {
            Value::Si(v) => all.extend(v),
            Value::Bad(trouble) => return Value::Bad(trouble),
            Value::Empty | Value::Choice(_) => {}
        }
    }
    if all.is_empty() { Value::Empty } else { Value::Si(all) }
}

fn one(text: &str, field: Field, unit: &'static Def, bare: bool, gallons: Option<Gallons>) -> Value {
    let bad = |e: String, which_gallon| Value::Bad(Trouble { words: words::sentence(&e), which_gallon });
    match units::parse_as(text, unit, gallons) {
        Err(ParseError::Empty) => Value::Empty,
        Err(e) => bad(e.to_string(), matches!(e, ParseError::Ambiguous { .. })),
        Ok((value, typed)) => {
            let si = typed.to_si(value);
            let (own, kept) = match field.range().unit {
                Some(own) if !bare => (own.from_si(si), si),
                // A share of a blend: the table has it without a unit.
                None if !bare => (unit.from_si(si), si),
                _ => (value, value),
            };
            match check(field, own) {
                Ok(_) => Value::Si(vec![kept]),
                Err(e) if bare => bad(e.to_string(), false),
                Err(e) => bad(e.words_as(unit), false),
            }
        }
    }
}
