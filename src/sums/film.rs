//! Film: wet and dry, spread, how much an area takes, and what the readings say.
//!
//! Sources: volume balance, dry volume = wet volume × solids; thinner as % added to the paint, as data sheets mean
//! it; 1 US gal = 231 in³. Readings after the pattern of ISO 19840 (rule read in a Dutch summary of the 2005 text).

use super::range::{Field, check};
use super::{Answer, NotPossible};
use crate::units::{Area, LITRE, Length, METRE, MICROMETRE, Quantity, SQUARE_METRE, Spread, Volume};

/// Dry film of a thin dry resin film, µm: least, likely, most (from memory).
pub const RESIN_UM: [f64; 3] = [8.0, 15.0, 25.0];
/// Dry film of a soft wax or oil film, µm: least, likely, most (from memory).
pub const WAX_UM: [f64; 3] = [25.0, 40.0, 80.0];
/// Solids by volume, %: least, likely, most (from memory).
pub const SOLIDS_PERCENT: [f64; 3] = [20.0, 40.0, 55.0];
/// Share of its content a 500 mL can sprays, %: least, likely, most (from memory).
pub const CAN_SPRAYS_PERCENT: [f64; 3] = [40.0, 55.0, 70.0];

/// How the film goes on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)] // the names say it
pub enum Tool {
    Hvlp,
    Aerosol,
    Brush,
    Airless,
    ConventionalSpray,
}

impl Tool {
    /// Share that does not land, %: least, likely, most (from memory; the ends for airless and conventional spray
    /// are a guess of a third either way).
    pub fn loss_percent(self) -> [f64; 3] {
        match self {
            Tool::Hvlp => [30.0, 45.0, 65.0],
            Tool::Aerosol => [30.0, 45.0, 60.0],
            Tool::Brush => [10.0, 12.0, 15.0],
            Tool::Airless => [20.0, 30.0, 40.0],
            Tool::ConventionalSpray => [35.0, 50.0, 65.0],
        }
    }
}

/// A product as it goes on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Paint {
    /// Solids by volume of the unthinned product, %.
    pub solids_percent: f64,
    /// Thinner, % added to the product's volume.
    pub thinner_percent: f64,
}

impl Paint {
    /// Unthinned.
    pub fn neat(solids_percent: f64) -> Paint {
        Paint { solids_percent, thinner_percent: 0.0 }
    }

    /// (solids of the product, litres of liquid from a litre of product), checked.
    fn take(self) -> Answer<(f64, f64)> {
        Ok((
            check(Field::Solids, self.solids_percent)? / 100.0,
            1.0 + check(Field::Thinner, self.thinner_percent)? / 100.0,
        ))
    }
}

/// Solids by volume after thinning, %.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::sums::film::{self, Paint};
/// // printed example: 60 % solids, 25 % thinner make 48 %
/// assert!((film::solids_after_thinning(Paint { solids_percent: 60.0, thinner_percent: 25.0 })? - 48.0).abs() < 1e-9);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn solids_after_thinning(paint: Paint) -> Answer<f64> {
    let (solids, thinned) = paint.take()?;
    Ok(100.0 * solids / thinned)
}

/// Wet film that dries to `dry`.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::film::{self, Paint}, units::MICROMETRE};
/// let wet = film::wet_for_dry(MICROMETRE.of(75.0), Paint { solids_percent: 60.0, thinner_percent: 10.0 })?;
/// assert!((MICROMETRE.get(wet) - 137.5).abs() < 1e-9);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn wet_for_dry(dry: Length, paint: Paint) -> Answer<Length> {
    let (solids, thinned) = paint.take()?;
    Ok(MICROMETRE.of(Field::DryFilm.take(dry)? * thinned / solids))
}

/// Dry film left by a wet one.
///
/// # Errors
/// An input outside its range.
pub fn dry_from_wet(wet: Length, paint: Paint) -> Answer<Length> {
    let (solids, thinned) = paint.take()?;
    Ok(MICROMETRE.of(Field::WetFilm.take(wet)? * solids / thinned))
}

/// Solids by volume from a wet and a dry reading, %.
///
/// # Errors
/// A film outside its range; a dry film thicker than the wet one.
pub fn solids_from(wet: Length, dry: Length) -> Answer<f64> {
    let wet = Field::WetFilm.take(wet)?;
    let dry = Field::DryFilm.take(dry)?;
    if dry > wet {
        return Err(NotPossible::Clash("the dry film cannot be thicker than the wet one").into());
    }
    Ok(100.0 * dry / wet)
}

/// Area per volume.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spreads {
    /// Of unthinned product, nothing lost.
    pub theoretical: Spread,
    /// Of unthinned product, with the loss.
    pub practical: Spread,
    /// Of the thinned liquid, with the loss.
    pub as_applied: Spread,
}

/// Spread at a dry film.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::film::{self, Paint}, units::{MICROMETRE, SQUARE_METRE_PER_LITRE as PER_L}};
/// let spread = film::spread(MICROMETRE.of(75.0), Paint::neat(60.0), 30.0)?;
/// assert!((PER_L.get(spread.theoretical) - 8.0).abs() < 1e-9);
/// assert!((PER_L.get(spread.practical) - 5.6).abs() < 1e-9);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn spread(dry: Length, paint: Paint, loss_percent: f64) -> Answer<Spreads> {
    let (solids, thinned) = paint.take()?;
    Field::DryFilm.take(dry)?;
    let lands = 1.0 - check(Field::Loss, loss_percent)? / 100.0;
    let theoretical = solids / METRE.get(dry);
    Ok(Spreads {
        theoretical: Spread::from_si(theoretical),
        practical: Spread::from_si(theoretical * lands),
        as_applied: Spread::from_si(theoretical * lands / thinned),
    })
}

/// Spread of the liquid as it lies, at a wet film.
///
/// # Errors
/// An input outside its range.
pub fn spread_wet(wet: Length, loss_percent: f64) -> Answer<Spread> {
    Field::WetFilm.take(wet)?;
    let lands = 1.0 - check(Field::Loss, loss_percent)? / 100.0;
    Ok(Spread::from_si(lands / METRE.get(wet)))
}

/// What an area takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Needed {
    /// Unthinned product.
    pub paint: Volume,
    /// Thinner.
    pub thinner: Volume,
    /// Both together.
    pub mixed: Volume,
    /// Wet film to lay.
    pub wet: Length,
    /// Solids after thinning, %.
    pub solids_percent: f64,
    /// Spreads at this film.
    pub spread: Spreads,
}

/// How much product and thinner an area takes.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::film::{self, Paint}, units::{LITRE, MICROMETRE, SQUARE_METRE}};
/// let paint = Paint { solids_percent: 40.0, thinner_percent: 10.0 };
/// let needed = film::needed(SQUARE_METRE.of(65.0), MICROMETRE.of(40.0), paint, 30.0)?;
/// assert!((LITRE.get(needed.mixed) - 10.214286).abs() < 1e-6);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn needed(area: Area, dry: Length, paint: Paint, loss_percent: f64) -> Answer<Needed> {
    Field::Area.take(area)?;
    let spread = spread(dry, paint, loss_percent)?;
    let product = area.si() / spread.practical.si();
    let thinner = product * paint.thinner_percent / 100.0;
    Ok(Needed {
        paint: Volume::from_si(product),
        thinner: Volume::from_si(thinner),
        mixed: Volume::from_si(product + thinner),
        wet: wet_for_dry(dry, paint)?,
        solids_percent: solids_after_thinning(paint)?,
        spread,
    })
}

/// Dry film that so much unthinned product made on an area: the main check, as wet readings are a guide only.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::film, units::{LITRE, MICROMETRE, SQUARE_METRE}};
/// let dry = film::achieved(LITRE.of(4.0), SQUARE_METRE.of(40.0), 40.0, 45.0)?;
/// assert!((MICROMETRE.get(dry) - 22.0).abs() < 1e-9);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn achieved(used: Volume, area: Area, solids_percent: f64, loss_percent: f64) -> Answer<Length> {
    let litres = Field::PaintVolume.take(used)?;
    let square_metres = Field::Area.take(area)?;
    let solids = check(Field::Solids, solids_percent)? / 100.0;
    let lands = 1.0 - check(Field::Loss, loss_percent)? / 100.0;
    debug_assert!(LITRE.get(used) > 0.0 && SQUARE_METRE.get(area) > 0.0);
    Ok(MICROMETRE.of(1000.0 * litres * solids * lands / square_metres))
}

/// Why readings do not meet the pattern.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FilmReason {
    /// The mean is below nominal.
    MeanBelowNominal {
        /// The mean.
        mean: Length,
    },
    /// Readings below 80 % of nominal.
    ReadingBelow80 {
        /// How many.
        count: usize,
    },
    /// A fifth or more of the readings lies between 80 % and nominal.
    TooManyBetween {
        /// Their share, %.
        share_percent: f64,
        /// Exactly a fifth: some texts of the rule take that.
        exactly_20: bool,
    },
    /// Readings above the stated maximum.
    AboveMaximum {
        /// How many.
        count: usize,
    },
}

/// What film readings say. The pattern is for dry readings, from 40 µm nominal on; with a wet comb or a thinner
/// film it is a guide.
#[derive(Clone, Debug, PartialEq)]
pub struct FilmVerdict {
    /// Number of readings.
    pub count: usize,
    /// Their mean.
    pub mean: Length,
    /// The thinnest.
    pub least: Length,
    /// The thickest.
    pub most: Length,
    /// How many lie below 80 % of nominal.
    pub below_80: usize,
    /// How many lie from 80 % to below nominal.
    pub between: usize,
    /// Their share, %.
    pub between_percent: f64,
    /// How many lie above the maximum.
    pub above_maximum: usize,
    /// All that stands against it; empty when the pattern is met. Exactly 20 % between counts against it.
    pub reasons: Vec<FilmReason>,
    /// Met by the looser reading of the rule, which takes exactly 20 %.
    pub meets_looser: bool,
    /// Nominal is under 40 µm, outside the standard's scope.
    pub under_scope: bool,
}

impl FilmVerdict {
    /// The pattern is met, by the strict reading.
    pub fn meets(&self) -> bool {
        self.reasons.is_empty()
    }
}

/// Holds readings against the pattern of ISO 19840: mean at least nominal, none below 80 %, fewer than a fifth
/// between 80 % and nominal, none above a stated maximum.
///
/// # Errors
/// No readings; one outside its range.
///
/// ```
/// use coatwalk::{sums::film::{self, FilmReason}, units::MICROMETRE};
/// let um = |v: f64| MICROMETRE.of(v);
/// let readings: Vec<_> = [49.0, 51.0, 52.0, 50.0, 53.0].map(um).into();
/// let verdict = film::judge(um(50.0), None, &readings)?;
/// assert!(matches!(verdict.reasons[..], [FilmReason::TooManyBetween { exactly_20: true, .. }]));
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn judge(nominal: Length, maximum: Option<Length>, readings: &[Length]) -> Answer<FilmVerdict> {
    const MOST_READINGS: usize = 10_000;
    // Micrometres come back from metres with a rounding error: 32 is not below 80 % of 40.
    const SAME: f64 = 1e-9;
    let nominal_um = Field::DryFilm.take(nominal)?;
    let maximum_um = maximum.map(|m| Field::DryFilm.take(m)).transpose()?;
    if readings.is_empty() {
        return Err(NotPossible::Nothing.into());
    }
    if readings.len() > MOST_READINGS {
        return Err(NotPossible::TooMany { most: MOST_READINGS }.into());
    }
    let values = readings.iter().map(|r| Field::FilmReading.take(*r)).collect::<Result<Vec<f64>, _>>()?;
    let below = |v: f64, edge: f64| v < edge * (1.0 - SAME);
    let count = values.len();
    let mean = values.iter().sum::<f64>() / count as f64;
    let below_80 = values.iter().filter(|v| below(**v, 0.8 * nominal_um)).count();
    let below_nominal = values.iter().filter(|v| below(**v, nominal_um)).count();
    let between = below_nominal - below_80;
    let above_maximum = maximum_um.map_or(0, |m| values.iter().filter(|v| **v > m * (1.0 + SAME)).count());
    let between_percent = 100.0 * between as f64 / count as f64;
    let mut reasons = Vec::new();
    if below(mean, nominal_um) {
        reasons.push(FilmReason::MeanBelowNominal { mean: MICROMETRE.of(mean) });
    }
    if below_80 > 0 {
        reasons.push(FilmReason::ReadingBelow80 { count: below_80 });
    }
    let exactly_20 = 5 * between == count;
    if 5 * between >= count {
        reasons.push(FilmReason::TooManyBetween { share_percent: between_percent, exactly_20 });
    }
    if above_maximum > 0 {
        reasons.push(FilmReason::AboveMaximum { count: above_maximum });
    }
    let meets_looser = reasons.iter().all(|r| matches!(r, FilmReason::TooManyBetween { exactly_20: true, .. }));
    Ok(FilmVerdict {
        count,
        mean: MICROMETRE.of(mean),
        least: MICROMETRE.of(values.iter().copied().fold(f64::INFINITY, f64::min)),
        most: MICROMETRE.of(values.iter().copied().fold(0.0, f64::max)),
        below_80,
        between,
        between_percent,
        above_maximum,
        reasons,
        meets_looser,
        under_scope: below(nominal_um, 40.0),
    })
}
