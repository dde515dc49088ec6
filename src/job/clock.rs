//! The clocks a job runs: how far the film is, how long the first pass has to flash off.
//!
//! May use: [`crate::sums::cure`], the job. Must not: reach for a clock; `now` is an argument.

use chrono::{DateTime, TimeDelta, Utc};

use super::air::minutes;
use super::fold::{Job, Reading};
use super::product::{Product, Use, origin, sane};
use super::stage::Stage;
use crate::sums::cure::{
    self, Credit, FLASH_OFF_MINUTES, Law, Logged, NO_MORE_ABOVE_C, REFERENCE_C, REFIT_HOURS, TOUCH_DRY_HOURS,
};
use crate::sums::range::Field;
use crate::units::{CELSIUS, HOUR, Measure, Quantity, UnitSet};

/// How a film cures, from its data sheet or by default.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct CureRule {
    /// How speed follows temperature.
    pub law: Law,
    /// Where credit stops.
    pub credit: Credit,
    /// The hours below hold at this temperature, °C.
    pub reference_c: f64,
    /// Touch-dry, paper and foil off, h.
    pub touch_dry_h: f64,
    /// Refit, h.
    pub refit_h: f64,
    /// The hours to refit are from the product's own sheet.
    pub own: bool,
}

impl Default for CureRule {
    /// 48 h to refit and 4 h to touch-dry at 20 °C, half speed for 10 °C colder (common practice, no source; touch-dry
    /// from memory).
    fn default() -> CureRule {
        CureRule {
            law: Law::default(),
            credit: Credit::default(),
            reference_c: REFERENCE_C,
            touch_dry_h: TOUCH_DRY_HOURS[1],
            refit_h: REFIT_HOURS,
            own: false,
        }
    }
}

impl CureRule {
    /// From a film's sheet; what it does not say, or says impossibly, is the default.
    pub fn of(film: &Product) -> CureRule {
        let (sheet, rule) = (&film.sheet, CureRule::default());
        let own = sane(&sheet.refit_h, Field::EquivalentHours);
        let refit_h = own.map_or(rule.refit_h, |f| f.likely);
        let touch_dry_h = sane(&sheet.touch_dry_h, Field::EquivalentHours).map_or(rule.touch_dry_h, |f| f.likely);
        let reference_c = sane(&sheet.reference_c, Field::CureTemperature).map_or(rule.reference_c, |f| f.likely);
        let cure_least = sane(&sheet.cure_least_c, Field::CureTemperature).filter(|f| f.likely <= reference_c);
        CureRule {
            law: Law::Q10 { q10: 2.0, reference: CELSIUS.of(reference_c) },
            credit: Credit {
                none_below: cure_least.map(|f| CELSIUS.of(f.likely)),
                no_more_above: Some(CELSIUS.of(NO_MORE_ABOVE_C.max(reference_c))),
            },
            reference_c,
            touch_dry_h: touch_dry_h.min(refit_h),
            refit_h,
            own: own.is_some_and(|f| !f.default),
        }
    }

    /// Of the liquid film in use; the default when none was logged.
    pub fn of_job(job: &Job) -> CureRule {
        job.product(Use::LiquidFilm).map(CureRule::of).unwrap_or_default()
    }
}

/// How long the first pass flashes off.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct FlashOff {
    /// Whole minutes, rounded up.
    pub minutes: i64,
    /// From the product's own sheet.
    pub own: bool,
}

impl FlashOff {
    /// Of the film in cans in use; 20 minutes when none was logged or its sheet does not say (from memory).
    pub fn of_job(job: &Job) -> FlashOff {
        let film = job.product(Use::AerosolFilm);
        let figure = film.and_then(|f| sane(&f.sheet.flash_off_min, Field::WaitMinutes));
        let minutes = figure.map_or(FLASH_OFF_MINUTES[1], |f| f.likely);
        FlashOff { minutes: (minutes - 1e-6).ceil() as i64, own: figure.is_some_and(|f| !f.default) }
    }
}

/// The air-out clock.
#[derive(Clone, PartialEq, Debug)]
pub struct AirOut {
    /// The last second-pass entry.
    pub started: DateTime<Utc>,
    /// Areas still without their second pass: the clock starts anew with each.
    pub open: usize,
    /// Hours counted so far, as if at the reference temperature.
    pub counted_h: f64,
    /// Hours wanted, at the reference temperature.
    pub wanted_h: f64,
    /// The reference temperature, °C.
    pub reference_c: f64,
    /// The hours are from the product's own sheet.
    pub own: bool,
    /// When the film is or was touch-dry, paper and foil off; none when it is not known.
    pub touch_dry: Option<DateTime<Utc>>,
    /// The temperature the rest is reckoned with, °C; none when nobody has read it.
    pub shed_c: Option<f64>,
    /// When it will be reached at that temperature; none when the shed is too cold to count or unknown.
    pub finish: Option<DateTime<Utc>>,
    /// It is reached.
    pub over: bool,
}

impl AirOut {
    /// What stands against calling it done; it reads on after "because".
    pub fn against(&self) -> Option<String> {
        if self.open > 0 {
            return Some(format!("the second pass is still open on {} areas", self.open));
        }
        if self.over {
            return None;
        }
        let so_far = format!(
            "the film has had {:.0} of {} h, counted at {} °C ({})",
            self.counted_h.floor(),
            self.wanted_h,
            self.reference_c,
            origin(self.own),
        );
        Some(match self.shed_c {
            None => "nobody has read the shed's temperature since the second pass".into(),
            Some(c) => format!("{so_far}; the shed was last read at {c} °C"),
        })
    }

    /// Time left at the temperature last read.
    pub fn left(&self, now: DateTime<Utc>) -> Option<TimeDelta> {
        self.finish.map(|f| (f - now).max(TimeDelta::zero()))
    }

    /// Time left in words: "31 h 20 min".
    pub fn left_words(&self, now: DateTime<Utc>) -> String {
        match self.left(now) {
            _ if self.over => "over".into(),
            Some(t) => minutes((t.num_seconds() + 59) / 60),
            None => "not known".into(),
        }
    }
}

/// Hours after a time; none when they are over ten years: a film in such a cold never cures.
pub(super) fn after(start: DateTime<Utc>, hours: f64) -> Option<DateTime<Utc>> {
    const TEN_YEARS_H: f64 = 87_660.0;
    (hours <= TEN_YEARS_H).then(|| start + TimeDelta::milliseconds((hours * 3_600_000.0).round() as i64))
}

/// The air-out clock, once a second pass was logged. Readings since then count from their time on; before the first
/// of them the last one before the pass is taken, if there is one. The hours are those of the liquid film in use.
pub fn air_out(job: &Job, now: DateTime<Utc>) -> Option<AirOut> {
    air_out_by(&CureRule::of_job(job), job, now)
}

/// The same by a given rule.
pub fn air_out_by(rule: &CureRule, job: &Job, now: DateTime<Utc>) -> Option<AirOut> {
    reckon(rule, job, &job.readings, now)
}

fn reckon(rule: &CureRule, job: &Job, readings: &[Reading], now: DateTime<Utc>) -> Option<AirOut> {
    let started = *job.last_done.get(&Stage::SecondPass)?;
    if job.count(Stage::SecondPass).done == 0 {
        return None;
    }
    let hours = |at: DateTime<Utc>| (at - started).num_milliseconds() as f64 / 3_600_000.0;
    let (mut before, mut since) = (None, Vec::new());
    for r in readings {
        if r.stamp.at <= started { before = Some(r.air_c) } else { since.push((r.stamp.at, r.air_c)) }
    }
    // A phone whose clock went back must not stop the sum: readings count in the order of their time.
    since.sort_by_key(|(at, _)| *at);
    let now = now.max(since.last().map_or(started, |(at, _)| *at)).max(started);
    let mut logged: Vec<Logged> =
        since.iter().map(|(at, c)| Logged { at: HOUR.of(hours(*at)), temperature: CELSIUS.of(*c) }).collect();
    if let Some(first) = before.or(since.first().map(|(_, c)| *c)) {
        logged.insert(0, Logged { at: HOUR.of(0.0), temperature: CELSIUS.of(first) });
    }
    let shed_c = since.last().map(|(_, c)| *c).or(before);
    let mut clock = AirOut {
        started,
        open: job.count(Stage::SecondPass).open,
        counted_h: 0.0,
        wanted_h: rule.refit_h,
        reference_c: rule.reference_c,
        own: rule.own,
        touch_dry: None,
        shed_c,
        finish: None,
        over: false,
    };
    if let Some(c) = shed_c {
        let progress = |needed: f64| {
            cure::progress(rule.law, rule.credit, &logged, HOUR.of(hours(now)), HOUR.of(needed), CELSIUS.of(c))
        };
        if let Ok(sum) = progress(rule.refit_h) {
            clock.counted_h = HOUR.get(sum.equivalent);
            clock.over = clock.counted_h >= rule.refit_h;
            clock.finish = sum.finish.and_then(|f| after(started, HOUR.get(f)));
        }
        clock.touch_dry =
            progress(rule.touch_dry_h).ok().and_then(|sum| sum.finish).and_then(|f| after(started, HOUR.get(f)));
    }
    Some(clock)
}

/// What the air-out clock says.
#[derive(Clone, PartialEq, Debug)]
pub struct Told {
    /// Where it stands and why.
    pub words: String,
    /// Flash-off, touch-dry and refit in the order of their time, each a line.
    pub marks: Vec<String>,
}

/// The air-out clock in words. `wall` tells a moment as the wall clock of the place does.
///
/// The finish moves with each reading; the words say what moved it: "9 °C since Tue 6 Oct, 06:00: half as fast as at
/// 20 °C".
pub fn told(
    job: &Job,
    clock: &AirOut,
    now: DateTime<Utc>,
    units: UnitSet,
    wall: &dyn Fn(DateTime<Utc>) -> String,
) -> Told {
    let words = match (clock.over, clock.shed_c) {
        _ if clock.open > 0 => {
            format!("Second pass still open on {} areas: the clock starts anew with each.", clock.open)
        }
        (true, _) => "The film has had its time. A finger on a hidden spot decides, and your product's sheet.".into(),
        (_, None) => "How warm is the shed? Read it under Air out: the clock needs it.".into(),
        (_, Some(c)) => why(job, clock, c, units, wall),
    };
    if clock.open > 0 {
        return Told { words, marks: Vec::new() };
    }
    let flashed = clock.started + TimeDelta::minutes(flash_off_min(job));
    // What is over stands as such, what is to come from when.
    let line = |at: DateTime<Utc>, past: &str, coming: &str| {
        let words = if at <= now { past } else { coming };
        words.replacen("{}", &wall(at), 1)
    };
    let mut marks = vec![line(flashed, "Flashed off since {}", "Flashed off about {}")];
    let dry = "Touch-dry since {}: take paper and foil off";
    marks.extend(clock.touch_dry.map(|at| line(at, dry, "Paper and foil off from {}")));
    marks.extend(clock.finish.map(|at| line(at, "Had its hours on {}", "Refit from {}")));
    Told { words, marks }
}

/// Flash-off of the last coat, by the liquid film in use; the default when its sheet does not say.
fn flash_off_min(job: &Job) -> i64 {
    let film = job.product(Use::LiquidFilm);
    let figure = film.and_then(|f| sane(&f.sheet.flash_off_min, Field::WaitMinutes));
    figure.map_or(FLASH_OFF_MINUTES[1], |f| f.likely).ceil() as i64
}

/// How fast the film gets on, since when, and what the last reading changed.
fn why(job: &Job, clock: &AirOut, shed_c: f64, units: UnitSet, wall: &dyn Fn(DateTime<Utc>) -> String) -> String {
    let rule = CureRule::of_job(job);
    let warm = |c: f64| Measure::Temperature.unit(units).print(CELSIUS.of(c).si());
    let (reference, shed) = (warm(rule.reference_c), warm(shed_c));
    let mut in_time: Vec<&Reading> = job.readings.iter().collect();
    in_time.sort_by_key(|r| r.stamp.at);
    let last = in_time.last().map(|r| r.stamp.at);
    let since = last.map(|at| format!("{shed} since {}", wall(at))).unwrap_or_default();
    let speed = match cure::rate(rule.law, rule.credit, CELSIUS.of(shed_c)).unwrap_or(0.0) {
        v if v <= 0.0 => return format!("{since}: the film does not get on. Warm the shed, no flame."),
        v if v < 0.28 => "a quarter as fast, or less, as".to_owned(),
        v if (0.45..0.55).contains(&v) => "half as fast as".into(),
        v if (0.95..1.05).contains(&v) => "as fast as".into(),
        v => format!("{v:.1} times as fast as"),
    };
    let wanted = format!("{} h there, {}", clock.wanted_h, origin(clock.own));
    let mut words = format!("{since}: {speed} at {reference} ({wanted}).");
    // What the readings before the last one said, at the time of the last.
    let before: Vec<Reading> = job.readings.iter().filter(|r| Some(r.stamp.at) != last).cloned().collect();
    let told = last.and_then(|at| reckon(&rule, job, &before, at)).and_then(|c| c.finish);
    if let (Some(then), Some(now)) = (told, clock.finish) {
        let moved = (now - then).num_minutes();
        if moved.abs() >= 30 {
            let side = if moved > 0 { "later" } else { "sooner" };
            let hours = super::airlog::about_hours(moved.abs());
            words.push_str(&format!(" Refit is {hours} {side} than by the reading before."));
        }
    }
    words
}
