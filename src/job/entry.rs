//! What can be written in a job's log. An entry is written once and never changed. Numbers are plain, their names carry
//! the unit; how a line looks in the store is told in `stored.rs`.
//!
//! May use: serde, chrono types, uuid types, [`Stage`]. Must not: decide anything; what follows from entries is
//! [`super::fold`]'s.

use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

pub use super::finding::Finding;
use super::product::Product;
pub use super::raw::Raw;
use super::stage::Stage;
use super::stored;

/// The version written into new entries. A step up needs a rung in [`Entry::read`] and a sample in `tests/samples/`.
pub const VERSION: u32 = 1;

/// An area of the machine, told apart from others by its id, whatever it is called.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
#[serde(transparent)]
pub struct AreaId(pub Uuid);

/// One line of the log.
#[derive(Clone, PartialEq, Debug)]
pub struct Entry {
    /// Version of this shape, [`VERSION`] when written.
    pub v: u32,
    /// Its own id, a UUID version 7: ids sort in the order in which the entries were made.
    pub id: Uuid,
    /// The job it belongs to.
    pub job: Uuid,
    /// What the phone's clock said.
    pub at: DateTime<Utc>,
    /// Who wrote it, if he gave a name.
    pub by: String,
    /// What happened.
    pub what: What,
}

/// What happened.
#[derive(Clone, PartialEq, Debug)]
pub enum What {
    /// The job begins: a machine, its kind, its areas. `demo` marks the invented example.
    Opened { name: String, machine: String, seeds: Vec<AreaSeed>, demo: bool },
    /// An area the kind's list did not have.
    AreaAdded { area: AreaId, name: String },
    /// An area under another name.
    AreaRenamed { area: AreaId, name: String },
    /// An area that this machine does not have, or that is left out.
    AreaRemoved { area: AreaId },
    /// A stage finished on these areas.
    Done { stage: Stage, areas: Vec<AreaId> },
    /// A stage left out on these areas, and why.
    Skipped { stage: Stage, areas: Vec<AreaId>, reason: String },
    /// A stage opened again on these areas, and why.
    OpenedAgain { stage: Stage, areas: Vec<AreaId>, reason: String },
    /// A point of a stage's checklist ticked or unticked.
    Ticked { stage: Stage, item: String, on: bool },
    /// A safety point answered "made safe" for a stage.
    MadeSafe { stage: Stage, point: String },
    /// A quality point gone past, with what was said against it and why he went on.
    WentOn { stage: Stage, areas: Vec<AreaId>, gate: String, because: String, reason: String },
    /// Words.
    Note { stage: Stage, area: Option<AreaId>, text: String },
    /// A picture; its bytes are kept beside the log under `photo`.
    Photo {
        stage: Stage,
        area: Option<AreaId>,
        bag: Option<Uuid>,
        photo: Uuid,
        mime: String,
        bytes: u32,
        width_px: u32,
        height_px: u32,
    },
    /// Spoken words; their bytes are kept beside the log under `sound`.
    Voice {
        stage: Stage,
        area: Option<AreaId>,
        bag: Option<Uuid>,
        sound: Uuid,
        mime: String,
        bytes: u32,
        seconds: u32,
    },
    /// A part came off and its fasteners went into a bag. The bag is known by this entry's id.
    Bagged {
        number: u32,
        part: String,
        area: AreaId,
        put: String,
        fasteners: Box<[Fastener]>,
        /// Plug connections opened to get it off, if anybody counted.
        plugs: Option<u32>,
        /// Its fasteners are screwed back finger-tight where they belong: there is no bag.
        screwed: bool,
        /// The bags of the parts in front of it: it came off after them and goes back before them.
        behind: Box<Vec<Uuid>>,
        /// Its edges and both faces get film while it is off.
        coat: bool,
        /// How its threads may be treated.
        joint: Fixing,
        /// Photos taken of it before it came off, by [`What::Photo`]'s `photo`: they were kept before the bag had an id.
        photos: Box<Vec<Uuid>>,
    },
    /// A bag emptied back onto the machine: how many fasteners and plugs went back, and why fewer or more than came off.
    BagBack { bag: Uuid, counted: Option<u32>, plugs: Option<u32>, short: String },
    /// Something put on against water or film. It is known by this entry's id. `with` is what it is made of, one of
    /// [`WITH`] or empty; `arms` the position of the arms that it belongs to, "A", "B" or empty.
    CoverOn { covering: Covering, area: Option<AreaId>, place: String, with: String, arms: String },
    /// It came off again.
    CoverOff { cover: Uuid },
    /// A bucket mixed.
    Mixed {
        stage: Stage,
        product: String,
        water_parts: f64,
        concentrate_parts: f64,
        water_ml: f64,
        concentrate_ml: f64,
    },
    /// The air, and the coldest steel and the product in its can if they were measured.
    Reading { air_c: f64, rh_pct: Option<f64>, steel_c: Option<f64>, product_c: Option<f64> },
    /// These areas got wet, and how.
    Wetted { areas: Vec<AreaId>, reason: String },
    /// A sum put in the record, in words.
    Sum { sum: String, inputs: String, result: String },
    /// What the plan knows beside the job: a [`super::plan::Setup`], whole. The last one counts.
    Planned { setup: Raw },
    /// A product with its figures as this job uses it ([`Product::tidied`]). The last one of its id counts.
    Product { snapshot: Box<Product> },
    /// A product no longer used in this job.
    ProductOut { product_id: Uuid },
    /// What was really used of a material, weighed, dipped or counted: `amount` in the measure of the
    /// [`super::materials::Item`] whose slug `item` is.
    Used { stage: Stage, item: String, amount: f64, product_id: Option<Uuid>, note: String },
    /// Time really worked on a stage, on the clock, and with how many pairs of hands.
    Worked { stage: Stage, minutes: f64, hands: u32 },
    /// A line of a list ticked or unticked: [`BUY`] by the material's slug, [`DAY_BEFORE`] by the point's id.
    Listed { list: String, item: String, on: bool },
    /// Soap went onto a stretch of an area; `minutes` is the limit then in force. The stretch is known by this entry's id.
    SoapOn { area: AreaId, minutes: f64, place: String },
    /// A stretch rinsed.
    Rinsed { stretch: Uuid },
    /// Found on the walk round; of mixed metals which (slugs of [`crate::sums::galvanic::METALS`]). It is known by this
    /// entry's id.
    Found { area: AreaId, sort: Finding, text: String, metals: Vec<String> },
    /// What was found is dealt with, and how.
    DealtWith { finding: Uuid, how: String },
    /// The arms were set to a position, "A" or "B": engine and hydraulics ran for it.
    Arms { position: String },
    /// The keep-bare list was gone through on these areas before a pass.
    BareSeen { stage: Stage, areas: Vec<AreaId> },
    /// A clock of his own set. It is known by this entry's id.
    ClockSet { name: String, minutes: f64 },
    /// A clock of his own stopped.
    ClockStopped { clock: Uuid },
    /// Who wrote this works on a stage there, or no longer does.
    Claimed { stage: Stage, areas: Vec<AreaId>, on: bool },
    /// How the machine lives, a word of [`super::aftercare::Exposure`], and what the film's own sheet says of the care
    /// after it. The last one counts.
    Exposure { word: String, no_wash_days: Option<u32>, no_hot_days: Option<u32>, renew_months: Option<u32> },
    /// Something of the aftercare done: `sort` is the word of a [`super::aftercare::Sort`]. `areas` are those that want
    /// touching up.
    Looked { sort: String, areas: Vec<AreaId>, note: String },
    /// The machine of this job is the one of another job. The last one counts.
    SameMachine { as_job: Uuid },
    /// Into the bin, or out of it.
    Binned { on: bool },
    /// An earlier entry taken back. Taking back an `Undone` brings the entry in again.
    Undone { entry: Uuid },
    /// The job ends. What was left open stands here, each with its reason.
    Closed { left: Vec<Left> },
}

/// The shopping list, in [`What::Listed`].
pub const BUY: &str = "buy";
/// The list for the day before, in [`What::Listed`].
pub const DAY_BEFORE: &str = "day-before";

/// Labels that are printed, by the bag's id, in [`What::Listed`].
pub const LABELS: &str = "labels";

/// An area at the start of a job.
#[derive(Clone, PartialEq, Debug)]
pub struct AreaSeed {
    /// Its id in this job.
    pub id: AreaId,
    /// Its id in the kind's own list, empty if it is the user's own.
    pub of: String,
    /// What it is called.
    pub name: String,
}

/// One sort of fastener in a bag.
#[derive(Clone, PartialEq, Debug)]
pub struct Fastener {
    /// As typed: "M10", "3/8-16", "clip".
    pub size: String,
    /// Length in millimetres, if given.
    pub length_mm: Option<f64>,
    /// How many.
    pub count: u32,
}

/// How the threads of a part may be treated when it goes back.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum Fixing {
    /// A plain panel fixing: film on the threads, the manual's torque or the thread sum.
    #[default]
    Plain,
    /// The thread sum refuses it: clean, dry, the machine's manual only.
    Manual,
    /// Its locking part is used once: a new one, clean and dry.
    Replace,
}

impl Fixing {
    /// All of them.
    pub const ALL: [Fixing; 3] = [Fixing::Plain, Fixing::Manual, Fixing::Replace];

    /// Its name in the log; a plain one is not written. Never change one.
    pub fn word(self) -> &'static str {
        ["", "manual", "replace"][self as usize]
    }

    /// The name on the screen.
    pub fn title(self) -> &'static str {
        ["Plain fixing", "Manual only", "New locking part"][self as usize]
    }
}

/// What a cover can be made of, in [`What::CoverOn`].
pub const WITH: [&str; 5] = ["paper", "tape", "foil", "bag", "cap"];
/// The positions of the arms, in [`What::Arms`] and [`What::CoverOn`].
pub const POSITIONS: [&str; 2] = ["A", "B"];

/// What a cover is for, which decides when it comes off.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Covering {
    /// Bag or cap on an opening: off before the engine starts.
    Cover,
    /// Paper and tape on glass and the like: off at touch-dry.
    Paper,
    /// Aluminium foil on a rod: off at touch-dry, before anything moves.
    Foil,
}

impl Covering {
    /// All of them, in the order in which they are put on.
    pub const ALL: [Covering; 3] = [Covering::Cover, Covering::Paper, Covering::Foil];

    /// Its name in the log. Never change one.
    pub fn word(self) -> &'static str {
        match self {
            Covering::Cover => "cover",
            Covering::Paper => "paper",
            Covering::Foil => "foil",
        }
    }

    /// The name on the screen.
    pub fn title(self) -> &'static str {
        match self {
            Covering::Cover => "Cover",
            Covering::Paper => "Paper",
            Covering::Foil => "Foil",
        }
    }
}

/// Something still open when the job was closed.
#[derive(Clone, PartialEq, Debug)]
pub struct Left {
    /// What is open, in words.
    pub what: String,
    /// Why it is left so.
    pub reason: String,
}

/// A line of the log that this version can't use, kept as it came.
#[derive(Clone, PartialEq, Debug)]
pub struct Unread {
    /// The line itself.
    pub raw: String,
    /// Why it can't be used.
    pub why: String,
}

impl Entry {
    /// Reads one stored line.
    ///
    /// # Errors
    /// [`Unread`] with the line itself and the reason: text that is not an entry, an entry of a later version, or a
    /// number that no phone could have meant (not finite).
    ///
    /// # Example
    /// ```
    /// use coatwalk::job::entry::Entry;
    /// assert!(Entry::read("mud").is_err());
    /// ```
    pub fn read(raw: &str) -> Result<Entry, Unread> {
        stored::read(raw, VERSION).map_err(|why| Unread { raw: raw.to_owned(), why })
    }

    /// The line as it is stored.
    pub fn line(&self) -> String {
        stored::line(self)
    }
}

/// A number as entries keep it: to six decimals. So it has few enough digits to read back as the very same number
/// from JSON, with any reader.
pub fn tidy(value: f64) -> f64 {
    (value * 1e6).round() / 1e6
}
