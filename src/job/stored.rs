//! How an entry stands in the store and in files: one flat line of JSON, plain numbers whose names carry the unit.
//!
//! ```json
//! {"v":1,"id":"0192…","job":"0192…","at":"2026-10-05T12:00:00Z","kind":"reading","air_c":18.0,"rh_pct":55.0,"steel_c":16.0}
//! ```
//!
//! May use: serde_json's values. Must not: be used by anything but what is stored. Read by way of a value instead of a
//! derived reader for each shape: a new kind then costs a hundred bytes of the download instead of a thousand.

use chrono::{DateTime, NaiveDate, Utc};
use serde_json::{Map, Value};
use uuid::Uuid;

use super::entry::{AreaId, AreaSeed, Covering, Entry, Fastener, Finding, Fixing, Left, What};
use super::head::{CareDay, Head};
use super::moment::{self, day};
use super::product::{Chemistry, Figure, Product, Sheet, Size, Use};
use super::raw::Raw;
use super::stage::Stage;

type Fields = Map<String, Value>;

/// Something that stands in a line.
pub(super) trait Kept: Sized {
    /// As JSON.
    fn put(&self) -> Value;
    /// From JSON; none for anything else than [`put`](Kept::put) writes.
    fn take(value: Value) -> Option<Self>;
    /// Stands in for a field that could not be read, until the line is refused for it.
    fn hollow() -> Self;
}

impl Kept for String {
    fn put(&self) -> Value {
        Value::String(self.clone())
    }
    fn take(value: Value) -> Option<String> {
        match value {
            Value::String(text) => Some(text),
            _ => None,
        }
    }
    fn hollow() -> Self {
        String::new()
    }
}

impl Kept for bool {
    fn put(&self) -> Value {
        Value::Bool(*self)
    }
    fn take(value: Value) -> Option<bool> {
        value.as_bool()
    }
    fn hollow() -> Self {
        false
    }
}

impl Kept for f64 {
    fn put(&self) -> Value {
        // JSON has no words for what is not finite; no gate lets it come here.
        (*self).into()
    }
    fn take(value: Value) -> Option<f64> {
        value.as_f64()
    }
    fn hollow() -> Self {
        0.0
    }
}

impl Kept for u32 {
    fn put(&self) -> Value {
        (*self).into()
    }
    fn take(value: Value) -> Option<u32> {
        value.as_u64()?.try_into().ok()
    }
    fn hollow() -> Self {
        0
    }
}

impl Kept for i64 {
    fn put(&self) -> Value {
        (*self).into()
    }
    fn take(value: Value) -> Option<i64> {
        value.as_i64()
    }
    fn hollow() -> Self {
        0
    }
}

impl<T: Kept> Kept for Vec<T> {
    fn put(&self) -> Value {
        Value::Array(self.iter().map(T::put).collect())
    }
    fn take(value: Value) -> Option<Vec<T>> {
        match value {
            Value::Array(all) => all.into_iter().map(T::take).collect(),
            _ => None,
        }
    }
    fn hollow() -> Self {
        Vec::new()
    }
}

impl<T: Kept> Kept for Box<T> {
    fn put(&self) -> Value {
        (**self).put()
    }
    fn take(value: Value) -> Option<Box<T>> {
        T::take(value).map(Box::new)
    }
    fn hollow() -> Self {
        Box::new(T::hollow())
    }
}

/// As a list that is not added to: a third smaller in memory than a [`Vec`].
impl<T: Kept> Kept for Box<[T]> {
    fn put(&self) -> Value {
        Value::Array(self.iter().map(T::put).collect())
    }
    fn take(value: Value) -> Option<Box<[T]>> {
        Vec::take(value).map(Vec::into_boxed_slice)
    }
    fn hollow() -> Self {
        Box::default()
    }
}

impl Kept for Raw {
    fn put(&self) -> Value {
        self.value().clone()
    }
    fn take(value: Value) -> Option<Raw> {
        Some(Raw::from(value))
    }
    fn hollow() -> Self {
        Raw::from(Value::Null)
    }
}

/// What stands there as a word of its own.
macro_rules! words {
    ($($type:ty: $read:expr, $write:expr, $hollow:expr;)*) => {$(
        impl Kept for $type {
            fn put(&self) -> Value {
                let write: fn(&$type) -> String = $write;
                Value::String(write(self))
            }
            fn take(value: Value) -> Option<$type> {
                let read: fn(&str) -> Option<$type> = $read;
                read(value.as_str()?)
            }
            fn hollow() -> $type {
                $hollow
            }
        }
    )*};
}

words! {
    Uuid: |w| Uuid::parse_str(w).ok(), |id| id.to_string(), Uuid::nil();
    AreaId: |w| Uuid::parse_str(w).ok().map(AreaId), |a| a.0.to_string(), AreaId(Uuid::nil());
    DateTime<Utc>: moment::read, |at| moment::write(*at), DateTime::default();
    NaiveDate: day::read, |d| day::write(*d), NaiveDate::default();
    // The slug, with the word sign of all stored names.
    Stage: |w| Stage::ALL.into_iter().find(|s| s.slug().replace('-', "_") == w), |s| s.slug().replace('-', "_"), Stage::Survey;
    Covering: |w| Covering::ALL.into_iter().find(|c| c.word() == w), |c| c.word().to_owned(), Covering::Cover;
    Finding: |w| Finding::ALL.into_iter().find(|f| f.word() == w), |f| f.word().to_owned(), Finding::Damage;
    Fixing: |w| Fixing::ALL.into_iter().find(|f| f.word() == w), |f| f.word().to_owned(), Fixing::Plain;
    Use: |w| Use::ALL.into_iter().find(|u| u.word() == w), |u| u.word().to_owned(), Use::ALL[0];
    Chemistry: |w| Chemistry::ALL.into_iter().find(|c| c.word() == w), |c| c.word().to_owned(), Chemistry::ALL[0];
}

/// Takes a field out. What is there but makes no sense is an error; what is missing is none.
fn field<T: Kept>(fields: &mut Fields, name: &str) -> Result<Option<T>, String> {
    match fields.remove(name) {
        None | Some(Value::Null) => Ok(None),
        Some(value) => T::take(value).map(Some).ok_or_else(|| format!("{name} makes no sense")),
    }
}

/// The same for a field that must be there.
fn needed<T: Kept>(fields: &mut Fields, name: &str) -> Result<T, String> {
    field(fields, name)?.ok_or_else(|| format!("without {name}"))
}

/// Reads the fields of a kind one after the other and keeps the first thing wrong for the end: giving up at each field
/// would cost the download a way out for every one of them.
struct Reader<'a> {
    fields: &'a mut Fields,
    wrong: Option<String>,
}

impl Reader<'_> {
    fn or_wrong<T>(&mut self, read: Result<T, String>, instead: fn() -> T) -> T {
        read.unwrap_or_else(|e| {
            self.wrong.get_or_insert(e);
            instead()
        })
    }

    fn need<T: Kept>(&mut self, name: &str) -> T {
        let read = needed(self.fields, name);
        self.or_wrong(read, T::hollow)
    }

    fn may<T: Kept>(&mut self, name: &str) -> Option<T> {
        let read = field(self.fields, name);
        self.or_wrong(read, || None)
    }

    fn empty<T: Kept + Default>(&mut self, name: &str) -> T {
        self.may(name).unwrap_or_default()
    }
}

fn put<T: Kept>(fields: &mut Fields, name: &str, value: &T) {
    fields.insert(name.to_owned(), value.put());
}

fn put_unless_empty<T: Kept + Default + PartialEq>(fields: &mut Fields, name: &str, value: &T) {
    if *value != T::default() {
        put(fields, name, value);
    }
}

/// Both ways for a part of a line: its fields by name. `a` must be there, `[a]` may be missing, `{a}` is empty when
/// missing.
macro_rules! records {
    ($($type:ident { $($need:ident)* $([$may:ident])* $({$empty:ident})* })*) => {$(
        impl Kept for $type {
            fn put(&self) -> Value {
                let mut fields = Fields::new();
                $(put(&mut fields, stringify!($need), &self.$need);)*
                $(if let Some(value) = &self.$may {
                    put(&mut fields, stringify!($may), value);
                })*
                $(put_unless_empty(&mut fields, stringify!($empty), &self.$empty);)*
                Value::Object(fields)
            }
            fn take(value: Value) -> Option<$type> {
                let Value::Object(mut fields) = value else { return None };
                let f = &mut fields;
                Some($type {
                    $($need: needed(f, stringify!($need)).ok()?,)*
                    $($may: field(f, stringify!($may)).ok()?,)*
                    $($empty: field(f, stringify!($empty)).ok()?.unwrap_or_default(),)*
                })
            }
            fn hollow() -> $type {
                $type {
                    $($need: Kept::hollow(),)*
                    $($may: None,)*
                    $($empty: Default::default(),)*
                }
            }
        }
    )*};
}

records! {
    AreaSeed { id name {of} }
    Fastener { size count [length_mm] }
    Left { what reason }
    Head { job name machine [stage] [same_as] [binned_ms] [spent] {demo} {last_ms} {closed} {care} }
    CareDay { sort at }
    Figure { likely [low] [high] {default} {note} }
    Size { size_ml [price] }
    Product { v id used_as name [opened] [expires] [chemistry] {batch} {left_on} {sheet} {sizes} {shelf_ml} }
}

/// A figure that this version does not know is dropped.
impl Kept for Sheet {
    fn put(&self) -> Value {
        let mut fields = Fields::new();
        for (name, slot) in self.clone().slots() {
            if let Some(figure) = slot {
                put(&mut fields, name, figure);
            }
        }
        Value::Object(fields)
    }
    fn take(value: Value) -> Option<Sheet> {
        let Value::Object(mut fields) = value else { return None };
        let mut sheet = Sheet::default();
        for (name, slot) in sheet.slots() {
            *slot = field(&mut fields, name).ok()?;
        }
        Some(sheet)
    }
    fn hollow() -> Self {
        Sheet::default()
    }
}

/// Both ways for every kind from one table: the name of the kind, the variant, and its fields as in `records!`.
macro_rules! kinds {
    ($($kind:literal $variant:ident { $($need:ident)* $([$may:ident])* $({$empty:ident})* })*) => {
        fn what(kind: &str, fields: &mut Fields) -> Result<What, String> {
            let mut r = Reader { fields, wrong: None };
            let what = match kind {
                $($kind => What::$variant {
                    $($need: r.need(stringify!($need)),)*
                    $($may: r.may(stringify!($may)),)*
                    $($empty: r.empty(stringify!($empty)),)*
                },)*
                other => return Err(format!("an entry of an unknown kind, \"{other}\"")),
            };
            r.wrong.map_or(Ok(what), Err)
        }

        fn fields(what: &What) -> (&'static str, Fields) {
            let mut fields = Fields::new();
            let f = &mut fields;
            let kind = match what {
                $(What::$variant { $($need,)* $($may,)* $($empty,)* } => {
                    $(put(f, stringify!($need), $need);)*
                    $(if let Some(value) = $may {
                        put(f, stringify!($may), value);
                    })*
                    $(put_unless_empty(f, stringify!($empty), $empty);)*
                    $kind
                })*
            };
            (kind, fields)
        }
    };
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
    "voice" Voice { stage sound mime bytes seconds [area] [bag] }
    "bagged" Bagged { number part area [plugs] {put} {fasteners} {screwed} {behind} {coat} {joint} {photos} }
    "bag_back" BagBack { bag [counted] [plugs] {short} }
    "cover_on" CoverOn { covering place [area] {with} {arms} }
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
    "soap_on" SoapOn { area minutes {place} }
    "rinsed" Rinsed { stretch }
    "found" Found { area sort {text} {metals} }
    "dealt_with" DealtWith { finding {how} }
    "arms" Arms { position }
    "bare_seen" BareSeen { stage areas }
    "clock_set" ClockSet { name minutes }
    "clock_stopped" ClockStopped { clock }
    "claimed" Claimed { stage areas on }
    "exposure" Exposure { word [no_wash_days] [no_hot_days] [renew_months] }
    "looked" Looked { sort {areas} {note} }
    "same_machine" SameMachine { as_job }
    "binned" Binned { on }
    "undone" Undone { entry }
    "closed" Closed { {left} }
}

/// Reads a line.
///
/// # Errors
/// Words for what is missing, unknown or of a later version.
pub(super) fn read(line: &str, newest: u32) -> Result<Entry, String> {
    let mut f: Fields = serde_json::from_str(line).map_err(|e| format!("not an entry: {e}"))?;
    let named = |e: String| format!("an entry {e}");
    let v: u32 = needed(&mut f, "v").map_err(named)?;
    match v {
        0 => return Err("an entry of version 0".into()),
        later if later > newest => return Err(format!("written by a later version ({later} > {newest})")),
        _ => {}
    }
    let (id, job): (Uuid, Uuid) = (needed(&mut f, "id").map_err(named)?, needed(&mut f, "job").map_err(named)?);
    if id.is_nil() || job.is_nil() {
        return Err("an entry without id or job".into());
    }
    let at = needed(&mut f, "at").map_err(named)?;
    let by = field(&mut f, "by").map_err(named)?.unwrap_or_default();
    let kind: String = needed(&mut f, "kind").map_err(named)?;
    let what =
        what(&kind, &mut f).map_err(|e| if e.starts_with("an entry") { e } else { format!("a {kind} {e}") })?;
    Ok(Entry { v, id, job, at, by, what })
}

/// The line of an entry: who, when and what first, then its fields.
pub(super) fn line(e: &Entry) -> String {
    let (kind, mut fields) = fields(&e.what);
    put_unless_empty(&mut fields, "by", &e.by);
    let rest = Value::Object(fields).to_string();
    // "{}" or "{…}" goes on behind what stands first.
    let rest = if rest.len() > 2 { format!(",{}", &rest[1..]) } else { "}".to_owned() };
    format!(r#"{{"v":{},"id":"{}","job":"{}","at":"{}","kind":"{kind}"{rest}"#, e.v, e.id, e.job, moment::write(e.at))
}
