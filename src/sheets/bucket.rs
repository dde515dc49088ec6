//! Marks on a stick: how far up each liquid comes.

use super::draw::{Layer, Shape, vessel};
use super::words::percent;
use super::{Ask, Drawing, Filled, Outcome, Sheet, Stop};
use crate::sums::bucket::{self, Dipstick, Mark, PAILS, Vessel};
use crate::sums::dilution::{self, MixRatio};
use crate::sums::range::Field;
use crate::units::{Length, MILLIMETRE, Measure, Quantity, Step, UnitSet, Volume};

const PAIL: &[(&str, &[&str])] = &[("pail", &["own"])];
const TANK: &[(&str, &[&str])] = &[("pail", &["tank"])];
const POURED: &[(&str, &[&str])] = &[("pail", &["poured"])];
const IDS: [&str; PAILS.len()] = ["10l", "12l", "20l", "5gal", "drum"];

pub static SHEET: Sheet = Sheet {
    slug: "bucket",
    name: "Bucket marks",
    what: "How far up the water comes, and the concentrate",
    asks: &[
        Ask::choice("how", "What do you want to know?", |_| {
            vec![("stick", "Mark a stick"), ("level", "How far up is a volume?"), ("volume", "How much is in it?")]
        }),
        Ask::choice("pail", "The vessel", |units| {
            let mut all: Vec<_> = IDS.into_iter().zip(PAILS.map(|p| p.name)).collect();
            // The pail one meets first.
            all.sort_by_key(|p| (units == UnitSet::Us) == (p.0 != "5gal"));
            all.extend([
                ("own", "My own pail or drum"),
                ("tank", "A tank with straight walls"),
                ("poured", "Any other: pour in and mark"),
            ]);
            all
        }).kept()
        .hint("Common sizes are from memory. Measure your own, inside. Any other: pour, mark, pour more, mark again near the rim."),
        Ask::amount("top", "Width at the rim", Measure::Length, Field::PailDiameter).kept()
            .start("290", "11 3/8")
            .half()
            .only_if(PAIL),
        Ask::amount("bottom", "At the bottom", Measure::Length, Field::PailDiameter).kept()
            .start("260", "10 1/4")
            .half()
            .only_if(PAIL),
        Ask::amount("long", "Inside length", Measure::Length, Field::TankSide).kept().start("600", "24").half().only_if(TANK),
        Ask::amount("wide", "Inside width", Measure::Length, Field::TankSide).kept().start("400", "16").half().only_if(TANK),
        Ask::amount("height", "Inside height", Measure::Length, Field::VesselHeight).kept()
            .start("360", "14 1/8")
            .only_if(&[("pail", &["own", "tank"])]),
        Ask::amount("poured", "Pour in", Measure::Volume, Field::VesselVolume).kept()
            .start("5", "1")
            .half()
            .only_if(POURED),
        Ask::amount("reaches", "Comes up to", Measure::Length, Field::Level).kept().start("100", "4").half().only_if(POURED),
        Ask::amount("poured-more", "Then in all", Measure::Volume, Field::VesselVolume).kept()
            .start("10", "2")
            .half()
            .only_if(POURED),
        Ask::amount("reaches-more", "Comes up to", Measure::Length, Field::Level).kept()
            .start("195", "7 3/4")
            .half()
            .only_if(POURED),
        Ask::amount("fill", "Fill it to", Measure::Volume, Field::FillVolume)
            .start("8", "2")
            .only_if(&[("how", &["stick"])]),
        Ask::number("water", "Parts of water", Field::WaterParts).start("3", "3").half().only_if(&[("how", &["stick"])]),
        Ask::number("concentrate", "of concentrate", Field::ConcentrateParts)
            .start("1", "1")
            .half()
            .only_if(&[("how", &["stick"])]),
        Ask::amount("wanted", "Volume", Measure::Volume, Field::VesselVolume)
            .start("8", "2")
            .only_if(&[("how", &["level"])]),
        Ask::amount("level", "Level over the inside bottom", Measure::Length, Field::Level)
            .start("150", "6")
            .only_if(&[("how", &["volume"])]),
    ],
    answer,
    formula: "A pail tapers: V = π·h ÷ 12 × (d₀² + d₀·d + d²), with d₀ the width at the bottom and d the width at the \
              level h. Turned round for the level. Between poured marks the level is taken to rise evenly.",
    source: "Geometry: the frustum of a cone. Common pail sizes: from memory.",
    cautions: &[
        "Stand the bucket level. Water first, then concentrate.",
        "Gloves and goggles. Mark the bucket with what is in it; never a drink or feed container.",
    ],
};

fn measured(f: &Filled) -> Result<Vessel, Stop> {
    Ok(match f.choice("pail") {
        "own" => Vessel::Pail { top: f.get("top")?, bottom: f.get("bottom")?, height: f.get("height")? },
        "tank" => Vessel::Tank { length: f.get("long")?, width: f.get("wide")?, height: f.get("height")? },
        "poured" => Vessel::Marked(vec![
            Mark { volume: f.get("poured")?, level: f.get("reaches")? },
            Mark { volume: f.get("poured-more")?, level: f.get("reaches-more")? },
        ]),
        id => PAILS[IDS.iter().position(|i| *i == id).unwrap_or(0)].vessel(),
    })
}

fn answer(f: &Filled) -> Result<Outcome, Stop> {
    let vessel = measured(f)?;
    let holds = bucket::holds(&vessel)?;
    let rim = format!("Full to the rim it holds {}.", f.say(Measure::Volume, holds));
    match f.choice("how") {
        "volume" => {
            let level = f.get::<Length>("level")?;
            let volume = bucket::volume_at(&vessel, level)?;
            let words = f.say(Measure::Volume, volume);
            let picture = one(f, &vessel, level, words.clone())?;
            Ok(Outcome::of([words]).small(rim).picture(picture))
        }
        "level" => {
            let wanted = f.get::<Volume>("wanted")?;
            let level = bucket::level_for(&vessel, wanted)?;
            let picture = one(f, &vessel, level, f.say(Measure::Volume, wanted))?;
            Ok(Outcome::of([format!("{} up", mark(f, level))]).small(rim).picture(picture))
        }
        _ => {
            let ratio = MixRatio::parts(f.number("water")?, f.number("concentrate")?)?;
            let mix = dilution::to_fill(ratio, f.get("fill")?)?;
            let stick = bucket::dipstick(&vessel, &[mix.water, mix.concentrate])?;
            let marks: Vec<String> = stick.marks.iter().map(|m| mark(f, m.level)).collect();
            Ok(Outcome::of([format!("Water to {}", marks[0]), format!("concentrate to {}", marks[1])])
                .small(format!("{}, {}. Measured from the inside bottom.", ratio.words(), percent(ratio.percent())))
                .small(rim)
                .picture(dipped(f, &vessel, &stick, &marks)?))
        }
    }
}

/// A level as a stick can be marked.
fn mark(f: &Filled, level: Length) -> String {
    match f.units {
        UnitSet::Us => crate::units::INCH.print_to(level, Step::DIPSTICK_IN),
        _ => MILLIMETRE.print_to(level, Step::DIPSTICK_MM),
    }
}

fn shape(vessel: &Vessel) -> Result<Shape, Stop> {
    let mm = |l: &Length| MILLIMETRE.get(*l);
    Ok(match vessel {
        Vessel::Pail { top, bottom, height } => Shape { top: mm(top), bottom: mm(bottom), height: mm(height) },
        Vessel::Tank { length, height, .. } => Shape { top: mm(length), bottom: mm(length), height: mm(height) },
        Vessel::Marked(marks) => {
            let height = marks.last().map_or(1.0, |m| mm(&m.level));
            Shape { height, ..Shape::BUCKET }
        }
    })
}

fn dipped(f: &Filled, of: &Vessel, stick: &Dipstick, marks: &[String]) -> Result<Drawing, Stop> {
    let looks = ["wet", "wait"];
    let names = ["water", "with concentrate"];
    let layers: Vec<Layer> = stick
        .marks
        .iter()
        .enumerate()
        .map(|(i, m)| Layer {
            to: MILLIMETRE.get(m.level),
            look: looks[i],
            words: vec![marks[i].clone(), names[i].into(), f.say(Measure::Volume, m.volume)],
        })
        .collect();
    Ok(vessel(shape(of)?, &layers, true))
}

fn one(f: &Filled, of: &Vessel, level: Length, words: String) -> Result<Drawing, Stop> {
    debug_assert!(level.si() >= 0.0);
    let layer = Layer { to: MILLIMETRE.get(level), look: "wet", words: vec![mark(f, level), words] };
    Ok(vessel(shape(of)?, &[layer], true))
}
