//! The timeline while it is drawn: where the hands are, what the log has settled, how long each wait runs.

use chrono::{DateTime, TimeDelta, TimeZone, Utc};

use super::{Block, Days, Doing, Wait, minutes};
use crate::job::clock::{self, CureRule};
use crate::job::fold::{Cell, Job};
use crate::job::hours::{StageWork, Work};
use crate::job::machine::Fault;
use crate::job::stage::Stage;
use crate::sums::{NotPossible, SumError, cure};
use crate::units::{CELSIUS, HOUR};

/// What the log says of stages; without a job all are open.
pub(super) struct Logged<'a> {
    pub(super) job: Option<&'a Job>,
}

impl Logged<'_> {
    /// Something of the stage is still to be done.
    pub(super) fn open(&self, stage: Stage) -> bool {
        self.job.is_none_or(|j| j.count(stage).open > 0)
    }

    /// The last time it was logged done.
    pub(super) fn last(&self, stage: Stage) -> Option<DateTime<Utc>> {
        self.job?.last_done.get(&stage).copied()
    }

    /// Which share of its work is open.
    pub(super) fn open_share(&self, work: &StageWork) -> f64 {
        let Some(job) = self.job else { return 1.0 };
        let open = job.areas().map(|a| !a.cell(work.stage).settled());
        open.zip(&work.shares).filter(|(open, _)| *open).map(|(_, share)| share).sum()
    }
}

/// The timeline while it is drawn.
pub(super) struct Drawn<'a, Z: TimeZone> {
    pub(super) log: Logged<'a>,
    pub(super) days: Days<'a, Z>,
    pub(super) work: &'a Work,
    pub(super) blocks: Vec<Block>,
    /// The hands are free from here on.
    pub(super) cursor: DateTime<Utc>,
    pub(super) from: DateTime<Utc>,
}

/// What the air-out gives.
#[derive(Default)]
pub(super) struct Cured {
    pub(super) paper_off: Option<DateTime<Utc>>,
    pub(super) earliest_refit: Option<DateTime<Utc>>,
}

impl<Z: TimeZone> Drawn<'_, Z> {
    /// Puts a stage's open work in and says when it ends; for a settled stage, when it was logged.
    pub(super) fn stage(&mut self, stage: Stage) -> Option<DateTime<Utc>> {
        if !self.log.open(stage) {
            return self.log.last(stage);
        }
        let work = self.work.of(stage);
        let length = minutes(work.minutes.likely * self.log.open_share(work));
        let in_one_go = matches!(stage, Stage::FirstPass | Stage::SecondPass);
        for (start, end) in self.days.place(self.cursor, length, in_one_go) {
            self.blocks.push(Block { stage, start, end, doing: Doing::Work });
            self.cursor = end;
        }
        Some(self.cursor)
    }

    /// Puts a wait in and says when it ends. None when it has no beginning, takes no time or is over.
    pub(super) fn wait(
        &mut self,
        wait: Wait,
        holds_up: Stage,
        begins: Option<DateTime<Utc>>,
        lasts: TimeDelta,
    ) -> Option<DateTime<Utc>> {
        let start = begins?;
        let end = start + lasts;
        if lasts <= TimeDelta::zero() || end <= self.from || !self.log.open(holds_up) {
            return None;
        }
        self.blocks.push(Block { stage: holds_up, start, end, doing: Doing::Wait(wait) });
        Some(end)
    }

    pub(super) fn not_before(&mut self, at: Option<DateTime<Utc>>) {
        self.cursor = self.cursor.max(at.unwrap_or(self.cursor));
    }

    /// The end of the last wetting, planned or logged.
    pub(super) fn last_water(&self) -> Option<DateTime<Utc>> {
        use Stage::*;
        let wet = [Wipe, Dewax, Degrease, Neutralise];
        let planned = self.blocks.iter().filter(|b| wet.contains(&b.stage) && b.doing == Doing::Work).map(|b| b.end);
        let logged = wet.into_iter().filter_map(|s| self.log.last(s));
        // Wet again after it was dry: since when is not known, so from now.
        let again = self.log.job.is_some_and(|j| j.areas().any(|a| matches!(a.cell(Dry), Cell::Again(_))));
        planned.chain(logged).chain(again.then_some(self.from)).max()
    }

    pub(super) fn air_out(
        &mut self,
        rule: &CureRule,
        shed_c: f64,
        coated: Option<DateTime<Utc>>,
        faults: &mut Vec<Fault>,
    ) -> Cured {
        let Some(coated) = coated else { return Cured::default() };
        let sprayed = !self.log.open(Stage::SecondPass);
        // The film is on: readings since then count.
        let clock = self.log.job.filter(|_| sprayed).and_then(|j| clock::air_out_by(rule, j, self.from));
        let logged = |f: fn(&clock::AirOut) -> Option<DateTime<Utc>>| clock.as_ref().and_then(f);
        let after = |hours: f64| {
            let time = cure::time_to_reach(rule.law, rule.credit, HOUR.of(hours), CELSIUS.of(shed_c))?;
            let never = SumError::from(NotPossible::NoCredit { at: CELSIUS.of(shed_c) });
            // Whole minutes, rounded up.
            clock::after(coated, (60.0 * HOUR.get(time) - 1e-6).ceil() / 60.0).ok_or(never)
        };
        let reckoned = |hours: f64, faults: &mut Vec<Fault>| match after(hours) {
            Ok(at) => Some(at),
            Err(why) => {
                faults.push(Fault::of("air out", &why, ""));
                None
            }
        };
        let refit = logged(|c| c.finish).or_else(|| reckoned(rule.refit_h, faults));
        let touch = logged(|c| c.touch_dry).or_else(|| after(rule.touch_dry_h).ok());
        if self.log.open(Stage::AirOut) {
            for (wait, end) in [(Wait::TouchDry, touch), (Wait::AirOut, refit)] {
                self.wait(wait, Stage::Refit, Some(coated), end.map_or(TimeDelta::zero(), |e| e - coated));
            }
            return Cured { paper_off: touch, earliest_refit: refit };
        }
        Cured { paper_off: touch, earliest_refit: self.log.last(Stage::AirOut) }
    }
}
