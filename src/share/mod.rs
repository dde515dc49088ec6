//! What leaves the phone, and what comes back: the log as text, dates for a calendar, labels and their reader, a backup of
//! everything, what two phones make together.
//!
//! May use: the job's log. Must not: know the browser or how a file is handed over; `device::file` does that.

pub mod backup;
pub mod calendar;
pub mod care;
pub mod clock_date;
pub mod label;
pub mod merge;
pub mod report;
pub mod scan;
pub mod sheet;
pub mod tally;

use uuid::Uuid;

use crate::job::entry::{Entry, What};
use crate::job::log::Log;

/// What stands before a bag's id in its address.
const BAGS: &str = "#/bags/";

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

/// The address of a bag, for its label. The page is the app's own address; what stands behind its `#` gives way.
///
/// ```
/// use coatwalk::share::bag_address;
/// let bag = uuid::Uuid::from_u128(7);
/// assert_eq!(
///     bag_address("https://app.invalid/coat/#/record", bag),
///     "https://app.invalid/coat/#/bags/00000000-0000-0000-0000-000000000007"
/// );
/// ```
pub fn bag_address(page: &str, bag: Uuid) -> String {
    let app = page.split('#').next().unwrap_or_default();
    format!("{app}{BAGS}{bag}")
}

/// The bag a scanned code names; none for anything but a web address with a bag's id at its end. The host does not count:
/// labels outlive a move of the app.
///
/// ```
/// use coatwalk::share::bag_of;
/// let bag = bag_of("https://old.invalid/#/bags/00000000-0000-0000-0000-000000000007");
/// assert_eq!(bag, Some(uuid::Uuid::from_u128(7)));
/// assert_eq!(bag_of("a note about #/bags/00000000-0000-0000-0000-000000000007"), None);
/// ```
pub fn bag_of(text: &str) -> Option<Uuid> {
    const HYPHENATED: usize = 36;
    let (page, id) = text.split_once(BAGS)?;
    let host = page.strip_prefix("https://").or_else(|| page.strip_prefix("http://"))?;
    let address = !host.is_empty() && !host.contains(|c: char| c.is_whitespace() || c.is_control() || c == '#');
    (address && id.len() == HYPHENATED).then(|| Uuid::try_parse(id).ok()).flatten()
}

/// Whether a job's lines of the log tell of this bag being filled.
///
/// ```
/// use coatwalk::share::has_bag;
/// assert!(!has_bag(["not a line of ours"], uuid::Uuid::from_u128(7)));
/// ```
pub fn has_bag<L: AsRef<str>>(lines: impl IntoIterator<Item = L>, bag: Uuid) -> bool {
    let id = bag.to_string();
    // Most lines need no reading: the id stands in few of them.
    let read = |l: L| Some(l.as_ref()).filter(|l| l.contains(&id)).and_then(|l| Entry::read(l).ok());
    lines.into_iter().filter_map(read).any(|e| e.id == bag && matches!(e.what, What::Bagged { .. }))
}
