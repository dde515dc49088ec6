//! The bin, as the session sees it: which job comes up, and what goes when its time is over.
//!
//! May use: the store, [`Bin`]. Must not: decide when a job's time is over; `job::bin` does.

use chrono::Utc;
use leptos::prelude::*;
use uuid::Uuid;

use super::Session;
use crate::job::bin::Bin;
use crate::job::entry::{Entry, VERSION, What};
use crate::job::head::Head;
use crate::job::log::{Log, id_after};
use crate::share::merge::Line;
use crate::store::StoreError;

impl Session {
    /// The job that comes up at the start: the one open last, else the newest. Never one in the bin.
    pub(super) fn to_open(self) -> Option<Uuid> {
        let last = self.prefs.with_untracked(|p| p.job);
        self.heads.with_untracked(|all| {
            let mut out = all.iter().filter(|h| h.binned_ms.is_none());
            let newest = out.clone().next();
            out.find(|h| Some(h.job) == last).or(newest).map(|h| h.job)
        })
    }

    /// Removes the jobs whose time in the bin is over, photos too. What can't be removed now goes at the next start.
    pub(super) async fn empty_bin(self) {
        let now = Utc::now().timestamp_millis();
        let over = |h: &Head| Bin::of(h, now).is_some_and(Bin::over);
        let jobs = self.heads.with_untracked(|all| all.iter().filter(|h| over(h)).map(|h| h.job).collect::<Vec<_>>());
        let Ok(store) = self.store() else { return };
        for job in &jobs {
            let Ok(lines) = store.lines(*job).await else { continue };
            // The list is a copy: the log has the word.
            if Head::of(Log::from_lines(&lines).job()).is_none_or(|h| !over(&h)) {
                continue;
            }
            let media: Vec<Uuid> = lines.iter().filter_map(|l| Line::read(l).ok()?.media).collect();
            let _ = store.remove(*job, &media).await;
        }
        if !jobs.is_empty() {
            let _ = self.read_heads().await;
        }
    }

    /// Puts a job into the bin. When it was the open one, another comes up.
    ///
    /// # Errors
    /// Any [`StoreError`]; then it stays where it is.
    pub async fn put_away(self, job: Uuid) -> Result<(), StoreError> {
        self.write_in(job, What::Binned { on: true }).await?;
        if self.peek(|l| l.job().id) != Some(job) {
            return Ok(());
        }
        match self.to_open() {
            Some(next) => self.load_brought(next).await,
            None => {
                self.log.set(Log::default());
                self.choose(|p| p.job = None);
                self.tell_walk();
                Ok(())
            }
        }
    }

    /// Takes a job out of the bin; it does not come up by that.
    ///
    /// # Errors
    /// Any [`StoreError`]; then it stays in the bin.
    pub async fn bring_back(self, job: Uuid) -> Result<(), StoreError> {
        self.write_in(job, What::Binned { on: false }).await
    }

    /// Writes into a job, open or not.
    ///
    /// # Errors
    /// Any [`StoreError`]; then nothing was written.
    pub async fn write_in(self, job: Uuid, what: What) -> Result<(), StoreError> {
        if self.peek(|l| l.job().id) == Some(job) {
            let entry = self.entry(what, Utc::now()).ok_or(StoreError::Other("no job is open".into()))?;
            return self.keep(&entry, None).await;
        }
        let store = self.store()?;
        let mut log = Log::from_lines(store.lines(job).await?);
        let id = id_after(log.newest(), Uuid::now_v7());
        let by = self.prefs.with_untracked(|p| p.name.clone());
        let entry = Entry { v: VERSION, id, job, at: Utc::now(), by, what };
        log.add(entry.clone());
        let head = Head::of(log.job()).ok_or(StoreError::Other("the job was never opened".into()))?;
        store.append(&entry, &head, None).await?;
        self.note_head(head);
        self.say(&format!("{job}/{id}"));
        Ok(())
    }
}
