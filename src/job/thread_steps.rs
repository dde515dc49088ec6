//! The steps at a part's threads when it goes back. They are ticked as points of Refit under `<bag>/<step>`.
//!
//! Common practice, no source; the joints that take no film are those that [`crate::sums::thread::Joint`] refuses.
//!
//! May use: the job. Must not: judge; the gate `thread-steps` stands in [`super::gate`].

use uuid::Uuid;

use super::entry::Fixing;
use super::fold::{Bag, Job};
use super::guide::Basis;
use super::stage::Stage;

/// One step.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Step {
    /// Kept in the log behind the bag's id: never change it.
    pub id: &'static str,
    pub words: &'static str,
}

/// Where the steps come from.
pub const BASIS: Basis = Basis::CommonPractice;

const fn step(id: &'static str, words: &'static str) -> Step {
    Step { id, words }
}

const PLAIN: &[Step] = &[
    step("dab", "Dab film on the female threads"),
    step("wet", "Wet the male threads with film"),
    step("tighten", "Line up and tighten: torque from the manual, else from the Threads sum"),
    step("recoat", "Coat the head again: turning tears the film"),
];
const MANUAL: &[Step] = &[
    step("clean", "Clean threads and seats: no film, no grease"),
    step("dry", "Dry them. No film goes on"),
    step("manual", "Tighten by the machine's manual only: the Threads sum gives no figure"),
];
const REPLACE: &[Step] = &[
    step("new", "Take a new pin, tab washer or locking nut: the old one is used up"),
    step("clean-dry", "Clean and dry the threads. No film goes on"),
    step("by-manual", "Tighten and lock it by the machine's manual only"),
];

/// The steps for a joint.
pub fn of_joint(joint: Fixing) -> &'static [Step] {
    match joint {
        Fixing::Plain => PLAIN,
        Fixing::Manual => MANUAL,
        Fixing::Replace => REPLACE,
    }
}

/// The steps for a part. A plain one whose fasteners have no size in figures (clips, ties) has no threads.
pub fn of(bag: &Bag) -> &'static [Step] {
    let threaded = bag.fasteners.iter().any(|f| f.size.bytes().any(|b| b.is_ascii_digit()));
    if bag.joint == Fixing::Plain && !bag.screwed && !threaded { &[] } else { of_joint(bag.joint) }
}

/// The item under which a step is ticked, with [`Stage::Refit`].
pub fn item(bag: Uuid, step: &Step) -> String {
    format!("{bag}/{}", step.id)
}

/// Is it ticked?
pub fn ticked(job: &Job, bag: Uuid, step: &Step) -> bool {
    job.ticks.contains(&(Stage::Refit, item(bag, step)))
}

/// A ticked item in words; none when it is none of these.
pub fn words(job: &Job, item: &str) -> Option<String> {
    let (bag, id) = item.split_once('/')?;
    let bag = job.bags.iter().find(|b| b.id.to_string() == bag)?;
    let step = [PLAIN, MANUAL, REPLACE].into_iter().flatten().find(|s| s.id == id)?;
    Some(format!("{}: {}", bag.words(), step.words))
}
