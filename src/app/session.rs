//! The one place through which screens read the open job and write to it.
//!
//! tap → [`Session::write`] → gates → durable append → fold → signals → screen.
//!
//! May use: job, store, device. Must not: decide (the gates do), draw (screens do).

pub mod bin;
mod together;

use std::rc::Rc;

use chrono::{DateTime, Utc};
use leptos::prelude::*;
use uuid::Uuid;
use wasm_bindgen_futures::spawn_local;
use web_sys::BroadcastChannel;

use crate::device::stay::{self, Stays};
use crate::device::window;
use crate::job::entry::{Entry, VERSION, What};
use crate::job::fold::Job;
use crate::job::gate::{self, Refusal};
use crate::job::head::Head;
use crate::job::log::{Log, id_after};
use crate::share;
use crate::store::prefs::Prefs;
use crate::store::{Picture, Store, StoreError};

/// An entry that could not be kept. It stays on the screen until it is kept or given up.
#[derive(Clone)]
pub struct Unsaved {
    pub entry: Entry,
    pub picture: Option<Picture>,
    pub why: StoreError,
}

/// Where the start stands.
#[derive(Clone, PartialEq)]
pub enum Start {
    Opening,
    Ready,
    Failed(StoreError),
}

/// Everything the screens share. Cheap to copy.
#[derive(Clone, Copy)]
pub struct Session {
    log: RwSignal<Log>,
    store: StoredValue<Option<Rc<Store>>, LocalStorage>,
    channel: StoredValue<Option<BroadcastChannel>, LocalStorage>,
    /// The jobs on this phone, newest first.
    pub heads: RwSignal<Vec<Head>>,
    pub start: RwSignal<Start>,
    pub read_only: RwSignal<bool>,
    /// The last entry acknowledged from this screen, offered for undo.
    pub saved: RwSignal<Option<Uuid>>,
    pub unsaved: RwSignal<Vec<Unsaved>, LocalStorage>,
    /// What stood against the last tap, if anything did.
    pub refused: RwSignal<Option<String>>,
    /// Now, to the second; clocks and ages read it.
    pub now: RwSignal<DateTime<Utc>>,
    pub prefs: RwSignal<Prefs>,
    pub stays: RwSignal<Stays>,
    /// The desk, out of sight.
    resting: StoredValue<bool>,
}

impl Session {
    /// A session with nothing open yet; [`Session::begin`] opens the store.
    pub fn closed() -> Session {
        Session {
            log: RwSignal::new(Log::default()),
            store: StoredValue::new_local(None),
            channel: StoredValue::new_local(None),
            heads: RwSignal::new(Vec::new()),
            start: RwSignal::new(Start::Opening),
            read_only: RwSignal::new(false),
            saved: RwSignal::new(None),
            unsaved: RwSignal::new_local(Vec::new()),
            refused: RwSignal::new(None),
            now: RwSignal::new(Utc::now()),
            prefs: RwSignal::new(Prefs::load()),
            stays: RwSignal::new(Stays::Unknown),
            resting: StoredValue::new(false),
        }
    }

    /// Opens the store and the job that was open last.
    pub async fn begin(self) {
        match Store::open().await {
            Ok(store) => {
                self.read_only.set(store.read_only());
                self.store.set_value(Some(Rc::new(store)));
                self.listen();
                // A list that can't be read is no empty phone.
                if let Err(e) = self.read_heads().await {
                    self.start.set(Start::Failed(e));
                    return;
                }
                // A killed browser may have forgotten which job was open, but never the job: the newest one comes up.
                if let Some(job) = self.to_open()
                    && let Err(e) = self.load(job).await
                {
                    self.start.set(Start::Failed(e));
                    return;
                }
                self.stays.set(stay::now().await);
                self.start.set(Start::Ready);
                self.empty_bin().await;
            }
            Err(e) => self.start.set(Start::Failed(e)),
        }
    }

    /// Reads something from the open job, tracked.
    pub fn job<T>(self, read: impl FnOnce(&Job) -> T) -> T {
        self.log.with(|l| read(l.job()))
    }

    /// Reads something from the open log, tracked.
    pub fn log<T>(self, read: impl FnOnce(&Log) -> T) -> T {
        self.log.with(read)
    }

    /// The open log as it stands, without tracking it.
    pub fn peek<T>(self, read: impl FnOnce(&Log) -> T) -> T {
        self.log.with_untracked(read)
    }

    /// True when a job is open, tracked.
    pub fn has_job(self) -> bool {
        self.job(|j| j.id.is_some())
    }

    /// Opens another job of this phone.
    pub async fn load(self, job: Uuid) -> Result<(), StoreError> {
        let store = self.store.get_value().ok_or(StoreError::Refused("not open".into()))?;
        let lines = store.lines(job).await?;
        self.log.set(Log::from_lines(lines));
        self.opened(job);
        Ok(())
    }

    /// Another job is open now.
    fn opened(self, job: Uuid) {
        self.saved.set(None);
        if self.prefs.with_untracked(|p| p.job) != Some(job) {
            self.choose(|p| p.job = Some(job));
            self.tell_walk();
        }
    }

    /// Starts a new job with these first entries; it becomes the open one.
    pub async fn open_new(self, entries: Vec<Entry>) -> Result<(), StoreError> {
        let store = self.store.get_value().ok_or(StoreError::Refused("not open".into()))?;
        let mut log = Log::default();
        let Some(job) = entries.first().map(|e| e.job) else { return Ok(()) };
        for entry in entries {
            log.add(entry.clone());
            if let Some(head) = Head::of(log.job()) {
                store.append(&entry, &head, None).await?;
            }
        }
        self.log.set(log);
        let _ = self.read_heads().await;
        self.say(&format!("{job}/"));
        self.opened(job);
        self.ask_to_stay();
        Ok(())
    }

    /// Writes what a tap means, if no gate stands against it. Returns at once; the screen changes when it is durable.
    pub fn write(self, what: What) {
        self.write_with(what, None, |_| ());
    }

    /// Like [`write`](Session::write), with a picture, and something to do once it is durable.
    pub fn write_with(self, what: What, picture: Option<Picture>, then: impl FnOnce(Uuid) + 'static) {
        self.write_boxed(what, picture, Box::new(then));
    }

    fn write_boxed(self, what: What, picture: Option<Picture>, then: Box<dyn FnOnce(Uuid)>) {
        self.refused.set(None);
        let now = Utc::now();
        if let Err(refusal) = self.log.with_untracked(|l| gate::permits(l.job(), &what, now)) {
            self.refused.set(Some(words(&refusal)));
            return;
        }
        let Some(entry) = self.entry(what, now) else { return };
        spawn_local(async move {
            let id = entry.id;
            match self.keep(&entry, picture.as_ref()).await {
                Ok(()) => {
                    self.saved.set(Some(id));
                    then(id);
                }
                Err(why) => self.unsaved.update(|u| u.push(Unsaved { entry, picture, why })),
            }
        });
    }

    /// Takes an entry back.
    pub fn undo(self, entry: Uuid) {
        self.write_with(What::Undone { entry }, None, move |_| self.saved.set(None));
    }

    /// Tries once more to keep what could not be kept.
    pub fn try_again(self) {
        spawn_local(async move {
            for u in self.unsaved.get_untracked() {
                match self.keep(&u.entry, u.picture.as_ref()).await {
                    Ok(()) => self.unsaved.update(|all| all.retain(|x| x.entry.id != u.entry.id)),
                    Err(_) => break,
                }
            }
        });
    }

    /// The products on this phone's shelf, a line each.
    pub async fn shelf_lines(self) -> Option<Vec<String>> {
        self.store.get_value()?.shelf().await.ok()
    }

    /// The lines of a job that is not open.
    pub async fn other_lines(self, job: Uuid) -> Option<Vec<String>> {
        self.store.get_value()?.lines(job).await.ok()
    }

    /// Puts a product on the shelf, or takes it off.
    pub fn shelve(self, product: Uuid, line: Option<String>) {
        let Some(store) = self.store.get_value() else { return };
        spawn_local(async move {
            if let Err(e) = store.put_on_shelf(product, line.as_deref()).await {
                self.refused.set(Some(e.words()));
            }
        });
    }

    /// The store itself, for the backup: it reads and takes in many jobs at once.
    pub fn store(self) -> Result<Rc<Store>, StoreError> {
        self.store.get_value().ok_or(StoreError::Refused("not open".into()))
    }

    /// A kept picture.
    pub async fn picture(self, id: Uuid) -> Option<(String, js_sys::ArrayBuffer)> {
        let store = self.store.get_value()?;
        store.picture(id).await.ok().flatten()
    }

    /// Changes a preference and keeps it.
    pub fn choose(self, change: impl FnOnce(&mut Prefs)) {
        // The other session, or another tab, may have chosen meanwhile.
        let mut kept = Prefs::stored().unwrap_or_else(|| self.prefs.get_untracked());
        change(&mut kept);
        self.prefs.set(kept);
        self.prefs.with_untracked(Prefs::save);
    }

    /// Every line of the open job as it is stored, for a file that can be read without the app.
    pub fn raw_lines(self) -> String {
        let unsaved: Vec<Entry> = self.unsaved.get_untracked().into_iter().map(|u| u.entry).collect();
        self.peek(|log| share::log_file(log, &unsaved))
    }

    fn entry(self, what: What, at: DateTime<Utc>) -> Option<Entry> {
        let (job, newest) = self.log.with_untracked(|l| (l.job().id, l.newest()));
        let by = self.prefs.with_untracked(|p| p.name.clone());
        // Entries on their way are above what the log has; the next id must be above them too.
        let newest = newest.max(PENDING.get());
        let id = id_after(newest, Uuid::now_v7());
        PENDING.set(Some(id));
        Some(Entry { v: VERSION, id, job: job?, at, by, what })
    }

    async fn keep(self, entry: &Entry, picture: Option<&Picture>) -> Result<(), StoreError> {
        let store = self.store.get_value().ok_or(StoreError::Refused("not open".into()))?;
        let head = self.log.with_untracked(|l| match entry.what {
            // Taking back is the log's work.
            What::Undone { .. } => {
                let mut after = l.clone();
                after.add(entry.clone());
                Head::of(after.job())
            }
            _ => {
                let mut after = l.job().clone();
                after.apply(entry);
                Head::of(&after)
            }
        });
        let head = head.ok_or(StoreError::Other("no job is open".into()))?;
        store.append(entry, &head, picture).await?;
        self.log.update(|l| {
            l.add(entry.clone());
        });
        self.note_head(head);
        self.say(&format!("{}/{}", entry.job, entry.id));
        self.ask_to_stay();
        Ok(())
    }

    fn note_head(self, head: Head) {
        self.heads.update(|all| match all.iter_mut().find(|h| h.job == head.job) {
            Some(h) => *h = head,
            None => all.insert(0, head),
        });
    }

    /// The list of jobs, anew. What could not be read leaves it as it was.
    async fn read_heads(self) -> Result<(), StoreError> {
        let Some(store) = self.store.get_value() else { return Ok(()) };
        let mut heads = store.heads().await?;
        heads.sort_by_key(|h| std::cmp::Reverse(h.last_ms));
        self.heads.set(heads);
        Ok(())
    }

    /// Asked after the first entry is acknowledged, never awaited by it.
    fn ask_to_stay(self) {
        if self.stays.get_untracked() == Stays::Unknown || self.stays.get_untracked() == Stays::Maybe {
            if ASKED.replace(true) {
                return;
            }
            spawn_local(async move { self.stays.set(stay::ask().await) });
        }
    }
}

thread_local! {
    static PENDING: std::cell::Cell<Option<Uuid>> = const { std::cell::Cell::new(None) };
    static ASKED: std::cell::Cell<bool> = const { std::cell::Cell::new(false) };
}

/// A refusal in words.
fn words(refusal: &Refusal) -> String {
    match refusal {
        Refusal::Words(w) => w.clone(),
        Refusal::Held(holds) => {
            let Some(first) = holds.first() else { return String::new() };
            let start = if first.weight == gate::Weight::Safety { "Make safe first:" } else { "Not yet, because" };
            let more = if holds.len() > 1 { format!(" And {} more.", holds.len() - 1) } else { String::new() };
            format!("{start} {}.{more}", first.because)
        }
    }
}

/// Light or dark, left or right hand, as chosen.
pub fn follow_ground(session: Session) {
    Effect::new(move || {
        let ground = session.prefs.with(|p| p.ground.clone());
        let left = session.prefs.with(|p| p.left_handed);
        if let Some(page) = window().document().and_then(|d| d.document_element()) {
            let _ = page.set_attribute("data-ground", &ground);
            let _ = page.set_attribute("data-hand", if left { "left" } else { "right" });
        }
    });
}

/// The session of this app.
pub fn use_session() -> Session {
    expect_context::<Session>()
}
