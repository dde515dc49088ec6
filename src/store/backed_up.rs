//! What the last backup of each job had, kept in localStorage: it only reminds, and may be lost without harm.
//!
//! May use: gloo-storage. Must not: be part of the preferences, which the first download carries.

use std::collections::BTreeMap;

use gloo_storage::{LocalStorage, Storage};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::share::tally::Tally;

const KEY: &str = "coatwalk-backed-up";

/// A job's last backup.
#[derive(Clone, Copy, PartialEq, Debug, Serialize, Deserialize)]
pub struct Last {
    /// When, milliseconds since 1970.
    pub at_ms: i64,
    /// What it had.
    pub had: Tally,
}

/// The last backup of each job.
pub fn load() -> BTreeMap<Uuid, Last> {
    LocalStorage::get(KEY).unwrap_or_default()
}

/// These jobs were backed up now.
pub fn note(jobs: &[(Uuid, Tally)], at_ms: i64) {
    let mut all = load();
    all.extend(jobs.iter().map(|(job, had)| (*job, Last { at_ms, had: *had })));
    let _ = LocalStorage::set(KEY, all);
}
