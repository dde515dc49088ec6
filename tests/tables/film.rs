//! film, film_acceptance.

use coatwalk::sums::film::{self, FilmReason, Paint};
use coatwalk::units::*;

use super::{Check, Failure, Row, Value, answer, unknown, words};

pub const FILM: &[&str] = &[
    "volume_solids_pct",
    "thinner_pct_of_paint",
    "dft_um",
    "wft_um",
    "dft_mil",
    "wft_mil",
    "loss_pct",
    "area_m2",
    "area_ft2",
];

pub fn film(row: &Row, what: &str) -> Result<f64, Failure> {
    let thickness = |um: &str, mil: &str| -> Result<Length, Failure> {
        Ok(match row.maybe(um)? {
            Some(t) => MICROMETRE.of(t),
            None => MIL.of(row.number(mil)?),
        })
    };
    let dry = || thickness("dft_um", "dft_mil");
    let wet = || thickness("wft_um", "wft_mil");
    let loss = row.maybe("loss_pct")?.unwrap_or(0.0);
    let paint = || -> Result<Paint, Failure> {
        Ok(Paint {
            solids_percent: row.number("volume_solids_pct")?,
            thinner_percent: row.maybe("thinner_pct_of_paint")?.unwrap_or(0.0),
        })
    };
    let spread = || -> Result<film::Spreads, Failure> { film::spread(dry()?, paint()?, loss).map_err(words) };
    // Of the liquid as it lies: from its own wet film where the row gives one.
    let as_applied = || -> Result<Spread, Failure> {
        match row.text("wft_um").or(row.text("wft_mil")) {
            Some(_) => film::spread_wet(wet()?, loss).map_err(words),
            None => Ok(spread()?.as_applied),
        }
    };
    let needed = || -> Result<film::Needed, Failure> {
        let area = match row.maybe("area_m2")? {
            Some(a) => SQUARE_METRE.of(a),
            None => SQUARE_FOOT.of(row.number("area_ft2")?),
        };
        film::needed(area, dry()?, paint()?, loss).map_err(words)
    };
    let wet_of = || -> Result<Length, Failure> { film::wet_for_dry(dry()?, paint()?).map_err(words) };
    let dry_of = || -> Result<Length, Failure> { film::dry_from_wet(wet()?, paint()?).map_err(words) };
    Ok(match what {
        "wft_um" => MICROMETRE.get(wet_of()?),
        "wft_mil" => MIL.get(wet_of()?),
        "dft_um" => MICROMETRE.get(dry_of()?),
        "dft_mil" => MIL.get(dry_of()?),
        "volume_solids_after_thinning_pct" => film::solids_after_thinning(paint()?).map_err(words)?,
        "volume_solids_pct" => film::solids_from(wet()?, dry()?).map_err(words)?,
        "spreading_rate_m2_per_l_of_paint" => SQUARE_METRE_PER_LITRE.get(spread()?.practical),
        "spreading_rate_ft2_per_us_gal_of_paint" => SQUARE_FOOT_PER_US_GALLON.get(spread()?.practical),
        "spreading_rate_m2_per_l_as_applied" => SQUARE_METRE_PER_LITRE.get(as_applied()?),
        "spreading_rate_ft2_per_us_gal_as_applied" => SQUARE_FOOT_PER_US_GALLON.get(as_applied()?),
        "paint_needed_l" => LITRE.get(needed()?.paint),
        "paint_needed_us_gal" => US_GALLON.get(needed()?.paint),
        "thinner_needed_l" => LITRE.get(needed()?.thinner),
        "thinner_needed_us_gal" => US_GALLON.get(needed()?.thinner),
        "mixed_liquid_needed_l" => LITRE.get(needed()?.mixed),
        "mixed_liquid_needed_us_gal" => US_GALLON.get(needed()?.mixed),
        _ => return unknown(what),
    })
}

pub const ACCEPTANCE: &[&str] = &[
    "nominal_um",
    "maximum_um",
    "readings_um",
    "n",
    "mean_um",
    "n_below_80_pct",
    "n_from_80_pct_to_below_nominal",
    "share_between_pct",
    "n_above_maximum",
    "verdict_strictly_less_than_20_pct",
    "verdict_at_most_20_pct",
    "reason",
];

pub fn acceptance(row: &Row) -> Result<Vec<Check>, Failure> {
    let readings = row
        .word("readings_um")?
        .split(';')
        .map(|r| r.trim().parse().map(|v| MICROMETRE.of(v)).map_err(|_| format!("{}: {r} is no reading", row.id())))
        .collect::<Result<Vec<Length>, _>>()?;
    let maximum = row.maybe("maximum_um")?.map(|m| MICROMETRE.of(m));
    let verdict = film::judge(MICROMETRE.of(row.number("nominal_um")?), maximum, &readings).map_err(words)?;
    let word = |what: &str, computed: String| -> Result<Check, Failure> {
        Ok(Check {
            id: row.id().to_owned(),
            what: what.to_owned(),
            expected: Value::Word(sorted(row.word(what)?)),
            computed: Value::Word(computed),
            tol: 0.0,
        })
    };
    let accept = |yes: bool| if yes { "accept" } else { "reject" }.to_owned();
    let reasons: Vec<&str> = verdict.reasons.iter().map(reason).collect();
    let reasons = if reasons.is_empty() { "all criteria met".into() } else { sorted(&reasons.join(";")) };
    let mut checks = vec![
        word("verdict_strictly_less_than_20_pct", accept(verdict.meets()))?,
        word("verdict_at_most_20_pct", accept(verdict.meets_looser))?,
        word("reason", reasons)?,
    ];
    for (what, count) in [
        ("n", verdict.count),
        ("n_below_80_pct", verdict.below_80),
        ("n_from_80_pct_to_below_nominal", verdict.between),
        ("n_above_maximum", verdict.above_maximum),
    ] {
        // Counts must match exactly.
        let check = answer(row, what, count as f64, "tol")?;
        checks.extend(check.map(|c| Check { tol: 1e-9, ..c }));
    }
    checks.extend(answer(row, "mean_um", MICROMETRE.get(verdict.mean), "tol")?);
    checks.extend(answer(row, "share_between_pct", verdict.between_percent, "tol")?);
    Ok(checks)
}

fn reason(reason: &FilmReason) -> &'static str {
    match reason {
        FilmReason::MeanBelowNominal { .. } => "mean below nominal",
        FilmReason::ReadingBelow80 { .. } => "reading below 80 %",
        FilmReason::TooManyBetween { exactly_20: true, .. } => "exactly 20 % between 80 and 100 %",
        FilmReason::TooManyBetween { .. } => "more than 20 % between 80 and 100 %",
        FilmReason::AboveMaximum { .. } => "reading above maximum",
    }
}

/// Reasons in one order, whatever order a table has them in.
fn sorted(reasons: &str) -> String {
    let mut parts: Vec<&str> = reasons.split(';').map(str::trim).collect();
    parts.sort_unstable();
    parts.join("; ")
}
