//! Air and steel: dew point, the gap with its doubt, and by when to start.

use super::draw::{Curve, Level, Line, Point, scale};
use super::words::{bare, percent, sentence, time};
use super::{Ask, Filled, Outcome, Sheet, Stop};
use crate::sums::air::{
    self, Air, Conditions, Doubts, Forecast, Limits, Low, Margin, Needs, Of, Outlook, Reading, Reason,
};
use crate::sums::range::Field;
use crate::units::{CELSIUS, HOUR, Measure, Quantity, Temperature, TemperatureInterval, Time};

pub static SHEET: Sheet = Sheet {
    slug: "air",
    name: "Air and steel",
    what: "Dew point, the gap to it, and by when to start",
    asks: &[
        Ask::choice("how", "What do you want to know?", |_| {
            vec![("gap", "Is the steel dry enough?"), ("start", "By when to start?"), ("dew", "Dew point of the air")]
        }),
        Ask::amount("air", "Air", Measure::Temperature, Field::AirTemperature)
            .half()
            .start("15", "59")
            .given(|g| g.air_c),
        Ask::amount("rh", "Humidity", Measure::Percent, Field::RelativeHumidity)
            .half()
            .start("65", "65")
            .given(|g| g.rh_percent),
        Ask::amount("steel", "Steel, the coldest of three spots", Measure::Temperature, Field::SteelTemperature)
            .start("13", "55")
            .given(|g| g.steel_c)
            .hint("Counterweight, axle, low frame. Infrared guns lie on bare and plated metal.")
            .only_if(&[("how", &["gap", "start"])]),
        Ask::amount("product", "Product in its can", Measure::Temperature, Field::ProductTemperature)
            .optional()
            .hint("15 to 25 °C (59 to 77 °F) is usual, from memory")
            .only_if(&[("how", &["gap"])]),
        Ask::amount("needed", "Gap needed", Measure::Warmer, Field::GapNeeded)
            .start("3", "5.4")
            .hint("3 °C (5.4 °F): ISO 8502-4 guidance. The TDS wins.")
            .only_if(&[("how", &["gap", "start"])]),
        Ask::amount("low", "Coldest air tonight, where it stands", Measure::Temperature, Field::AirTemperature)
            .start("6", "43")
            .only_if(&[("how", &["start"])]),
        Ask::amount("low-in", "That comes in", Measure::Hours, Field::Duration)
            .start("14", "14")
            .only_if(&[("how", &["start"])]),
        Ask::amount("work", "Spraying takes", Measure::Hours, Field::Duration)
            .start("2.25", "2.25")
            .only_if(&[("how", &["start"])]),
        Ask::amount("touch-dry", "Then touch-dry after", Measure::Hours, Field::Duration)
            .start("4", "4")
            .hint("4 h is a default from memory (1 to 12). The TDS says yours.")
            .only_if(&[("how", &["start"])]),
    ],
    answer,
    formula: "Dew point by the Magnus form: 6.112 hPa, 17.62 and 243.12 °C over water, 22.46 and 272.62 °C over ice. Wet bulb \
              from the heat balance. The doubt carries ±4 % RH and ±0.5 °C of both thermometers. Ahead: air falls in a \
              straight line to the low, steel as far as the air, the dew point keeps its last value or goes on rising.",
    source: "WMO guide to instruments and ASHRAE Fundamentals (constants from memory), checked against PsychroLib 2.5.0. Gap: \
             ISO 8502-4 guidance. 85 % RH: ISO 12944-7, from memory. Steel over 5 °C: common practice, no source.",
    cautions: &[
        "A flame heater is out and cold before any can is opened, and it adds water and carbon monoxide to the air.",
        "The gap must hold until touch-dry, not only now. Read again after 30 min while it is small.",
        "A reading advises, it certifies nothing. Your product's TDS wins.",
    ],
};

fn answer(f: &Filled) -> Result<Outcome, Stop> {
    let air = Air::new(f.get("air")?, f.number("rh")?);
    match f.choice("how") {
        "dew" => dew(f, air),
        "start" => start(f, air),
        _ => gap(f, air),
    }
}

fn at(f: &Filled, t: Temperature) -> String {
    f.say(Measure::Temperature, t)
}

fn degrees(f: &Filled, t: Temperature) -> f64 {
    Measure::Temperature.unit(f.units).from_si(t.si())
}

/// Frost point, wet bulb and water in the air.
fn more(f: &Filled, air: Air) -> Result<String, Stop> {
    Ok(format!(
        "Wet bulb {}, frost point {}, {} of water in the air.",
        at(f, air::wet_bulb(air, air::standard_pressure())?),
        at(f, air::frost_point(air)?),
        f.say(Measure::Damp, air::absolute_humidity(air)?)
    ))
}

fn dew(f: &Filled, air: Air) -> Result<Outcome, Stop> {
    let dew = air::dew_point(air)?;
    let bulb = air::wet_bulb(air, air::standard_pressure())?;
    let points = [
        Point::mark(degrees(f, air.temperature), format!("air {}", at(f, air.temperature))),
        Point::mark(degrees(f, bulb), format!("wet bulb {}", at(f, bulb))),
        Point { strong: true, ..Point::top(degrees(f, dew), format!("dew point {}", at(f, dew)), "wet") },
    ];
    let mut out =
        Outcome::of([format!("Dew point {}", at(f, dew))]).small(more(f, air)?).picture(scale(&points, 8.0));
    if CELSIUS.get(dew) < 0.0 {
        out = out.small("Below freezing the frost point is higher, and it is the one to keep clear of.");
    }
    Ok(out)
}

fn gap(f: &Filled, air: Air) -> Result<Outcome, Stop> {
    let limits = Limits { gap: f.get("needed")?, ..Limits::default() };
    let product = f.opt::<Temperature>("product")?;
    let now = Conditions { air, steel: f.get("steel")?, product };
    let verdict = air::verdict(now, &limits, Doubts::default())?;
    let m = verdict.margin;
    let first = match () {
        () if m.gap.si() <= 0.0 => "The steel gets wet now".to_owned(),
        () if verdict.within_doubt && verdict.go() => "Too close to call".to_owned(),
        () if verdict.go() => "Nothing here speaks against it".to_owned(),
        () => "Not yet".to_owned(),
    };
    let mut out = Outcome::of([first, gap_words(f, &m)])
        .doubt(format!("{} either way, from the instruments.", f.say(Measure::Warmer, m.doubt)));
    for reason in &verdict.against {
        out = out.warn(sentence(&because(f, reason)));
    }
    if verdict.within_doubt {
        out = out.warn("The gap is there by less than its doubt. Measure again, or wait.");
    }
    let good = air::reading_good_for(m.gap, false);
    out = out.small(format!(
        "{} {}. The reading is good for {} while doors and heater stay as they are.",
        sentence(&point_name(&m)).trim_end_matches('.'),
        at(f, m.against),
        time(good)
    ));
    Ok(out.small(more(f, air)?).picture(picture(f, &m, &air, limits.gap)))
}

fn gap_words(f: &Filled, m: &Margin) -> String {
    let words = f.say(Measure::Warmer, m.gap);
    let side = if m.gap.si() < 0.0 { "under" } else { "over" };
    format!("steel {} {side} {}", words.trim_start_matches('-'), point_name(m))
}

fn point_name(m: &Margin) -> String {
    if CELSIUS.get(m.against) < 0.0 { "frost point".into() } else { "dew point".into() }
}

fn because(f: &Filled, reason: &Reason) -> String {
    let of = |of: Of| match of {
        Of::Steel => "steel",
        Of::Air => "air",
        Of::Product => "product",
    };
    match reason {
        Reason::GapTooSmall { needed, .. } => format!("{} over it is needed", f.say(Measure::Warmer, *needed)),
        Reason::TooDamp { rh_percent, most_percent } => {
            format!("the air is at {} RH, {} is the most", percent(*rh_percent), percent(*most_percent))
        }
        Reason::TooCold { of: what, is, least } => {
            format!("{} at {} is under {}", of(*what), at(f, *is), at(f, *least))
        }
        Reason::TooHot { of: what, is, most } => format!("{} at {} is over {}", of(*what), at(f, *is), at(f, *most)),
    }
}

fn picture(f: &Filled, m: &Margin, air: &Air, needed: TemperatureInterval) -> super::Drawing {
    let edge = Temperature::from_si(m.against.si() + needed.si());
    scale(
        &[
            Point::mark(degrees(f, air.temperature), format!("air {}", at(f, air.temperature))),
            Point::strong(degrees(f, m.steel), format!("steel {}", at(f, m.steel))),
            Point::top(degrees(f, edge), format!("needed {}", at(f, edge)), "wait"),
            Point::top(degrees(f, m.against), format!("{} {}", point_name(m), at(f, m.against)), "wet"),
        ],
        8.0,
    )
}

/// The readings of the job, and the one typed here as the last of them.
fn readings(f: &Filled, air: Air, steel: Temperature) -> Vec<Reading> {
    let now = HOUR.of(f.given.age_hours.unwrap_or(0.0));
    let mut all: Vec<Reading> = f.given.readings.iter().copied().filter(|r| r.at.si() < now.si()).collect();
    all.push(Reading { at: now, air, steel });
    all
}

fn start(f: &Filled, air: Air) -> Result<Outcome, Stop> {
    let log = readings(f, air, f.get("steel")?);
    let now = log.last().map_or(HOUR.of(0.0), |r| r.at);
    let low = Low { at: now + f.get::<Time>("low-in")?, air: f.get("low")? };
    let needs = Needs { gap: f.get("needed")?, work: f.get("work")?, touch_dry: f.get("touch-dry")? };
    let forecast = air::forecast(&log, low, &needs)?;
    let within = |t: Time| time(t - now);
    let out = match forecast.outlook {
        Outlook::ClosedNow => Outcome::of(["Not now: the gap is too small".into()]),
        Outlook::TooLate { closes } => Outcome::of(["Too late for today".into()])
            .warn(format!("The gap closes in {}: film begun now would not be touch-dry.", within(closes))),
        Outlook::StartBy { start_by, closes } => {
            Outcome::of([format!("Start within {}", within(start_by))]).small(format!(
                "The gap closes in {}. Before that: spraying and touch-dry, {}.",
                within(closes),
                time(needs.work + needs.touch_dry)
            ))
        }
        Outlook::HoldsToLow { smallest } => Outcome::of(["The gap holds to the low".into()]).small(format!(
            "At its smallest it is {}. After the low, readings must show.",
            f.say(Measure::Warmer, smallest)
        )),
    };
    let rise = crate::units::CELSIUS_DIFFERENCE.get(forecast.dew_rise_per_hour);
    let out = match rise > 0.05 {
        true => {
            out.small(format!("The dew point has been rising by {} °C an hour, and that is carried on.", bare(rise)))
        }
        false => out.small("The dew point is taken to stay. Rain, wet floors and people raise it: read again."),
    };
    let out = match forecast.closed_in_log.filter(|t| t.si() < now.si()) {
        Some(t) => out.warn(format!("In the readings the gap was too small {} ago.", time(now - t))),
        None => out,
    };
    let out = match f.given.readings.len() {
        0 => out,
        n => out.small(format!("Counts the {n} readings of the job too.")),
    };
    Ok(out.picture(course(f, &forecast, needs.gap, now)))
}

fn course(f: &Filled, forecast: &Forecast, needed: TemperatureInterval, now: Time) -> super::Drawing {
    let points = |read: fn(&air::GapPoint) -> Temperature| {
        let all = forecast.ahead.iter().step_by(8);
        all.map(|p| (HOUR.get(p.at - now), degrees(f, read(p)))).collect::<Vec<_>>()
    };
    let closes = match forecast.outlook {
        Outlook::TooLate { closes } | Outlook::StartBy { closes, .. } => Some(closes),
        _ => None,
    };
    let last = forecast.ahead.last().map_or(HOUR.of(0.0), |p| p.at - now);
    let against =
        forecast.ahead.first().map_or(0.0, |p| degrees(f, Temperature::from_si(p.against.si() + needed.si())));
    Curve {
        lines: vec![
            Line { points: points(|p| p.steel), words: "steel" },
            Line { points: points(|p| p.against), words: "dew point" },
        ],
        face: "wet",
        levels: vec![Level { at: against, words: format!("{} needed", f.say(Measure::Warmer, needed)) }],
        moment: closes.map(|t| (HOUR.get(t - now), format!("closes in {}", time(t - now)))),
        ends: ("now".into(), format!("low, in {}", time(last))),
        at_least: (f64::INFINITY, f64::NEG_INFINITY),
        words: "Steel and dew point from now to the night low".into(),
    }
    .draw()
}
