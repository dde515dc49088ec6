//! The example job, as plain tables from which its entries are written: all of it is invented.
//!
//! May use: [`super::stage`]; names areas of [`super::kinds`] and checks of [`super::guide`] by id. Must not: make
//! entries itself, know a clock. Times are minutes from the start of the job.

use super::stage::Stage;

/// An invented job, part-way through.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Demo {
    /// To stand on every screen of the example.
    pub notice: &'static str,
    /// Id of its kind in [`super::kinds::KINDS`].
    pub kind: &'static str,
    pub machine: &'static str,
    pub setting: &'static str,
    pub products: &'static [Product],
    /// Stages done, in the order they were done. What is not named here is still open.
    pub done: &'static [Done],
    pub skipped: &'static [Skipped],
    /// Checks of done stages that were gone past, with the reason.
    pub unticked: &'static [Unticked],
    /// Covers put on at [`Stage::Cover`], still on.
    pub covers: &'static [&'static str],
    /// Paper, tape and foil put on so far at [`Stage::Mask`], still on.
    pub masks: &'static [Masked],
    pub bags: &'static [Bag],
    pub mixes: &'static [Mix],
    pub readings: &'static [Reading],
    pub notes: &'static [Note],
}

#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Product {
    pub name: &'static str,
    pub batch: &'static str,
}

/// The areas of a stage.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Areas {
    All,
    Only(&'static [&'static str]),
}

#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Done {
    pub stage: Stage,
    pub areas: Areas,
    pub at_min: u32,
}

#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Skipped {
    pub stage: Stage,
    pub areas: Areas,
    pub reason: &'static str,
    pub at_min: u32,
}

#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Unticked {
    pub check: &'static str,
    pub reason: &'static str,
}

#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Masked {
    pub area: &'static str,
    pub what: &'static str,
}

#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Bag {
    pub part: &'static str,
    pub area: &'static str,
    pub fasteners: &'static [Fastener],
    /// Anything that is not a thread.
    pub also: &'static str,
    /// Where the part lies.
    pub lies: &'static str,
    pub at_min: u32,
}

#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Fastener {
    pub thread: &'static str,
    pub length_mm: u32,
    pub count: u32,
}

#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Mix {
    pub stage: Stage,
    /// Name of one of the [`Demo::products`].
    pub product: &'static str,
    pub water_parts: u32,
    pub concentrate_parts: u32,
    pub water_ml: u32,
    pub concentrate_ml: u32,
    pub at_min: u32,
}

#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Reading {
    pub at_min: u32,
    pub air_c: f64,
    pub rh_pct: f64,
    /// Spot and steel temperature in °C.
    pub steel_c: [(&'static str, f64); 3],
}

#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Note {
    pub at_min: u32,
    pub stage: Stage,
    /// None: about the whole machine.
    pub area: Option<&'static str>,
    pub words: &'static str,
}

const DAY: u32 = 24 * 60;

/// The example: an old lime spreader in a shed, in a wet autumn, half masked on its second day.
///
/// ```
/// use coatwalk::job::{demo::DEMO, kinds::kind};
/// assert!(DEMO.notice.contains("invented"));
/// assert!(kind(DEMO.kind).is_some());
/// ```
pub static DEMO: Demo = Demo {
    notice: "Example job: all of it is invented",
    kind: "spreader",
    machine: "The old lime spreader",
    setting: "Owner's shed, wet autumn, one helper in the afternoons",
    products: &[
        Product { name: "Example degreaser (invented)", batch: "EX-11" },
        Product { name: "Example neutralising rinse (invented)", batch: "EX-12" },
        Product { name: "Example clear film (invented)", batch: "EX-13" },
    ],
    done: &[
        Done { stage: Stage::Survey, areas: Areas::All, at_min: 45 },
        Done { stage: Stage::TakeOff, areas: Areas::All, at_min: 130 },
        Done { stage: Stage::Cover, areas: Areas::All, at_min: 150 },
        Done { stage: Stage::Wipe, areas: Areas::All, at_min: 185 },
        Done { stage: Stage::Degrease, areas: Areas::All, at_min: 360 },
        Done { stage: Stage::Neutralise, areas: Areas::All, at_min: 410 },
        Done { stage: Stage::Dry, areas: Areas::All, at_min: DAY + 165 },
        Done { stage: Stage::Mend, areas: Areas::All, at_min: DAY + 290 },
        Done {
            stage: Stage::Mask,
            areas: Areas::Only(&["drawbar", "drive-shaft", "cover", "hopper-outside", "frame", "axle"]),
            at_min: DAY + 345,
        },
    ],
    skipped: &[Skipped {
        stage: Stage::Dewax,
        areas: Areas::All,
        reason: "No wax found: ten years old, never waxed",
        at_min: 190,
    }],
    unticked: &[Unticked {
        check: "survey-test-patch-read",
        reason: "Same film used on the drawbar last year, no trouble seen",
    }],
    covers: &["Control box", "Plug to the tractor", "Floor gearbox breather", "Disc gearbox breather", "Hose ends"],
    masks: &[
        Masked { area: "hopper-outside", what: "Paper on the sight window" },
        Masked { area: "hopper-outside", what: "Tape on the identity plate" },
        Masked { area: "drawbar", what: "Paper round the towing eye" },
        Masked { area: "drive-shaft", what: "Foil on the splines" },
        Masked { area: "axle", what: "Paper on both brake drums" },
        Masked { area: "axle", what: "Paper on both tyres" },
    ],
    bags: &[
        Bag {
            part: "Left and right tail lamp",
            area: "tail",
            fasteners: &[Fastener { thread: "M6", length_mm: 25, count: 4 }],
            also: "4 rubber washers, one split",
            lies: "Bench, left end",
            at_min: 70,
        },
        Bag {
            part: "Spreading guard",
            area: "tail",
            fasteners: &[Fastener { thread: "M8", length_mm: 30, count: 6 }],
            also: "",
            lies: "Trestle 1",
            at_min: 95,
        },
        Bag {
            part: "Floor drive guard",
            area: "gate",
            fasteners: &[
                Fastener { thread: "M10", length_mm: 40, count: 3 },
                Fastener { thread: "M10", length_mm: 60, count: 1 },
            ],
            also: "One nut seized and cut off: buy new",
            lies: "Trestle 2",
            at_min: 120,
        },
    ],
    mixes: &[
        Mix {
            stage: Stage::Degrease,
            product: "Example degreaser (invented)",
            water_parts: 3,
            concentrate_parts: 1,
            water_ml: 6_000,
            concentrate_ml: 2_000,
            at_min: 200,
        },
        Mix {
            stage: Stage::Neutralise,
            product: "Example neutralising rinse (invented)",
            water_parts: 25,
            concentrate_parts: 1,
            water_ml: 5_000,
            concentrate_ml: 200,
            at_min: 370,
        },
    ],
    // The first two are too near the dew point, the third is the one that Dry waited for.
    readings: &[
        Reading {
            at_min: 430,
            air_c: 11.0,
            rh_pct: 88.0,
            steel_c: [("Low frame", 9.6), ("Axle", 9.8), ("Gate", 10.1)],
        },
        Reading {
            at_min: DAY - 45,
            air_c: 12.5,
            rh_pct: 84.0,
            steel_c: [("Low frame", 10.6), ("Axle", 10.4), ("Gate", 11.0)],
        },
        Reading {
            at_min: DAY + 150,
            air_c: 15.0,
            rh_pct: 70.0,
            steel_c: [("Low frame", 13.4), ("Axle", 13.2), ("Gate", 14.0)],
        },
    ],
    notes: &[
        Note {
            at_min: 20,
            stage: Stage::Survey,
            area: Some("frame"),
            words: "Lime caked on the cross members, rust under it on the left",
        },
        Note {
            at_min: 40,
            stage: Stage::Survey,
            area: Some("hopper-inside"),
            words: "Limed in spring, fertiliser since: sweep out dry first",
        },
        Note {
            at_min: 118,
            stage: Stage::TakeOff,
            area: Some("gate"),
            words: "A bucketful of wet lime behind the guard",
        },
        Note { at_min: 405, stage: Stage::Neutralise, area: None, words: "Salt strip clean on the third rinse" },
        Note {
            at_min: DAY + 155,
            stage: Stage::Dry,
            area: Some("axle"),
            words: "Tissue came out damp behind the hub, blown out again",
        },
        Note {
            at_min: DAY + 280,
            stage: Stage::Mend,
            area: Some("frame"),
            words: "Left cross member scraped bright, primed, two hand-widths",
        },
    ],
};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{guide::guide, kinds::kind};

    #[test]
    fn everything_named_exists_and_happens_in_order() {
        let kind = kind(DEMO.kind).unwrap();
        let listed = |areas: Areas| match areas {
            Areas::All => &[],
            Areas::Only(ids) => ids,
        };
        let named = (DEMO.done.iter().flat_map(|d| listed(d.areas)))
            .chain(DEMO.skipped.iter().flat_map(|s| listed(s.areas)))
            .chain(DEMO.bags.iter().map(|b| &b.area))
            .chain(DEMO.masks.iter().map(|m| &m.area))
            .chain(DEMO.notes.iter().filter_map(|n| n.area.as_ref()));
        for id in named {
            assert!(kind.area(id).is_some(), "no area {id}");
        }
        for u in DEMO.unticked {
            assert!(Stage::ALL.into_iter().any(|s| guide(s).checks.iter().any(|c| c.id == u.check)), "{}", u.check);
        }
        for m in DEMO.mixes {
            assert!(DEMO.products.iter().any(|p| p.name == m.product));
            assert_eq!(m.water_ml * m.concentrate_parts, m.concentrate_ml * m.water_parts, "{}", m.product);
        }
        assert!(DEMO.done.is_sorted_by(|a, b| a.stage < b.stage && a.at_min < b.at_min));
        assert!(DEMO.bags.is_sorted_by_key(|b| b.at_min) && DEMO.readings.is_sorted_by_key(|r| r.at_min));
        assert!(DEMO.notes.is_sorted_by_key(|n| n.at_min));
    }

    #[test]
    fn it_is_half_masked_and_says_that_it_is_invented() {
        let last = DEMO.done.last().unwrap();
        let Areas::Only(masked) = last.areas else { panic!("masked all over") };
        assert_eq!((last.stage, masked.len() * 2), (Stage::Mask, kind(DEMO.kind).unwrap().areas.len()));
        assert_eq!((DEMO.bags.len(), DEMO.mixes.len(), DEMO.readings.len()), (3, 2, 3));
        assert!(DEMO.notice.contains("invented"));
        assert!(DEMO.products.iter().all(|p| p.name.contains("invented")));
    }
}
