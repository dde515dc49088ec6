//! One line a job, for the list of jobs: a copy of a few facts so that the list opens without reading every log.
//!
//! May use: the job. Must not: be taken for the truth; the log is.

use uuid::Uuid;

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
        })
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
