//! The plan drawn to scale: hours down the page, work solid, waits hatched, what is done ticked.
//!
//! May use: the plan's strip. Must not: place anything in time; [`plan::strip`] does.

use leptos::prelude::*;

use super::live::live;
use crate::app::desk::planning::Planning;
use crate::job::plan::{self, Bar, Mark, Note, Strip};
use chrono::Local;

/// Width of the drawing, px.
const WIDTH: f64 = 328.0;
/// Dates and hours stand left of it.
const GUTTER: f64 = 60.0;
/// Waits lie in this width, beside each other.
const WAITS: f64 = 54.0;
/// The lane of work.
const WORK: [f64; 2] = [GUTTER + WAITS + 2.0, GUTTER + WAITS + 42.0];
/// Words begin here.
const WORDS: f64 = WORK[1] + 16.0;

/// The timeline of the open job.
pub fn timeline(planning: Planning) -> AnyView {
    live(move || {
        let (from, now) = (planning.from(), planning.now.get());
        let strip = planning.plan.with(|p| planning.setup.with(|s| plan::strip(p, s, from, now, &Local)));
        match strip {
            Some(strip) => drawn(&strip),
            None => view! { <p class="quiet" data-id="strip-empty">"Nothing is left to be planned."</p> }.into_any(),
        }
    })
}

fn drawn(strip: &Strip) -> AnyView {
    let words: Vec<&str> = strip.notes.iter().map(|n| n.words.as_str()).collect();
    let days: Vec<AnyView> = strip.days.iter().enumerate().map(|(i, d)| day(i, d)).collect();
    let open: Vec<AnyView> = strip.open.iter().map(|o| open(strip, o)).collect();
    let bars: Vec<AnyView> = strip.bars.iter().map(|b| bar(strip, b)).collect();
    let notes: Vec<AnyView> = strip.notes.iter().map(|n| note(strip, n)).collect();
    view! {
        <svg
            class="picture strip"
            data-id="timeline"
            viewBox=format!("0 0 {WIDTH} {:.1}", strip.height)
            role="img"
            aria-label=format!("Timeline: {}", words.join(", "))
        >
            <defs>
                <pattern id="strip-hatch" width="9" height="9" patternUnits="userSpaceOnUse">
                    <path class="hatch" d="M-2 2L2 -2M-2 11L11 -2M7 11L11 7"/>
                </pattern>
            </defs>
            {days} {open} {bars} {notes}
        </svg>
    }
    .into_any()
}

/// One day: its band and its date.
fn day(place: usize, (date, top, bottom): &(chrono::NaiveDate, f64, f64)) -> AnyView {
    let even = if place.is_multiple_of(2) { "day even" } else { "day" };
    let words = plan::date(*date);
    let (weekday, date) = words.split_once(' ').unwrap_or((&words, ""));
    let room = bottom - top;
    let line = |n: f64, words: &str, look: &'static str| {
        (room >= n * 19.0 + 3.0).then(|| {
            let y = format!("{:.1}", top + n * 19.0 - 3.0);
            view! { <text class=look x="3" y=y>{words.to_owned()}</text> }
        })
    };
    view! {
        <rect class=even x="0" width=WIDTH.to_string() y=format!("{top:.1}") height=format!("{room:.1}")/>
        {if room < 41.0 { line(1.0, date, "") } else { line(1.0, weekday, "bold") }}
        {line(2.0, date, "")}
        // Not through the words.
        <path class="line thin" d=format!("M0 {top:.1}H{:.1}", WORDS - 10.0)/>
    }
    .into_any()
}

/// Working hours, with the hour they begin.
fn open(strip: &Strip, (top, bottom, from): &(f64, f64, String)) -> AnyView {
    let clear = strip.days.iter().all(|d| (top - d.1).abs() > 44.0);
    let words = clear.then(|| view! { <text x="3" y=format!("{:.1}", top + 6.0)>{from.clone()}</text> });
    view! {
        <rect class="hours" x=GUTTER.to_string() width=(WORK[1] - GUTTER + 4.0).to_string() y=format!("{top:.1}") height=format!("{:.1}", bottom - top)/>
        {words}
    }
    .into_any()
}

/// Left and right end of a lane.
fn lane(strip: &Strip, lane: usize) -> [f64; 2] {
    match lane {
        0 => WORK,
        n => {
            let each = (WAITS / strip.waits as f64).min(30.0);
            let right = WORK[0] - 4.0 - each * (n - 1) as f64;
            [right - each + 4.0, right]
        }
    }
}

fn bar(strip: &Strip, bar: &Bar) -> AnyView {
    let [left, right] = lane(strip, bar.lane);
    let (top, width, height) = (format!("{:.1}", bar.top), (right - left).to_string(), bar.bottom - bar.top);
    let work = bar.lane == 0;
    let stage = bar.block.stage.slug();
    view! {
        <rect
            class=if work { "work-bar" } else { "wait-bar" }
            data-stage=stage
            fill=if work { "currentColor" } else { "url(#strip-hatch)" }
            x=left.to_string()
            y=top
            width=width
            height=format!("{height:.1}")
        />
    }
    .into_any()
}

/// Words, and a line from them to what they name.
fn note(strip: &Strip, note: &Note) -> AnyView {
    let (at, y) = (note.at, note.y);
    let (from, look) = match note.mark {
        Mark::Work(_) => (WORK[1], "words"),
        Mark::Wait(_, n) => (lane(strip, n)[1], "words wait-words"),
        Mark::Done(_) => (WORK[1] - 8.0, "words done-words"),
        Mark::Moment => (WORK[0] - 4.0, "words bold"),
        Mark::Now => (GUTTER, "words bold now-words"),
    };
    let line = match note.mark {
        Mark::Moment => "line",
        Mark::Now => "line now",
        _ => "line thin",
    };
    let tick = matches!(note.mark, Mark::Done(_))
        .then(|| view! { <path class="line tick" d=format!("M{:.1} {at:.1}l6 6l11 -14", WORK[0] + 10.0)/> });
    let leader = format!("M{from:.1} {at:.1}H{:.1}L{:.1} {y:.1}H{:.1}", WORK[1] + 2.0, WORDS - 6.0, WORDS - 3.0);
    view! {
        <path class=line d=leader/>
        {tick}
        <text class=look x=WORDS.to_string() y=format!("{:.1}", y + 5.5)>{note.words.clone()}</text>
    }
    .into_any()
}
