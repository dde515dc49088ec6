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
        const TOP: f64 = 46.0;
        const TALL: f64 = 150.0;
        let mut d = Drawing::new(TOP + TALL + LINE + 8.0, self.words.clone());
        let (left, wide, foot) = (4.0, WIDTH - 8.0, TOP + TALL);
        let all = || self.lines.iter().flat_map(|l| l.points.iter());
        let span = |low: f64, high: f64| if high > low { high - low } else { 1.0 };
        let (from, to) = all().fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), p| (a.min(p.0), b.max(p.0)));
        let values = all().map(|p| p.1).chain(self.levels.iter().map(|l| l.at));
        let (mut low, high) = values.fold(self.at_least, |(a, b), v| (a.min(v), b.max(v)));
        if self.lines.len() > 1 {
            // Room for the lower line's words.
            low -= 0.2 * span(low, high);
        }
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
        d.path("line", format!("M{left} {:.1}V{foot}H{:.1}", TOP - 12.0, left + wide));
        if let Some((at, words)) = &self.moment {
            let at = x(*at);
            d.line("line thin", (at, TOP - 24.0), (at, foot));
            let hang = if at < WIDTH / 3.0 {
                "start"
            } else if at > WIDTH * 2.0 / 3.0 {
                "end"
            } else {
                "middle"
            };
            d.words("bold", hang, at, TOP - 29.0, words);
        }
        // Levels say what they are on the side where the course is far from them.
        let clear = |at: f64, from: f64, to: f64| {
            let near = all().filter(|p| (from..=to).contains(&x(p.0))).map(|p| (y(p.1) - at + 5.0).abs());
            near.fold(f64::INFINITY, f64::min)
        };
        let mut taken: Vec<f64> = Vec::new();
        for level in &self.levels {
            let mut at = y(level.at) - 5.0;
            while taken.iter().any(|t| (at - t).abs() < LINE - 1.0) {
                at += 2.0;
            }
            taken.push(at);
            let reach = 0.45 * wide;
            let right = clear(at, left + wide - reach, left + wide) >= clear(at, left, left + reach).min(30.0);
            let (hang, edge) = if right { ("end", left + wide - 4.0) } else { ("start", left + 8.0) };
            d.words("say halo", hang, edge, at.max(14.0), &level.words);
        }
        for (i, line) in self.lines.iter().enumerate() {
            let Some(first) = line.points.first() else { continue };
            let at = if i == 0 { y(first.1) - 8.0 } else { y(first.1) + LINE };
            if !line.words.is_empty() {
                d.words("bold halo", "start", left + 8.0, at.min(foot - 4.0), line.words);
            }
        }
        d.words("say", "start", left, foot + LINE, &self.ends.0);
        d.words("say", "end", left + wide, foot + LINE, &self.ends.1);
        d
    }
}
