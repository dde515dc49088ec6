//! The bin: a job in it is kept for thirty days, then the phone removes it. A job goes in only after a backup that has all of
//! it, or after a word typed for it.
//!
//! May use: heads. Must not: remove anything; the store does, once [`Bin::over`] says so.

use super::head::Head;

/// How long a job stays in the bin, days.
pub const KEPT_DAYS: i64 = 30;
/// The word to type where there is no backup.
pub const WORD: &str = "delete";

const DAY_MS: i64 = 86_400_000;

/// A job in the bin.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Bin {
    /// Whole days left, rounded up; 0 once the time is over.
    pub days_left: i64,
}

impl Bin {
    /// Of a job; none when it is not in the bin. A phone whose clock went back keeps it the full time.
    pub fn of(head: &Head, now_ms: i64) -> Option<Bin> {
        let since = now_ms.saturating_sub(head.binned_ms?).max(0);
        let left = (KEPT_DAYS * DAY_MS).saturating_sub(since).max(0);
        Some(Bin { days_left: (left + DAY_MS - 1) / DAY_MS })
    }

    /// Its time is over.
    pub fn over(self) -> bool {
        self.days_left == 0
    }

    /// "29 days left".
    pub fn words(self) -> String {
        match self.days_left {
            0 => "goes at the next start".into(),
            1 => "1 day left".into(),
            n => format!("{n} days left"),
        }
    }
}

/// The word was typed as asked; capitals and blanks round it do not matter.
///
/// ```
/// assert!(coatwalk::job::bin::word_typed(" Delete "));
/// assert!(!coatwalk::job::bin::word_typed("del"));
/// ```
pub fn word_typed(typed: &str) -> bool {
    typed.trim().eq_ignore_ascii_case(WORD)
}

/// A job may go into the bin: it is the invented example, or the last backup has all of it, or the word or its own name was
/// typed.
pub fn may_go(head: &Head, backed_up: bool, typed: &str) -> bool {
    let typed_name = !typed.trim().is_empty() && typed.trim().eq_ignore_ascii_case(head.name.trim());
    head.demo || backed_up || word_typed(typed) || typed_name
}
