//! What the job really took: sums of what was logged against the estimate, the film that so many litres made, and what
//! the next estimate would be.
//!
//! May use: the job, [`super::materials`], [`super::hours`], [`super::plan`]. Must not: call a film good. Litres over
//! area are an average; edges and undersides have less.

use super::fold::{Cell, Job};
use super::hours;
use super::machine::Figures;
use super::materials::{self, Inputs, Item, List};
use super::plan::{Past, past};
use super::product::{Figure, Product};
use super::stage::Stage;
use crate::sums::band::{self, Band, Learnt, by, over};
use crate::sums::range::{Field, check};
use crate::sums::{Answer, film};
use crate::units::{LITRE, MICROMETRE, SQUARE_METRE};

/// The stage that a material mostly goes into (common practice, no source).
pub fn stage_of(item: Item) -> Stage {
    match item {
        Item::FilmLiquid | Item::Cartridges => Stage::SecondPass,
        Item::FilmCans => Stage::FirstPass,
        Item::Neutraliser => Stage::Neutralise,
        Item::Paper | Item::Tape | Item::Foil => Stage::Mask,
        Item::Bags => Stage::TakeOff,
        Item::CoverBags => Stage::Cover,
        Item::Rags => Stage::Wipe,
        Item::Degreaser | Item::Water | Item::Gloves | Item::Brushes | Item::Pads => Stage::Degrease,
    }
}

/// A material used.
#[derive(Clone, PartialEq, Debug)]
pub struct Taken {
    /// Which.
    pub item: Item,
    /// Together, in its measure.
    pub amount: f64,
    /// In so many entries.
    pub entries: usize,
    /// As estimated for the whole job, if it was.
    pub need: Option<Band>,
    /// Every stage it was logged on is finished: it teaches the next estimate.
    pub teaches: bool,
}

/// The materials logged as used, in the order of the list.
pub fn taken(job: &Job, list: &List) -> Vec<Taken> {
    let all = Item::ALL.into_iter().filter_map(|item| {
        let mine: Vec<_> = job.used.iter().filter(|u| u.item == item.slug()).collect();
        (!mine.is_empty()).then(|| Taken {
            item,
            amount: mine.iter().map(|u| u.amount).sum(),
            entries: mine.len(),
            need: list.line(item).map(|l| l.need),
            teaches: mine.iter().all(|u| job.count(u.stage).open == 0),
        })
    });
    all.collect()
}

/// Time worked on a stage.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Spent {
    /// Which.
    pub stage: Stage,
    /// On the clock, min.
    pub minutes: f64,
    /// The estimate for the whole stage, min.
    pub planned: Band,
    /// The stage is finished.
    pub finished: bool,
}

/// The stages with time logged, in the order of the work.
pub fn times(job: &Job, work: &hours::Work) -> Vec<Spent> {
    let all = Stage::ALL.into_iter().filter_map(|stage| {
        let mine: Vec<_> = job.worked.iter().filter(|w| w.stage == stage).collect();
        (!mine.is_empty()).then(|| Spent {
            stage,
            minutes: mine.iter().map(|w| w.minutes).sum(),
            planned: work.of(stage).minutes,
            finished: job.count(stage).open == 0,
        })
    });
    all.collect()
}

/// The film that the litres logged made.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Achieved {
    /// Litres of liquid film logged.
    pub litres: f64,
    /// The area they went on, m².
    pub m2: Band,
    /// The second pass is done on that area; else it is all of the machine.
    pub passed: bool,
    /// Dry film, µm.
    pub um: Band,
    /// Dry film wanted, µm.
    pub wanted: Band,
}

impl Achieved {
    /// How it stands to what is wanted.
    pub fn against(&self) -> &'static str {
        match (self.um.likely, self.wanted) {
            (um, wanted) if um < wanted.low => "Thinner than wanted on average.",
            (um, wanted) if um > wanted.high => "Thicker than wanted on average: it stays soft longer.",
            _ => "On average within what is wanted.",
        }
    }
}

/// The average dry film: litres × solids × what lands ÷ area. None while no liquid film is logged or no area is known.
///
/// `product` is the liquid film with its figures settled.
///
/// # Errors
/// A figure outside its range.
pub fn achieved(job: &Job, figures: &Figures, product: &Product, seed: u64) -> Option<Answer<Achieved>> {
    let slug = Item::FilmLiquid.slug();
    let litres: f64 = job.used.iter().filter(|u| u.item == slug).map(|u| u.amount).sum();
    let done = |id| job.area(id).is_some_and(|a| matches!(a.cell(Stage::SecondPass), Cell::Done(_)));
    let passed: Vec<_> = figures.areas.iter().filter(|a| a.id.is_some_and(done)).collect();
    let sum = |f: fn(&Band) -> f64| passed.iter().map(|a| f(&a.m2)).sum();
    let m2 = match passed.is_empty() {
        true => figures.m2,
        false => Band { low: sum(|b| b.low), likely: sum(|b| b.likely), high: sum(|b| b.high) },
    };
    if litres <= 0.0 || m2.likely <= 0.0 {
        return None;
    }
    let sheet = &product.sheet;
    let of = |f: &Option<Figure>| f.as_ref().map_or(Band::sure(0.0), Figure::band);
    let (solids, loss) = (of(&sheet.solids_pct), of(&sheet.loss_pct));
    let reckon = || {
        let litres = check(Field::UsedVolume, litres)?;
        let likely = film::achieved(LITRE.of(litres), SQUARE_METRE.of(m2.likely), solids.likely, loss.likely)?;
        let spread = band::product(&[by(solids.times(0.01)), by(loss.rest_of_percent()), over(m2)], seed)?;
        // The spread of the inputs round the sum itself.
        let um = spread.times(MICROMETRE.get(likely) / spread.likely);
        Ok(Achieved { litres, m2, passed: !passed.is_empty(), um, wanted: of(&sheet.dry_um) })
    };
    Some(reckon())
}

/// How this job moves the next estimate.
#[derive(Clone, PartialEq, Debug)]
pub struct Shift {
    /// The material; none for the hours, which are in minutes.
    pub item: Option<Item>,
    /// As estimated without this job.
    pub before: Band,
    /// With it.
    pub after: Band,
    /// Where that comes from, in words.
    pub from: String,
}

/// What the next job of the same size would be estimated at. Empty while nothing of this job counts.
///
/// `inputs` and `others` are those of this job's own list and hours: what other jobs took.
pub fn shifts(job: &Job, inputs: &Inputs, list: &List, others: &Past) -> Vec<Shift> {
    let mine = past(std::slice::from_ref(job));
    let mut all = others.clone();
    all.hours.extend(&mine.hours);
    for (item, ratios) in &mine.items {
        all.items.entry(*item).or_default().extend(ratios);
    }
    let mut shifts = Vec::new();
    if !mine.hours.is_empty() {
        let next = hours::work(inputs.figures, inputs.how, &all.hours, inputs.seed);
        let from = Learnt::words(&next.learnt);
        shifts.push(Shift { item: None, before: inputs.work.total(), after: next.total(), from });
    }
    let next = materials::list(&Inputs { past: &all.items, ..*inputs });
    for item in mine.items.keys() {
        if let Some((before, after)) = list.line(*item).zip(next.line(*item)) {
            shifts.push(Shift {
                item: Some(*item),
                before: before.need,
                after: after.need,
                from: after.from.clone(),
            });
        }
    }
    shifts
}
