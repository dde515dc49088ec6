//! solvent_vapour, purge.

use coatwalk::sums::vapour::{self, LelTable, Room, Until};
use coatwalk::units::*;

use super::{Failure, Row, unknown, words};

pub const SOLVENT: &[&str] = &[
    "solvent",
    "cas",
    "temp_c",
    "pressure_pa",
    "molar_mass_g_mol",
    "liquid_density_kg_m3",
    "lel_pct",
    "lel_table",
    "vapour_ft3_per_us_gal",
];

pub fn solvent(row: &Row, what: &str) -> Result<f64, Failure> {
    let ratio = || -> Result<f64, Failure> {
        if let Some(cubic_feet) = row.maybe("vapour_ft3_per_us_gal")? {
            return Ok(cubic_feet * CUBIC_FOOT.of(1.0).si() / US_GALLON.of(1.0).si());
        }
        vapour::per_liquid(
            KILOGRAM_PER_CUBIC_METRE.of(row.number("liquid_density_kg_m3")?),
            GRAM_PER_MOLE.of(row.number("molar_mass_g_mol")?),
            CELSIUS.of(row.number("temp_c")?),
            PASCAL.of(row.number("pressure_pa")?),
        )
        .map_err(words)
    };
    let air = || -> Result<vapour::AirNeeded, Failure> {
        vapour::air_per_liquid(ratio()?, row.number("lel_pct")?, 25.0).map_err(words)
    };
    let cubic_feet_per = |volumes: f64, unit: Unit<Volume>| volumes * unit.of(1.0).si() / CUBIC_FOOT.of(1.0).si();
    Ok(match what {
        // Litre for litre and m³ for m³ are the same number; m³ of air for a litre are a thousandth.
        "vapour_litres_per_litre_liquid" => ratio()?,
        "vapour_ft3_per_us_gal" => cubic_feet_per(ratio()?, US_GALLON),
        "vapour_ft3_per_us_pint" => cubic_feet_per(ratio()?, US_PINT),
        "dilution_air_ft3_per_us_gal" => cubic_feet_per(air()?.by_rule, US_GALLON),
        "dilution_air_m3_per_l_liquid" => air()?.by_rule / 1000.0,
        "clean_air_for_exactly_25_pct_lel_m3_per_l_liquid" => air()?.exactly / 1000.0,
        "lel_pct" => lel(row)?,
        _ => return unknown(what),
    })
}

/// As the table named prints it; the lowest printed when we do not have that table.
fn lel(row: &Row) -> Result<f64, Failure> {
    let name = row.text("cas").map_or_else(|| row.word("solvent"), Ok)?;
    let solvent = vapour::solvent(name).ok_or_else(|| format!("no solvent {name} is known"))?;
    let table = match row.text("lel_table").unwrap_or("") {
        t if t.starts_with("IEC 60079-20-1") => Some(LelTable::Iec60079),
        t if t.starts_with("NFPA 497") => Some(LelTable::Nfpa497),
        t if t.starts_with("BS 5345") => Some(LelTable::Bs5345),
        _ => None,
    };
    Ok(table.and_then(|t| vapour::printed_lel(name, t)).unwrap_or(solvent.lel_percent))
}

pub const PURGE: &[&str] = &[
    "volume_m3",
    "flow_m3_h",
    "volume_ft3",
    "flow_cfm",
    "generation_cfm",
    "ach_per_h",
    "mixing_factor",
    "generation_m3_h",
    "c0_pct_vol",
    "lel_pct",
    "target_pct_of_lel",
    "removal_pct",
    "time_min",
];

pub fn purge(row: &Row, what: &str) -> Result<f64, Failure> {
    let factor = row.maybe("mixing_factor")?.unwrap_or(1.0);
    let volume = || -> Result<Volume, Failure> {
        Ok(match row.maybe("volume_m3")? {
            Some(v) => CUBIC_METRE.of(v),
            None => CUBIC_FOOT.of(row.number("volume_ft3")?),
        })
    };
    let flow = || -> Result<VolumeRate, Failure> {
        if let Some(changes) = row.maybe("ach_per_h")? {
            return Ok(CUBIC_METRE_PER_HOUR.of(changes * CUBIC_METRE.get(volume()?)));
        }
        Ok(match row.maybe("flow_m3_h")? {
            Some(f) => CUBIC_METRE_PER_HOUR.of(f),
            None => CFM.of(row.number("flow_cfm")?),
        })
    };
    let source = || -> Result<VolumeRate, Failure> {
        Ok(match row.maybe("generation_cfm")? {
            Some(g) => CFM.of(g),
            None => CUBIC_METRE_PER_HOUR.of(row.maybe("generation_m3_h")?.unwrap_or(0.0)),
        })
    };
    let room = || -> Result<Room, Failure> { Ok(Room { volume: volume()?, flow: flow()?, mixing_factor: factor }) };
    let start = row.maybe("c0_pct_vol")?.unwrap_or(0.0);
    let target = || -> Result<f64, Failure> { Ok(row.number("target_pct_of_lel")? / 100.0 * row.number("lel_pct")?) };
    let percent = || -> Result<f64, Failure> {
        let time = MINUTE.of(row.number("time_min")?);
        vapour::concentration(&room()?, source()?, start, time).map_err(words)
    };
    let time_to = |until| -> Result<f64, Failure> {
        vapour::time_to(&room()?, source()?, start, target()?, until).map(|t| MINUTE.get(t)).map_err(words)
    };
    let needed =
        || -> Result<VolumeRate, Failure> { vapour::flow_needed(source()?, target()?, factor).map_err(words) };
    Ok(match what {
        "concentration_pct_vol" => percent()?,
        "concentration_ppm" => percent()? * 1e4,
        "concentration_pct_of_lel" => 100.0 * percent()? / row.number("lel_pct")?,
        "steady_state_pct_vol" => vapour::levels_off_at(&room()?, source()?).map_err(words)?,
        "time_to_fall_to_target_min" => time_to(Until::Falls)?,
        "time_to_rise_to_target_min" => time_to(Until::Rises)?,
        "flow_needed_m3_h" => CUBIC_METRE_PER_HOUR.get(needed()?),
        "flow_needed_cfm" => CFM.get(needed()?),
        "time_for_removal_min" => {
            let removal = vapour::removal(row.number("ach_per_h")?, factor, row.number("removal_pct")?);
            MINUTE.get(removal.map_err(words)?)
        }
        _ => return unknown(what),
    })
}
