//! The log of one job: entries by id, what could not be read, and the state they fold to.
//!
//! May use: [`Entry`], [`Job`]. Must not: write entries of its own, reach for a clock, fail on any entry.

use std::collections::{BTreeMap, BTreeSet};

use uuid::Uuid;

use super::entry::{Entry, Unread, What};
use super::fold::{Job, Problem};

/// What became of an entry offered to the log.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Added {
    /// It was not there before.
    New,
    /// The very same entry was there already; nothing changed.
    Same,
    /// Another entry with the same id was there; the first one stays and the clash is listed as a problem.
    Clash,
}

/// All entries of one job, in the order of their ids, and the job they make.
///
/// Two logs of the same job merge by offering every entry of one to the other: the order does not matter.
#[derive(Clone, Debug, Default)]
pub struct Log {
    entries: BTreeMap<Uuid, Entry>,
    unread: Vec<Unread>,
    clashes: BTreeSet<(Uuid, String)>,
    job: Job,
}

impl Log {
    /// Reads stored lines. Lines that can't be used are kept in [`unread`](Log::unread) and never stop the rest.
    pub fn from_lines<S: AsRef<str>>(lines: impl IntoIterator<Item = S>) -> Log {
        let mut log = Log::default();
        for line in lines {
            match Entry::read(line.as_ref()) {
                Ok(e) => {
                    log.put(e);
                }
                Err(u) => log.unread.push(u),
            }
        }
        log.refold();
        log
    }

    /// Offers one entry. Cheap when it is the newest, a new fold when it came late or takes another back.
    pub fn add(&mut self, entry: Entry) -> Added {
        let newest = self.entries.last_key_value().is_none_or(|(id, _)| *id < entry.id);
        let plain = !matches!(entry.what, What::Undone { .. });
        let applied = (newest && plain).then(|| entry.clone());
        let added = self.put(entry);
        match (added, applied) {
            (Added::New, Some(e)) => self.job.apply(&e),
            (Added::Same, _) => {}
            _ => self.refold(),
        }
        added
    }

    /// Takes in another log of the same job, with one fold at the end.
    pub fn take_in(&mut self, other: Log) {
        for entry in other.entries.into_values() {
            self.put(entry);
        }
        self.clashes.extend(other.clashes);
        other.unread.into_iter().for_each(|u| self.add_unread(u));
        self.refold();
    }

    /// Keeps a line that can't be used.
    pub fn add_unread(&mut self, unread: Unread) {
        if !self.unread.contains(&unread) {
            self.unread.push(unread);
        }
    }

    fn put(&mut self, entry: Entry) -> Added {
        match self.entries.get(&entry.id) {
            None => {
                self.entries.insert(entry.id, entry);
                Added::New
            }
            Some(old) if *old == entry => Added::Same,
            Some(old) => {
                // Both phones must keep the same one, whichever came first: the smaller line stays.
                let (keep, lose) =
                    if old.line() <= entry.line() { (None, entry.line()) } else { (Some(()), old.line()) };
                self.clashes.insert((entry.id, lose));
                if keep.is_some() {
                    self.entries.insert(entry.id, entry);
                }
                Added::Clash
            }
        }
    }

    fn refold(&mut self) {
        let undone = self.undone();
        let mut job = Job::default();
        for e in self.entries.values() {
            if !undone.contains(&e.id) {
                job.apply(e);
            }
        }
        for (id, _) in &self.clashes {
            job.problems
                .push(Problem { entry: *id, why: "two different entries carry this id; one is shown".into() });
        }
        self.job = job;
    }

    /// The entries that are taken back. A later `Undone` can take an earlier `Undone` back.
    pub fn undone(&self) -> BTreeSet<Uuid> {
        let mut undone = BTreeSet::new();
        for e in self.entries.values().rev() {
            if let What::Undone { entry } = &e.what
                && *entry < e.id
                && !undone.contains(&e.id)
                && self.entries.get(entry).is_some_and(|t| !matches!(t.what, What::Opened { .. }))
            {
                undone.insert(*entry);
            }
        }
        undone
    }

    /// The state.
    pub fn job(&self) -> &Job {
        &self.job
    }

    /// The entries, oldest first.
    pub fn entries(&self) -> impl DoubleEndedIterator<Item = &Entry> {
        self.entries.values()
    }

    /// One entry.
    pub fn get(&self, id: Uuid) -> Option<&Entry> {
        self.entries.get(&id)
    }

    /// How many entries.
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// True when nothing was ever written.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// The newest id: a new entry's id must be above it, whatever the phone's clock says.
    pub fn newest(&self) -> Option<Uuid> {
        self.entries.last_key_value().map(|(id, _)| *id)
    }

    /// Lines that this version can't use, kept as they came.
    pub fn unread(&self) -> &[Unread] {
        &self.unread
    }
}

/// An id above `newest`, made from a fresh version-7 id. A phone whose clock went back still writes in order: its id
/// takes the newest id's millisecond plus one and keeps its own random part.
pub fn id_after(newest: Option<Uuid>, fresh: Uuid) -> Uuid {
    match newest {
        Some(newest) if fresh <= newest => {
            let millis = newest.get_timestamp().map_or(0, |t| {
                let (s, nanos) = t.to_unix();
                s * 1000 + u64::from(nanos / 1_000_000)
            });
            let mut random = [0; 10];
            random.copy_from_slice(&fresh.as_bytes()[6..]);
            uuid::Builder::from_unix_timestamp_millis(millis + 1, &random).into_uuid()
        }
        _ => fresh,
    }
}
