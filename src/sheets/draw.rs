//! Pictures of answers as plain strokes and words, drawn by one hand on a strip as wide as a phone.
//!
//! Words stand at the thing, never in a legend. Positions are the only figures worked out here.

mod curve;
mod flat;
mod plot;
mod scale;
mod shed;
mod vessel;

pub use curve::{Curve, Level, Line};
pub use flat::{Bar, Can, Solid, bars, cans, fan, films, solid};
pub use plot::{Dot, Flag, Plot, TimeMark, Trace};
pub use scale::{Point, scale};
pub use shed::{FromAbove, from_above};
pub use vessel::{Layer, Shape, vessel};

/// Width of every picture, in pixels on a phone 360 px wide.
pub const WIDTH: f64 = 328.0;
/// Height of a line of words.
const LINE: f64 = 19.0;
/// About how wide a letter is, in the widest of the usual fonts.
#[cfg(test)]
pub fn letter(look: &str) -> f64 {
    if look.starts_with("bold") { 9.6 } else { 8.4 }
}

/// A picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// Its height; its width is 328, that of a column 360 px wide.
    pub height: f64,
    /// What it shows, for those who hear it.
    pub words: String,
    /// Strokes and words, from back to front.
    pub marks: Vec<Mark>,
}

/// A stroke, a face or a word.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// A path, with the name of its look.
    Path(&'static str, String),
    /// Words: look, where they hang ("start", "middle", "end"), x, baseline.
    Words(&'static str, &'static str, f64, f64, String),
}

impl Drawing {
    fn new(height: f64, words: String) -> Drawing {
        Drawing { height, words, marks: Vec::new() }
    }

    fn path(&mut self, look: &'static str, d: String) {
        self.marks.push(Mark::Path(look, d));
    }

    fn face(&mut self, look: &'static str, x: f64, y: f64, w: f64, h: f64) {
        self.path(look, format!("M{x:.1} {y:.1}h{w:.1}v{h:.1}h{:.1}Z", -w));
    }

    fn line(&mut self, look: &'static str, from: (f64, f64), to: (f64, f64)) {
        self.path(look, format!("M{:.1} {:.1}L{:.1} {:.1}", from.0, from.1, to.0, to.1));
    }

    fn words(&mut self, look: &'static str, hang: &'static str, x: f64, y: f64, words: &str) {
        self.marks.push(Mark::Words(look, hang, x, y, words.to_owned()));
    }
}

/// Moves places apart so that words of `gap` height do not run into each other, and keeps them within the strip.
fn apart(places: &[f64], gap: f64, top: f64, bottom: f64) -> Vec<f64> {
    let mut order: Vec<usize> = (0..places.len()).collect();
    order.sort_by(|a, b| places[*a].total_cmp(&places[*b]));
    let mut moved = places.to_vec();
    let mut floor = top;
    for &i in &order {
        moved[i] = moved[i].max(floor);
        floor = moved[i] + gap;
    }
    let mut ceiling = bottom;
    for &i in order.iter().rev() {
        moved[i] = moved[i].min(ceiling);
        ceiling = moved[i] - gap;
    }
    moved
}

#[cfg(test)]
mod tests {
    use super::apart;

    #[test]
    fn words_keep_their_distance_and_stay_in() {
        let moved = apart(&[100.0, 101.0, 99.0, 10.0], 20.0, 0.0, 110.0);
        assert_eq!(moved, [90.0, 110.0, 70.0, 10.0]);
        assert_eq!(apart(&[5.0], 20.0, 10.0, 100.0), [10.0]);
    }
}
