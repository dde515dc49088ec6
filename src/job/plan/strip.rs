//! The timeline as places on a strip of paper: hours run down the page, all to one scale, nights too.
//!
//! Lane 0 holds work; waits lie beside it, each in the first lane that is free. Words stand at what they name and are
//! moved apart where they would run into each other. Only places here; a screen draws them.

use chrono::{DateTime, NaiveDate, TimeDelta, TimeZone, Utc};

use super::wall::{clock, length, near, not_before};
use super::{Block, Days, Doing, Plan, Setup, Wait, settled_week};
use crate::job::stage::Stage;

/// An hour is at most so high, px.
const HOUR_PX: [f64; 2] = [1.0, 11.0];
/// As long as it need not be longer, the strip is at most so high, px.
const HEIGHT_PX: f64 = 900.0;
/// From one line of words to the next, px.
pub const LINE_PX: f64 = 19.0;
/// So much of the day is shown before the first thing.
const LEAD_H: i64 = 4;

/// One block in its place.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Bar {
    /// 0 for work, from 1 on for waits.
    pub lane: usize,
    /// Upper end, px.
    pub top: f64,
    /// Lower end, px.
    pub bottom: f64,
    /// Begins before the strip does.
    pub cut: bool,
    /// What it is.
    pub block: Block,
}

/// What words stand for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Mark {
    /// Work to be done.
    Work(Stage),
    /// A wait, and its lane.
    Wait(Wait, usize),
    /// A stage that the log has settled.
    Done(Stage),
    /// A moment that counts: coated, paper off, refit.
    Moment,
    /// Now.
    Now,
}

/// Words at a place.
#[derive(Clone, PartialEq, Debug)]
pub struct Note {
    /// What they stand for.
    pub mark: Mark,
    /// Where that is, px.
    pub at: f64,
    /// Where the words are, the middle of their line, px.
    pub y: f64,
    /// The words.
    pub words: String,
}

/// The strip.
#[derive(Clone, PartialEq, Debug)]
pub struct Strip {
    /// Height, px.
    pub height: f64,
    /// Height of an hour, px.
    pub hour_px: f64,
    /// Lanes of waits.
    pub waits: usize,
    /// Days with their upper and lower end, px; the first and the last may be cut.
    pub days: Vec<(NaiveDate, f64, f64)>,
    /// Working hours: their ends, px, and their beginning on the wall clock.
    pub open: Vec<(f64, f64, String)>,
    /// Work and waits.
    pub bars: Vec<Bar>,
    /// Words, from top to bottom.
    pub notes: Vec<Note>,
}

/// Puts a plan on a strip. `from` is when it was drawn from. None when nothing is left to be done.
pub fn strip<Z: TimeZone>(
    plan: &Plan,
    setup: &Setup,
    from: DateTime<Utc>,
    now: DateTime<Utc>,
    zone: &Z,
) -> Option<Strip> {
    let days = Days::new(settled_week(setup.week, &mut Vec::new()), zone);
    let first = plan.blocks.iter().map(|b| b.start).min()?.max(from);
    let last = plan.blocks.iter().map(|b| b.end).max()?;
    let today = first.with_timezone(zone).date_naive();
    let start = (first - TimeDelta::hours(LEAD_H)).max(days.midnight(today).unwrap_or(first));
    let end = last + TimeDelta::hours(1);
    let hours = |d: TimeDelta| d.num_seconds() as f64 / 3600.0;
    let hour_px = (HEIGHT_PX / hours(end - start)).clamp(HOUR_PX[0], HOUR_PX[1]);
    let y = |at: DateTime<Utc>| hours(at.clamp(start, end) - start) * hour_px;

    let mut bars = Vec::new();
    let mut free = Vec::<DateTime<Utc>>::new();
    for block in plan.blocks.iter().filter(|b| b.end > start) {
        let lane = match block.doing {
            Doing::Work => 0,
            Doing::Wait(_) => {
                let lane = free.iter().position(|until| *until <= block.start).unwrap_or(free.len());
                free.resize(free.len().max(lane + 1), block.end);
                free[lane] = block.end;
                lane + 1
            }
        };
        bars.push(Bar { lane, top: y(block.start), bottom: y(block.end), cut: block.start < start, block: *block });
    }
    let mut height = hours(end - start) * hour_px;
    let inside = |at: &DateTime<Utc>| (start..=end).contains(at);
    let mut notes: Vec<Note> = bars.iter().map(|b| of_bar(b, zone)).collect();
    let mut note = |mark: Mark, at: Option<DateTime<Utc>>, words: &dyn Fn(DateTime<Utc>) -> String| {
        if let Some(at) = at.filter(inside) {
            notes.push(Note { mark, at: y(at), y: y(at), words: words(at) });
        }
    };
    for (stage, at) in &plan.finished {
        note(Mark::Done(*stage), *at, &|_| format!("{} done", stage.title()));
    }
    let planned = |at: Option<DateTime<Utc>>| at.filter(|at| *at > from);
    note(Mark::Moment, planned(plan.coated), &|at| format!("Coated {}", clock(near(at), zone)));
    note(Mark::Moment, planned(plan.paper_off), &|at| format!("Paper off {}", clock(not_before(at), zone)));
    note(Mark::Moment, planned(plan.earliest_refit), &|at| format!("Refit from {}", clock(not_before(at), zone)));
    note(Mark::Now, Some(now), &|at| format!("Now {}", clock(at, zone)));
    notes.sort_by(|a, b| a.at.total_cmp(&b.at));
    let places = apart(&notes.iter().map(|n| n.at).collect::<Vec<_>>(), LINE_PX, height);
    for (note, place) in notes.iter_mut().zip(places) {
        note.y = place;
    }
    height = height.max(notes.last().map_or(0.0, |n| n.y + LINE_PX / 2.0));

    let mut bands = Vec::new();
    let mut open = Vec::new();
    for date in today.pred_opt().unwrap_or(today).iter_days() {
        let Some(midnight) = days.midnight(date) else { continue };
        if midnight >= end {
            break;
        }
        let next = date.succ_opt().and_then(|d| days.midnight(d)).unwrap_or(end);
        if next > start {
            bands.push((date, y(midnight), y(next)));
        }
        if let Some((a, b)) = days.of_day(date).filter(|s| s.1 > start && s.0 < end) {
            open.push((y(a), y(b), clock(a, zone)));
        }
    }
    Some(Strip { height, hour_px, waits: free.len(), days: bands, open, bars, notes })
}

fn of_bar<Z: TimeZone>(bar: &Bar, zone: &Z) -> Note {
    let at = (bar.top + bar.bottom) / 2.0;
    let (mark, words) = match bar.block.doing {
        Doing::Work => {
            let stage = bar.block.stage;
            (Mark::Work(stage), format!("{} {}", clock(bar.block.start, zone), stage.title()))
        }
        Doing::Wait(wait) => {
            let hours = (bar.block.end - bar.block.start).num_minutes() as f64 / 60.0;
            let lasts = match hours {
                h if h < 2.0 => length(60.0 * h),
                h if h < 100.0 => format!("{h:.0} h"),
                h => format!("{:.0} days", h / 24.0),
            };
            (Mark::Wait(wait, bar.lane), format!("{}, {lasts}", short(wait)))
        }
    };
    Note { mark, at, y: at, words }
}

/// A wait by a name that has room beside it.
fn short(wait: Wait) -> &'static str {
    match wait {
        Wait::TouchDry => "Touch-dry",
        Wait::HeaterOff => "Heater cold",
        other => other.title(),
    }
}

/// Moves places, sorted, apart to at least `gap`, as little as that takes, none above the top.
fn apart(places: &[f64], gap: f64, bottom: f64) -> Vec<f64> {
    // Places that touch move as one heap, to the middle of where they belong.
    let mut heaps: Vec<(f64, usize)> = Vec::new();
    let ends = |(middle, n): (f64, usize)| (middle - n as f64 * gap / 2.0, middle + n as f64 * gap / 2.0);
    for place in places {
        let mut heap = (*place, 1);
        loop {
            let half = heap.1 as f64 * gap / 2.0;
            heap.0 = heap.0.min(bottom - half).max(half);
            let Some(above) = heaps.last().copied().filter(|a| ends(*a).1 > ends(heap).0) else { break };
            heaps.pop();
            let n = above.1 + heap.1;
            heap = ((above.0 * above.1 as f64 + heap.0 * heap.1 as f64) / n as f64, n);
        }
        heaps.push(heap);
    }
    heaps.into_iter().flat_map(|h| (0..h.1).map(move |i| ends(h).0 + (i as f64 + 0.5) * gap)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_move_apart_as_little_as_it_takes() {
        assert_eq!(apart(&[50.0, 50.0, 200.0], 20.0, 300.0), [40.0, 60.0, 200.0]);
        // At the edges they stay inside.
        assert_eq!(apart(&[0.0, 1.0], 20.0, 300.0), [10.0, 30.0]);
        assert_eq!(apart(&[299.0, 300.0], 20.0, 300.0), [270.0, 290.0]);
        // More than there is room for runs over the lower edge only.
        assert_eq!(apart(&[5.0; 3], 20.0, 30.0), [10.0, 30.0, 50.0]);
    }
}
