//! The wet stages and the drying: Wipe, Dewax, Degrease, Neutralise, Dry.

use super::{Basis::*, Guide, caution, check, point, shared::*};

/// The two points every stage from Wipe on shares; the ids carry the stage.
macro_rules! battery_off {
    ($stage:literal) => {
        point(
            concat!($stage, "-battery"),
            "Battery is isolated (towed machine: unplugged from the tractor)",
            "Negative lead off and tied back, or isolator off and locked. Towed: pull its plugs.",
            CommonPractice,
        )
    };
}
macro_rules! locked_out {
    ($stage:literal) => {
        point(
            concat!($stage, "-locked-out"),
            "Engine is locked out while covers are on (towed: drive shaft off)",
            "Key in your pocket, notice on the wheel, tell the others. Towed: shaft off and put away.",
            CommonPractice,
        )
    };
}
macro_rules! eye_wash {
    ($stage:literal) => {
        point(
            concat!($stage, "-eye-wash"),
            "Eye-wash stands within reach; gloves and goggles are on",
            "Fetch a full eye-wash bottle or clean running water. Gloves and goggles as the SDS says.",
            CommonPractice,
        )
    };
}
macro_rules! arms_held {
    ($stage:literal) => {
        point(
            concat!($stage, "-arms-held"),
            "Arms are on the ground or on their mechanical lock; wheels chocked",
            "Lower the arms or fit the lock. Chock the wheels. A jack is not a stand.",
            CommonPractice,
        )
    };
}
pub(super) use {arms_held, battery_off, locked_out};

pub(super) static WIPE: Guide = Guide {
    aim: "Mud and loose grease off before the jet spreads them.",
    goes_wrong: "Grease blown over the whole machine; pads grinding mud into paint.",
    steps: &[
        "Rinse coarse mud off a used machine, from the top down",
        "Rag surplus grease out of pins and joints, by hand",
        "Scrape caked oil off into a bucket, not onto the ground",
        "Lay the oily rags flat outdoors or into a lidded metal can",
    ],
    at_hand: &["Plenty of rags", "Scraper (plastic or wood)", "Bucket", "Lidded metal can with water", "Hose"],
    cautions: &[
        RAGS,
        JET_INJECTS,
        JET_DISTANCE,
        ARM_HELD,
        ENGINE_LOCKED,
        BATTERY_OFF,
        WASH_WATER,
        WASH_COLD,
        WET_FALL,
        NEVER_INSIDE,
        MONOXIDE,
        SHEETS_WIN,
    ],
    checks: &[
        check("wipe-mud", "No mud left where a pad will rub", CommonPractice),
        check("wipe-grease", "Surplus grease out of every pin and joint", CommonPractice),
        check("wipe-rags", "Oily rags lie flat outdoors or in the metal can", CommonPractice),
    ],
    safety: &[battery_off!("wipe"), locked_out!("wipe"), arms_held!("wipe")],
};

pub(super) static DEWAX: Guide = Guide {
    aim: "Shipping wax and old film off bare and plated parts.",
    goes_wrong: "The new film has nothing to bond to.",
    steps: &[
        "Look at wheel nuts, fittings, king pins, brackets. No wax found: one tap, done",
        "Set hot water: 60 °C near decals and seals, 80 °C at most on plated parts (default)",
        "Use a 25° or 40° fan tip, never 0°",
        "Melt the wax and chase it down and off the machine",
        "Rub a cold part with a white rag: no smear, no drag",
    ],
    at_hand: &[
        "Hot-water washer, outdoors",
        "25° and 40° tips",
        "Face shield, waterproof gloves, boots",
        "White rag",
    ],
    cautions: &[
        HOT_WATER,
        JET_INJECTS,
        JET_DISTANCE,
        MONOXIDE,
        ARM_HELD,
        ENGINE_LOCKED,
        BATTERY_OFF,
        WASH_WATER,
        WASH_COLD,
        WET_FALL,
        SHEETS_WIN,
    ],
    checks: &[
        check("dewax-tip", "Fan tip fitted, 25° or 40°", CommonPractice),
        check(
            "dewax-heat",
            "Water heat set: 60 °C near decals and seals, 80 °C at most on plated parts (default)",
            Memory,
        ),
        check("dewax-rag", "White rag on a cold plated part: no wax", CommonPractice),
    ],
    safety: &[
        battery_off!("dewax"),
        locked_out!("dewax"),
        arms_held!("dewax"),
        point(
            "dewax-nobody-near",
            "Nobody stands near the lance; face shield, gloves and boots are on",
            "Send people and animals away. The jet cuts and injects, the water scalds.",
            CommonPractice,
        ),
        point(
            "dewax-washer-outdoors",
            "Washer stands outdoors, its exhaust blows away from doors",
            "Move it out. A burner or petrol engine indoors makes carbon monoxide.",
            CommonPractice,
        ),
    ],
};

pub(super) static DEGREASE: Guide = Guide {
    aim: "Grease, diesel and road film off, down to clean paint and metal.",
    goes_wrong: "Soap dried on, places missed: the film lifts there first.",
    steps: &[
        "Mix: 3 parts water to 1 part concentrate (default, your product's sheet wins). Water first",
        "Take one stretch at a time: 1 to 2 m², out of sun and wind",
        "Soap on from the bottom up, brush and pad, into corners and behind",
        "Rinse from the top down before any soap dries",
        "Lift the next stretch's edge into the last one, so nothing is missed",
    ],
    at_hand: &[
        "Degreaser and its SDS",
        "Bucket, brushes, pads",
        "Gloves, goggles, eye-wash",
        "Hose or washer, fan tip",
    ],
    cautions: &[
        EYE_HAND,
        caution(
            "Never let it dry on. Soak time by heat: 8 min under 10 °C, 5 to 20 °C, 3 to 28 °C; 2 in sun, wind, on aluminium, zinc.",
            Memory,
        ),
        caution("Steel over 40 °C: do not soap. Cool it with water or wait for shade.", Memory),
        JET_INJECTS,
        JET_DISTANCE,
        MONOXIDE,
        ARM_HELD,
        ENGINE_LOCKED,
        BATTERY_OFF,
        WASH_WATER,
        WASH_COLD,
        WET_FALL,
        NEVER_INSIDE,
        SHEETS_WIN,
    ],
    checks: &[
        check("degrease-mix", "Mix made as the product's sheet says, and logged", CommonPractice),
        check("degrease-not-dried", "No soap dried on", CommonPractice),
        check("degrease-hidden", "Insides, undersides and behind brackets brushed", CommonPractice),
        check("degrease-water-breaks", "Rinse water runs off as a sheet, without beads", CommonPractice),
    ],
    safety: &[battery_off!("degrease"), locked_out!("degrease"), arms_held!("degrease"), eye_wash!("degrease")],
};

pub(super) static NEUTRALISE: Guide = Guide {
    aim: "Take away what the degreaser and salt leave behind.",
    goes_wrong: "Hidden residue spoils the bond, draws water, eats aluminium and zinc.",
    steps: &[
        "Mix the rinse in a pump sprayer as its sheet says",
        "Wet everything: glass, arms, insides, radiators. No scrubbing",
        "Rinse with a fan tip or hose, unless the sheet says leave it on",
        "Test: water sheets off without breaking, a white rag stays clean",
        "Hold pH paper on the wet steel and in tap water: within 1 of each other",
        "After road salt or fertiliser: a salt strip too",
    ],
    at_hand: &[
        "Neutralising rinse and its SDS",
        "Pump sprayer",
        "pH paper, salt strips",
        "White rag",
        "Gloves, goggles, eye-wash",
    ],
    cautions: &[
        caution("Never let an acid rinse meet a chlorine product: poison gas.", CommonPractice),
        caution(
            "Acid rinse: short on zinc. Keep it off 10.9, 12.9 and grade 8 bolts: it can make them brittle.",
            CommonPractice,
        ),
        EYE_HAND,
        JET_INJECTS,
        JET_DISTANCE,
        MONOXIDE,
        ARM_HELD,
        ENGINE_LOCKED,
        BATTERY_OFF,
        WASH_WATER,
        WASH_COLD,
        WET_FALL,
        NEVER_INSIDE,
        SHEETS_WIN,
    ],
    checks: &[
        check("neutralise-all", "Everything wetted: glass, arms, insides, radiators", CommonPractice),
        check("neutralise-sheets", "Water sheets off without breaking", CommonPractice),
        check("neutralise-rag", "White rag stays clean", CommonPractice),
        check("neutralise-ph", "pH paper within 1 of the tap water", CommonPractice),
        check("neutralise-salt", "Salt strip read, if it saw road salt or fertiliser", CommonPractice),
    ],
    safety: &[
        battery_off!("neutralise"),
        locked_out!("neutralise"),
        arms_held!("neutralise"),
        eye_wash!("neutralise"),
        point(
            "neutralise-no-chlorine",
            "No chlorine product is on the machine or in the sprayer",
            "Rinse machine and sprayer with much water first. Acid and chlorine make poison gas.",
            CommonPractice,
        ),
    ],
};

pub(super) static DRY: Guide = Guide {
    aim: "No water left where the film goes.",
    goes_wrong: "Water sealed under the film.",
    steps: &[
        "Drain and blow out pockets, seams, boxes and bolt heads",
        "Open wet covers, look, dry, cover again; keep the count right",
        "Stand it overnight in the shed, warmed if cold",
        "Press a tissue into the five worst seams: dry is a check, not hours",
        "Read air, humidity and the coldest of three steel spots; log them",
    ],
    at_hand: &[
        "Air line and gun, 30 psi at most",
        "Goggles, ear muffs",
        "Tissues",
        "Thermometer, hygrometer",
        "Heater without open flame",
    ],
    cautions: &[
        caution(
            "Air gun at most 30 psi, never at skin. Goggles on. No air line on brake dust: asbestos.",
            Standard("29 CFR 1910.242 (clause from memory)"),
        ),
        MONOXIDE,
        caution(
            "A flame heater also puts water into the air. It goes out and cold before any can is opened.",
            CommonPractice,
        ),
        caution("At 90 % humidity steel gets wetter overnight. Warm the steel or wait.", CommonPractice),
        caution(
            "Steel wants to be 3 °C or more above dew point, until touch-dry, not only now.",
            Standard("ISO 8502-4 guidance (clause from memory)"),
        ),
        WET_FALL,
        ENGINE_LOCKED,
        BATTERY_OFF,
        ARM_HELD,
        SHEETS_WIN,
    ],
    checks: &[
        check("dry-blown-out", "Pockets, seams and boxes blown out", CommonPractice),
        check("dry-covers-opened", "Wet covers opened, looked under, covered again", CommonPractice),
        check("dry-tissue", "Tissue stays dry in the five worst seams", CommonPractice),
        check(
            "dry-reading",
            "Steel 3 °C or more above dew point at the coldest of three spots",
            Standard("ISO 8502-4 guidance (clause from memory)"),
        ),
        check("dry-humidity", "Air at 85 % humidity or less", Standard("ISO 12944-7 (from memory)")),
    ],
    safety: &[
        battery_off!("dry"),
        locked_out!("dry"),
        point(
            "dry-heater",
            "Any flame heater has a flue or open doors, and nothing that burns near it",
            "Swap it for an electric one, or open the doors. No cans, hay or rags near.",
            CommonPractice,
        ),
        point(
            "dry-air-gun",
            "Air gun is set to 30 psi or less; goggles are on",
            "Turn the regulator down and read the gauge while air flows.",
            Standard("29 CFR 1910.242 (clause from memory)"),
        ),
    ],
};
