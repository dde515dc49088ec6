//! A touch-up: a short job on a machine that has its film, on a few areas, with only the stages it needs.
//!
//! May use: the job, entries. Must not: take a safety point away; those of the stages that remain stand as ever.

use uuid::Uuid;

use super::entry::{AreaId, AreaSeed, What};
use super::fold::{Cell, Job};
use super::stage::Stage;

/// Why a stage is left out, as the log says it.
pub const NOT_NEEDED: &str = "not needed in a touch-up";

/// The stages that a touch-up mostly does without (common practice, no source). Both passes stay: the wait of the film
/// counts from the second.
pub const LEFT_OUT: [Stage; 5] = [Stage::TakeOff, Stage::Cover, Stage::Dewax, Stage::Neutralise, Stage::Refit];

/// The stages that no touch-up does without.
pub const ALWAYS: [Stage; 6] =
    [Stage::Survey, Stage::Dry, Stage::Mask, Stage::FirstPass, Stage::SecondPass, Stage::AirOut];

/// The first entries of a touch-up of this machine: opened with these areas, linked to the job before, and the stages left
/// out. `ids` gives an id for each area.
///
/// None when no area of the machine is among `areas`.
pub fn entries(job: &Job, areas: &[AreaId], left_out: &[Stage], mut ids: impl FnMut() -> Uuid) -> Option<Vec<What>> {
    let mine = job.areas().filter(|a| areas.contains(&a.id));
    let seeds: Vec<AreaSeed> =
        mine.map(|a| AreaSeed { id: AreaId(ids()), of: a.of.clone(), name: a.name.clone() }).collect();
    if seeds.is_empty() {
        return None;
    }
    let all: Vec<AreaId> = seeds.iter().map(|s| s.id).collect();
    let (name, machine) = (job.name.clone(), job.machine.clone());
    let mut whats = vec![What::Opened { name, machine, seeds, demo: job.demo }];
    whats.extend(job.id.map(|as_job| What::SameMachine { as_job }));
    let skipped = Stage::ALL.into_iter().filter(|s| left_out.contains(s) && !ALWAYS.contains(s));
    whats.extend(skipped.map(|stage| What::Skipped { stage, areas: all.clone(), reason: NOT_NEEDED.into() }));
    Some(whats)
}

/// A job that was opened as a touch-up.
pub fn is(job: &Job) -> bool {
    let left_out = |c: &Cell| matches!(c, Cell::Skipped(_, why) if why == NOT_NEEDED);
    job.same_as.is_some() && job.areas().any(|a| Stage::ALL.iter().any(|s| left_out(a.cell(*s))))
}

/// The areas that the last look found worn, as far as they are still there; empty when nothing was found.
pub fn wanted(job: &Job) -> Vec<AreaId> {
    let Some(last) = job.looked.iter().max_by_key(|l| l.stamp.at) else { return Vec::new() };
    last.areas.iter().copied().filter(|id| job.areas().any(|a| a.id == *id)).collect()
}
