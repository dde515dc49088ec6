//! What the plan needs to know beside the job, and how it stands in the log.

use chrono::{DateTime, NaiveDate, TimeZone, Utc};
use serde::{Deserialize, Serialize};

use super::Week;
use crate::job::entry::{Raw, What};
use crate::job::fold::Job;
use crate::job::hours::How;
use crate::job::machine::{Fault, Machine};
use crate::job::materials::{Cover, Supply};
use crate::job::moment::day;
use crate::job::shed::Shed;

/// What the plan needs to know beside the job. This is also the stored shape.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
#[serde(default)]
pub struct Setup {
    /// The machine.
    pub machine: Machine,
    /// Who works and how.
    pub how: How,
    /// The hours one works.
    pub week: Week,
    /// Expected temperature of the shed while the film airs out; the last reading or a default when not given.
    pub shed_c: Option<f64>,
    /// Warming the shed up before the passes, min.
    pub warm_up_min: f64,
    /// The heater is out and cold so long before a can is opened, min.
    pub heater_off_min: f64,
    /// Sizes and stock of materials that are no products.
    pub supplies: Vec<Supply>,
    /// Which end of the estimate is bought.
    pub cover: Cover,
    /// The shed it is done in.
    pub shed: Shed,
    /// The coming night's low outdoors, °C.
    pub night_low_c: Option<f64>,
    /// The day one means to begin; at once when not given.
    #[serde(with = "day", skip_serializing_if = "Option::is_none")]
    pub begin: Option<NaiveDate>,
    /// Seeds the estimates' spread: same seed, same plan.
    pub seed: u64,
}

impl Default for Setup {
    fn default() -> Setup {
        Setup {
            machine: Machine::default(),
            how: How::default(),
            week: Week::default(),
            shed_c: None,
            warm_up_min: 0.0,
            heater_off_min: 0.0,
            supplies: Vec::new(),
            cover: Cover::default(),
            shed: Shed::default(),
            night_low_c: None,
            begin: None,
            seed: 1,
        }
    }
}

impl Setup {
    /// The setup kept in a job, on the job's own kind of machine. Never fails: one that can't be read becomes the
    /// usual one, with a fault that says so.
    ///
    /// # Example
    /// ```
    /// use coatwalk::job::{fold::Job, plan::Setup};
    /// let job = Job { machine: "trailer".into(), ..Job::default() };
    /// let (setup, faults) = Setup::of(&job);
    /// assert!(setup.machine.kind == "trailer" && faults.is_empty());
    /// ```
    pub fn of(job: &Job) -> (Setup, Vec<Fault>) {
        let (mut setup, faults) = match job.setup.as_ref().map(Raw::read::<Setup>) {
            None => (Setup::default(), Vec::new()),
            Some(Ok(setup)) => (setup, Vec::new()),
            Some(Err(why)) => {
                let words = format!("the plan kept in this job can't be read ({why})");
                (Setup::default(), vec![Fault::new("plan", words, "the usual settings: go through them again")])
            }
        };
        setup.machine.kind.clone_from(&job.machine);
        (setup, faults)
    }

    /// The entry that keeps it in the job.
    pub fn planned(&self) -> What {
        What::Planned { setup: Raw::of(self).expect("a setup holds only strings, numbers and lists") }
    }

    /// From when on the plan is drawn: the day one means to begin, but never before `now`, and from now on once anything
    /// is finished.
    pub fn begins<Z: TimeZone>(&self, job: &Job, now: DateTime<Utc>, zone: &Z) -> DateTime<Utc> {
        let Some(day) = self.begin.filter(|_| job.last_done.is_empty()) else { return now };
        let midnight = day.and_hms_opt(0, 0, 0).and_then(|t| zone.from_local_datetime(&t).earliest());
        midnight.map_or(now, |at| now.max(at.with_timezone(&Utc)))
    }
}
