//! The invented example as entries of a log, so that one can look round a job in its middle.
//!
//! May use: [`DEMO`], the entries. Must not: reach for a clock or random numbers; both come in.

use chrono::{DateTime, TimeDelta, Utc};
use uuid::Uuid;

use super::demo::{Areas, DEMO};
use super::entry::{AreaId, AreaSeed, Covering, Fastener, Fixing, What};
use super::guide::guide;
use super::kinds::kind;
use super::stage::Stage;

/// The job's entries with their times, oldest first, ending a little before `now`. `id` gives fresh ids for areas.
pub fn entries(now: DateTime<Utc>, mut id: impl FnMut() -> Uuid) -> Vec<(DateTime<Utc>, What)> {
    let Some(kind) = kind(DEMO.kind) else { return Vec::new() };
    let seeds: Vec<AreaSeed> =
        kind.areas.iter().map(|a| AreaSeed { id: AreaId(id()), of: a.id.into(), name: a.name.into() }).collect();
    let area = |of: &str| seeds.iter().find(|s| s.of == of).map(|s| s.id);
    let areas = |which: Areas| match which {
        Areas::All => seeds.iter().map(|s| s.id).collect(),
        Areas::Only(ids) => ids.iter().filter_map(|i| area(i)).collect::<Vec<_>>(),
    };
    let at_of = |stage: Stage| DEMO.done.iter().find(|d| d.stage == stage).map_or(0, |d| d.at_min);

    let opened =
        What::Opened { name: DEMO.machine.into(), machine: kind.id.into(), seeds: seeds.clone(), demo: true };
    let mut all: Vec<(u32, What)> = vec![(0, opened)];
    for done in DEMO.done {
        let stage = done.stage;
        let made_safe = guide(stage).safety.iter().map(|p| What::MadeSafe { stage, point: p.id.into() });
        all.extend(made_safe.map(|w| (done.at_min, w)));
        let ticked = guide(stage).checks.iter().filter(|c| !DEMO.unticked.iter().any(|u| u.check == c.id));
        let part_done = areas(done.areas).len() < seeds.len();
        // A stage still in hand has its checks ahead of it.
        all.extend(
            ticked.filter(|_| !part_done).map(|c| (done.at_min, What::Ticked { stage, item: c.id.into(), on: true })),
        );
        all.push((done.at_min, What::Done { stage, areas: areas(done.areas) }));
    }
    for s in DEMO.skipped {
        all.push((s.at_min, What::Skipped { stage: s.stage, areas: areas(s.areas), reason: s.reason.into() }));
    }
    for place in DEMO.covers {
        all.push((
            at_of(Stage::Cover),
            What::CoverOn {
                covering: Covering::Cover,
                area: None,
                place: (*place).into(),
                with: String::new(),
                arms: String::new(),
            },
        ));
    }
    for m in DEMO.masks {
        let covering = if m.what.starts_with("Foil") { Covering::Foil } else { Covering::Paper };
        all.push((
            at_of(Stage::Mask),
            What::CoverOn {
                covering,
                area: area(m.area),
                place: m.what.into(),
                with: String::new(),
                arms: String::new(),
            },
        ));
    }
    for (number, b) in (1..).zip(DEMO.bags) {
        let Some(area) = area(b.area) else { continue };
        let fasteners: Box<[Fastener]> = b
            .fasteners
            .iter()
            .map(|f| Fastener { size: f.thread.into(), length_mm: Some(f.length_mm.into()), count: f.count })
            .collect();
        let put = if b.also.is_empty() { b.lies.into() } else { format!("{}. Also in the bag: {}", b.lies, b.also) };
        all.push((
            b.at_min,
            What::Bagged {
                number,
                part: b.part.into(),
                area,
                put,
                fasteners,
                plugs: None,
                screwed: false,
                behind: Box::default(),
                coat: false,
                joint: Fixing::Plain,
                photos: Box::default(),
            },
        ));
    }
    for m in DEMO.mixes {
        all.push((
            m.at_min,
            What::Mixed {
                stage: m.stage,
                product: m.product.into(),
                water_parts: m.water_parts.into(),
                concentrate_parts: m.concentrate_parts.into(),
                water_ml: m.water_ml.into(),
                concentrate_ml: m.concentrate_ml.into(),
            },
        ));
    }
    for r in DEMO.readings {
        let coldest = r.steel_c.iter().map(|(_, c)| *c).fold(f64::INFINITY, f64::min);
        let reading =
            What::Reading { air_c: r.air_c, rh_pct: Some(r.rh_pct), steel_c: Some(coldest), product_c: None };
        all.push((r.at_min, reading));
    }
    for n in DEMO.notes {
        all.push((n.at_min, What::Note { stage: n.stage, area: n.area.and_then(area), text: n.words.into() }));
    }
    // A stable sort: what happened at the same minute stays in the order above, so "done" follows its safety points.
    all.sort_by_key(|(min, _)| *min);
    let last = all.last().map_or(0, |(min, _)| *min);
    all.into_iter().map(|(min, w)| (now - TimeDelta::minutes(i64::from(last - min) + 10), w)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::entry::{Entry, VERSION};
    use crate::job::log::{Log, id_after};

    #[test]
    fn the_example_stands_in_the_middle_of_masking_without_a_problem() {
        let now = DateTime::from_timestamp(1_790_000_000, 0).unwrap();
        let mut n = 0;
        let mut fresh = || {
            n += 1;
            uuid::Builder::from_unix_timestamp_millis(1_790_000_000_000 + n, &[7; 10]).into_uuid()
        };
        let entries = entries(now, &mut fresh);
        let (job, mut newest, mut log) = (fresh(), None, Log::default());
        for (at, what) in entries {
            let id = id_after(newest, fresh());
            newest = Some(id);
            assert!(at < now);
            log.add(Entry { v: VERSION, id, job, at, by: String::new(), what });
        }
        let job = log.job();
        assert_eq!(job.problems, []);
        assert!(job.demo);
        assert_eq!(job.in_hand(), Some(Stage::Mask));
        assert_eq!((job.bags.len(), job.covers_on(Covering::Foil), job.mixes.len()), (3, 1, 2));
    }
}
