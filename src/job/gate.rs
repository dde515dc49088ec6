//! What must hold before a stage may be called done. On the screen a gate says "Not yet, because …".
//!
//! May use: the job, the guide, the sums. Must not: change a job, reach for a clock, know a screen.
//!
//! [`GATES`] is the one list of quality points: id, rule, basis, check. Safety points stand in the guide of each
//! stage ([`super::guide`]); they are answered "made safe" or the work stops, and no reason takes one past them.

use chrono::{DateTime, TimeDelta, Utc};

use super::air;
use super::clock::{self, FlashOff};
use super::closing;
use super::entry::{AreaId, Covering, What};
use super::fold::{Cell, Job};
use super::guide::{Basis, SafetyPoint, guide};
use super::moment::day;
use super::product::{Use, origin};
use super::stage::{Scope, Stage};

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

/// The gate that orders the bags; it stands before a bag, not before a stage.
pub const BAG_ORDER: &str = "bag-order";

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
        let (because, remedy) = (g.check)(job, stage, areas, now)?;
        let hold = Hold { gate: g.id, weight: Weight::Quality, because, remedy };
        (!gone_past(job, &hold, stage, areas)).then_some(hold)
    });
    safety.chain(quality).collect()
}

/// What speaks against putting one bag back: everything against Refit on its area but its own bag, and the order.
pub fn bag_holds(job: &Job, bag: uuid::Uuid, now: DateTime<Utc>) -> Vec<Hold> {
    let Some(b) = job.bags.iter().find(|b| b.id == bag) else { return Vec::new() };
    let mut found = holds(job, Refit, &[b.area], now);
    found.retain(|h| h.gate != "bags-back");
    if let Some(last) = job.bags_to_go_back().first()
        && last.id != bag
    {
        let hold = Hold {
            gate: BAG_ORDER,
            weight: Weight::Quality,
            because: format!("bag {} ({}) came off later and may be in the way", last.number, last.part),
            remedy: Remedy::Bag(last.number),
        };
        if !gone_past(job, &hold, Refit, &[b.area]) {
            found.push(hold);
        }
    }
    found
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
        What::BagBack { bag } => held(bag_holds(job, *bag, now)),
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
    !GATES.iter().any(|g| g.id == gate) && gate != BAG_ORDER
}

/// True when the point was answered for this stage within the last [`MADE_SAFE_H`] hours.
pub fn made_safe(job: &Job, stage: Stage, point: &SafetyPoint, now: DateTime<Utc>) -> bool {
    job.made_safe
        .get(&(stage, point.id.to_owned()))
        .is_some_and(|at| (now - *at).abs() <= TimeDelta::hours(MADE_SAFE_H))
}

/// Gone past on every area asked for. A new reading closes an air gate again, another product a gate that reads it.
fn gone_past(job: &Job, hold: &Hold, stage: Stage, areas: &[AreaId]) -> bool {
    let reading = || job.last_reading().map(|r| r.stamp.entry);
    let product = |used_as: Option<Use>| used_as.and_then(|u| job.in_use_as(u)).map(|p| p.stamp.entry);
    let since = match hold.gate {
        "wash-air" => reading(),
        "film-air" => reading().max(product(Use::film_of(stage))),
        "product-dates" => product(Use::film_of(stage)),
        "flash-off" => product(Some(Use::AerosolFilm)),
        "air-out" => product(Some(Use::LiquidFilm)),
        _ => None,
    };
    let holds_good = |w: &&super::fold::WentOn| {
        w.gate == hold.gate && w.stage == stage && since.is_none_or(|entry| w.stamp.entry > entry)
    };
    areas.iter().all(|a| job.went_on.iter().filter(holds_good).any(|w| w.areas.contains(a)))
}

fn order(job: &Job, stage: Stage, areas: &[AreaId], _: DateTime<Utc>) -> Option<(String, Remedy)> {
    // Where the whole machine stands in one stage, every area must have come so far; else only the areas asked for.
    let whole = stage.scope() == Scope::Whole;
    for earlier in Stage::ALL.into_iter().take_while(|s| *s < stage) {
        let open: Vec<_> =
            job.areas().filter(|a| (whole || areas.contains(&a.id)) && !a.cell(earlier).settled()).collect();
        let Some(first) = open.first() else { continue };
        let (name, title) = (&first.name, earlier.title());
        let because = match (first.cell(earlier), open.len()) {
            (Cell::Again(why), 1) => format!("{title} has to be done again on {name}: {why}"),
            (Cell::Again(why), n) => format!("{title} has to be done again on {n} areas: {why}"),
            (_, 1) => format!("{title} is still open on {name}"),
            (_, n) => format!("{title} is still open on {n} areas, {name} first"),
        };
        return Some((because, Remedy::Finish(earlier)));
    }
    None
}

fn first_pass_everywhere(job: &Job, _: Stage, areas: &[AreaId], _: DateTime<Utc>) -> Option<(String, Remedy)> {
    let only_loose = areas.iter().all(|id| job.area(*id).is_some_and(|a| a.loose()));
    let open: Vec<_> = job.areas().filter(|a| !a.loose() && !a.cell(FirstPass).settled()).collect();
    let first = open.first().filter(|_| !only_loose)?;
    Some((
        format!("the first pass is still open on {} of the machine's areas, {} first", open.len(), first.name),
        Remedy::Finish(FirstPass),
    ))
}

fn wash_air(job: &Job, _: Stage, _: &[AreaId], now: DateTime<Utc>) -> Option<(String, Remedy)> {
    air::against_washing(job.last_reading()?, now).map(|because| (because, Remedy::Reading))
}

fn film_air(job: &Job, stage: Stage, _: &[AreaId], now: DateTime<Utc>) -> Option<(String, Remedy)> {
    air::against_pass(job, Use::film_of(stage)?, now).map(|because| (because, Remedy::Reading))
}

fn product_dates(job: &Job, stage: Stage, _: &[AreaId], now: DateTime<Utc>) -> Option<(String, Remedy)> {
    let used_as = Use::film_of(stage)?;
    let film = job.product(used_as)?;
    // By the date in UTC: a product does not turn bad at a midnight.
    let expired = film.expires.filter(|e| *e < now.date_naive());
    let expired = expired.map(|e| format!("{} was to be used by {}", film.name, day::write(e)));
    let batch = film.batch.trim().is_empty().then(|| format!("the batch of {} is not written down", film.name));
    let because: Vec<String> = expired.into_iter().chain(batch).collect();
    (!because.is_empty()).then(|| (because.join(", and "), Remedy::Product(used_as)))
}

fn flash_off(job: &Job, _: Stage, _: &[AreaId], now: DateTime<Utc>) -> Option<(String, Remedy)> {
    let FlashOff { minutes, own } = FlashOff::of_job(job);
    let ready = *job.last_done.get(&FirstPass)? + TimeDelta::minutes(minutes);
    let left = (ready - now).num_seconds();
    (left > 0).then(|| {
        (
            format!("the first pass has {} min of its {minutes} to flash off ({})", (left + 59) / 60, origin(own)),
            Remedy::Until(ready),
        )
    })
}

fn aired_out(job: &Job, _: Stage, _: &[AreaId], now: DateTime<Utc>) -> Option<(String, Remedy)> {
    let clock = clock::air_out(job, now)?;
    clock.against().map(|because| (because, clock.finish.map_or(Remedy::Reading, Remedy::Until)))
}

fn still_on(job: &Job, cover: Covering) -> Option<(String, Remedy)> {
    let on: Vec<_> = job.covers.iter().filter(|c| c.cover == cover && c.off.is_none()).collect();
    let first = on.first()?;
    let what = cover.title().to_ascii_lowercase();
    let because = match on.len() {
        1 => format!("{what} is still on: {}", first.place),
        n => format!("{what} is still on in {n} places, {} first", first.place),
    };
    Some((because, Remedy::Uncover(cover)))
}

fn bags_back(job: &Job, _: Stage, areas: &[AreaId], _: DateTime<Utc>) -> Option<(String, Remedy)> {
    let full: Vec<_> = job.bags_to_go_back().into_iter().filter(|b| areas.contains(&b.area)).collect();
    let first = full.first()?;
    Some((format!("bag {} ({}) is still full", first.number, first.part), Remedy::Bag(first.number)))
}
