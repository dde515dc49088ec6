//! What a machine may have carried, and what its build can do to a hand. All common practice, no source, unless marked.

use crate::job::guide::{
    Basis::{CommonPractice, Standard},
    Caution,
};

const fn known(words: &'static str) -> Caution {
    Caution { words, basis: CommonPractice }
}

pub(super) const MUCK: Caution =
    known("Muck and feed hold salt, germs and mould. Brush out in the open air, mask on; wash hands before you eat.");
pub(super) const JOINT: Caution =
    known("The centre joint closes on whoever stands in it. Steering lock on before you reach in.");
pub(super) const ARMS: Caution =
    known("Arms fall when a hose is opened. On their mechanical lock or on the ground before you reach under.");
pub(super) const BOOM: Caution = known(
    "A boom slides out or in by itself when its oil is let off. Retract it, lay it down, stay out of its line.",
);
pub(super) const BRAKES: Caution =
    known("Brake dust may hold asbestos. No air line, no dry brush: wet it and wipe it up.");
pub(super) const SHAFT: Caution =
    known("Drive shaft off and put away before you work near it: nothing can turn then.");
pub(super) const NITRATE: Caution = known(
    "Ammonium nitrate with oil, film or solvent rags is a fire. Sweep every grain out dry before you open a product.",
);
pub(super) const QUICKLIME: Caution =
    known("Quicklime and water make heat and burns. Brush it out dry, goggles and gloves on, before any hose.");
pub(super) const PESTICIDE: Caution =
    known("Pesticide or seed dressing stays on metal. Gloves and mask; catch the rinse water as the label says.");
pub(super) const HOPPER: Caution = known(
    "Never climb into the hopper: it can turn, drop and hold dust. Drive off and locked, reach in from outside.",
);
pub(super) const SLURRY_GAS: Caution = Caution {
    words: "Never enter a slurry tank, nor put your head in: hydrogen sulphide (H₂S) drops you at the first breath.",
    basis: Standard("29 CFR 1910.146 (clause from memory); local rules win"),
};
pub(super) const SLURRY_FIRE: Caution = known(
    "Slurry gas burns. No spark or flame at an open hatch; stand upwind and let it air before you work near it.",
);
pub(super) const TIPPED: Caution =
    known("Never under a raised bed or body without its prop. A cylinder alone does not hold.");
pub(super) const LOAD: Caution = known(
    "Find out what it carried last: fertiliser with oily rags burns, quicklime burns with water, pesticide poisons.",
);
pub(super) const FUEL: Caution = known(
    "Fuel tank and lines: no spark, no heat. Petrol vapour sinks and travels. Leave drained tanks to a workshop.",
);
pub(super) const AIRBAG: Caution =
    known("Airbags and belt tighteners can go off. Battery off, wait as the manual says, leave their plugs alone.");
pub(super) const SPRINGS: Caution =
    known("Coil springs, air springs and torsion bars store force. Leave them fitted, or follow the manual.");
