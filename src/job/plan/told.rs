//! The plan in plain words: the answer on top of the screen, and all of it as text for paper and messages.

use std::collections::BTreeMap;

use chrono::{DateTime, NaiveDate, TimeZone, Utc};

use super::wall::{clock, date, length, lengths, moment, near, not_before};
use super::{Doing, Plan};
use crate::job::materials::{self, Item, List, Show};
use crate::units::SQUARE_METRE;

/// The answer, a line each; none where there is nothing to say.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Told {
    /// "likely 4.1 L, 1.8 to 9.9 L".
    pub film: Option<String>,
    /// "likely 4, 2 to 7".
    pub cans: Option<String>,
    /// Work still to be done.
    pub work: String,
    /// When it is coated, and from when parts go back.
    pub dates: String,
    /// What the list costs, from the user's own prices.
    pub cost: Option<String>,
}

/// The answer of a plan.
pub fn answer<Z: TimeZone>(plan: &Plan, list: &List, show: &Show, now: DateTime<Utc>, zone: &Z) -> Told {
    let need = |item: Item| {
        let line = list.line(item).filter(|l| l.need.high > 0.0)?;
        Some(line.need_words(show))
    };
    let left = plan.work_left_min;
    Told {
        film: need(Item::FilmLiquid),
        cans: need(Item::FilmCans),
        work: if left.high > 0.0 { lengths(left) } else { "none left".into() },
        dates: dates(plan, now, zone),
        cost: list.cost.map(|cost| {
            let each = list.cost_per_m2.map(|c| {
                let one = SQUARE_METRE.get(show.area.of(1.0));
                format!(", {:.2} for each {}", c * one, show.area.symbol())
            });
            let without = match list.unpriced.len() {
                0 => String::new(),
                n => format!("; {n} without a price"),
            };
            format!("{cost:.2}{}{without}", each.unwrap_or_default())
        }),
    }
}

fn dates<Z: TimeZone>(plan: &Plan, now: DateTime<Utc>, zone: &Z) -> String {
    let coated = match plan.coated {
        Some(at) if at > now => format!("Coated about {}", moment(near(at), now, zone)),
        Some(at) => format!("Coated {}", moment(at, now, zone)),
        None => "When it is coated can't be said".into(),
    };
    let refit = match plan.earliest_refit {
        Some(at) if at > now => format!(", refit from {}", moment(not_before(at), now, zone)),
        Some(_) => ", aired out".into(),
        None if plan.coated.is_some() => ", refit can't be planned".into(),
        None => String::new(),
    };
    format!("{coated}{refit}.")
}

/// The whole plan as plain lines, with the same figures as on the screen.
pub fn text<Z: TimeZone>(name: &str, plan: &Plan, list: &List, show: &Show, now: DateTime<Utc>, zone: &Z) -> String {
    let told = answer(plan, list, show, now, zone);
    let area = show.area.print(SQUARE_METRE.of(plan.figures.m2.likely));
    let mut lines = vec![
        format!("Plan: {name}"),
        format!("Estimates, as of {}.", moment(now, DateTime::<Utc>::MIN_UTC, zone)),
        String::new(),
        told.dates,
        format!("Work left: {}.", told.work),
    ];
    lines.extend(told.film.map(|w| format!("Film, liquid: {w}.")));
    lines.extend(told.cans.map(|w| format!("Film, cans: {w}.")));
    lines.extend(told.cost.map(|w| format!("Cost: {w}.")));
    lines.push(format!("Machine: about {area}, {} areas.", plan.figures.areas.len()));
    if !plan.finished.is_empty() {
        let names: Vec<_> = plan.finished.iter().map(|(s, _)| s.title()).collect();
        lines.push(format!("Done: {}.", names.join(", ")));
    }
    for (day, blocks) in by_day(plan, zone) {
        lines.extend([String::new(), date(day)]);
        lines.extend(blocks);
    }
    lines.extend([String::new(), materials::text(list, show)]);
    if !plan.faults.is_empty() {
        lines.extend([String::new(), "What made no sense".into()]);
        lines.extend(plan.faults.iter().map(|f| format!("- {}", f.line())));
    }
    lines.extend([
        String::new(),
        "Before the first can: no flame, no spark, phone outside, doors open, mask on. Data sheets, the machine's \
         manual and local codes go first."
            .into(),
    ]);
    lines.join("\n")
}

/// A line a block, under the day it begins on.
fn by_day<Z: TimeZone>(plan: &Plan, zone: &Z) -> BTreeMap<NaiveDate, Vec<String>> {
    let mut days = BTreeMap::<_, Vec<String>>::new();
    for block in &plan.blocks {
        let lasts = length((block.end - block.start).num_minutes() as f64);
        let words = match block.doing {
            Doing::Work => format!("{}, {lasts}", block.stage.title()),
            Doing::Wait(wait) => {
                let until = moment(not_before(block.end), block.start, zone);
                format!("wait: {}, {lasts}, until {until}", wait.title())
            }
        };
        let day = block.start.with_timezone(zone).date_naive();
        days.entry(day).or_default().push(format!("- {} {words}", clock(block.start, zone)));
    }
    days
}
