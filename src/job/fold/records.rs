//! The plain records that a job is made of.

use uuid::Uuid;

use super::Stamp;
use crate::job::entry::{AreaId, Covering, Fastener, Fixing};
use crate::job::product::Product;
use crate::job::stage::Stage;

/// One bag of fasteners.
#[derive(Clone, PartialEq, Debug)]
pub struct Bag {
    pub id: Uuid,
    pub number: u32,
    /// Who filled it; may be empty.
    pub by: String,
    pub part: String,
    pub area: AreaId,
    pub put: String,
    pub fasteners: Vec<Fastener>,
    /// Plug connections opened to get it off.
    pub plugs: Option<u32>,
    /// Its fasteners are screwed back where they belong: there is no bag.
    pub screwed: bool,
    /// The bags of the parts in front of it: it goes back before them.
    pub behind: Vec<Uuid>,
    /// Its edges and both faces get film while it is off.
    pub coat: bool,
    pub joint: Fixing,
    pub back: Option<Stamp>,
    /// Plugs closed again, when it came back.
    pub plugs_back: Option<u32>,
    /// Why fewer or more went back than came off; the last word counts.
    pub short: String,
}

impl Bag {
    /// "bag 3 (lamp)", or without a bag "lamp (screws in place)".
    pub fn words(&self) -> String {
        match self.screwed {
            true => format!("{} (screws in place)", self.part),
            false => format!("bag {} ({})", self.number, self.part),
        }
    }

    /// How many fasteners came off; none when nobody wrote them down.
    pub fn fasteners_in(&self) -> Option<u32> {
        (!self.fasteners.is_empty()).then(|| self.fasteners.iter().fold(0u32, |n, f| n.saturating_add(f.count)))
    }

    /// Plugs still open.
    pub fn plugs_open(&self) -> u32 {
        self.plugs.unwrap_or(0).saturating_sub(self.plugs_back.unwrap_or(0))
    }
}

/// One thing put on against water or film.
#[derive(Clone, PartialEq, Debug)]
pub struct Cover {
    pub id: Uuid,
    pub cover: Covering,
    pub area: Option<AreaId>,
    pub place: String,
    /// What it is made of, or empty.
    pub with: String,
    /// The position of the arms that it belongs to, or empty.
    pub arms: String,
    pub off: Option<Stamp>,
}

/// A clock of the user's own.
#[derive(Clone, PartialEq, Debug)]
pub struct OwnClock {
    pub id: Uuid,
    pub stamp: Stamp,
    pub name: String,
    pub minutes: f64,
    pub stopped: Option<Stamp>,
}

/// One reading of the air.
#[derive(Clone, PartialEq, Debug)]
pub struct Reading {
    pub stamp: Stamp,
    pub air_c: f64,
    pub rh_pct: Option<f64>,
    pub steel_c: Option<f64>,
    pub product_c: Option<f64>,
}

/// A quality point gone past.
#[derive(Clone, PartialEq, Debug)]
pub struct WentOn {
    pub stamp: Stamp,
    pub stage: Stage,
    pub areas: Vec<AreaId>,
    pub gate: String,
    pub because: String,
    pub reason: String,
}

/// A photo, a note or spoken words, by where it belongs.
#[derive(Clone, PartialEq, Debug)]
pub struct Kept {
    pub stamp: Stamp,
    pub stage: Stage,
    pub area: Option<AreaId>,
    pub bag: Option<Uuid>,
    pub keep: Keep,
}

/// What was kept.
#[derive(Clone, PartialEq, Debug)]
pub enum Keep {
    Note(String),
    Photo(Uuid),
    Sound(Uuid),
}

/// A bucket mixed.
#[derive(Clone, PartialEq, Debug)]
pub struct Mix {
    pub stamp: Stamp,
    pub stage: Stage,
    pub product: String,
    pub water_ml: f64,
    pub concentrate_ml: f64,
}

/// A product as the job uses it.
#[derive(Clone, PartialEq, Debug)]
pub struct InUse {
    /// Of the entry that it last came in.
    pub stamp: Stamp,
    pub product: Product,
    /// No longer used.
    pub out: bool,
}

/// So much of a material really used.
#[derive(Clone, PartialEq, Debug)]
pub struct Used {
    pub stamp: Stamp,
    pub stage: Stage,
    /// Slug of the [`crate::job::materials::Item`].
    pub item: String,
    /// In the item's measure.
    pub amount: f64,
    pub product_id: Option<Uuid>,
    pub note: String,
}

/// Time really worked.
#[derive(Clone, PartialEq, Debug)]
pub struct Worked {
    pub stamp: Stamp,
    pub stage: Stage,
    /// On the clock.
    pub minutes: f64,
    pub hands: u32,
}

/// How the machine lives after the work, as it was last said.
#[derive(Clone, PartialEq, Debug)]
pub struct Care {
    pub stamp: Stamp,
    /// Word of the [`crate::job::aftercare::Exposure`].
    pub word: String,
    /// From the film's own sheet, if it says so.
    pub no_wash_days: Option<u32>,
    pub no_hot_days: Option<u32>,
    pub renew_months: Option<u32>,
}

/// Something of the aftercare done.
#[derive(Clone, PartialEq, Debug)]
pub struct Looked {
    pub stamp: Stamp,
    /// Word of the [`crate::job::aftercare::Sort`].
    pub sort: String,
    /// Those that want touching up.
    pub areas: Vec<AreaId>,
    pub note: String,
}
