//! What to do in each stage: steps, what to have at hand, cautions, checks, and the points that must be made safe first.
//!
//! All of it is fixed text. A fact carries its [`Basis`]; a figure is a default, and the owner's own product sheets, the
//! machine's manual and local rules win over it ([`shared::SHEETS_WIN`] stands in every stage).
//!
//! May use: [`super::stage`]. Must not: know a job, a screen or a clock.

mod after;
mod before;
mod coat;
mod lists;
pub mod shared;
mod wash;

pub use lists::{KEEP_BARE, KEEP_BARE_NOTE, MOVING, start_mix, usually_covered};

use super::stage::Stage;

/// All that is said about one stage.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Guide {
    /// What the stage is for, in one line.
    pub aim: &'static str,
    /// What it costs when it is left out or hurried.
    pub goes_wrong: &'static str,
    /// Three to six short imperative lines.
    pub steps: &'static [&'static str],
    /// What to have within reach before starting.
    pub at_hand: &'static [&'static str],
    /// Shown where the work happens.
    pub cautions: &'static [Caution],
    /// Quality points, ticked one by one; can be gone past with a reason.
    pub checks: &'static [Check],
    /// Points that must be made safe before the stage may start; never gone past.
    pub safety: &'static [SafetyPoint],
}

/// A warning, with where it comes from.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Caution {
    pub words: &'static str,
    pub basis: Basis,
}

/// A quality point: a thing that can be ticked.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Check {
    /// Kebab case, starts with the stage's slug, unique among all checks and safety points. Kept in the log: never change it.
    pub id: &'static str,
    pub words: &'static str,
    pub basis: Basis,
}

/// A statement to be made true before the stage may start.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct SafetyPoint {
    /// Kebab case, starts with the stage's slug, unique among all checks and safety points. Kept in the log: never change it.
    pub id: &'static str,
    pub words: &'static str,
    /// What to do if it is not so.
    pub how: &'static str,
    pub basis: Basis,
}

/// Where a fact comes from.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Basis {
    /// A published standard or regulation, named; the name says so where the clause is from memory.
    Standard(&'static str),
    /// Common practice of the trade, without a source.
    CommonPractice,
    /// Recalled, not read.
    Memory,
}

impl Basis {
    /// The words to show beside the fact.
    ///
    /// ```
    /// use coatwalk::job::guide::Basis;
    /// assert_eq!(Basis::CommonPractice.words(), "common practice, no source");
    /// ```
    pub fn words(self) -> &'static str {
        match self {
            Basis::Standard(name) => name,
            Basis::CommonPractice => "common practice, no source",
            Basis::Memory => "from memory",
        }
    }
}

/// The guide to a stage.
///
/// ```
/// use coatwalk::job::{guide::guide, stage::Stage};
/// let cover = guide(Stage::Cover);
/// assert!((3..=6).contains(&cover.steps.len()));
/// assert!(cover.safety.iter().any(|p| p.words.contains("Battery")));
/// ```
pub fn guide(stage: Stage) -> &'static Guide {
    match stage {
        Stage::Survey => &before::SURVEY,
        Stage::TakeOff => &before::TAKE_OFF,
        Stage::Cover => &before::COVER,
        Stage::Wipe => &wash::WIPE,
        Stage::Dewax => &wash::DEWAX,
        Stage::Degrease => &wash::DEGREASE,
        Stage::Neutralise => &wash::NEUTRALISE,
        Stage::Dry => &wash::DRY,
        Stage::Mend => &coat::MEND,
        Stage::Mask => &coat::MASK,
        Stage::FirstPass => &coat::FIRST_PASS,
        Stage::SecondPass => &coat::SECOND_PASS,
        Stage::AirOut => &after::AIR_OUT,
        Stage::Refit => &after::REFIT,
        Stage::Aftercare => &after::AFTERCARE,
    }
}

// Short forms for the tables.
const fn caution(words: &'static str, basis: Basis) -> Caution {
    Caution { words, basis }
}

const fn check(id: &'static str, words: &'static str, basis: Basis) -> Check {
    Check { id, words, basis }
}

const fn point(id: &'static str, words: &'static str, how: &'static str, basis: Basis) -> SafetyPoint {
    SafetyPoint { id, words, how, basis }
}

#[cfg(test)]
pub(crate) mod tests;
