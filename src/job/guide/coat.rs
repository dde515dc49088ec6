//! Mend, Mask and the two passes.

use super::wash::{arms_held, battery_off, locked_out};
use super::{Basis::*, Caution, Guide, SafetyPoint, caution, check, point, shared::*};

pub(super) static MEND: Guide = Guide {
    aim: "Sound edges, primed spots, full grease nipples; the last sparks.",
    goes_wrong: "Rust sealed in under clear film; dry pins.",
    steps: &[
        "Scrape and abrade loose rust and paint to bright, sound edges (St 2)",
        "Dust off. Prime. Wait as the primer's sheet says",
        "Grease every nipple until water stops coming, wipe the rest off",
        "Finish all grinding and wire-wheeling: sparks end here",
        "Wiped with solvent only: no rinse needed. Wet again: back to Dry",
    ],
    at_hand: &[
        "Scraper, abrasive, wire brush",
        "Mask for dust",
        "Primer and its sheet",
        "Grease gun",
        "Rags, lidded metal can",
    ],
    cautions: &[
        caution(
            "Loose scale off first: clear film over it seals rust in. Hand clean to ISO 8501-1 St 2.",
            Standard("ISO 8501-1 St 2 (clause from memory)"),
        ),
        caution(
            "Old coats may hold lead. Test first. If so: no dry sanding, no heat, no sparks; follow local rules.",
            CommonPractice,
        ),
        caution(
            "Sparks and solvent never at the same time. Cans shut and away while you grind; rags away too.",
            CommonPractice,
        ),
        caution("A grease gun injects too: never put a hand before the nozzle.", CommonPractice),
        RAGS,
        MONOXIDE,
        EYE_HAND,
        ENGINE_LOCKED,
        BATTERY_OFF,
        ARM_HELD,
        SHEETS_WIN,
    ],
    checks: &[
        check(
            "mend-edges",
            "Loose rust and paint off to bright, sound edges",
            Standard("ISO 8501-1 St 2 (clause from memory)"),
        ),
        check("mend-primed", "Bare spots primed, and the primer's wait is over", CommonPractice),
        check("mend-greased", "Every nipple greased until no more water came, and wiped", CommonPractice),
        check("mend-sparks-over", "Grinder and wire wheel put away", CommonPractice),
    ],
    safety: &[
        battery_off!("mend"),
        locked_out!("mend"),
        arms_held!("mend"),
        point(
            "mend-sparks-away",
            "Sparks are away from solvent, cans, rags, hay and fuel",
            "Carry cans and rags out, shut lids, air the shed, then grind. Extinguisher beside you.",
            Standard("NFPA 33 (clause from memory)"),
        ),
        point(
            "mend-lead",
            "Paint to be scraped holds no lead, or lead rules are kept",
            "Use a test kit. If it shows lead: wet methods, mask for lead dust, local rules; or leave it alone.",
            CommonPractice,
        ),
    ],
};

pub(super) static MASK: Guide = Guide {
    aim: "Cover what the film must not reach.",
    goes_wrong: "Film on glass, rods or brakes; hours to clean it off.",
    steps: &[
        "Set arms and steering to position A on their locks, rods pulled in",
        "Paper and tape on glass, edges first (about 1.5 h on a compact machine)",
        "Aluminium foil on cylinder rods: if slack it bunches up, not into the seal",
        "Cover all on the keep-bare list: brakes, tyres, exhaust, plates, steps, nipples",
        "Count paper, tape and foil as they go on, and log the count",
    ],
    at_hand: &[
        "Masking paper, tape",
        "Aluminium foil",
        "Knife",
        "Keep-bare list",
        "Shop lights (they go out before the film)",
    ],
    cautions: &[
        ENGINE_LOCKED,
        ARM_HELD,
        caution(
            "Foil and paper come off before anything moves. A rod drawn in with foil on ruins the seal.",
            CommonPractice,
        ),
        caution("Clean hands and gloves: a greasy print shows under the film.", CommonPractice),
        caution("Work from a platform. Do not stand on masked or wet steps.", CommonPractice),
        BATTERY_OFF,
        SHEETS_WIN,
    ],
    checks: &[
        check("mask-glass", "Glass, mirrors, lenses and camera covers masked", CommonPractice),
        check("mask-rods", "Foil on every bare rod", CommonPractice),
        check("mask-brakes", "Brakes, tyres, exhaust, breathers covered", CommonPractice),
        check("mask-bare-list", "Keep-bare list gone through for this area", CommonPractice),
        check("mask-counted", "Paper, tape and foil counted and logged", CommonPractice),
    ],
    safety: &[
        point(
            "mask-arms-locked",
            "Arms and steering are on their mechanical locks, position A",
            "Fit the locks, or lower everything to the ground. Nothing held by oil alone.",
            CommonPractice,
        ),
        point(
            "mask-rods-in",
            "Rods are pulled in, pressure is let off, hydraulics locked",
            "Pull the rods in before the covers go on; covered already: covers off first, then start.",
            CommonPractice,
        ),
        locked_out!("mask"),
        battery_off!("mask"),
    ],
};

const ZONE: Caution = caution(
    "The phone can light the vapour. It stays outside: about 6 m to the sides, 3 m up, until the purge ends.",
    Standard("NFPA 33 (distances from memory)"),
);
const ZONE_TOO: Caution = caution(
    "Out with it: lamps, fans not rated for vapour, compressor, vacuum, chargers.",
    Standard("NFPA 33 (clause from memory)"),
);
const MIST: Caution = caution(
    "Mist burns well below its flash point; propellant burns. Vapour sinks: pits, drains, under the machine.",
    Standard("29 CFR 1910.107, NFPA 33 (clauses from memory)"),
);
const LUNGS: Caution = caution(
    "Organic-vapour cartridge and particle pre-filter, clean-shaven, fit-tested. Light solvents get through: SDS. Note change time.",
    Standard("29 CFR 1910.134 (clause from memory)"),
);
const GUN_INJECTS: Caution = caution(
    "Paint under pressure injects. A pinhole wound is a hospital case within the hour. Never point at skin.",
    CommonPractice,
);
const DEW: Caution = caution(
    "Steel 3 °C or more above dew point at the coldest spot, from now until touch-dry; never on steel under 5 °C.",
    Standard("ISO 8502-4 guidance (clause from memory); 5 °C from memory"),
);
const NEIGHBOURS: Caution = caution(
    "Notice on the doors. Tell the people next door. Animals, hay and straw well away.",
    Standard("NFPA 33 (clause from memory); local fire code wins"),
);

/// The points before either pass; the ids carry the stage.
macro_rules! spray_points {
    ($stage:literal) => {
        &[
            point(
                concat!($stage, "-no-flame"),
                "No flame, no spark, no smoking; heaters are out and cold",
                "Put every heater and pilot light out, let them go cold, then open the first can.",
                Standard("29 CFR 1910.107, NFPA 33 (clauses from memory); local fire code wins"),
            ),
            point(
                concat!($stage, "-phone-out"),
                "Phone will stay outside the spray zone, with lamps, fans and chargers",
                "Read the list here, put the phone down outside (6 m to the sides), spray, walk out, log.",
                Standard("NFPA 33 (distances from memory)"),
            ),
            point(
                concat!($stage, "-respirator"),
                "Respirator is on: organic vapour with pre-filter, fit-tested, clean-shaven",
                "Fit fresh cartridges, note the change time, test the seal. The SDS says which; gloves and goggles too.",
                Standard("29 CFR 1910.134 (clause from memory)"),
            ),
            point(
                concat!($stage, "-doors"),
                "Doors stand open on both sides; nobody else is inside",
                "Open and wedge them, hang the notice, send people and animals out.",
                Standard("29 CFR 1910.107, NFPA 33 (clauses from memory)"),
            ),
            point(
                concat!($stage, "-earthed"),
                "Machine and metal containers are earthed",
                "Clamp a cable from bare metal to an earth rod. Tyres insulate.",
                Standard("NFPA 33 (clause from memory)"),
            ),
            battery_off!($stage),
            locked_out!($stage),
            arms_held!($stage),
            point(
                concat!($stage, "-extinguisher"),
                "Extinguisher stands within 10 m, on your way out",
                "Fetch one for burning liquids and look at its gauge and date.",
                Standard("NFPA 33 (distance from memory); local fire code wins"),
            ),
        ] as &[SafetyPoint]
    };
}

pub(super) static FIRST_PASS: Guide = Guide {
    aim: "Film into every fastener, fitting, weld and seam.",
    goes_wrong: "Seams stay open, and rust starts there.",
    steps: &[
        "Read this list outside the spray zone. Leave the phone here. Log when you walk out",
        "Unlike metals and raw edges first; coat the nobler one (stainless) too",
        "Aerosol into nuts, bolts, hydraulic fittings, welds, seams, behind washers",
        "Mated plug connections only, dead. Open plugs stay covered",
        "Whole machine first, then the loose panels; only then the second pass",
    ],
    at_hand: &[
        "Aerosol cans at 15 to 25 °C (default)",
        "Spray tube for the nozzle",
        "Respirator, goggles, gloves",
        "Rags, metal can",
        "Extinguisher",
    ],
    cautions: &[
        ZONE,
        ZONE_TOO,
        MIST,
        LUNGS,
        NEIGHBOURS,
        NEVER_INSIDE,
        RAGS,
        EYE_HAND,
        GUN_INJECTS,
        DEW,
        FILM_FALL,
        ENGINE_LOCKED,
        BATTERY_OFF,
        ARM_HELD,
        ADVICE_ONLY,
        SHEETS_WIN,
    ],
    checks: &[
        check("first-pass-product", "Product in date, shaken, at 15 to 25 °C (default, sheet wins)", Memory),
        check("first-pass-unlike-metals", "Unlike metals and raw edges done first", CommonPractice),
        check("first-pass-fasteners", "Every bolt head, fitting, weld and seam wetted", CommonPractice),
        check("first-pass-wiped", "Runs on keep-bare places wiped off", CommonPractice),
    ],
    safety: spray_points!("first-pass"),
};

pub(super) static SECOND_PASS: Guide = Guide {
    aim: "Film over everything, inside faces too.",
    goes_wrong: "Thin film, missed inside faces.",
    steps: &[
        "Read this list outside the spray zone. Leave the phone here. Log when you walk out",
        "Gun: cap 10 psi or less, 1.3 to 1.5 mm tip; try on cardboard (default, sheet wins)",
        "Insides, undersides, boxes first (plugs mated and dead), then shut doors, outside",
        "15 to 20 cm away, half overlap, over all the first pass covered too",
        "Loose panels: both faces and all edges",
        "Outside, wait for touch-dry; arms to position B; do the faces A hid",
    ],
    at_hand: &[
        "Gun, 1.3 to 1.5 mm tip",
        "Clean dry air, 250 to 450 L/min",
        "Product at 15 to 25 °C (default)",
        "Cardboard",
        "Respirator, goggles, gloves",
        "Extinguisher",
    ],
    cautions: &[
        ZONE,
        ZONE_TOO,
        MIST,
        LUNGS,
        NEIGHBOURS,
        NEVER_INSIDE,
        RAGS,
        EYE_HAND,
        GUN_INJECTS,
        DEW,
        FILM_FALL,
        caution(
            "Before arms go to position B: foil and covers off and counted, shed purged, then start. Not in the vapour.",
            CommonPractice,
        ),
        caution("Radiator only if the product's sheet says so, and then a light mist.", CommonPractice),
        ENGINE_LOCKED,
        BATTERY_OFF,
        ARM_HELD,
        ADVICE_ONLY,
        SHEETS_WIN,
    ],
    checks: &[
        check("second-pass-flash-off", "First pass has flashed off: 20 min (default, sheet wins)", Memory),
        check("second-pass-cardboard", "Gun tried on cardboard: even, wet, no runs", CommonPractice),
        check("second-pass-insides", "Insides, undersides and boxes done", CommonPractice),
        check("second-pass-edges", "Loose panels done on both faces and edges", CommonPractice),
        check("second-pass-hidden", "Faces hidden in position A done in position B", CommonPractice),
        check("second-pass-litres", "Litres used written down", CommonPractice),
    ],
    safety: spray_points!("second-pass"),
};

pub(super) const AFTER_SPRAY: [Caution; 4] = [ZONE, ZONE_TOO, MIST, LUNGS];
