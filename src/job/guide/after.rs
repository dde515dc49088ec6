//! After the film: Air out, Refit, Aftercare.

use super::coat::AFTER_SPRAY;
use super::{Basis::*, Guide, caution, check, point, shared::*};

pub(super) static AIR_OUT: Guide = Guide {
    aim: "Let the solvent leave before anything is shut or fitted.",
    goes_wrong: "Solvent trapped behind panels; a relay as the spark.",
    steps: &[
        "Respirator on: at touch-dry take paper, tape and foil off, in the aired shed; count it",
        "Open boxes, cab and engine bay and leave them open",
        "Doors open both sides until the purge ends (shed aired through); heaters stay out",
        "Log shed temperature; the clock corrects for cold",
        "Wait at least 48 h at about 20 °C, longer when colder (default, sheet wins)",
        "Battery back only when all stood open and the shed is purged",
    ],
    at_hand: &["Respirator", "Gloves", "Lidded metal can with water", "Thermometer", "Count of masks from Mask"],
    cautions: &[
        AFTER_SPRAY[0],
        AFTER_SPRAY[1],
        AFTER_SPRAY[2],
        AFTER_SPRAY[3],
        caution(
            "Heaters, flames and smoking stay out until the purge ends. Extinguisher and door notice stay too.",
            Standard("29 CFR 1910.107, NFPA 33 (clauses from memory); local fire code wins"),
        ),
        caution("A relay sparks. Battery stays off until boxes, cab and engine bay have stood open.", CommonPractice),
        RAGS,
        FILM_FALL,
        NEVER_INSIDE,
        EYE_HAND,
        caution(
            "The film goes on giving off vapour for several days. Do not sleep or store feed beside it.",
            CommonPractice,
        ),
        ENGINE_LOCKED,
        ADVICE_ONLY,
        SHEETS_WIN,
    ],
    checks: &[
        check("air-out-paper-off", "Paper, tape and foil off at touch-dry, and counted", CommonPractice),
        check("air-out-boxes-open", "Boxes, cab and engine bay stand open", CommonPractice),
        check("air-out-temperature", "Shed temperature logged", CommonPractice),
        check("air-out-waste", "Wet paper, rags and filters are outdoors or in the metal can", CommonPractice),
    ],
    safety: &[
        point(
            "air-out-heaters-out",
            "Heaters and flames are out, and stay out until the purge ends",
            "Take heaters out of the shed. Wait with any warmth until it is aired through.",
            Standard("29 CFR 1910.107, NFPA 33 (clauses from memory); local fire code wins"),
        ),
        point(
            "air-out-phone-out",
            "Phone, lamps, fans and chargers stay outside until the purge ends",
            "Put them down outside, about 6 m to the sides. Log from there.",
            Standard("NFPA 33 (distances from memory)"),
        ),
        point(
            "air-out-battery",
            "Battery stays off until boxes, cab and engine bay stood open and the shed is purged",
            "Leave it isolated and the key away. Open everything, air the shed, then put it back.",
            CommonPractice,
        ),
        point(
            "air-out-respirator",
            "Respirator stays on in the shed while paper and tape come off",
            "Put it on before you go in. Cartridge past its change time: fit a fresh one.",
            Standard("29 CFR 1910.134 (clause from memory)"),
        ),
    ],
};

pub(super) static REFIT: Guide = Guide {
    aim: "Everything back without tearing the film.",
    goes_wrong: "Film torn at every bolt; a bag left over.",
    steps: &[
        "Open the bags in reverse order: last off goes on first",
        "Panel screws: dab female threads, wet male threads, line up, tighten",
        "Re-coat each head after it is tight: turning tears the film",
        "Gaskets, lamps and plugs back; new split pins, tab washers, one-use nuts",
        "Count covers, paper and foil to zero before the engine starts",
        "Outdoors: brakes, lamps, reflectors, guards, steering, seat switch, leaks",
    ],
    at_hand: &[
        "Bags in reverse order",
        "Film and small brush",
        "Torque wrench and manual",
        "New split pins and one-use nuts",
        "Gloves, extinguisher",
    ],
    cautions: &[
        caution(
            "Wheel, ROPS, brake, steering, driveline, seat belt, towing and locked threads: no film, manual only.",
            CommonPractice,
        ),
        caution("A film-wetted thread turns easier: the dry torque overloads it. Ask the manual.", Memory),
        caution(
            "Exhaust haze and smell at first start are to be expected. Start outdoors, extinguisher by you.",
            CommonPractice,
        ),
        caution(
            "Re-coat the heads away from flame, sparks and the running engine. Phone aside while the can is open.",
            CommonPractice,
        ),
        ENGINE_LOCKED,
        ARM_HELD,
        OIL_PRESSURE,
        FILM_FALL,
        RAGS,
        MONOXIDE,
        ADVICE_ONLY,
        SHEETS_WIN,
    ],
    checks: &[
        check("refit-heads", "Every turned head coated again", CommonPractice),
        check("refit-new-locks", "Split pins, tab washers and one-use nuts are new", CommonPractice),
        check("refit-torque", "Torques from the manual where it gives them", CommonPractice),
        check("refit-brakes", "Brakes and steering tried outdoors", CommonPractice),
        check("refit-lamps", "Lamps, reflectors, guards and seat switch tried", CommonPractice),
        check("refit-leaks", "No leaks after ten minutes' running", CommonPractice),
    ],
    safety: &[
        point(
            "refit-covers-off",
            "Every cover, paper and foil is off before the engine starts",
            "Count them off against the log. Look in the intake and at every rod.",
            CommonPractice,
        ),
        point(
            "refit-purged",
            "Boxes, cab and engine bay stood open and the shed is purged before power is on",
            "Leave the battery off, open everything, air the shed, and wait.",
            CommonPractice,
        ),
        point(
            "refit-arms-held",
            "Arms are on the ground or on their mechanical lock while you fit parts",
            "Lower the arms or fit the lock; key out, wheels chocked.",
            CommonPractice,
        ),
    ],
};

pub(super) static AFTERCARE: Guide = Guide {
    aim: "Keep the film whole.",
    goes_wrong: "Film is lost and nobody sees it until it rusts.",
    steps: &[
        "No washing for about 7 days (default, sheet wins)",
        "No hot wash or degreaser for about 4 weeks (default, sheet wins)",
        "Rinse with cold water after fertiliser, manure or salt",
        "Look at edges and bolt heads every month; touch up",
        "Renew when the product's sheet says: often 6 to 24 months",
    ],
    at_hand: &["Small can for touch-up", "Rag", "Torch"],
    cautions: &[
        caution(
            "Touch-up is spraying too: outdoors, no flame, phone aside, mask and gloves as the SDS says.",
            CommonPractice,
        ),
        RAGS,
        FILM_FALL,
        ARM_HELD,
        JET_INJECTS,
        JET_DISTANCE,
        ADVICE_ONLY,
        SHEETS_WIN,
    ],
    checks: &[
        check("aftercare-dates", "Wash and renewal dates written down or in the calendar", CommonPractice),
        check("aftercare-kept", "Product, batch and date kept with the machine's papers", CommonPractice),
        check("aftercare-touch-up", "Touch-up can set aside, with its sheet", CommonPractice),
    ],
    safety: &[point(
        "aftercare-parked",
        "Engine off, key out, arms on the ground or locked before you look under",
        "Lower or lock the arms, stop the engine, keep the key on you.",
        CommonPractice,
    )],
};
