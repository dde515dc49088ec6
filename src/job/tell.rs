//! An entry in words: what happened in a few words ([`head`]), and the whole of it for the record ([`tell`]). The walk needs
//! only the first; the second stands in `tell/rest.rs` and is linked where the record is.
//!
//! May use: the job, entries, the guide. Must not: judge; what an entry leads to is the fold's.

mod rest;

use super::aftercare::Sort;
use super::entry::{BUY, DAY_BEFORE, Entry, Fastener, LABELS, What};
use super::fold::Job;
use super::guide::guide;
use super::materials::Item;
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
    Told { head: head(job, e), rest: rest::rest(job, e), marked: rest::marked(job, e) }
}

/// What happened, a few words.
pub fn head(job: &Job, e: &Entry) -> String {
    match &e.what {
        What::Opened { name, .. } => format!("Job opened: {name}"),
        What::AreaAdded { name, .. } => format!("Area added: {name}"),
        What::AreaRenamed { name, .. } => format!("Area renamed: {name}"),
        What::AreaRemoved { area } => format!("Area left out: {}", job.area_name(*area)),
        What::Done { stage, .. } => format!("{} done", stage.title()),
        What::Skipped { stage, .. } => format!("{} left out", stage.title()),
        What::OpenedAgain { stage, .. } => format!("{} to do again", stage.title()),
        What::Ticked { stage, item, .. } => {
            let check = guide(*stage).checks.iter().find(|c| c.id == item).map(|c| c.words.to_owned());
            check.or_else(|| thread_steps::words(job, item)).unwrap_or_else(|| item.clone())
        }
        What::MadeSafe { stage, .. } => format!("Made safe before {}", stage.title()),
        What::WentOn { stage, .. } => format!("Went on with {} all the same", stage.title()),
        What::Note { .. } => "Note".into(),
        What::Photo { .. } => "Photo".into(),
        What::Voice { .. } => "Voice note".into(),
        What::Bagged { part, screwed: true, .. } => format!("Off, screws in place: {part}"),
        What::Bagged { number, part, .. } => format!("Bag {number}: {part}"),
        What::BagBack { bag, .. } => match job.bags.iter().find(|b| b.id == *bag) {
            Some(b) if b.screwed => "Part is back".into(),
            Some(b) => format!("Bag {} is back", b.number),
            None => "A bag is back".into(),
        },
        What::CoverOn { covering, .. } => format!("{} on", covering.title()),
        What::CoverOff { cover } => match job.covers.iter().find(|c| c.id == *cover) {
            Some(c) => format!("{} off", c.cover.title()),
            None => "A cover came off".into(),
        },
        What::Mixed { product, .. } => format!("Mixed {product}"),
        What::Reading { .. } => "Reading".into(),
        What::Wetted { .. } => "Got wet".into(),
        What::Sum { sum, .. } => sum.clone(),
        What::Planned { .. } => "Plan kept".into(),
        What::Product { snapshot } => format!("In use: {}", snapshot.called()),
        What::ProductOut { .. } => "No longer in use".into(),
        What::Used { item, .. } => format!("Used: {}", item_title(item)),
        What::Worked { stage, .. } => format!("Worked on {}", stage.title()),
        What::Listed { list, item, .. } => match list.as_str() {
            BUY => item_title(item).into(),
            DAY_BEFORE => shed::DAY_BEFORE.iter().find(|p| p.id == item).map_or(item.as_str(), |p| p.words).into(),
            LABELS => {
                let bag = job.bags.iter().find(|b| b.id.to_string() == *item);
                format!("Label printed: {}", bag.map_or(item.as_str(), |b| b.part.as_str()))
            }
            _ => item.clone(),
        },
        What::SoapOn { .. } => "Soap on".into(),
        What::Rinsed { stretch } => match job.stretches.iter().find(|s| s.id == *stretch) {
            Some(s) if s.ran_over(e.at).is_some() => "Rinsed late".into(),
            _ => "Rinsed".into(),
        },
        What::Found { sort, .. } => format!("Found: {}", sort.title()),
        What::DealtWith { finding, .. } => {
            let found = job.found.iter().find(|f| f.id == *finding);
            found.map_or("Dealt with".into(), |f| format!("Dealt with: {}", f.words()))
        }
        What::Arms { position } => format!("Arms set to position {position}"),
        What::BareSeen { stage, .. } => format!("Keep-bare list answered before {}", stage.title()),
        What::ClockSet { name, .. } => format!("Clock set: {name}"),
        What::ClockStopped { .. } => "Clock stopped".into(),
        What::Claimed { stage, on, .. } => format!("{} {}", if *on { "On" } else { "Off" }, stage.title()),
        What::Exposure { .. } => "How the machine lives".into(),
        What::Looked { sort, .. } => format!("Done: {}", Sort::of(sort).map_or(sort.as_str(), |s| s.title())),
        What::SameMachine { .. } => "The same machine as in another job".into(),
        What::Binned { on: true } => "Put in the bin".into(),
        What::Binned { on: false } => "Taken out of the bin".into(),
        What::Undone { .. } => "Taken back".into(),
        What::Closed { left } if left.is_empty() => "Job closed".into(),
        What::Closed { .. } => "Job closed, some points open".into(),
    }
}

/// A material's name; of one that this version does not know, its slug.
fn item_title(slug: &str) -> &str {
    Item::of_slug(slug).map_or(slug, |item| item.title())
}

/// Fasteners in words: "4 × M10 × 30 mm, 2 × clip".
pub fn list(fasteners: &[Fastener]) -> String {
    let one = |f: &Fastener| match f.length_mm {
        Some(mm) => format!("{} × {} × {mm} mm", f.count, f.size),
        None => format!("{} × {}", f.count, f.size),
    };
    fasteners.iter().map(one).collect::<Vec<_>>().join(", ")
}
