//! The plan: which stage when, on the wall clock, with its waits, from the machine, the crew and the log.
//!
//! Work goes into working hours in the order of the stages; waits run on the clock, day and night. Each wait begins at
//! the end of something and holds up one later stage:
//!
//! | wait | begins with | holds up |
//! |---|---|---|
//! | test patch, 24 h | end of Survey | First pass |
//! | drying, 12 h and the night | the last water | Mend, and all after it |
//! | warm-up, heater out and cold | the day of masking | First pass |
//! | flash-off | end of First pass | Second pass |
//! | touch-dry | end of Second pass | nothing; paper and foil come off then |
//! | air out | end of Second pass | Refit |
//!
//! What the log has finished is not planned again; a stage done on some areas keeps the share of the others. Each pass
//! is done in one go. Hours are estimates of one day's work each; the steps and waits are common practice, no source.
//!
//! May use: the job, [`super::hours`], [`super::clock`], chrono. Must not: reach for a clock or a zone of its own.

mod choices;
mod days;
mod doors;
mod drawn;
mod past;
mod setup;
mod strip;
mod told;
mod wall;

pub use choices::{Choice, choices};
pub use days::{Days, Span, Week};
pub use doors::{day_before, logged, products_known, shopping};
pub use past::{Past, past};
pub use setup::Setup;
pub use strip::{Bar, Mark, Note, Strip, strip};
pub use told::{Told, answer, text};
pub use wall::{clock, date, length, lengths, moment};

use drawn::{Drawn, Logged};

use chrono::{DateTime, TimeDelta, TimeZone, Utc};

use super::clock::CureRule;
use super::fold::Job;
use super::hours::{self, Work};
use super::kinds::kind;
use super::machine::{self, Fault, Figures};
use super::product::Product;
use super::stage::Stage;
use crate::sums::band::Band;
use crate::sums::cure;
use crate::sums::range::{Field, check};

/// The test patch stays on this long, h (common practice, no source).
pub const TEST_PATCH_H: i64 = 24;
/// After the last water it stands at least this long, and overnight, h (common practice, no source).
pub const DRYING_H: i64 = 12;
/// Taken when nobody has read the shed's temperature, °C.
pub const SHED_C: f64 = 15.0;

/// Which wait.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
#[allow(missing_docs)] // the table above says each
pub enum Wait {
    TestPatch,
    Drying,
    WarmUp,
    HeaterOff,
    FlashOff,
    TouchDry,
    AirOut,
}

impl Wait {
    /// The name on the screen.
    pub fn title(self) -> &'static str {
        match self {
            Wait::TestPatch => "Test patch",
            Wait::Drying => "Drying",
            Wait::WarmUp => "Warm-up",
            Wait::HeaterOff => "Heater out and cold",
            Wait::FlashOff => "Flash-off",
            Wait::TouchDry => "Until touch-dry",
            Wait::AirOut => "Air out",
        }
    }
}

/// Hands at work, or time passing.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Doing {
    /// Work, in working hours.
    Work,
    /// A wait, on the clock.
    Wait(Wait),
}

/// One bar of the timeline.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Block {
    /// The stage worked on; of a wait, the stage that it holds up.
    pub stage: Stage,
    /// Begins.
    pub start: DateTime<Utc>,
    /// Ends.
    pub end: DateTime<Utc>,
    /// What it is.
    pub doing: Doing,
}

/// The plan.
#[derive(Clone, PartialEq, Debug)]
pub struct Plan {
    /// Work and waits, each in the order of its start.
    pub blocks: Vec<Block>,
    /// Stages that the log has settled, with the time of their last entry.
    pub finished: Vec<(Stage, Option<DateTime<Utc>>)>,
    /// The last stroke of the second pass, planned or done.
    pub coated: Option<DateTime<Utc>>,
    /// Paper, tape and foil may come off.
    pub paper_off: Option<DateTime<Utc>>,
    /// Nothing is refitted before.
    pub earliest_refit: Option<DateTime<Utc>>,
    /// The last planned work.
    pub ends: Option<DateTime<Utc>>,
    /// Work still to be done, min.
    pub work_left_min: Band,
    /// The whole job's work.
    pub work: Work,
    /// The machine in figures.
    pub figures: Figures,
    /// The temperature the air-out is reckoned with, °C.
    pub shed_c: f64,
    /// What made no sense, and what was taken instead.
    pub faults: Vec<Fault>,
}

impl Plan {
    /// The blocks of one stage's work.
    pub fn work_on(&self, stage: Stage) -> impl Iterator<Item = &Block> {
        self.blocks.iter().filter(move |b| b.stage == stage && b.doing == Doing::Work)
    }

    /// One wait.
    pub fn wait(&self, wait: Wait) -> Option<&Block> {
        self.blocks.iter().find(|b| b.doing == Doing::Wait(wait))
    }
}

/// Plans what is left from `from` on. Without a job, all of it, on the areas the kind of machine starts with.
///
/// `film` is the liquid film with its figures settled ([`Product::settled`]); `past` is as for [`hours::work`].
/// Never fails: what makes no sense stands in [`Plan::faults`].
///
/// # Example
/// ```
/// use chrono::Utc;
/// use coatwalk::job::{machine::Machine, plan::{self, Setup}, product::{Product, Use}};
/// let setup = Setup { machine: Machine::of_kind("compact-wheel-loader"), shed_c: Some(20.0), ..Setup::default() };
/// let film = Product::generic(Use::LiquidFilm, uuid::Uuid::nil());
/// let plan = plan::plan(&setup, None, &film, &[], "2026-10-05T08:00:00Z".parse().unwrap(), &Utc);
/// let waits = plan.earliest_refit.unwrap() - plan.coated.unwrap();
/// assert_eq!(waits.num_hours(), 48);
/// ```
pub fn plan<Z: TimeZone>(
    setup: &Setup,
    job: Option<&Job>,
    film: &Product,
    past: &[f64],
    from: DateTime<Utc>,
    zone: &Z,
) -> Plan {
    let places = match job {
        Some(job) => machine::places_of_job(job),
        None => kind(&setup.machine.kind).map(machine::places_of_kind).unwrap_or_default(),
    };
    let mut figures = setup.machine.figures(&places);
    let work = hours::work(&figures, &setup.how, past, setup.seed);
    let mut faults = std::mem::take(&mut figures.faults);
    faults.extend(work.faults.iter().cloned());
    let week = settled_week(setup.week, &mut faults);
    let mut drawn = Drawn {
        log: Logged { job },
        days: Days::new(week, zone),
        work: &work,
        blocks: Vec::new(),
        cursor: from,
        from,
    };
    let wait = |name: &str, min: f64, faults: &mut Vec<Fault>| match check(Field::WaitMinutes, min) {
        Ok(min) => minutes(min),
        Err(e) => {
            faults.push(Fault::of(name, &e.into(), "none"));
            TimeDelta::zero()
        }
    };
    let warm = wait("warm-up", setup.warm_up_min, &mut faults);
    let cold = wait("heater out", setup.heater_off_min, &mut faults);
    let flash = film.sheet.flash_off_min.as_ref().map_or(cure::FLASH_OFF_MINUTES[1], |f| f.likely);
    let flash = wait("flash-off minutes", flash, &mut faults);

    use Stage::*;
    let surveyed = drawn.stage(Survey);
    let test_patch = drawn.wait(Wait::TestPatch, FirstPass, surveyed, TimeDelta::hours(TEST_PATCH_H));
    for stage in [TakeOff, Cover, Wipe, Dewax, Degrease, Neutralise] {
        drawn.stage(stage);
    }
    let last_water = drawn.last_water();
    drawn.stage(Dry);
    let drying = if drawn.log.open(Dry) { last_water } else { None };
    let after_dry = [Mend, Mask, FirstPass].into_iter().find(|s| drawn.log.open(*s)).unwrap_or(Mend);
    let dry = drawn.wait(Wait::Drying, after_dry, drying, TimeDelta::hours(DRYING_H));
    drawn.not_before(dry);
    drawn.stage(Mend);
    let masking = drawn.days.next(drawn.cursor);
    drawn.stage(Mask);
    if drawn.log.open(FirstPass) {
        let warmed = drawn.wait(Wait::WarmUp, FirstPass, Some(masking), warm);
        let cold = drawn.wait(Wait::HeaterOff, FirstPass, warmed.or(Some(drawn.cursor)), cold);
        drawn.not_before(warmed);
        drawn.not_before(cold);
    }
    drawn.not_before(test_patch);
    let first = drawn.stage(FirstPass);
    let flashed = drawn.wait(Wait::FlashOff, SecondPass, first, flash);
    drawn.not_before(flashed);
    let coated = drawn.stage(SecondPass);
    let rule = CureRule::of(film);
    let shed_c = shed(setup, job, &mut faults);
    let cured = drawn.air_out(&rule, shed_c, coated, &mut faults);
    drawn.not_before(cured.earliest_refit);
    // A film that never cures has no refit to plan; parts that got no film need not wait for it.
    if cured.earliest_refit.is_some() || coated.is_none() || !drawn.log.open(AirOut) {
        drawn.stage(Refit);
    }

    let Drawn { log, mut blocks, .. } = drawn;
    blocks.sort_by_key(|b| (b.start, b.stage, b.end));
    let left = |f: fn(&Band) -> f64| work.stages.iter().map(|s| f(&s.minutes) * log.open_share(s)).sum();
    let finished = Stage::ALL.into_iter().filter(|s| !log.open(*s)).map(|s| (s, log.last(s))).collect();
    Plan {
        finished,
        coated,
        paper_off: cured.paper_off,
        earliest_refit: cured.earliest_refit,
        ends: blocks.iter().filter(|b| b.doing == Doing::Work).map(|b| b.end).max(),
        work_left_min: Band { low: left(|b| b.low), likely: left(|b| b.likely), high: left(|b| b.high) },
        blocks,
        work,
        figures,
        shed_c,
        faults,
    }
}

/// Whole minutes, rounded up: a plan to the second would be a joke.
fn minutes(min: f64) -> TimeDelta {
    TimeDelta::minutes((min - 1e-6).ceil().max(0.0) as i64)
}

fn settled_week(week: Week, faults: &mut Vec<Fault>) -> Week {
    let (mut week, usual) = (week, Week::default());
    if let Err(e) = check(Field::DayHours, week.hours) {
        faults.push(Fault::of("working hours", &e.into(), "8 h"));
        week.hours = usual.hours;
    }
    if week.from_min >= 24 * 60 {
        faults.push(Fault::new("start of the day", "the day must begin between 00:00 and 23:59", "08:00"));
        week.from_min = usual.from_min;
    }
    if week.days == [false; 7] {
        faults.push(Fault::new("working days", "no working day is chosen: choose at least one", "every day"));
        week.days = usual.days;
    }
    week
}

/// The temperature for the air-out: typed, read last, or the default.
fn shed(setup: &Setup, job: Option<&Job>, faults: &mut Vec<Fault>) -> f64 {
    let read = job.and_then(Job::last_reading).map(|r| r.air_c).filter(|c| check(Field::CureTemperature, *c).is_ok());
    let otherwise = read.unwrap_or(SHED_C);
    match setup.shed_c.map(|c| check(Field::CureTemperature, c)) {
        Some(Ok(c)) => c,
        Some(Err(e)) => {
            faults.push(Fault::of("temperature of the shed", &e.into(), format!("{otherwise} °C")));
            otherwise
        }
        None => otherwise,
    }
}
