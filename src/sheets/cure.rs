//! Cure: what the hours so far are worth, and when the film is ready.

use super::draw::{Curve, Level, Line};
use super::words::{bare, percent, time};
use super::{Ask, Filled, Outcome, Sheet, Stop};
use crate::sums::cure::{self, Credit, Law, Logged};
use crate::sums::range::Field;
use crate::units::{HOUR, Measure, Quantity, Temperature, Time};

/// Stretches that can be told: ids of hours and temperature.
const STRETCHES: [(&str, &str); 3] = [("h1", "t1"), ("h2", "t2"), ("h3", "t3")];

pub static SHEET: Sheet = Sheet {
    slug: "cure",
    name: "Cure",
    what: "What the hours so far are worth, and when it is ready",
    asks: &[
        Ask::amount("h1", "Hours so far", Measure::Hours, Field::Duration).half().start("24", "24"),
        Ask::amount("t1", "at", Measure::Temperature, Field::CureTemperature)
            .half()
            .start("12", "54")
            .given(|g| g.air_c),
        Ask::amount("h2", "then", Measure::Hours, Field::Duration).half().optional(),
        Ask::amount("t2", "at", Measure::Temperature, Field::CureTemperature).half().optional(),
        Ask::amount("h3", "then", Measure::Hours, Field::Duration).half().optional(),
        Ask::amount("t3", "at", Measure::Temperature, Field::CureTemperature).half().optional(),
        Ask::amount("ahead", "From now on at", Measure::Temperature, Field::CureTemperature)
            .start("12", "54")
            .given(|g| g.air_c),
        Ask::choice("for", "Until", |_| {
            vec![("refit", "Refit"), ("touch", "Touch-dry"), ("hard", "Hard"), ("own", "My own hours")]
        }),
        Ask::amount("hours", "Hours the TDS asks", Measure::Hours, Field::EquivalentHours)
            .start("48", "48")
            .only_if(&[("for", &["own"])]),
        Ask::amount("reference", "At, says the TDS", Measure::Temperature, Field::CureTemperature)
            .start("20", "68")
            .hint("20 °C (68 °F) is the default"),
        Ask::choice("law", "Speed follows", |_| {
            vec![("q10", "A factor for 10 °C"), ("arrhenius", "Activation temperature")]
        }),
        Ask::number("q10", "Speed-up for 10 °C (18 °F)", Field::Q10)
            .start("2", "2")
            .hint("2: half as fast for 10 °C colder. Common practice, no source.")
            .only_if(&[("law", &["q10"])]),
        Ask::number("activation", "Activation temperature, in kelvin", Field::ActivationQ)
            .start("5000", "5000")
            .hint("Only if the maker gives it")
            .only_if(&[("law", &["arrhenius"])]),
        Ask::amount("none-below", "Nothing counts below", Measure::Temperature, Field::CureTemperature)
            .optional()
            .hint("The TDS minimum"),
        Ask::amount("cap", "No more credit above", Measure::Temperature, Field::CureTemperature)
            .start("30", "86")
            .hint("30 °C (86 °F): common practice, no source"),
    ],
    answer,
    formula: "Equivalent hours = hours × q^((T − reference) ÷ 10), or × e^(−Q × (1/T − 1/reference)) with T in kelvin. \
              Nothing below the least, no more above the cap.",
    source: "The form is that of concrete maturity, ASTM C1074, and is borrowed: solvent also leaves by airflow and film build. \
             Half as fast for 10 °C colder, refit after 48 h at 20 °C: common practice, no source. Touch-dry 4 h (1 to 12), hard \
             7 days (5 to 14): from memory.",
    cautions: &[
        "Film sheds vapour for days: boxes and doors open, no flame or spark before the purge ends, battery stays off.",
        "A finger on a hidden spot decides, and your product's TDS. The hours are a guide.",
    ],
};

fn answer(f: &Filled) -> Result<Outcome, Stop> {
    let reference = f.get::<Temperature>("reference")?;
    let law = match f.choice("law") {
        "arrhenius" => Law::Arrhenius { q_over_r_k: f.number("activation")?, reference },
        _ => Law::Q10 { q10: f.number("q10")?, reference },
    };
    let credit = Credit { none_below: f.opt("none-below")?, no_more_above: Some(f.get("cap")?) };
    let [low, needed, high] = wanted(f)?;
    let mut log = Vec::new();
    let mut now = HOUR.of(0.0);
    for (hours, at) in STRETCHES {
        let (lasts, temperature) = match (f.opt::<Time>(hours)?, f.opt::<Temperature>(at)?) {
            (None, None) => continue,
            (None, _) => return Err(Stop::Missing(hours)),
            (_, None) => return Err(Stop::Missing(at)),
            (Some(lasts), Some(temperature)) => (lasts, temperature),
        };
        log.push(Logged { at: now, temperature });
        now += lasts;
        log.push(Logged { at: now, temperature });
    }
    let ahead = f.get::<Temperature>("ahead")?;
    let film = cure::progress(law, credit, &log, now, needed, ahead)?;
    let reached = |needed: Time| cure::progress(law, credit, &log, now, needed, ahead).map(|c| c.finish);
    let hours = |t: Time| format!("{} h", bare((HOUR.get(t) * 10.0).round() / 10.0));
    let mut big = vec![format!("{} count so far", hours(film.equivalent))];
    big.push(match film.finish {
        Some(finish) if finish.si() <= now.si() + 1e-6 => format!("{} reached", name(f)),
        Some(finish) => format!("{} in {}", name(f), time(finish - now)),
        None => format!("{}: never at {}", name(f), f.say(Measure::Temperature, ahead)),
    });
    let mut out = Outcome::of(big).small(format!(
        "{} of {} at {}. One hour at {} counts {} h.",
        percent(film.percent),
        hours(needed),
        f.say(Measure::Temperature, reference),
        f.say(Measure::Temperature, ahead),
        bare(cure::rate(law, credit, ahead)?)
    ));
    if film.without_credit.si() > 0.0 {
        out = out.warn(format!("{} counted nothing: too cold.", time(film.without_credit)));
    }
    if film.capped.si() > 0.0 {
        out = out.small(format!("{} were warmer than counts.", time(film.capped)));
    }
    if high.si() > low.si()
        && let (Some(early), Some(late)) = (reached(low)?, reached(high)?)
    {
        let left = |t: Time| if t.si() <= now.si() { "now".to_owned() } else { format!("in {}", time(t - now)) };
        out = out.doubt(format!("{} to {}, as products differ.", left(early), left(late)));
    }
    Ok(out.picture(curve(f, &film, now)))
}

/// Hours asked for: least, likely, most.
fn wanted(f: &Filled) -> Result<[Time; 3], Stop> {
    let h = |all: [f64; 3], each: f64| all.map(|v| HOUR.of(v * each));
    Ok(match f.choice("for") {
        "touch" => h(cure::TOUCH_DRY_HOURS, 1.0),
        "hard" => h(cure::HARD_DAYS, 24.0),
        "own" => [f.get("hours")?; 3],
        _ => h([cure::REFIT_HOURS; 3], 1.0),
    })
}

fn name(f: &Filled) -> &'static str {
    match f.choice("for") {
        "touch" => "Touch-dry",
        "hard" => "Hard",
        "own" => "Ready",
        _ => "Refit",
    }
}

fn curve(f: &Filled, film: &cure::Cure, now: Time) -> super::Drawing {
    let mut points: Vec<(f64, f64)> = film.curve.iter().map(|p| (HOUR.get(p.0), HOUR.get(p.1))).collect();
    let needed = HOUR.get(film.needed);
    let end = film.finish.map_or(now, |t| if t.si() > now.si() { t } else { now });
    if let Some(finish) = film.finish.filter(|t| t.si() > now.si()) {
        points.push((HOUR.get(finish), needed));
    }
    Curve {
        lines: vec![Line { points, words: "" }],
        face: "wait",
        levels: vec![Level { at: needed, words: format!("{}: {} h", name(f).to_ascii_lowercase(), bare(needed)) }],
        moment: Some((HOUR.get(now), "now".into())),
        ends: ("last stroke".into(), time(end)),
        at_least: (0.0, needed * 1.15),
        words: "Hours that count, over the hours on the clock".into(),
    }
    .draw()
}
