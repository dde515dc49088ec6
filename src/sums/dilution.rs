//! Dilution: how much water and concentrate, what is in this bucket, and how to put it right.
//!
//! Source: volume balance, volumes taken as additive. The two ways of counting ounces to a gallon are both in
//! print: per gallon of water (128/ratio) and per gallon of finished mix (128/(ratio + 1)); see [`Per`].

use super::range::{Field, check};
use super::{Answer, NotPossible};
use crate::units::{Area, LITRE, Length, Quantity, Ratio, Volume};

mod blend;

pub use blend::*;

/// US fluid ounces in a US gallon, by definition.
const OUNCES_PER_GALLON: f64 = 128.0;

/// Degreaser mix per area, L/m²: least, likely, most. From memory.
pub const DEGREASER_L_PER_M2: [f64; 3] = [0.1, 0.25, 0.5];
/// Neutraliser mix per area, L/m²: least, likely, most. From memory.
pub const NEUTRALISER_L_PER_M2: [f64; 3] = [0.08, 0.15, 0.3];
/// Rinse water per area, L/m²: least, likely, most; all of it is to be caught. From memory.
pub const RINSE_L_PER_M2: [f64; 3] = [5.0, 8.0, 15.0];

/// What "per litre" or "per gallon" counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Per {
    /// Per volume of the water put in.
    Water,
    /// Per volume of the finished mix.
    Mix,
}

/// Parts of water to parts of concentrate. Always said in words ([`MixRatio::words`]): "3:1" is read both ways.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MixRatio {
    water: f64,
    concentrate: f64,
}

impl MixRatio {
    /// From parts, as a label gives them.
    ///
    /// # Errors
    /// A part outside its range.
    ///
    /// ```
    /// use coatwalk::sums::dilution::MixRatio;
    /// let ratio = MixRatio::parts(3.0, 1.0).unwrap();
    /// assert_eq!(ratio.percent(), 25.0);
    /// assert_eq!(ratio.words(), "3 water to 1 concentrate");
    /// ```
    pub fn parts(water: f64, concentrate: f64) -> Answer<Self> {
        Ok(MixRatio {
            water: check(Field::WaterParts, water)?,
            concentrate: check(Field::ConcentrateParts, concentrate)?,
        })
    }

    /// From the share of concentrate in the finished mix, % by volume.
    ///
    /// # Errors
    /// A share outside its range.
    pub fn from_percent(percent: f64) -> Answer<Self> {
        let percent = check(Field::MixPercent, percent)?;
        Ok(MixRatio { water: ((100.0 - percent) / percent).max(0.0), concentrate: 1.0 })
    }

    /// From ounces per gallon or millilitres per litre, counted per water or per mix.
    ///
    /// # Errors
    /// A strength outside its range.
    ///
    /// ```
    /// use coatwalk::{sums::dilution::{MixRatio, Per}, units::US_FLUID_OUNCE_PER_US_GALLON as OZ};
    /// assert!((MixRatio::from_strength(OZ.of(32.0), Per::Water).unwrap().percent() - 20.0).abs() < 1e-9);
    /// assert!((MixRatio::from_strength(OZ.of(25.6), Per::Mix).unwrap().percent() - 20.0).abs() < 1e-9);
    /// ```
    pub fn from_strength(strength: Ratio, per: Per) -> Answer<Self> {
        let field = match per {
            Per::Water => Field::StrengthPerWater,
            Per::Mix => Field::StrengthPerMix,
        };
        field.take(strength)?;
        let share = strength.si();
        let water = match per {
            Per::Water => 1.0 / share,
            Per::Mix => (1.0 / share - 1.0).max(0.0),
        };
        Ok(MixRatio { water, concentrate: 1.0 })
    }

    /// Backwards: what ratio is in this bucket, from the water and the concentrate that went in.
    ///
    /// # Errors
    /// A volume outside its range.
    ///
    /// ```
    /// use coatwalk::{sums::dilution::MixRatio, units::LITRE};
    /// let ratio = MixRatio::in_bucket(LITRE.of(9.0), LITRE.of(0.5)).unwrap();
    /// assert_eq!(ratio.water_per_concentrate(), 18.0);
    /// ```
    pub fn in_bucket(water: Volume, concentrate: Volume) -> Answer<Self> {
        Ok(MixRatio {
            water: Field::WaterVolume.take(water)?,
            concentrate: Field::ConcentrateVolume.take(concentrate)?,
        })
    }

    /// Backwards, from the level of the mix and the concentrate that went in.
    ///
    /// # Errors
    /// A volume outside its range; more concentrate than mix.
    pub fn in_mix(total: Volume, concentrate: Volume) -> Answer<Self> {
        let total = Field::FillVolume.take(total)?;
        let concentrate = Field::ConcentrateVolume.take(concentrate)?;
        if concentrate > total {
            return Err(NotPossible::PartLargerThanWhole.into());
        }
        Ok(MixRatio { water: total - concentrate, concentrate })
    }

    /// Parts of water, as given.
    pub fn water_parts(self) -> f64 {
        self.water
    }

    /// Parts of concentrate, as given.
    pub fn concentrate_parts(self) -> f64 {
        self.concentrate
    }

    /// Parts of water to one of concentrate.
    pub fn water_per_concentrate(self) -> f64 {
        self.water / self.concentrate
    }

    /// Concentrate in the finished mix, % by volume.
    pub fn percent(self) -> f64 {
        100.0 * self.share()
    }

    /// Concentrate per water or per mix. Per water there is none when no water goes in.
    pub fn strength(self, per: Per) -> Option<Ratio> {
        match per {
            Per::Water if self.water == 0.0 => None,
            Per::Water => Some(Ratio::from_si(self.concentrate / self.water)),
            Per::Mix => Some(Ratio::from_si(self.share())),
        }
    }

    /// US fluid ounces to a US gallon of water or of mix.
    pub fn oz_per_us_gallon(self, per: Per) -> Option<f64> {
        Some(self.strength(per)?.si() * OUNCES_PER_GALLON)
    }

    /// Millilitres to a litre of water or of mix.
    pub fn ml_per_litre(self, per: Per) -> Option<f64> {
        Some(self.strength(per)?.si() * 1000.0)
    }

    /// "3 water to 1 concentrate".
    pub fn words(self) -> String {
        let tidy = |v: f64| format!("{}", (v * 100.0).round() / 100.0);
        format!("{} water to {} concentrate", tidy(self.water), tidy(self.concentrate))
    }

    fn share(self) -> f64 {
        self.concentrate / (self.water + self.concentrate)
    }
}

/// A mix, with all a screen shows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mix {
    /// Its ratio.
    pub ratio: MixRatio,
    /// Water, which goes in first.
    pub water: Volume,
    /// Concentrate.
    pub concentrate: Volume,
    /// Both together.
    pub total: Volume,
    /// Concentrate, % by volume of the mix.
    pub concentrate_percent: f64,
    /// US fluid ounces to a US gallon of water; none without water.
    pub oz_per_gallon_of_water: Option<f64>,
    /// US fluid ounces to a US gallon of finished mix.
    pub oz_per_gallon_of_mix: f64,
    /// Millilitres to a litre of water; none without water.
    pub ml_per_litre_of_water: Option<f64>,
    /// Millilitres to a litre of finished mix.
    pub ml_per_litre_of_mix: f64,
}

impl Mix {
    fn new(ratio: MixRatio, total_l: f64) -> Mix {
        let share = ratio.share();
        let concentrate = total_l * share;
        Mix {
            ratio,
            water: LITRE.of(total_l * ratio.water / (ratio.water + ratio.concentrate)),
            concentrate: LITRE.of(concentrate),
            total: LITRE.of(total_l),
            concentrate_percent: 100.0 * share,
            oz_per_gallon_of_water: ratio.oz_per_us_gallon(Per::Water),
            oz_per_gallon_of_mix: OUNCES_PER_GALLON * share,
            ml_per_litre_of_water: ratio.ml_per_litre(Per::Water),
            ml_per_litre_of_mix: 1000.0 * share,
        }
    }

    /// Spread over buckets that are filled to `size`, the last one as far as needed.
    ///
    /// # Errors
    /// A size outside its range.
    ///
    /// ```
    /// use coatwalk::{sums::dilution::{self, MixRatio}, units::LITRE};
    /// let mix = dilution::to_fill(MixRatio::parts(3.0, 1.0).unwrap(), LITRE.of(25.0)).unwrap();
    /// let buckets = mix.in_buckets(LITRE.of(10.0)).unwrap();
    /// assert_eq!((buckets.count, buckets.full), (3, 2));
    /// assert!((LITRE.get(buckets.last.unwrap().total) - 5.0).abs() < 1e-9);
    /// assert!((LITRE.get(buckets.left_over_if_all_full) - 5.0).abs() < 1e-9);
    /// ```
    pub fn in_buckets(&self, size: Volume) -> Answer<Buckets> {
        let size_l = Field::BucketSize.take(size)?;
        let total_l = LITRE.get(self.total);
        // A whole number that came out a hair high must not open one more bucket.
        let count = (total_l / size_l - 1e-9).ceil().max(1.0);
        let full = (total_l / size_l + 1e-9).floor();
        let last_l = total_l - full * size_l;
        Ok(Buckets {
            size,
            count: count as u64,
            full: full as u64,
            each: Mix::new(self.ratio, size_l),
            last: (count > full).then(|| Mix::new(self.ratio, last_l)),
            left_over_if_all_full: LITRE.of((count * size_l - total_l).max(0.0)),
        })
    }

    /// What stays in the can when the mix is made, or what is missing.
    ///
    /// # Errors
    /// A volume outside its range.
    pub fn supply(&self, at_hand: Volume) -> Answer<Supply> {
        let at_hand = Field::ConcentrateVolume.take(at_hand)?;
        let left = at_hand - LITRE.get(self.concentrate);
        Ok(Supply { left: LITRE.of(left.max(0.0)), missing: LITRE.of((-left).max(0.0)) })
    }
}

/// Concentrate after a mix.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Supply {
    /// Left in the can.
    pub left: Volume,
    /// Short of the mix.
    pub missing: Volume,
}

/// A mix in buckets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Buckets {
    /// How far each is filled.
    pub size: Volume,
    /// Buckets in all.
    pub count: u64,
    /// Full ones.
    pub full: u64,
    /// What goes into a full one.
    pub each: Mix,
    /// What goes into the last one, when it is not full.
    pub last: Option<Mix>,
    /// Left over when every bucket is filled.
    pub left_over_if_all_full: Volume,
}

/// Water and concentrate for a volume to fill.
///
/// # Errors
/// A volume outside its range.
///
/// ```
/// use coatwalk::{sums::dilution::{self, MixRatio}, units::LITRE};
/// let mix = dilution::to_fill(MixRatio::parts(3.0, 1.0)?, LITRE.of(10.0))?;
/// assert_eq!(LITRE.print(mix.water), "7.5 L");
/// assert_eq!(LITRE.print(mix.concentrate), "2.5 L");
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn to_fill(ratio: MixRatio, total: Volume) -> Answer<Mix> {
    Ok(Mix::new(ratio, Field::FillVolume.take(total)?))
}

/// How much mix the concentrate at hand makes, all of it used.
///
/// # Errors
/// A volume outside its range.
pub fn from_concentrate(ratio: MixRatio, concentrate: Volume) -> Answer<Mix> {
    let concentrate = Field::ConcentrateVolume.take(concentrate)?;
    Ok(Mix::new(ratio, concentrate / ratio.share()))
}

/// Mix for an area at so much liquid per area.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::dilution::{self, MixRatio}, units::{LITRE, LITRE_PER_SQUARE_METRE, SQUARE_METRE}};
/// let ratio = MixRatio::parts(3.0, 1.0)?;
/// let mix = dilution::for_area(ratio, SQUARE_METRE.of(40.0), LITRE_PER_SQUARE_METRE.of(0.25))?;
/// assert!((LITRE.get(mix.total) - 10.0).abs() < 1e-9);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn for_area(ratio: MixRatio, area: Area, per_area: Length) -> Answer<Mix> {
    let area = Field::Area.take(area)?;
    let per_area = Field::VolumePerArea.take(per_area)?;
    Ok(Mix::new(ratio, area * per_area))
}
