//! A course over time, with the levels it is held against.

use super::{Drawing, LINE, WIDTH};

/// A line of the course.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// (time, value).
    pub points: Vec<(f64, f64)>,
    /// What it is: stands over its end.
    pub words: &'static str,
}

/// A level, from side to side.
#[derive(Clone, Debug, PartialEq)]
pub struct Level {
    /// Its value.
    pub at: f64,
    /// What it is.
    pub words: String,
}

/// A course over time.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// One line, or two with the face between them.
    pub lines: Vec<Line>,
    /// What the face under (or between) the lines looks like.
    pub face: &'static str,
    /// Levels across.
    pub levels: Vec<Level>,
    /// A moment marked from top to bottom.
    pub moment: Option<(f64, String)>,
    /// Words at both ends of the time.
    pub ends: (String, String),
    /// The values shown at least, from and to.
    pub at_least: (f64, f64),
    /// What it shows, for those who hear it.
    pub words: String,
}

impl Curve {
    /// The picture.
    pub fn draw(&self) -> Drawing {
        const TOP: f64 = 24.0;
        const TALL: f64 = 150.0;
        let mut d = Drawing::new(TOP + TALL + LINE + 8.0, self.words.clone());
        let (left, wide, foot) = (4.0, WIDTH - 8.0, TOP + TALL);
        let all = || self.lines.iter().flat_map(|l| l.points.iter());
        let span = |low: f64, high: f64| if high > low { high - low } else { 1.0 };
        let (from, to) = all().fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), p| (a.min(p.0), b.max(p.0)));
        let values = all().map(|p| p.1).chain(self.levels.iter().map(|l| l.at));
        let (low, high) = values.fold(self.at_least, |(a, b), v| (a.min(v), b.max(v)));
        let x = |t: f64| left + wide * ((t - from) / span(from, to)).clamp(0.0, 1.0);
        let y = |v: f64| foot - TALL * ((v - low) / span(low, high)).clamp(0.0, 1.0);
        let along = |points: &[(f64, f64)]| {
            points.iter().map(|(t, v)| format!("{:.1} {:.1}", x(*t), y(*v))).collect::<Vec<_>>().join("L")
        };
        if let Some(first) = self.lines.first() {
            let back = match self.lines.get(1) {
                Some(second) => second.points.iter().rev().copied().collect(),
                None => vec![(to, low), (from, low)],
            };
            d.path(self.face, format!("M{}L{}Z", along(&first.points), along(&back)));
        }
        for level in &self.levels {
            let at = y(level.at);
            d.line("line dash", (left, at), (left + wide, at));
        }
        for line in &self.lines {
            d.path("line", format!("M{}", along(&line.points)));
        }
        d.path("line", format!("M{left} {:.1}V{foot}H{:.1}", TOP - 8.0, left + wide));
        if let Some((at, words)) = &self.moment {
            let at = x(*at);
            d.line("line thin", (at, TOP - 6.0), (at, foot));
            let hang = if at < WIDTH / 3.0 {
                "start"
            } else if at > WIDTH * 2.0 / 3.0 {
                "end"
            } else {
                "middle"
            };
            d.words("bold", hang, at, TOP - 10.0, words);
        }
        // Levels say what they are on the side where the course is far from them.
        let mut taken: Vec<f64> = Vec::new();
        for level in &self.levels {
            let mut at = y(level.at) - 5.0;
            while taken.iter().any(|t| (at - t).abs() < LINE) {
                at += 2.0;
            }
            taken.push(at);
            d.words("say halo", "end", left + wide - 4.0, at.max(TOP + 2.0), &level.words);
        }
        for line in &self.lines {
            let Some(first) = line.points.first() else { continue };
            if !line.words.is_empty() {
                d.words(
                    "bold halo",
                    "start",
                    left + 8.0,
                    (y(first.1) - 8.0).clamp(TOP + 8.0, foot - 6.0),
                    line.words,
                );
            }
        }
        d.words("say", "start", left, foot + LINE, &self.ends.0);
        d.words("say", "end", left + wide, foot + LINE, &self.ends.1);
        d
    }
}
