//! The coming night: when the gap between steel and dew point closes, and by when to start so that the film is
//! touch-dry before.
//!
//! May use: [`crate::sums::air`], readings of the job, chrono. Must not: reach for a clock or a zone of its own.

use chrono::{DateTime, TimeDelta, TimeZone, Timelike, Utc};

use super::clock::CureRule;
use super::fold::Reading;
use super::plan::{Days, Doing, Plan, Wait, Week};
use super::stage::Stage;
use crate::sums::air::{self, Air, Forecast, Low, Needs, Outlook};
use crate::sums::range::{Field, check};
use crate::sums::{Answer, NotPossible, cure};
use crate::units::{CELSIUS, CELSIUS_DIFFERENCE, HOUR, MINUTE, Measure, Quantity, UnitSet};

/// The coldest hour of a night on the wall clock, min after midnight (common practice, no source: about sunrise).
pub const COLDEST_MIN: u32 = 5 * 60 + 30;

/// The night's low.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct NightLow {
    /// How cold the air gets where the machine stands.
    pub air_c: f64,
    /// When; see [`coldest_hour`].
    pub at: DateTime<Utc>,
}

/// What the night brings.
#[derive(Clone, PartialEq, Debug)]
pub struct Night {
    /// The gap falls under what is needed.
    pub closes: Option<DateTime<Utc>>,
    /// The steel reaches the dew point.
    pub dew: Option<DateTime<Utc>>,
    /// The latest start.
    pub start_by: Option<DateTime<Utc>>,
    /// The gap is too small already.
    pub closed_now: bool,
    /// Begun now, the film would not be touch-dry in time.
    pub too_late: bool,
    /// In plain lines, with local times.
    pub words: Vec<String>,
    /// For the plot; its hours count from `counted_from`.
    pub forecast: Forecast,
    /// The instant at which the forecast's clock stands at zero.
    pub counted_from: DateTime<Utc>,
}

/// The next coldest hour on the wall clock of a place.
pub fn coldest_hour<Z: TimeZone>(now: DateTime<Utc>, zone: &Z) -> DateTime<Utc> {
    let morning = Week { from_min: COLDEST_MIN, hours: 1.0, ..Week::default() };
    Days::new(morning, zone).next_start(now)
}

/// The night from the readings so far and the expected low: `work` from the first stroke to the last, `touch_dry` from
/// then on.
///
/// Readings without humidity or steel are left out.
///
/// # Errors
/// No full reading; a figure outside its range; a low that lies before the last reading.
pub fn night<Z: TimeZone>(
    readings: &[Reading],
    low: NightLow,
    work: TimeDelta,
    touch_dry: TimeDelta,
    zone: &Z,
) -> Answer<Night> {
    let mut full: Vec<(DateTime<Utc>, f64, f64, f64)> =
        readings.iter().filter_map(|r| Some((r.stamp.at, r.air_c, r.rh_pct?, r.steel_c?))).collect();
    // A phone whose clock went back: readings count in the order of their time.
    full.sort_by_key(|r| r.0);
    let from = full.first().ok_or(NotPossible::Nothing)?.0;
    check(Field::AirTemperature, low.air_c)?;
    let hour = |at: DateTime<Utc>| HOUR.of((at - from).num_seconds() as f64 / 3600.0);
    let log: Vec<air::Reading> = full
        .iter()
        .map(|(at, air, rh, steel)| air::Reading {
            at: hour(*at),
            air: Air::new(CELSIUS.of(*air), *rh),
            steel: CELSIUS.of(*steel),
        })
        .collect();
    let coming = Low { at: hour(low.at), air: CELSIUS.of(low.air_c) };
    let minutes = |t: TimeDelta| MINUTE.of(t.num_minutes() as f64);
    let needs = Needs { work: minutes(work), touch_dry: minutes(touch_dry), ..Needs::default() };
    let forecast = air::forecast(&log, coming, &needs)?;
    let at_dew = air::forecast(&log, coming, &Needs { gap: CELSIUS_DIFFERENCE.of(0.0), ..needs })?;
    let instant = |t| from + TimeDelta::seconds((HOUR.get(t) * 3600.0).round() as i64);
    let last = full[full.len() - 1].0;
    let closing = |outlook: &Outlook| match outlook {
        Outlook::ClosedNow => Some(last),
        Outlook::TooLate { closes } | Outlook::StartBy { closes, .. } => Some(instant(*closes)),
        Outlook::HoldsToLow { .. } => None,
    };
    let start_by = match forecast.outlook {
        Outlook::StartBy { start_by, .. } => Some(instant(start_by)),
        _ => None,
    };
    let mut night = Night {
        closes: closing(&forecast.outlook),
        dew: closing(&at_dew.outlook),
        start_by,
        closed_now: forecast.outlook == Outlook::ClosedNow,
        too_late: matches!(forecast.outlook, Outlook::TooLate { .. }),
        words: Vec::new(),
        forecast,
        counted_from: from,
    };
    night.words = night.lines(low, UnitSet::Metric, zone);
    Ok(night)
}

impl Night {
    /// The night in plain lines, in the user's units, with the times of the place.
    pub fn lines<Z: TimeZone>(&self, low: NightLow, units: UnitSet, zone: &Z) -> Vec<String> {
        let gap = Measure::Warmer.unit(units).print(Needs::default().gap.si());
        let mut words = Vec::new();
        match (self.closed_now, self.closes) {
            (true, _) => words.push(format!("The gap between steel and dew point is under {gap} already.")),
            (_, Some(at)) => words.push(format!("The gap falls under {gap} about {}.", clock(at, zone))),
            (_, None) => words.push(format!(
                "The gap holds at {gap} or more down to the low of {} about {}. Take a reading in the morning.",
                Measure::Temperature.unit(units).print(CELSIUS.of(low.air_c).si()),
                clock(low.at, zone),
            )),
        }
        if let Some(at) = self.dew {
            words.push(format!("Steel reaches the dew point about {}.", clock(at, zone)));
        }
        if let Some(at) = self.start_by {
            words.push(format!("Start by {}: the film is then touch-dry before the gap closes.", clock(at, zone)));
        }
        if self.too_late {
            words.push(
                "Begun now, the film is not touch-dry in time. Wait for a warmer day, or warm the shed.".into(),
            );
        }
        words
    }
}

/// The wall clock, down to the last five minutes: a forecast is no better, and early is on the careful side.
fn clock<Z: TimeZone>(at: DateTime<Utc>, zone: &Z) -> String {
    let wall = at.with_timezone(zone).time();
    format!("{:02}:{:02}", wall.hour(), wall.minute() / 5 * 5)
}

/// What the film needs of the coming night.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Film {
    /// Still to be sprayed; so long from the first stroke to the last.
    ToSpray(TimeDelta),
    /// On the machine; touch-dry then, where that is known.
    On(Option<DateTime<Utc>>),
}

impl Film {
    /// From the plan: both passes as far as they are open, with the flash-off between them.
    pub fn of(plan: &Plan) -> Film {
        let passes = plan.blocks.iter().filter(|b| match b.doing {
            Doing::Work => matches!(b.stage, Stage::FirstPass | Stage::SecondPass),
            Doing::Wait(wait) => wait == Wait::FlashOff,
        });
        match plan.work_on(Stage::SecondPass).next() {
            Some(_) => Film::ToSpray(passes.map(|b| b.end - b.start).sum()),
            None => Film::On(plan.paper_off),
        }
    }
}

/// The answer for the coming night.
#[derive(Clone, PartialEq, Debug)]
pub struct Tonight {
    /// The forecast.
    pub night: Night,
    /// The low it goes down to.
    pub low: NightLow,
    /// The answer first: "Start by 11:25", in a few words.
    pub title: String,
    /// Plain lines, the reckoning of touch-dry last.
    pub words: Vec<String>,
}

/// A reading older than this says nothing about the coming night, h (our own choice: as far back as the trend goes).
pub const STALE_H: i64 = 6;

/// The coming night of a job: its readings, the low typed, what the film needs.
///
/// Touch-dry is reckoned midway between the steel now and the low, because the film cools with the steel.
///
/// # Errors
/// Words that say what is missing or out of range.
///
/// # Example
/// ```
/// use chrono::{TimeDelta, Utc};
/// use coatwalk::{job::{clock::CureRule, fold::{Reading, Stamp}, outlook::{Film, tonight}}, units::UnitSet};
/// let at = "2026-10-05T12:00:00Z".parse().unwrap();
/// let stamp = Stamp { entry: uuid::Uuid::nil(), at, by: String::new() };
/// let noon = Reading { stamp, air_c: 18.0, rh_pct: Some(40.0), steel_c: Some(17.0), product_c: None };
/// let film = Film::ToSpray(TimeDelta::minutes(155));
/// let tonight = tonight(&[noon], 4.0, film, &CureRule::default(), at, UnitSet::Metric, &Utc).unwrap();
/// assert!(tonight.title.starts_with("Start by "), "{}", tonight.title);
/// ```
pub fn tonight<Z: TimeZone>(
    readings: &[Reading],
    low_c: f64,
    film: Film,
    rule: &CureRule,
    now: DateTime<Utc>,
    units: UnitSet,
    zone: &Z,
) -> Result<Tonight, String> {
    let full = |r: &&Reading| super::air::judge(r).is_some();
    let Some(last) = readings.iter().filter(full).max_by_key(|r| r.stamp.at) else {
        return Err("Take a reading with humidity and steel first: the night is reckoned from it.".into());
    };
    let age = now - last.stamp.at;
    if age > TimeDelta::hours(STALE_H) {
        let age = super::airlog::whole(age.num_minutes());
        return Err(format!("The last reading is {age} old: take a new one, the night is reckoned from it."));
    }
    let low = NightLow { air_c: low_c, at: coldest_hour(now.max(last.stamp.at), zone) };
    let midway_c = (last.steel_c.unwrap_or(last.air_c) + low_c) / 2.0;
    let dry = cure::time_to_reach(rule.law, rule.credit, HOUR.of(rule.touch_dry_h), CELSIUS.of(midway_c)).ok();
    let dry = dry.map(|t| TimeDelta::minutes(MINUTE.get(t).ceil() as i64)).filter(|t| t.num_days() < 365);
    let (work, touch_dry) = match film {
        Film::ToSpray(work) => (work, dry.unwrap_or(TimeDelta::days(365))),
        Film::On(_) => (TimeDelta::zero(), TimeDelta::zero()),
    };
    // Out of range words name the figure; the low is the only one typed here.
    let mut night = night(readings, low, work, touch_dry, zone).map_err(|e| sentence(&e.to_string()))?;
    if let Film::On(_) = film {
        // Nothing is to be begun any more.
        (night.start_by, night.too_late) = (None, false);
    }
    night.words = night.lines(low, units, zone);
    let title = match (film, night.closes, night.start_by) {
        _ if night.closed_now => "The gap is too small now".to_owned(),
        (_, None, _) => "The gap holds to the low".into(),
        (Film::ToSpray(_), _, Some(at)) => format!("Start by {}", clock(at, zone)),
        (Film::ToSpray(_), Some(_), None) => "Too late for today".into(),
        (Film::On(_), Some(at), _) => format!("The gap closes about {}", clock(at, zone)),
    };
    let mut words = night.words.clone();
    let at_midway = Measure::Temperature.unit(units).print(CELSIUS.of(midway_c).si());
    match (film, dry) {
        (Film::ToSpray(work), Some(dry)) => words.push(format!(
            "Reckoned with {} of spraying and {} until touch-dry at {at_midway}, midway between steel and low.",
            super::airlog::whole(work.num_minutes()),
            super::airlog::whole(dry.num_minutes()),
        )),
        (Film::ToSpray(_), None) => words.push(format!("At {at_midway} the film does not dry: wait, or warm the shed.")),
        (Film::On(Some(dry)), _) if night.closes.is_some_and(|closes| dry > closes && dry > now) => words.push(format!(
            "The film is touch-dry about {}, after the gap closes: water may settle on it before. Look in the morning.",
            clock(dry, zone)
        )),
        (Film::On(_), _) => {}
    }
    Ok(Tonight { night, low, title, words })
}

fn sentence(words: &str) -> String {
    let mut chars = words.chars();
    let first = chars.next().map(|c| c.to_ascii_uppercase()).unwrap_or_default();
    format!("{first}{}.", chars.as_str())
}
