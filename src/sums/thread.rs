//! Threads: stress area, preload and torque, dry and wetted with film; and the joints that get no figure at all.
//!
//! Sources: stress area π/4·(d − 0.9382·P)² of ISO 898-1 and 0.7854·(d − 0.9743/n)² of ASME B1.1; proof stress of
//! ISO 898-1 and SAE J429 (580 MPa for 8.8 up to M16 from memory); T = K·F·d. The K figures are from memory.
//! Loose is the commoner failure: what is not known to be a dry figure is left alone.

use std::f64::consts::PI;

use super::range::{Field, check};
use super::{Answer, NotPossible};
use crate::units::{
    Area, Force, INCH, Length, MEGAPASCAL, MILLIMETRE, NEWTON, NEWTON_METRE, PSI, Pressure, Quantity,
    SQUARE_MILLIMETRE, Torque,
};

mod joint;
mod sizes;

pub use joint::*;
pub use sizes::*;

/// A thread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Thread {
    /// ISO metric.
    Metric {
        /// Outside diameter.
        diameter: Length,
        /// Pitch.
        pitch: Length,
    },
    /// Unified inch.
    Inch {
        /// Outside diameter.
        diameter: Length,
        /// Threads per inch.
        per_inch: f64,
    },
}

impl Thread {
    /// Outside diameter.
    pub fn diameter(self) -> Length {
        match self {
            Thread::Metric { diameter, .. } | Thread::Inch { diameter, .. } => diameter,
        }
    }
}

/// Tensile stress area.
///
/// # Errors
/// A measure outside its range; a pitch too coarse for the diameter.
///
/// ```
/// use coatwalk::{sums::thread::{self, Thread}, units::*};
/// let m12 = Thread::Metric { diameter: MILLIMETRE.of(12.0), pitch: MILLIMETRE.of(1.75) };
/// assert!((SQUARE_MILLIMETRE.get(thread::stress_area(m12)?) - 84.266).abs() < 0.001);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn stress_area(thread: Thread) -> Answer<Area> {
    let diameter = Field::ThreadDiameter.take(thread.diameter())?;
    let off = match thread {
        Thread::Metric { pitch, .. } => 0.9382 * Field::Pitch.take(pitch)?,
        Thread::Inch { per_inch, .. } => 0.9743 * 25.4 / check(Field::ThreadsPerInch, per_inch)?,
    };
    if off >= 0.7 * diameter {
        return Err(NotPossible::Clash("the pitch is too coarse for the thread").into());
    }
    Ok(SQUARE_MILLIMETRE.of(PI / 4.0 * (diameter - off).powi(2)))
}

/// How strong a bolt is, as its head says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)] // the names say it
pub enum Strength {
    Class4_6,
    Class4_8,
    Class5_6,
    Class5_8,
    Class6_8,
    Class8_8,
    Class9_8,
    Class10_9,
    Class12_9,
    Grade2,
    Grade5,
    Grade8,
}

impl Strength {
    /// All of them, with what stands on the head or in a table.
    pub const ALL: [(Strength, &'static str); 12] = [
        (Strength::Class4_6, "4.6"),
        (Strength::Class4_8, "4.8"),
        (Strength::Class5_6, "5.6"),
        (Strength::Class5_8, "5.8"),
        (Strength::Class6_8, "6.8"),
        (Strength::Class8_8, "8.8"),
        (Strength::Class9_8, "9.8"),
        (Strength::Class10_9, "10.9"),
        (Strength::Class12_9, "12.9"),
        (Strength::Grade2, "2"),
        (Strength::Grade5, "5"),
        (Strength::Grade8, "8"),
    ];

    /// From its mark: "8.8" of ISO, "5" of SAE.
    pub fn from_mark(mark: &str) -> Option<Strength> {
        Strength::ALL.into_iter().find(|(_, m)| *m == mark.trim()).map(|(s, _)| s)
    }
}

/// Proof stress at a diameter.
///
/// # Errors
/// A diameter outside its range, or one for which the grade is not defined (SAE J429 up to 1 1/2 in).
///
/// ```
/// use coatwalk::{sums::thread::{self, Strength}, units::{INCH, PSI}};
/// let proof = thread::proof_stress(Strength::Grade5, INCH.of(0.75))?;
/// assert!((PSI.get(proof) - 85_000.0).abs() < 0.01);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn proof_stress(strength: Strength, diameter: Length) -> Answer<Pressure> {
    Field::ThreadDiameter.take(diameter)?;
    let over = |mm: f64| MILLIMETRE.get(diameter) > mm + 1e-6;
    let over_in = |inch: f64| INCH.get(diameter) > inch + 1e-6;
    let none = NotPossible::Clash("SAE J429 ends at 1 1/2 in");
    Ok(match strength {
        Strength::Class4_6 => MEGAPASCAL.of(225.0),
        Strength::Class4_8 => MEGAPASCAL.of(310.0),
        Strength::Class5_6 => MEGAPASCAL.of(280.0),
        Strength::Class5_8 => MEGAPASCAL.of(380.0),
        Strength::Class6_8 => MEGAPASCAL.of(440.0),
        Strength::Class8_8 => MEGAPASCAL.of(if over(16.0) { 600.0 } else { 580.0 }),
        Strength::Class9_8 => MEGAPASCAL.of(650.0),
        Strength::Class10_9 => MEGAPASCAL.of(830.0),
        Strength::Class12_9 => MEGAPASCAL.of(970.0),
        Strength::Grade2 | Strength::Grade5 | Strength::Grade8 if over_in(1.5) => {
            return Err(none.into());
        }
        Strength::Grade2 => PSI.of(if over_in(0.75) { 33_000.0 } else { 55_000.0 }),
        Strength::Grade5 => PSI.of(if over_in(1.0) { 74_000.0 } else { 85_000.0 }),
        Strength::Grade8 => PSI.of(120_000.0),
    })
}

/// Least tensile strength at a diameter: ISO 898-1 and SAE J429.
///
/// # Errors
/// As [`proof_stress`].
pub fn tensile_strength(strength: Strength, diameter: Length) -> Answer<Pressure> {
    proof_stress(strength, diameter)?;
    let over = |mm: f64| MILLIMETRE.get(diameter) > mm + 1e-6;
    let over_in = |inch: f64| INCH.get(diameter) > inch + 1e-6;
    Ok(match strength {
        Strength::Class4_6 => MEGAPASCAL.of(400.0),
        Strength::Class4_8 => MEGAPASCAL.of(420.0),
        Strength::Class5_6 => MEGAPASCAL.of(500.0),
        Strength::Class5_8 => MEGAPASCAL.of(520.0),
        Strength::Class6_8 => MEGAPASCAL.of(600.0),
        Strength::Class8_8 => MEGAPASCAL.of(if over(16.0) { 830.0 } else { 800.0 }),
        Strength::Class9_8 => MEGAPASCAL.of(900.0),
        Strength::Class10_9 => MEGAPASCAL.of(1040.0),
        Strength::Class12_9 => MEGAPASCAL.of(1220.0),
        Strength::Grade2 => PSI.of(if over_in(0.75) { 60_000.0 } else { 74_000.0 }),
        Strength::Grade5 => PSI.of(if over_in(1.0) { 105_000.0 } else { 120_000.0 }),
        Strength::Grade8 => PSI.of(150_000.0),
    })
}

/// Force a section carries at a stress: proof load, tensile load.
///
/// # Errors
/// An input outside its range.
pub fn load(area: Area, stress: Pressure) -> Answer<Force> {
    Ok(NEWTON.of(Field::StressArea.take(area)? * Field::ProofStress.take(stress)?))
}

/// Clamp force at a share of the proof load.
///
/// # Errors
/// An input outside its range.
pub fn preload(area: Area, proof: Pressure, percent_of_proof: f64) -> Answer<Force> {
    let share = check(Field::Preload, percent_of_proof)? / 100.0;
    Ok(NEWTON.of(load(area, proof)?.si() * share))
}

/// Torque for a clamp force: K·F·d.
///
/// # Errors
/// An input outside its range.
pub fn torque(k: f64, force: Force, diameter: Length) -> Answer<Torque> {
    let k = check(Field::KFactor, k)?;
    Field::ClampForce.take(force)?;
    Field::ThreadDiameter.take(diameter)?;
    Ok(NEWTON_METRE.of(k * force.si() * diameter.si()))
}

/// Usual preload, % of proof (common practice, no source).
pub const PRELOAD_PERCENT: f64 = 75.0;

/// What the threads are like.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Surface {
    /// As bought, black or lightly oiled.
    AsReceived,
    /// Zinc plated, dry.
    ZincDry,
    /// Hot-dip galvanised.
    Galvanised,
    /// Wetted with film.
    FilmWetted,
}

impl Surface {
    /// K: least, likely, most (from memory).
    pub fn k(self) -> [f64; 3] {
        match self {
            Surface::AsReceived => [0.18, 0.19, 0.20],
            Surface::ZincDry => [0.17, 0.21, 0.30],
            Surface::Galvanised => [0.20, 0.25, 0.35],
            Surface::FilmWetted => [0.10, 0.14, 0.18],
        }
    }

    /// How far the clamp force scatters at one torque, ± % (from memory).
    pub fn scatter_percent(self) -> f64 {
        match self {
            Surface::FilmWetted => 25.0,
            _ => 35.0,
        }
    }
}

/// A torque and what comes of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tightening {
    /// Stress area.
    pub area: Area,
    /// Proof stress.
    pub proof: Pressure,
    /// Load at proof.
    pub proof_load: Force,
    /// Clamp force aimed at.
    pub preload: Force,
    /// K used.
    pub k: f64,
    /// The torque for it.
    pub torque: Torque,
    /// Clamp force at that torque, least, by scatter.
    pub clamp_least: Force,
    /// Clamp force at that torque, most, by scatter.
    pub clamp_most: Force,
}

/// Torque for a joint, with the band of clamp force it really gives.
///
/// # Errors
/// A joint that gets no figure ([`Joint::refusal`]); an input outside its range.
///
/// ```
/// use coatwalk::{sums::thread::{self, Joint, Strength, Surface}, units::NEWTON_METRE};
/// let m10 = thread::size("M10").unwrap();
/// let dry = thread::tighten(Joint::Panel, m10, Strength::Class8_8, 75.0, Surface::AsReceived)?;
/// let wet = thread::tighten(Joint::Panel, m10, Strength::Class8_8, 75.0, Surface::FilmWetted)?;
/// assert!(wet.torque < dry.torque);
/// assert!(thread::tighten(Joint::WheelNut, m10, Strength::Class8_8, 75.0, Surface::AsReceived).is_err());
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn tighten(
    joint: Joint,
    thread: Thread,
    strength: Strength,
    preload_percent: f64,
    surface: Surface,
) -> Answer<Tightening> {
    if let Some(refusal) = joint.refusal() {
        return Err(NotPossible::Refused(refusal).into());
    }
    let area = stress_area(thread)?;
    let proof = proof_stress(strength, thread.diameter())?;
    let preload = preload(area, proof, preload_percent)?;
    let [_, k, _] = surface.k();
    let scatter = surface.scatter_percent() / 100.0;
    Ok(Tightening {
        area,
        proof,
        proof_load: load(area, proof)?,
        preload,
        k,
        torque: torque(k, preload, thread.diameter())?,
        clamp_least: NEWTON.of(preload.si() * (1.0 - scatter)),
        clamp_most: NEWTON.of(preload.si() * (1.0 + scatter)),
    })
}

/// What a manual says of its torque.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ManualSays {
    /// For dry threads.
    Dry,
    /// For oiled or greased threads.
    Wetted,
    /// Nothing.
    Nothing,
}

/// A manual's torque on threads wetted with film.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Manual {
    /// Turned down for the wetted thread.
    Converted {
        /// By the likely K figures.
        torque: Torque,
        /// By the most slippery film on the driest thread.
        least: Torque,
        /// By the least slippery film on the slickest dry thread; never more than the manual.
        most: Torque,
    },
    /// Left as the manual has it.
    LeftAlone {
        /// The manual's own.
        torque: Torque,
    },
}

/// A manual's torque for threads wetted with film: converted only when the manual says dry.
///
/// # Errors
/// A joint that gets no figure; a torque outside its range.
///
/// ```
/// use coatwalk::{sums::thread::{self, Joint, Manual, ManualSays, Surface}, units::NEWTON_METRE as NM};
/// let says = |s| thread::manual(Joint::Panel, NM.of(50.0), s, Surface::ZincDry);
/// assert!(matches!(says(ManualSays::Nothing)?, Manual::LeftAlone { .. }));
/// let Manual::Converted { torque, .. } = says(ManualSays::Dry)? else { panic!() };
/// assert!((NM.get(torque) - 50.0 * 0.14 / 0.21).abs() < 1e-9);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn manual(joint: Joint, torque: Torque, says: ManualSays, dry: Surface) -> Answer<Manual> {
    if let Some(refusal) = joint.refusal() {
        return Err(NotPossible::Refused(refusal).into());
    }
    let n_m = Field::ManualTorque.take(torque)?;
    if says != ManualSays::Dry || dry == Surface::FilmWetted {
        return Ok(Manual::LeftAlone { torque });
    }
    let ([wet_least, wet, wet_most], [dry_least, likely, dry_most]) = (Surface::FilmWetted.k(), dry.k());
    Ok(Manual::Converted {
        torque: NEWTON_METRE.of(n_m * wet / likely),
        least: NEWTON_METRE.of(n_m * wet_least / dry_most),
        most: NEWTON_METRE.of(n_m * (wet_most / dry_least).min(1.0)),
    })
}
