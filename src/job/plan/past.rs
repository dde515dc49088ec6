//! What the user's other jobs really took, against what would have been estimated for them.

use std::collections::BTreeMap;

use super::Setup;
use crate::job::fold::{Cell, Job};
use crate::job::hours::{self, Work};
use crate::job::machine;
use crate::job::materials::{self, Inputs, Item};
use crate::job::stage::Stage;

/// For each job that logged it: what it really took over the likely estimate. As [`hours::work`] and
/// [`materials::list`] take it.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Past {
    /// Of the hours.
    pub hours: Vec<f64>,
    /// Of each material.
    pub items: BTreeMap<Item, Vec<f64>>,
}

impl Past {
    /// Both together.
    pub fn and(mut self, other: &Past) -> Past {
        self.hours.extend(&other.hours);
        for (item, ratios) in &other.items {
            self.items.entry(*item).or_default().extend(ratios);
        }
        self
    }
}

/// Learns from other jobs; the one being planned is not to be among them.
///
/// Each is estimated anew from its own setup and products, without history. A stage counts when it is finished, by the
/// share of it that was done and not left out; a material counts when every stage it was logged on is finished. The
/// invented example, and a job whose plan can't be read, teach nothing.
///
/// ```
/// use coatwalk::job::plan::{Past, past};
/// assert_eq!(past(&[]), Past::default());
/// ```
pub fn past(jobs: &[Job]) -> Past {
    let mut past = Past::default();
    for job in jobs.iter().filter(|j| !j.demo) {
        let (setup, faults) = Setup::of(job);
        if (job.used.is_empty() && job.worked.is_empty()) || !faults.is_empty() {
            continue;
        }
        let figures = setup.machine.figures(&machine::places_of_job(job));
        let work = hours::work(&figures, &setup.how, &[], setup.seed);
        past.hours.extend(hours_of(job, &setup, &work));
        let Some(today) = job.last_at.map(|at| at.date_naive()) else { continue };
        let list = materials::list(&Inputs {
            figures: &figures,
            work: &work,
            how: &setup.how,
            day_hours: setup.week.hours,
            products: &job.products_chosen(),
            supplies: &setup.supplies,
            past: &BTreeMap::new(),
            cover: setup.cover,
            today,
            seed: setup.seed,
        });
        for line in &list.lines {
            if let Some(ratio) = ratio_of(job, &work, line) {
                past.items.entry(line.item).or_default().push(ratio);
            }
        }
    }
    past
}

/// Minutes worked over minutes estimated, on the stages that have both.
fn hours_of(job: &Job, setup: &Setup, work: &Work) -> Option<f64> {
    let (mut worked, mut estimated) = (0.0, 0.0);
    for stage in Stage::ALL {
        let mine: Vec<_> = job.worked.iter().filter(|w| w.stage == stage).collect();
        let Some(share) = done_share(job, work, stage).filter(|_| !mine.is_empty()) else { continue };
        // With other hands than planned: as if those planned had done it.
        let planned = hours::power(stage, setup.how.hands);
        worked += mine.iter().map(|w| w.minutes * hours::power(stage, w.hands) / planned).sum::<f64>();
        estimated += work.of(stage).minutes.likely * share;
    }
    ratio(worked, estimated)
}

fn ratio_of(job: &Job, work: &Work, line: &materials::Line) -> Option<f64> {
    let mine: Vec<_> = job.used.iter().filter(|u| u.item == line.item.slug()).collect();
    let shares: Option<Vec<f64>> = mine.iter().map(|u| done_share(job, work, u.stage)).collect();
    let share = shares?.into_iter().reduce(f64::max)?;
    ratio(mine.iter().map(|u| u.amount).sum(), line.need.likely * share)
}

fn ratio(real: f64, estimated: f64) -> Option<f64> {
    (real > 0.0 && estimated > 0.0).then(|| real / estimated)
}

/// Which share of a finished stage's work was done; none while it is open, or when all of it was left out.
fn done_share(job: &Job, work: &Work, stage: Stage) -> Option<f64> {
    if job.count(stage).open > 0 {
        return None;
    }
    let shares = &work.of(stage).shares;
    let done = job.areas().zip(shares).filter(|(a, _)| matches!(a.cell(stage), Cell::Done(_)));
    Some(done.map(|(_, share)| share).sum()).filter(|share| *share > 0.0)
}
