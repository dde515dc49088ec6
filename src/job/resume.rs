//! After a break: where one stopped, what has grown stale, what to do first.
//!
//! May use: the job, the air's rules, clocks, gates. Must not: reach for a clock; `now` is an argument.

use chrono::{DateTime, TimeDelta, Utc};

use super::air;
use super::clocks::{self, Kind};
use super::entry::Covering;
use super::fold::{Cell, Job};
use super::gate;
use super::stage::Stage;

/// A break is what lasts longer than this, minutes (our own choice).
pub const BREAK_MIN: i64 = 30;

/// What is worth knowing on coming back.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Resume {
    /// How long nothing was logged, in words: "3 h 10 min".
    pub away: String,
    /// What is not what it was, the most pressing first; the first of them is what to do first.
    pub stale: Vec<String>,
}

/// Back after a break: none while the work goes on, when nothing was logged yet, or when the job is closed.
///
/// `last` is the moment of the last entry.
pub fn resume(job: &Job, last: Option<DateTime<Utc>>, now: DateTime<Utc>) -> Option<Resume> {
    let away = now - last?;
    if away < TimeDelta::minutes(BREAK_MIN) || job.closed.is_some() {
        return None;
    }
    Some(Resume { away: air::minutes(away.num_minutes()), stale: stale(job, now) })
}

fn stale(job: &Job, now: DateTime<Utc>) -> Vec<String> {
    let mut all = Vec::new();
    for c in clocks::running(job, now).into_iter().filter(|c| c.over) {
        all.push(match c.kind {
            Kind::Stretch => format!("{}: {}. Rinse it, then wash it once more", c.title, clocks::words(&c, now)),
            _ => format!("{}: {}", c.title, clocks::words(&c, now)),
        });
    }
    let in_hand = job.in_hand();
    let again = Stage::ALL.into_iter().flat_map(|s| {
        job.areas().filter_map(move |a| match a.cell(s) {
            Cell::Again(why) => Some(format!("{} again on {}: {why}", s.title(), a.name)),
            _ => None,
        })
    });
    all.extend(again.take(3));
    if matches!(in_hand, Some(Stage::Dry | Stage::Mask | Stage::FirstPass | Stage::SecondPass | Stage::AirOut))
        && let Some(r) = job.last_reading().filter(|r| air::good_until(r) < now)
    {
        let old = air::minutes((now - r.stamp.at).num_minutes());
        all.push(format!("The last reading of air and steel is {old} old: read them anew"));
    }
    // Said once a stage is in hand: "made safe" holds a working day.
    if let Some(stage) = in_hand {
        let old = super::guide::guide(stage).safety.iter().filter(|p| {
            let said = job.made_safe.contains_key(&(stage, p.id.to_owned()));
            said && !gate::made_safe(job, stage, p, now)
        });
        match old.count() {
            0 => {}
            1 => all.push(format!("1 safety point of {} has to be looked at again", stage.title())),
            n => all.push(format!("{n} safety points of {} have to be looked at again", stage.title())),
        }
    }
    let foil = job.covers_on(Covering::Foil);
    if foil > 0 {
        let places = if foil == 1 { "place" } else { "places" };
        all.push(format!("Foil is still on in {foil} {places}: nothing may move"));
    }
    let covers = job.covers_on(Covering::Cover);
    if covers > 0 && in_hand.is_none_or(|s| s >= Stage::Dry) {
        let places = if covers == 1 { "opening" } else { "openings" };
        all.push(format!("Covers are still on {covers} {places}: the engine stays locked"));
    }
    all
}
