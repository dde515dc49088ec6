//! The rest of an entry in words: reason, figures, text.
//!
//! May use: as [`super`]. Must not: be called by the walk, whose download has no room for it.

use super::list;
use crate::job::aftercare::Exposure;
use crate::job::air;
use crate::job::entry::{AreaId, BUY, DAY_BEFORE, Entry, Fixing, LABELS, What, tidy};
use crate::job::fold::Job;
use crate::job::guide::guide;
use crate::job::kinds::kind;
use crate::job::materials::{Item, Measure};
use crate::job::moment::day;
use crate::job::product::Product;
use crate::job::stage::Stage;

/// Goes past a gate, leaves something out, or came too late or short.
pub fn marked(job: &Job, e: &Entry) -> bool {
    match &e.what {
        What::Skipped { .. } | What::OpenedAgain { .. } | What::WentOn { .. } | What::Wetted { .. } => true,
        What::BagBack { short, .. } => !short.is_empty(),
        What::Rinsed { stretch } => job.stretches.iter().any(|s| s.id == *stretch && s.ran_over(e.at).is_some()),
        What::Closed { left } => !left.is_empty(),
        What::Binned { on } => *on,
        _ => false,
    }
}

/// Everything behind the head; may be empty.
pub fn rest(job: &Job, e: &Entry) -> String {
    match &e.what {
        What::Opened { machine, seeds, .. } => {
            format!("{}, {} areas", kind(machine).map_or(machine.as_str(), |k| k.name), seeds.len())
        }
        What::Done { areas, .. } | What::BareSeen { areas, .. } | What::Claimed { areas, .. } => {
            self::areas(job, areas)
        }
        What::Skipped { areas, reason, .. }
        | What::OpenedAgain { areas, reason, .. }
        | What::Wetted { areas, reason } => {
            format!("{}. {reason}", self::areas(job, areas))
        }
        What::Ticked { stage, on, .. } => {
            if *on {
                stage.title().into()
            } else {
                format!("{}: not so", stage.title())
            }
        }
        What::MadeSafe { stage, point } => {
            guide(*stage).safety.iter().find(|p| p.id == point).map_or(point.as_str(), |p| p.words).into()
        }
        What::WentOn { because, reason, .. } => format!("Although {because}. {reason}"),
        What::Note { text, .. } => text.clone(),
        What::Photo { stage, area, .. } => place(job, *stage, *area),
        What::Voice { stage, area, seconds, .. } => format!("{} · {seconds} s", place(job, *stage, *area)),
        What::Bagged { area, put, fasteners, plugs, coat, joint, .. } => dots(&[
            job.area_name(*area).to_owned(),
            list(fasteners),
            plugs.map_or(String::new(), |n| format!("plugs opened: {n}")),
            if *coat { "coat its edges and both faces".into() } else { String::new() },
            if *joint == Fixing::Plain { String::new() } else { joint.title().into() },
            put.clone(),
        ]),
        What::BagBack { bag, counted, plugs, short } => {
            let count = |n: Option<u32>, what: &str| n.map_or(String::new(), |n| format!("{n} {what}"));
            let part = job.bags.iter().find(|b| b.id == *bag).map_or(String::new(), |b| b.part.clone());
            dots(&[part, count(*counted, "fasteners"), count(*plugs, "plugs"), short.clone()])
        }
        What::CoverOn { place, with, arms, .. } => {
            let arms = if arms.is_empty() { String::new() } else { format!("arms at {arms}") };
            dots(&[place.clone(), with.clone(), arms])
        }
        What::CoverOff { cover } => {
            job.covers.iter().find(|c| c.id == *cover).map_or(String::new(), |c| c.place.clone())
        }
        What::Mixed { water_parts, concentrate_parts, water_ml, concentrate_ml, .. } => format!(
            "{} L water and {} L concentrate ({water_parts} water to {concentrate_parts} concentrate)",
            water_ml / 1000.0,
            concentrate_ml / 1000.0
        ),
        What::Reading { air_c, rh_pct, steel_c, product_c } => {
            let mut words = format!("Air {air_c} °C");
            if let Some(rh) = rh_pct {
                words += &format!(", {rh} % RH");
            }
            if let Some(steel) = steel_c {
                words += &format!(", steel {steel} °C");
            }
            if let Some(product) = product_c {
                words += &format!(", product {product} °C");
            }
            words
        }
        What::Sum { inputs, result, .. } => format!("{result} ({inputs})"),
        What::Product { snapshot } => of_product(snapshot),
        What::ProductOut { product_id } => {
            let known = job.products.iter().find(|p| p.product.id == *product_id);
            known.map_or(String::new(), |p| p.product.called())
        }
        What::Used { stage, item, amount, note, .. } => {
            dots(&[amount_of(item, *amount), stage.title().into(), note.clone()])
        }
        What::Worked { minutes, hands, .. } => {
            let hands = if *hands == 1 { "1 pair".to_owned() } else { format!("{hands} pairs") };
            format!("{minutes:.0} min, {hands} of hands")
        }
        What::Listed { list, on, .. } => {
            let list = match list.as_str() {
                BUY => "Shopping list",
                DAY_BEFORE => "The day before",
                LABELS => "Labels",
                other => other,
            };
            if *on { list.into() } else { format!("{list}: not so") }
        }
        What::SoapOn { area, minutes, place } => {
            let place = if place.is_empty() { String::new() } else { format!(", {place}") };
            format!("{}{place}, {minutes} min at most", job.area_name(*area))
        }
        What::Rinsed { stretch } => match job.stretches.iter().find(|s| s.id == *stretch) {
            Some(s) => match s.ran_over(e.at) {
                Some(over) => format!("{}, {over:.1} min over", s.words(job)),
                None => s.words(job),
            },
            None => String::new(),
        },
        What::Found { area, text, metals, .. } => {
            dots(&[job.area_name(*area).to_owned(), text.clone(), metals.join(" and ")])
        }
        What::DealtWith { how, .. } => how.clone(),
        What::ClockSet { minutes, .. } => air::minutes(minutes.ceil() as i64),
        What::ClockStopped { clock } => {
            job.clocks.iter().find(|c| c.id == *clock).map_or(String::new(), |c| c.name.clone())
        }
        What::Exposure { word, no_wash_days, no_hot_days, renew_months } => {
            let own = |n: &Option<u32>, what: &str| n.map_or(String::new(), |n| format!("{what} {n}"));
            dots(&[
                Exposure::of(word).map_or(word.as_str(), |e| e.title()).to_owned(),
                own(no_wash_days, "days without washing:"),
                own(no_hot_days, "days without hot wash:"),
                own(renew_months, "months to renewal:"),
            ])
        }
        What::Looked { areas, note, .. } => {
            let names = match areas.is_empty() {
                true => String::new(),
                false => format!("touch up: {}", self::areas(job, areas)),
            };
            dots(&[names, note.clone()])
        }
        What::Closed { left } => {
            left.iter().map(|l| format!("{}: {}", l.what, l.reason)).collect::<Vec<_>>().join("; ")
        }
        What::AreaAdded { .. }
        | What::AreaRenamed { .. }
        | What::AreaRemoved { .. }
        | What::Planned { .. }
        | What::Arms { .. }
        | What::SameMachine { .. }
        | What::Binned { .. }
        | What::Undone { .. } => String::new(),
    }
}

/// Where something was kept: the area, else the stage.
fn place(job: &Job, stage: Stage, area: Option<AreaId>) -> String {
    area.map_or(stage.title(), |a| job.area_name(a)).into()
}

/// What is not empty, with dots between.
fn dots(parts: &[String]) -> String {
    let mut all = String::new();
    for part in parts.iter().filter(|p| !p.is_empty()) {
        if !all.is_empty() {
            all += " · ";
        }
        all += part;
    }
    all
}

/// How much, with its unit. Measured amounts to two figures, from a hundred on whole: no dipstick is better.
fn amount_of(slug: &str, amount: f64) -> String {
    let unit = match Item::of_slug(slug).map(Item::measure) {
        Some(Measure::Litres) => " L",
        Some(Measure::SquareMetres) => " m²",
        Some(Measure::Metres) => " m",
        Some(Measure::Pieces) | None => return format!("{}", tidy(amount)),
    };
    match amount {
        a if a < 0.095 => format!("{a:.3}{unit}"),
        a if a < 0.995 => format!("{a:.2}{unit}"),
        a if a < 9.95 => format!("{a:.1}{unit}"),
        a => format!("{a:.0}{unit}"),
    }
}

/// What it is for, its batch and its date.
fn of_product(product: &Product) -> String {
    let mut words = product.used_as.title().to_owned();
    if !product.batch.is_empty() {
        words += &format!(", batch {}", product.batch);
    }
    if let Some(expires) = product.expires {
        words += &format!(", use by {}", day::write(expires));
    }
    words
}

/// Areas in words: all of them, one or two by name, else how many.
fn areas(job: &Job, ids: &[AreaId]) -> String {
    match ids {
        _ if ids.len() > 1 && job.areas().all(|a| ids.contains(&a.id)) => "Whole machine".into(),
        [one] => job.area_name(*one).into(),
        [one, two] => format!("{} and {}", job.area_name(*one), job.area_name(*two)),
        many => format!("{} areas", many.len()),
    }
}
