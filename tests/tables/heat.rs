//! warmup, equivalent_age.

use coatwalk::sums::cure::{self, Credit, Law, Logged, Step};
use coatwalk::sums::warmup::{self, AirCourse, Swing};
use coatwalk::units::*;

use super::{Failure, Row, unknown, words};

pub const WARMUP: &[&str] = &[
    "mass_kg",
    "specific_heat_j_kg_k",
    "area_m2",
    "film_coeff_w_m2_k",
    "time_constant_s",
    "start_c",
    "air_start_c",
    "air_ramp_c_per_h",
    "air_swing_amp_c",
    "air_swing_period_h",
    "time_s",
    "target_c",
];

pub fn warmup(row: &Row, what: &str) -> Result<f64, Failure> {
    // From the body itself where the row describes one.
    let tau = || -> Result<Time, Failure> {
        match row.maybe("mass_kg")? {
            None => Ok(SECOND.of(row.number("time_constant_s")?)),
            Some(mass) => warmup::time_constant(
                KILOGRAM.of(mass),
                JOULE_PER_KILOGRAM_KELVIN.of(row.number("specific_heat_j_kg_k")?),
                SQUARE_METRE.of(row.number("area_m2")?),
                WATT_PER_SQUARE_METRE_KELVIN.of(row.number("film_coeff_w_m2_k")?),
            )
            .map_err(words),
        }
    };
    let air = || -> Result<AirCourse, Failure> {
        Ok(AirCourse {
            start: CELSIUS.of(row.number("air_start_c")?),
            rise_per_hour: CELSIUS_DIFFERENCE.of(row.maybe("air_ramp_c_per_h")?.unwrap_or(0.0)),
            swing: match row.maybe("air_swing_amp_c")? {
                None => None,
                Some(by) => {
                    Some(Swing { by: CELSIUS_DIFFERENCE.of(by), period: HOUR.of(row.number("air_swing_period_h")?) })
                }
            },
        })
    };
    let start = || -> Result<Temperature, Failure> { Ok(CELSIUS.of(row.number("start_c")?)) };
    Ok(match what {
        "time_constant_s" => SECOND.get(tau()?),
        "steel_temp_c" => {
            let time = SECOND.of(row.number("time_s")?);
            CELSIUS.get(warmup::steel_at(tau()?, start()?, &air()?, time).map_err(words)?)
        }
        "time_to_target_s" => {
            let target = CELSIUS.of(row.number("target_c")?);
            SECOND.get(warmup::time_to(tau()?, start()?, &air()?, target).map_err(words)?)
        }
        _ => return unknown(what),
    })
}

pub const EQUIVALENT_AGE: &[&str] = &[
    "method",
    "q_over_r_k",
    "q10",
    "ref_c",
    "steps_h_at_c",
    "sine_mean_c",
    "sine_amp_c",
    "sine_period_h",
    "duration_h",
];

pub fn equivalent_age(row: &Row, what: &str) -> Result<f64, Failure> {
    let reference = CELSIUS.of(row.number("ref_c")?);
    let law = match row.word("method")? {
        "q10" => Law::Q10 { q10: row.number("q10")?, reference },
        "arrhenius" => Law::Arrhenius { q_over_r_k: row.number("q_over_r_k")?, reference },
        other => return Err(format!("the method {other} is not known")),
    };
    if let Some(hours) = what.strip_prefix("hours_to_reach_").and_then(|w| w.strip_suffix("_h_equivalent")) {
        let needed = hours.parse().map_err(|_| format!("{hours} is not a number"))?;
        let at = row.word("steps_h_at_c")?.strip_prefix("?@").ok_or("the step must be ?@C")?;
        let at = CELSIUS.of(at.trim().parse().map_err(|_| format!("{at} is not a number"))?);
        let time = cure::time_to_reach(law, Credit::FULL, HOUR.of(needed), at).map_err(words)?;
        return Ok(HOUR.get(time));
    }
    match what {
        "rate_ratio" => match steps(row.word("steps_h_at_c")?)?[..] {
            [step] => cure::rate(law, Credit::FULL, step.temperature).map_err(words),
            _ => Err("a rate has one step".into()),
        },
        "equivalent_age_h" => match row.text("steps_h_at_c") {
            Some(text) => cure::of_steps(law, Credit::FULL, &steps(text)?).map(|t| HOUR.get(t)).map_err(words),
            None => sine(row, law),
        },
        _ => unknown(what),
    }
}

fn steps(text: &str) -> Result<Vec<Step>, Failure> {
    let number = |t: &str| t.trim().parse::<f64>().map_err(|_| format!("{t} is not a number"));
    text.split(';')
        .map(|step| {
            let (hours, at) = step.split_once('@').ok_or_else(|| format!("{step} is not hours@C"))?;
            Ok(Step { lasts: HOUR.of(number(hours)?), temperature: CELSIUS.of(number(at)?) })
        })
        .collect()
}

/// A day and night as readings every hundredth of a period, as a logger would take them.
fn sine(row: &Row, law: Law) -> Result<f64, Failure> {
    let (mean, amp) = (row.number("sine_mean_c")?, row.number("sine_amp_c")?);
    let (period, duration) = (row.number("sine_period_h")?, row.number("duration_h")?);
    let count = (100.0 * duration / period).ceil().clamp(1.0, 19_000.0);
    let readings: Vec<Logged> = (0..=count as usize)
        .map(|i| {
            let hour = duration * i as f64 / count;
            let swing = (std::f64::consts::TAU * hour / period).sin();
            Logged { at: HOUR.of(hour), temperature: CELSIUS.of(mean + amp * swing) }
        })
        .collect();
    let end = HOUR.of(duration);
    let film = cure::progress(law, Credit::FULL, &readings, end, end, CELSIUS.of(mean)).map_err(words)?;
    Ok(HOUR.get(film.equivalent))
}
