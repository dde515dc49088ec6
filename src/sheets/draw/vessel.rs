//! A pail, tank or bucket with what stands in it, to scale.

use super::{Drawing, LINE, WIDTH, apart};

/// Its outline, in any one unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shape {
    /// Width at the rim.
    pub top: f64,
    /// Width at the bottom.
    pub bottom: f64,
    /// Height.
    pub height: f64,
}

impl Shape {
    /// Any bucket, where the shape is not known.
    pub const BUCKET: Shape = Shape { top: 290.0, bottom: 240.0, height: 300.0 };
}

/// A liquid in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Layer {
    /// How far up it comes, in the unit of the shape.
    pub to: f64,
    /// The look of its face.
    pub look: &'static str,
    /// What it is, by its top: one line or two.
    pub words: Vec<String>,
}

/// The vessel, cut through, its liquids from the bottom up; with a stick to dip in, if it has marks.
pub fn vessel(shape: Shape, layers: &[Layer], stick: bool) -> Drawing {
    const TOP: f64 = 14.0;
    const TALL: f64 = 176.0;
    const WIDE: f64 = 148.0;
    let told: Vec<String> = layers.iter().map(|l| l.words.join(" ")).collect();
    let mut d = Drawing::new(TOP + TALL + 12.0, format!("A bucket, from the bottom up: {}", told.join("; ")));
    let widest = shape.top.max(shape.bottom).max(1e-9);
    // A long low tank is drawn shorter than it is: its height is what is read here.
    let flat = (shape.height / widest).clamp(0.5, 3.0);
    let tall = TALL.min(WIDE * flat);
    let wide = WIDE.min(tall / flat);
    let (middle, foot) = (WIDE / 2.0 + 4.0, TOP + TALL);
    let y = |level: f64| foot - tall * (level / shape.height).clamp(0.0, 1.0);
    let half = |level: f64| {
        let part = (level / shape.height).clamp(0.0, 1.0);
        wide / widest * (shape.bottom + (shape.top - shape.bottom) * part) / 2.0
    };
    let mut from = 0.0;
    for layer in layers {
        let (a, b, ya, yb) = (half(from), half(layer.to), y(from), y(layer.to));
        d.path(
            layer.look,
            format!(
                "M{:.1} {ya:.1}L{:.1} {yb:.1}H{:.1}L{:.1} {ya:.1}Z",
                middle - a,
                middle - b,
                middle + b,
                middle + a
            ),
        );
        d.line("line thin", (middle - b, yb), (middle + b, yb));
        from = layer.to;
    }
    let (a, b, rim) = (half(0.0), half(shape.height), y(shape.height));
    d.path(
        "line",
        format!(
            "M{:.1} {rim:.1}L{:.1} {foot:.1}H{:.1}L{:.1} {rim:.1}",
            middle - b,
            middle - a,
            middle + a,
            middle + b
        ),
    );
    if stick {
        d.face("stick", middle - 7.0, (rim - 10.0).max(2.0), 14.0, foot - (rim - 10.0).max(2.0) - 2.0);
    }
    // The lower of two lines stands at the level itself.
    let gap = LINE * layers.iter().map(|l| l.words.len()).max().unwrap_or(1) as f64 + 3.0;
    let tops: Vec<f64> = layers.iter().map(|l| y(l.to) + LINE / 2.0).collect();
    let places = apart(&tops, gap, 18.0, foot - 2.0 - (gap - LINE - 3.0));
    let words_x = WIDE + 28.0;
    for (layer, place) in layers.iter().zip(places) {
        let level = y(layer.to);
        let edge = if stick { middle - 7.0 } else { middle + half(layer.to) };
        d.path(
            "line thin",
            format!("M{edge:.1} {level:.1}H{:.1}L{:.1} {:.1}", WIDE + 12.0, words_x - 4.0, place - 6.0),
        );
        for (i, line) in layer.words.iter().enumerate() {
            let look = if i == 0 { "bold" } else { "say" };
            d.words(look, "start", words_x, place + LINE * i as f64, line);
        }
    }
    debug_assert!(words_x < WIDTH);
    d
}
