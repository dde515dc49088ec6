//! How much a job holds, how much of it the last backup had, and what a backup's file is called.
//!
//! A log only grows, so what is not in the last backup is the difference of two counts: that counts entries that another
//! phone wrote earlier and that came in later, which a comparison of times would miss.
//!
//! May use: stored lines, entries. Must not: know where they are kept.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::merge::Line;
use crate::job::entry::{Entry, What};

/// What a job holds.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
pub struct Tally {
    /// Lines of the log, those that this version can't use included.
    pub entries: usize,
    /// Pictures and sounds that lines name and that are here.
    pub photos: usize,
    /// Bytes of those, as their entries say.
    pub photo_bytes: u64,
}

impl Tally {
    /// Of a job's lines as stored; `held` are the pictures and sounds that are here.
    ///
    /// ```
    /// use coatwalk::share::tally::Tally;
    /// let tally = Tally::of(["mud"], &Default::default());
    /// assert_eq!((tally.entries, tally.photos), (1, 0));
    /// ```
    pub fn of<S: AsRef<str>>(lines: impl IntoIterator<Item = S>, held: &BTreeSet<Uuid>) -> Tally {
        let (mut tally, mut seen) = (Tally::default(), BTreeSet::new());
        for raw in lines {
            tally.entries += 1;
            let media = Line::read(raw.as_ref()).ok().and_then(|l| l.media).filter(|m| held.contains(m));
            if media.is_some_and(|m| seen.insert(m)) {
                tally.photos += 1;
                if let Ok(Entry { what: What::Photo { bytes, .. } | What::Voice { bytes, .. }, .. }) =
                    Entry::read(raw.as_ref())
                {
                    tally.photo_bytes += u64::from(bytes);
                }
            }
        }
        tally
    }

    /// What came on top of `then`.
    pub fn since(self, then: Tally) -> Tally {
        Tally {
            entries: self.entries.saturating_sub(then.entries),
            photos: self.photos.saturating_sub(then.photos),
            photo_bytes: self.photo_bytes.saturating_sub(then.photo_bytes),
        }
    }

    /// Both together.
    pub fn and(self, other: Tally) -> Tally {
        Tally {
            entries: self.entries + other.entries,
            photos: self.photos + other.photos,
            photo_bytes: self.photo_bytes + other.photo_bytes,
        }
    }

    /// Nothing at all.
    pub fn is_empty(self) -> bool {
        self.entries == 0 && self.photos == 0
    }

    /// In words.
    ///
    /// ```
    /// use coatwalk::share::tally::Tally;
    /// let tally = Tally { entries: 12, photos: 1, photo_bytes: 0 };
    /// assert_eq!(tally.words(), "12 entries and 1 photo");
    /// assert_eq!(Tally { entries: 1, photos: 0, photo_bytes: 0 }.words(), "1 entry");
    /// ```
    pub fn words(self) -> String {
        let (entries, photos) = (counted(self.entries, "entry", "entries"), counted(self.photos, "photo", "photos"));
        match (self.entries, self.photos) {
            (0, 1..) => photos,
            (_, 0) => entries,
            _ => format!("{entries} and {photos}"),
        }
    }
}

/// What to say of a job whose last backup had `last`; nothing when all of it is in there.
///
/// ```
/// use coatwalk::share::tally::{Tally, reminder};
/// let (then, now) = (Tally { entries: 8, ..Tally::default() }, Tally { entries: 20, photos: 3, photo_bytes: 9 });
/// assert_eq!(reminder(now, Some(then)).as_deref(), Some("12 entries and 3 photos are newer than the last backup."));
/// assert_eq!(reminder(now, Some(now)), None);
/// assert_eq!(reminder(now, None).as_deref(), Some("No backup yet: 20 entries and 3 photos are on this phone only."));
/// ```
pub fn reminder(now: Tally, last: Option<Tally>) -> Option<String> {
    let newer = now.since(last.unwrap_or_default());
    let are = if newer.entries + newer.photos == 1 { "is" } else { "are" };
    match last {
        _ if newer.is_empty() => None,
        None => Some(format!("No backup yet: {} {are} on this phone only.", newer.words())),
        Some(_) => Some(format!("{} {are} newer than the last backup.", newer.words())),
    }
}

/// A number with its word.
pub fn counted(n: usize, one: &str, many: &str) -> String {
    format!("{n} {}", if n == 1 { one } else { many })
}

/// Bytes for the screen.
///
/// ```
/// use coatwalk::share::tally::megabytes;
/// assert_eq!(megabytes(34_251_000.0), "34.3 MB");
/// assert_eq!(megabytes(12_300_000_000.0), "12.3 GB");
/// assert_eq!(megabytes(900.0), "less than 0.1 MB");
/// ```
pub fn megabytes(bytes: f64) -> String {
    match bytes {
        b if b < 50_000.0 => "less than 0.1 MB".into(),
        b if b < 999_950_000.0 => format!("{:.1} MB", b / 1e6),
        b => format!("{:.1} GB", b / 1e9),
    }
}

/// What a backup's file is called: `day` is "2026-10-05", `what` the job it is of.
///
/// ```
/// use coatwalk::share::tally::file_name;
/// assert_eq!(file_name("2026-10-05", None), "coatwalk-backup-2026-10-05.zip");
/// assert_eq!(file_name("2026-10-05", Some("Grey trailer, Übung/2")), "coatwalk-backup-2026-10-05-grey-trailer-bung-2.zip");
/// assert_eq!(file_name("2026-10-05", Some("灰")), "coatwalk-backup-2026-10-05-job.zip");
/// ```
pub fn file_name(day: &str, what: Option<&str>) -> String {
    const MOST: usize = 40;
    let Some(what) = what else { return format!("coatwalk-backup-{day}.zip") };
    let mut slug = String::new();
    for c in what.chars() {
        match c {
            c if c.is_ascii_alphanumeric() => slug.push(c.to_ascii_lowercase()),
            ' ' | '-' | '_' | ',' | '.' | '/' if !slug.is_empty() && !slug.ends_with('-') => slug.push('-'),
            _ => {}
        }
    }
    slug.truncate(MOST);
    let slug = slug.trim_end_matches('-');
    format!("coatwalk-backup-{day}-{}.zip", if slug.is_empty() { "job" } else { slug })
}
