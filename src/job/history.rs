//! What was done to a machine over the years, job by job: days, stages, litres, hours, money.
//!
//! May use: jobs, heads, materials. Must not: reckon what nobody logged; what has no price is counted, not guessed.

use std::collections::BTreeMap;

use chrono::{DateTime, TimeZone, Utc};
use uuid::Uuid;

use super::aftercare::{self, Due, Sort};
use super::fold::{Cell, Job, Used};
use super::head::Head;
use super::materials::{Item, Measure};
use super::product::Use;
use super::stage::Stage;

/// What one job took, or several together.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Took {
    /// Stages done on at least one area.
    pub stages: usize,
    /// Litres of film logged as used.
    pub film_l: f64,
    /// Cans of film logged as used.
    pub cans: f64,
    /// Time on the clock, min.
    pub minutes: f64,
    /// The same times pairs of hands, min.
    pub hand_minutes: f64,
    /// What the materials logged cost, as far as their packs have a price.
    pub money: Option<f64>,
    /// Entries of materials without a price.
    pub unpriced: usize,
}

impl Took {
    /// What a job took, from what was logged in it.
    pub fn of(job: &Job) -> Took {
        let done = |s: &Stage| job.areas().any(|a| matches!(a.cell(*s), Cell::Done(_)));
        let used = |item: Item| job.used.iter().filter(|u| u.item == item.slug()).map(|u| u.amount).sum();
        let costs: Vec<Option<f64>> = job.used.iter().map(|u| cost(job, u)).collect();
        let priced: Vec<f64> = costs.iter().flatten().copied().collect();
        Took {
            stages: Stage::ALL.iter().filter(|s| done(s)).count(),
            film_l: used(Item::FilmLiquid),
            cans: used(Item::FilmCans),
            minutes: job.worked.iter().map(|w| w.minutes).sum(),
            hand_minutes: job.worked.iter().map(|w| w.minutes * f64::from(w.hands)).sum(),
            money: (!priced.is_empty()).then(|| priced.iter().sum()),
            unpriced: costs.len() - priced.len(),
        }
    }

    /// Both together.
    pub fn and(self, other: Took) -> Took {
        Took {
            stages: self.stages + other.stages,
            film_l: self.film_l + other.film_l,
            cans: self.cans + other.cans,
            minutes: self.minutes + other.minutes,
            hand_minutes: self.hand_minutes + other.hand_minutes,
            money: match (self.money, other.money) {
                (None, None) => None,
                (a, b) => Some(a.unwrap_or(0.0) + b.unwrap_or(0.0)),
            },
            unpriced: self.unpriced + other.unpriced,
        }
    }
}

/// What an amount cost by the best price of its product's packs; none without a price.
fn cost(job: &Job, used: &Used) -> Option<f64> {
    let item = Item::of_slug(&used.item)?;
    let used_as = match item {
        Item::FilmLiquid => Use::LiquidFilm,
        Item::FilmCans => Use::AerosolFilm,
        Item::Degreaser => Use::Degreaser,
        Item::Neutraliser => Use::Neutraliser,
        _ => return None,
    };
    let by_id = used.product_id.and_then(|id| job.products.iter().find(|p| p.product.id == id));
    let product = by_id.map(|p| &p.product).or_else(|| job.product(used_as))?;
    let sound = product.sizes.iter().filter(|s| s.size_ml > 0.0);
    let unit = |s: &super::product::Size| match item.measure() {
        Measure::Litres => s.price.map(|p| p / (s.size_ml / 1000.0)),
        // A can is a piece.
        _ => s.price,
    };
    let price = sound.filter_map(unit).filter(|p| p.is_finite() && *p >= 0.0).min_by(f64::total_cmp)?;
    Some(used.amount * price)
}

/// When a job ran.
pub fn ran(job: &Job) -> Option<(DateTime<Utc>, DateTime<Utc>)> {
    let opened = job.opened?;
    let end = job.closed.as_ref().map(|(s, _)| s.at).or(job.last_at);
    Some((opened, end.unwrap_or(opened).max(opened)))
}

/// The jobs by machine: those that say so, and those with the same kind and name, however it is written. In the order in
/// which they came; the jobs of a machine too.
pub fn by_machine(heads: &[Head]) -> Vec<Vec<Head>> {
    let named = |h: &Head| format!("{}/{}", h.machine, h.name.trim().to_ascii_lowercase());
    // Each job points at one of its group; the roots stand for the machines.
    let mut root: Vec<usize> = (0..heads.len()).collect();
    fn find(root: &mut [usize], mut at: usize) -> usize {
        while root[at] != at {
            root[at] = root[root[at]];
            at = root[at];
        }
        at
    }
    let place: BTreeMap<Uuid, usize> = heads.iter().enumerate().map(|(i, h)| (h.job, i)).collect();
    let mut first: BTreeMap<String, usize> = BTreeMap::new();
    for (i, h) in heads.iter().enumerate() {
        let twin = *first.entry(named(h)).or_insert(i);
        for other in [Some(twin), h.same_as.and_then(|id| place.get(&id).copied())].into_iter().flatten() {
            let (a, b) = (find(&mut root, i), find(&mut root, other));
            root[a.max(b)] = a.min(b);
        }
    }
    let mut groups: BTreeMap<usize, Vec<Head>> = BTreeMap::new();
    for (i, h) in heads.iter().enumerate() {
        groups.entry(find(&mut root, i)).or_default().push(h.clone());
    }
    groups.into_values().collect()
}

/// The aftercare of one machine, over all its jobs.
#[derive(Clone, PartialEq, Debug)]
pub struct MachineDue {
    /// The job to open for it: the one of its jobs with aftercare that was written in last.
    pub job: Uuid,
    /// As that job is called.
    pub name: String,
    /// All its jobs.
    pub jobs: Vec<Uuid>,
    /// What is due, waited for, comes next; most overdue first.
    pub due: Vec<Due>,
}

/// The aftercare machine by machine, the most overdue first; machines without a film, and jobs in the bin, have none.
///
/// A line comes once a machine: on the latest day that one of its jobs gives it, since each look and each coat puts it off.
pub fn due<Z: TimeZone>(heads: &[Head], now: DateTime<Z>) -> Vec<MachineDue> {
    let kept: Vec<Head> = heads.iter().filter(|h| h.binned_ms.is_none()).cloned().collect();
    let one = |group: Vec<Head>| {
        let newest = group.iter().filter(|h| !h.care.is_empty()).max_by_key(|h| h.last_ms)?;
        let mut days: BTreeMap<Sort, DateTime<Utc>> = BTreeMap::new();
        for care in group.iter().flat_map(|h| &h.care) {
            let Some(sort) = Sort::of(&care.sort) else { continue };
            let at = days.entry(sort).or_insert(care.at);
            *at = care.at.max(*at);
        }
        let due = aftercare::stand(days, now.clone());
        let jobs = group.iter().map(|h| h.job).collect();
        Some(MachineDue { job: newest.job, name: newest.name.clone(), jobs, due })
    };
    let mut all: Vec<MachineDue> = by_machine(&kept).into_iter().filter_map(one).collect();
    let late = |m: &MachineDue| m.due.iter().filter(|d| !d.sort.waits()).map(|d| d.late_days).max();
    all.sort_by_key(|m| std::cmp::Reverse(late(m)));
    all
}

impl MachineDue {
    /// One of its jobs is this one.
    pub fn has(&self, job: Uuid) -> bool {
        self.jobs.contains(&job)
    }
}
