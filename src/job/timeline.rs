//! The record as a timeline: what a line of it is, which lines a filter leaves, which two photos show before and after.
//!
//! May use: the log, [`tell`]. Must not: reach for a clock, know how high a screen is ([`rows`] is told).

pub mod rows;

use chrono::{DateTime, Utc};
use uuid::Uuid;

use super::entry::{AreaId, Entry, What};
use super::fold::{Job, Keep, Kept};
use super::log::Log;
use super::stage::Stage;
use super::tell::{Told, tell};

/// What a line is about; the record can be looked through by it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
#[allow(missing_docs)] // the titles say it
pub enum Sort {
    Photo,
    Voice,
    Note,
    Reading,
    Bag,
    Mix,
    GonePast,
    Safety,
    Stage,
    Other,
}

impl Sort {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Sort; 10] = [
        Sort::Photo,
        Sort::Voice,
        Sort::Note,
        Sort::Reading,
        Sort::Bag,
        Sort::Mix,
        Sort::GonePast,
        Sort::Safety,
        Sort::Stage,
        Sort::Other,
    ];

    fn row(self) -> (&'static str, &'static str) {
        [
            ("photos", "Photos"),
            ("voice", "Voice notes"),
            ("notes", "Notes"),
            ("readings", "Readings"),
            ("bags", "Bags"),
            ("mixes", "Mixes"),
            ("gone-past", "Left out or gone past"),
            ("safety", "Made safe"),
            ("stages", "Stages done"),
            ("other", "Everything else"),
        ][self as usize]
    }

    /// Its name in an address.
    pub fn slug(self) -> &'static str {
        self.row().0
    }

    /// The name on the screen.
    pub fn title(self) -> &'static str {
        self.row().1
    }

    /// What an entry is about.
    pub fn of(what: &What) -> Sort {
        match what {
            What::Photo { .. } => Sort::Photo,
            What::Voice { .. } => Sort::Voice,
            What::Note { .. } => Sort::Note,
            What::Reading { .. } => Sort::Reading,
            What::Bagged { .. } | What::BagBack { .. } => Sort::Bag,
            What::Mixed { .. } => Sort::Mix,
            What::WentOn { .. } | What::Skipped { .. } => Sort::GonePast,
            What::MadeSafe { .. } => Sort::Safety,
            What::Done { .. } | What::OpenedAgain { .. } => Sort::Stage,
            _ => Sort::Other,
        }
    }
}

/// What belongs to a line and is kept beside the log.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Media {
    /// A picture, under this id.
    Photo(Uuid),
    /// Spoken words, under this id.
    Sound(Uuid),
}

/// A line of the timeline.
#[derive(Clone, PartialEq, Debug)]
pub struct Line {
    /// The entry.
    pub id: Uuid,
    /// What the phone's clock said.
    pub at: DateTime<Utc>,
    /// Who wrote it; may be empty.
    pub by: String,
    /// In words.
    pub told: Told,
    /// Taken back by a later entry.
    pub undone: bool,
    /// What it is about.
    pub sort: Sort,
    /// The stage it belongs to, if it belongs to one.
    pub stage: Option<Stage>,
    /// The areas it belongs to; none when it is about the whole job.
    pub areas: Vec<AreaId>,
    /// A picture or sound.
    pub media: Option<Media>,
}

/// Which lines are wanted; what is not named does not matter.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Filter {
    /// Of this area.
    pub area: Option<AreaId>,
    /// Of this stage.
    pub stage: Option<Stage>,
    /// About this.
    pub sort: Option<Sort>,
}

impl Filter {
    /// Leaves everything.
    pub fn is_open(&self) -> bool {
        *self == Filter::default()
    }

    /// Leaves this line.
    pub fn takes(&self, line: &Line) -> bool {
        self.area.is_none_or(|a| line.areas.contains(&a))
            && self.stage.is_none_or(|s| line.stage == Some(s))
            && self.sort.is_none_or(|s| line.sort == s)
    }
}

/// All lines, newest first.
///
/// # Example
/// ```
/// use coatwalk::job::{log::Log, timeline::{Sort, lines}};
/// let line = r#"{"v":1,"id":"019a0000-0003-7000-8000-000000000003","job":"019a0000-0000-7000-8000-000000000000",
///     "at":"2026-10-05T12:00:00.000Z","kind":"reading","air_c":18.0}"#;
/// let lines = lines(&Log::from_lines([line]));
/// assert_eq!((lines[0].sort, lines[0].told.rest.as_str()), (Sort::Reading, "Air 18 °C"));
/// ```
pub fn lines(log: &Log) -> Vec<Line> {
    let undone = log.undone();
    let line = |e: &Entry| {
        let (stage, areas) = belongs(log.job(), &e.what);
        Line {
            id: e.id,
            at: e.at,
            by: e.by.clone(),
            told: tell(log.job(), e),
            undone: undone.contains(&e.id),
            sort: Sort::of(&e.what),
            stage,
            areas,
            media: match e.what {
                What::Photo { photo, .. } => Some(Media::Photo(photo)),
                What::Voice { sound, .. } => Some(Media::Sound(sound)),
                _ => None,
            },
        }
    };
    log.entries().rev().map(line).collect()
}

/// The stage and the areas an entry belongs to.
fn belongs(job: &Job, what: &What) -> (Option<Stage>, Vec<AreaId>) {
    let bag_of = |id: &Uuid| job.bags.iter().find(|b| b.id == *id).map(|b| b.area);
    let one = |area: Option<AreaId>| area.into_iter().collect::<Vec<_>>();
    match what {
        What::Done { stage, areas }
        | What::Skipped { stage, areas, .. }
        | What::OpenedAgain { stage, areas, .. }
        | What::WentOn { stage, areas, .. }
        | What::BareSeen { stage, areas }
        | What::Claimed { stage, areas, .. } => (Some(*stage), areas.clone()),
        What::Ticked { stage, .. }
        | What::MadeSafe { stage, .. }
        | What::Mixed { stage, .. }
        | What::Used { stage, .. }
        | What::Worked { stage, .. } => (Some(*stage), vec![]),
        What::Note { stage, area, .. } => (Some(*stage), one(*area)),
        What::Photo { stage, area, bag, .. } | What::Voice { stage, area, bag, .. } => {
            (Some(*stage), one(area.or_else(|| bag_of(bag.as_ref()?))))
        }
        What::Bagged { area, .. } => (Some(Stage::TakeOff), vec![*area]),
        What::BagBack { bag, .. } => (Some(Stage::Refit), one(bag_of(bag))),
        What::CoverOn { area, .. } => (None, one(*area)),
        What::CoverOff { cover } => (None, one(job.covers.iter().find(|c| c.id == *cover).and_then(|c| c.area))),
        What::SoapOn { area, .. } => (Some(Stage::Degrease), vec![*area]),
        What::Rinsed { stretch } => {
            (Some(Stage::Degrease), one(job.stretches.iter().find(|s| s.id == *stretch).map(|s| s.area)))
        }
        What::Found { area, .. } => (Some(Stage::Survey), vec![*area]),
        What::DealtWith { finding, .. } => {
            let found = job.found.iter().find(|f| f.id == *finding);
            (found.and_then(|f| f.sort.stage()), one(found.map(|f| f.area)))
        }
        What::Wetted { areas, .. } => (None, areas.clone()),
        What::AreaAdded { area, .. } | What::AreaRenamed { area, .. } | What::AreaRemoved { area } => {
            (None, vec![*area])
        }
        _ => (None, vec![]),
    }
}

/// A photo that can stand before or after.
#[derive(Clone, PartialEq, Debug)]
pub struct Shot {
    /// Its id.
    pub photo: Uuid,
    /// When it was taken in.
    pub at: DateTime<Utc>,
    /// The stage it was taken at.
    pub stage: Stage,
}

/// The photos of an area, oldest first; those of its bags are of parts and stay out.
pub fn shots(job: &Job, area: AreaId) -> Vec<Shot> {
    let shot = |k: &Kept| match k.keep {
        Keep::Photo(photo) if k.area == Some(area) && k.bag.is_none() => {
            Some(Shot { photo, at: k.stamp.at, stage: k.stage })
        }
        _ => None,
    };
    let mut all: Vec<Shot> = job.kept.iter().filter_map(shot).collect();
    all.sort_by_key(|s| s.at);
    all
}

/// Before and after, as places in [`shots`]: the oldest of the time before any water, and the newest since the second
/// pass; where there is none, the oldest and the newest of all. None with fewer than two photos.
///
/// # Example
/// ```
/// use coatwalk::job::{stage::Stage, timeline::{Shot, pair}};
/// let shot = |n: i64, stage| Shot {
///     photo: uuid::Uuid::from_u128(n as u128),
///     at: chrono::DateTime::from_timestamp(n, 0).unwrap(),
///     stage,
/// };
/// let all = [shot(1, Stage::Survey), shot(2, Stage::Mend), shot(3, Stage::AirOut), shot(4, Stage::Refit)];
/// assert_eq!(pair(&all), Some((0, 3)));
/// assert_eq!(pair(&all[..1]), None);
/// ```
pub fn pair(shots: &[Shot]) -> Option<(usize, usize)> {
    if shots.len() < 2 {
        return None;
    }
    let before = shots.iter().position(|s| s.stage <= Stage::TakeOff).unwrap_or(0);
    let after = shots.iter().rposition(|s| s.stage >= Stage::SecondPass).unwrap_or(shots.len() - 1);
    match before < after {
        true => Some((before, after)),
        false => Some((0, shots.len() - 1)),
    }
}

/// The areas that have a before and an after, in the order of the machine.
pub fn comparable(job: &Job) -> Vec<AreaId> {
    job.areas().map(|a| a.id).filter(|id| shots(job, *id).len() > 1).collect()
}
