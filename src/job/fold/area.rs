//! One area: where each stage stands on it, and what undoes it.

use uuid::Uuid;

use super::Stamp;
use crate::job::entry::AreaId;
use crate::job::stage::Stage;

/// Where one stage stands on one area.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub enum Cell {
    /// Not yet.
    #[default]
    Open,
    /// Was settled once and has to be done again; the reason in words.
    Again(String),
    /// Finished.
    Done(Stamp),
    /// Left out, with the reason.
    Skipped(Stamp, String),
}

impl Cell {
    /// Nothing more to do here.
    pub fn settled(&self) -> bool {
        matches!(self, Cell::Done(_) | Cell::Skipped(..))
    }
}

/// What is kept of a stage on an area besides its cell.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Mark {
    Opened,
    BareSeen,
    Claimed,
}

/// One area of the machine.
#[derive(Clone, PartialEq, Debug)]
pub struct Area {
    pub id: AreaId,
    pub name: String,
    /// Its id in the kind's list; empty for the user's own.
    pub of: String,
    pub removed: bool,
    pub(super) cells: [Cell; 15],
    /// The last entry that wetted it.
    pub(super) wet: Option<Uuid>,
    /// By stage: opened again by hand, keep-bare list answered, somebody on it. A handful, so a plain list.
    pub(super) marks: Vec<(Stage, Mark, Stamp)>,
}

impl Area {
    /// Where a stage stands here.
    pub fn cell(&self, stage: Stage) -> &Cell {
        &self.cells[stage.index()]
    }

    /// The last entry since which the keep-bare list has to be gone through anew before a pass.
    pub fn bare_since(&self, stage: Stage) -> Option<Uuid> {
        self.wet.max(self.mark(stage, Mark::Opened).map(|s| s.entry))
    }

    /// When the keep-bare list was gone through here before a pass, unless it got wet or was opened again since.
    pub fn bare_seen(&self, stage: Stage) -> Option<&Stamp> {
        self.mark(stage, Mark::BareSeen).filter(|s| Some(s.entry) > self.bare_since(stage))
    }

    /// Who is on a stage here, and since when.
    pub fn claimed(&self, stage: Stage) -> Option<&Stamp> {
        self.mark(stage, Mark::Claimed)
    }

    /// Parts lying loose on trestles are an area of their own and never hold up the machine's second pass.
    pub fn loose(&self) -> bool {
        self.of == LOOSE
    }
}

/// The id that every kind gives its area of loose panels.
pub const LOOSE: &str = "loose-panels";

impl Area {
    /// What a finished stage undoes here: water after Dry, degreaser after Neutralise (trade practice).
    pub(super) fn wetted_by(&mut self, stage: Stage, entry: Uuid) {
        if matches!(stage, Stage::Wipe | Stage::Dewax | Stage::Degrease | Stage::Neutralise) {
            self.dry_again(&format!("{} came after it was dry", stage.title()), entry);
        }
        if stage == Stage::Degrease {
            self.neutralise_again("degreased since it was neutralised");
        }
    }

    /// Soap on after Neutralise leaves what Neutralise took away.
    pub(super) fn soaped(&mut self, entry: Uuid) {
        self.dry_again("it was soaped after it was dry", entry);
        self.neutralise_again("soaped since it was neutralised");
    }

    fn neutralise_again(&mut self, why: &str) {
        if matches!(self.cell(Stage::Neutralise), Cell::Done(_)) {
            self.cells[Stage::Neutralise.index()] = Cell::Again(why.into());
        }
    }

    /// Sends what got wet back to Dry, unless the film is already on.
    pub(super) fn dry_again(&mut self, why: &str, entry: Uuid) {
        self.wet = Some(entry);
        if matches!(self.cell(Stage::Dry), Cell::Done(_)) && !matches!(self.cell(Stage::SecondPass), Cell::Done(_)) {
            self.cells[Stage::Dry.index()] = Cell::Again(why.into());
        }
    }

    fn mark(&self, stage: Stage, mark: Mark) -> Option<&Stamp> {
        self.marks.iter().find(|m| m.0 == stage && m.1 == mark).map(|m| &m.2)
    }

    /// Puts a mark in place of the last one; with no stamp takes it away.
    pub(super) fn set_mark(&mut self, stage: Stage, mark: Mark, stamp: Option<&Stamp>) {
        self.marks.retain(|m| m.0 != stage || m.1 != mark);
        self.marks.extend(stamp.map(|s| (stage, mark, s.clone())));
    }
}
