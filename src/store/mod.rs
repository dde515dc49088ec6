//! What stays on the phone: the logs, the photos, one line a job for the list of jobs, and the shelf of products.
//!
//! May use: IndexedDB, [`Entry`], [`Head`]. Must not: decide, fold, or show anything. Nothing here rewrites
//! an entry, and none is deleted but with its whole job, when its time in the bin is over; the shelf is what stands there now, a job's log keeps what was used. A write is acknowledged when its transaction is *complete*, asked for with durability "strict".

pub mod backed_up;
pub mod many;
pub mod prefs;

use std::cell::Cell;
use std::rc::Rc;

use indexed_db_futures::database::Database;
use indexed_db_futures::error::{DomException, Error, OpenDbError};
use indexed_db_futures::internals::SystemRepr;
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::{TransactionDurability, TransactionMode, TransactionOptions};
use js_sys::{ArrayBuffer, Object, Reflect};
use uuid::Uuid;
use wasm_bindgen::prelude::*;

use crate::job::entry::Entry;
use crate::job::head::Head;

/// The database's name; `public/boot.js` reads it too when the app can't start.
pub const NAME: &str = "coatwalk";
/// The schema. A step up needs a rung in `upgrade`.
pub const SCHEMA: u32 = 2;

const ENTRIES: &str = "entries";
const PHOTOS: &str = "photos";
const HEADS: &str = "heads";
const SHELF: &str = "shelf";

/// Why something could not be kept or read.
#[derive(Clone, PartialEq, Debug)]
pub enum StoreError {
    /// The phone has no room left for this app.
    Full,
    /// A later version of the app wrote here: this one only reads.
    Newer,
    /// The browser keeps nothing (a private window, storage switched off).
    Refused(String),
    /// Anything else, in the browser's words.
    Other(String),
}

impl StoreError {
    /// In words for the screen.
    pub fn words(&self) -> String {
        match self {
            StoreError::Full => "The phone has no room left for this app. Free some space, then try again.".into(),
            StoreError::Newer => {
                "A newer Coatwalk has written here. This one only reads: reload to get the newer one.".into()
            }
            StoreError::Refused(why) => {
                format!("This browser keeps nothing here (a private window?). It said: {why}")
            }
            StoreError::Other(why) => format!("The browser could not keep it. It said: {why}"),
        }
    }
}

impl From<Error> for StoreError {
    fn from(e: Error) -> Self {
        if let Error::DomException(dom) = &e {
            let js: &JsValue = dom.as_ref();
            let name = Reflect::get(js, &"name".into()).ok().and_then(|n| n.as_string()).unwrap_or_default();
            return match name.as_str() {
                "QuotaExceededError" => StoreError::Full,
                "SecurityError" | "InvalidStateError" | "UnknownError" => StoreError::Refused(e.to_string()),
                _ => StoreError::Other(e.to_string()),
            };
        }
        StoreError::Other(e.to_string())
    }
}

impl From<JsValue> for StoreError {
    fn from(e: JsValue) -> Self {
        Error::from(e).into()
    }
}

impl From<OpenDbError> for StoreError {
    fn from(e: OpenDbError) -> Self {
        match e {
            OpenDbError::Base(e) => e.into(),
            other => StoreError::Refused(other.to_string()),
        }
    }
}

/// A picture on its way in: JPEG bytes and their type.
#[derive(Clone)]
pub struct Picture {
    pub id: Uuid,
    pub mime: String,
    pub bytes: ArrayBuffer,
}

/// The open database.
pub struct Store {
    db: Database,
    /// A later version wrote here, or is about to; appends are refused.
    newer: Rc<Cell<bool>>,
}

impl Store {
    /// Opens the database, making it on the first start.
    ///
    /// # Errors
    /// [`StoreError::Refused`] where the browser keeps nothing.
    pub async fn open() -> Result<Store, StoreError> {
        let opened = Database::open(NAME)
            .with_version(SCHEMA)
            .with_on_upgrade_needed(|event, db| {
                upgrade(event.old_version() as u32, &db)?;
                Ok(())
            })
            .await;
        match opened {
            Ok(db) => {
                let newer = Rc::new(Cell::new(false));
                give_way(&db, newer.clone());
                Ok(Store { db, newer })
            }
            Err(OpenDbError::Base(Error::DomException(e))) if is_version_error(&e) => {
                // Without a version the browser opens what is there.
                let db = Database::open(NAME).await?;
                Ok(Store { db, newer: Rc::new(Cell::new(true)) })
            }
            Err(e) => Err(e.into()),
        }
    }

    /// A later version wrote here: this one only reads.
    pub fn read_only(&self) -> bool {
        self.newer.get()
    }

    /// Writes one entry, the job's line for the list, and a picture if there is one, in one transaction.
    /// Returns when the transaction is complete.
    ///
    /// # Errors
    /// Any [`StoreError`]; then nothing of it was written.
    pub async fn append(&self, entry: &Entry, head: &Head, picture: Option<&Picture>) -> Result<(), StoreError> {
        if self.read_only() {
            return Err(StoreError::Newer);
        }
        let strict = TransactionOptions::new().with_durability(TransactionDurability::Strict);
        let tx = self
            .db
            .transaction([ENTRIES, PHOTOS, HEADS])
            .with_mode(TransactionMode::Readwrite)
            .with_options(strict)
            .build()?;
        // `add`, never `put`: an entry that is there stays as it is.
        let entries = tx.object_store(ENTRIES)?;
        let added = entries.add(entry.line()).with_key(key(entry.job, entry.id)).primitive()?;
        let heads = tx.object_store(HEADS)?;
        let headed = heads.put(head.line()).with_key(head.job.to_string()).primitive()?;
        let photos = tx.object_store(PHOTOS)?;
        let pictured = match picture {
            Some(p) => Some(photos.add(picture_value(entry.job, p)?).with_key(p.id.to_string()).primitive()?),
            None => None,
        };
        added.await?;
        headed.await?;
        if let Some(p) = pictured {
            p.await?;
        }
        tx.commit().await?;
        Ok(())
    }

    /// The stored lines of one job, in the order of their ids.
    pub async fn lines(&self, job: Uuid) -> Result<Vec<String>, StoreError> {
        let tx = self.db.transaction(ENTRIES).build()?;
        let store = tx.object_store(ENTRIES)?;
        let rows = store.get_all::<JsValue>().with_query::<String, _>(all_of(job)).primitive()?.await?;
        rows.map(|row| Ok(row?.as_string().unwrap_or_default())).collect()
    }

    /// One stored line.
    pub async fn line(&self, job: Uuid, entry: Uuid) -> Result<Option<String>, StoreError> {
        let tx = self.db.transaction(ENTRIES).build()?;
        let store = tx.object_store(ENTRIES)?;
        Ok(store.get::<String, _, _>(key(job, entry)).primitive()?.await?)
    }

    /// One line a job, for the list of jobs. A line that can't be read is left out here; its log still opens.
    pub async fn heads(&self) -> Result<Vec<Head>, StoreError> {
        let tx = self.db.transaction(HEADS).build()?;
        let store = tx.object_store(HEADS)?;
        let rows = store.get_all::<JsValue>().primitive()?.await?;
        let mut heads = Vec::new();
        for row in rows {
            heads.extend(row?.as_string().and_then(|line| Head::read(&line)));
        }
        Ok(heads)
    }

    /// The products on the phone's shelf, a line each, in no order.
    pub async fn shelf(&self) -> Result<Vec<String>, StoreError> {
        // A newer schema is read without its rungs being known here; an older one was brought up when it opened.
        let tx = self.db.transaction(SHELF).build()?;
        let rows = tx.object_store(SHELF)?.get_all::<JsValue>().primitive()?.await?;
        rows.map(|row| Ok(row?.as_string().unwrap_or_default())).collect()
    }

    /// Puts a product on the shelf, in the place of the one with its id; `None` takes it off.
    ///
    /// # Errors
    /// Any [`StoreError`]; then the shelf is as it was.
    pub async fn put_on_shelf(&self, product: Uuid, line: Option<&str>) -> Result<(), StoreError> {
        if self.read_only() {
            return Err(StoreError::Newer);
        }
        let tx = self.db.transaction(SHELF).with_mode(TransactionMode::Readwrite).build()?;
        let shelf = tx.object_store(SHELF)?;
        match line {
            Some(line) => drop(shelf.put(line.to_owned()).with_key(product.to_string()).primitive()?.await?),
            None => shelf.delete(product.to_string()).primitive()?.await?,
        }
        tx.commit().await?;
        Ok(())
    }

    /// A kept picture: its type and bytes.
    pub async fn picture(&self, id: Uuid) -> Result<Option<(String, ArrayBuffer)>, StoreError> {
        let tx = self.db.transaction(PHOTOS).build()?;
        let store = tx.object_store(PHOTOS)?;
        let Some(value) = store.get::<JsValue, _, _>(id.to_string()).primitive()?.await? else { return Ok(None) };
        let part = |name: &str| Reflect::get(&value, &name.into()).unwrap_or(JsValue::UNDEFINED);
        let bytes = part("bytes").dyn_into::<ArrayBuffer>();
        Ok(bytes.ok().map(|b| (part("type").as_string().unwrap_or_default(), b)))
    }
}

/// A picture as it is stored.
fn picture_value(job: Uuid, picture: &Picture) -> Result<JsValue, StoreError> {
    let value = Object::new();
    for (name, part) in [
        ("job", JsValue::from(job.to_string())),
        ("type", JsValue::from(&picture.mime)),
        ("bytes", picture.bytes.clone().into()),
    ] {
        Reflect::set(&value, &name.into(), &part)?;
    }
    Ok(value.into())
}

/// The keys of a job's entries.
fn all_of(job: Uuid) -> std::ops::Range<String> {
    format!("{job}/")..format!("{job}0")
}

fn key(job: Uuid, entry: Uuid) -> String {
    format!("{job}/{entry}")
}

/// The ladder: each rung builds what its version added. It runs in the transaction that sets the version.
fn upgrade(from: u32, db: &Database) -> Result<(), Error> {
    if from < 1 {
        for store in [ENTRIES, PHOTOS, HEADS] {
            db.create_object_store(store).build()?;
        }
    }
    if from < 2 {
        db.create_object_store(SHELF).build()?;
    }
    Ok(())
}

/// Lets a newer version in another tab upgrade: this one closes its door and further writes are refused.
fn give_way(db: &Database, newer: Rc<Cell<bool>>) {
    let raw: web_sys::IdbDatabase = db.as_sys().clone().unchecked_into();
    let asked = raw.clone();
    let close = Closure::<dyn Fn()>::new(move || {
        newer.set(true);
        asked.close();
    });
    raw.set_onversionchange(Some(close.as_ref().unchecked_ref()));
    // Lives as long as the database is open: as long as the page.
    close.forget();
}

fn is_version_error(e: &DomException) -> bool {
    let js: &JsValue = e.as_ref();
    Reflect::get(js, &"name".into()).is_ok_and(|n| n == "VersionError")
}
