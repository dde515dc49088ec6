//! What leaves the phone, and what comes back: the log as text, a backup of everything, what two phones make together.
//!
//! May use: the job's log. Must not: know the browser or how a file is handed over; `device::file` does that.

pub mod backup;
pub mod merge;

use crate::job::entry::Entry;
use crate::job::log::Log;

/// The log as a file that can be read without the app: one line of JSON an entry, oldest first, then the lines this
/// version can't use, as they came, then entries that could not be kept.
///
/// ```
/// use coatwalk::{job::log::Log, share};
/// let log = Log::from_lines(["not a line of ours"]);
/// assert_eq!(share::log_file(&log, []), "not a line of ours\n");
/// ```
pub fn log_file<'a>(log: &Log, unsaved: impl IntoIterator<Item = &'a Entry>) -> String {
    let kept = log.entries().map(Entry::line);
    let unread = log.unread().iter().map(|u| u.raw.clone());
    let unsaved = unsaved.into_iter().map(Entry::line);
    kept.chain(unread).chain(unsaved).map(|line| line + "\n").collect()
}
