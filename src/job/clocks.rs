//! Everything that counts down in a job, in one list.
//!
//! May use: the job, [`super::clock`], stretches. Must not: reach for a clock; `now` is an argument.

use chrono::{DateTime, TimeDelta, Utc};

use super::air::minutes;
use super::clock::{self, FlashOff};
use super::entry::{AreaId, Covering};
use super::fold::Job;
use super::stage::Stage;
use super::stretch::{self, clock_words};

/// What a clock is for.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Kind {
    /// Soap on: to be rinsed before it ends.
    Stretch,
    /// The first pass flashes off.
    FlashOff,
    /// The film dries: paper and foil come off then.
    TouchDry,
    /// The film airs out until refit.
    AirOut,
    /// One of his own, by its name.
    Own,
}

/// A clock.
#[derive(Clone, PartialEq, Debug)]
pub struct Clock {
    /// The same as long as it is the same clock: "stretch/…", "own/…", "flash-off", "touch-dry", "air-out".
    pub id: String,
    pub title: String,
    pub kind: Kind,
    pub from: DateTime<Utc>,
    /// None when it is not known: nobody has read the shed, or it is too cold.
    pub ends: Option<DateTime<Utc>>,
    /// Its time is up.
    pub over: bool,
    /// When it rings, if not at its end: a stretch calls before the soap can dry.
    pub calls: Option<DateTime<Utc>>,
    pub stage: Option<Stage>,
    pub area: Option<AreaId>,
}

/// A clock often set by hand.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Often {
    pub name: &'static str,
    /// What it is usually set to; none when it is reckoned or depends on the product.
    pub minutes: Option<f64>,
    pub stage: Stage,
}

/// Clocks often set by hand (minutes: common practice, no source; the product's sheet and the SDS win).
pub const OFTEN: [Often; 3] = [
    Often { name: "Test patch", minutes: Some(24.0 * 60.0), stage: Stage::Survey },
    Often { name: "Warm-up", minutes: None, stage: Stage::Dry },
    Often { name: "Cartridge change", minutes: Some(8.0 * 60.0), stage: Stage::FirstPass },
];

/// Every clock that counts now: those that are over first, then the soonest; what has no end known stands last.
pub fn running(job: &Job, now: DateTime<Utc>) -> Vec<Clock> {
    if job.closed.is_some() {
        return Vec::new();
    }
    let mut all: Vec<Clock> = stretches(job).chain(own(job)).collect();
    all.extend(flash_off(job));
    all.extend(film(job, now));
    for clock in &mut all {
        clock.over |= clock.ends.is_some_and(|e| e <= now);
    }
    all.sort_by_key(|c| (!c.over, c.ends.is_none(), c.ends, c.id.clone()));
    all
}

impl Clock {
    /// It is time to look.
    pub fn rings(&self, now: DateTime<Utc>) -> bool {
        self.over || self.calls.is_some_and(|at| at <= now)
    }

    /// The same as long as it is the same clock with the same end: what rang once under this word does not ring again,
    /// and a clock that moved does.
    pub fn ring_word(&self) -> String {
        format!("{}@{}", self.id, self.ends.map_or(0, |e| e.timestamp() / 60))
    }

    /// Where one goes when it rings.
    pub fn words_when_over(&self) -> &'static str {
        match self.kind {
            Kind::Stretch => "Rinse it now, from the top down.",
            Kind::FlashOff => "Read the air, then the second pass.",
            Kind::TouchDry => "Take paper, tape and foil off. Respirator on.",
            Kind::AirOut => "Count the covers, then refit.",
            Kind::Own => "Its time is up.",
        }
    }
}

/// The clocks that ring and whose word is not among those that rang: to be rung now. At a start they ran out while nobody
/// looked, and [`words`] tell how late it is.
pub fn to_ring(job: &Job, rang: &[String], now: DateTime<Utc>) -> Vec<Clock> {
    let new = |c: &Clock| c.rings(now) && !rang.contains(&c.ring_word());
    running(job, now).into_iter().filter(new).collect()
}

/// What a clock says: "rinse in 1:40", "over by 0:30", "25 min to go", "ready since 12 min".
pub fn words(clock: &Clock, now: DateTime<Utc>) -> String {
    let Some(ends) = clock.ends else {
        return if clock.over { "ready".into() } else { "not known: read the shed's air".into() };
    };
    let left = ends - now;
    let whole = |t: TimeDelta, up: i64| minutes((t.num_seconds().abs() + up) / 60);
    match (clock.kind, ends <= now) {
        (Kind::Stretch, false) => format!("rinse in {}", clock_words(left)),
        (Kind::Stretch, true) => format!("over by {}", clock_words(left)),
        (_, false) => format!("{} to go", whole(left, 59)),
        (Kind::Own, true) => format!("up since {}", whole(left, 0)),
        (_, true) => format!("ready since {}", whole(left, 0)),
    }
}

fn stretches(job: &Job) -> impl Iterator<Item = Clock> {
    stretch::open(job).map(|s| Clock {
        id: format!("stretch/{}", s.id),
        title: format!("Soap on: {}", s.words(job)),
        kind: Kind::Stretch,
        from: s.stamp.at,
        ends: Some(s.ends()),
        over: false,
        calls: Some(s.calls()),
        stage: Some(Stage::Degrease),
        area: Some(s.area),
    })
}

fn own(job: &Job) -> impl Iterator<Item = Clock> {
    job.clocks.iter().filter(|c| c.stopped.is_none()).map(|c| Clock {
        id: format!("own/{}", c.id),
        title: c.name.clone(),
        kind: Kind::Own,
        from: c.stamp.at,
        // The fold takes in nothing longer than a year.
        ends: Some(c.stamp.at + TimeDelta::milliseconds((c.minutes * 60_000.0) as i64)),
        over: false,
        calls: None,
        stage: OFTEN.iter().find(|o| o.name == c.name).map(|o| o.stage),
        area: None,
    })
}

/// From the last first pass until a second one begins after it.
fn flash_off(job: &Job) -> Option<Clock> {
    let from = *job.last_done.get(&Stage::FirstPass)?;
    let begun = job.last_done.get(&Stage::SecondPass).is_some_and(|second| *second > from);
    let none = job.count(Stage::FirstPass).done == 0 || job.count(Stage::SecondPass).open == 0;
    (!begun && !none).then(|| Clock {
        id: "flash-off".into(),
        title: "First pass flashes off".into(),
        kind: Kind::FlashOff,
        from,
        ends: Some(from + TimeDelta::minutes(FlashOff::of_job(job).minutes)),
        over: false,
        calls: None,
        stage: Some(Stage::SecondPass),
        area: None,
    })
}

/// Touch-dry while paper or foil waits for it or it is not reached, and the air-out until that stage is settled.
fn film(job: &Job, now: DateTime<Utc>) -> Vec<Clock> {
    let Some(air) = clock::air_out(job, now).filter(|_| job.count(Stage::AirOut).open > 0) else { return Vec::new() };
    let one = |id: &str, title: &str, kind, ends, over| Clock {
        id: id.into(),
        title: title.into(),
        kind,
        from: air.started,
        ends,
        over,
        calls: None,
        stage: Some(Stage::AirOut),
        area: None,
    };
    let masked = job.covers_on(Covering::Paper) + job.covers_on(Covering::Foil) > 0;
    let waits = masked || air.touch_dry.is_none_or(|t| t > now);
    let touch_dry = one("touch-dry", "Touch-dry: paper and foil off", Kind::TouchDry, air.touch_dry, false);
    let aired = one("air-out", "Air out", Kind::AirOut, air.finish, air.over);
    waits.then_some(touch_dry).into_iter().chain([aired]).collect()
}
