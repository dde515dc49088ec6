//! Threads: a torque for a plain fixing, and the joints that get none.

use super::draw::{Bar, bars};
use super::words::percent;
use super::{Ask, Filled, Outcome, Sheet, Stop};
use crate::sums::NotPossible;
use crate::sums::range::Field;
use crate::sums::thread::{self, INCH_SIZES, Joint, METRIC, Manual, ManualSays, Strength, Surface};
use crate::units::{Measure, NEWTON_METRE, POUND_FORCE_FOOT, POUND_FORCE_INCH, Quantity, Torque, UnitSet};

const JOINTS: [(&str, &str); 14] = [
    ("panel", "Plain panel fixing"),
    ("wheel", "Wheel nut"),
    ("rops", "Roll-over frame"),
    ("brake", "Brake"),
    ("steering", "Steering"),
    ("driveline", "Driveline"),
    ("belt", "Seat belt"),
    ("towing", "Towing, hitch"),
    ("locked", "Threadlocked"),
    ("prevailing", "Self-locking nut"),
    ("friction", "Friction-grip bolt"),
    ("pin", "Split pin"),
    ("tab", "Tab washer"),
    ("one-use", "One-use nut"),
];

fn sizes(units: UnitSet) -> Vec<(&'static str, &'static str)> {
    let metric = METRIC.iter().map(|s| (s.0, s.0));
    let inch = INCH_SIZES.iter().map(|s| (s.0, s.0));
    let mut all: Vec<_> = match units {
        UnitSet::Us => inch.chain(metric).collect(),
        _ => metric.chain(inch).collect(),
    };
    // The size one meets first.
    let usual = if units == UnitSet::Us { "3/8-16 UNC" } else { "M10" };
    all.sort_by_key(|s| s.0 != usual);
    all
}

fn marks(units: UnitSet) -> Vec<(&'static str, &'static str)> {
    let mut all: Vec<_> = Strength::ALL.iter().map(|(_, m)| (*m, *m)).collect();
    let words = [("2", "Grade 2"), ("5", "Grade 5"), ("8", "Grade 8")];
    for mark in &mut all {
        mark.1 = words.iter().find(|w| w.0 == mark.0).map_or(mark.1, |w| w.1);
    }
    let usual = if units == UnitSet::Us { "5" } else { "8.8" };
    all.sort_by_key(|m| m.0 != usual);
    all
}

pub static SHEET: Sheet = Sheet {
    slug: "thread",
    name: "Threads",
    what: "Torque for plain fixings, dry or wet with film",
    asks: &[
        Ask::choice("joint", "What does it hold?", |_| JOINTS.to_vec()),
        Ask::choice("how", "What do you want to know?", |_| {
            vec![("size", "Torque for a size"), ("manual", "The manual's figure, on film")]
        }),
        Ask::choice("thread", "Size", sizes).only_if(&[("how", &["size"])]),
        Ask::choice("strength", "Mark on the head", marks).only_if(&[("how", &["size"])]),
        Ask::choice("surface", "The thread is", |_| {
            vec![
                ("film", "Wet with film"),
                ("received", "As bought, dry"),
                ("zinc", "Zinc plated, dry"),
                ("galvanised", "Galvanised, dry"),
            ]
        })
        .only_if(&[("how", &["size"])]),
        Ask::amount("preload", "Share of the proof load", Measure::Percent, Field::Preload)
            .start("75", "75")
            .hint("75 %: common practice, no source")
            .only_if(&[("how", &["size"])]),
        Ask::amount("says", "The manual's torque", Measure::Torque, Field::ManualTorque)
            .start("50", "37")
            .only_if(&[("how", &["manual"])]),
        Ask::choice("for", "The manual says it is for", |_| {
            vec![("nothing", "It does not say"), ("dry", "Dry threads"), ("wet", "Oiled threads")]
        })
        .only_if(&[("how", &["manual"])]),
        Ask::choice("dry", "Dry threads, as", |_| {
            vec![("received", "Bought, black"), ("zinc", "Zinc plated"), ("galvanised", "Galvanised")]
        })
        .only_if(&[("how", &["manual"]), ("for", &["dry"])]),
    ],
    answer,
    formula: "T = K × F × d. F = share × proof stress × stress area; area = π/4 × (d − 0.9382·P)², inch 0.7854 × (d − 0.9743/n)². \
              K likely: as bought 0.19, zinc 0.21, galvanised 0.25, film 0.14.",
    source: "ISO 898-1, ASME B1.1, SAE J429. K and the scatter of 35 % dry and 25 % wet: from memory.",
    cautions: &[
        "The machine's manual wins. Wheels, brakes, steering, roll-over frame, driveline, belts, towing: only by the manual, bare and dry.",
        "Loose is the commoner failure. A torque that is not known to be for dry threads is left alone.",
        "Split pins, tab washers and one-use nuts are replaced. Re-coat the head: turning tears the film.",
    ],
};

fn joint(f: &Filled) -> Joint {
    let at = JOINTS.iter().position(|j| j.0 == f.choice("joint")).unwrap_or(0);
    Joint::ALL[at]
}

fn dry_surface(id: &str) -> Surface {
    match id {
        "received" => Surface::AsReceived,
        "zinc" => Surface::ZincDry,
        "galvanised" => Surface::Galvanised,
        _ => Surface::FilmWetted,
    }
}

/// Small torques in inch pounds, as a small wrench has them.
fn say(f: &Filled, torque: Torque) -> String {
    match f.units {
        UnitSet::Us if POUND_FORCE_FOOT.get(torque) < 15.0 => POUND_FORCE_INCH.print(torque),
        _ => f.say(Measure::Torque, torque),
    }
}

/// Two torques, the unit said once where it is the same.
fn between(f: &Filled, from: Torque, to: Torque) -> String {
    let (from, to) = (say(f, from), say(f, to));
    match (from.split_once(' '), to.split_once(' ')) {
        (Some((figure, unit)), Some((_, same))) if unit == same => format!("{figure} to {to}"),
        _ => format!("{from} to {to}"),
    }
}

fn answer(f: &Filled) -> Result<Outcome, Stop> {
    let joint = joint(f);
    if let Some(refusal) = joint.refusal() {
        return Err(NotPossible::Refused(refusal).into());
    }
    if f.choice("how") == "manual" { manual(f, joint) } else { size(f, joint) }
}

fn size(f: &Filled, joint: Joint) -> Result<Outcome, Stop> {
    let size = thread::size(f.choice("thread")).ok_or(Stop::Missing("thread"))?;
    let strength = Strength::from_mark(f.choice("strength")).ok_or(Stop::Missing("strength"))?;
    let surface = dry_surface(f.choice("surface"));
    let share = f.number("preload")?;
    let here = thread::tighten(joint, size, strength, share, surface)?;
    let [least, _, most] = surface.k();
    let band = |k: f64| thread::torque(k, here.preload, size.diameter());
    let (low, high) = (band(least)?, band(most)?);
    let clamp = |force| f.say(Measure::Clamp, force);
    let mut rows = Vec::new();
    for (name, s) in
        [("wet with film", Surface::FilmWetted), ("as bought", Surface::AsReceived), ("zinc, dry", Surface::ZincDry)]
    {
        let [least, likely, most] = s.k();
        let (from, at, to) = (band(least)?, band(likely)?, band(most)?);
        rows.push(Bar {
            words: format!("{name}: {}", between(f, from, to)),
            from: from.si(),
            to: to.si(),
            likely: Some(at.si()),
            look: if s == surface { "wait" } else { "metal" },
        });
    }
    Ok(Outcome::of([say(f, here.torque), format!("clamps {}", clamp(here.preload))])
        .doubt(format!(
            "K is {least} to {most} here: {} to {} would clamp the same. At this torque the clamp is {} to {}.",
            say(f, low),
            say(f, high),
            clamp(here.clamp_least),
            clamp(here.clamp_most)
        ))
        .small(format!("Proof load {}, {} of it aimed at. K {}.", clamp(here.proof_load), percent(share), here.k))
        .picture(bars(&rows)))
}

fn manual(f: &Filled, joint: Joint) -> Result<Outcome, Stop> {
    let torque = f.get::<Torque>("says")?;
    let says = match f.choice("for") {
        "dry" => ManualSays::Dry,
        "wet" => ManualSays::Wetted,
        _ => ManualSays::Nothing,
    };
    let bar = |words: String, from: Torque, to: Torque, likely: Option<f64>, look| Bar {
        words,
        from: from.si(),
        to: to.si(),
        likely,
        look,
    };
    let none = NEWTON_METRE.of(0.0);
    Ok(match thread::manual(joint, torque, says, dry_surface(f.choice("dry")))? {
        Manual::LeftAlone { torque } => Outcome::of([say(f, torque), "as the manual has it".into()])
            .small("It is turned down only when the manual says that it is for dry threads.")
            .picture(bars(&[bar(format!("the manual: {}", say(f, torque)), none, torque, None, "metal")])),
        Manual::Converted { torque: down, least, most } => Outcome::of([say(f, down), "on film".into()])
            .doubt(format!("{}, as threads and film differ.", between(f, least, most)))
            .small(format!("Turned down from {} dry. In doubt the manual's own.", say(f, torque)))
            .picture(bars(&[
                bar(format!("the manual, dry: {}", say(f, torque)), none, torque, None, "metal"),
                bar(format!("on film: {}", between(f, least, most)), least, most, Some(down.si()), "wait"),
            ])),
    })
}
