//! The job's readings as a picture over days: [`AirLog`] in the user's units, drawn by [`Plot`]. The screen and the report
//! show the same one.
//!
//! May use: [`crate::job::airlog`], the pictures of the Sums. Must not: judge a reading, know a zone of its own.

use chrono::{DateTime, TimeZone, Utc};

use crate::job::airlog::{AirLog, Point, Steel, point_name};
use crate::job::stage::Stage;
use crate::sheets::{Dot, Flag, Plot, TimeMark, Trace};
use crate::units::{CELSIUS, CELSIUS_DIFFERENCE, Measure, Quantity, UnitSet};

/// Marks of the time axis that find room.
const TIMES: i64 = 5;

/// The picture, not drawn yet.
pub fn air_plot<Z: TimeZone>(log: &AirLog, units: UnitSet, zone: &Z) -> Plot {
    let hours = |at: DateTime<Utc>| (at - log.from).num_seconds() as f64 / 3600.0;
    let degrees = |c: f64| Measure::Temperature.unit(units).from_si(CELSIUS.of(c).si());
    let apart = Measure::Warmer.unit(units);
    let needed = CELSIUS_DIFFERENCE.of(log.needed_c).si();
    let line = |pick: fn(&Point) -> Option<f64>| {
        let along =
            |run: &Vec<Point>| run.iter().filter_map(|p| Some((hours(p.at), degrees(pick(p)?)))).collect::<Vec<_>>();
        (log.runs.iter().map(along).collect::<Vec<_>>(), along(&log.ahead))
    };
    let trace = |look, ahead_look, words, pick| {
        let (runs, ahead) = line(pick);
        Trace { look, ahead_look, runs, ahead, words }
    };
    let all = || log.runs.iter().flatten().chain(&log.ahead);
    let lowest = all().filter_map(|p| p.steel).map(|s| s.against_c).fold(f64::INFINITY, f64::min);
    let wrong = |s: Option<Steel>| s.is_some_and(|s| s.gap_c() < log.needed_c - 1e-9);
    let name = match point_name(lowest) {
        "frost point" => "frost point",
        _ => "dew point",
    };
    Plot {
        traces: vec![
            trace("line thin", "line thin dots", "air", |p| Some(p.air_c)),
            trace("line dash", "line dash dots", name, |p| p.steel.map(|s| s.against_c)),
            trace("line", "line dots", "steel", |p| p.steel.map(|s| s.c)),
        ],
        band: Some((1, apart.from_si(needed))),
        stretches: log.too_small.iter().map(|(from, to)| (hours(*from), hours(*to))).collect(),
        stretch_words: "too close",
        dots: log
            .runs
            .iter()
            .flatten()
            .map(|p| Dot { at: (hours(p.at), degrees(p.steel.map_or(p.air_c, |s| s.c))), wrong: wrong(p.steel) })
            .collect(),
        flags: log
            .passes
            .iter()
            .map(|p| Flag {
                from: hours(p.from),
                to: hours(p.to),
                words: if p.stage == Stage::FirstPass { "1st pass".into() } else { "2nd pass".into() },
            })
            .collect(),
        times: log
            .ticks(TIMES, zone)
            .into_iter()
            .map(|t| TimeMark { at: hours(t.at), words: t.words, day: t.day })
            .collect(),
        span: (0.0, hours(log.to)),
        now: log.now.map(hours),
        words: log.words(units),
    }
}
