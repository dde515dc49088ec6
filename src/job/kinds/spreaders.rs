//! Machines that carry and spread: fertiliser or lime spreader, slurry tanker.

use super::shape::{Drawing, Shape::*, boxed, disc, rect};
use super::{Kind, area, loose_panels};
use crate::job::guide::{Basis::*, Caution};

const NITRATE: Caution = Caution {
    words: "Ammonium nitrate with oil, film or solvent rags is a fire. Sweep every grain out dry before you open a product.",
    basis: CommonPractice,
};
const QUICKLIME: Caution = Caution {
    words: "Quicklime and water make heat and burns. Brush it out dry, goggles and gloves on, before any hose.",
    basis: CommonPractice,
};
const PESTICIDE: Caution = Caution {
    words: "Seed dressing or pesticide left in it poisons. Gloves, mask, and rinse water caught as its label says.",
    basis: CommonPractice,
};
const HOPPER: Caution = Caution {
    words: "Never climb into the hopper: agitator, drop and dust. Drive shaft off and away; reach in from outside.",
    basis: CommonPractice,
};

pub(super) const SPREADER: Kind = Kind {
    id: "spreader",
    name: "Fertiliser or lime spreader",
    length_m: 5.5,
    width_m: 2.4,
    height_m: 2.3,
    hazards: &[NITRATE, QUICKLIME, PESTICIDE, HOPPER],
    areas: &[
        area(
            "drawbar",
            "Drawbar and jack",
            &["Hose and cable holder", "Jack leg", "Chain"],
            &["Towing eye and its bolts", "Mating faces of couplings"],
            &[
                Poly(&[(6.0, 150.0), (24.0, 144.0), (98.0, 144.0), (98.0, 162.0), (24.0, 162.0), (6.0, 162.0)]),
                rect(50.0, 162.0, 10.0, 34.0),
            ],
        )
        .on(1),
        area(
            "hopper-outside",
            "Hopper outside",
            &["Cover sheet and hoops", "Ladder", "Sight window"],
            &["Decals", "Identity plate", "Ladder rungs"],
            &[Poly(&[(66.0, 44.0), (322.0, 44.0), (276.0, 122.0), (112.0, 122.0)])],
        ),
        area(
            "frame",
            "Frame and underside",
            &["Side guards", "Mudguards"],
            &["Identity plate", "Brake parts", "Weighing cells"],
            &[rect(98.0, 126.0, 200.0, 24.0)],
        ),
        area(
            "axle",
            "Axle, hubs and brakes",
            &["Hub caps", "Mudguards"],
            &["Tyres", "Brake drums and shoes", "Wheel nut seats and threads", "Brake adjuster threads"],
            &[disc(186.0, 158.0, 41.0)],
        )
        .on(2),
        area(
            "discs",
            "Discs and vanes",
            &["Vanes", "Discs", "Spreading guard"],
            &["Vane pivot faces", "Gearbox breather"],
            &[
                rect(284.0, 168.0, 70.0, 10.0),
                Poly(&[(298.0, 168.0), (306.0, 154.0), (334.0, 154.0), (342.0, 168.0)]),
                rect(312.0, 178.0, 16.0, 10.0),
            ],
        )
        .on(2),
        loose_panels(&[boxed(244.0, 110.0)]),
    ],
    drawing: Drawing::new(&[disc(186.0, 158.0, 15.0)]),
};
