//! One line a job, for the list of jobs: a copy of a few facts so that the list opens without reading every log.
//!
//! May use: the job. Must not: be taken for the truth; the log is.

use chrono::{DateTime, TimeZone, Utc};
use uuid::Uuid;

use super::aftercare::{self, Due, Sort};
use super::fold::Job;
use super::stage::Stage;
use super::stored::Kept;

/// What the list of jobs shows of one job.
#[derive(Clone, PartialEq, Debug)]
pub struct Head {
    pub job: Uuid,
    pub name: String,
    pub machine: String,
    pub demo: bool,
    /// The last entry's time, milliseconds since 1970.
    pub last_ms: i64,
    pub stage: Option<Stage>,
    pub closed: bool,
    /// Another job of the same machine.
    pub same_as: Option<Uuid>,
    /// In the bin since then, milliseconds since 1970.
    pub binned_ms: Option<i64>,
    /// Material or time was logged. None in a line of an earlier version, which did not say.
    pub spent: Option<bool>,
    /// The days of its aftercare.
    pub care: Vec<CareDay>,
}

/// A day of the aftercare.
#[derive(Clone, PartialEq, Debug)]
pub struct CareDay {
    /// Word of the [`aftercare::Sort`].
    pub sort: String,
    pub at: DateTime<Utc>,
}

impl Head {
    /// The line for a job; `None` before it is opened.
    pub fn of(job: &Job) -> Option<Head> {
        Some(Head {
            job: job.id?,
            name: job.name.clone(),
            machine: job.machine.clone(),
            demo: job.demo,
            last_ms: job.last_at.map_or(0, |at| at.timestamp_millis()),
            stage: job.in_hand(),
            closed: job.closed.is_some(),
            same_as: job.same_as,
            binned_ms: job.binned.as_ref().map(|s| s.at.timestamp_millis()),
            spent: Some(!job.used.is_empty() || !job.worked.is_empty()),
            care: aftercare::rows(job)
                .into_iter()
                .filter_map(|r| Some(CareDay { sort: r.sort.word().into(), at: r.at? }))
                .collect(),
        })
    }

    /// What is due, as [`aftercare::due`] tells it.
    pub fn due<Z: TimeZone>(&self, now: DateTime<Z>) -> Vec<Due> {
        let known = self.care.iter().filter_map(|c| Some((Sort::of(&c.sort)?, c.at)));
        if self.binned_ms.is_some() { Vec::new() } else { aftercare::stand(known, now) }
    }

    /// As stored.
    pub fn line(&self) -> String {
        self.put().to_string()
    }

    /// From what was stored.
    pub fn read(line: &str) -> Option<Head> {
        Head::take(serde_json::from_str(line).ok()?)
    }
}
