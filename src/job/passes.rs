//! What a pass goes over, ranked by what rusts first, and the gun's card.
//!
//! The ranking is common practice, no source; the gun's figures are from memory, and its own sheet and the film's win.
//!
//! May use: the job. Must not: judge, know a screen.

use super::entry::{AreaId, Finding};
use super::fold::Job;
use super::guide::Basis;
use super::stage::Stage;

/// Where the ranking comes from.
pub const BASIS: Basis = Basis::CommonPractice;

/// Why a place comes where it does.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Rank {
    MixedMetals,
    RawEdges,
    Mended,
    Fasteners,
    Fittings,
    Welds,
    Seams,
    BehindWashers,
    Connectors,
}

impl Rank {
    /// Why it comes there, in words.
    pub fn why(self) -> &'static str {
        match self {
            Rank::MixedMetals => "two metals and water make a battery: the lesser one goes first",
            Rank::RawEdges => "paint draws back from an edge",
            Rank::Mended => "it has rusted before",
            Rank::Fasteners => "heads are chipped by spanners and threads hold water",
            Rank::Fittings => "plating is thin at the hexagons",
            Rank::Welds => "scale and pores under the paint",
            Rank::Seams => "water creeps in and stays",
            Rank::BehindWashers => "a gap that never dries",
            Rank::Connectors => "pins go green; the film keeps water out of mated halves",
        }
    }
}

/// A line of the list.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Line {
    pub rank: Rank,
    /// What to spray, in words.
    pub words: String,
}

/// On every area.
const EVERYWHERE: &[(Rank, &str)] = &[
    (Rank::RawEdges, "Cut and drilled edges, chipped corners"),
    (Rank::Fasteners, "Groups of bolts, nuts, clips: heads, threads, under the heads"),
    (Rank::Fittings, "Hydraulic fittings and clamps"),
    (Rank::Welds, "Welds, both ends of each"),
    (Rank::Seams, "Seams, overlaps, folds"),
    (Rank::BehindWashers, "Behind washers and brackets"),
    (Rank::Connectors, "Plug connections, mated and dead; open plugs stay covered"),
];

/// What the first pass goes over on an area, what rusts first on top: findings of the survey and parts that are off
/// stand before what every area has.
pub fn first(job: &Job, area: AreaId) -> Vec<Line> {
    let found = job.found.iter().filter(|f| f.area == area).filter_map(|f| match f.sort {
        Finding::MixedMetals => {
            Some(Line { rank: Rank::MixedMetals, words: format!("{}: both of them, the nobler one too", f.words()) })
        }
        Finding::RustSpots | Finding::LooseRust | Finding::FlakingPaint | Finding::Damage => {
            Some(Line { rank: Rank::Mended, words: format!("Mended: {}", f.words()) })
        }
        Finding::ShippingWax | Finding::DryNipple | Finding::Hazard => None,
    });
    let off = job.bags.iter().filter(|b| b.area == area && b.back.is_none());
    let off = off.flat_map(|b| {
        let edges =
            b.coat.then(|| Line { rank: Rank::RawEdges, words: format!("{}: its edges and both faces", b.part) });
        let screws = b.screwed.then(|| Line {
            rank: Rank::Fasteners,
            words: format!("Screws of {} in their holes, finger-tight", b.part),
        });
        edges.into_iter().chain(screws)
    });
    let every = EVERYWHERE.iter().map(|(rank, words)| Line { rank: *rank, words: (*words).to_owned() });
    let mut all: Vec<Line> = found.chain(off).chain(every).collect();
    // A stable sort: the own lines of an area stay before the general ones.
    all.sort_by_key(|l| l.rank);
    all
}

/// A line of a pass list as it is read.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Read {
    pub words: String,
    /// Why it comes there; may be empty.
    pub why: &'static str,
}

/// In the second pass on every area; it covers what the first one did, too (common practice, no source).
const SECOND: &[&str] = &[
    "Inside, underside and boxes first, connectors mated and dead; then shut the doors",
    "Over everything the first pass covered",
    "The outside, half of each stroke over the last",
    "Radiator only if the film's sheet says so: a light mist",
    "Arms to position B for the faces that A hid: foil and intake covers off before they move",
];
/// The same for loose panels.
const SECOND_LOOSE: &[&str] = &["Both faces of each panel", "Its edges and holes"];

/// What a pass goes over on an area.
pub fn list(job: &Job, stage: Stage, area: AreaId) -> Vec<Read> {
    if stage == Stage::FirstPass {
        return first(job, area).into_iter().map(|l| Read { words: l.words, why: l.rank.why() }).collect();
    }
    let loose = job.area(area).is_some_and(|a| a.loose());
    let lines = if loose { SECOND_LOOSE } else { SECOND };
    lines.iter().map(|w| Read { words: (*w).to_owned(), why: "" }).collect()
}

/// A hazard found anywhere: shown on every pass list.
pub fn hazards(job: &Job) -> impl Iterator<Item = String> {
    let open = job.found.iter().filter(|f| f.sort == Finding::Hazard && f.dealt.is_none());
    open.map(|f| format!("{}: {}", job.area_name(f.area), f.words()))
}

/// A line of the gun's card.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Setting {
    pub what: &'static str,
    pub set: &'static str,
}

/// Where the gun's figures come from.
pub const GUN_BASIS: Basis = Basis::Memory;

/// The gun before the second pass.
pub const GUN: &[Setting] = &[
    Setting { what: "Pressure at the cap", set: "10 psi (0.7 bar) at most" },
    Setting { what: "Tip", set: "1.3 to 1.5 mm" },
    Setting { what: "Distance", set: "15 to 20 cm" },
    Setting { what: "Overlap", set: "half of each stroke" },
    Setting { what: "Air", set: "clean and dry, 250 to 450 L/min" },
    Setting { what: "Product", set: "15 to 25 °C" },
    Setting { what: "Try it", set: "on cardboard first: even, wet, no runs" },
];
