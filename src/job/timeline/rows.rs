//! Which rows of a long list are in view, while only some of their heights are known.
//!
//! May use: nothing. Must not: measure; heights come in as the screen measured them.

use std::ops::Range;

/// Rows one under the other, in pixels. Each has the height that was measured, else the guess it came with.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Rows {
    heights: Vec<f64>,
}

/// What is to stand on the screen: these rows, with so much empty room above and below.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Slice {
    /// Places in the list.
    pub rows: Range<usize>,
    /// Room above, px.
    pub above: f64,
    /// Room below, px.
    pub below: f64,
}

impl Rows {
    /// Rows with their guesses.
    pub fn guessed(guesses: impl IntoIterator<Item = f64>) -> Rows {
        Rows { heights: guesses.into_iter().collect() }
    }

    /// How many.
    pub fn len(&self) -> usize {
        self.heights.len()
    }

    /// True when there are none.
    pub fn is_empty(&self) -> bool {
        self.heights.is_empty()
    }

    /// All of them together, px.
    pub fn height(&self) -> f64 {
        self.heights.iter().sum()
    }

    /// A row was measured. Gives back by how much it is higher than what was reckoned with; nothing for a row that is not
    /// there or a height that makes no sense.
    pub fn measure(&mut self, row: usize, height: f64) -> f64 {
        let Some(known) = self.heights.get_mut(row).filter(|_| height.is_finite() && height > 0.0) else {
            return 0.0;
        };
        let more = height - *known;
        *known = height;
        more
    }

    /// What stands in view, when the view begins `top` px below the list's beginning and is `view` px high, with
    /// `margin` px more on both sides.
    ///
    /// # Example
    /// ```
    /// use coatwalk::job::timeline::rows::Rows;
    /// let rows = Rows::guessed(vec![100.0; 50]);
    /// let slice = rows.slice(1000.0, 500.0, 100.0);
    /// assert_eq!(slice.rows, 9..16);
    /// assert_eq!((slice.above, slice.below), (900.0, 3400.0));
    /// ```
    pub fn slice(&self, top: f64, view: f64, margin: f64) -> Slice {
        let (from, to) = (top - margin, top + view + margin);
        let (mut at, mut first, mut above) = (0.0, None, 0.0);
        let mut end = self.len();
        for (row, height) in self.heights.iter().enumerate() {
            if at >= to {
                end = row;
                break;
            }
            if first.is_none() && at + height > from {
                (first, above) = (Some(row), at);
            }
            at += height;
        }
        let Some(first) = first else {
            // All of it lies above the view: nothing is drawn, and the room stays.
            let empty = if at <= from { self.len() } else { 0 };
            let above = if empty > 0 { at } else { 0.0 };
            return Slice { rows: empty..empty, above, below: self.height() - above };
        };
        let end = end.max(first);
        let drawn: f64 = self.heights[first..end].iter().sum();
        Slice { rows: first..end, above, below: (self.height() - above - drawn).max(0.0) }
    }

    /// Where a row begins, px.
    pub fn top_of(&self, row: usize) -> f64 {
        self.heights.iter().take(row).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn at_every_place_the_rows_in_view_are_there_and_the_room_adds_up() {
        let mut rows = Rows::guessed((0..400).map(|i| if i % 7 == 0 { 260.0 } else { 90.0 }));
        for i in (0..400).step_by(3) {
            rows.measure(i, 40.0 + f64::from(i as u32 % 50));
        }
        let all = rows.height();
        let mut top = -700.0;
        while top < all + 700.0 {
            let slice = rows.slice(top, 640.0, 300.0);
            let drawn: f64 = slice.rows.clone().map(|r| rows.top_of(r + 1) - rows.top_of(r)).sum();
            assert!((slice.above + drawn + slice.below - all).abs() < 1e-6, "{slice:?}");
            assert!(slice.rows.len() < 60, "{slice:?}");
            for row in 0..rows.len() {
                let (from, to) = (rows.top_of(row), rows.top_of(row + 1));
                if to > top && from < top + 640.0 {
                    assert!(slice.rows.contains(&row), "row {row} is in view at {top}: {slice:?}");
                }
            }
            top += 137.0;
        }
    }

    #[test]
    fn a_measured_row_says_by_how_much_the_rest_moves() {
        let mut rows = Rows::guessed([100.0, 100.0]);
        assert_eq!(rows.measure(0, 130.0), 30.0);
        assert_eq!((rows.height(), rows.top_of(1)), (230.0, 130.0));
        assert_eq!((rows.measure(7, 10.0), rows.measure(1, f64::NAN), rows.measure(1, 0.0)), (0.0, 0.0, 0.0));
        assert_eq!(Rows::default().slice(50.0, 600.0, 300.0), Slice::default());
    }
}
