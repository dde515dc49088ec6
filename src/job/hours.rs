//! Minutes of work for each stage, from what there is to do and who does it.
//!
//! The baseline is one practised person on a compact wheel loader (common practice, no source): Survey 25, Take off 60,
//! Cover 25, Wipe 12, Dewax 40, Degrease 100, Neutralise 30, Dry 20, Mask 110 of which glass 90, First pass 60,
//! Second pass 75, Refit 75: ten and a half hours. Wash, Dry and passes grow with the area, Take off and Refit with the
//! parts, Mask with glass, rods and lamps, Cover with the openings, Survey with the number of areas, Mend with what the
//! survey found. Waits are not work: [`super::plan`] has them.
//!
//! May use: [`super::machine`], [`crate::sums::band`], serde. Must not: reach for a clock.

use serde::{Deserialize, Serialize};

use super::kinds::kind;
use super::machine::{Fault, Figures};
use super::stage::Stage;
use super::surface;
use crate::sums::band::{self, Band, Factor, JOB_SCATTER_LN, Learnt, by};
use crate::sums::range::{Field, check};

/// The kind whose minutes are known.
const BASELINE: &str = "compact-wheel-loader";
/// Minutes of one practised person on it, by stage (common practice, no source); Mend is by the survey.
const BASELINE_MIN: [f64; 15] = [25., 60., 25., 12., 40., 100., 30., 20., 0., 110., 60., 75., 0., 75., 0.];
/// Of Mask, the glass.
const GLASS_MIN: f64 = 90.0;
/// How far a practised person is off the baseline.
const PACE: Band = Band::of([0.85, 1.0, 1.2]);
/// A first job takes so many times as long (common practice, no source).
pub const FIRST_JOB: Band = Band::of([1.3, 1.6, 2.0]);
/// The wash stages of a filthy machine take so many times as long (common practice, no source).
pub const FILTHY: Band = Band::of([1.5, 2.0, 3.0]);
/// Degreasing takes this much longer on a compact loader when the wipe is left out, min (common practice, no source).
pub const SKIPPED_WIPE_MIN: f64 = 60.0;
/// Taping a lamp over instead of taking it off, min (common practice, no source).
pub const TAPE_LAMP_MIN: f64 = 3.0;
/// A second pair of hands does so much of the first (common practice, no source).
pub const SECOND_HANDS: f64 = 0.8;
/// No more hands than these find room round one machine.
pub const MOST_HANDS: u32 = 4;

/// Who works and how. This is also the stored shape.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
#[serde(default)]
pub struct How {
    /// Pairs of hands.
    pub hands: u32,
    /// Nobody here has done it before.
    pub first_job: bool,
    /// The machine is caked.
    pub filthy: bool,
    /// Left out: wiping grease off before the wash.
    pub skip_wipe: bool,
    /// Lamps taped over instead of taken off.
    pub lamps_taped: u32,
}

impl Default for How {
    /// One practised person, a clean machine, nothing left out.
    fn default() -> How {
        How { hands: 1, first_job: false, filthy: false, skip_wipe: false, lamps_taped: 0 }
    }
}

/// One stage's work.
#[derive(Clone, PartialEq, Debug)]
pub struct StageWork {
    /// The stage.
    pub stage: Stage,
    /// On the clock, with all hands, min.
    pub minutes: Band,
    /// Which share of it each area is, in the machine's order; they add up to 1.
    pub shares: Vec<f64>,
}

/// All stages' work.
#[derive(Clone, PartialEq, Debug)]
pub struct Work {
    /// In the order of the work.
    pub stages: Vec<StageWork>,
    /// Of Mask, the glass, min.
    pub glass: Band,
    /// What past jobs did to it.
    pub learnt: Learnt,
    /// What made no sense.
    pub faults: Vec<Fault>,
}

impl Work {
    /// All stages together, min.
    pub fn total(&self) -> Band {
        let sum = |f: fn(&Band) -> f64| self.stages.iter().map(|s| f(&s.minutes)).sum();
        Band { low: sum(|b| b.low), likely: sum(|b| b.likely), high: sum(|b| b.high) }
    }

    /// One stage.
    pub fn of(&self, stage: Stage) -> &StageWork {
        &self.stages[stage.index()]
    }
}

/// One part off and back on, min: Take off and Refit of the baseline, by its number of parts.
pub fn off_and_back_min() -> f64 {
    let parts: usize = kind(BASELINE).map_or(1, |k| k.areas.iter().map(|a| a.parts.len()).sum());
    (BASELINE_MIN[Stage::TakeOff.index()] + BASELINE_MIN[Stage::Refit.index()]) / parts.max(1) as f64
}

/// Stages that a filthy machine makes longer.
fn washes(stage: Stage) -> bool {
    matches!(stage, Stage::Wipe | Stage::Dewax | Stage::Degrease | Stage::Neutralise)
}

/// Stages that more hands do not shorten: there is one gun, and nobody else belongs in the spray zone.
fn one_person(stage: Stage) -> bool {
    matches!(stage, Stage::FirstPass | Stage::SecondPass)
}

/// How many practised pairs of hands so many are worth on a stage.
pub(super) fn power(stage: Stage, hands: u32) -> f64 {
    match one_person(stage) {
        true => 1.0,
        false => 1.0 + SECOND_HANDS * f64::from(hands.clamp(1, MOST_HANDS) - 1),
    }
}

/// The work on a machine. `past` holds, for each past job, its real minutes over the likely minutes estimated for it.
///
/// Never fails; see [`Work::faults`].
///
/// # Example
/// ```
/// use coatwalk::job::{hours::{self, How}, kinds::kind, machine::{self, Machine}};
/// let places = machine::places_of_kind(kind("compact-wheel-loader").unwrap());
/// let figures = Machine::of_kind("compact-wheel-loader").figures(&places);
/// let work = hours::work(&figures, &How::default(), &[], 1);
/// assert!((work.total().likely / 60.0 - 10.5).abs() < 0.1);
/// ```
pub fn work(machine: &Figures, how: &How, past: &[f64], seed: u64) -> Work {
    let mut faults = Vec::new();
    let hands = match check(Field::Hands, f64::from(how.hands)) {
        Ok(_) => how.hands.min(MOST_HANDS),
        Err(e) => {
            faults.push(Fault::of("pairs of hands", &e.into(), "one pair"));
            1
        }
    };
    let mut pace = vec![by(PACE)];
    if how.first_job {
        pace.push(by(FIRST_JOB));
    }
    let mut wash_pace = pace.clone();
    if how.filthy {
        wash_pace.push(by(FILTHY));
    }
    let times = |factors: &[Factor]| band::product(factors, seed).unwrap_or(PACE);
    let (plain, wash) = (times(&pace), times(&wash_pace));
    // What past jobs took moves every stage alike.
    let learnt = band::learn(plain, past, JOB_SCATTER_LN).unwrap_or_else(|why| {
        faults.push(Fault::of("past jobs", &why, "the estimate without them"));
        Learnt { band: plain, jobs: 0, weight_percent: 0.0 }
    });
    let moved = |b: Band| Band {
        low: b.low * learnt.band.low / plain.low,
        likely: b.likely * learnt.band.likely / plain.likely,
        high: b.high * learnt.band.high / plain.high,
    };
    let base = Base::of(machine, how);
    let stages = Stage::ALL
        .into_iter()
        .map(|stage| {
            let minutes = base.minutes(stage);
            let pace = moved(if washes(stage) { wash } else { plain });
            let by_hands = 1.0 / power(stage, hands);
            let minutes = Band {
                low: minutes.low * pace.low * by_hands,
                likely: minutes.likely * pace.likely * by_hands,
                high: minutes.high * pace.high * by_hands,
            };
            StageWork { stage, minutes, shares: base.shares(stage) }
        })
        .collect();
    Work { stages, glass: moved(plain).times(base.glass_min() / power(Stage::Mask, hands)), learnt, faults }
}

/// This machine against the baseline one.
struct Base<'a> {
    machine: &'a Figures,
    how: &'a How,
    area: f64,
    parts: f64,
    glass: f64,
    wraps: f64,
    openings: f64,
    count: f64,
    /// Minutes one part takes off and back.
    per_part: [f64; 2],
}

impl<'a> Base<'a> {
    fn of(machine: &'a Figures, how: &'a How) -> Base<'a> {
        let known = kind(BASELINE).expect("the baseline kind is in the list");
        let table = surface::of_kind(BASELINE).expect("the baseline kind has a table");
        let parts: usize = known.areas.iter().map(|a| a.parts.len()).sum();
        let parts = parts as f64;
        let minutes = |stage: Stage| BASELINE_MIN[stage.index()];
        Base {
            machine,
            how,
            area: machine.m2.likely / surface::typical_m2(known),
            parts: f64::from(machine.parts) / parts,
            glass: machine.glass_m2 / table.glass_m2,
            wraps: f64::from(machine.rods + machine.lamps) / f64::from(table.rods + table.lamps),
            openings: f64::from(machine.openings) / f64::from(table.openings),
            count: machine.areas.len() as f64 / known.areas.len() as f64,
            per_part: [minutes(Stage::TakeOff) / parts, minutes(Stage::Refit) / parts],
        }
    }

    fn glass_min(&self) -> f64 {
        GLASS_MIN * self.glass
    }

    fn minutes(&self, stage: Stage) -> Band {
        let base = BASELINE_MIN[stage.index()];
        let taped = f64::from(self.how.lamps_taped.min(self.machine.lamps));
        Band::sure(match stage {
            Stage::Survey => base * self.count,
            Stage::TakeOff => {
                let spared = (taped * (self.per_part[0] - TAPE_LAMP_MIN)).min(base * self.parts);
                base * self.parts - spared.max(0.0)
            }
            Stage::Refit => (base * self.parts - taped * self.per_part[1]).max(0.0),
            Stage::Cover => base * self.openings,
            Stage::Wipe if self.how.skip_wipe => 0.0,
            Stage::Degrease if self.how.skip_wipe => (base + SKIPPED_WIPE_MIN) * self.area,
            Stage::Mask => self.glass_min() + (base - GLASS_MIN) * self.wraps,
            Stage::Mend => {
                let sum = |f: fn(&Band) -> f64| {
                    self.machine.areas.iter().map(|a| f(&a.condition.mend_min_per_m2()) * a.m2.likely).sum()
                };
                return Band { low: sum(|b| b.low), likely: sum(|b| b.likely), high: sum(|b| b.high) };
            }
            _ => base * self.area,
        })
    }

    /// Which share of a stage each area is.
    fn shares(&self, stage: Stage) -> Vec<f64> {
        let areas = &self.machine.areas;
        let weights: Vec<f64> = match stage {
            Stage::Survey | Stage::Cover => vec![1.0; areas.len()],
            Stage::TakeOff | Stage::Refit => areas.iter().map(|a| f64::from(a.parts)).collect(),
            Stage::Mend => areas.iter().map(|a| a.condition.mend_min_per_m2().likely * a.m2.likely).collect(),
            Stage::Mask => {
                let has_glass = |of: &str| {
                    let area = self.machine.kind.and_then(|k| k.area(of));
                    area.is_some_and(|a| a.bare.contains(&"Glass") && of != "cab-inside")
                };
                let panes = areas.iter().filter(|a| has_glass(&a.of)).count().max(1) as f64;
                let rest = (BASELINE_MIN[stage.index()] - GLASS_MIN) * self.wraps / areas.len().max(1) as f64;
                let glass = self.glass_min() / panes;
                areas.iter().map(|a| rest + if has_glass(&a.of) { glass } else { 0.0 }).collect()
            }
            _ => areas.iter().map(|a| a.m2.likely).collect(),
        };
        let sum: f64 = weights.iter().sum();
        match sum > 0.0 {
            true => weights.into_iter().map(|w| w / sum).collect(),
            false => vec![1.0 / areas.len().max(1) as f64; areas.len()],
        }
    }
}
