//! What of each area is in sight in a view, and where a sign stands on it.

use super::{Kind, KindArea, View, shape};

/// What of an area no other area covers.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Sight {
    pub area: &'static KindArea,
    /// The middle of the largest square of it in sight, in the drawing's units: a sign of its state stands here.
    pub at: (f32, f32),
    /// The side of that square.
    pub side: f32,
}

/// Sampled every so many units: fine enough for a sign, quick enough for a phone.
const STEP: f32 = 2.0;

impl Kind {
    /// Every area in sight in a view. Areas wholly covered or not drawn there are left out.
    ///
    /// The middle of an area's box will not do for a sign: between two wheels seen from above lies the frame.
    ///
    /// ```
    /// use coatwalk::job::kinds::{View, kind};
    /// let tractor = kind("farm-tractor").unwrap();
    /// let from_above = tractor.in_sight(View::Top);
    /// let axle = from_above.iter().find(|s| s.area.id == "rear-axle").unwrap();
    /// assert!((axle.at.1 - 100.0).abs() > 50.0, "on a wheel, not on the centre line");
    /// ```
    pub fn in_sight(&self, view: View) -> Vec<Sight> {
        let (across, down) = ((self.drawing().width / STEP) as usize, (self.drawing().height / STEP) as usize);
        let on_top = self.on_top(view, across, down);
        let squares = squares(&on_top, across);
        let mut all = Vec::new();
        for (n, (area, shapes)) in self.painted(view).into_iter().enumerate() {
            let (l, t, r, b) = shape::bounds(shapes);
            let mine = || (0..on_top.len()).filter(|&i| on_top[i] == Some(n));
            let largest = mine().map(|i| squares[i]).max();
            // A long box holds many such squares: the one nearest its middle.
            let middle = |i: usize| {
                let half = squares[i] as f32 / 2.0;
                (((i % across) as f32 + 1.0 - half) * STEP, ((i / across) as f32 + 1.0 - half) * STEP)
            };
            let far = |(x, y): (f32, f32)| (x - (l + r) / 2.0).abs() + (y - (t + b) / 2.0).abs();
            let at = mine()
                .filter(|&i| Some(squares[i]) == largest)
                .map(middle)
                .min_by(|&p, &q| far(p).total_cmp(&far(q)));
            all.extend(at.zip(largest).map(|(at, side)| Sight { area, at, side: side as f32 * STEP }));
        }
        all
    }

    /// For each sample, row by row: which of the painted areas lies on top.
    fn on_top(&self, view: View, across: usize, down: usize) -> Vec<Option<usize>> {
        let mut on_top = vec![None; across * down];
        for (n, (_, shapes)) in self.painted(view).into_iter().enumerate() {
            for s in shapes {
                let (l, t, r, b) = s.bounds();
                let cells =
                    |from: f32, to: f32, most: usize| (from / STEP) as usize..most.min((to / STEP) as usize + 1);
                for row in cells(t, b, down) {
                    for col in cells(l, r, across) {
                        if s.holds((col as f32 + 0.5) * STEP, (row as f32 + 0.5) * STEP) {
                            on_top[row * across + col] = Some(n);
                        }
                    }
                }
            }
        }
        on_top
    }
}

/// For each sample: the side of the largest square of its own kind that ends there, lower right.
fn squares(on_top: &[Option<usize>], across: usize) -> Vec<usize> {
    let mut side = vec![1; on_top.len()];
    for i in across + 1..on_top.len() {
        let before = [i - 1, i - across, i - across - 1];
        if i % across > 0 && before.iter().all(|&j| on_top[j] == on_top[i]) {
            side[i] = 1 + before.iter().map(|&j| side[j]).min().unwrap_or(0);
        }
    }
    side
}
