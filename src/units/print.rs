//! Prints what a person chose, rounded to what his tool can hold.

use super::{Def, Kind, Quantity, Unit};

/// How finely a figure is shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    /// Multiples of `size`, with `places` digits after the mark.
    Decimal {
        /// The step, in the unit it is printed in.
        size: f64,
        /// Digits after the mark.
        places: usize,
    },
    /// Fractions of a whole, as on an inch rule: "5 3/8".
    Fraction {
        /// Parts of one: 8 for eighths.
        of: u32,
    },
}

impl Step {
    /// Marks on a dipstick in millimetres: a marker pen is about this wide.
    pub const DIPSTICK_MM: Step = Step::Decimal { size: 5.0, places: 0 };
    /// Marks on a dipstick in inches.
    pub const DIPSTICK_IN: Step = Step::Fraction { of: 8 };
    /// What a measuring jug shows in millilitres.
    pub const JUG_ML: Step = Step::Decimal { size: 10.0, places: 0 };

    /// The step in the unit's own size.
    pub fn size(self) -> f64 {
        match self {
            Step::Decimal { size, .. } => size,
            Step::Fraction { of } => 1.0 / f64::from(of.max(1)),
        }
    }

    /// Ten times finer, or half for fractions: for small figures.
    fn finer(self) -> Step {
        match self {
            Step::Decimal { size, places } => {
                let size = size / 10.0;
                let places = places.max(if size < 1.0 { places + 1 } else { 0 });
                Step::Decimal { size, places }
            }
            Step::Fraction { of } => Step::Fraction { of: of * 2 },
        }
    }

    /// The value rounded to the step.
    pub fn round(self, value: f64) -> f64 {
        (value / self.size()).round() * self.size()
    }

    /// The value in figures, rounded to the step.
    pub fn text(self, value: f64) -> String {
        match self {
            Step::Decimal { places, .. } => {
                let text = format!("{:.*}", places, self.round(value));
                let text = match text.contains('.') {
                    true => text.trim_end_matches('0').trim_end_matches('.'),
                    false => &text,
                };
                if text == "-0" { "0".into() } else { text.into() }
            }
            Step::Fraction { of } => fraction(value, of.max(1)),
        }
    }
}

fn fraction(value: f64, of: u32) -> String {
    let parts = (value.abs() * f64::from(of)).round();
    if parts > 9e15 {
        return format!("{value:.0}");
    }
    let (parts, of) = (parts as u64, u64::from(of));
    let sign = if value < 0.0 && parts > 0 { "-" } else { "" };
    let (whole, mut above, mut below) = (parts / of, parts % of, of);
    while above > 0 && above % 2 == 0 && below % 2 == 0 {
        (above, below) = (above / 2, below / 2);
    }
    match (whole, above) {
        (_, 0) => format!("{sign}{whole}"),
        (0, _) => format!("{sign}{above}/{below}"),
        _ => format!("{sign}{whole} {above}/{below}"),
    }
}

impl Def {
    /// The figure with its unit, for a value in SI base units: as [`Unit::print`].
    pub fn print(&self, si: f64) -> String {
        let value = self.from_si(si);
        let mut step = self.step;
        // A thermometer reads tenths near zero as anywhere else.
        let scale = matches!(self.kind, Kind::Temperature | Kind::TemperatureDifference);
        for _ in 0..2 {
            if !scale && value != 0.0 && value.abs() < 9.5 * step.size() {
                step = step.finer();
            }
        }
        format!("{} {}", step.text(value), self.symbol)
    }
}

impl<Q: Quantity> Unit<Q> {
    /// The figure with its unit, rounded as usual for the unit. Figures under ten steps are shown finer, so that
    /// 3 mL does not print as 0 mL.
    ///
    /// ```
    /// use coatwalk::units::{INCH, LITRE, MILLILITRE};
    /// assert_eq!(MILLILITRE.print(LITRE.of(0.9091)), "910 mL");
    /// assert_eq!(MILLILITRE.print(LITRE.of(0.003)), "3 mL");
    /// assert_eq!(INCH.print(INCH.of(5.38)), "5 3/8 in");
    /// ```
    pub fn print(self, quantity: Q) -> String {
        self.def().print(quantity.si())
    }

    /// The figure with its unit, rounded to a step of the caller's.
    ///
    /// ```
    /// use coatwalk::units::{MILLIMETRE, Step};
    /// assert_eq!(MILLIMETRE.print_to(MILLIMETRE.of(213.4), Step::DIPSTICK_MM), "215 mm");
    /// ```
    pub fn print_to(self, quantity: Q, step: Step) -> String {
        format!("{} {}", step.text(self.get(quantity)), self.symbol())
    }

    /// The bare figure, rounded to a step.
    pub fn figure(self, quantity: Q, step: Step) -> String {
        step.text(self.get(quantity))
    }
}

/// Rounds parts so that they still add up to the rounded total: what the rounding took from one part is given to
/// the part that lost most. Parts and result are in the unit of the step.
///
/// Parts that are not finite are handed back as they are.
///
/// ```
/// use coatwalk::units::{Step, round_parts};
/// let jug = Step::Decimal { size: 10.0, places: 0 };
/// assert_eq!(round_parts(&[333.4, 333.3, 333.3], jug), [340.0, 330.0, 330.0]);
/// ```
pub fn round_parts(parts: &[f64], step: Step) -> Vec<f64> {
    let size = step.size();
    let total: f64 = parts.iter().sum();
    if !total.is_finite() || size <= 0.0 || !size.is_finite() {
        return parts.to_vec();
    }
    let mut steps: Vec<f64> = parts.iter().map(|p| (p / size).floor()).collect();
    let missing = (total / size).round() - steps.iter().sum::<f64>();
    let mut order: Vec<usize> = (0..parts.len()).collect();
    order.sort_by(|&a, &b| {
        let lost = |i: usize| parts[i] / size - steps[i];
        lost(b).total_cmp(&lost(a))
    });
    let missing = missing.clamp(0.0, parts.len() as f64) as usize;
    for &i in order.iter().take(missing) {
        steps[i] += 1.0;
    }
    steps.into_iter().map(|s| s * size).collect()
}

/// The same figure with a decimal comma, for users who write it so.
pub fn with_comma(figure: &str) -> String {
    figure.replace('.', ",")
}
