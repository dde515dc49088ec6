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

#[cfg(test)]
mod tests {
    use chrono::DateTime;

    use super::*;
    use crate::job::entry::{AreaSeed, Entry, Fixing, VERSION};
    use crate::job::kinds::KINDS;
    use crate::job::log::Log;

    fn write(log: &mut Log, n: u128, what: What) -> Uuid {
        let (id, job) = (Uuid::from_u128(n), Uuid::from_u128(1));
        log.add(Entry { v: VERSION, id, job, at: DateTime::UNIX_EPOCH, by: String::new(), what });
        id
    }

    fn bagged(area: AreaId, part: &str) -> What {
        What::Bagged {
            number: 1,
            part: part.into(),
            area,
            put: String::new(),
            fasteners: Box::default(),
            plugs: None,
            screwed: false,
            behind: Box::default(),
            coat: false,
            joint: Fixing::Plain,
            photos: Box::default(),
        }
    }

    #[test]
    fn a_part_is_to_go_off_back_or_taped() {
        let kind = &KINDS[0];
        let of = kind.areas.iter().find(|a| a.parts.len() >= 2).expect("some area has two parts");
        let area = AreaId(Uuid::from_u128(9));
        let mut log = Log::default();
        let seeds = vec![AreaSeed { id: area, of: of.id.into(), name: of.name.into() }];
        write(&mut log, 10, What::Opened { name: "x".into(), machine: kind.id.into(), seeds, demo: false });
        let state = |log: &Log, name: &str| all(log.job()).into_iter().find(|p| p.name == name).map(|p| p.state);
        assert_eq!(all(log.job()).len(), of.parts.len());
        assert!(all(log.job()).iter().all(|p| p.state == State::ToGo));

        // However it is spelled, it is that part; another name is a part of his own.
        let bag = write(&mut log, 11, bagged(area, &format!(" {} ", of.parts[0].to_uppercase())));
        let own = write(&mut log, 12, bagged(area, "Toolbox"));
        assert_eq!(state(&log, of.parts[0]), Some(State::Off(bag)));
        assert_eq!(state(&log, "Toolbox"), Some(State::Off(own)));
        assert_eq!(all(log.job()).len(), of.parts.len() + 1);
        write(&mut log, 13, What::BagBack { bag, counted: None, plugs: None, short: String::new() });
        assert_eq!(state(&log, of.parts[0]), Some(State::Back(bag)));

        let cover = write(&mut log, 14, tape(area, of.parts[1]));
        assert_eq!(state(&log, of.parts[1]), Some(State::Taped(cover)));
        // The gate that asks for paper and tape counts it.
        assert_eq!(log.job().covers_on(Covering::Paper), 1);
        write(&mut log, 15, What::CoverOff { cover });
        assert_eq!(state(&log, of.parts[1]), Some(State::TapeOff));
        write(&mut log, 16, What::Undone { entry: cover });
        assert_eq!(state(&log, of.parts[1]), Some(State::ToGo));
    }
}
