//! Before any water: Survey, Take off, Cover.

use super::{Basis::*, Guide, caution, check, point, shared::*};

pub(super) static SURVEY: Guide = Guide {
    aim: "Know what you have before you touch it.",
    goes_wrong: "What is found later is paid for twice.",
    steps: &[
        "Walk round once. Photo every area before you touch it",
        "Note rust, flaking paint, damage, wax on plated parts, unlike metals touching",
        "List what comes off and what must stay bare",
        "Note what the machine has carried; read its hazards below",
        "Set a test patch of the film on paint, decal, clear plastic and rubber; look after 24 h",
        "Ask when fresh paint was done; let it cure as its own sheet says",
    ],
    at_hand: &[
        "Torch",
        "Rag",
        "Chalk or paint marker",
        "Film for the test patch",
        "Sheets (SDS, TDS) of each product",
    ],
    cautions: &[
        ADVICE_ONLY,
        ARM_HELD,
        caution(
            "Test patch outdoors, one short spray, no flame near. Can shut and away before the phone comes close.",
            CommonPractice,
        ),
        NEVER_INSIDE,
        SHEETS_WIN,
    ],
    checks: &[
        check("survey-photos", "Every area has its photo", CommonPractice),
        check("survey-test-patch", "Test patch set on paint, decal, clear plastic and rubber", CommonPractice),
        check("survey-test-patch-read", "Test patch looked at after 24 h: no lift, haze or tack", CommonPractice),
        check("survey-fresh-paint", "Fresh paint has cured to its own sheet, or there is none", CommonPractice),
        check("survey-carried", "What the machine has carried is noted", CommonPractice),
        check("survey-sheets", "Sheets of every product are here; batch and dates noted", CommonPractice),
    ],
    safety: &[point(
        "survey-parked",
        "Engine off, key out, arms on the ground or on their lock",
        "Lower or lock the arms, stop the engine, put the key in your pocket.",
        CommonPractice,
    )],
};

pub(super) static TAKE_OFF: Guide = Guide {
    aim: "Off with what needs no film, to reach the steel behind it.",
    goes_wrong: "Bolts lost or mixed; the steel behind a lamp never gets film.",
    steps: &[
        "Take off panels, lamps, mirrors, plastic mudguards, soft rubber strips",
        "One part, one bag: all its fasteners in, number written on bag and part",
        "Brush or vacuum out what has packed in behind: it holds salt and water",
        "Tie back or cap every plug and hose end as you open it",
        "Lay metal panels ready for the trestles, the rest dry and out of the way",
    ],
    at_hand: &[
        "Spanners and sockets",
        "Bags and a marker",
        "Stiff brush, vacuum",
        "Plugs, caps, cable ties",
        "Trestles",
    ],
    cautions: &[
        ARM_HELD,
        OIL_PRESSURE,
        caution("Brake dust may hold asbestos: no air line, no dry brush. Wet it and wipe it up.", CommonPractice),
        caution(
            "Leave wheel, ROPS, brake, steering, driveline, seat belt and towing bolts alone, unless the manual guides you.",
            CommonPractice,
        ),
        caution(
            "Heavy panels and glass: two people or a sling. Know the weight before the last bolt.",
            CommonPractice,
        ),
        NEVER_INSIDE,
        SHEETS_WIN,
    ],
    checks: &[
        check("take-off-bagged", "Every part off has its numbered bag", CommonPractice),
        check("take-off-behind", "Dirt behind panels and lamps brushed or vacuumed out", CommonPractice),
        check("take-off-capped", "Open hose ends and plugs capped", CommonPractice),
    ],
    safety: &[
        point(
            "take-off-arms-down",
            "Machine and arms are on the ground or on their mechanical lock",
            "Lower everything, or fit the lock. Anything jacked goes onto stands.",
            CommonPractice,
        ),
        point("take-off-key-out", "Engine off and key out", "Stop the engine. Keep the key on you.", CommonPractice),
        point(
            "take-off-chocked",
            "Wheels are chocked",
            "Level ground, brake on, a chock each side of a wheel.",
            CommonPractice,
        ),
        point(
            "take-off-pressure-off",
            "Hydraulic pressure is let off",
            "Engine off, arms down, work every lever as the manual says until nothing moves.",
            CommonPractice,
        ),
    ],
};

pub(super) static COVER: Guide = Guide {
    aim: "Keep water out of what water ruins.",
    goes_wrong: "Water in the electrics; somebody starts it with the intake bagged.",
    steps: &[
        "Isolate the battery: negative lead off first, or the isolator off and locked",
        "Bag and tape air intake, exhaust, breathers and open plugs",
        "Bag and tape alternator, control units and fuse panel",
        "Count the covers as they go on, and log the count",
        "Hang a notice on the key and the wheel: engine bagged, do not start",
    ],
    at_hand: &[
        "Strong bags",
        "Tape that holds when wet",
        "Spanner for the battery",
        "Lock or tag",
        "Notice for the wheel",
    ],
    cautions: &[
        ENGINE_LOCKED,
        BATTERY_OFF,
        caution("Let exhaust and turbo go cold before you bag them.", CommonPractice),
        caution(
            "A battery gives off gas that burns: no spark near it, no ring or watch at the poles.",
            CommonPractice,
        ),
        SHEETS_WIN,
    ],
    checks: &[
        check("cover-intake", "Air intake, exhaust and breathers covered", CommonPractice),
        check("cover-electrics", "Alternator, control units and fuse panel covered", CommonPractice),
        check("cover-plugs", "Open plugs bagged", CommonPractice),
        check("cover-counted", "Covers counted and logged", CommonPractice),
    ],
    safety: &[
        point(
            "cover-battery",
            "Battery is isolated (towed machine: unplugged from the tractor)",
            "Negative lead off first and tied back, or isolator off and locked, as the manual says. Towed: pull its plugs.",
            CommonPractice,
        ),
        point(
            "cover-locked-out",
            "Engine is locked out: key away, notice on the wheel (towed: drive shaft off)",
            "Key in your pocket, notice on the wheel, tell the others. Towed: shaft off and put away.",
            CommonPractice,
        ),
    ],
};
