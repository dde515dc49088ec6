//! Values on an upright scale, as on a thermometer.

use super::{Drawing, LINE, apart};

/// A value on the scale.
#[derive(Clone, Debug, PartialEq)]
pub struct Point {
    /// Its value.
    pub at: f64,
    /// What it is, with its figure.
    pub words: String,
    /// The look of its face, which reaches down to the next lower point with a face; none for a mere mark.
    pub fill: Option<&'static str>,
    /// It is what the picture is about.
    pub strong: bool,
}

impl Point {
    /// A mere mark.
    pub fn mark(at: f64, words: String) -> Point {
        Point { at, words, fill: None, strong: false }
    }

    /// The top of a face.
    pub fn top(at: f64, words: String, fill: &'static str) -> Point {
        Point { at, words, fill: Some(fill), strong: false }
    }

    /// What the picture is about.
    pub fn strong(at: f64, words: String) -> Point {
        Point { at, words, fill: None, strong: true }
    }
}

/// The scale. `least` gives the span that is shown at least, so that a tenth does not look like a mile.
pub fn scale(points: &[Point], least: f64) -> Drawing {
    const TOP: f64 = 12.0;
    let tall = (LINE + 3.0) * (points.len() as f64 + 1.5).max(6.0);
    let mut told: Vec<&Point> = points.iter().collect();
    told.sort_by(|a, b| b.at.total_cmp(&a.at));
    let said: Vec<&str> = told.iter().map(|p| p.words.as_str()).collect();
    let mut d = Drawing::new(TOP + tall + 12.0, format!("From the top down: {}", said.join("; ")));
    let low = points.iter().map(|p| p.at).fold(f64::INFINITY, f64::min);
    let high = points.iter().map(|p| p.at).fold(f64::NEG_INFINITY, f64::max);
    let (middle, span) = ((low + high) / 2.0, (high - low).max(least) * 1.25);
    let y = |v: f64| TOP + tall * (0.5 - (v - middle) / span);
    let (left, wide, foot) = (16.0, 40.0, TOP + tall);
    let mut filled: Vec<&&Point> = told.iter().filter(|p| p.fill.is_some()).collect();
    filled.reverse();
    let mut from = foot;
    for point in filled {
        let top = y(point.at);
        d.face(point.fill.unwrap_or_default(), left, top, wide, from - top);
        from = top;
    }
    d.face("line", left, TOP, wide, tall);
    let places = apart(&points.iter().map(|p| y(p.at) + 5.0).collect::<Vec<_>>(), LINE + 2.0, TOP + 8.0, foot);
    for (point, place) in points.iter().zip(places) {
        let at = y(point.at);
        let look = if point.strong { "line strong" } else { "line thin" };
        let from = if point.strong { left - 8.0 } else { left };
        d.path(
            look,
            format!("M{from:.1} {at:.1}H{:.1}L{:.1} {:.1}", left + wide + 10.0, left + wide + 24.0, place - 5.0),
        );
        d.words(if point.strong { "bold" } else { "say" }, "start", left + wide + 30.0, place, &point.words);
    }
    d
}
