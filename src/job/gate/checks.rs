//! The rules behind [`GATES`](super::GATES), one function each.
//!
//! May use: the job, the sums. Must not: change a job, reach for a clock.

use chrono::{DateTime, TimeDelta, Utc};
use uuid::Uuid;

use super::Remedy;
use crate::job::air;
use crate::job::clock::{self, FlashOff};
use crate::job::entry::{AreaId, Covering};
use crate::job::fold::{Cell, Found, Job, Stretch};
use crate::job::moment::day;
use crate::job::product::{Use, origin};
use crate::job::stage::{Scope, Stage, Stage::*};
use crate::job::stretch;

pub(super) fn order(job: &Job, stage: Stage, areas: &[AreaId], _: DateTime<Utc>) -> Option<(String, Remedy)> {
    // Where the whole machine stands in one stage, every area must have come so far; else only the areas asked for.
    let whole = stage.scope() == Scope::Whole;
    for earlier in Stage::ALL.into_iter().take_while(|s| *s < stage) {
        let open: Vec<_> =
            job.areas().filter(|a| (whole || areas.contains(&a.id)) && !a.cell(earlier).settled()).collect();
        let Some(first) = open.first() else { continue };
        let (name, title) = (&first.name, earlier.title());
        let because = match (first.cell(earlier), open.len()) {
            (Cell::Again(why), 1) => format!("{title} has to be done again on {name}: {why}"),
            (Cell::Again(why), n) => format!("{title} has to be done again on {n} areas: {why}"),
            (_, 1) => format!("{title} is still open on {name}"),
            (_, n) => format!("{title} is still open on {n} areas, {name} first"),
        };
        return Some((because, Remedy::Finish(earlier)));
    }
    None
}

pub(super) fn first_pass_everywhere(
    job: &Job,
    _: Stage,
    areas: &[AreaId],
    _: DateTime<Utc>,
) -> Option<(String, Remedy)> {
    let only_loose = areas.iter().all(|id| job.area(*id).is_some_and(|a| a.loose()));
    let open: Vec<_> = job.areas().filter(|a| !a.loose() && !a.cell(FirstPass).settled()).collect();
    let first = open.first().filter(|_| !only_loose)?;
    Some((
        format!("the first pass is still open on {} of the machine's areas, {} first", open.len(), first.name),
        Remedy::Finish(FirstPass),
    ))
}

pub(super) fn wash_air(job: &Job, _: Stage, _: &[AreaId], now: DateTime<Utc>) -> Option<(String, Remedy)> {
    air::against_washing(job.last_reading()?, now).map(|because| (because, Remedy::Reading))
}

pub(super) fn film_air(job: &Job, stage: Stage, _: &[AreaId], now: DateTime<Utc>) -> Option<(String, Remedy)> {
    air::against_pass(job, Use::film_of(stage)?, now).map(|because| (because, Remedy::Reading))
}

pub(super) fn product_dates(job: &Job, stage: Stage, _: &[AreaId], now: DateTime<Utc>) -> Option<(String, Remedy)> {
    let used_as = Use::film_of(stage)?;
    let film = job.product(used_as)?;
    // By the date in UTC: a product does not turn bad at a midnight.
    let expired = film.expires.filter(|e| *e < now.date_naive());
    let expired = expired.map(|e| format!("{} was to be used by {}", film.name, day::write(e)));
    let batch = film.batch.trim().is_empty().then(|| format!("the batch of {} is not written down", film.name));
    let because: Vec<String> = expired.into_iter().chain(batch).collect();
    (!because.is_empty()).then(|| (because.join(", and "), Remedy::Product(used_as)))
}

pub(super) fn flash_off(job: &Job, _: Stage, _: &[AreaId], now: DateTime<Utc>) -> Option<(String, Remedy)> {
    let FlashOff { minutes, own } = FlashOff::of_job(job);
    let ready = *job.last_done.get(&FirstPass)? + TimeDelta::minutes(minutes);
    let left = (ready - now).num_seconds();
    (left > 0).then(|| {
        (
            format!("the first pass has {} min of its {minutes} to flash off ({})", (left + 59) / 60, origin(own)),
            Remedy::Until(ready),
        )
    })
}

pub(super) fn aired_out(job: &Job, _: Stage, _: &[AreaId], now: DateTime<Utc>) -> Option<(String, Remedy)> {
    let clock = clock::air_out(job, now)?;
    clock.against().map(|because| (because, clock.finish.map_or(Remedy::Reading, Remedy::Until)))
}

pub(super) fn still_on(job: &Job, cover: Covering) -> Option<(String, Remedy)> {
    let on: Vec<_> = job.covers.iter().filter(|c| c.cover == cover && c.off.is_none()).collect();
    let first = on.first()?;
    let what = cover.title().to_ascii_lowercase();
    let because = match on.len() {
        1 => format!("{what} is still on: {}", first.place),
        n => format!("{what} is still on in {n} places, {} first", first.place),
    };
    Some((because, Remedy::Uncover(cover)))
}

pub(super) fn bags_back(job: &Job, _: Stage, areas: &[AreaId], _: DateTime<Utc>) -> Option<(String, Remedy)> {
    let full: Vec<_> = job.bags_to_go_back().into_iter().filter(|b| areas.contains(&b.area)).collect();
    let first = full.first()?;
    Some((format!("{} is not back yet", first.words()), Remedy::Bag(first.number)))
}

/// The stretches of an area that a stage looks at. Neutralise asks only for those begun after Degrease was settled: the
/// others were asked for there.
fn stretches<'a>(job: &'a Job, stage: Stage, areas: &'a [AreaId]) -> impl Iterator<Item = &'a Stretch> {
    let since = move |area| match job.area(area).map(|a| a.cell(Degrease)) {
        Some(Cell::Done(s) | Cell::Skipped(s, _)) if stage == Neutralise => Some(s.entry),
        _ => None,
    };
    job.stretches.iter().filter(move |s| areas.contains(&s.area) && Some(s.id) > since(s.area))
}

/// The last word about soap on an area: a reason given before it does not speak of it.
pub(super) fn last_soap(job: &Job, area: AreaId) -> Option<Uuid> {
    job.stretches.iter().filter(|s| s.area == area).map(Stretch::last_entry).max()
}

pub(super) fn soap_off(job: &Job, stage: Stage, areas: &[AreaId], now: DateTime<Utc>) -> Option<(String, Remedy)> {
    let on: Vec<_> = stretches(job, stage, areas).filter(|s| s.rinsed.is_none()).collect();
    let first = on.first()?;
    let minutes = (now - first.stamp.at).num_minutes().max(0);
    let place = first.words(job);
    let limit = first.minutes;
    let because = match on.len() {
        1 => format!("soap is still on at {place}, {minutes} min of {limit}: rinse it"),
        n => format!("soap is still on at {n} stretches, {place} first, {minutes} min of {limit}: rinse them"),
    };
    Some((because, Remedy::Rinse(first.id)))
}

pub(super) fn second_wash(job: &Job, stage: Stage, areas: &[AreaId], now: DateTime<Utc>) -> Option<(String, Remedy)> {
    let asked: Vec<_> = areas.iter().filter_map(|a| stretch::second_wash(job, *a, now)).collect();
    let bad = asked.into_iter().find(|bad| stretches(job, stage, areas).any(|s| s.id == bad.id))?;
    let over = bad.ran_over(now)?;
    let because = format!(
        "soap stood {over:.1} min over its {} min at {}: soap it once more and rinse in time",
        bad.minutes,
        bad.words(job)
    );
    Some((because, Remedy::Soap(bad.area)))
}

/// What was found there, is dealt with in this stage and is not yet.
fn open_findings<'a>(job: &'a Job, stage: Stage, areas: &'a [AreaId]) -> impl Iterator<Item = &'a Found> {
    job.found.iter().filter(move |f| f.sort.stage() == Some(stage) && areas.contains(&f.area) && f.dealt.is_none())
}

/// The last of them: a reason given before it does not speak of it.
pub(super) fn last_finding(job: &Job, stage: Stage, area: AreaId) -> Option<Uuid> {
    open_findings(job, stage, &[area]).map(|f| f.id).max()
}

pub(super) fn findings(job: &Job, stage: Stage, areas: &[AreaId], _: DateTime<Utc>) -> Option<(String, Remedy)> {
    let open: Vec<_> = open_findings(job, stage, areas).collect();
    let first = open.first()?;
    let (what, place) = (first.words(), job.area_name(first.area));
    let because = match open.len() {
        1 => format!("a finding is not dealt with: {what} on {place}"),
        n => format!("{n} findings are not dealt with, first: {what} on {place}"),
    };
    Some((because, Remedy::Finding(first.id)))
}

pub(super) fn keep_bare(job: &Job, stage: Stage, areas: &[AreaId], _: DateTime<Utc>) -> Option<(String, Remedy)> {
    let unseen: Vec<_> = areas.iter().filter_map(|a| job.area(*a)).filter(|a| a.bare_seen(stage).is_none()).collect();
    let first = unseen.first()?;
    let because = match unseen.len() {
        1 => format!("the keep-bare list is not answered on {}", first.name),
        n => format!("the keep-bare list is not answered on {n} areas, {} first", first.name),
    };
    Some((because, Remedy::BareList))
}
