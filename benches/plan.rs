//! A plan of 200 areas by fifteen stages, drawn anew as after every tap: `cargo bench --bench plan`. Budget 5 ms.
//!
//! Plain `Instant`: the figure wanted is a ceiling, not a trend.

use std::collections::BTreeMap;
use std::hint::black_box;
use std::time::{Duration, Instant};

use chrono::{DateTime, NaiveDate, TimeDelta, Utc};
use coatwalk::job::entry::{AreaId, AreaSeed, Entry, VERSION, What};
use coatwalk::job::fold::Job;
use coatwalk::job::kinds::kind;
use coatwalk::job::machine::Machine;
use coatwalk::job::materials::{self, Cover, Inputs};
use coatwalk::job::plan::{self, Setup};
use coatwalk::job::product::{Product, Use};
use coatwalk::job::stage::Stage;
use uuid::Uuid;

const BUDGET: Duration = Duration::from_millis(5);
const AREAS: usize = 200;
const ROUNDS: u32 = 100;

/// 200 areas of a loader, half of them done as far as Degrease.
fn job(start: DateTime<Utc>) -> Job {
    let list = kind("compact-wheel-loader").expect("a kind").areas;
    let seed = |i: usize| AreaSeed {
        id: AreaId(Uuid::from_u128(i as u128 + 1)),
        of: list[i % list.len()].id.into(),
        name: format!("Area {i}"),
    };
    let areas: Vec<AreaSeed> = (0..AREAS).map(seed).collect();
    let half: Vec<AreaId> = areas.iter().step_by(2).map(|a| a.id).collect();
    let opened =
        What::Opened { name: "Bench".into(), machine: "compact-wheel-loader".into(), seeds: areas, demo: false };
    let done = Stage::ALL.into_iter().take(6).map(|stage| What::Done { stage, areas: half.clone() });
    let mut job = Job::default();
    for (n, what) in std::iter::once(opened).chain(done).enumerate() {
        let id = Uuid::from_u128(1000 + n as u128);
        let at = start + TimeDelta::minutes(n as i64);
        job.apply(&Entry { v: VERSION, id, job: Uuid::nil(), at, by: String::new(), what });
    }
    job
}

fn time(name: &str, mut f: impl FnMut()) -> Duration {
    for _ in 0..5 {
        f();
    }
    let start = Instant::now();
    for _ in 0..ROUNDS {
        f();
    }
    let each = start.elapsed() / ROUNDS;
    println!("{name:<44} {each:>10.1?}");
    each
}

fn main() {
    let start: DateTime<Utc> = "2026-10-05T08:00:00Z".parse().expect("a time");
    let job = job(start);
    let setup = Setup { machine: Machine::of_kind("compact-wheel-loader"), ..Setup::default() };
    let film = Product::generic(Use::LiquidFilm, Uuid::nil());
    let zone = chrono_tz::Europe::Berlin;
    let mut setup = black_box(setup);
    setup.how.first_job = true;
    setup.how.filthy = true;
    let draw = || plan::plan(&setup, Some(&job), &film, &[1.1, 0.9], start, &zone);
    let drawn = draw();
    assert_eq!(drawn.figures.areas.len(), AREAS);
    let planned = time("plan, 200 areas x 15 stages", || drop(black_box(draw())));
    let priced = time("its choices", || {
        drop(black_box(plan::choices(&drawn, &setup, Some(&job), &film, &[], start, &zone)));
    });
    let past = BTreeMap::new();
    let bought = time("materials, 15 lines", || {
        drop(black_box(materials::list(&Inputs {
            figures: &drawn.figures,
            work: &drawn.work,
            how: &setup.how,
            day_hours: 8.0,
            products: &[],
            supplies: &[],
            past: &past,
            cover: Cover::High,
            today: NaiveDate::default(),
            seed: 1,
        })));
    });
    println!("plan {planned:.1?} of {BUDGET:?}; with choices and materials {:.1?}", planned + priced + bought);
    assert!(planned <= BUDGET, "the plan takes {planned:.1?}, over {BUDGET:?}");
}
