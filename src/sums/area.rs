//! Area: how much steel there is to cover, from plain shapes, and how a kind of machine scales.
//!
//! Source: geometry. Intricacy factors are common practice, no source.

use std::f64::consts::PI;

use super::range::{Field, check};
use super::{Answer, NotPossible};
use crate::units::{Area, Length, Quantity, SQUARE_METRE};

/// A plain shape; its area is that of one face, the outside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shape {
    /// Six sides.
    Box {
        /// Length.
        length: Length,
        /// Width.
        width: Length,
        /// Height.
        height: Length,
    },
    /// One side of a sheet.
    Plate {
        /// Length.
        length: Length,
        /// Width.
        width: Length,
    },
    /// The wall of a round tube or rod, without its ends.
    Tube {
        /// Outside diameter.
        diameter: Length,
        /// Length.
        length: Length,
    },
    /// A wheel rim or drum: both discs and the tread.
    Wheel {
        /// Diameter.
        diameter: Length,
        /// Width.
        width: Length,
    },
    /// A channel: web and two flanges, from one side.
    Rail {
        /// Length.
        length: Length,
        /// Height of the web.
        web: Length,
        /// Width of a flange.
        flange: Length,
    },
}

/// Some parts alike.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// Their shape.
    pub shape: Shape,
    /// How many.
    pub count: u32,
    /// Faces to be covered: 1 the outside, 2 both sides of the sheet.
    pub faces: f64,
    /// How much more there is than the plain shape: 1 smooth, 1.5 ribs and brackets, 2 pipes and castings.
    pub intricacy: f64,
}

impl Shape {
    fn square_metres(self) -> Answer<f64> {
        let m = |l: Length| Field::PartLength.take(l);
        Ok(match self {
            Shape::Box { length, width, height } => {
                let (l, w, h) = (m(length)?, m(width)?, m(height)?);
                2.0 * (l * w + l * h + w * h)
            }
            Shape::Plate { length, width } => m(length)? * m(width)?,
            Shape::Tube { diameter, length } => PI * m(diameter)? * m(length)?,
            Shape::Wheel { diameter, width } => {
                let (d, w) = (m(diameter)?, m(width)?);
                PI * d * (d / 2.0 + w)
            }
            Shape::Rail { length, web, flange } => m(length)? * (m(web)? + 2.0 * m(flange)?),
        })
    }
}

/// Area of some parts alike.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::area::{self, Part, Shape}, units::{METRE, SQUARE_METRE}};
/// let doors = Part {
///     shape: Shape::Plate { length: METRE.of(1.2), width: METRE.of(0.5) },
///     count: 2, faces: 2.0, intricacy: 1.5,
/// };
/// assert!((SQUARE_METRE.get(area::of_part(&doors)?) - 3.6).abs() < 1e-9);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn of_part(part: &Part) -> Answer<Area> {
    let count = check(Field::PartCount, f64::from(part.count))?;
    let faces = check(Field::Faces, part.faces)?;
    let intricacy = check(Field::Intricacy, part.intricacy)?;
    Ok(SQUARE_METRE.of(part.shape.square_metres()? * count * faces * intricacy))
}

/// Area of all parts together.
///
/// # Errors
/// An input outside its range; too many parts.
pub fn of_parts(parts: &[Part]) -> Answer<Area> {
    const MOST_PARTS: usize = 10_000;
    if parts.len() > MOST_PARTS {
        return Err(NotPossible::TooMany { most: MOST_PARTS }.into());
    }
    let mut sum = 0.0;
    for part in parts {
        sum += of_part(part)?.si();
    }
    Ok(SQUARE_METRE.of(sum))
}

/// A machine's overall size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Overall {
    /// Length.
    pub length: Length,
    /// Width.
    pub width: Length,
    /// Height.
    pub height: Length,
}

impl Overall {
    fn take(self) -> Answer<[f64; 3]> {
        Ok([
            Field::MachineLength.take(self.length)?,
            Field::MachineLength.take(self.width)?,
            Field::MachineLength.take(self.height)?,
        ])
    }
}

/// Which way an area of a machine lies, so which sizes it grows with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lies {
    /// Along the side: length and height.
    Side,
    /// On top or underneath: length and width.
    Flat,
    /// Across, front or back: width and height.
    Across,
    /// All round: every size alike.
    Round,
}

/// How much larger an area of this machine is than on the machine its kind was measured from.
///
/// # Errors
/// A size outside its range.
///
/// ```
/// use coatwalk::{sums::area::{self, Lies, Overall}, units::METRE};
/// let size = |l: f64, w: f64, h: f64| Overall { length: METRE.of(l), width: METRE.of(w), height: METRE.of(h) };
/// let factor = area::scale(size(5.0, 1.75, 2.5), size(6.0, 1.75, 2.5), Lies::Side)?;
/// assert!((factor - 1.2).abs() < 1e-9);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn scale(measured: Overall, this: Overall, lies: Lies) -> Answer<f64> {
    let (from, to) = (measured.take()?, this.take()?);
    let [length, width, height] = [to[0] / from[0], to[1] / from[1], to[2] / from[2]];
    Ok(match lies {
        Lies::Side => length * height,
        Lies::Flat => length * width,
        Lies::Across => width * height,
        Lies::Round => (length * width * height).powf(2.0 / 3.0),
    })
}
