//! The clocks a job runs: how far the film is, how long the first pass has to flash off.
//!
//! May use: [`crate::sums::cure`], the job. Must not: reach for a clock; `now` is an argument.

use chrono::{DateTime, TimeDelta, Utc};

use super::air::minutes;
use super::fold::Job;
use super::stage::Stage;
use crate::sums::cure::{self, Credit, Law, Logged, REFIT_HOURS};
use crate::units::{CELSIUS, HOUR};

/// The air-out clock.
#[derive(Clone, PartialEq, Debug)]
pub struct AirOut {
    /// The last second-pass entry.
    pub started: DateTime<Utc>,
    /// Areas still without their second pass: the clock starts anew with each.
    pub open: usize,
    /// Hours counted so far, as if at 20 °C.
    pub counted_h: f64,
    /// Hours wanted, at 20 °C.
    pub wanted_h: f64,
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
        let so_far =
            format!("the film has had {:.0} of {:.0} h, counted at 20 °C", self.counted_h.floor(), self.wanted_h);
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

/// The air-out clock, once a second pass was logged. Readings since then count from their time on; before the first
/// of them the last one before the pass is taken, if there is one.
pub fn air_out(job: &Job, now: DateTime<Utc>) -> Option<AirOut> {
    let started = *job.last_done.get(&Stage::SecondPass)?;
    if job.count(Stage::SecondPass).done == 0 {
        return None;
    }
    let hours = |at: DateTime<Utc>| (at - started).num_milliseconds() as f64 / 3_600_000.0;
    let (mut before, mut since) = (None, Vec::new());
    for r in &job.readings {
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
        wanted_h: REFIT_HOURS,
        shed_c,
        finish: None,
        over: false,
    };
    if let Some(c) = shed_c {
        let needed = HOUR.of(REFIT_HOURS);
        let sum =
            cure::progress(Law::default(), Credit::default(), &logged, HOUR.of(hours(now)), needed, CELSIUS.of(c));
        if let Ok(sum) = sum {
            clock.counted_h = HOUR.get(sum.equivalent);
            clock.over = clock.counted_h >= REFIT_HOURS;
            clock.finish =
                sum.finish.map(|f| started + TimeDelta::milliseconds((HOUR.get(f) * 3_600_000.0).round() as i64));
        }
    }
    Some(clock)
}
