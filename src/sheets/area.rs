//! Area: how much steel there is, from plain shapes or from a machine like it.

use super::draw::{Bar, Solid, bars, solid};
use super::words::{self, bare};
use super::{Ask, Filled, Outcome, Sheet, Stop};
use crate::sums::area::{self, Lies, Overall, Part, Shape};
use crate::sums::range::Field;
use crate::units::{Area, Length, METRE, Measure, Quantity, SQUARE_METRE};

pub static SHEET: Sheet = Sheet {
    slug: "area",
    name: "Area",
    what: "How much steel there is to cover",
    asks: &[
        Ask::choice("shape", "Its shape", |_| {
            vec![
                ("box", "Box"),
                ("plate", "Plate"),
                ("tube", "Tube"),
                ("wheel", "Wheel"),
                ("rail", "Frame rail"),
                ("like", "Like one I measured"),
            ]
        }),
        Ask::amount("length", "Length", Measure::Size, Field::PartLength)
            .start("1.2", "4")
            .only_if(&[("shape", &["box", "plate", "tube", "rail"])]),
        Ask::amount("width", "Width", Measure::Size, Field::PartLength)
            .start("0.5", "1.6")
            .only_if(&[("shape", &["box", "plate", "wheel"])]),
        Ask::amount("height", "Height", Measure::Size, Field::PartLength)
            .start("0.4", "1.3")
            .only_if(&[("shape", &["box"])]),
        Ask::amount("diameter", "Outside width across the round", Measure::Size, Field::PartLength)
            .start("0.8", "2.6")
            .only_if(&[("shape", &["tube", "wheel"])]),
        Ask::amount("web", "Height of the web", Measure::Size, Field::PartLength)
            .start("0.2", "0.65")
            .only_if(&[("shape", &["rail"])]),
        Ask::amount("flange", "Width of a flange", Measure::Size, Field::PartLength)
            .start("0.08", "0.25")
            .only_if(&[("shape", &["rail"])]),
        Ask::number("count", "How many", Field::PartCount).half().start("1", "1").only_if(SHAPED),
        Ask::number("faces", "Faces", Field::Faces)
            .half()
            .start("1", "1")
            .only_if(SHAPED),
        Ask::number("intricacy", "Intricacy", Field::Intricacy)
            .start("1", "1")
            .hint("Faces: 1 the outside, 2 both sides. Intricacy: 1 smooth, 1.5 ribs and brackets, 2 pipes and castings: common practice, no source")
            .only_if(SHAPED),
        Ask::amount("was", "Area of the one measured", Measure::Area, Field::Area).start("10", "110").only_if(LIKE),
        Ask::choice("lies", "This area lies", |_| {
            vec![
                ("round", "All round"),
                ("side", "Along the side"),
                ("flat", "On top or under"),
                ("across", "Front or back"),
            ]
        })
        .only_if(LIKE),
        Ask::amount("l1", "That: length", Measure::Size, Field::MachineLength).start("5", "16.4").only_if(LIKE),
        Ask::amount("w1", "its width", Measure::Size, Field::MachineLength).start("1.75", "5.75").only_if(LIKE),
        Ask::amount("h1", "its height", Measure::Size, Field::MachineLength).start("2.5", "8.2").only_if(LIKE),
        Ask::amount("l2", "This: length", Measure::Size, Field::MachineLength).start("6", "19.7").only_if(LIKE),
        Ask::amount("w2", "its width", Measure::Size, Field::MachineLength).start("2", "6.5").only_if(LIKE),
        Ask::amount("h2", "its height", Measure::Size, Field::MachineLength).start("2.7", "8.9").only_if(LIKE),
    ],
    answer,
    formula: "Box 2·(l·w + l·h + w·h). Plate l·w. Tube π·d·l. Wheel π·d·(d/2 + w). Rail l·(web + 2·flange). Times count, faces and \
              intricacy. A machine like another: its area times the ratio of the sizes it lies along.",
    source: "Geometry. Intricacy: common practice, no source.",
    cautions: &[
        "Measure from the ground. No climbing on filmed or wet steps; a raised arm stands on its lock.",
        "Leave out what stays bare: glass, rods, brakes, tyres, belts, steps.",
    ],
};

const SHAPED: &[(&str, &[&str])] = &[("shape", &["box", "plate", "tube", "wheel", "rail"])];
const LIKE: &[(&str, &[&str])] = &[("shape", &["like"])];

fn answer(f: &Filled) -> Result<Outcome, Stop> {
    if f.choice("shape") == "like" {
        return like(f);
    }
    let size = |id| f.get::<Length>(id);
    let (shape, body, ids) = match f.choice("shape") {
        "plate" => {
            (Shape::Plate { length: size("length")?, width: size("width")? }, Solid::Plate, ["length", "width", ""])
        }
        "tube" => {
            let shape = Shape::Tube { diameter: size("diameter")?, length: size("length")? };
            (shape, Solid::Tube, ["length", "diameter", ""])
        }
        "wheel" => {
            let shape = Shape::Wheel { diameter: size("diameter")?, width: size("width")? };
            (shape, Solid::Wheel, ["width", "diameter", ""])
        }
        "rail" => {
            let shape = Shape::Rail { length: size("length")?, web: size("web")?, flange: size("flange")? };
            (shape, Solid::Rail, ["length", "web", "flange"])
        }
        _ => {
            let shape = Shape::Box { length: size("length")?, width: size("width")?, height: size("height")? };
            (shape, Solid::Box, ["length", "height", "width"])
        }
    };
    let count = f.number("count")?;
    if count.fract() != 0.0 {
        return Err(crate::sums::NotPossible::Clash("how many must be a whole number").into());
    }
    let part = Part { shape, count: count as u32, faces: f.number("faces")?, intricacy: f.number("intricacy")? };
    let all = area::of_part(&part)?;
    let mut said = Vec::new();
    for id in ids {
        said.push(if id.is_empty() { String::new() } else { f.say(Measure::Size, size(id)?) });
    }
    let one = area::of_part(&Part { count: 1, faces: 1.0, intricacy: 1.0, ..part })?;
    let say = |a: Area| words::area(f, a);
    let mut out = Outcome::of([say(all)]).picture(solid(body, [&said[0], &said[1], &said[2]]));
    if all.si() != one.si() {
        out = out.small(format!(
            "One smooth outside is {}; {} of them, {} faces, intricacy {}.",
            say(one),
            part.count,
            bare(part.faces),
            bare(part.intricacy)
        ));
    }
    debug_assert!(SQUARE_METRE.get(all) >= 0.0);
    Ok(out.small("Use it for the mix, the film and what to buy."))
}

fn like(f: &Filled) -> Result<Outcome, Stop> {
    let size = |l, w, h| Ok::<_, Stop>(Overall { length: f.get(l)?, width: f.get(w)?, height: f.get(h)? });
    let (from, to) = (size("l1", "w1", "h1")?, size("l2", "w2", "h2")?);
    let lies = match f.choice("lies") {
        "side" => Lies::Side,
        "flat" => Lies::Flat,
        "across" => Lies::Across,
        _ => Lies::Round,
    };
    let factor = area::scale(from, to, lies)?;
    let was = f.get::<Area>("was")?;
    let now = was * factor;
    let say = |a: Area| words::area(f, a);
    let bar = |words: String, a: Area, look| Bar { words, from: 0.0, to: a.si(), likely: None, look };
    debug_assert!(METRE.get(to.length) > 0.0);
    Ok(Outcome::of([say(now)])
        .small(format!("{} times the one measured.", bare(factor)))
        .small("A guess by size. Measure the big faces.")
        .picture(bars(&[
            bar(format!("measured {}", say(was)), was, "metal"),
            bar(format!("this one about {}", say(now)), now, "wait"),
        ])))
}
