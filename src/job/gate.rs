//! What must hold before a stage may be called done. On the screen a gate says "Not yet, because …".
//!
//! May use: the job, the guide, the sums. Must not: change a job, reach for a clock, know a screen.
//!
//! [`GATES`] is the one list of quality points: id, rule, basis, check. Safety points stand in the guide of each
//! stage ([`super::guide`]); they are answered "made safe" or the work stops, and no reason takes one past them.

use chrono::{DateTime, TimeDelta, Utc};
use uuid::Uuid;

use super::closing;
use super::entry::{AreaId, Covering, POSITIONS, What};
use super::fold::Job;
use super::guide::{Basis, SafetyPoint, guide};
use super::product::Use;
use super::stage::Stage;
use super::stretch::MOST_MINUTES;

mod bags;
mod checks;

use bags::last_bag;
pub use bags::{BAG_GATES, BAG_ORDER, BagGate, bag_holds};
use checks::*;

/// How heavy a gate is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Weight {
    /// Can be gone past with a reason that stays in the record.
    Quality,
    /// "Made safe", or stop.
    Safety,
}

/// What would open the gate.
#[derive(Clone, PartialEq, Debug)]
pub enum Remedy {
    /// Settle this stage first.
    Finish(Stage),
    /// Take a reading of air and steel.
    Reading,
    /// Wait until then.
    Until(DateTime<Utc>),
    /// Take these off.
    Uncover(Covering),
    /// Put the bag with this number back first.
    Bag(u32),
    /// Write this product down anew: its date, its batch, or another one.
    Product(Use),
    /// Rinse this stretch.
    Rinse(Uuid),
    /// Soap a stretch of this area once more and rinse it in time.
    Soap(AreaId),
    /// Deal with this finding.
    Finding(Uuid),
    /// Go through the keep-bare list.
    BareList,
    /// Tick the thread steps of this bag.
    ThreadSteps(Uuid),
    /// See to the point, then say "made safe".
    MakeSafe(&'static SafetyPoint),
}

/// One gate that is shut.
#[derive(Clone, PartialEq, Debug)]
pub struct Hold {
    pub gate: &'static str,
    pub weight: Weight,
    /// What speaks against it, with figures: it reads on after "Not yet, because".
    pub because: String,
    pub remedy: Remedy,
}

/// A quality gate.
pub struct Gate {
    pub id: &'static str,
    /// The stages it stands before.
    pub stages: &'static [Stage],
    /// The rule in words, as shown and as documented.
    pub rule: &'static str,
    pub basis: Basis,
    check: Check,
}

/// What stands against a stage on these areas now, and what would put it right.
type Check = fn(&Job, Stage, &[AreaId], DateTime<Utc>) -> Option<(String, Remedy)>;

/// How long "made safe" holds before it is asked again, hours (our own choice: one working day).
pub const MADE_SAFE_H: i64 = 12;

use Stage::*;
const ALL_BUT_SURVEY: &[Stage] = &[
    TakeOff, Cover, Wipe, Dewax, Degrease, Neutralise, Dry, Mend, Mask, FirstPass, SecondPass, AirOut, Refit,
    Aftercare,
];

/// Every quality gate, in the order in which they are named on the screen.
pub static GATES: &[Gate] = &[
    Gate {
        id: "order",
        stages: ALL_BUT_SURVEY,
        rule: "every earlier stage is done or left out on the same area",
        basis: Basis::CommonPractice,
        check: order,
    },
    Gate {
        id: "first-pass-everywhere",
        stages: &[SecondPass],
        rule: "the whole machine has its first pass before its second (loose panels are their own)",
        basis: Basis::CommonPractice,
        check: first_pass_everywhere,
    },
    Gate {
        id: "wash-air",
        stages: &[Wipe, Dewax, Degrease, Neutralise],
        rule: "air and steel are at 5 °C or more for washing; no reading, no objection",
        basis: Basis::CommonPractice,
        check: wash_air,
    },
    Gate {
        id: "soap-off",
        stages: &[Degrease, Neutralise],
        rule: "no soap is on a stretch",
        basis: Basis::CommonPractice,
        check: soap_off,
    },
    Gate {
        id: "second-wash",
        stages: &[Degrease, Neutralise],
        rule: "a stretch whose soap stood too long was washed once more in time; limits of 8 to 2 minutes by air, sun and metal",
        basis: Basis::Memory,
        check: second_wash,
    },
    Gate {
        id: "findings",
        stages: &[Dewax, Mend, FirstPass],
        rule: "what the survey found for this stage is dealt with: wax in Dewax, mixed metals in the first pass, the rest in Mend",
        basis: Basis::CommonPractice,
        check: findings,
    },
    Gate {
        id: "keep-bare",
        stages: &[FirstPass, SecondPass],
        rule: "the keep-bare list is answered on the area, since it was last wet or its stage opened again",
        basis: Basis::CommonPractice,
        check: keep_bare,
    },
    Gate {
        id: "film-air",
        stages: &[FirstPass, SecondPass],
        rule: "a fresh reading shows steel 3 °C above dew point, and what the film's data sheet wants; by default air at \
               85 % RH or less, steel at 5 °C or more, the product, when read, at 15 to 25 °C",
        basis: Basis::Standard("ISO 8502-4 (3 °C above dew point) and ISO 12944-7 (85 % RH), from memory"),
        check: film_air,
    },
    Gate {
        id: "product-dates",
        stages: &[FirstPass, SecondPass],
        rule: "the film in use is within its expiry date and its batch is written down; no product logged, no objection",
        basis: Basis::CommonPractice,
        check: product_dates,
    },
    Gate {
        id: "flash-off",
        stages: &[SecondPass],
        rule: "the first pass has flashed off as long as the data sheet of the film in cans says; by default 20 minutes (10 \
               to 60)",
        basis: Basis::Memory,
        check: flash_off,
    },
    Gate {
        id: "air-out",
        stages: &[AirOut],
        rule: "the hours of the liquid film's data sheet since the last second pass, longer when colder; by default 48 h at \
               20 °C",
        basis: Basis::CommonPractice,
        check: aired_out,
    },
    Gate {
        id: "paper-off",
        stages: &[AirOut, Refit],
        rule: "paper and tape are off: they come off at touch-dry",
        basis: Basis::CommonPractice,
        check: |job, _, _, _| still_on(job, Covering::Paper),
    },
    Gate {
        id: "foil-off",
        stages: &[AirOut, Refit],
        rule: "foil is off the rods before anything moves",
        basis: Basis::CommonPractice,
        check: |job, _, _, _| still_on(job, Covering::Foil),
    },
    Gate {
        id: "bags-back",
        stages: &[Refit],
        rule: "every bag of the area is back before its refit is called done",
        basis: Basis::CommonPractice,
        check: bags_back,
    },
];

/// The safety point before the arms move: no foil on a rod, no cover on an opening.
pub const ARMS_LOCKED: &str = "arms-locked";

/// Everything that speaks against calling `stage` done on `areas`: safety points first.
///
/// `areas` empty asks for all areas on which the stage is open.
pub fn holds(job: &Job, stage: Stage, areas: &[AreaId], now: DateTime<Utc>) -> Vec<Hold> {
    let open;
    let areas = if areas.is_empty() {
        open = job.open_areas(stage);
        &open
    } else {
        areas
    };
    let safety = guide(stage).safety.iter().filter(|p| !made_safe(job, stage, p, now)).map(|p| Hold {
        gate: p.id,
        weight: Weight::Safety,
        because: p.words.to_owned(),
        remedy: Remedy::MakeSafe(p),
    });
    let quality = GATES.iter().filter(|g| g.stages.contains(&stage)).filter_map(|g| {
        let asked: Vec<_> = areas.iter().copied().filter(|a| !gone_past(job, g.id, stage, *a)).collect();
        let (because, remedy) = if asked.is_empty() { None } else { (g.check)(job, stage, &asked, now) }?;
        Some(Hold { gate: g.id, weight: Weight::Quality, because, remedy })
    });
    safety.chain(quality).collect()
}

/// Why an entry may not be written.
#[derive(Clone, PartialEq, Debug)]
pub enum Refusal {
    /// Gates that are shut.
    Held(Vec<Hold>),
    /// Something is missing or makes no sense; the words say what would be right.
    Words(String),
}

/// The one door: what a tap wants to write is asked here first.
///
/// # Errors
/// A [`Refusal`] with every gate that is shut, or with words for what is missing.
pub fn permits(job: &Job, what: &What, now: DateTime<Utc>) -> Result<(), Refusal> {
    let held = |h: Vec<Hold>| if h.is_empty() { Ok(()) } else { Err(Refusal::Held(h)) };
    let words = |w: &str| Err(Refusal::Words(w.into()));
    match what {
        What::Done { stage, areas } if areas.is_empty() => {
            words(&format!("No area was named for {}.", stage.title()))
        }
        What::Done { stage, areas } => held(holds(job, *stage, areas, now)),
        What::BagBack { bag, counted, plugs, short } => {
            bags::counted(job, *bag, *counted, *plugs, short)?;
            held(bag_holds(job, *bag, now))
        }
        What::Bagged { behind, .. } if !behind.iter().all(|id| job.bags.iter().any(|b| b.id == *id)) => {
            words("A part in front of it is not on the list of bags.")
        }
        What::Arms { position } if !POSITIONS.contains(&position.as_str()) => words("Say which: position A or B."),
        What::Arms { .. } => held(arms_locked(job)),
        What::SoapOn { minutes, .. } if !(0.5..=MOST_MINUTES).contains(minutes) => {
            words("Give the limit in minutes: from half a minute to an hour.")
        }
        What::SoapOn { area, .. } | What::Found { area, .. } if job.area(*area).is_none() => words("Say which area."),
        What::ClockSet { name, .. } if name.trim().is_empty() => words("Give the clock a name."),
        What::ClockSet { minutes, .. } if !(1.0..=525_600.0).contains(minutes) => {
            words("Give the time in minutes: one at least, a year at most.")
        }
        What::DealtWith { how, .. } if how.trim().is_empty() => words("Say what was done: a few words are enough."),
        What::Skipped { reason, .. } | What::WentOn { reason, .. } if reason.trim().is_empty() => {
            words("Say why: a few words are enough.")
        }
        What::WentOn { gate, .. } if is_safety(gate) => words("This is a safety point: make it safe, or stop."),
        What::AreaRemoved { area } if !job.areas().any(|a| a.id != *area) => words("The last area can't be removed."),
        What::Used { amount: n, .. } | What::Worked { minutes: n, .. } if !(0.0..=1e6).contains(n) => {
            words("Give a number that is not less than nothing.")
        }
        What::Closed { left } => {
            let open = closing::open_points(job);
            let missing = open.iter().find(|p| !left.iter().any(|l| l.what == **p && !l.reason.trim().is_empty()));
            missing.map_or(Ok(()), |p| words(&format!("Still open: {p}. Put it right, or say why it stays so.")))
        }
        _ => Ok(()),
    }
}

fn is_safety(gate: &str) -> bool {
    !GATES.iter().any(|g| g.id == gate) && !BAG_GATES.iter().any(|g| g.id == gate)
}

/// What keeps engine and hydraulics locked, and so the arms where they are. Any cover on an opening counts, not only one whose place reads "intake": what a
/// person calls the intake is his own word, and a cover is off before the engine starts.
pub fn arms_locked(job: &Job) -> Vec<Hold> {
    let held = |covering: Covering, what: &str| {
        let on = job.covers.iter().filter(|c| c.cover == covering && c.off.is_none());
        // The intake is named first.
        let first = on.max_by_key(|c| c.place.to_ascii_lowercase().contains("intake"))?;
        Some(Hold {
            gate: ARMS_LOCKED,
            weight: Weight::Safety,
            because: format!("engine and hydraulics stay locked while {what} is on: {}", first.place),
            remedy: Remedy::Uncover(covering),
        })
    };
    held(Covering::Foil, "foil").into_iter().chain(held(Covering::Cover, "a cover")).collect()
}

/// True when the point was answered for this stage within the last [`MADE_SAFE_H`] hours.
pub fn made_safe(job: &Job, stage: Stage, point: &SafetyPoint, now: DateTime<Utc>) -> bool {
    job.made_safe
        .get(&(stage, point.id.to_owned()))
        .is_some_and(|at| (now - *at).abs() <= TimeDelta::hours(MADE_SAFE_H))
}

/// Gone past on an area. A new reading closes an air gate again, another product a gate that reads it, new soap, a new
/// finding, water or the next bag the gates that speak of them.
fn gone_past(job: &Job, gate: &str, stage: Stage, area: AreaId) -> bool {
    let mut reasons = job.went_on.iter().filter(|w| w.gate == gate && w.stage == stage && w.areas.contains(&area));
    let Some(last) = reasons.next_back() else { return false };
    let reading = || job.last_reading().map(|r| r.stamp.entry);
    let product = |used_as: Option<Use>| used_as.and_then(|u| job.in_use_as(u)).map(|p| p.stamp.entry);
    let since = match gate {
        "wash-air" => reading(),
        "film-air" => reading().max(product(Use::film_of(stage))),
        "product-dates" => product(Use::film_of(stage)),
        "flash-off" => product(Some(Use::AerosolFilm)),
        "air-out" => product(Some(Use::LiquidFilm)),
        "soap-off" | "second-wash" => last_soap(job, area),
        "findings" => last_finding(job, stage, area),
        "keep-bare" => job.area(area).and_then(|a| a.bare_since(stage)),
        // Said for one bag: the next one is asked for anew.
        "behind" | "thread-steps" => last_bag(job, area),
        _ => None,
    };
    since.is_none_or(|entry| last.stamp.entry > entry)
}
