//! Warm-up: how long steel takes to follow the air, and what heater it takes.

use super::draw::{Bar, Curve, Level, Line, bars};
use super::words::{bare, percent, time};
use super::{Ask, Filled, Outcome, Sheet, Stop};
use crate::sums::range::Field;
use crate::sums::warmup::{self, AirCourse, FAN_W_M2_K, Fuel, OIL_AND_TYRES_PERCENT, STILL_W_M2_K, Section, Shed};
use crate::units::{HOUR, Measure, Quantity, Temperature, Time, WATT_PER_SQUARE_METRE_KELVIN as W};

const STEEL: &[&str] = &["section", "known"];

pub static SHEET: Sheet = Sheet {
    slug: "warm-up",
    name: "Warm-up",
    what: "How long the steel takes, and what heater",
    asks: &[
        Ask::choice("how", "What do you want to know?", |_| {
            vec![
                ("section", "How long for a section?"),
                ("heater", "What heater?"),
                ("known", "From a known time constant"),
                ("flame", "Water from a flame heater"),
            ]
        }),
        Ask::amount("thick", "Thickness of the steel", Measure::Length, Field::Thickness)
            .start("20", "3/4")
            .hint("The thickest that matters: axle, counterweight")
            .only_if(&[("how", &["section"])]),
        Ask::choice("faces", "Air reaches it", |_| vec![("both", "From both faces"), ("one", "From one face")])
            .only_if(&[("how", &["section"])]),
        Ask::choice("air-moves", "The air", |_| vec![("still", "Still shed"), ("fan", "Fan heater blowing on it")])
            .only_if(&[("how", &["section"])]),
        Ask::amount("tau", "Time constant", Measure::Minutes, Field::TimeConstant)
            .start("90", "90")
            .hint("The time for 63 % of the way. Take it from two readings of your own.")
            .only_if(&[("how", &["known"])]),
        Ask::amount("steel", "Steel now", Measure::Temperature, Field::BodyTemperature)
            .start("5", "41")
            .given(|g| g.steel_c)
            .only_if(&[("how", STEEL)]),
        Ask::amount("air", "Air round it", Measure::Temperature, Field::SurroundingTemperature)
            .start("18", "64")
            .given(|g| g.air_c)
            .only_if(&[("how", STEEL)]),
        Ask::amount("target", "Steel wanted", Measure::Temperature, Field::BodyTemperature)
            .start("13", "55")
            .hint("3 °C (5.4 °F) over the dew point")
            .only_if(&[("how", STEEL)]),
        Ask::amount("shell", "Walls and roof", Measure::Area, Field::WarmArea)
            .kept()
            .start("300", "3200")
            .only_if(&[("how", &["heater"])]),
        Ask::amount("loss", "Heat they let through", Measure::HeatTransfer, Field::FilmCoefficient)
            .kept()
            .start("5", "5")
            .hint("Bare sheet metal 5 to 7, insulated 0.5 to 1, from memory")
            .only_if(&[("how", &["heater"])]),
        Ask::amount("room", "Air inside", Measure::Room, Field::ShedVolume)
            .kept()
            .start("500", "18000")
            .only_if(&[("how", &["heater"])]),
        Ask::number("changes", "Air changes in an hour", Field::AirChanges)
            .start("1", "1")
            .hint("Shut shed 0.5 to 2, from memory")
            .only_if(&[("how", &["heater"])]),
        Ask::amount("outside", "Outdoors", Measure::Temperature, Field::SurroundingTemperature)
            .start("5", "41")
            .only_if(&[("how", &["heater"])]),
        Ask::amount("inside", "Wanted indoors", Measure::Temperature, Field::SurroundingTemperature)
            .start("15", "59")
            .only_if(&[("how", &["heater"])]),
        Ask::amount("mass", "Weight of the machine", Measure::Mass, Field::Mass)
            .kept()
            .start("4000", "9000")
            .only_if(&[("how", &["heater"])]),
        Ask::amount("from", "Its steel now", Measure::Temperature, Field::BodyTemperature)
            .start("5", "41")
            .given(|g| g.steel_c)
            .only_if(&[("how", &["heater"])]),
        Ask::amount("to", "Its steel wanted", Measure::Temperature, Field::BodyTemperature)
            .start("13", "55")
            .only_if(&[("how", &["heater"])]),
        Ask::amount("within", "Within", Measure::Hours, Field::HeatTime)
            .start("8", "8")
            .only_if(&[("how", &["heater"])]),
        Ask::amount("power", "Heater", Measure::Power, Field::HeaterPower)
            .start("20", "70000")
            .only_if(&[("how", &["flame"])]),
        Ask::amount("runs", "Runs for", Measure::Hours, Field::WarmTime)
            .start("5", "5")
            .only_if(&[("how", &["flame"])]),
        Ask::choice("fuel", "Burns", |_| vec![("propane", "Propane"), ("kerosene", "Kerosene or diesel")])
            .only_if(&[("how", &["flame"])]),
    ],
    answer,
    formula: "One body at one temperature: τ = ρ·c·s ÷ (n·h), steel 7850 kg/m³ and 490 J/kgK; it holds while Biot = h·depth ÷ k \
              is under 0.1. Heater = walls U·A·ΔT + air ρ·c·changes·V·ΔT ÷ 3600 + steel m·c·ΔT ÷ time.",
    source: "Lumped capacity, as in Incropera, Fundamentals of Heat and Mass Transfer, chapter 5. Heat transfer in the shed and the \
             20 to 40 % that oil and tyres add: from memory.",
    cautions: &[
        "A heater with a flame makes carbon monoxide, water and fire. Doors open, an alarm, nobody asleep near it.",
        "It is out and cold before any can is opened, and stays out until the purge ends.",
        "Steel lags: go by a probe on the coldest spot, not by the hours.",
    ],
};

fn answer(f: &Filled) -> Result<Outcome, Stop> {
    match f.choice("how") {
        "heater" => heater(f),
        "flame" => flame(f),
        "known" => known(f),
        _ => section(f),
    }
}

/// Start, air and target.
fn temperatures(f: &Filled) -> Result<(Temperature, AirCourse, Temperature), Stop> {
    Ok((f.get("steel")?, AirCourse::steady(f.get("air")?), f.get("target")?))
}

fn known(f: &Filled) -> Result<Outcome, Stop> {
    let tau = f.get::<Time>("tau")?;
    let (start, air, target) = temperatures(f)?;
    let takes = warmup::time_to(tau, start, &air, target)?;
    Ok(Outcome::of([time(takes)])
        .small(format!("Until it is at {}.", f.say(Measure::Temperature, target)))
        .picture(course(f, tau, takes)?))
}

fn section(f: &Filled) -> Result<Outcome, Stop> {
    let (start, air, target) = temperatures(f)?;
    let [low, likely, high] = if f.choice("air-moves") == "fan" { FAN_W_M2_K } else { STILL_W_M2_K };
    let [little, some, much] = OIL_AND_TYRES_PERCENT;
    let follows = |h: f64, extra: f64| {
        Ok::<_, Stop>(warmup::section(&Section {
            thickness: f.get("thick")?,
            both_faces: f.choice("faces") == "both",
            film: W.of(h),
            extra_percent: extra,
        })?)
    };
    let at = follows(likely, some)?;
    let until = |tau: Time| warmup::time_to(tau, start, &air, target);
    let takes = until(at.time_constant)?;
    let (short, long) = (until(follows(high, little)?.time_constant)?, until(follows(low, much)?.time_constant)?);
    let mut out = Outcome::of([format!("About {}", time(takes))])
        .doubt(format!("{} to {}, as heat transfer, oil and tyres are rough.", time(short), time(long)))
        .small(format!(
            "Until it is at {}. Time constant {}: the time for 63 % of the way.",
            f.say(Measure::Temperature, target),
            time(at.time_constant)
        ))
        .picture(course(f, at.time_constant, takes)?);
    let biot = format!("{:.3}", at.biot);
    out = match at.holds {
        true => out.small(format!("Biot number {biot}, under 0.1: one temperature stands for the section.")),
        false => {
            out.warn(format!("Biot number {biot} is over 0.1: the inside lags behind, it takes longer than this."))
        }
    };
    Ok(out)
}

fn course(f: &Filled, tau: Time, takes: Time) -> Result<super::Drawing, Stop> {
    const POINTS: usize = 30;
    let (start, air, target) = temperatures(f)?;
    let shown = Measure::Temperature.unit(f.units);
    let hours = HOUR.get(takes).max(HOUR.get(tau) * 0.1) * 2.0;
    let mut points = Vec::with_capacity(POINTS + 1);
    for i in 0..=POINTS {
        let at = hours * i as f64 / POINTS as f64;
        points.push((at, shown.from_si(warmup::steel_at(tau, start, &air, HOUR.of(at))?.si())));
    }
    let words = |t: Temperature| f.say(Measure::Temperature, t);
    Ok(Curve {
        lines: vec![Line { points, words: "" }],
        face: "metal",
        levels: vec![
            Level { at: shown.from_si(air.start.si()), words: format!("air {}", words(air.start)) },
            Level { at: shown.from_si(target.si()), words: format!("wanted {}", words(target)) },
        ],
        moment: Some((HOUR.get(takes), time(takes))),
        ends: (format!("now {}", words(start)), time(HOUR.of(hours))),
        at_least: (f64::INFINITY, f64::NEG_INFINITY),
        words: "Steel warming up over time".into(),
    }
    .draw())
}

fn heater(f: &Filled) -> Result<Outcome, Stop> {
    let shed = |extra_percent: f64| {
        Ok::<_, Stop>(warmup::heater(&Shed {
            shell: f.get("shell")?,
            shell_loss: f.get("loss")?,
            volume: f.get("room")?,
            air_changes_per_hour: f.number("changes")?,
            outside: f.get("outside")?,
            inside: f.get("inside")?,
            steel: f.get("mass")?,
            extra_percent,
            steel_start: f.get("from")?,
            steel_target: f.get("to")?,
            within: f.get("within")?,
        })?)
    };
    let [little, some, much] = OIL_AND_TYRES_PERCENT;
    let (low, at, high) = (shed(little)?, shed(some)?, shed(much)?);
    let say = |p| f.say(Measure::Power, p);
    let bar = |words: String, p: crate::units::Power, look| Bar { words, from: 0.0, to: p.si(), likely: None, look };
    Ok(Outcome::of([say(at.total)])
        .doubt(format!(
            "{} to {}, as oil and tyres add {} to {}. Walls and draughts are rougher still.",
            say(low.total),
            say(high.total),
            percent(little),
            percent(much)
        ))
        .small("Dry heat only: electric, or burned outdoors and ducted in.")
        .picture(bars(&[
            bar(format!("walls and roof {}", say(at.shell)), at.shell, "metal"),
            bar(format!("air that is changed {}", say(at.air)), at.air, "wet"),
            bar(format!("into the machine {}", say(at.steel)), at.steel, "wait"),
        ])))
}

fn flame(f: &Filled) -> Result<Outcome, Stop> {
    let water = |fuel| Ok::<_, Stop>(warmup::flame_water(f.get("power")?, f.get("runs")?, fuel)?);
    let (propane, kerosene) = (water(Fuel::Propane)?, water(Fuel::Kerosene)?);
    let chosen = if f.choice("fuel") == "kerosene" { kerosene } else { propane };
    let say = |m| f.say(Measure::Mass, m);
    let bar = |words: String, m: crate::units::Mass| Bar { words, from: 0.0, to: m.si(), likely: None, look: "wet" };
    let litres = crate::units::KILOGRAM.get(chosen);
    Ok(Outcome::of([format!("{} of water into the air", say(chosen))])
        .warn("It raises the dew point while it warms the air, and makes carbon monoxide.")
        .small(format!("As much as {} litres poured out on the floor.", bare((litres * 10.0).round() / 10.0)))
        .picture(bars(&[
            bar(format!("propane {}", say(propane)), propane),
            bar(format!("kerosene or diesel {}", say(kerosene)), kerosene),
        ])))
}
