//! Water and concentrate: how much of each, what is in this bucket, how to put it right.

use super::draw::{Layer, Shape, vessel};
use super::words::{bare, count, jug, percent, pours};
use super::{Ask, Drawing, Filled, Outcome, Sheet, Stop};
use crate::sums::dilution::{self, Add, Correction, DEGREASER_L_PER_M2, Mix, MixRatio, NEUTRALISER_L_PER_M2, Per};
use crate::sums::range::Field;
use crate::units::{Area, LITRE_PER_SQUARE_METRE, Length, Measure, Quantity, Ratio, UnitSet, Volume};

const MAKES: &[&str] = &["fill", "hand", "area"];
const RATIO: &[&str] = &["fill", "hand", "area", "fix"];

pub static SHEET: Sheet = Sheet {
    slug: "mix",
    name: "Mix",
    what: "Water and concentrate, and what is in a bucket",
    asks: &[
        Ask::choice("how", "What do you want to know?", |_| {
            vec![
                ("fill", "Fill a bucket"),
                ("hand", "Use up what I have"),
                ("area", "For an area"),
                ("check", "What is in it?"),
                ("fix", "Put it right"),
            ]
        }),
        Ask::choice("as", "The label gives", |units| {
            let (water, mix) = match units {
                UnitSet::Us => ("Ounces to a gallon of water", "Ounces to a gallon of mix"),
                _ => ("mL to a litre of water", "mL to a litre of mix"),
            };
            vec![("parts", "Parts"), ("percent", "Percent"), ("per-water", water), ("per-mix", mix)]
        })
        .hint(
            "3 water to 1 concentrate is usual for degreaser: a default, common practice. The product's sheet wins.",
        )
        .only_if(&[("how", RATIO)]),
        Ask::number("water", "Parts of water", Field::WaterParts)
            .start("3", "3")
            .half()
            .only_if(&[("how", RATIO), ("as", &["parts"])]),
        Ask::number("concentrate", "of concentrate", Field::ConcentrateParts)
            .start("1", "1")
            .half()
            .only_if(&[("how", RATIO), ("as", &["parts"])]),
        Ask::amount("percent", "Concentrate in the mix", Measure::Percent, Field::MixPercent)
            .start("25", "25")
            .hint("By volume, of the finished mix")
            .only_if(&[("how", RATIO), ("as", &["percent"])]),
        Ask::amount("per-water", "To each of water", Measure::Strength, Field::StrengthPerWater)
            .start("50", "6.4")
            .only_if(&[("how", RATIO), ("as", &["per-water"])]),
        Ask::amount("per-mix", "To each of finished mix", Measure::Strength, Field::StrengthPerMix)
            .start("50", "6.4")
            .only_if(&[("how", RATIO), ("as", &["per-mix"])]),
        Ask::amount("fill", "Fill the bucket to", Measure::Volume, Field::FillVolume)
            .start("10", "2.5")
            .hint("Or with its own unit: 2 us gal, 9 l")
            .only_if(&[("how", &["fill"])]),
        Ask::amount("hand", "Concentrate at hand", Measure::Volume, Field::ConcentrateVolume)
            .start("2", "0.5")
            .only_if(&[("how", &["hand"])]),
        Ask::amount("area", "Area", Measure::Area, Field::Area).start("40", "430").only_if(&[("how", &["area"])]),
        Ask::choice("liquid", "For", |_| {
            vec![("degreaser", "Degreaser"), ("neutraliser", "Neutraliser"), ("own", "My own figure")]
        })
        .only_if(&[("how", &["area"])]),
        Ask::amount("per-area", "Mix on an area", Measure::PerArea, Field::VolumePerArea)
            .start("0.25", "0.6")
            .only_if(&[("how", &["area"]), ("liquid", &["own"])]),
        Ask::amount("bucket", "The bucket takes", Measure::Volume, Field::BucketSize)
            .start("", "")
            .hint("Gives the number of buckets")
            .optional()
            .only_if(&[("how", &["hand", "area"])]),
        Ask::amount("supply", "Concentrate in the can", Measure::Volume, Field::ConcentrateVolume)
            .hint("Shows what is left, or short")
            .optional()
            .only_if(&[("how", &["fill", "area"])]),
        Ask::amount("in-water", "Water that went in", Measure::Volume, Field::WaterVolume)
            .start("9", "2")
            .only_if(&[("how", &["check"])]),
        Ask::amount("in-concentrate", "Concentrate that went in", Measure::Volume, Field::ConcentrateVolume)
            .start("0.5", "0.1")
            .only_if(&[("how", &["check"])]),
        Ask::amount("contents", "In the bucket now", Measure::Volume, Field::FillVolume)
            .start("10", "2.5")
            .only_if(&[("how", &["fix"])]),
        Ask::amount("now", "Its strength now", Measure::Percent, Field::BucketPercent)
            .start("20", "20")
            .hint("\"What is in it?\" gives it")
            .only_if(&[("how", &["fix"])]),
        Ask::amount("size", "The bucket takes", Measure::Volume, Field::BucketSize)
            .optional()
            .hint("Then it says whether to draw some off first")
            .only_if(&[("how", &["fix"])]),
    ],
    answer,
    formula: "Concentrate = total × b ÷ (a + b) for a parts water to b parts concentrate. A weak bucket takes \
              contents × (wanted − now) ÷ (concentrate − wanted). Ounces to a gallon are counted two ways in print: to a \
              gallon of water, or to a gallon of finished mix.",
    source: "Volume balance, volumes taken as adding up. Mix on an area: from memory.",
    cautions: &[
        "Water first, then concentrate. Gloves, goggles, eye-wash at hand.",
        "Never mix an acid rinse with anything that holds chlorine.",
        "The ratio here is a default. Your product's sheet and SDS win.",
    ],
};

fn ratio(f: &Filled) -> Result<MixRatio, Stop> {
    Ok(match f.choice("as") {
        "percent" => MixRatio::from_percent(f.number("percent")?)?,
        "per-water" => MixRatio::from_strength(f.get::<Ratio>("per-water")?, Per::Water)?,
        "per-mix" => MixRatio::from_strength(f.get::<Ratio>("per-mix")?, Per::Mix)?,
        _ => MixRatio::parts(f.number("water")?, f.number("concentrate")?)?,
    })
}

fn answer(f: &Filled) -> Result<Outcome, Stop> {
    match f.choice("how") {
        "check" => check(f),
        "fix" => fix(f),
        _ => make(f),
    }
}

fn make(f: &Filled) -> Result<Outcome, Stop> {
    debug_assert!(MAKES.contains(&f.choice("how")));
    let ratio = ratio(f)?;
    let (mix, doubt) = match f.choice("how") {
        "hand" => (dilution::from_concentrate(ratio, f.get("hand")?)?, None),
        "area" => for_area(f, ratio)?,
        _ => (dilution::to_fill(ratio, f.get("fill")?)?, None),
    };
    let [water, concentrate] = two(f, mix.water, mix.concentrate);
    let mut out =
        Outcome::of([format!("{water} water"), format!("{concentrate} concentrate")]).picture(pail(f, &mix)).small(
            format!("{}, {} by volume, {} in all.", ratio.words(), percent(mix.concentrate_percent), total(f, &mix)),
        );
    out.doubt = doubt;
    if f.units != UnitSet::Metric {
        out = out.small(format!("The concentrate is {}.", jug(f, mix.concentrate)));
    }
    out = out.small(strengths(f, &mix));
    if f.choice("how") != "fill"
        && let Some(size) = f.opt::<Volume>("bucket")?
    {
        let buckets = mix.in_buckets(size)?;
        let each = two(f, buckets.each.water, buckets.each.concentrate);
        out = out.small(match (buckets.full, buckets.last) {
            (0, _) => "One bucket holds it.".into(),
            (full, None) => {
                format!("{}, each {} water and {} concentrate.", count(full, "full bucket"), each[0], each[1])
            }
            (full, Some(last)) => {
                let rest = two(f, last.water, last.concentrate);
                format!(
                    "{}, each {} water and {} concentrate; the last one {} water and {} concentrate.",
                    count(full, "full bucket"),
                    each[0],
                    each[1],
                    rest[0],
                    rest[1]
                )
            }
        });
        if buckets.last.is_some() && buckets.full > 0 {
            let left = f.say(Measure::Volume, buckets.left_over_if_all_full);
            out = out.small(format!("If you fill the last one too, {left} of mix is left over."));
        }
    }
    if f.choice("how") != "hand"
        && let Some(can) = f.opt::<Volume>("supply")?
    {
        let supply = mix.supply(can)?;
        out = match supply.missing.si() > 0.0 {
            true => out.warn(format!("The can is {} short.", f.say(Measure::Volume, supply.missing))),
            false => out.small(format!("{} stays in the can.", f.say(Measure::Volume, supply.left))),
        };
    }
    Ok(out)
}

/// The likely mix for an area, and the words for its spread.
fn for_area(f: &Filled, ratio: MixRatio) -> Result<(Mix, Option<String>), Stop> {
    let area = f.get::<Area>("area")?;
    let spread = match f.choice("liquid") {
        "own" => return Ok((dilution::for_area(ratio, area, f.get::<Length>("per-area")?)?, None)),
        "neutraliser" => NEUTRALISER_L_PER_M2,
        _ => DEGREASER_L_PER_M2,
    };
    let at = |i: usize| dilution::for_area(ratio, area, LITRE_PER_SQUARE_METRE.of(spread[i]));
    let (low, likely, high) = (at(0)?, at(1)?, at(2)?);
    let per = |i: usize| f.say(Measure::PerArea, LITRE_PER_SQUARE_METRE.of(spread[i]));
    let words = format!(
        "{} of mix, {} at most: {} ({} to {}) is usual, from memory.",
        f.say(Measure::Volume, low.total),
        f.say(Measure::Volume, high.total),
        per(1),
        per(0),
        per(2)
    );
    Ok((likely, Some(format!("At least {words}"))))
}

fn check(f: &Filled) -> Result<Outcome, Stop> {
    let ratio = MixRatio::in_bucket(f.get("in-water")?, f.get("in-concentrate")?)?;
    let mix = dilution::from_concentrate(ratio, f.get("in-concentrate")?)?;
    Ok(Outcome::of([
        format!("{} water to 1 concentrate", bare(ratio.water_per_concentrate())),
        percent(ratio.percent()),
    ])
    .small(strengths(f, &mix))
    .picture(pail(f, &mix)))
}

fn fix(f: &Filled) -> Result<Outcome, Stop> {
    let target = ratio(f)?;
    let contents = f.get::<Volume>("contents")?;
    let size = f.opt::<Volume>("size")?;
    let fix = dilution::correct(contents, f.number("now")?, target.percent(), 100.0, size)?;
    let what = match fix.add {
        Add::Nothing => return Ok(Outcome::of(["It is right as it is.".into()])),
        Add::Concentrate => "concentrate",
        Add::Water => "water",
    };
    let big = match fix.no_room {
        None => vec![format!("Add {} {what}", f.say(Measure::Volume, fix.amount))],
        Some(room) => vec![
            format!("Draw off {} first", f.say(Measure::Volume, room.first)),
            format!("then add {} {what}", f.say(Measure::Volume, room.then_add)),
        ],
    };
    let mut out = Outcome::of(big)
        .small(format!("Wanted: {}, {}.", target.words(), percent(target.percent())))
        .picture(before_and_after(f, contents, &fix, what));
    out = match fix.no_room {
        None => out.small(format!(
            "Then it holds {}. Or, at the same level: draw off {} and put back as much {what}.",
            f.say(Measure::Volume, fix.total),
            f.say(Measure::Volume, fix.same_level)
        )),
        Some(_) => {
            out.small("There is no room to add all of it. What you draw off is mix too: keep it for the next bucket.")
        }
    };
    Ok(out)
}

fn two(f: &Filled, water: Volume, concentrate: Volume) -> [String; 2] {
    let [a, b]: [String; 2] = pours(f, &[water, concentrate]).try_into().expect("two in, two out");
    [a, b]
}

fn total(f: &Filled, mix: &Mix) -> String {
    pours(f, &[mix.total]).swap_remove(0)
}

/// Both ways of counting, each named.
fn strengths(f: &Filled, mix: &Mix) -> String {
    let (each, of_mix, of_water) = match f.units {
        UnitSet::Us => ("US fl oz to a US gallon", mix.oz_per_gallon_of_mix, mix.oz_per_gallon_of_water),
        _ => ("mL to a litre", mix.ml_per_litre_of_mix, mix.ml_per_litre_of_water),
    };
    let tenth = |v: f64| bare((v * 10.0).round() / 10.0);
    match of_water {
        Some(water) => format!("{} {each} of water, or {} {each} of finished mix.", tenth(water), tenth(of_mix)),
        None => format!("{} {each} of finished mix: no water.", tenth(of_mix)),
    }
}

fn pail(f: &Filled, mix: &Mix) -> Drawing {
    let [water, concentrate] = two(f, mix.water, mix.concentrate);
    let full = Shape::BUCKET.height * 0.86;
    vessel(
        Shape::BUCKET,
        &[
            Layer {
                to: full * (1.0 - mix.concentrate_percent / 100.0),
                look: "wet",
                words: vec![water, "water first".into()],
            },
            Layer { to: full, look: "wait", words: vec![concentrate, "concentrate".into()] },
        ],
        false,
    )
}

fn before_and_after(f: &Filled, contents: Volume, fix: &Correction, what: &str) -> Drawing {
    let look = if fix.add == Add::Water { "wet" } else { "wait" };
    let (kept, added) = match fix.no_room {
        None => (contents, fix.amount),
        Some(room) => (contents - room.first, room.then_add),
    };
    let high = Shape::BUCKET.height * 0.86;
    let share = kept.si() / (kept.si() + added.si());
    vessel(
        Shape::BUCKET,
        &[
            Layer {
                to: high * share,
                look: "metal",
                words: vec![f.say(Measure::Volume, kept), "what is in it".into()],
            },
            Layer { to: high, look, words: vec![f.say(Measure::Volume, added), format!("{what} added")] },
        ],
        false,
    )
}
