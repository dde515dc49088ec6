//! Thread sizes by name: ISO 261 coarse, and unified coarse and fine of ASME B1.1.

use super::Thread;
use crate::units::{INCH, MILLIMETRE};

/// ISO coarse: (name, diameter mm, pitch mm).
pub const METRIC: [(&str, f64, f64); 17] = [
    ("M4", 4.0, 0.7),
    ("M5", 5.0, 0.8),
    ("M6", 6.0, 1.0),
    ("M7", 7.0, 1.0),
    ("M8", 8.0, 1.25),
    ("M10", 10.0, 1.5),
    ("M12", 12.0, 1.75),
    ("M14", 14.0, 2.0),
    ("M16", 16.0, 2.0),
    ("M18", 18.0, 2.5),
    ("M20", 20.0, 2.5),
    ("M22", 22.0, 2.5),
    ("M24", 24.0, 3.0),
    ("M27", 27.0, 3.0),
    ("M30", 30.0, 3.5),
    ("M33", 33.0, 3.5),
    ("M36", 36.0, 4.0),
];

/// Unified: (name, diameter in, threads per inch). The fine 1 in thread is 12; 14 is the special one often sold as
/// fine.
pub const INCH_SIZES: [(&str, f64, f64); 20] = [
    ("1/4-20 UNC", 0.25, 20.0),
    ("1/4-28 UNF", 0.25, 28.0),
    ("5/16-18 UNC", 0.3125, 18.0),
    ("5/16-24 UNF", 0.3125, 24.0),
    ("3/8-16 UNC", 0.375, 16.0),
    ("3/8-24 UNF", 0.375, 24.0),
    ("7/16-14 UNC", 0.4375, 14.0),
    ("7/16-20 UNF", 0.4375, 20.0),
    ("1/2-13 UNC", 0.5, 13.0),
    ("1/2-20 UNF", 0.5, 20.0),
    ("9/16-12 UNC", 0.5625, 12.0),
    ("9/16-18 UNF", 0.5625, 18.0),
    ("5/8-11 UNC", 0.625, 11.0),
    ("5/8-18 UNF", 0.625, 18.0),
    ("3/4-10 UNC", 0.75, 10.0),
    ("3/4-16 UNF", 0.75, 16.0),
    ("7/8-9 UNC", 0.875, 9.0),
    ("7/8-14 UNF", 0.875, 14.0),
    ("1-8 UNC", 1.0, 8.0),
    ("1-12 UNF", 1.0, 12.0),
];

/// The thread of that name.
///
/// ```
/// use coatwalk::sums::thread;
/// assert!(thread::size("M10").is_some());
/// assert!(thread::size("1/2-13 UNC").is_some());
/// assert!(thread::size("M11").is_none());
/// ```
pub fn size(name: &str) -> Option<Thread> {
    let metric = METRIC
        .iter()
        .find(|s| s.0 == name)
        .map(|s| Thread::Metric { diameter: MILLIMETRE.of(s.1), pitch: MILLIMETRE.of(s.2) });
    metric.or_else(|| {
        INCH_SIZES.iter().find(|s| s.0 == name).map(|s| Thread::Inch { diameter: INCH.of(s.1), per_inch: s.2 })
    })
}
