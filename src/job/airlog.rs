//! The readings of a job over time, as they are drawn: air, steel and the point at which water settles on it, with the
//! passes and the coming night; and what the last reading says now.
//!
//! Lines join readings that lie near each other in time; where nobody read for [`JOIN_H`] hours they break off, because a
//! straight line through an unread night would be made up.
//!
//! May use: [`crate::sums::air`], the job, chrono. Must not: reach for a clock or a zone of its own, draw.

use chrono::{DateTime, Datelike, NaiveTime, TimeDelta, TimeZone, Timelike, Utc};
use uuid::Uuid;

use super::air::{self as said, good_until};
use super::fold::{Cell, Job, Reading};
use super::outlook::Night;
use super::stage::Stage;
use crate::sums::air::{self, Air, Conditions, Doubts, Limits, Of, Reason, Verdict};
use crate::sums::range::{Field, check};
use crate::units::{CELSIUS, CELSIUS_DIFFERENCE, HOUR, Measure, Quantity, Temperature, TemperatureInterval, UnitSet};

/// Readings further apart than this are not joined, h (our own choice).
pub const JOIN_H: i64 = 6;
/// Readings so long before the last one are left to the list, days (our own choice: a job takes two to four).
pub const LOOK_BACK_D: i64 = 6;
/// The picture shows this long at least, h.
const LEAST_H: i64 = 6;
/// The forecast is drawn from one in so many of its points.
const THIN: usize = 12;

/// One moment of the picture, °C.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Point {
    /// When.
    pub at: DateTime<Utc>,
    /// Air.
    pub air_c: f64,
    /// Steel and the dew or frost point under it, the higher; none when the reading lacks one.
    pub steel: Option<Steel>,
}

/// Steel against the point at which water or frost settles on it, °C.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Steel {
    /// The coldest spot.
    pub c: f64,
    /// Dew point, or frost point where that is under 0 °C.
    pub against_c: f64,
}

impl Steel {
    /// Steel above that point.
    pub fn gap_c(self) -> f64 {
        self.c - self.against_c
    }
}

/// A pass as it was logged: one entry, or several for single areas.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Pass {
    /// First or second.
    pub stage: Stage,
    /// Its first entry.
    pub from: DateTime<Utc>,
    /// Its last.
    pub to: DateTime<Utc>,
}

/// A mark of the time axis.
#[derive(Clone, PartialEq, Debug)]
pub struct Tick {
    /// When.
    pub at: DateTime<Utc>,
    /// "Tue 24" at the start of a day, else "06:00".
    pub words: String,
    /// The day begins here.
    pub day: bool,
}

/// All that is drawn.
#[derive(Clone, PartialEq, Debug)]
pub struct AirLog {
    /// Readings in the order of their time, in runs that may be joined.
    pub runs: Vec<Vec<Point>>,
    /// The coming night, from the last reading to the low; empty without a forecast.
    pub ahead: Vec<Point>,
    /// Where the gap was, or will be, under what is needed; a single reading is a stretch without length.
    pub too_small: Vec<(DateTime<Utc>, DateTime<Utc>)>,
    /// The passes logged.
    pub passes: Vec<Pass>,
    /// Left edge.
    pub from: DateTime<Utc>,
    /// Right edge.
    pub to: DateTime<Utc>,
    /// The instant asked about, where it lies inside.
    pub now: Option<DateTime<Utc>>,
    /// The gap needed, K.
    pub needed_c: f64,
    /// Readings older than the picture.
    pub older: usize,
}

/// The picture of a job's readings, and of the night if there is a forecast. None when there is no reading that makes
/// sense.
///
/// # Example
/// ```
/// use coatwalk::job::{airlog, fold::{Job, Reading, Stamp}};
/// let at = "2026-10-05T12:00:00Z".parse().unwrap();
/// let stamp = Stamp { entry: uuid::Uuid::nil(), at, by: String::new() };
/// let reading = Reading { stamp, air_c: 12.0, rh_pct: Some(90.0), steel_c: Some(11.0), product_c: None };
/// let job = Job { readings: vec![reading], ..Job::default() };
/// let log = airlog::curve(&job, None, at).unwrap();
/// assert!(log.runs[0][0].steel.unwrap().gap_c() < 3.0);
/// assert_eq!(log.too_small, [(at, at)]);
/// ```
pub fn curve(job: &Job, night: Option<&Night>, now: DateTime<Utc>) -> Option<AirLog> {
    let mut points: Vec<Point> = job.readings.iter().filter_map(point).collect();
    // A phone whose clock went back: readings count in the order of their time.
    points.sort_by_key(|p| p.at);
    let last = points.last()?.at;
    let all = points.len();
    points.retain(|p| p.at >= last - TimeDelta::days(LOOK_BACK_D));
    let needed_c = CELSIUS_DIFFERENCE.get(Limits::default().gap);
    let runs = runs(&points);
    let ahead = night.map(ahead).unwrap_or_default();
    let mut too_small: Vec<_> = runs.iter().flat_map(|run| stretches(run, needed_c)).collect();
    too_small.extend(stretches(&ahead, needed_c));
    let mut joined: Vec<(DateTime<Utc>, DateTime<Utc>)> = Vec::new();
    for (from, to) in too_small {
        match joined.last_mut() {
            Some(before) if from <= before.1 => before.1 = before.1.max(to),
            _ => joined.push((from, to)),
        }
    }
    let first = points.first()?.at;
    let recent = (now >= first && now <= last + TimeDelta::hours(JOIN_H)).then_some(now);
    let to = ahead.last().map_or(last, |p| p.at).max(recent.unwrap_or(last));
    let from = first.min(to - TimeDelta::hours(LEAST_H));
    let inside = |p: &Pass| p.to >= from && p.from <= to;
    Some(AirLog {
        older: all - points.len(),
        runs,
        ahead,
        too_small: joined,
        passes: [Stage::FirstPass, Stage::SecondPass].iter().filter_map(|s| pass(job, *s)).filter(inside).collect(),
        from,
        to,
        now: (now >= from && now <= to).then_some(now),
        needed_c,
    })
}

fn point(r: &Reading) -> Option<Point> {
    let air_c = check(Field::AirTemperature, r.air_c).ok()?;
    let margin = || {
        let air = Air::new(CELSIUS.of(air_c), r.rh_pct?);
        air::margin(air, CELSIUS.of(r.steel_c?), Doubts::default()).ok()
    };
    let steel = margin().map(|m| Steel { c: CELSIUS.get(m.steel), against_c: CELSIUS.get(m.against) });
    Some(Point { at: r.stamp.at, air_c, steel })
}

fn runs(points: &[Point]) -> Vec<Vec<Point>> {
    let mut runs: Vec<Vec<Point>> = Vec::new();
    for p in points {
        match runs.last_mut() {
            Some(run) if run.last().is_some_and(|q| p.at - q.at <= TimeDelta::hours(JOIN_H)) => run.push(*p),
            _ => runs.push(vec![*p]),
        }
    }
    runs
}

fn ahead(night: &Night) -> Vec<Point> {
    let instant = |t| night.counted_from + TimeDelta::seconds((HOUR.get(t) * 3600.0).round() as i64);
    let all = &night.forecast.ahead;
    let last = all.len().saturating_sub(1);
    let kept = all.iter().enumerate().filter(|(i, _)| i % THIN == 0 || *i == last);
    kept.map(|(_, p)| Point {
        at: instant(p.at),
        air_c: CELSIUS.get(p.air),
        steel: Some(Steel { c: CELSIUS.get(p.steel), against_c: CELSIUS.get(p.against) }),
    })
    .collect()
}

/// Where the gap lies under what is needed, between points along straight lines.
fn stretches(run: &[Point], needed: f64) -> Vec<(DateTime<Utc>, DateTime<Utc>)> {
    let full: Vec<(DateTime<Utc>, f64)> =
        run.iter().filter_map(|p| Some((p.at, p.steel?.gap_c() - needed))).collect();
    let small = |over: f64| over < -1e-9;
    let mut found = Vec::new();
    let mut open = None;
    for (i, (at, over)) in full.iter().enumerate() {
        let crossed = |other: &(DateTime<Utc>, f64)| {
            let part = other.1 / (other.1 - over);
            other.0 + TimeDelta::milliseconds(((*at - other.0).num_milliseconds() as f64 * part) as i64)
        };
        let before = i.checked_sub(1).map(|b| &full[b]);
        match (small(*over), open) {
            (true, None) => open = Some(before.map_or(*at, crossed)),
            (false, Some(from)) => {
                found.push((from, before.map_or(*at, crossed)));
                open = None;
            }
            _ => {}
        }
    }
    if let (Some(from), Some((at, _))) = (open, full.last()) {
        found.push((from, *at));
    }
    found
}

fn pass(job: &Job, stage: Stage) -> Option<Pass> {
    let done = job.areas().filter_map(|a| match a.cell(stage) {
        Cell::Done(stamp) => Some(stamp.at),
        _ => None,
    });
    let (from, to) = done.fold((None, None), |(a, b): (Option<DateTime<Utc>>, _), at| {
        (Some(a.map_or(at, |a| a.min(at))), b.max(Some(at)))
    });
    Some(Pass { stage, from: from?, to: to? })
}

impl AirLog {
    /// The marks of the time axis, at most so many: days, and hours where there is room for them.
    pub fn ticks<Z: TimeZone>(&self, most: i64, zone: &Z) -> Vec<Tick> {
        const STEPS_H: [i64; 8] = [1, 2, 3, 6, 12, 24, 48, 96];
        let span = self.to - self.from;
        let step = STEPS_H.into_iter().find(|h| span <= TimeDelta::hours(h * most)).unwrap_or(168);
        let mut wall = self.from.with_timezone(zone).naive_local().date().and_time(NaiveTime::MIN);
        let end = self.to.with_timezone(zone).naive_local();
        let mut ticks = Vec::new();
        while wall <= end {
            // An hour that the change to summer time leaves out has no mark.
            let at = zone.from_local_datetime(&wall).earliest().map(|t| t.with_timezone(&Utc));
            if let Some(at) = at.filter(|t| (self.from..=self.to).contains(t)) {
                let day = wall.time() == NaiveTime::MIN;
                let words = match day {
                    true => format!("{} {}", wall.weekday(), wall.day()),
                    false => format!("{:02}:00", wall.hour()),
                };
                ticks.push(Tick { at, words, day });
            }
            wall += TimeDelta::hours(step);
        }
        ticks
    }

    /// Readings in the picture.
    pub fn count(&self) -> usize {
        self.runs.iter().map(Vec::len).sum()
    }

    /// The picture in words, for those who hear it.
    pub fn words(&self, units: UnitSet) -> String {
        let read = || self.runs.iter().flatten();
        let span = |all: Vec<f64>| {
            let (low, high) = all.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), v| (a.min(*v), b.max(*v)));
            match low.is_finite() {
                true => format!("{} to {}", warm(units, CELSIUS.of(low)), warm(units, CELSIUS.of(high))),
                false => "not read".into(),
            }
        };
        let n = self.count();
        let small = read().filter(|p| p.steel.is_some_and(|s| s.gap_c() < self.needed_c - 1e-9)).count();
        format!(
            "{n} reading{}. Air {}, steel {}. Steel too close to the dew point in {small}.{}",
            if n == 1 { "" } else { "s" },
            span(read().map(|p| p.air_c).collect()),
            span(read().filter_map(|p| p.steel).map(|s| s.c).collect()),
            if self.ahead.is_empty() { "" } else { " Dotted: reckoned down to the night low." },
        )
    }
}

fn warm(units: UnitSet, t: Temperature) -> String {
    Measure::Temperature.unit(units).print(t.si())
}

fn apart(units: UnitSet, t: TemperatureInterval) -> String {
    Measure::Warmer.unit(units).print(t.si())
}

/// What the last reading says, for the top of a screen.
#[derive(Clone, PartialEq, Debug)]
pub struct Standing {
    /// The entry it stands in.
    pub entry: Uuid,
    /// The answer in three or four words.
    pub title: &'static str,
    /// The gap with its doubt; none when the reading has none.
    pub gap: Option<String>,
    /// Everything that stands against coating, a figure each.
    pub against: Vec<String>,
    /// How old it is, and whether it still counts before the passes.
    pub counts: String,
    /// It still does.
    pub fresh: bool,
}

/// What a reading says about coating now, held against a film's limits.
///
/// # Example
/// ```
/// use chrono::{TimeDelta, Utc};
/// use coatwalk::{job::{airlog, fold::{Reading, Stamp}}, sums::air::Limits, units::UnitSet};
/// let at = "2026-10-05T12:00:00Z".parse().unwrap();
/// let stamp = Stamp { entry: uuid::Uuid::nil(), at, by: String::new() };
/// let reading = Reading { stamp, air_c: 18.0, rh_pct: Some(50.0), steel_c: Some(16.0), product_c: None };
/// let said = airlog::standing(&reading, &Limits::default(), at + TimeDelta::hours(1), UnitSet::Metric, &Utc);
/// assert!(said.fresh && said.against.is_empty());
/// assert_eq!(said.counts, "Read 1 h ago. It counts before the passes until 14:00, 2 h in all.");
/// ```
pub fn standing<Z: TimeZone>(
    reading: &Reading,
    limits: &Limits,
    now: DateTime<Utc>,
    units: UnitSet,
    zone: &Z,
) -> Standing {
    let conditions = || {
        Some(Conditions {
            air: Air::new(CELSIUS.of(reading.air_c), reading.rh_pct?),
            steel: CELSIUS.of(reading.steel_c?),
            product: reading.product_c.map(|c| CELSIUS.of(c)),
        })
    };
    let verdict = conditions().and_then(|c| air::verdict(c, limits, Doubts::default()).ok());
    let until = good_until(reading);
    let age = (now - reading.stamp.at).num_minutes();
    let read = if age < 1 { "just now".to_owned() } else { format!("{} ago", whole(age)) };
    let lasts = whole((until - reading.stamp.at).num_minutes());
    let wall = until.with_timezone(zone).time();
    let fresh = now <= until;
    let counts = match (verdict.is_some(), fresh) {
        (false, _) => format!("Read {read}, without humidity or steel: it does not count before the passes."),
        (true, true) => format!(
            "Read {read}. It counts before the passes until {:02}:{:02}, {lasts} in all.",
            wall.hour(),
            wall.minute(),
        ),
        (true, false) => format!("Read {read}: too old for the passes. It counted for {lasts}."),
    };
    let against = verdict.iter().flat_map(|v| v.against.iter().map(|r| because(r, units))).collect::<Vec<_>>();
    Standing {
        entry: reading.stamp.entry,
        title: title(verdict.as_ref(), fresh),
        gap: verdict.as_ref().map(|v| gap_words(v, units)),
        against,
        counts,
        fresh,
    }
}

fn title(verdict: Option<&Verdict>, fresh: bool) -> &'static str {
    let Some(v) = verdict else { return "Humidity and steel are missing" };
    match () {
        () if CELSIUS_DIFFERENCE.get(v.margin.gap) <= 0.0 => "The steel gets wet",
        () if !v.go() => "Not yet",
        () if !fresh => "Read again",
        () if v.within_doubt => "Too close to call",
        () => "Nothing here speaks against it",
    }
}

fn gap_words(v: &Verdict, units: UnitSet) -> String {
    let m = &v.margin;
    let side = if CELSIUS_DIFFERENCE.get(m.gap) < 0.0 { "under" } else { "above" };
    format!(
        "Steel {} {side} {}, give or take {}",
        apart(units, m.gap).trim_start_matches('-'),
        point_name(CELSIUS.get(m.against)),
        apart(units, m.doubt)
    )
}

/// A stretch of time in words: "25 min", "2 h", "3 h 10 min".
pub fn whole(n: i64) -> String {
    let words = said::minutes(n);
    words.strip_suffix(" 0 min").map_or(words.clone(), str::to_owned)
}

/// A longer stretch of time, to the hour: "6 h", "40 min".
pub fn about_hours(n: i64) -> String {
    if n < 55 { format!("{n} min") } else { format!("{} h", (n + 30) / 60) }
}

/// What the point is called at which water settles.
pub fn point_name(against_c: f64) -> &'static str {
    if against_c < 0.0 { "frost point" } else { "dew point" }
}

fn because(reason: &Reason, units: UnitSet) -> String {
    let of = |of: &Of| match of {
        Of::Steel => "Steel",
        Of::Air => "Air",
        Of::Product => "Product",
    };
    match reason {
        Reason::GapTooSmall { needed, .. } => format!("{} above is needed.", apart(units, *needed)),
        Reason::TooDamp { rh_percent, most_percent } => {
            format!("Air is at {rh_percent:.0} % RH, {most_percent:.0} % is the most.")
        }
        Reason::TooCold { of: what, is, least } => {
            format!("{} is at {}, {} is the least.", of(what), warm(units, *is), warm(units, *least))
        }
        Reason::TooHot { of: what, is, most } => {
            format!("{} is at {}, {} is the most.", of(what), warm(units, *is), warm(units, *most))
        }
    }
}
