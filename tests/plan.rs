//! The plan before the work: what the trade expects of it, and what must hold whatever is typed.
#![cfg(not(target_arch = "wasm32"))]

#[path = "plan/absurd.rs"]
mod absurd;
#[path = "plan/airlog.rs"]
mod airlog;
#[path = "plan/estimates.rs"]
mod estimates;
#[path = "plan/materials.rs"]
mod materials;
#[path = "plan/past.rs"]
mod past;
#[path = "plan/schedule.rs"]
mod schedule;
#[path = "plan/shed.rs"]
mod shed;
#[path = "plan/strip.rs"]
mod strip;
#[path = "plan/took.rs"]
mod took;
#[path = "plan/zones.rs"]
mod zones;

use std::collections::BTreeMap;

use chrono::{DateTime, NaiveDate, TimeZone, Utc};
use coatwalk::job::entry::{AreaId, AreaSeed, Entry, VERSION, What};
use coatwalk::job::fold::Job;
use coatwalk::job::kinds::kind;
use coatwalk::job::machine::{self, Figures, Machine};
use coatwalk::job::materials::{Cover, Inputs, Item, List, Supply, list};
use coatwalk::job::plan::{Plan, Setup, plan};
use coatwalk::job::product::{Product, Use};
use uuid::Uuid;

pub fn at(text: &str) -> DateTime<Utc> {
    text.parse().unwrap()
}

pub fn today() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 10, 5).unwrap()
}

pub fn generic(used_as: Use) -> Product {
    Product::generic(used_as, Uuid::nil())
}

/// The trade's usual example: a compact wheel loader of 5.0 × 1.75 × 2.5 m.
pub fn loader() -> Machine {
    Machine::of_kind("compact-wheel-loader").sized(5.0, 1.75, 2.5)
}

pub fn figures(machine: &Machine) -> Figures {
    machine.figures(&machine::places_of_kind(kind(&machine.kind).unwrap()))
}

pub fn setup() -> Setup {
    Setup { machine: loader(), shed_c: Some(20.0), ..Setup::default() }
}

/// Monday 08:00, by a clock that stands at UTC.
pub fn monday() -> DateTime<Utc> {
    at("2026-10-05T08:00:00Z")
}

pub fn fresh<Z: TimeZone>(setup: &Setup, from: DateTime<Utc>, zone: &Z) -> Plan {
    plan(setup, None, &generic(Use::LiquidFilm), &[], from, zone)
}

/// The list for a setup, all else as it comes.
pub fn shop(setup: &Setup, products: &[Product], supplies: &[Supply], cover: Cover, seed: u64) -> List {
    let plan = fresh(setup, monday(), &Utc);
    list(&Inputs {
        figures: &plan.figures,
        work: &plan.work,
        how: &setup.how,
        day_hours: setup.week.hours,
        products,
        supplies,
        past: &BTreeMap::<Item, Vec<f64>>::new(),
        cover,
        today: today(),
        seed,
    })
}

pub fn area(n: u128) -> AreaId {
    AreaId(Uuid::from_u128(n))
}

/// A job on the loader's own areas, with entries written at their times.
pub fn job(entries: &[(DateTime<Utc>, What)]) -> Job {
    let kind = kind("compact-wheel-loader").unwrap();
    let seed = |(n, a): (usize, &machine_area::KindArea)| AreaSeed {
        id: area(n as u128 + 1),
        of: a.id.into(),
        name: a.name.into(),
    };
    let areas = kind.areas.iter().enumerate().map(seed).collect();
    let opened = (monday(), What::Opened { name: "Test".into(), machine: kind.id.into(), seeds: areas, demo: false });
    let mut job = Job::default();
    for (n, (at, what)) in std::iter::once(&opened).chain(entries).enumerate() {
        let (id, what) = (Uuid::from_u128(1000 + n as u128), what.clone());
        job.apply(&Entry { v: VERSION, id, job: Uuid::from_u128(7), at: *at, by: String::new(), what });
    }
    assert_eq!(job.problems, []);
    job
}

mod machine_area {
    pub use coatwalk::job::kinds::KindArea;
}

/// Ids of all the loader's areas.
pub fn all_areas() -> Vec<AreaId> {
    (1..=kind("compact-wheel-loader").unwrap().areas.len() as u128).map(area).collect()
}
