//! fasteners_metric, fasteners_inch.

use coatwalk::sums::thread::{self, Strength, Thread};
use coatwalk::units::*;

use super::{Failure, Row, unknown, words};

pub const METRIC: &[&str] = &[
    "thread",
    "d_mm",
    "pitch_mm",
    "property_class",
    "proof_stress_mpa",
    "tensile_strength_mpa",
    "preload_pct_of_proof",
    "k_factor",
];

pub fn metric(row: &Row, what: &str) -> Result<f64, Failure> {
    let bolt = Bolt { row, diameter: MILLIMETRE.of(row.number("d_mm")?), class: "property_class" };
    let thread = || -> Result<Thread, Failure> {
        Ok(Thread::Metric { diameter: bolt.diameter, pitch: MILLIMETRE.of(row.number("pitch_mm")?) })
    };
    let area = || -> Result<Area, Failure> { thread::stress_area(thread()?).map_err(words) };
    let proof = || bolt.stress("proof_stress_mpa", MEGAPASCAL, thread::proof_stress);
    let tensile = || bolt.stress("tensile_strength_mpa", MEGAPASCAL, thread::tensile_strength);
    Ok(match what {
        "stress_area_mm2" => SQUARE_MILLIMETRE.get(area()?),
        "proof_stress_mpa" => MEGAPASCAL.get(bolt.by_class(thread::proof_stress)?),
        "tensile_strength_mpa" => MEGAPASCAL.get(bolt.by_class(thread::tensile_strength)?),
        "proof_load_n" => NEWTON.get(thread::load(area()?, proof()?).map_err(words)?),
        "min_ultimate_tensile_load_n" => NEWTON.get(thread::load(area()?, tensile()?).map_err(words)?),
        "preload_n" => NEWTON.get(bolt.preload(area()?, proof()?)?),
        "torque_n_m" => NEWTON_METRE.get(bolt.torque(area()?, proof()?)?),
        _ => return unknown(what),
    })
}

pub const INCH_TABLE: &[&str] =
    &["thread", "d_in", "threads_per_in", "sae_grade", "proof_stress_psi", "preload_pct_of_proof", "k_factor"];

pub fn inch(row: &Row, what: &str) -> Result<f64, Failure> {
    let bolt = Bolt { row, diameter: INCH.of(row.number("d_in")?), class: "sae_grade" };
    let area = || -> Result<Area, Failure> {
        let per_inch = row.number("threads_per_in")?;
        thread::stress_area(Thread::Inch { diameter: bolt.diameter, per_inch }).map_err(words)
    };
    let proof = || bolt.stress("proof_stress_psi", PSI, thread::proof_stress);
    Ok(match what {
        "stress_area_in2" => SQUARE_INCH.get(area()?),
        "proof_stress_psi" => PSI.get(bolt.by_class(thread::proof_stress)?),
        "proof_load_lbf" => POUND_FORCE.get(thread::load(area()?, proof()?).map_err(words)?),
        "clamp_load_lbf" => POUND_FORCE.get(bolt.preload(area()?, proof()?)?),
        "torque_lbf_ft" => POUND_FORCE_FOOT.get(bolt.torque(area()?, proof()?)?),
        "torque_lbf_in" => POUND_FORCE_INCH.get(bolt.torque(area()?, proof()?)?),
        _ => return unknown(what),
    })
}

/// What both tables share.
struct Bolt<'a> {
    row: &'a Row,
    diameter: Length,
    class: &'static str,
}

type ByClass = fn(Strength, Length) -> coatwalk::sums::Answer<Pressure>;

impl Bolt<'_> {
    fn by_class(&self, stress: ByClass) -> Result<Pressure, Failure> {
        let mark = self.row.word(self.class)?;
        let strength = Strength::from_mark(mark).ok_or_else(|| format!("no class {mark} is known"))?;
        stress(strength, self.diameter).map_err(words)
    }

    /// The stress the row gives, or that of its class.
    fn stress(&self, column: &str, unit: Unit<Pressure>, of: ByClass) -> Result<Pressure, Failure> {
        match self.row.maybe(column)? {
            Some(value) => Ok(unit.of(value)),
            None => self.by_class(of),
        }
    }

    fn preload(&self, area: Area, proof: Pressure) -> Result<Force, Failure> {
        thread::preload(area, proof, self.row.number("preload_pct_of_proof")?).map_err(words)
    }

    fn torque(&self, area: Area, proof: Pressure) -> Result<Torque, Failure> {
        let force = self.preload(area, proof)?;
        thread::torque(self.row.number("k_factor")?, force, self.diameter).map_err(words)
    }
}
