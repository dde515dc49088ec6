//! Readings over days: lines that may break off, a band, points, stretches and marks, on an axis of days and hours.

use super::{Drawing, LINE, WIDTH, apart};

/// A line over time. It may break off where nothing was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Trace {
    /// The look of its stroke: what tells it apart, with its words.
    pub look: &'static str,
    /// The look of what is reckoned to come.
    pub ahead_look: &'static str,
    /// Runs of (time, value).
    pub runs: Vec<Vec<(f64, f64)>>,
    /// What is reckoned to come; its first point joins the last run.
    pub ahead: Vec<(f64, f64)>,
    /// What it is: stands beside its end.
    pub words: &'static str,
}

/// A reading on a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dot {
    /// (time, value).
    pub at: (f64, f64),
    /// Something is wrong with it: a cross instead of a ring.
    pub wrong: bool,
}

/// Something that was done then, told on top.
#[derive(Clone, Debug, PartialEq)]
pub struct Flag {
    /// From when.
    pub from: f64,
    /// Until when.
    pub to: f64,
    /// What it was.
    pub words: String,
}

/// A mark of the time axis.
#[derive(Clone, Debug, PartialEq)]
pub struct TimeMark {
    /// When.
    pub at: f64,
    /// What it says.
    pub words: String,
    /// A day begins here: the line goes all the way up.
    pub day: bool,
}

/// The picture of a few days.
#[derive(Clone, Debug, PartialEq)]
pub struct Plot {
    /// Lines, the one that matters most last.
    pub traces: Vec<Trace>,
    /// A band over the line of that number, so high.
    pub band: Option<(usize, f64)>,
    /// Where something is wrong, from and to.
    pub stretches: Vec<(f64, f64)>,
    /// What is wrong there.
    pub stretch_words: &'static str,
    /// Readings.
    pub dots: Vec<Dot>,
    /// What was done.
    pub flags: Vec<Flag>,
    /// Marks of the time axis.
    pub times: Vec<TimeMark>,
    /// Left and right edge.
    pub span: (f64, f64),
    /// Now, if it lies inside.
    pub now: Option<f64>,
    /// What it shows, for those who hear it.
    pub words: String,
}

const TALL: f64 = 210.0;
/// The strip for what is wrong, at the foot of the lines.
const STRIP: f64 = 12.0;
/// Figures of the scale stand to the left of this.
const LEFT: f64 = 30.0;
/// Words of the lines stand to the right of this.
const RIGHT: f64 = 226.0;

struct Scale {
    top: f64,
    foot: f64,
    from: f64,
    hours: f64,
    low: f64,
    span: f64,
}

impl Scale {
    fn x(&self, t: f64) -> f64 {
        LEFT + (RIGHT - LEFT) * ((t - self.from) / self.hours).clamp(0.0, 1.0)
    }

    fn y(&self, v: f64) -> f64 {
        let (top, foot) = (self.top + 6.0, self.foot - STRIP - 6.0);
        foot - (foot - top) * ((v - self.low) / self.span).clamp(0.0, 1.0)
    }

    fn along(&self, points: &[(f64, f64)]) -> String {
        points.iter().map(|(t, v)| format!("{:.1} {:.1}", self.x(*t), self.y(*v))).collect::<Vec<_>>().join("L")
    }
}

/// A round step that makes at most five of them.
fn step(span: f64) -> f64 {
    [1.0, 2.0, 5.0, 10.0, 20.0, 50.0].into_iter().find(|s| span / s <= 5.0).unwrap_or(100.0)
}

impl Plot {
    fn scale(&self) -> Scale {
        let over = |i: usize| self.band.filter(|b| b.0 == i).map_or(0.0, |b| b.1);
        let values = self
            .traces
            .iter()
            .enumerate()
            .flat_map(|(i, t)| t.runs.iter().flatten().chain(&t.ahead).flat_map(move |p| [p.1, p.1 + over(i)]));
        let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), v| (a.min(v), b.max(v)));
        let (low, high) = if low.is_finite() { (low, high) } else { (0.0, 10.0) };
        let round = step((high - low).max(4.0));
        let (low, high) = ((low / round).floor() * round, (high / round).ceil() * round);
        let top = 22.0 + LINE * self.flags.len().min(2) as f64;
        Scale {
            top,
            foot: top + TALL,
            from: self.span.0,
            hours: (self.span.1 - self.span.0).max(1e-6),
            low,
            span: (high - low).max(2.0 * round),
        }
    }

    /// The picture.
    pub fn draw(&self) -> Drawing {
        let s = self.scale();
        let mut d = Drawing::new(s.foot + LINE + 8.0, self.words.clone());
        self.back(&mut d, &s);
        for trace in &self.traces {
            for run in trace.runs.iter().filter(|r| r.len() > 1) {
                d.path(trace.look, format!("M{}", s.along(run)));
            }
            if trace.ahead.len() > 1 {
                d.path(trace.ahead_look, format!("M{}", s.along(&trace.ahead)));
            }
        }
        for dot in &self.dots {
            let (x, y) = (s.x(dot.at.0), s.y(dot.at.1));
            match dot.wrong {
                true => d.path("line cross", format!("M{:.1} {:.1}l12 12m0 -12l-12 12", x - 6.0, y - 6.0)),
                false => d.path("line ring", format!("M{:.1} {y:.1}a4 4 0 0 1 8 0a4 4 0 0 1 -8 0Z", x - 4.0)),
            }
        }
        d.path("line", format!("M{LEFT} {:.1}V{:.1}H{RIGHT}", s.top, s.foot));
        self.front(&mut d, &s);
        d
    }

    /// What lies behind the lines: band, stretches, grid, days.
    fn back(&self, d: &mut Drawing, s: &Scale) {
        for (from, to) in &self.stretches {
            let (from, to) = (s.x(*from), s.x(*to));
            let wide = (to - from).max(4.0);
            let left = from.min(RIGHT - wide);
            d.face("stop", left, s.top, wide, TALL);
            d.face("wrong", left, s.foot - STRIP, wide, STRIP);
        }
        if let Some((i, high)) = self.band
            && let Some(trace) = self.traces.get(i)
        {
            for run in trace.runs.iter().chain([&trace.ahead]).filter(|r| r.len() > 1) {
                let upper: Vec<_> = run.iter().rev().map(|(t, v)| (*t, v + high)).collect();
                d.path("wait", format!("M{}L{}Z", s.along(run), s.along(&upper)));
            }
        }
        let round = step(s.span);
        let mut value = (s.low / round).ceil() * round;
        while value <= s.low + s.span + 1e-9 {
            d.line("line grid", (LEFT, s.y(value)), (RIGHT, s.y(value)));
            value += round;
        }
        for mark in &self.times {
            let top = if mark.day { s.top } else { s.foot };
            d.line("line grid", (s.x(mark.at), top), (s.x(mark.at), s.foot + 5.0));
        }
    }

    /// What lies before the lines: words, flags, now.
    fn front(&self, d: &mut Drawing, s: &Scale) {
        let round = step(s.span);
        let mut value = (s.low / round).ceil() * round;
        while value <= s.low + s.span + 1e-9 {
            d.words("say", "end", LEFT - 5.0, s.y(value) + 5.0, &format!("{value:.0}"));
            value += round;
        }
        for (i, flag) in self.flags.iter().take(2).enumerate() {
            let (from, to) = (s.x(flag.from), s.x(flag.to));
            let row = 14.0 + LINE * i as f64;
            d.line("line", (from, row + 3.0), (from, s.foot));
            if to - from > 3.0 {
                d.line("line", (from, row + 4.0), (to, row + 4.0));
                d.line("line", (to, row + 3.0), (to, s.foot));
            }
            let (hang, at) = if from > 0.6 * WIDTH { ("end", from - 4.0) } else { ("start", from + 4.0) };
            d.words("bold halo", hang, at, row, &flag.words);
        }
        if let Some(now) = self.now {
            d.line("line dash", (s.x(now), s.top), (s.x(now), s.foot));
            d.words("say halo", "middle", s.x(now).clamp(LEFT + 18.0, RIGHT - 10.0), s.top - 3.0, "now");
        }
        if let Some(longest) = self.stretches.iter().max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0))) {
            let middle = (s.x(longest.0) + s.x(longest.1)) / 2.0;
            let half = 4.6 * self.stretch_words.len() as f64;
            let at = middle.clamp(LEFT + half + 2.0, (RIGHT - half).max(LEFT + half + 2.0));
            d.words("bold halo", "middle", at, s.top + 16.0, self.stretch_words);
        }
        self.beside(d, s);
        // Days are told first, hours where they leave room.
        let mut taken: Vec<(f64, f64)> = Vec::new();
        for mark in self.times.iter().filter(|m| m.day).chain(self.times.iter().filter(|m| !m.day)) {
            let half = 4.6 * mark.words.len() as f64;
            let at = s.x(mark.at).max(LEFT - 20.0 + half);
            if taken.iter().all(|(from, to)| at + half + 4.0 < *from || at - half - 4.0 > *to) {
                taken.push((at - half, at + half));
                d.words(if mark.day { "bold" } else { "say" }, "middle", at, s.foot + LINE + 3.0, &mark.words);
            }
        }
    }

    /// The words of the lines, beside their ends.
    fn beside(&self, d: &mut Drawing, s: &Scale) {
        let mut ends: Vec<(f64, f64, &str, &str)> = Vec::new();
        for (i, trace) in self.traces.iter().enumerate() {
            let Some(&(t, v)) = trace.ahead.last().or(trace.runs.last().and_then(|r| r.last())) else { continue };
            ends.push((s.x(t), s.y(v), trace.words, if i + 1 == self.traces.len() { "bold" } else { "say" }));
        }
        let wanted: Vec<f64> = ends.iter().map(|e| e.1 + 5.0).collect();
        let places = apart(&wanted, LINE, s.top + 10.0, s.foot);
        for ((x, y, words, look), place) in ends.into_iter().zip(places) {
            d.path("line thin", format!("M{:.1} {y:.1}H{RIGHT}L{:.1} {:.1}", x.min(RIGHT), RIGHT + 8.0, place - 5.0));
            d.words(look, "start", RIGHT + 11.0, place, words);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheets::draw::{Mark, letter};

    fn plot(readings: usize) -> Plot {
        let line = |of: fn(f64) -> f64| {
            let all: Vec<_> = (0..readings).map(|i| (4.0 * i as f64, of(i as f64))).collect();
            if all.is_empty() { Vec::new() } else { vec![all] }
        };
        let ahead = |v: f64| vec![(44.0, v), (60.0, v - 8.0)];
        Plot {
            traces: vec![
                Trace {
                    look: "line thin",
                    ahead_look: "line dots",
                    runs: line(|i| 10.0 + i),
                    ahead: ahead(21.0),
                    words: "air",
                },
                Trace {
                    look: "line dash",
                    ahead_look: "line dots",
                    runs: line(|i| 5.0 + i / 4.0),
                    ahead: ahead(8.0),
                    words: "frost point",
                },
                Trace {
                    look: "line",
                    ahead_look: "line dots",
                    runs: line(|i| 8.0 + i),
                    ahead: ahead(19.0),
                    words: "steel",
                },
            ],
            band: Some((1, 3.0)),
            stretches: vec![(0.0, 3.0), (50.0, 60.0), (12.0, 12.0)],
            stretch_words: "too close",
            dots: (0..readings).map(|i| Dot { at: (4.0 * i as f64, 8.0 + i as f64), wrong: i == 0 }).collect(),
            flags: vec![
                Flag { from: 30.0, to: 31.0, words: "1st pass".into() },
                Flag { from: 40.0, to: 40.0, words: "2nd pass".into() },
            ],
            times: (0..5)
                .map(|i| TimeMark { at: 15.0 * f64::from(i), words: "Tue 24".into(), day: i % 2 == 0 })
                .collect(),
            span: (0.0, 60.0),
            now: Some(45.0),
            words: "readings".into(),
        }
    }

    /// Every stroke lies in the strip, every word too, by the widest of the usual fonts.
    #[test]
    fn nothing_runs_off_the_strip() {
        for readings in [0, 1, 12] {
            let drawn = plot(readings).draw();
            for mark in &drawn.marks {
                match mark {
                    Mark::Words(look, hang, x, y, words) => {
                        let wide = letter(look) * words.chars().count() as f64;
                        let left = match *hang {
                            "start" => *x,
                            "end" => x - wide,
                            _ => x - wide / 2.0,
                        };
                        assert!(left > -4.0 && left + wide < WIDTH + 4.0, "{words}: {left} to {}", left + wide);
                        assert!((8.0..=drawn.height).contains(y), "{words} at {y}");
                    }
                    Mark::Path(_, path) => assert!(!path.contains("NaN") && !path.contains("inf"), "{path}"),
                }
            }
        }
    }

    #[test]
    fn words_beside_the_lines_do_not_run_into_each_other() {
        let drawn = plot(12).draw();
        let mut at: Vec<f64> = drawn
            .marks
            .iter()
            .filter_map(|m| match m {
                Mark::Words(_, "start", x, y, _) if *x > RIGHT => Some(*y),
                _ => None,
            })
            .collect();
        assert_eq!(at.len(), 3);
        at.sort_by(f64::total_cmp);
        assert!(at.windows(2).all(|w| w[1] - w[0] >= LINE - 1e-9), "{at:?}");
    }

    /// Where a day and an hour would run into each other, the day stands.
    #[test]
    fn a_day_goes_before_an_hour() {
        let mut close = plot(2);
        let mark = |at: f64, words: &str, day| TimeMark { at, words: words.into(), day };
        close.times = vec![mark(10.0, "12:00", false), mark(22.0, "Tue 6", true), mark(50.0, "18:00", false)];
        let drawn = close.draw();
        let has = |what: &str| drawn.marks.iter().any(|m| matches!(m, Mark::Words(.., w) if w == what));
        assert!(has("Tue 6") && has("18:00") && !has("12:00"));
    }

    /// A warmer value is drawn higher, a later one further right, also below zero.
    #[test]
    fn warmer_is_higher_and_later_is_further_right() {
        let s = plot(12).scale();
        assert!(s.y(10.0) < s.y(9.0) && s.y(-3.0) > s.y(5.0) && s.x(10.0) < s.x(11.0));
        let mut cold = plot(2);
        cold.traces[1].runs[0][0].1 = -12.0;
        let s = cold.scale();
        assert!(s.low <= -12.0 && s.low + s.span >= 21.0);
    }
}
