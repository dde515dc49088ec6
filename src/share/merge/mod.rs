//! Two phones' logs become one: the union of their lines by id. What would come in is told before anything is written;
//! a line that is there stays as it is, so bringing the same file in again changes nothing.
//!
//! May use: entries, the fold. Must not: write, know a file's format or the browser.

mod conflict;
mod known;
mod products;
mod words;

use std::collections::{BTreeMap, BTreeSet};

use serde::Deserialize;
use uuid::Uuid;

pub use conflict::{Conflict, Side, conflicts};
pub use known::{Known, lacking, lacking_media};
pub use products::{Products, product_id, products};

use crate::job::entry::{Entry, Unread, What};

/// A stored line with what a merge needs of it. It need not be of a kind that this version knows.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Line {
    /// The job it belongs to.
    pub job: Uuid,
    /// Its own id.
    pub id: Uuid,
    /// The picture or sound it names.
    pub media: Option<Uuid>,
    /// The line itself.
    pub raw: String,
}

impl Line {
    /// Reads a stored line.
    ///
    /// # Errors
    /// [`Unread`] when it has no id or no job: such a line can't be kept beside others.
    ///
    /// ```
    /// use coatwalk::share::merge::Line;
    /// let line = Line::read(r#"{"id":"019a0000-0011-7000-8000-000000000011","job":"019a0000-0000-7000-8000-000000000000","kind":"later"}"#).unwrap();
    /// assert_eq!(line.media, None);
    /// assert!(Line::read("mud").is_err());
    /// ```
    pub fn read(raw: &str) -> Result<Line, Unread> {
        #[derive(Deserialize)]
        struct Ids {
            id: Uuid,
            job: Uuid,
        }
        #[derive(Deserialize, Default)]
        struct Named {
            photo: Option<Uuid>,
            sound: Option<Uuid>,
        }
        let unread = |why: &str| Unread { raw: raw.into(), why: why.into() };
        let ids: Ids = serde_json::from_str(raw).map_err(|e| unread(&format!("not an entry: {e}")))?;
        if ids.id.is_nil() || ids.job.is_nil() {
            return Err(unread("an entry without id or job"));
        }
        // A later kind may use these words for something else; its line is kept all the same.
        let named: Named = serde_json::from_str(raw).unwrap_or_default();
        Ok(Line { job: ids.job, id: ids.id, media: named.photo.or(named.sound), raw: raw.into() })
    }

    fn key(&self) -> (Uuid, Uuid) {
        (self.job, self.id)
    }

    /// The same line, or one that reads as the same entry.
    fn same_as(&self, other: &Line) -> bool {
        self.raw == other.raw || Entry::read(&self.raw).is_ok_and(|e| Entry::read(&other.raw).as_ref() == Ok(&e))
    }
}

/// What a file or another phone brings.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Incoming {
    /// Lines that can be kept.
    pub lines: Vec<Line>,
    /// Lines that can't.
    pub unread: Vec<Unread>,
    /// Pictures and sounds that came along.
    pub media: BTreeSet<Uuid>,
}

/// Two lines of one id.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Differs {
    /// The line that stays.
    pub ours: Line,
    /// The line that stays out.
    pub theirs: Line,
}

/// One job in what comes in.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct JobPreview {
    /// Its id.
    pub job: Uuid,
    /// Its name; empty when no line says it.
    pub name: String,
    /// This phone has it already.
    pub here: bool,
    /// So many new lines.
    pub new: usize,
}

/// What would happen.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Preview {
    /// Lines to be written, by job and id.
    pub new: Vec<Line>,
    /// So many lines are here already.
    pub same: usize,
    /// Same id, another content: ours stays.
    pub differs: Vec<Differs>,
    /// Lines that stay out, as they came.
    pub unreadable: Vec<Unread>,
    /// New lines that this version can't use (of a later one, most likely): kept as they came, for one that can.
    pub not_understood: Vec<Unread>,
    /// The jobs in it.
    pub jobs: Vec<JobPreview>,
    /// Pictures and sounds to be written: named by a line, in the file, and not here.
    pub media_new: Vec<Uuid>,
    /// Named by a line of these jobs, but neither here nor in the file.
    pub media_missing: Vec<Uuid>,
    /// In the file, but named by no line: they stay out.
    pub media_stray: Vec<Uuid>,
}

impl Preview {
    /// Bringing it in would change nothing.
    pub fn is_empty(&self) -> bool {
        self.new.is_empty() && self.media_new.is_empty()
    }
}

/// What would happen if `theirs` came to `ours`. `ours` are this phone's lines of the jobs in question (or of all).
///
/// ```
/// use coatwalk::share::merge::{Incoming, Line, preview};
/// let raw = r#"{"id":"019a0000-0011-7000-8000-000000000011","job":"019a0000-0000-7000-8000-000000000000"}"#;
/// let theirs = Incoming { lines: vec![Line::read(raw).unwrap()], ..Incoming::default() };
/// let first = preview(&[], &Default::default(), &theirs);
/// assert_eq!(first.new.len(), 1);
/// assert!(preview(&first.new, &Default::default(), &theirs).is_empty());
/// ```
pub fn preview(ours: &[Line], our_media: &BTreeSet<Uuid>, theirs: &Incoming) -> Preview {
    let here: BTreeMap<_, _> = ours.iter().map(|l| (l.key(), l)).collect();
    let (mut new, mut same, mut differs) = (BTreeMap::<_, &Line>::new(), 0, Vec::new());
    for line in &theirs.lines {
        match here.get(&line.key()).or(new.get(&line.key())) {
            None => {
                new.insert(line.key(), line);
            }
            Some(old) if old.same_as(line) => same += 1,
            Some(old) => differs.push(Differs { ours: (*old).clone(), theirs: line.clone() }),
        }
    }
    let mut by_job: BTreeMap<Uuid, Vec<&Line>> = theirs.lines.iter().map(|l| (l.job, Vec::new())).collect();
    for line in here.values().chain(new.values()) {
        by_job.entry(line.job).and_modify(|lines| lines.push(line));
    }
    let named: BTreeSet<Uuid> = by_job.values().flatten().filter_map(|l| l.media).collect();
    let jobs = by_job.iter().map(|(job, lines)| {
        let count = lines.iter().filter(|l| new.contains_key(&l.key())).count();
        JobPreview { job: *job, name: name(lines), here: count < lines.len(), new: count }
    });
    Preview {
        same,
        jobs: jobs.collect(),
        unreadable: theirs.unread.clone(),
        not_understood: new.values().filter_map(|l| Entry::read(&l.raw).err()).collect(),
        media_new: named.difference(our_media).filter(|m| theirs.media.contains(m)).copied().collect(),
        media_missing: named.difference(our_media).filter(|m| !theirs.media.contains(m)).copied().collect(),
        media_stray: theirs.media.difference(&named).copied().collect(),
        new: new.into_values().cloned().collect(),
        differs,
    }
}

/// The name a job was opened with: the first one counts, as in the fold.
fn name(lines: &[&Line]) -> String {
    let opened = |l: &&Line| match Entry::read(&l.raw).ok()?.what {
        What::Opened { name, .. } => Some((l.id, name)),
        _ => None,
    };
    lines.iter().filter_map(opened).min().map(|(_, name)| name).unwrap_or_default()
}
