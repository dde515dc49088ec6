//! Cautions and safety points that stand in more than one stage, so that they read the same everywhere.

use super::{Basis::*, Caution, caution};

/// Said in every stage: figures are defaults.
pub const SHEETS_WIN: Caution = caution(
    "Figures are defaults. Your product's safety and data sheets (SDS, TDS), the machine's manual and local rules win.",
    CommonPractice,
);
/// Said at the start, before the film and at the end.
pub const ADVICE_ONLY: Caution = caution(
    "This app advises. It certifies nothing. Local codes, the SDS and licensed practice come first.",
    CommonPractice,
);
pub const ARM_HELD: Caution = caution(
    "Never work under an arm held only by oil. On the ground or on its mechanical lock. A jack is not a stand.",
    CommonPractice,
);
pub const ENGINE_LOCKED: Caution =
    caution("Engine and hydraulics stay locked out while an intake cover or a foil is on.", CommonPractice);
pub const BATTERY_OFF: Caution =
    caution("Battery stays isolated from Cover until the shed is purged in Air out.", CommonPractice);
pub const OIL_PRESSURE: Caution = caution(
    "Let hydraulic pressure off before you touch a fitting. A pinhole leak injects oil: hospital within the hour.",
    CommonPractice,
);
pub const JET_INJECTS: Caution = caution(
    "The jet cuts and injects. A pinhole wound from water or oil is a hospital case within the hour.",
    CommonPractice,
);
pub const JET_DISTANCE: Caution = caution(
    "Never a 0° tip. Stay 30 cm off, 50 cm from tyres and bearings. Keep off seals, fins and decals.",
    CommonPractice,
);
pub const HOT_WATER: Caution = caution(
    "Hot water and steam scald. Waterproof gloves, boots, face shield. Nobody else near the lance.",
    CommonPractice,
);
pub const WASH_WATER: Caution = caution(
    "Wash water carries grease and degreaser. Local rules say where it may go. Not the ditch.",
    CommonPractice,
);
pub const WASH_COLD: Caution =
    caution("Wash only with air and steel at 5 °C or more, and no frost before the machine is dry.", Memory);
pub const WET_FALL: Caution = caution(
    "A wet machine throws you. Three points of contact, and work from the ground or a platform.",
    CommonPractice,
);
pub const FILM_FALL: Caution =
    caution("Film on a step is slippery. Do not climb on filmed steps or panels.", CommonPractice);
pub const RAGS: Caution = caution(
    "Rags, paper and filters wet with oil or film can heat up by themselves: flat outdoors, or a lidded metal can of water.",
    CommonPractice,
);
pub const MONOXIDE: Caution = caution(
    "A flame heater, a petrol washer or a running engine indoors makes carbon monoxide. You do not smell it.",
    CommonPractice,
);
pub const EYE_HAND: Caution = caution(
    "Gloves and goggles as the SDS says. Keep the eye-wash within reach, from here to the end of Air out.",
    CommonPractice,
);
pub const NEVER_INSIDE: Caution =
    caution("Never go inside a tank or hopper to clean or spray. Reach in from outside.", CommonPractice);
