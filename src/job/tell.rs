//! An entry in words, for the record.
//!
//! May use: the job, entries, the guide. Must not: judge; what an entry leads to is the fold's.

use super::aftercare::{Exposure, Sort};
use super::air;
use super::entry::{AreaId, BUY, DAY_BEFORE, Entry, Fastener, Fixing, What, tidy};
use super::fold::Job;
use super::guide::guide;
use super::kinds::kind;
use super::materials::{Item, Measure};
use super::moment::day;
use super::product::Product;
use super::shed;
use super::thread_steps;

/// An entry as the record tells it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Told {
    /// What happened, a few words.
    pub head: String,
    /// The rest: reason, figures, text. May be empty.
    pub rest: String,
    /// Goes past a gate or leaves something out: shown so that it stands out.
    pub marked: bool,
}

/// Tells one entry.
pub fn tell(job: &Job, e: &Entry) -> Told {
    let plain = |head: String, rest: String| Told { head, rest, marked: false };
    let marked = |head: String, rest: String| Told { head, rest, marked: true };
    match &e.what {
        What::Opened { name, machine, seeds, .. } => plain(
            format!("Job opened: {name}"),
            format!("{}, {} areas", kind(machine).map_or(machine.as_str(), |k| k.name), seeds.len()),
        ),
        What::AreaAdded { name, .. } => plain(format!("Area added: {name}"), String::new()),
        What::AreaRenamed { name, .. } => plain(format!("Area renamed: {name}"), String::new()),
        What::AreaRemoved { area } => plain(format!("Area left out: {}", job.area_name(*area)), String::new()),
        What::Done { stage, areas } => plain(format!("{} done", stage.title()), self::areas(job, areas)),
        What::Skipped { stage, areas, reason } => {
            marked(format!("{} left out", stage.title()), format!("{}. {reason}", self::areas(job, areas)))
        }
        What::OpenedAgain { stage, areas, reason } => {
            marked(format!("{} to do again", stage.title()), format!("{}. {reason}", self::areas(job, areas)))
        }
        What::Ticked { stage, item, on } => {
            let check = guide(*stage).checks.iter().find(|c| c.id == item).map(|c| c.words.to_owned());
            let words = check.or_else(|| thread_steps::words(job, item)).unwrap_or_else(|| item.clone());
            plain(words, if *on { stage.title().into() } else { format!("{}: not so", stage.title()) })
        }
        What::MadeSafe { stage, point } => {
            let words = guide(*stage).safety.iter().find(|p| p.id == point).map_or(point.as_str(), |p| p.words);
            plain(format!("Made safe before {}", stage.title()), words.into())
        }
        What::WentOn { stage, because, reason, .. } => {
            marked(format!("Went on with {} all the same", stage.title()), format!("Although {because}. {reason}"))
        }
        What::Note { text, .. } => plain("Note".into(), text.clone()),
        What::Photo { stage, area, .. } => {
            plain("Photo".into(), area.map_or(stage.title().into(), |a| job.area_name(a).to_owned()))
        }
        What::Bagged { number, part, area, put, fasteners, plugs, screwed, coat, joint, .. } => plain(
            if *screwed { format!("Off, screws in place: {part}") } else { format!("Bag {number}: {part}") },
            dots(&[
                job.area_name(*area).to_owned(),
                list(fasteners),
                plugs.map_or(String::new(), |n| format!("plugs opened: {n}")),
                if *coat { "coat its edges and both faces".into() } else { String::new() },
                if *joint == Fixing::Plain { String::new() } else { joint.title().into() },
                put.clone(),
            ]),
        ),
        What::BagBack { bag, counted, plugs, short } => {
            let b = job.bags.iter().find(|b| b.id == *bag);
            let head = match b {
                Some(b) if b.screwed => "Part is back".into(),
                Some(b) => format!("Bag {} is back", b.number),
                None => "A bag is back".into(),
            };
            let count = |n: Option<u32>, what: &str| n.map_or(String::new(), |n| format!("{n} {what}"));
            let part = b.map_or(String::new(), |b| b.part.clone());
            let rest = [part, count(*counted, "fasteners"), count(*plugs, "plugs"), short.clone()];
            let rest = dots(&rest);
            Told { head, rest, marked: !short.is_empty() }
        }
        What::CoverOn { covering, place, with, arms, .. } => {
            let arms = if arms.is_empty() { String::new() } else { format!("arms at {arms}") };
            let rest = [place.clone(), with.clone(), arms];
            plain(format!("{} on", covering.title()), dots(&rest))
        }
        What::CoverOff { cover } => match job.covers.iter().find(|c| c.id == *cover) {
            Some(c) => plain(format!("{} off", c.cover.title()), c.place.clone()),
            None => plain("A cover came off".into(), String::new()),
        },
        What::Mixed { product, water_parts, concentrate_parts, water_ml, concentrate_ml, .. } => plain(
            format!("Mixed {product}"),
            format!(
                "{} L water and {} L concentrate ({water_parts} water to {concentrate_parts} concentrate)",
                water_ml / 1000.0,
                concentrate_ml / 1000.0
            ),
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
            plain("Reading".into(), words)
        }
        What::Wetted { areas, reason } => marked("Got wet".into(), format!("{}. {reason}", self::areas(job, areas))),
        What::Sum { sum, inputs, result } => plain(sum.clone(), format!("{result} ({inputs})")),
        What::Planned { .. } => plain("Plan kept".into(), String::new()),
        What::Product { snapshot } => plain(format!("In use: {}", snapshot.called()), of_product(snapshot)),
        What::ProductOut { product_id } => {
            let known = job.products.iter().find(|p| p.product.id == *product_id);
            plain("No longer in use".into(), known.map_or(String::new(), |p| p.product.called()))
        }
        What::Used { stage, item, amount, note, .. } => {
            let rest = [amount_of(item, *amount), stage.title().into(), note.clone()];
            plain(format!("Used: {}", item_title(item)), dots(&rest))
        }
        What::Worked { stage, minutes, hands } => {
            let hands = if *hands == 1 { "1 pair".to_owned() } else { format!("{hands} pairs") };
            plain(format!("Worked on {}", stage.title()), format!("{minutes:.0} min, {hands} of hands"))
        }
        What::Listed { list, item, on } => {
            let (list, words) = match list.as_str() {
                BUY => ("Shopping list", item_title(item)),
                DAY_BEFORE => {
                    let point = shed::DAY_BEFORE.iter().find(|p| p.id == item);
                    ("The day before", point.map_or(item.as_str(), |p| p.words))
                }
                other => (other, item.as_str()),
            };
            plain(words.into(), if *on { list.into() } else { format!("{list}: not so") })
        }
        What::SoapOn { area, minutes, place } => {
            let place = if place.is_empty() { String::new() } else { format!(", {place}") };
            plain("Soap on".into(), format!("{}{place}, {minutes} min at most", job.area_name(*area)))
        }
        What::Rinsed { stretch } => match job.stretches.iter().find(|s| s.id == *stretch) {
            Some(s) => match s.ran_over(e.at) {
                Some(over) => marked("Rinsed late".into(), format!("{}, {over:.1} min over", s.words(job))),
                None => plain("Rinsed".into(), s.words(job)),
            },
            None => plain("Rinsed".into(), String::new()),
        },
        What::Found { area, sort, text, metals } => {
            let rest = [job.area_name(*area).to_owned(), text.clone(), metals.join(" and ")];
            plain(format!("Found: {}", sort.title()), dots(&rest))
        }
        What::DealtWith { finding, how } => {
            let found = job.found.iter().find(|f| f.id == *finding);
            plain(found.map_or("Dealt with".into(), |f| format!("Dealt with: {}", f.words())), how.clone())
        }
        What::Arms { position } => plain(format!("Arms set to position {position}"), String::new()),
        What::BareSeen { stage, areas } => {
            plain(format!("Keep-bare list answered before {}", stage.title()), self::areas(job, areas))
        }
        What::ClockSet { name, minutes } => plain(format!("Clock set: {name}"), air::minutes(minutes.ceil() as i64)),
        What::ClockStopped { clock } => {
            let clock = job.clocks.iter().find(|c| c.id == *clock);
            plain("Clock stopped".into(), clock.map_or(String::new(), |c| c.name.clone()))
        }
        What::Claimed { stage, areas, on } => {
            plain(format!("{} {}", if *on { "On" } else { "Off" }, stage.title()), self::areas(job, areas))
        }
        What::Exposure { word, no_wash_days, no_hot_days, renew_months } => {
            let own = |n: &Option<u32>, what: &str| n.map_or(String::new(), |n| format!("{what} {n}"));
            let rest = [
                Exposure::of(word).map_or(word.as_str(), |e| e.title()).to_owned(),
                own(no_wash_days, "days without washing:"),
                own(no_hot_days, "days without hot wash:"),
                own(renew_months, "months to renewal:"),
            ];
            plain("How the machine lives".into(), dots(&rest))
        }
        What::Looked { sort, note } => {
            let title = Sort::of(sort).map_or(sort.as_str(), |s| s.title());
            plain(format!("Done: {title}"), note.clone())
        }
        What::SameMachine { .. } => plain("The same machine as in another job".into(), String::new()),
        What::Binned { on: true } => marked("Put in the bin".into(), String::new()),
        What::Binned { on: false } => plain("Taken out of the bin".into(), String::new()),
        What::Undone { .. } => plain("Taken back".into(), String::new()),
        What::Closed { left } if left.is_empty() => plain("Job closed".into(), String::new()),
        What::Closed { left } => marked(
            "Job closed, some points open".into(),
            left.iter().map(|l| format!("{}: {}", l.what, l.reason)).collect::<Vec<_>>().join("; "),
        ),
    }
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

/// A material's name; of one that this version does not know, its slug.
fn item_title(slug: &str) -> &str {
    Item::of_slug(slug).map_or(slug, |item| item.title())
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

/// Fasteners in words: "4 × M10 × 30 mm, 2 × clip".
pub fn list(fasteners: &[Fastener]) -> String {
    let one = |f: &Fastener| match f.length_mm {
        Some(mm) => format!("{} × {} × {mm} mm", f.count, f.size),
        None => format!("{} × {}", f.count, f.size),
    };
    fasteners.iter().map(one).collect::<Vec<_>>().join(", ")
}
