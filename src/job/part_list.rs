//! What comes off, area by area: the parts of the kind's list and those of his own, and how far each is.
//!
//! Taped is a paper covering made of tape, on the part by its name: so the gate `paper-off` asks for it at touch-dry.
//!
//! May use: the job, the kinds. Must not: decide between taking off and taping; the person does.

use uuid::Uuid;

use super::entry::{AreaId, Covering, What};
use super::fold::Job;
use super::kinds::kind;

/// One part.
#[derive(Clone, PartialEq, Debug)]
pub struct Part {
    pub area: AreaId,
    pub name: String,
    pub state: State,
}

/// How far it is.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum State {
    /// Still on the machine, bare to the spray.
    ToGo,
    /// Off, with its bag.
    Off(Uuid),
    /// Back on.
    Back(Uuid),
    /// Under this tape.
    Taped(Uuid),
    /// The tape came off again.
    TapeOff,
}

/// What a cover of tape is made of, one of [`super::entry::WITH`].
const TAPE: &str = "tape";

/// All parts in the order of the areas: first those of the kind's list, then those that only have a bag.
pub fn all(job: &Job) -> Vec<Part> {
    let kind = kind(&job.machine);
    let mut parts = Vec::new();
    for area in job.areas() {
        let usual = kind.and_then(|k| k.area(&area.of)).map(|a| a.parts).unwrap_or_default();
        let named = |name: &str| usual.iter().any(|u| same(u, name));
        parts.extend(usual.iter().map(|name| part(job, area.id, name)));
        let mut own: Vec<&str> = Vec::new();
        for bag in job.bags.iter().filter(|b| b.area == area.id && !named(&b.part)) {
            if !own.iter().any(|o| same(o, &bag.part)) {
                own.push(&bag.part);
            }
        }
        parts.extend(own.into_iter().map(|name| part(job, area.id, name)));
    }
    parts
}

fn part(job: &Job, area: AreaId, name: &str) -> Part {
    Part { area, name: name.to_owned(), state: state(job, area, name) }
}

fn state(job: &Job, area: AreaId, name: &str) -> State {
    let bags: Vec<_> = job.bags.iter().filter(|b| b.area == area && same(&b.part, name)).collect();
    // A lamp came off in two goes: it is off as long as one of them is.
    if let Some(bag) = bags.iter().rev().find(|b| b.back.is_none()).or(bags.last()) {
        return if bag.back.is_none() { State::Off(bag.id) } else { State::Back(bag.id) };
    }
    let tape = |c: &&super::fold::Cover| c.with == TAPE && c.area == Some(area) && same(&c.place, name);
    match job.covers.iter().rev().find(tape) {
        Some(c) if c.off.is_none() => State::Taped(c.id),
        Some(_) => State::TapeOff,
        None => State::ToGo,
    }
}

/// The same words, however they are spelled: large or small, with blanks to spare.
fn same(a: &str, b: &str) -> bool {
    let plain = |s: &str| s.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    plain(a) == plain(b)
}

/// The entry that says it is taped over.
pub fn tape(area: AreaId, name: &str) -> What {
    let place = name.to_owned();
    What::CoverOn { covering: Covering::Paper, area: Some(area), place, with: TAPE.into(), arms: String::new() }
}
