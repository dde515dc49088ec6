//! Two metals: which one is eaten where they touch, and how badly.

use super::draw::{Bar, bars};
use super::words::small_first;
use super::{Ask, Filled, Outcome, Sheet, Stop};
use crate::sums::galvanic::{self, METALS, Metal, Place};

/// The metals, the one met most often first.
fn metals(usual: &str) -> Vec<(&'static str, &'static str)> {
    let mut all: Vec<_> = METALS.iter().map(|m| (m.slug, m.name)).collect();
    all.sort_by_key(|m| m.0 != usual);
    all
}

pub static SHEET: Sheet = Sheet {
    slug: "two-metals",
    name: "Two metals",
    what: "Which one is eaten where they touch",
    asks: &[
        Ask::choice("a", "One is", |_| metals("steel")),
        Ask::choice("b", "The other is", |_| metals("stainless")),
        Ask::choice("small", "Which is much the smaller?", |_| {
            vec![("none", "About the same"), ("a", "The first"), ("b", "The other")]
        }),
    ],
    answer,
    formula: "Difference of the two in the anodic index, volts against gold. Up to 0.15 V goes together outdoors, 0.25 V under a \
              roof, 0.50 V in a dry room.",
    source: "Anodic index as in MIL-STD-889 and the common handbooks: table and limits from memory. It ranks pairs; it foretells no \
             rate.",
    cautions: &[
        "Coat both, the nobler one too. Film on the lesser metal alone eats through where it has a hole.",
        "A small part of the lesser metal on a large nobler one is the bad case.",
        "No film on threads and seats of wheels, brakes, steering, roll-over frame: the machine's manual only.",
    ],
};

fn chosen(f: &Filled, id: &'static str) -> Result<Metal, Stop> {
    galvanic::by_slug(f.choice(id)).ok_or(Stop::Missing(id))
}

fn answer(f: &Filled) -> Result<Outcome, Stop> {
    let (a, b) = (chosen(f, "a")?, chosen(f, "b")?);
    let pair = galvanic::difference(a, b);
    let eaten = match pair.lesser {
        Some(metal) => format!("{} is eaten", metal.name),
        None => "Neither is eaten".to_owned(),
    };
    let small = match f.choice("small") {
        "a" => Some(a),
        "b" => Some(b),
        _ => None,
    };
    let bar = |m: Metal| Bar {
        words: format!("{}: {:.2} V", m.name, m.volts()),
        from: 0.0,
        to: m.volts(),
        likely: None,
        look: if pair.lesser == Some(m) { "wait" } else { "metal" },
    };
    let mut out = Outcome::of([format!("{:.2} V apart", pair.volts), eaten])
        .small(format!("{}.", pair.place.words()))
        .doubt("Salt water, heat and rough surfaces move the index by a tenth of a volt or so (from memory).")
        .picture(bars(&[bar(a), bar(b)]));
    if let (Some(lesser), true) =
        (pair.lesser, small.is_some() && small == pair.lesser && pair.place > Place::Outdoors)
    {
        out = out.warn(format!(
            "The small part is the lesser metal: {} goes fast here. Coat the large one first of all.",
            small_first(lesser.name)
        ));
    }
    Ok(out)
}
