//! Short lists and starting figures that more than one stage or screen uses.

use crate::job::entry::Covering;
use crate::job::stage::Stage;

/// What stays bare of film by default: common practice, no source.
pub const KEEP_BARE: &[&str] = &[
    "Glass, mirrors, lamp lenses, camera and radar covers",
    "Cylinder rods (aluminium foil)",
    "Soft rubber: gaskets, seals, belts; hoses where the product's sheet says no",
    "Brake discs, drums, pads and clutch faces",
    "Tyres and tyre beads",
    "Exhaust, turbo and anything that gets hot",
    "Air filter, breathers, vents, particle filter",
    "Mating faces of open plugs, open relays and switches",
    "Grease nipples (keep them open)",
    "Identity plate and safety decals",
    "Steps, pedals and handholds (slip)",
    "Seat, wheel, controls, seat belts",
    "Threads and seats of wheel nuts, ROPS, brakes, steering, driveline and towing fixings",
    "Anything threadlocked or with a self-locking nut",
];

/// Said wherever [`KEEP_BARE`] is shown.
pub const KEEP_BARE_NOTE: &str = "Default list. Your product's sheet and the machine's manual win.";

/// To do each time the machine is moved during the job (wash pad to shed): common practice, no source.
pub const MOVING: &[&str] = &[
    "Count every cover and foil off before the engine starts, intake and exhaust first",
    "Battery back on only with no can open and the shed aired",
    "Lamps and mirrors are off: move by daylight, at walking pace, with somebody to watch, not on a road",
    "Doors open while the engine runs; exhaust fumes hold carbon monoxide",
    "Park: arms down or on their lock, key out, wheels chocked",
    "Battery off again, then count the covers back on",
];

/// Places that are usually covered, by what they are covered with (common practice, no source).
pub fn usually_covered(cover: Covering) -> &'static [&'static str] {
    match cover {
        Covering::Cover => {
            &["Air intake", "Exhaust", "Alternator", "Breathers", "Fuse panel", "Control units", "Open plugs"]
        }
        Covering::Paper => &["Windscreen", "Side glass", "Mirrors", "Lamps", "Brake discs", "Identity plate"],
        Covering::Foil => &["Lift rods", "Tilt rods", "Steering rods"],
    }
}

/// What is mixed in a stage, and the parts of water and of concentrate to start from (common practice, no source; the
/// product's sheet wins).
pub fn start_mix(stage: Stage) -> (&'static str, u32, u32) {
    match stage {
        Stage::Neutralise => ("neutraliser", 20, 1),
        _ => ("degreaser", 3, 1),
    }
}
