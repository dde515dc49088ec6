//! How an entry stands in the store and in files: one flat line of JSON, plain numbers whose names carry the unit.
//!
//! ```json
//! {"v":1,"id":"0192…","job":"0192…","at":"2026-10-05T12:00:00Z","kind":"reading","air_c":18.0,"rh_pct":55.0,"steel_c":16.0}
//! ```
//!
//! May use: serde. Must not: be used by anything but [`Entry::read`] and [`Entry::line`]. One flat record instead of a
//! shape for each kind keeps the reader small, and a line readable without this program.

use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::entry::{AreaId, AreaSeed, Covering, Entry, Fastener, Left, What};
use super::moment;
use super::product::Product;
use super::raw::Raw;
use super::stage::Stage;

macro_rules! stored {
    ($($field:ident: $kind:ty,)*) => {
        /// A line as it is stored. What a kind does not need is not written.
        #[derive(Serialize, Deserialize, Default)]
        #[serde(default)]
        pub(super) struct Stored {
            pub v: u32,
            id: Uuid,
            job: Uuid,
            #[serde(with = "moment")]
            at: DateTime<Utc>,
            #[serde(skip_serializing_if = "String::is_empty")]
            by: String,
            kind: String,
            $(#[serde(skip_serializing_if = "Option::is_none")] $field: Option<$kind>,)*
        }
    };
}

stored! {
    name: String,
    machine: String,
    seeds: Vec<AreaSeed>,
    demo: bool,
    stage: Stage,
    areas: Vec<AreaId>,
    area: AreaId,
    reason: String,
    item: String,
    on: bool,
    point: String,
    gate: String,
    because: String,
    text: String,
    bag: Uuid,
    photo: Uuid,
    mime: String,
    bytes: u32,
    width_px: u32,
    height_px: u32,
    number: u32,
    part: String,
    put: String,
    fasteners: Vec<Fastener>,
    covering: Covering,
    place: String,
    cover: Uuid,
    product: String,
    water_parts: f64,
    concentrate_parts: f64,
    water_ml: f64,
    concentrate_ml: f64,
    air_c: f64,
    rh_pct: f64,
    steel_c: f64,
    product_c: f64,
    sum: String,
    inputs: String,
    result: String,
    setup: Raw,
    snapshot: Box<Product>,
    product_id: Uuid,
    amount: f64,
    note: String,
    minutes: f64,
    hands: u32,
    list: String,
    entry: Uuid,
    left: Vec<Left>,
}

/// Both ways for every kind from one table: the name of the kind, the variant, and its fields. `a` must be there, `[a]`
/// may be missing, `{a}` is empty when missing.
macro_rules! kinds {
    ($($kind:literal $variant:ident { $($need:ident)* $([$may:ident])* $({$empty:ident})* })*) => {
        impl Stored {
            /// # Errors
            /// Words for what is missing or unknown.
            pub(super) fn entry(self) -> Result<Entry, String> {
                let missing = |field: &str| format!("a {} without {field}", self.kind);
                let what = match self.kind.as_str() {
                    $($kind => What::$variant {
                        $($need: self.$need.ok_or_else(|| missing(stringify!($need)))?,)*
                        $($may: self.$may,)*
                        $($empty: self.$empty.unwrap_or_default(),)*
                    },)*
                    other => return Err(format!("an entry of an unknown kind, \"{other}\"")),
                };
                if self.id.is_nil() || self.job.is_nil() || self.v == 0 {
                    return Err("an entry without id, job or version".into());
                }
                Ok(Entry { v: self.v, id: self.id, job: self.job, at: self.at, by: self.by, what })
            }

            pub(super) fn of(e: &Entry) -> Stored {
                let mut s = Stored { v: e.v, id: e.id, job: e.job, at: e.at, by: e.by.clone(), ..Stored::default() };
                match &e.what {
                    $(What::$variant { $($need,)* $($may,)* $($empty,)* } => {
                        s.kind = $kind.into();
                        $(s.$need = Some($need.clone());)*
                        $(s.$may = $may.clone();)*
                        $(s.$empty = Some($empty.clone()).filter(|v| !is_empty(v));)*
                    })*
                }
                s
            }
        }
    };
}

fn is_empty<T: Default + PartialEq>(value: &T) -> bool {
    *value == T::default()
}

kinds! {
    "opened" Opened { name machine seeds {demo} }
    "area_added" AreaAdded { area name }
    "area_renamed" AreaRenamed { area name }
    "area_removed" AreaRemoved { area }
    "done" Done { stage areas }
    "skipped" Skipped { stage areas reason }
    "opened_again" OpenedAgain { stage areas reason }
    "ticked" Ticked { stage item on }
    "made_safe" MadeSafe { stage point }
    "went_on" WentOn { stage areas gate because reason }
    "note" Note { stage text [area] }
    "photo" Photo { stage photo mime bytes width_px height_px [area] [bag] }
    "bagged" Bagged { number part area {put} {fasteners} }
    "bag_back" BagBack { bag }
    "cover_on" CoverOn { covering place [area] }
    "cover_off" CoverOff { cover }
    "mixed" Mixed { stage product water_parts concentrate_parts water_ml concentrate_ml }
    "reading" Reading { air_c [rh_pct] [steel_c] [product_c] }
    "wetted" Wetted { areas reason }
    "sum" Sum { sum inputs result }
    "planned" Planned { setup }
    "product" Product { snapshot }
    "product_out" ProductOut { product_id }
    "used" Used { stage item amount [product_id] {note} }
    "worked" Worked { stage minutes hands }
    "listed" Listed { list item on }
    "undone" Undone { entry }
    "closed" Closed { {left} }
}
