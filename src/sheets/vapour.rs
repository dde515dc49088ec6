//! Vapour: the air a litre takes, how a shed fills and clears.

use super::draw::{Bar, Curve, Level, Line, bars};
use super::words::{bare, percent, time};
use super::{Ask, Filled, Outcome, Sheet, Stop};
use crate::sums::air;
use crate::sums::range::Field;
use crate::sums::vapour::{self, Blended, MIXING_FACTOR, Room, Share, Solvent, Spraying};
use crate::units::{
    CELSIUS, CUBIC_METRE, GRAM_PER_MOLE, HOUR, KILOGRAM_PER_CUBIC_METRE, LITRE, MINUTE, Measure, Quantity, Time,
    UnitSet, Volume, VolumeRate,
};

const LIQUID: &[&str] = &["shed", "litre"];
const AIRED: &[&str] = &["shed", "purge", "rate"];

fn liquids(_: UnitSet) -> Vec<(&'static str, &'static str)> {
    let mut all = names("white spirit (as n-nonane)");
    all.push(("own", "My own, from its SDS"));
    all
}

fn propellants(_: UnitSet) -> Vec<(&'static str, &'static str)> {
    let mut all = vec![("none", "None")];
    all.extend(names("").into_iter().filter(|n| n.0.contains("propellant")));
    all.extend(names("").into_iter().filter(|n| !n.0.contains("propellant")));
    all
}

/// The names of the list, one of them first.
fn names(first: &str) -> Vec<(&'static str, &'static str)> {
    let mut all: Vec<_> = vapour::solvents()
        .into_iter()
        .filter_map(|s| match s.name {
            std::borrow::Cow::Borrowed(name) => Some((name, name)),
            std::borrow::Cow::Owned(_) => None,
        })
        .collect();
    all.sort_by_key(|n| n.0 != first);
    all
}

pub static SHEET: Sheet = Sheet {
    slug: "vapour",
    name: "Vapour",
    what: "Air a litre takes, how a shed fills and clears",
    asks: &[
        Ask::choice("how", "What do you want to know?", |_| {
            vec![
                ("shed", "How the shed fills"),
                ("litre", "Air for a volume"),
                ("purge", "Time to purge"),
                ("rate", "From a known rate"),
            ]
        }),
        Ask::choice("solvent", "Solvent", liquids)
            .kept()
            .hint("The SDS, section 3 and 9, says which. White spirit is a guess.")
            .only_if(&[("how", LIQUID)]),
        Ask::amount("molar", "Molar mass", Measure::MolarMass, Field::MolarMass)
            .kept()
            .start("128", "128")
            .only_if(&[("how", LIQUID), ("solvent", &["own"])]),
        Ask::amount("density", "Density", Measure::Density, Field::LiquidDensity)
            .kept()
            .start("0.72", "6")
            .only_if(&[("how", LIQUID), ("solvent", &["own"])]),
        Ask::amount("own-lel", "Lower explosive limit (LEL)", Measure::Percent, Field::Lel)
            .kept()
            .start("0.7", "0.7")
            .only_if(&[("how", LIQUID), ("solvent", &["own"])]),
        Ask::amount("part", "Solvent in the liquid", Measure::Percent, Field::BlendPart)
            .kept()
            .start("60", "60")
            .hint("By volume. The rest counts as solids that stay as film.")
            .only_if(&[("how", LIQUID)]),
        Ask::choice("second", "A second solvent, or propellant", propellants).kept().only_if(&[("how", LIQUID)]),
        Ask::amount("second-part", "Its share", Measure::Percent, Field::BlendPart)
            .kept()
            .start("0", "0")
            .hint("By volume. An aerosol is about a third propellant, from memory.")
            .only_if(&[("how", LIQUID)]),
        Ask::amount("sds-lel", "LEL of the whole, if the SDS says", Measure::Percent, Field::Lel)
            .kept()
            .optional()
            .hint("Goes before the list's")
            .only_if(&[("how", LIQUID)]),
        Ask::amount("liquid", "Liquid sprayed", Measure::Volume, Field::SprayVolume)
            .start("4", "1")
            .only_if(&[("how", LIQUID)]),
        Ask::amount("over", "Over", Measure::Hours, Field::SprayTime)
            .start("1.5", "1.5")
            .only_if(&[("how", &["shed"])]),
        Ask::amount("generation", "Vapour set free", Measure::Airflow, Field::Generation)
            .start("0.9", "0.5")
            .only_if(&[("how", &["rate"])]),
        Ask::amount("after", "After", Measure::Minutes, Field::Duration)
            .start("10", "10")
            .only_if(&[("how", &["rate"])]),
        Ask::amount("room", "Air in the shed", Measure::Room, Field::ShedVolume)
            .kept()
            .start("600", "21000")
            .only_if(&[("how", &["shed", "rate"])]),
        Ask::amount("flow", "Fresh air", Measure::Airflow, Field::Airflow)
            .kept()
            .start("1800", "1000")
            .hint("What the fan moves, or a guess for open doors. Only a fan rated for vapour.")
            .only_if(&[("how", &["shed", "rate"])]),
        Ask::number("changes", "Air changes in an hour", Field::AirChanges)
            .start("6", "6")
            .only_if(&[("how", &["purge"])]),
        Ask::amount("removal", "Share to be gone", Measure::Percent, Field::Removal)
            .start("90", "90")
            .only_if(&[("how", &["purge"])]),
        Ask::number("mixing", "Mixing factor", Field::MixingFactor)
            .start("3", "3")
            .hint("3 is a default from memory (2 to 10; 1 is perfect, and never so)")
            .only_if(&[("how", AIRED)]),
    ],
    answer,
    formula: "Vapour of a litre = density ÷ molar mass × 24 L/mol. Air for 25 % of LEL by the rule: 4 × (100 − LEL) × vapour ÷ LEL; \
              exactly: (400 ÷ LEL − 1) × vapour. Room: C = G ÷ Q' × (1 − e^(−Q't/V)) + C₀·e^(−Q't/V), Q' = flow ÷ mixing \
              factor. LEL of a blend by Le Chatelier.",
    source: "29 CFR 1910.94(c)(6)(ii), from memory. LEL: the lowest of IEC 60079-20-1, NFPA 497 and BS 5345, many from memory. Limits \
             differ: 25 % (29 CFR 1910.94), 20 % (California Title 8, 5153), 10 % (29 CFR 1910.146 and the usual alarm).",
    cautions: &[
        "An average. At the gun, low down, in pits and drains it is over the LEL anyway, and mist burns well below the flash point.",
        "No flame, spark or phone until the purge ends. Doors open both sides, earth the machine, extinguisher at hand.",
        "Fire is not the health limit: respirator as the SDS says. SDS, local fire code and local rules come first.",
    ],
};

/// The liquid as a blend.
fn blend(f: &Filled) -> Result<Blended, Stop> {
    let first = match f.choice("solvent") {
        "own" => Solvent {
            name: "own".into(),
            cas: "".into(),
            molar_mass: f.get("molar")?,
            density: f.get("density")?,
            lel_percent: f.number("own-lel")?,
            source: "SDS".into(),
        },
        name => vapour::solvent(name).ok_or(Stop::Missing("solvent"))?,
    };
    debug_assert!(GRAM_PER_MOLE.get(first.molar_mass) > 0.0 && KILOGRAM_PER_CUBIC_METRE.get(first.density) > 0.0);
    let part = f.number("part")?;
    let mut shares = vec![Share { solvent: first, parts: part }];
    let mut all = part;
    if let Some(second) = vapour::solvent(f.choice("second")) {
        let parts = f.number("second-part")?;
        all += parts;
        shares.push(Share { solvent: second, parts });
    }
    if all > 100.0 + 1e-9 {
        return Err(crate::sums::NotPossible::Clash("the shares are more than the whole: 100 % at most").into());
    }
    let mut blend = vapour::blend(&shares, (100.0 - all).max(0.0), CELSIUS.of(20.0), air::standard_pressure())?;
    if let Some(lel) = f.opt_number("sds-lel")? {
        blend.lel_percent = lel;
    }
    Ok(blend)
}

fn answer(f: &Filled) -> Result<Outcome, Stop> {
    match f.choice("how") {
        "litre" => litre(f),
        "purge" => purge(f),
        "rate" => rate(f),
        _ => shed(f),
    }
}

fn room(f: &Filled) -> Result<Room, Stop> {
    Ok(Room { volume: f.get("room")?, flow: f.get("flow")?, mixing_factor: f.number("mixing")? })
}

fn of_liquid(f: &Filled, blend: &Blended) -> String {
    format!(
        "A litre makes {} L of vapour. LEL {} by volume of air.",
        bare(blend.vapour_per_liquid.round()),
        percent_2(blend.lel_percent)
    )
    .replace("A litre", if f.units == UnitSet::Us { "Each litre (1.06 US qt)" } else { "A litre" })
}

fn percent_2(value: f64) -> String {
    format!("{} %", bare(value))
}

fn shed(f: &Filled) -> Result<Outcome, Stop> {
    let blend = blend(f)?;
    let spraying = Spraying { room: room(f)?, liquid: f.get("liquid")?, over: f.get("over")?, blend };
    let course = vapour::course(&spraying)?;
    let peak = course.peak_percent_of_lel;
    let mut out = Outcome::of([
        format!("Peaks at {} of LEL", percent(peak)),
        "on average; at the gun it is over it".to_owned(),
    ]);
    out = match (course.passes_10, course.passes_25) {
        (_, Some(at)) => {
            out.warn(format!("The average passes 25 % of LEL after {}. More air, less at a time.", time(at)))
        }
        (Some(at), None) => out.warn(format!("The average passes 10 % of LEL after {}, the usual alarm.", time(at))),
        (None, None) => out,
    };
    out = out.small(match course.down_to_10 {
        Some(t) if t.si() > 0.0 => format!("The average is down to 10 % of LEL {} after the last stroke.", time(t)),
        Some(_) => "The average never gets over 10 % of LEL.".into(),
        None => "It does not clear: nothing moves the air.".into(),
    });
    let with = |mixing_factor: f64| {
        let room = Room { mixing_factor, ..spraying.room };
        vapour::course(&Spraying { room, ..spraying }).map(|c| c.peak_percent_of_lel)
    };
    if let (Ok(low), Ok(high)) = (with(MIXING_FACTOR[0]), with(MIXING_FACTOR[2])) {
        out = out.doubt(format!("Peak {} to {}, with a mixing factor of 2 to 10.", percent(low), percent(high)));
    }
    let last = course.points.last().map_or(HOUR.of(0.0), |p| p.0);
    let picture = Curve {
        lines: vec![Line { points: course.points.iter().map(|p| (MINUTE.get(p.0), p.1)).collect(), words: "" }],
        face: "stop",
        levels: vec![
            Level { at: 25.0, words: "25 % of LEL".into() },
            Level { at: 10.0, words: "10 %, alarm".into() },
        ],
        moment: Some((MINUTE.get(spraying.over), "last stroke".into())),
        ends: ("first stroke".into(), time(last)),
        at_least: (0.0, 28.0),
        words: "Vapour in the shed over time, as a share of LEL".into(),
    };
    Ok(out.small(of_liquid(f, &blend)).picture(picture.draw()))
}

fn litre(f: &Filled) -> Result<Outcome, Stop> {
    let blend = blend(f)?;
    let liquid = f.get::<Volume>("liquid")?;
    let at = |share: f64| vapour::sprayed(liquid, blend, share);
    let (quarter, tenth) = (at(25.0)?, at(10.0)?);
    let rule = vapour::air_per_liquid(blend.vapour_per_liquid, blend.lel_percent, 25.0)?;
    let say = |v: Volume| f.say(Measure::Room, v);
    let bar = |words: String, v: Volume| Bar { words, from: 0.0, to: v.si(), likely: None, look: "wet" };
    let one = vapour::sprayed(
        if f.units == UnitSet::Us { crate::units::US_GALLON.of(1.0) } else { LITRE.of(1.0) },
        blend,
        25.0,
    )?;
    let each = if f.units == UnitSet::Us { "US gallon" } else { "litre" };
    debug_assert!(CUBIC_METRE.get(quarter.vapour) >= 0.0);
    Ok(Outcome::of([format!("{} of fresh air", say(quarter.air_by_rule)), "for 25 % of LEL, on average".into()])
        .small(format!("{} for 10 %. {} for each {each}, at 25 %.", say(tenth.air_by_rule), say(one.air_by_rule)))
        .small(format!(
            "It makes {} of vapour. The rule leaves {} of LEL; exactly 25 % takes {}.",
            say(quarter.vapour),
            percent_2(rule.rule_leaves_percent_of_lel),
            say(quarter.air_exactly)
        ))
        .small(of_liquid(f, &blend))
        .warn("While it is sprayed, not before or after it.")
        .picture(bars(&[
            bar(format!("25 % of LEL: {}", say(quarter.air_by_rule)), quarter.air_by_rule),
            bar(format!("10 % of LEL: {}", say(tenth.air_by_rule)), tenth.air_by_rule),
        ])))
}

fn purge(f: &Filled) -> Result<Outcome, Stop> {
    let (changes, mixing, share) = (f.number("changes")?, f.number("mixing")?, f.number("removal")?);
    let takes = vapour::removal(changes, mixing, share)?;
    let best = vapour::removal(changes, 1.0, share)?;
    let half = |p: f64| Ok::<_, Stop>((MINUTE.get(vapour::removal(changes, mixing, p)?), 100.0 - p));
    let mut points = Vec::new();
    for p in
        [0.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 85.0, 90.0, 93.0, 95.0, 97.0, 98.0, 99.0, 99.5, 99.9]
    {
        if p < share {
            points.push(half(p)?);
        }
    }
    points.push((MINUTE.get(takes), 100.0 - share));
    Ok(Outcome::of([time(takes)])
        .doubt(format!("{} at the very best, with perfect mixing.", time(best)))
        .small(format!(
            "Until {} is gone, with nothing more let free. Film goes on breathing for days.",
            percent(share)
        ))
        .picture(
            Curve {
                lines: vec![Line { points, words: "" }],
                face: "stop",
                levels: vec![Level { at: 100.0 - share, words: format!("{} left", percent_2(100.0 - share)) }],
                moment: None,
                ends: ("last stroke".into(), time(takes)),
                at_least: (0.0, 100.0),
                words: "What is left in the air over time".into(),
            }
            .draw(),
        ))
}

fn rate(f: &Filled) -> Result<Outcome, Stop> {
    const POINTS: usize = 30;
    let room = room(f)?;
    let (generation, after) = (f.get::<VolumeRate>("generation")?, f.get::<Time>("after")?);
    let at = |t: Time| vapour::concentration(&room, generation, 0.0, t);
    let now = at(after)?;
    let mut points = Vec::with_capacity(POINTS + 1);
    for i in 0..=POINTS {
        let t = MINUTE.of(MINUTE.get(after) * i as f64 / POINTS as f64);
        points.push((MINUTE.get(t), at(t)?));
    }
    let ends = vapour::levels_off_at(&room, generation);
    let mut out = Outcome::of([format!("{:.0} ppm", now * 10_000.0), format!("{now:.4} % by volume")]);
    let mut levels = Vec::new();
    if let Ok(end) = ends {
        out = out.small(format!("It levels off at {end:.4} %."));
        levels.push(Level { at: end, words: format!("levels off at {end:.4} %") });
    }
    Ok(out.warn("Hold it against the LEL and the health limit of the SDS.").picture(
        Curve {
            lines: vec![Line { points, words: "" }],
            face: "stop",
            levels,
            moment: None,
            ends: ("start".into(), time(after)),
            at_least: (0.0, 0.0),
            words: "Vapour in the shed over time".into(),
        }
        .draw(),
    ))
}
