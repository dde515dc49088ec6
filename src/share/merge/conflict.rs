//! What two people did at once. The fold settles each (the later entry counts); the screen names it, because only the
//! people know which one is right.

use std::collections::BTreeSet;

use chrono::{DateTime, TimeDelta, Utc};
use uuid::Uuid;

use crate::job::entry::{AreaId, Entry, What};
use crate::job::fold::{Bag, Job};
use crate::job::log::Log;
use crate::job::stage::Stage;

/// Two readings nearer than this speak of the same air (common practice, no source).
pub const SAME_AIR_MIN: i64 = 10;

/// One of the two entries.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Side {
    /// The entry.
    pub entry: Uuid,
    /// When.
    pub at: DateTime<Utc>,
    /// Who; may be empty.
    pub by: String,
}

/// Something done on both phones. `ours` was on this phone, `theirs` came in.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Conflict {
    /// A stage finished on an area by two people.
    BothDone { stage: Stage, area: AreaId, ours: Side, theirs: Side },
    /// Two readings of the same air.
    TwoReadings { ours: Side, theirs: Side },
    /// Two bags of one number.
    BagNumber { number: u32, ours: Side, theirs: Side },
}

impl Conflict {
    /// In words for the screen. `when` prints a time as the screen does.
    pub fn words(&self, job: &Job, when: impl Fn(DateTime<Utc>) -> String) -> String {
        let who = |side: &Side| match side.by.as_str() {
            "" => "someone without a name".to_owned(),
            by => by.to_owned(),
        };
        let told = |side: &Side| format!("{} ({})", who(side), when(side.at));
        match self {
            Conflict::BothDone { stage, area, ours, theirs } => format!(
                "{} on {} was finished twice: by {} and by {}. The later one counts.",
                stage.title(),
                job.area_name(*area),
                told(ours),
                told(theirs)
            ),
            Conflict::TwoReadings { ours, theirs } => {
                let reading = |side: &Side| match job.readings.iter().find(|r| r.stamp.entry == side.entry) {
                    Some(r) => format!("{} °C by {}", r.air_c, told(side)),
                    None => told(side),
                };
                format!(
                    "Two readings within {SAME_AIR_MIN} minutes: {} and {}. The later one counts. Measure again if they \
                     disagree.",
                    reading(ours),
                    reading(theirs)
                )
            }
            Conflict::BagNumber { number, ours, theirs } => {
                let bag = |side: &Side| match job.bags.iter().find(|b| b.id == side.entry) {
                    Some(b) => format!("{} is {}", job.bag_label(b), b.part),
                    None => told(side),
                };
                format!("Two bags carry number {number}: {}, {}. Write that on the bags.", bag(ours), bag(theirs))
            }
        }
    }
}

/// What was done on both sides. `ours` and `theirs` are the ids each had before; what both had is settled already, and
/// what was taken back does not count. `log` is the log after the merge.
pub fn conflicts(log: &Log, ours: &BTreeSet<Uuid>, theirs: &BTreeSet<Uuid>) -> Vec<Conflict> {
    let undone = log.undone();
    let only = |mine: &BTreeSet<Uuid>, other: &BTreeSet<Uuid>| -> Vec<&Entry> {
        let counts = |e: &&Entry| mine.contains(&e.id) && !other.contains(&e.id) && !undone.contains(&e.id);
        log.entries().filter(counts).collect()
    };
    let (ours, theirs) = (only(ours, theirs), only(theirs, ours));
    let mut found = both_done(&ours, &theirs);
    found.extend(two_readings(&ours, &theirs));
    found.extend(bag_numbers(log.job(), &ours, &theirs));
    found
}

/// Without names nobody can tell two people from one.
fn two_people(a: &Entry, b: &Entry) -> bool {
    a.by.is_empty() || b.by.is_empty() || a.by != b.by
}

fn side(e: &Entry) -> Side {
    Side { entry: e.id, at: e.at, by: e.by.clone() }
}

/// The last time on each side, by stage and area.
fn both_done(ours: &[&Entry], theirs: &[&Entry]) -> Vec<Conflict> {
    let last = |entries: &[&Entry]| {
        let mut last = std::collections::BTreeMap::new();
        for e in entries {
            if let What::Done { stage, areas } = &e.what {
                last.extend(areas.iter().map(|a| ((*stage, *a), (*e).clone())));
            }
        }
        last
    };
    let (ours, theirs) = (last(ours), last(theirs));
    let pairs = ours.iter().filter_map(|(at, a)| Some((*at, a, theirs.get(at)?)));
    pairs
        .filter(|(_, a, b)| two_people(a, b))
        .map(|((stage, area), a, b)| Conflict::BothDone { stage, area, ours: side(a), theirs: side(b) })
        .collect()
}

/// For each of their readings our nearest one.
fn two_readings(ours: &[&Entry], theirs: &[&Entry]) -> Vec<Conflict> {
    let readings = |entries: &[&Entry]| -> Vec<Entry> {
        entries.iter().filter(|e| matches!(e.what, What::Reading { .. })).map(|e| (*e).clone()).collect()
    };
    let ours = readings(ours);
    let mut found = Vec::new();
    for b in readings(theirs) {
        let near = ours.iter().filter(|a| two_people(a, &b)).min_by_key(|a| (a.at - b.at).abs());
        if let Some(a) = near.filter(|a| (a.at - b.at).abs() <= TimeDelta::minutes(SAME_AIR_MIN)) {
            found.push(Conflict::TwoReadings { ours: side(a), theirs: side(&b) });
        }
    }
    found
}

/// The number stands on the bag itself: it clashes whoever wrote it.
fn bag_numbers(job: &Job, ours: &[&Entry], theirs: &[&Entry]) -> Vec<Conflict> {
    let bags = |entries: &[&Entry]| -> Vec<(Bag, Side)> {
        let of = |e: &&Entry| Some((job.bags.iter().find(|b| b.id == e.id)?.clone(), side(e)));
        entries.iter().filter_map(of).collect()
    };
    let theirs = bags(theirs);
    let mut found = Vec::new();
    for (a, ours) in bags(ours) {
        for (_, theirs) in theirs.iter().filter(|(b, _)| b.number == a.number) {
            found.push(Conflict::BagNumber { number: a.number, ours: ours.clone(), theirs: theirs.clone() });
        }
    }
    found
}
