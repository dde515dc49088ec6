//! dew_point.
//!
//! Ours is the dew point over water. The two libraries give the frost point below 0 °C, and count the humidity of
//! air below 0 °C against ice; their columns are held against our frost point in the same convention. A printed
//! table below 0 °C does not say which it prints (one sheet goes by ice, another by water): the nearer of the two
//! is taken there, for every such row.

use coatwalk::sums::air::{self, Air, RhOver};
use coatwalk::units::*;

use super::{Check, Failure, Row, answer, words};

pub const DEW_POINT: &[&str] = &[
    "air_c",
    "rh_pct",
    "pressure_pa",
    "dew_point_psychrolib_c",
    "dew_point_coolprop_c",
    "dew_point_published_c",
    "dew_point_over_water_c",
    "below_zero_over",
    "abs_humidity_g_m3",
    "abs_humidity_published_g_m3",
    "wet_bulb_c",
    "tol_published",
    "tol_abs_humidity_g_m3",
    "tol_wet_bulb_c",
];

pub fn dew_point(row: &Row) -> Result<Vec<Check>, Failure> {
    let ours = Air::new(CELSIUS.of(row.number("air_c")?), row.number("rh_pct")?);
    let theirs = Air { rh_over: RhOver::Ice, ..ours };
    let pressure = PASCAL.of(row.number("pressure_pa")?);
    let water = CELSIUS.get(air::dew_point(ours).map_err(words)?);
    let library = CELSIUS.get(
        match row.word("below_zero_over")? {
            "water" => air::dew_point(theirs),
            "ice" => air::frost_point(theirs),
            other => return Err(format!("{}: below_zero_over is {other}", row.id())),
        }
        .map_err(words)?,
    );
    let humidity = GRAM_PER_CUBIC_METRE.get(air::absolute_humidity(theirs).map_err(words)?);
    let wet_bulb = CELSIUS.get(air::wet_bulb(theirs, pressure).map_err(words)?);
    let printed = match row.maybe("dew_point_published_c")? {
        Some(p) if p < 0.0 && (p - library).abs() < (p - water).abs() => library,
        _ => water,
    };
    let answers = [
        answer(row, "dew_point_psychrolib_c", library, "tol")?,
        answer(row, "dew_point_coolprop_c", library, "tol")?,
        answer(row, "dew_point_over_water_c", water, "tol")?,
        answer(row, "dew_point_published_c", printed, "tol_published")?,
        answer(row, "abs_humidity_g_m3", humidity, "tol_abs_humidity_g_m3")?,
        answer(row, "abs_humidity_published_g_m3", humidity, "tol_published")?,
        answer(row, "wet_bulb_c", wet_bulb, "tol_wet_bulb_c")?,
    ];
    Ok(answers.into_iter().flatten().collect())
}
