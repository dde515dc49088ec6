//! units, dilution, frustum, nozzle.

use coatwalk::sums::bucket::{self, Vessel};
use coatwalk::sums::dilution::{self, MixRatio, Per};
use coatwalk::sums::nozzle as jet;
use coatwalk::units::{self, *};

use super::{Check, Failure, Row, answer, unknown, words};

pub const UNITS: &[&str] = &["value", "from_unit", "to_unit", "expected"];

/// This table asks for one unit in another, so it has no `result` column.
pub fn units(row: &Row) -> Result<Vec<Check>, Failure> {
    let (from, to) = (row.word("from_unit")?, row.word("to_unit")?);
    let computed = units::convert(row.number("value")?, from, to).map_err(|e| format!("{}: {e}", row.id()))?;
    let check = answer(row, "expected", computed, "tol")?;
    Ok(check.map(|c| Check { what: format!("{from} in {to}"), ..c }).into_iter().collect())
}

pub const DILUTION: &[&str] = &[
    "concentrate_parts",
    "water_parts",
    "fill_ml",
    "fill_us_fl_oz",
    "concentrate_at_hand_ml",
    "bucket_ml",
    "bucket_pct",
    "concentrate_pct",
    "target_pct",
];

pub fn dilution(row: &Row, what: &str) -> Result<f64, Failure> {
    let ratio = || -> Result<MixRatio, Failure> {
        MixRatio::parts(row.number("water_parts")?, row.number("concentrate_parts")?).map_err(words)
    };
    let fill = || -> Result<Volume, Failure> {
        Ok(match row.maybe("fill_us_fl_oz")? {
            Some(oz) => US_FLUID_OUNCE.of(oz),
            None => MILLILITRE.of(row.number("fill_ml")?),
        })
    };
    // (weaker, stronger): from parts, or from the strengths of two liquids. Plain water has 0 %.
    let mix = || -> Result<(Volume, Volume), Failure> {
        if row.maybe("concentrate_parts")?.is_some() {
            let mix = dilution::to_fill(ratio()?, fill()?).map_err(words)?;
            return Ok((mix.water, mix.concentrate));
        }
        let weaker = row.maybe("bucket_pct")?.unwrap_or(0.0);
        let blend = dilution::blend(fill()?, weaker, row.number("concentrate_pct")?, row.number("target_pct")?);
        blend.map(|b| (b.weaker, b.stronger)).map_err(words)
    };
    let at_hand = || -> Result<dilution::Mix, Failure> {
        let concentrate = MILLILITRE.of(row.number("concentrate_at_hand_ml")?);
        dilution::from_concentrate(ratio()?, concentrate).map_err(words)
    };
    let correct = || -> Result<dilution::Correction, Failure> {
        dilution::correct(
            MILLILITRE.of(row.number("bucket_ml")?),
            row.number("bucket_pct")?,
            row.number("target_pct")?,
            row.maybe("concentrate_pct")?.unwrap_or(100.0),
            None,
        )
        .map_err(words)
    };
    let adds = |add: dilution::Add| -> Result<dilution::Correction, Failure> {
        let correction = correct()?;
        match correction.add == add {
            true => Ok(correction),
            false => Err(format!("{:?} would have to be added", correction.add)),
        }
    };
    let per = |strength: Option<f64>| strength.ok_or_else(|| "there is no water in it".to_owned());
    Ok(match what {
        "concentrate_ml" => MILLILITRE.get(mix()?.1),
        "water_ml" | "weaker_ml" => MILLILITRE.get(mix()?.0),
        "concentrate_us_fl_oz" => US_FLUID_OUNCE.get(mix()?.1),
        "water_us_fl_oz" => US_FLUID_OUNCE.get(mix()?.0),
        "pct_v_v" => ratio()?.percent(),
        "ml_per_l_of_water" => per(ratio()?.ml_per_litre(Per::Water))?,
        "ml_per_l_of_solution" => per(ratio()?.ml_per_litre(Per::Mix))?,
        "us_fl_oz_per_us_gal_of_water" => per(ratio()?.oz_per_us_gallon(Per::Water))?,
        "us_fl_oz_per_us_gal_of_solution" => per(ratio()?.oz_per_us_gallon(Per::Mix))?,
        "total_ml_from_concentrate_at_hand" => MILLILITRE.get(at_hand()?.total),
        "water_ml_for_concentrate_at_hand" => MILLILITRE.get(at_hand()?.water),
        "water_parts_per_part_concentrate" => {
            let share = 100.0 * row.number("target_pct")? / row.number("concentrate_pct")?;
            MixRatio::from_percent(share).map_err(words)?.water_per_concentrate()
        }
        "concentrate_to_add_ml" => MILLILITRE.get(adds(dilution::Add::Concentrate)?.amount),
        "water_to_add_ml" => MILLILITRE.get(adds(dilution::Add::Water)?.amount),
        "drain_and_replace_with_concentrate_ml" => MILLILITRE.get(adds(dilution::Add::Concentrate)?.same_level),
        "drain_and_replace_with_water_ml" => MILLILITRE.get(adds(dilution::Add::Water)?.same_level),
        "pct_after_adding_water" => {
            dilution::after_adding(MILLILITRE.of(row.number("bucket_ml")?), row.number("bucket_pct")?, fill()?, 0.0)
                .map_err(words)?
        }
        "total_us_fl_oz_from_1_us_fl_oz" => {
            let mix = dilution::from_concentrate(ratio()?, US_FLUID_OUNCE.of(1.0)).map_err(words)?;
            US_FLUID_OUNCE.get(mix.total)
        }
        _ => return unknown(what),
    })
}

pub const FRUSTUM: &[&str] = &["top_inside_dia_mm", "bottom_inside_dia_mm", "height_mm", "level_mm", "volume_l"];

pub fn frustum(row: &Row, what: &str) -> Result<f64, Failure> {
    let pail = Vessel::Pail {
        top: MILLIMETRE.of(row.number("top_inside_dia_mm")?),
        bottom: MILLIMETRE.of(row.number("bottom_inside_dia_mm")?),
        height: MILLIMETRE.of(row.number("height_mm")?),
    };
    match what {
        "volume_l" => {
            bucket::volume_at(&pail, MILLIMETRE.of(row.number("level_mm")?)).map(|v| LITRE.get(v)).map_err(words)
        }
        "level_mm" => {
            bucket::level_for(&pail, LITRE.of(row.number("volume_l")?)).map(|l| MILLIMETRE.get(l)).map_err(words)
        }
        _ => unknown(what),
    }
}

pub const NOZZLE: &[&str] = &[
    "spray_angle_deg",
    "distance_mm",
    "distance_in",
    "flow_us_gpm",
    "pressure_psi",
    "flow_l_min",
    "pressure_bar",
    "nozzle_dia_mm",
    "density_kg_m3",
    "new_pressure_psi",
    "new_pressure_bar",
];

pub fn nozzle(row: &Row, what: &str) -> Result<f64, Failure> {
    let pressure = |bar: &str, psi: &str| -> Result<Pressure, Failure> {
        Ok(match row.maybe(bar)? {
            Some(p) => BAR.of(p),
            None => PSI.of(row.number(psi)?),
        })
    };
    let now = || pressure("pressure_bar", "pressure_psi");
    let flow = || -> Result<VolumeRate, Failure> {
        Ok(match row.maybe("flow_l_min")? {
            Some(f) => LITRE_PER_MINUTE.of(f),
            None => US_GPM.of(row.number("flow_us_gpm")?),
        })
    };
    let width = || -> Result<Length, Failure> {
        let distance = match row.maybe("distance_mm")? {
            Some(d) => MILLIMETRE.of(d),
            None => INCH.of(row.number("distance_in")?),
        };
        jet::fan_width(row.number("spray_angle_deg")?, distance).map_err(words)
    };
    let density = || -> Result<MassDensity, Failure> {
        Ok(row.maybe("density_kg_m3")?.map_or(jet::water(), |d| KILOGRAM_PER_CUBIC_METRE.of(d)))
    };
    let force = || -> Result<Force, Failure> {
        match row.maybe("nozzle_dia_mm")? {
            Some(bore) => jet::force_of_bore(MILLIMETRE.of(bore), now()?),
            None => jet::force(flow()?, now()?, density()?),
        }
        .map_err(words)
    };
    let flow_then = || -> Result<VolumeRate, Failure> {
        jet::flow_at(flow()?, now()?, pressure("new_pressure_bar", "new_pressure_psi")?).map_err(words)
    };
    Ok(match what {
        "fan_width_mm" => MILLIMETRE.get(width()?),
        "fan_width_in" => INCH.get(width()?),
        "reaction_force_n" => NEWTON.get(force()?),
        "reaction_force_lbf" => POUND_FORCE.get(force()?),
        "jet_velocity_m_s" => METRE_PER_SECOND.get(jet::velocity(now()?, density()?).map_err(words)?),
        "flow_at_new_pressure_l_min" => LITRE_PER_MINUTE.get(flow_then()?),
        "flow_at_new_pressure_us_gpm" => US_GPM.get(flow_then()?),
        _ => return unknown(what),
    })
}
