//! Opening a long job against its floor: `cargo bench --bench fold`.
//!
//! 100,000 stored lines are read and folded; the floor is serde_json alone parsing the same bytes (into its own values).

use std::hint::black_box;
use std::time::{Duration, Instant};

use chrono::{DateTime, TimeDelta, Utc};
use coatwalk::job::entry::{AreaId, AreaSeed, Entry, VERSION, What};
use coatwalk::job::log::Log;
use coatwalk::job::stage::Stage;
use uuid::Uuid;

const ENTRIES: u64 = 100_000;
const ROUNDS: usize = 5;

fn id(n: u64) -> Uuid {
    uuid::Builder::from_unix_timestamp_millis(1_790_000_000_000 + n, &[3; 10]).into_uuid()
}

/// A job of many taps: notes, ticks, stages done and opened again, readings.
fn lines() -> Vec<String> {
    let start: DateTime<Utc> = "2026-10-05T06:00:00Z".parse().expect("a date");
    let area = |n: u64| AreaId(id(n % 12));
    let seeds = (0..12).map(|n| AreaSeed { id: area(n), of: String::new(), name: format!("Area {n}") }).collect();
    let what = |n: u64| match n % 5 {
        0 => What::Done { stage: Stage::ALL[(n / 5 % 15) as usize], areas: vec![area(n / 75)] },
        1 => What::Note { stage: Stage::Mend, area: Some(area(n)), text: format!("Rust by the step, patch {n}") },
        2 => What::Ticked { stage: Stage::Survey, item: format!("check-{}", n % 40), on: true },
        3 => What::Reading {
            air_c: 15.0 + (n % 10) as f64 / 10.0,
            rh_pct: Some(60.0),
            steel_c: Some(13.5),
            product_c: None,
        },
        _ => What::MadeSafe { stage: Stage::Cover, point: "cover-battery".into() },
    };
    let opened = What::Opened { name: "Long job".into(), machine: "trailer".into(), seeds, demo: false };
    std::iter::once(opened)
        .chain((1..ENTRIES).map(what))
        .zip(100u64..)
        .map(|(what, n)| {
            let at = start + TimeDelta::seconds(n as i64);
            Entry { v: VERSION, id: id(n), job: id(0), at, by: String::new(), what }.line()
        })
        .collect()
}

fn median(mut run: impl FnMut()) -> Duration {
    let mut times: Vec<_> = (0..ROUNDS)
        .map(|_| {
            let start = Instant::now();
            run();
            start.elapsed()
        })
        .collect();
    times.sort_unstable();
    times[ROUNDS / 2]
}

fn main() {
    let lines = lines();
    let parse = median(|| {
        for line in &lines {
            black_box(serde_json::from_str::<serde_json::Value>(line).expect("a line of ours"));
        }
    });
    let open = median(|| {
        let log = Log::from_lines(&lines);
        assert_eq!(log.len(), ENTRIES as usize);
        black_box(log.job().readings.len());
    });
    let log = Log::from_lines(&lines);
    let fold = median(|| {
        let mut job = coatwalk::job::fold::Job::default();
        log.entries().for_each(|e| job.apply(e));
        black_box(job.readings.len());
    });
    let ms = |t: Duration| t.as_secs_f64() * 1e3;
    let ratio = |t: Duration| t.as_secs_f64() / parse.as_secs_f64();
    println!("| {ENTRIES} entries, median of {ROUNDS} | ms | of the parse |");
    println!("|---|---|---|");
    println!("| serde_json parses the lines (floor) | {:.1} | 1.00 |", ms(parse));
    println!("| read, sort and fold them | {:.1} | {:.2} |", ms(open), ratio(open));
    println!("| the fold alone | {:.1} | {:.2} |", ms(fold), ratio(fold));
}
