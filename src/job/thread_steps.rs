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
use crate::sums::thread::{INCH_SIZES, Joint, METRIC, Refusal};

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

/// How the thread sum takes a joint: what it refuses goes by the manual, what is used once is replaced.
pub fn fixing(joint: Joint) -> Fixing {
    match joint.refusal() {
        None => Fixing::Plain,
        Some(Refusal::ManualOnly(_) | Refusal::FilmSpoilsIt(_)) => Fixing::Manual,
        Some(Refusal::Replace(_)) => Fixing::Replace,
    }
}

/// The joints that are meant by it, in words.
///
/// ```
/// use coatwalk::job::{entry::Fixing, thread_steps};
/// assert_eq!(thread_steps::meant(Fixing::Replace), "split pin, tab washer, one-use nut");
/// ```
pub fn meant(by: Fixing) -> String {
    let names: Vec<_> = Joint::ALL.into_iter().filter(|j| fixing(*j) == by).map(Joint::name).collect();
    names.join(", ")
}

/// The thread of a fastener's size as the thread sum names it; none when the words leave it open ("3/8" is coarse or
/// fine) or name a pitch that its list lacks.
///
/// ```
/// use coatwalk::job::thread_steps::size_of_sum;
/// assert_eq!(size_of_sum("m10"), Some("M10"));
/// assert_eq!(size_of_sum("M10 x 1.5"), Some("M10"));
/// assert_eq!(size_of_sum("M10x1"), None);
/// assert_eq!(size_of_sum("3/8-16"), Some("3/8-16 UNC"));
/// assert_eq!(size_of_sum("3/8"), None);
/// ```
pub fn size_of_sum(size: &str) -> Option<&'static str> {
    let words = size.to_ascii_uppercase().replace('×', "X").replace(',', ".").replace(' ', "");
    let (name, pitch) = words.split_once('X').map_or((words.as_str(), None), |(n, p)| (n, Some(p)));
    let right = |mm: f64| pitch.is_none_or(|p| p.parse().is_ok_and(|p: f64| (p - mm).abs() < 1e-9));
    let metric = METRIC.iter().find(|s| s.0 == name && right(s.2)).map(|s| s.0);
    let inch = || INCH_SIZES.iter().find(|s| s.0.split(' ').next() == Some(&words) || s.0.replace(' ', "") == words);
    metric.or_else(|| inch().map(|s| s.0))
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
