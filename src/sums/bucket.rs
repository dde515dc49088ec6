//! Bucket marks: how far up a volume comes, and a dipstick that shows it.
//!
//! Source: the frustum of a cone, V(h) = π·h/12·(d₀² + d₀·d + d²) with d the diameter at the level, which is
//! π/(12k)·(d³ − d₀³) without dividing by the slope k; so a cylinder needs no case of its own.

use std::f64::consts::PI;

use super::range::Field;
use super::{Answer, NotPossible};
use crate::units::{LITRE, Length, MILLIMETRE, Volume};

/// A vessel, measured inside.
#[derive(Clone, Debug, PartialEq)]
pub enum Vessel {
    /// A pail or drum: two diameters and a height. Equal diameters make a cylinder, a bottom of zero a cone; it may
    /// be wider at the bottom.
    Pail {
        /// Diameter at the rim.
        top: Length,
        /// Diameter at the bottom.
        bottom: Length,
        /// Height.
        height: Length,
    },
    /// A tank with straight walls.
    Tank {
        /// Length.
        length: Length,
        /// Width.
        width: Length,
        /// Height.
        height: Length,
    },
    /// Any other: known amounts poured in and marked, from the bottom up. Between marks the level rises evenly.
    Marked(Vec<Mark>),
}

/// A volume and the level it reaches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// Volume in the vessel.
    pub volume: Volume,
    /// Level above the inside bottom.
    pub level: Length,
}

/// A pail of a common size. Sizes from memory: measure your own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pail {
    /// What it is called.
    pub name: &'static str,
    /// Inside diameter at the rim, mm.
    pub top_mm: f64,
    /// Inside diameter at the bottom, mm.
    pub bottom_mm: f64,
    /// Inside height, mm.
    pub height_mm: f64,
}

/// Common pails (from memory; a default until the user's own is measured).
pub const PAILS: [Pail; 5] = [
    Pail { name: "10 L bucket", top_mm: 285.0, bottom_mm: 205.0, height_mm: 220.0 },
    Pail { name: "12 L bucket", top_mm: 295.0, bottom_mm: 210.0, height_mm: 250.0 },
    Pail { name: "20 L pail", top_mm: 290.0, bottom_mm: 260.0, height_mm: 360.0 },
    Pail { name: "5 US gal pail", top_mm: 302.0, bottom_mm: 265.0, height_mm: 340.0 },
    Pail { name: "200 L drum", top_mm: 565.0, bottom_mm: 565.0, height_mm: 850.0 },
];

impl Pail {
    /// The pail as a vessel.
    pub fn vessel(self) -> Vessel {
        Vessel::Pail {
            top: MILLIMETRE.of(self.top_mm),
            bottom: MILLIMETRE.of(self.bottom_mm),
            height: MILLIMETRE.of(self.height_mm),
        }
    }
}

/// A checked vessel, in millimetres and litres.
enum Checked {
    Pail { bottom: f64, slope: f64, height: f64 },
    Tank { base: f64, height: f64 },
    Marked(Vec<(f64, f64)>),
}

const MM3_PER_LITRE: f64 = 1e6;
const MOST_MARKS: usize = 100;

impl Checked {
    fn new(vessel: &Vessel) -> Answer<Checked> {
        Ok(match vessel {
            Vessel::Pail { top, bottom, height } => {
                let top = Field::PailDiameter.take(*top)?;
                let bottom = Field::PailDiameter.take(*bottom)?;
                let height = Field::VesselHeight.take(*height)?;
                Checked::Pail { bottom, slope: (top - bottom) / height, height }
            }
            Vessel::Tank { length, width, height } => Checked::Tank {
                base: Field::TankSide.take(*length)? * Field::TankSide.take(*width)?,
                height: Field::VesselHeight.take(*height)?,
            },
            Vessel::Marked(marks) => {
                if marks.len() > MOST_MARKS {
                    return Err(NotPossible::TooMany { most: MOST_MARKS }.into());
                }
                let mut points = vec![(0.0, 0.0)];
                for mark in marks {
                    let volume = Field::VesselVolume.take(mark.volume)?;
                    let level = Field::Level.take(mark.level)?;
                    let (below, lower) = points[points.len() - 1];
                    if volume <= below || level <= lower {
                        return Err(NotPossible::Clash("each mark must be higher than the one before").into());
                    }
                    points.push((volume, level));
                }
                if points.len() == 1 {
                    return Err(NotPossible::Nothing.into());
                }
                Checked::Marked(points)
            }
        })
    }

    fn rim(&self) -> f64 {
        match self {
            Checked::Pail { height, .. } | Checked::Tank { height, .. } => *height,
            Checked::Marked(points) => points[points.len() - 1].1,
        }
    }

    fn litres(&self, level: f64) -> f64 {
        match self {
            Checked::Pail { bottom, slope, .. } => {
                let d = (bottom + slope * level).max(0.0);
                PI * level / 12.0 * (bottom * bottom + bottom * d + d * d) / MM3_PER_LITRE
            }
            Checked::Tank { base, .. } => base * level / MM3_PER_LITRE,
            Checked::Marked(points) => along(points, level, |p| (p.1, p.0)),
        }
    }

    fn level(&self, litres: f64) -> f64 {
        if litres <= 0.0 {
            return 0.0;
        }
        match self {
            Checked::Pail { bottom, slope, .. } => {
                let twelve = 12.0 * litres * MM3_PER_LITRE / PI;
                let d = (bottom.powi(3) + slope * twelve).max(0.0).cbrt();
                // (d - bottom)/slope, turned so that a slope of zero divides nothing.
                twelve / (d * d + d * bottom + bottom * bottom)
            }
            Checked::Tank { base, .. } => litres * MM3_PER_LITRE / base,
            Checked::Marked(points) => along(points, litres, |p| *p),
        }
    }
}

/// Straight line between points; `axes` gives (from, to).
fn along(points: &[(f64, f64)], at: f64, axes: impl Fn(&(f64, f64)) -> (f64, f64)) -> f64 {
    for pair in points.windows(2) {
        let ((x0, y0), (x1, y1)) = (axes(&pair[0]), axes(&pair[1]));
        if at <= x1 {
            return y0 + (y1 - y0) * ((at - x0) / (x1 - x0));
        }
    }
    points.last().map_or(0.0, |p| axes(p).1)
}

/// What the vessel takes, up to the rim (or the last mark).
///
/// # Errors
/// A measure outside its range; marks out of order.
pub fn holds(vessel: &Vessel) -> Answer<Volume> {
    let vessel = Checked::new(vessel)?;
    Ok(LITRE.of(vessel.litres(vessel.rim())))
}

/// Volume at a level above the inside bottom.
///
/// # Errors
/// A measure outside its range; a level over the rim.
///
/// ```
/// use coatwalk::{sums::bucket::{self, Vessel}, units::{LITRE, MILLIMETRE}};
/// let pail = Vessel::Pail { top: MILLIMETRE.of(290.0), bottom: MILLIMETRE.of(260.0), height: MILLIMETRE.of(360.0) };
/// let volume = bucket::volume_at(&pail, MILLIMETRE.of(180.0))?;
/// assert!((LITRE.get(volume) - 10.118677).abs() < 1e-6);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn volume_at(vessel: &Vessel, level: Length) -> Answer<Volume> {
    let checked = Checked::new(vessel)?;
    let level_mm = Field::Level.take(level)?;
    let rim = checked.rim();
    if level_mm > rim * (1.0 + 1e-9) {
        return Err(NotPossible::LevelAboveRim { asked: level, rim: MILLIMETRE.of(rim) }.into());
    }
    Ok(LITRE.of(checked.litres(level_mm)))
}

/// Level a volume reaches.
///
/// # Errors
/// A measure outside its range; more than the vessel takes.
///
/// ```
/// use coatwalk::{sums::bucket::{self, PAILS}, units::{LITRE, MILLIMETRE}};
/// let level = bucket::level_for(&PAILS[2].vessel(), LITRE.of(10.0))?;
/// assert!((MILLIMETRE.get(level) - 178.0007).abs() < 0.001);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn level_for(vessel: &Vessel, volume: Volume) -> Answer<Length> {
    let checked = Checked::new(vessel)?;
    let litres = Field::VesselVolume.take(volume)?;
    let full = checked.litres(checked.rim());
    if litres > full * (1.0 + 1e-9) {
        return Err(NotPossible::MoreThanItHolds { asked: volume, holds: LITRE.of(full) }.into());
    }
    Ok(MILLIMETRE.of(checked.level(litres)))
}

/// A stick with a mark for each liquid, in the order they go in.
#[derive(Clone, Debug, PartialEq)]
pub struct Dipstick {
    /// The marks from the bottom up.
    pub marks: Vec<Mark>,
    /// The rim.
    pub rim: Length,
    /// What the vessel takes.
    pub holds: Volume,
}

/// Marks for liquids poured in one after the other: water first.
///
/// # Errors
/// A measure outside its range; together more than the vessel takes.
///
/// ```
/// use coatwalk::{sums::bucket::{self, PAILS}, units::{LITRE, MILLIMETRE, Step}};
/// let stick = bucket::dipstick(&PAILS[2].vessel(), &[LITRE.of(12.0), LITRE.of(4.0)])?;
/// let shown: Vec<String> = stick.marks.iter().map(|m| MILLIMETRE.print_to(m.level, Step::DIPSTICK_MM)).collect();
/// assert_eq!(shown, ["210 mm", "275 mm"]);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn dipstick(vessel: &Vessel, liquids: &[Volume]) -> Answer<Dipstick> {
    let checked = Checked::new(vessel)?;
    let rim = checked.rim();
    let full = checked.litres(rim);
    let mut sum = 0.0;
    let mut marks = Vec::with_capacity(liquids.len());
    for liquid in liquids {
        sum += Field::VesselVolume.take(*liquid)?;
        if sum > full * (1.0 + 1e-9) {
            return Err(NotPossible::MoreThanItHolds { asked: LITRE.of(sum), holds: LITRE.of(full) }.into());
        }
        marks.push(Mark { volume: LITRE.of(sum), level: MILLIMETRE.of(checked.level(sum)) });
    }
    Ok(Dipstick { marks, rim: MILLIMETRE.of(rim), holds: LITRE.of(full) })
}
