//! The report on a job: what the log shows, put in order for somebody who was not there. On paper, and as one file that
//! opens without the app.
//!
//! May use: the job, its sums, [`html`]. Must not: know the browser, judge, or say more than was logged.

pub mod html;
mod plot;
mod sections;

use chrono::{DateTime, NaiveDate, Utc};
use uuid::Uuid;

pub use self::plot::air_plot;
use crate::job::aftercare::{self, Row};
use crate::job::fold::Job;
use crate::job::log::Log;
use crate::sheets::Drawing;
use crate::units::UnitSet;

/// What a report is made with besides the log.
pub struct About<'a> {
    /// The units it is told in.
    pub units: UnitSet,
    /// The day on the wall.
    pub today: NaiveDate,
    /// A moment as the wall clock tells it.
    pub when: &'a dyn Fn(DateTime<Utc>) -> String,
    /// The readings as a picture, if there are any.
    pub plot: Option<Drawing>,
    /// Photos, in the order in which they are to stand.
    pub photos: &'a [Chosen],
    /// When what is due afterwards, a line each; see [`aftercare()`].
    pub aftercare: Vec<String>,
}

/// A photo chosen for the report.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Chosen {
    /// Its id.
    pub photo: Uuid,
    /// What stands under it.
    pub words: String,
}

/// The report, before it is HTML.
#[derive(Clone, PartialEq, Debug)]
pub struct Report {
    /// On top.
    pub title: String,
    /// One after the other.
    pub sections: Vec<Section>,
}

/// A chapter.
#[derive(Clone, PartialEq, Debug)]
pub struct Section {
    /// Its name in the file.
    pub id: &'static str,
    /// Its title.
    pub title: &'static str,
    /// What stands in it.
    pub parts: Vec<Part>,
}

/// A piece of a chapter.
#[derive(Clone, PartialEq, Debug)]
pub enum Part {
    /// A paragraph.
    Words(String),
    /// A line each.
    List(Vec<String>),
    /// Head row, then rows; the first column names the row.
    Table(Vec<String>, Vec<Vec<String>>),
    /// The same with many narrow columns.
    Grid(Vec<String>, Vec<Vec<String>>),
    /// A picture of ours.
    Drawing(Drawing),
    /// A photo.
    Photo(Chosen),
}

impl Report {
    /// The report on a job.
    ///
    /// # Example
    /// ```
    /// use coatwalk::{job::log::Log, share::report::{About, Report, html}};
    /// let about = About {
    ///     units: Default::default(),
    ///     today: "2026-10-05".parse().unwrap(),
    ///     when: &|at| at.to_rfc3339(),
    ///     plot: None,
    ///     photos: &[],
    ///     aftercare: vec![],
    /// };
    /// let report = Report::of(&Log::default(), &about);
    /// assert!(html::body(&report).contains("It certifies nothing"));
    /// ```
    pub fn of(log: &Log, about: &About) -> Report {
        let job = log.job();
        Report {
            title: if job.name.trim().is_empty() { "Job without a name".into() } else { job.name.clone() },
            sections: sections::all(log, about),
        }
    }
}

/// What is due afterwards, as the schedule of the job has it, each with its basis. `day` tells a day.
pub fn aftercare(job: &Job, day: &dyn Fn(DateTime<Utc>) -> String) -> Vec<String> {
    let line = |row: Row| {
        let title = row.sort.title();
        match (row.every, row.at) {
            (Some(_), Some(at)) if row.sort.waits() => format!("{title} before {} ({}).", day(at), row.basis),
            (Some(every), Some(at)) => format!("{title} {}, next {} ({}).", every.each(), day(at), row.basis),
            _ => format!("{title}: {} ({}).", row.sort.more().trim_end_matches('.'), row.basis),
        }
    };
    let rows = aftercare::rows(job);
    if rows.is_empty() {
        return vec!["No second pass is logged: no dates yet.".into()];
    }
    rows.into_iter().map(line).collect()
}
