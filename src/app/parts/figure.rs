//! A figure of the plan: typed in the user's units, held to its range, kept when the field is left.
//!
//! May use: [`crate::units`], the ranges of the sums. Must not: reckon. What can't be read changes nothing and is answered
//! beside the field.

use std::sync::Arc;

use leptos::prelude::*;

use super::ask::sentence;
use super::field::{Draft, Field};
use crate::app::session::use_session;
use crate::device::window;
use crate::sums::range::{self, check};
use crate::units::{Def, Measure, PERCENT, ParseError, UnitSet, parse_as};

/// What is asked.
#[derive(Clone)]
pub struct Figure {
    /// For tests, the label and the draft.
    pub id: String,
    pub label: String,
    /// Its range; values go in and out in the range's own unit.
    pub field: range::Field,
    /// Decides the unit it is typed in; none for the range's own unit.
    pub measure: Option<Measure>,
    /// A default and where it comes from, or an example.
    pub hint: String,
}

/// The field of a figure. `start` is what is kept now, none when it is left to its default; `take` gets what was typed,
/// each time it can be read; `left` is called when the field is left.
pub fn figure(
    asked: Figure,
    start: Option<f64>,
    take: impl Fn(Option<f64>) + Send + Sync + 'static,
    left: impl Fn() + Send + Sync + 'static,
) -> AnyView {
    let session = use_session();
    let (set, said) = session.prefs.with_untracked(|p| (p.units, p.units.gallons().or(p.gallons)));
    // A range without a unit of its own holds for the metric one.
    let own = asked.field.range().unit.or(asked.measure.map(|m| m.unit(UnitSet::Metric)));
    let unit: Option<&'static Def> = asked.measure.map(|m| m.unit(set)).or(own);
    let into_unit = move |v: f64| match (own, unit) {
        (Some(own), Some(unit)) => unit.from_si(own.to_si(v)),
        _ => v,
    };
    let shown = start.map(|v| short(into_unit(v))).unwrap_or_default();
    let draft = Draft::new(key(&asked.id), shown.clone());
    let read = move |text: &str| -> Result<Option<f64>, String> {
        if text == shown {
            // Not typed: what is shown is rounded, what is kept is not.
            return Ok(start);
        }
        match parse_as(text, unit.unwrap_or(PERCENT.def()), said) {
            Err(ParseError::Empty) => Ok(None),
            Err(e) => Err(sentence(&e.to_string())),
            Ok((typed, in_unit)) => {
                let value = own.map_or(typed, |own| own.from_si(in_unit.to_si(typed)));
                let words = |e: range::OutOfRange| sentence(&unit.map_or(e.to_string(), |u| e.words_as(u)));
                check(asked.field, value).map(Some).map_err(words)
            }
        }
    };
    let read = Arc::new(read);
    let known = RwSignal::new(start);
    let settle = {
        let read = read.clone();
        move |text: &str| {
            let answer = read(text);
            if let Ok(value) = answer
                && known.get_untracked() != value
            {
                known.set(value);
                take(value);
            }
            answer.is_ok()
        }
    };
    let settle = Arc::new(settle);
    let typed = settle.clone();
    Effect::new(move || {
        typed(&draft.get());
    });
    let leave = Arc::new(move || {
        // A field that goes with its screen is left too, but its signals are gone by then: what was typed is taken.
        let there = known.try_get_untracked().is_some();
        if there && settle(&draft.peek()) {
            // Kept by whoever asked; only what can't be read stays a draft.
            draft.settle();
        }
        left();
    });
    // One engine tells of no change when the value was set by the page while one typed.
    let gone = leave.clone();
    let error = Signal::derive(move || read(&draft.get()).err());
    let symbol = unit.map(|u| u.symbol.to_owned());
    view! {
        <div on:change=move |_| leave() on:focusout=move |_| gone()>
            <Field label=asked.label id=asked.id draft unit=Signal::stored(symbol) error hint=Signal::stored(Some(asked.hint)) number=true/>
        </div>
    }
    .into_any()
}

/// Drops what is half typed in the figure with this id on this screen.
pub fn forget(id: &str) {
    Draft::new(key(id), "").clear();
}

/// What is half typed belongs to one job, one screen and one set of units.
fn key(id: &str) -> String {
    let session = use_session();
    let (job, set) = (session.peek(|l| l.job().id), session.prefs.with_untracked(|p| p.units));
    let place = window().location().hash().unwrap_or_default();
    format!("{place}/{id}/{job:?}/{set:?}")
}

/// Four significant digits, as short as they go.
pub fn short(value: f64) -> String {
    let size = value.abs().max(1e-9).log10().floor() as i32;
    let places = (3 - size).clamp(0, 6) as usize;
    let text = format!("{value:.places$}");
    match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.').to_owned(),
        false => text,
    }
}
