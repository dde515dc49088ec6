//! What could be done otherwise, each with its price in time: the same plan drawn once more with one thing changed.

use chrono::{DateTime, TimeZone, Utc};

use super::{Plan, Setup, length, plan};
use crate::job::fold::Job;
use crate::job::hours::MOST_HANDS;
use crate::job::product::Product;
use crate::job::stage::Stage;

/// One choice and its price.
#[derive(Clone, PartialEq, Debug)]
pub struct Choice {
    /// Kebab case, for the screen: `skip-wipe`, `tape-lamp`, `second-hands`.
    pub id: &'static str,
    /// What it is.
    pub words: &'static str,
    /// What it costs beside time.
    pub caution: &'static str,
    /// More minutes of washing; less when negative.
    pub wash_min: i64,
    /// More minutes of work on the clock in all; less when negative.
    pub work_min: i64,
    /// The coating ends so many minutes later; earlier when negative. None when it has no end planned.
    pub coated_later_min: Option<i64>,
    /// As the setup has to be for it.
    pub setup: Setup,
}

impl Choice {
    /// The price in time, in words: "about 60 min more washing; coated 1 h 10 min later".
    pub fn price(&self) -> String {
        let more = |min: i64, word: &str| {
            let side = if min > 0 { "more" } else { "less" };
            format!("about {} {side} {word}", length(min.unsigned_abs() as f64))
        };
        let mut words = Vec::new();
        if self.wash_min != 0 {
            words.push(more(self.wash_min, "washing"));
        }
        if self.work_min != 0 && self.work_min != self.wash_min {
            words.push(more(self.work_min, "work in all"));
        }
        words.push(match self.coated_later_min {
            None | Some(0) => "coated at the same time".into(),
            Some(min) => {
                let side = if min > 0 { "later" } else { "earlier" };
                format!("coated {} {side}", length(min.unsigned_abs() as f64))
            }
        });
        words.join("; ")
    }
}

/// The choices that are still open, priced against a plan drawn from the same setup, job and time.
pub fn choices<Z: TimeZone>(
    base: &Plan,
    setup: &Setup,
    job: Option<&Job>,
    film: &Product,
    past: &[f64],
    from: DateTime<Utc>,
    zone: &Z,
) -> Vec<Choice> {
    let settled = |stage: Stage| base.finished.iter().any(|(s, _)| *s == stage);
    let mut offers = Vec::new();
    if !setup.how.skip_wipe && !settled(Stage::Wipe) {
        let mut other = setup.clone();
        other.how.skip_wipe = true;
        offers.push(("skip-wipe", "Skip the wipe", "Grease goes over the whole machine.", other));
    }
    if setup.how.lamps_taped < base.figures.lamps && !settled(Stage::TakeOff) {
        let mut other = setup.clone();
        other.how.lamps_taped += 1;
        let caution = "The steel behind the lamp stays as it is: rust starts there.";
        offers.push(("tape-lamp", "Tape a lamp over, leave it on", caution, other));
    }
    if setup.how.hands < MOST_HANDS {
        let mut other = setup.clone();
        other.how.hands += 1;
        let caution = "Nobody else in the spray zone: the passes take as long as before.";
        offers.push(("second-hands", "One more pair of hands", caution, other));
    }
    let washed = |p: &Plan| {
        let wash = [Stage::Dewax, Stage::Degrease, Stage::Neutralise];
        wash.into_iter().map(|s| p.work.of(s).minutes.likely).sum::<f64>()
    };
    offers
        .into_iter()
        .map(|(id, words, caution, other)| {
            let plan = plan(&other, job, film, past, from, zone);
            Choice {
                id,
                words,
                caution,
                wash_min: (washed(&plan) - washed(base)).round() as i64,
                work_min: (plan.work_left_min.likely - base.work_left_min.likely).round() as i64,
                coated_later_min: plan.coated.zip(base.coated).map(|(a, b)| (a - b).num_minutes()),
                setup: other,
            }
        })
        .collect()
}
