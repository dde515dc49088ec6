//! A shed filling with vapour and clearing.

use super::*;
use crate::units::{CUBIC_METRE, CUBIC_METRE_PER_HOUR, HOUR, Time, VolumeRate};

/// Air does not mix fully: the flow counts only as this part, 1 in so many: least, likely, most (from memory).
pub const MIXING_FACTOR: [f64; 3] = [2.0, 3.0, 10.0];

/// A room with air passing through.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// Its volume.
    pub volume: Volume,
    /// Clean air in, and as much out.
    pub flow: VolumeRate,
    /// How badly it mixes: 1 fully, 3 by default.
    pub mixing_factor: f64,
}

/// A room and a source, checked; hours and m³.
struct Flows {
    /// Air changes that count, 1/h.
    rate: f64,
    /// Vapour set free, % of the room in an hour.
    source: f64,
}

impl Flows {
    fn new(room: &Room, generation: VolumeRate) -> Answer<Flows> {
        let volume = Field::ShedVolume.take(room.volume)?;
        let flow = Field::Airflow.take(room.flow)?;
        let factor = check(Field::MixingFactor, room.mixing_factor)?;
        Ok(Flows { rate: flow / factor / volume, source: 100.0 * Field::Generation.take(generation)? / volume })
    }

    fn at(&self, start: f64, hours: f64) -> f64 {
        let x = self.rate * hours;
        // (1 - e^-x)/x goes to 1 for a shut room.
        let filled = if x < 1e-12 { 1.0 } else { -(-x).exp_m1() / x };
        start * (-x).exp() + self.source * hours * filled
    }
}

/// Vapour in the air after a time, % by volume of a well-mixed room.
///
/// # Errors
/// An input outside its range; more vapour than room.
///
/// ```
/// use coatwalk::{sums::vapour::{self, Room}, units::*};
/// let shed = Room {
///     volume: CUBIC_METRE.of(600.0), flow: CUBIC_METRE_PER_HOUR.of(1800.0), mixing_factor: 1.0,
/// };
/// let now = vapour::concentration(&shed, CUBIC_METRE_PER_HOUR.of(0.9), 0.0, MINUTE.of(10.0))?;
/// assert!((now - 0.019673467).abs() < 1e-9);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn concentration(room: &Room, generation: VolumeRate, start_percent: f64, time: Time) -> Answer<f64> {
    let flows = Flows::new(room, generation)?;
    let start = check(Field::VapourPercent, start_percent)?;
    let percent = flows.at(start, Field::Duration.take(time)?);
    if percent > 100.0 {
        return Err(NotPossible::Clash("that is more vapour than the room holds").into());
    }
    Ok(percent)
}

/// Where it levels off, % by volume.
///
/// # Errors
/// An input outside its range; a shut room with a source, which never levels off.
pub fn levels_off_at(room: &Room, generation: VolumeRate) -> Answer<f64> {
    let flows = Flows::new(room, generation)?;
    if flows.source == 0.0 {
        return Ok(0.0);
    }
    if flows.rate == 0.0 {
        return Err(NotPossible::NeverReaches { ends_at: None }.into());
    }
    let percent = flows.source / flows.rate;
    if percent > 100.0 {
        return Err(NotPossible::Clash("that is more vapour than the room holds").into());
    }
    Ok(percent)
}

/// Which way a target is met.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Until {
    /// The air has cleared to the target: none to wait when it starts below.
    Falls,
    /// The air has filled to the target: none to wait when it starts above.
    Rises,
}

/// Time until the average reaches a target, % by volume.
///
/// # Errors
/// An input outside its range; a target it never reaches.
///
/// ```
/// use coatwalk::{sums::vapour::{self, Room, Until}, units::*};
/// let shed = Room {
///     volume: CUBIC_METRE.of(600.0), flow: CUBIC_METRE_PER_HOUR.of(1800.0), mixing_factor: 3.0,
/// };
/// // from 0.8 % down to 25 % of an LEL of 1 %
/// let purge = vapour::time_to(&shed, CUBIC_METRE_PER_HOUR.of(0.0), 0.8, 0.25, Until::Falls)?;
/// assert!((MINUTE.get(purge) - 69.789).abs() < 0.001);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn time_to(
    room: &Room,
    generation: VolumeRate,
    start_percent: f64,
    target_percent: f64,
    until: Until,
) -> Answer<Time> {
    let flows = Flows::new(room, generation)?;
    let start = check(Field::VapourPercent, start_percent)?;
    let target = check(Field::VapourPercent, target_percent)?;
    let there = match until {
        Until::Falls => start <= target,
        Until::Rises => start >= target,
    };
    if there {
        return Ok(HOUR.of(0.0));
    }
    let never = Err(NotPossible::NeverReaches { ends_at: None }.into());
    if flows.rate == 0.0 {
        return match until {
            Until::Rises if flows.source > 0.0 => Ok(HOUR.of((target - start) / flows.source)),
            _ => never,
        };
    }
    let end = flows.source / flows.rate;
    let left = (target - end) / (start - end);
    match left > 0.0 && left < 1.0 {
        true => Ok(HOUR.of(-left.ln() / flows.rate)),
        false => never,
    }
}

/// Air flow that keeps the average at a target, % by volume, for good.
///
/// # Errors
/// An input outside its range; a target of nothing.
///
/// ```
/// use coatwalk::{sums::vapour, units::CUBIC_METRE_PER_HOUR};
/// let flow = vapour::flow_needed(CUBIC_METRE_PER_HOUR.of(0.9), 0.25, 1.0)?;
/// assert!((CUBIC_METRE_PER_HOUR.get(flow) - 360.0).abs() < 1e-9);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn flow_needed(generation: VolumeRate, target_percent: f64, mixing_factor: f64) -> Answer<VolumeRate> {
    let generation = Field::Generation.take(generation)?;
    let target = check(Field::VapourPercent, target_percent)?;
    let factor = check(Field::MixingFactor, mixing_factor)?;
    if generation == 0.0 {
        return Ok(CUBIC_METRE_PER_HOUR.of(0.0));
    }
    if target < 1e-9 {
        return Err(NotPossible::NeverReaches { ends_at: None }.into());
    }
    Ok(CUBIC_METRE_PER_HOUR.of(100.0 * generation / target * factor))
}

/// Time in which air changes take a share of what is in the air away.
///
/// # Errors
/// An input outside its range; no air changes.
///
/// ```
/// use coatwalk::{sums::vapour, units::MINUTE};
/// // printed in MMWR, 28 October 1994, table S3-1: 6 air changes, 90 %: 23 minutes
/// assert!((MINUTE.get(vapour::removal(6.0, 1.0, 90.0)?) - 23.0).abs() < 0.6);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn removal(air_changes_per_hour: f64, mixing_factor: f64, percent: f64) -> Answer<Time> {
    let changes = check(Field::AirChanges, air_changes_per_hour)?;
    let factor = check(Field::MixingFactor, mixing_factor)?;
    let left = 1.0 - check(Field::Removal, percent)? / 100.0;
    if left >= 1.0 {
        return Ok(HOUR.of(0.0));
    }
    if changes < 1e-9 {
        return Err(NotPossible::NeverReaches { ends_at: None }.into());
    }
    Ok(HOUR.of(-left.ln() * factor / changes))
}

/// Spraying in a shed, then clearing it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spraying {
    /// The shed.
    pub room: Room,
    /// Liquid sprayed in all.
    pub liquid: Volume,
    /// From the first stroke to the last.
    pub over: Time,
    /// The liquid.
    pub blend: Blended,
}

/// How a shed fills and clears, as shares of LEL, on average.
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    /// (time, % of LEL) from the first stroke on.
    pub points: Vec<(Time, f64)>,
    /// At the last stroke, the worst of the average, % of LEL.
    pub peak_percent_of_lel: f64,
    /// When the average passes 10 % of LEL on the way up.
    pub passes_10: Option<Time>,
    /// When it passes 25 % on the way up.
    pub passes_25: Option<Time>,
    /// From the last stroke until it is down to 25 %; none when nothing moves the air.
    pub down_to_25: Option<Time>,
    /// From the last stroke until it is down to 10 %.
    pub down_to_10: Option<Time>,
}

/// The course of a spraying, evenly spread over its time, and of the purge after it.
///
/// # Errors
/// An input outside its range; more vapour than room.
///
/// ```
/// use coatwalk::{sums::vapour::{self, Blended, Room, Spraying}, units::*};
/// let course = vapour::course(&Spraying {
///     room: Room { volume: CUBIC_METRE.of(600.0), flow: CUBIC_METRE_PER_HOUR.of(1800.0), mixing_factor: 3.0 },
///     liquid: LITRE.of(8.0), over: HOUR.of(1.0),
///     blend: Blended { vapour_per_liquid: 120.0, lel_percent: 0.7 },
/// })?;
/// assert!(course.passes_10.is_some() && course.passes_25.is_none());
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn course(spraying: &Spraying) -> Answer<Course> {
    const POINTS: usize = 40;
    let lel = check(Field::Lel, spraying.blend.lel_percent)?;
    let per_liquid = check(Field::VapourRatio, spraying.blend.vapour_per_liquid)?;
    let litres = Field::SprayVolume.take(spraying.liquid)?;
    let over = Field::SprayTime.take(spraying.over)?;
    let source = CUBIC_METRE_PER_HOUR.of(litres / 1000.0 * per_liquid / over);
    let none = CUBIC_METRE_PER_HOUR.of(0.0);
    let room = &spraying.room;
    let peak = concentration(room, source, 0.0, spraying.over)?;
    let share = |percent: f64| 100.0 * percent / lel;
    let passes = |of_lel: f64| {
        let time = time_to(room, source, 0.0, of_lel / 100.0 * lel, Until::Rises).ok()?;
        (HOUR.get(time) <= over).then_some(time)
    };
    let down = |of_lel: f64| time_to(room, none, peak, of_lel / 100.0 * lel, Until::Falls).ok();
    let (down_to_25, down_to_10) = (down(25.0), down(10.0));
    let purge = down_to_10.map_or(over, |t| HOUR.get(t).max(0.25 * over)).min(1e5);
    let mut points = Vec::with_capacity(2 * POINTS + 1);
    for i in 0..=POINTS {
        let hour = over * i as f64 / POINTS as f64;
        points.push((HOUR.of(hour), share(concentration(room, source, 0.0, HOUR.of(hour))?)));
    }
    for i in 1..=POINTS {
        let hour = purge * i as f64 / POINTS as f64;
        points.push((HOUR.of(over + hour), share(concentration(room, none, peak, HOUR.of(hour))?)));
    }
    debug_assert!(CUBIC_METRE.get(room.volume) > 0.0);
    Ok(Course {
        points,
        peak_percent_of_lel: share(peak),
        passes_10: passes(10.0),
        passes_25: passes(25.0),
        down_to_25,
        down_to_10,
    })
}
