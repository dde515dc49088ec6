//! Sheets of labels as they are sold or cut: a plain grid on a paper.
//!
//! May use: nothing. Must not: know what stands on a label; [`super::label`] does.

/// Paper to print on.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Paper {
    A4,
    Letter,
}

impl Paper {
    /// Width and height, upright, mm: ISO 216 A4; Letter is 8.5 × 11 in.
    pub fn size_mm(self) -> (f64, f64) {
        match self {
            Paper::A4 => (210.0, 297.0),
            Paper::Letter => (215.9, 279.4),
        }
    }

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Paper::A4 => "A4",
            Paper::Letter => "Letter",
        }
    }
}

/// A grid of labels on a paper, all in mm.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Sheet {
    pub paper: Paper,
    pub columns: u32,
    pub rows: u32,
    pub label_w_mm: f64,
    pub label_h_mm: f64,
    pub margin_left_mm: f64,
    pub margin_top_mm: f64,
    pub gap_x_mm: f64,
    pub gap_y_mm: f64,
    /// A line round each label, for plain paper and scissors.
    pub cut_lines: bool,
}

/// A grid with its name.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct NamedSheet {
    pub name: &'static str,
    pub sheet: Sheet,
}

/// A place on the paper, mm from its upper left corner.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Place {
    pub x: f64,
    pub y: f64,
    pub w: f64,
    pub h: f64,
}

/// Common plain grids. Measures are from memory, checked by their sum: labels, gaps and equal margins fill the paper.
pub const SHEETS: &[NamedSheet] = &[
    named("63.5 × 38.1 mm, 21 on A4", grid(Paper::A4, (3, 7), (63.5, 38.1), (7.21, 15.15), (2.54, 0.0))),
    named("99.1 × 67.7 mm, 8 on A4", grid(Paper::A4, (2, 4), (99.1, 67.7), (4.65, 13.1), (2.5, 0.0))),
    named("66.7 × 25.4 mm, 30 on Letter", grid(Paper::Letter, (3, 10), (66.675, 25.4), (4.7625, 12.7), (3.175, 0.0))),
    named(
        "101.6 × 50.8 mm, 10 on Letter",
        grid(Paper::Letter, (2, 5), (101.6, 50.8), (3.96875, 12.7), (4.7625, 0.0)),
    ),
    named("90 × 50 mm, 10 on A4, to cut", cut(grid(Paper::A4, (2, 5), (90.0, 50.0), (15.0, 23.5), (0.0, 0.0)))),
    named(
        "90 × 50 mm, 10 on Letter, to cut",
        cut(grid(Paper::Letter, (2, 5), (90.0, 50.0), (17.95, 14.7), (0.0, 0.0))),
    ),
];

const fn named(name: &'static str, sheet: Sheet) -> NamedSheet {
    NamedSheet { name, sheet }
}

const fn grid(paper: Paper, count: (u32, u32), label: (f64, f64), margin: (f64, f64), gap: (f64, f64)) -> Sheet {
    Sheet {
        paper,
        columns: count.0,
        rows: count.1,
        label_w_mm: label.0,
        label_h_mm: label.1,
        margin_left_mm: margin.0,
        margin_top_mm: margin.1,
        gap_x_mm: gap.0,
        gap_y_mm: gap.1,
        cut_lines: false,
    }
}

const fn cut(sheet: Sheet) -> Sheet {
    Sheet { cut_lines: true, ..sheet }
}

impl Sheet {
    /// Labels on one sheet.
    pub fn count(&self) -> usize {
        self.columns as usize * self.rows as usize
    }

    /// Where the label of a number sits, row by row from 0.
    pub fn place(&self, slot: usize) -> Place {
        let columns = self.columns.max(1) as usize;
        let (column, row) = ((slot % columns) as f64, (slot / columns) as f64);
        Place {
            x: self.margin_left_mm + column * (self.label_w_mm + self.gap_x_mm),
            y: self.margin_top_mm + row * (self.label_h_mm + self.gap_y_mm),
            w: self.label_w_mm,
            h: self.label_h_mm,
        }
    }

    /// Whether the grid fits on its paper.
    ///
    /// # Errors
    /// What is wrong, with what would be right, to stand beside the field.
    ///
    /// ```
    /// use coatwalk::share::sheet::SHEETS;
    /// let mut sheet = SHEETS[0].sheet;
    /// assert_eq!(sheet.fits(), Ok(()));
    /// sheet.columns = 4;
    /// assert_eq!(sheet.fits().unwrap_err(), "The grid is 268.83 mm wide with its left margin. A4 is 210 mm wide.");
    /// ```
    pub fn fits(&self) -> Result<(), String> {
        const MOST_COUNT: u32 = 50;
        // Half a hundredth of a millimetre: what adding rounded figures may come to.
        const SLACK_MM: f64 = 0.005;
        if ![self.columns, self.rows].iter().all(|n| (1..=MOST_COUNT).contains(n)) {
            return Err(format!("Columns and rows are whole numbers from 1 to {MOST_COUNT}."));
        }
        if ![self.label_w_mm, self.label_h_mm].iter().all(|mm| mm.is_finite() && *mm > 0.0) {
            return Err("A label's width and height are more than 0 mm.".into());
        }
        let space = [self.margin_left_mm, self.margin_top_mm, self.gap_x_mm, self.gap_y_mm];
        if !space.iter().all(|mm| mm.is_finite() && *mm >= 0.0) {
            return Err("Margins and gaps are 0 mm or more.".into());
        }
        let last = self.place(self.count() - 1);
        let (paper_w, paper_h) = self.paper.size_mm();
        let ways = [("wide", "left", last.x + last.w, paper_w), ("high", "top", last.y + last.h, paper_h)];
        for (way, margin, is, paper) in ways {
            if is > paper + SLACK_MM {
                let name = self.paper.name();
                return Err(format!(
                    "The grid is {} mm {way} with its {margin} margin. {name} is {} mm {way}.",
                    hundredths(is),
                    hundredths(paper)
                ));
            }
        }
        Ok(())
    }
}

fn hundredths(mm: f64) -> f64 {
    (mm * 100.0).round() / 100.0
}
