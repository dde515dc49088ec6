//! What stands before a bag instead of a stage.
//!
//! May use: the job, the thread steps. Must not: change a job, reach for a clock.

use chrono::{DateTime, Utc};
use uuid::Uuid;

use super::{Hold, Refusal, Remedy, Weight, gone_past, holds};
use crate::job::entry::AreaId;
use crate::job::fold::{Bag, Job};
use crate::job::guide::Basis;
use crate::job::stage::Stage::Refit;
use crate::job::thread_steps;

/// A quality gate before a bag.
pub struct BagGate {
    pub id: &'static str,
    /// The rule in words, as shown and as documented.
    pub rule: &'static str,
    pub basis: Basis,
    check: fn(&Job, &Bag) -> Option<(String, Remedy)>,
}

/// The gate that orders the bags by when they were filled; it is the softer one.
pub const BAG_ORDER: &str = "bag-order";

/// Every gate before a bag, in the order in which they are named on the screen.
pub static BAG_GATES: &[BagGate] = &[
    BagGate {
        id: "behind",
        rule: "a part that sits behind another goes back before it",
        basis: Basis::CommonPractice,
        check: behind,
    },
    BagGate {
        id: BAG_ORDER,
        rule: "bags go back in reverse order: last off goes on first",
        basis: Basis::CommonPractice,
        check: order,
    },
    BagGate {
        id: "thread-steps",
        rule: "the thread steps of its fasteners are ticked; fasteners without a size in figures have none",
        basis: Basis::CommonPractice,
        check: steps,
    },
];

/// What speaks against putting one bag back: everything against Refit on its area but its own bag, and the gates of
/// the bag itself.
pub fn bag_holds(job: &Job, bag: Uuid, now: DateTime<Utc>) -> Vec<Hold> {
    let Some(b) = job.bags.iter().find(|b| b.id == bag) else { return Vec::new() };
    let mut found = holds(job, Refit, &[b.area], now);
    found.retain(|h| h.gate != "bags-back");
    found.extend(BAG_GATES.iter().filter_map(|g| {
        let (because, remedy) = (g.check)(job, b).filter(|_| !gone_past(job, g.id, Refit, b.area))?;
        Some(Hold { gate: g.id, weight: Weight::Quality, because, remedy })
    }));
    found
}

fn behind(job: &Job, b: &Bag) -> Option<(String, Remedy)> {
    let first = job.bags_to_go_back().into_iter().find(|other| other.id != b.id && other.behind.contains(&b.id))?;
    Some((format!("{} sits behind it and is not back yet", first.words()), Remedy::Bag(first.number)))
}

fn order(job: &Job, b: &Bag) -> Option<(String, Remedy)> {
    let last = *job.bags_to_go_back().first()?;
    let because = format!("{} came off later and may be in the way", last.words());
    (last.id != b.id).then_some((because, Remedy::Bag(last.number)))
}

fn steps(job: &Job, b: &Bag) -> Option<(String, Remedy)> {
    let open: Vec<_> = thread_steps::of(b).iter().filter(|s| !thread_steps::ticked(job, b.id, s)).collect();
    let first = open.first()?;
    let because = match open.len() {
        1 => format!("a thread step of {} is not ticked: {}", b.words(), first.words),
        n => format!("{n} thread steps of {} are not ticked, first: {}", b.words(), first.words),
    };
    Some((because, Remedy::ThreadSteps(b.id)))
}

/// Fasteners and plugs counted back against those that came off.
pub(super) fn counted(
    job: &Job,
    bag: Uuid,
    counted: Option<u32>,
    plugs: Option<u32>,
    short: &str,
) -> Result<(), Refusal> {
    let Some(b) = job.bags.iter().find(|b| b.id == bag) else {
        return Err(Refusal::Words("There is no such bag.".into()));
    };
    if !short.trim().is_empty() {
        return Ok(());
    }
    let differ = |what: &str, off: u32, on: u32| {
        Err(Refusal::Words(format!("{off} {what} came off, {on} went back. Find the difference, or say why.")))
    };
    match (b.fasteners_in(), counted, b.plugs.unwrap_or(0), plugs.or(b.plugs_back).unwrap_or(0)) {
        (Some(off), Some(on), ..) if off != on => differ("fasteners", off, on),
        (.., off, on) if off != on => differ("plugs", off, on),
        _ => Ok(()),
    }
}

/// The last bag filled on an area, or put back there.
pub(super) fn last_bag(job: &Job, area: AreaId) -> Option<Uuid> {
    let of_bag = |b: &Bag| b.back.as_ref().map_or(b.id, |s| s.entry.max(b.id));
    job.bags.iter().filter(|b| b.area == area).map(of_bag).max()
}
