//! Two strengths into one (alligation), and putting a weak or strong bucket right.

use crate::sums::range::{Field, check};
use crate::sums::{Answer, NotPossible};
use crate::units::{LITRE, Volume};

/// Two liquids of different strength that make a third (alligation).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Blend {
    /// Of the weaker liquid.
    pub weaker: Volume,
    /// Of the stronger liquid.
    pub stronger: Volume,
}

/// How much of a weaker and a stronger liquid make a volume of a wanted strength. Plain water has 0 %, the
/// undiluted concentrate 100 %.
///
/// # Errors
/// An input outside its range; a target that is not between the two.
///
/// ```
/// use coatwalk::{sums::dilution, units::LITRE};
/// // 12 L at 5 % from water and pure concentrate
/// let blend = dilution::blend(LITRE.of(12.0), 0.0, 100.0, 5.0)?;
/// assert!((LITRE.get(blend.stronger) - 0.6).abs() < 1e-9);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn blend(total: Volume, weaker_percent: f64, stronger_percent: f64, target_percent: f64) -> Answer<Blend> {
    let total = Field::FillVolume.take(total)?;
    let weaker = check(Field::BucketPercent, weaker_percent)?;
    let stronger = check(Field::BucketPercent, stronger_percent)?;
    let target = check(Field::BucketPercent, target_percent)?;
    let share = share_of_stronger(weaker, stronger, target)?;
    Ok(Blend { weaker: LITRE.of(total * (1.0 - share)), stronger: LITRE.of(total * share) })
}

fn share_of_stronger(weaker: f64, stronger: f64, target: f64) -> Answer<f64> {
    if target > stronger {
        return Err(
            NotPossible::StrongerThanConcentrate { target_percent: target, concentrate_percent: stronger }.into()
        );
    }
    if target < weaker {
        return Err(NotPossible::WeakerThanWeaker { target_percent: target, weaker_percent: weaker }.into());
    }
    if stronger == weaker {
        return Ok(0.0);
    }
    Ok((target - weaker) / (stronger - weaker))
}

/// Strength after more liquid of another strength is poured in, %. Water has 0 %.
///
/// # Errors
/// An input outside its range.
///
/// ```
/// use coatwalk::{sums::dilution, units::LITRE};
/// let now = dilution::after_adding(LITRE.of(9.0), 6.0, LITRE.of(3.0), 0.0)?;
/// assert!((now - 4.5).abs() < 1e-9);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn after_adding(contents: Volume, percent: f64, added: Volume, added_percent: f64) -> Answer<f64> {
    let contents = Field::FillVolume.take(contents)?;
    let percent = check(Field::BucketPercent, percent)?;
    let added = Field::AddedVolume.take(added)?;
    let added_percent = check(Field::BucketPercent, added_percent)?;
    Ok((contents * percent + added * added_percent) / (contents + added))
}

/// What goes into a bucket that is too weak or too strong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Add {
    /// It is right as it is.
    Nothing,
    /// It is too weak.
    Concentrate,
    /// It is too strong.
    Water,
}

/// How to put a bucket right.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Correction {
    /// What to add.
    pub add: Add,
    /// How much to add when the bucket has room, or no size was given: nothing is lost.
    pub amount: Volume,
    /// What the bucket then holds.
    pub total: Volume,
    /// Set when there is no room: draw off first, then add.
    pub no_room: Option<DrawOff>,
    /// The other way, at the same level: draw off so much and put back as much.
    pub same_level: Volume,
}

/// No room in the bucket: what to draw off first, and what to add then, so that it ends up full.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DrawOff {
    /// Draw off this much first.
    pub first: Volume,
    /// Then add this much.
    pub then_add: Volume,
}

/// Puts a weak or strong bucket right. `concentrate_percent` is 100 for concentrate as bought; `size` is how much
/// the bucket takes.
///
/// # Errors
/// An input outside its range; a target no addition reaches; contents larger than the bucket.
///
/// ```
/// use coatwalk::{sums::dilution::{self, Add}, units::LITRE};
/// let fix = dilution::correct(LITRE.of(10.0), 2.0, 5.0, 100.0, Some(LITRE.of(10.0)))?;
/// assert_eq!(fix.add, Add::Concentrate);
/// // A full bucket: draw off 0.306 L first, then add as much concentrate.
/// assert!((LITRE.get(fix.no_room.unwrap().first) - 0.306122).abs() < 1e-6);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn correct(
    contents: Volume,
    percent: f64,
    target_percent: f64,
    concentrate_percent: f64,
    size: Option<Volume>,
) -> Answer<Correction> {
    let contents_l = Field::FillVolume.take(contents)?;
    let percent = check(Field::BucketPercent, percent)?;
    let target = check(Field::BucketPercent, target_percent)?;
    let concentrate = check(Field::BucketPercent, concentrate_percent)?;
    let size_l = size.map(|s| Field::BucketSize.take(s)).transpose()?;
    if let (Some(size_l), Some(holds)) = (size_l, size)
        && contents_l > size_l * (1.0 + 1e-9)
    {
        return Err(NotPossible::MoreThanItHolds { asked: contents, holds }.into());
    }
    let (add, added_percent) = if target > percent {
        (Add::Concentrate, concentrate)
    } else if target < percent {
        (Add::Water, 0.0)
    } else {
        return Ok(Correction {
            add: Add::Nothing,
            amount: LITRE.of(0.0),
            total: contents,
            no_room: None,
            same_level: LITRE.of(0.0),
        });
    };
    match add {
        Add::Concentrate if target >= concentrate => {
            return Err(NotPossible::StrongerThanConcentrate {
                target_percent: target,
                concentrate_percent: concentrate,
            }
            .into());
        }
        Add::Water if target == 0.0 => {
            return Err(NotPossible::WeakerThanWeaker { target_percent: target, weaker_percent: 0.0 }.into());
        }
        _ => {}
    }
    let amount = contents_l * (target - percent) / (added_percent - target);
    let share = (target - percent) / (added_percent - percent);
    let no_room = size_l
        .filter(|size| contents_l + amount > size * (1.0 + 1e-9))
        .map(|size| DrawOff { first: LITRE.of(contents_l - size * (1.0 - share)), then_add: LITRE.of(size * share) });
    Ok(Correction {
        add,
        amount: LITRE.of(amount),
        total: LITRE.of(contents_l + amount),
        no_room,
        same_level: LITRE.of(contents_l * share),
    })
}
