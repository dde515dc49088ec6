//! Film: wet and dry, how far a litre goes, what an area takes, what the litres used have made.

use super::draw::{Bar, bars, films};
use super::film_readings::{READINGS, readings};
use super::words::percent;
use super::{Ask, Filled, Outcome, Sheet, Stop};
use crate::sums::film::{self, Paint, Tool};
use crate::sums::range::Field;
use crate::units::{Area, Length, MICROMETRE, Measure, Quantity, Volume};

const PAINTED: &[&str] = &["wet", "dry", "spread", "area", "used"];
const LOSES: &[&str] = &["spread", "area", "used"];

pub static SHEET: Sheet = Sheet {
    slug: "film",
    name: "Film",
    what: "Wet and dry film, spread, litres for an area",
    asks: &[
        Ask::choice("how", "What do you want to know?", |_| {
            vec![
                ("area", "Litres for an area"),
                ("used", "Litres used: what film?"),
                ("wet", "Wet film to lay"),
                ("dry", "Dry film it leaves"),
                ("spread", "How far it goes"),
                ("readings", "What readings say"),
            ]
        }),
        Ask::amount("solids", "Solids by volume", Measure::Percent, Field::Solids)
            .kept()
            .start("40", "40")
            .hint("40 % is a default from memory (20 to 55). The TDS says yours.")
            .only_if(&[("how", PAINTED)]),
        Ask::amount("dry", "Dry film wanted", Measure::Film, Field::DryFilm)
            .start("15", "0.6")
            .hint("Thin resin film 15 µm or 0.6 mil, soft wax or oil film 40 µm or 1.6 mil: defaults, from memory")
            .only_if(&[("how", &["wet", "spread", "area"])]),
        Ask::amount("wet", "Wet film", Measure::Film, Field::WetFilm)
            .start("40", "1.6")
            .only_if(&[("how", &["dry"])]),
        Ask::amount("thinner", "Thinner added", Measure::Percent, Field::Thinner)
            .start("0", "0")
            .hint("In % of the product, as data sheets mean it")
            .only_if(&[("how", &["wet", "dry", "spread", "area"])]),
        Ask::amount("area", "Area", Measure::Area, Field::Area)
            .start("40", "430")
            .only_if(&[("how", &["area", "used"])]),
        Ask::amount("used", "Product used, without thinner", Measure::Volume, Field::PaintVolume)
            .start("3", "0.8")
            .only_if(&[("how", &["used"])]),
        Ask::choice("tool", "Put on with", |_| {
            vec![
                ("hvlp", "Low-pressure gun"),
                ("aerosol", "Aerosol can"),
                ("brush", "Brush"),
                ("airless", "Airless"),
                ("spray", "Old spray gun"),
                ("own", "My own loss"),
            ]
        })
        .only_if(&[("how", LOSES)]),
        Ask::amount("loss", "Share that is lost", Measure::Percent, Field::Loss)
            .start("45", "45")
            .only_if(&[("how", LOSES), ("tool", &["own"])]),
        READINGS[0],
        READINGS[1],
        READINGS[2],
        READINGS[3],
    ],
    answer,
    formula: "Wet = dry × (1 + thinner) ÷ solids. Spread in m²/L = 1000 × solids ÷ dry film in µm, in ft²/US gal = 1604 × \
              solids ÷ dry film in mil; in practice less the share lost. Readings: the pattern of ISO 19840, mean at least \
              nominal, none under 80 %, fewer than a fifth between 80 and 100 %, none over the most.",
    source: "Volume balance; 1 US gal = 231 in³. ISO 19840 as read in a Dutch summary of its 2005 text. Losses: from memory.",
    cautions: &[
        "Mist and vapour burn: no flame, no spark, phone outside the spray zone. Respirator as the SDS says.",
        "Wet combs step about 25 µm and thin film flashes in seconds. Litres used against area done is the main check.",
        "All of it are defaults and estimates. Your product's TDS wins.",
    ],
};

/// Loss in %: least, likely, most.
fn losses(f: &Filled) -> Result<[f64; 3], Stop> {
    Ok(match f.choice("tool") {
        "aerosol" => Tool::Aerosol.loss_percent(),
        "brush" => Tool::Brush.loss_percent(),
        "airless" => Tool::Airless.loss_percent(),
        "spray" => Tool::ConventionalSpray.loss_percent(),
        "own" => [f.number("loss")?; 3],
        _ => Tool::Hvlp.loss_percent(),
    })
}

fn answer(f: &Filled) -> Result<Outcome, Stop> {
    let how = f.choice("how");
    match how {
        "readings" => return readings(f),
        "used" => return used(f),
        _ => {}
    }
    let paint = Paint { solids_percent: f.number("solids")?, thinner_percent: f.number("thinner")? };
    match how {
        "area" => area(f, paint),
        "spread" => spread(f, paint),
        _ => wet_and_dry(f, paint),
    }
}

fn wet_and_dry(f: &Filled, paint: Paint) -> Result<Outcome, Stop> {
    let say = |l: Length| f.say(Measure::Film, l);
    let (wet, dry, big) = match f.choice("how") {
        "dry" => {
            let wet = f.get::<Length>("wet")?;
            let dry = film::dry_from_wet(wet, paint)?;
            (wet, dry, format!("{} dry", say(dry)))
        }
        _ => {
            let dry = f.get::<Length>("dry")?;
            let wet = film::wet_for_dry(dry, paint)?;
            (wet, dry, format!("{} wet", say(wet)))
        }
    };
    let solids = film::solids_after_thinning(paint)?;
    Ok(Outcome::of([big])
        .small(format!("Solids {} as it goes on. {} wet dries to {}.", percent(solids), say(wet), say(dry)))
        .picture(films(&[(say(wet), "wet", wet.si(), "wet"), (say(dry), "dry", dry.si(), "wait")])))
}

fn spread(f: &Filled, paint: Paint) -> Result<Outcome, Stop> {
    let dry = f.get::<Length>("dry")?;
    let [least, likely, most] = losses(f)?;
    let at = film::spread(dry, paint, likely)?;
    let (far, near) = (film::spread(dry, paint, least)?.practical, film::spread(dry, paint, most)?.practical);
    let say = |s| f.say(Measure::Spread, s);
    let mut out = Outcome::of([
        format!("{} with nothing lost", say(at.theoretical)),
        format!("{} in practice", say(at.practical)),
    ])
    .small(format!("Counted on the product as it is in the can. {} is lost.", percent(likely)))
    .picture(bars(&[
        bar(format!("nothing lost: {}", say(at.theoretical)), 0.0, at.theoretical.si(), None, "metal"),
        bar(format!("in practice: {}", say(at.practical)), 0.0, at.practical.si(), None, "wet"),
    ]));
    if paint.thinner_percent > 0.0 {
        out = out.small(format!("Thinned, as it goes on: {}.", say(at.as_applied)));
    }
    if near.si() < far.si() {
        out =
            out.doubt(format!("{} to {}, as {} to {} is lost.", say(near), say(far), percent(least), percent(most)));
    }
    Ok(out)
}

fn area(f: &Filled, paint: Paint) -> Result<Outcome, Stop> {
    let (area, dry) = (f.get::<Area>("area")?, f.get::<Length>("dry")?);
    let [least, likely, most] = losses(f)?;
    let (low, at, high) = (
        film::needed(area, dry, paint, least)?,
        film::needed(area, dry, paint, likely)?,
        film::needed(area, dry, paint, most)?,
    );
    let say = |v: Volume| f.say(Measure::Volume, v);
    let mut out = Outcome::of([format!("{} of product", say(at.paint))]).small(format!(
        "{} dry, {} wet to lay, {} in practice.",
        f.say(Measure::Film, dry),
        f.say(Measure::Film, at.wet),
        f.say(Measure::Spread, at.spread.practical)
    ));
    if paint.thinner_percent > 0.0 {
        out = out.small(format!("And {} of thinner: {} in all.", say(at.thinner), say(at.mixed)));
    }
    if low.paint.si() < high.paint.si() {
        out = out.doubt(format!(
            "{} to {}, as {} to {} is lost.",
            say(low.paint),
            say(high.paint),
            percent(least),
            percent(most)
        ));
    }
    let row = |words: &str, v: Volume| bar(format!("{words} {}", say(v)), 0.0, v.si(), None, "wet");
    Ok(out.picture(bars(&[row("at least", low.paint), row("likely", at.paint), row("at most", high.paint)])))
}

fn used(f: &Filled) -> Result<Outcome, Stop> {
    let (used, area, solids) = (f.get::<Volume>("used")?, f.get::<Area>("area")?, f.number("solids")?);
    let [least, likely, most] = losses(f)?;
    let at = film::achieved(used, area, solids, likely)?;
    let (thick, thin) = (film::achieved(used, area, solids, least)?, film::achieved(used, area, solids, most)?);
    let say = |l: Length| f.say(Measure::Film, l);
    let mut out = Outcome::of([format!("{} dry, on average", say(at))]).small(
        "An average says nothing of thin spots: look at edges and undersides. Usual: thin resin film 8 to 25 µm \
         (0.3 to 1 mil), soft wax or oil film 25 to 80 µm (1 to 3 mil), from memory.",
    );
    if thin.si() < thick.si() {
        out = out.doubt(format!(
            "{} to {}, as {} to {} is lost.",
            say(thin),
            say(thick),
            percent(least),
            percent(most)
        ));
    }
    debug_assert!(MICROMETRE.get(at) >= 0.0);
    Ok(out.picture(films(&[
        (say(thin), "least", thin.si(), "wait"),
        (say(at), "likely", at.si(), "wait"),
        (say(thick), "most", thick.si(), "wait"),
    ])))
}

fn bar(words: String, from: f64, to: f64, likely: Option<f64>, look: &'static str) -> Bar {
    Bar { words, from, to, likely, look }
}
