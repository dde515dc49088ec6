//! What a log may not hold, read from its bare entries: neither the fold nor the gates are asked.
//!
//! Where a rule leaves room (a curing film, a reading's age), the judge takes the side that only a plain breach is on.

use chrono::{DateTime, TimeDelta, Utc};
use coatwalk::job::entry::{AreaId, Covering, Entry, Finding, Fixing, What};
use coatwalk::job::guide::guide;
use coatwalk::job::log::Log;
use coatwalk::job::product::Use;
use coatwalk::job::stage::{Scope, Stage};
use std::collections::BTreeSet;
use uuid::Uuid;

pub struct Judge<'a> {
    /// In the order of their ids, those taken back left out.
    entries: Vec<&'a Entry>,
    now: DateTime<Utc>,
}

/// A stretch: when rinsed, and by which entry.
struct Soap {
    id: Uuid,
    at: DateTime<Utc>,
    area: AreaId,
    minutes: f64,
    place: String,
    rinsed: Option<(DateTime<Utc>, Uuid)>,
}

const PANELS: &str = "loose-panels";

impl<'a> Judge<'a> {
    pub fn of(log: &'a Log, now: DateTime<Utc>) -> Judge<'a> {
        let all: Vec<&Entry> = log.entries().collect();
        let mut back = BTreeSet::new();
        for e in all.iter().rev().filter(|e| matches!(e.what, What::Undone { .. })) {
            if let What::Undone { entry } = e.what
                && entry < e.id
                && !back.contains(&e.id)
            {
                back.insert(entry);
            }
        }
        let stays = |e: &&&Entry| !back.contains(&e.id) || matches!(e.what, What::Opened { .. });
        Judge { entries: all.iter().filter(stays).copied().collect(), now }
    }

    /// The rules that this entry breaks.
    pub fn broken(&self, what: &What) -> Vec<&'static str> {
        match what {
            What::Done { stage, areas } => self.stage(*stage, areas, ""),
            What::BagBack { bag, counted, plugs, short } => self.bag_back(*bag, *counted, *plugs, short),
            What::Arms { .. } => {
                let locked = self.is_on(Covering::Foil) || self.is_on(Covering::Cover);
                if locked { vec!["arms-locked"] } else { vec![] }
            }
            What::WentOn { reason, gate, stage, .. } => {
                let safety = guide(*stage).safety.iter().any(|p| p.id == gate) || gate == "arms-locked";
                if safety || reason.trim().is_empty() { vec!["no reason"] } else { vec![] }
            }
            What::Skipped { reason, .. } if reason.trim().is_empty() => vec!["no reason"],
            What::Closed { left } => {
                let said = left.iter().filter(|l| !l.reason.trim().is_empty()).count();
                if said < self.left_open() { vec!["closed in silence"] } else { vec![] }
            }
            _ => vec![],
        }
    }

    fn of_kind<T>(&self, pick: impl Fn(&'a Entry) -> Option<T>) -> Vec<T> {
        self.entries.iter().copied().filter_map(pick).collect()
    }

    /// A reason given on this area for this gate after an entry.
    fn said(&self, gate: &str, stage: Stage, area: AreaId, since: Option<Uuid>) -> bool {
        self.entries.iter().any(|e| {
            matches!(&e.what, What::WentOn { stage: s, areas, gate: g, reason, .. }
                if *s == stage && g == gate && areas.contains(&area) && !reason.trim().is_empty())
                && since.is_none_or(|id| e.id > id)
        })
    }

    fn areas(&self) -> Vec<(AreaId, &'a str)> {
        let seeds = self.entries.iter().find_map(|e| match &e.what {
            What::Opened { seeds, .. } => Some(seeds.iter().map(|s| (s.id, s.of.as_str())).collect::<Vec<_>>()),
            _ => None,
        });
        let mut all = seeds.unwrap_or_default();
        for e in &self.entries {
            if let What::AreaRemoved { area } = e.what
                && all.len() > 1
            {
                all.retain(|a| a.0 != area);
            }
        }
        all
    }

    /// 0 open, 1 done, 2 left out.
    fn state(&self, upto: usize, area: AreaId, stage: Stage) -> u8 {
        let mut state = 0;
        for (i, e) in self.entries[..upto].iter().enumerate() {
            match &e.what {
                What::Done { stage: s, areas } if *s == stage && areas.contains(&area) => state = 1,
                What::Skipped { stage: s, areas, .. } if *s == stage && areas.contains(&area) => state = 2,
                What::OpenedAgain { stage: s, areas, .. } if *s == stage && areas.contains(&area) => state = 0,
                _ => {}
            }
            let degreased = match &e.what {
                What::Done { stage, areas } => *stage == Stage::Degrease && areas.contains(&area),
                What::SoapOn { area: a, .. } => *a == area,
                _ => false,
            };
            if stage == Stage::Neutralise && state == 1 && degreased {
                state = 0;
            }
            if stage == Stage::Dry
                && state == 1
                && self.wets(e, area)
                && self.state(i + 1, area, Stage::SecondPass) != 1
            {
                state = 0;
            }
        }
        state
    }

    fn settled(&self, area: AreaId, stage: Stage) -> bool {
        self.state(self.entries.len(), area, stage) > 0
    }

    fn wets(&self, e: &Entry, area: AreaId) -> bool {
        match &e.what {
            What::Wetted { areas, .. } => areas.contains(&area),
            What::Done { stage, areas } => {
                matches!(stage, Stage::Wipe | Stage::Dewax | Stage::Degrease | Stage::Neutralise)
                    && areas.contains(&area)
            }
            What::SoapOn { area: a, .. } => *a == area,
            What::Rinsed { stretch } => self.soap().iter().any(|s| s.id == *stretch && s.area == area && s.id < e.id),
            // 10 °C at 95 % RH: dew point 9.2 °C (Magnus), over steel at 9 °C.
            What::Reading { rh_pct, .. } => *rh_pct == Some(95.0),
            _ => false,
        }
    }

    fn soap(&self) -> Vec<Soap> {
        self.of_kind(|e| match &e.what {
            What::SoapOn { area, minutes, place } => {
                let rinse =
                    |r: &&&Entry| matches!(&r.what, What::Rinsed { stretch } if *stretch == e.id) && r.id > e.id;
                let rinsed = self.entries.iter().find(rinse).map(|r| (r.at, r.id));
                let place = place.to_ascii_lowercase();
                Some(Soap { id: e.id, at: e.at, area: *area, minutes: *minutes, place, rinsed })
            }
            _ => None,
        })
    }

    fn is_on(&self, covering: Covering) -> bool {
        let off = self.of_kind(|e| match e.what {
            What::CoverOff { cover } => Some(cover),
            _ => None,
        });
        self.entries
            .iter()
            .any(|e| matches!(e.what, What::CoverOn { covering: c, .. } if c == covering) && !off.contains(&e.id))
    }

    fn found_open(&self) -> Vec<(Uuid, AreaId, Finding)> {
        let dealt = self.of_kind(|e| match e.what {
            What::DealtWith { finding, .. } => Some(finding),
            _ => None,
        });
        let found = self.of_kind(|e| match e.what {
            What::Found { area, sort, .. } => Some((e.id, area, sort)),
            _ => None,
        });
        found.into_iter().filter(|f| !dealt.contains(&f.0)).collect()
    }

    fn bags_out(&self) -> Vec<&'a Entry> {
        let back = self.of_kind(|e| match e.what {
            What::BagBack { bag, .. } => Some(bag),
            _ => None,
        });
        let bags = self.of_kind(|e| matches!(e.what, What::Bagged { .. }).then_some(e));
        bags.into_iter().filter(|b| !back.contains(&b.id)).collect()
    }

    /// The least number of points that a close has to name.
    fn left_open(&self) -> usize {
        let covers = Covering::ALL.into_iter().filter(|c| self.is_on(*c)).count();
        let soap = self.soap().iter().filter(|s| s.rinsed.is_none()).count();
        let stages = Stage::ALL.into_iter().filter(|s| *s != Stage::Aftercare);
        let open = stages.filter(|s| self.areas().iter().any(|a| !self.settled(a.0, *s))).count();
        covers + soap + open + self.found_open().len() + self.bags_out().len()
    }

    fn last_reading(&self) -> Option<(&'a Entry, f64, f64)> {
        let all = self.of_kind(|e| match e.what {
            What::Reading { air_c, steel_c, .. } => Some((e, air_c, steel_c.unwrap_or(99.0))),
            _ => None,
        });
        all.last().copied()
    }

    fn last_done(&self, stage: Stage) -> Option<DateTime<Utc>> {
        self.of_kind(|e| matches!(e.what, What::Done { stage: s, .. } if s == stage).then_some(e.at))
            .into_iter()
            .max()
    }

    /// Rules of a stage; `but` is left out.
    fn stage(&self, stage: Stage, asked: &[AreaId], but: &str) -> Vec<&'static str> {
        let mut broken = Vec::new();
        for p in guide(stage).safety {
            let made = self.entries.iter().any(|e| {
                matches!(&e.what, What::MadeSafe { stage: s, point } if *s == stage && point == p.id)
                    && self.now - e.at <= TimeDelta::hours(12)
            });
            if !made {
                broken.push(p.id);
            }
        }
        let mut rule = |id: &'static str, area: AreaId, breach: bool, since: Option<Uuid>| {
            if breach && id != but && !self.said(id, stage, area, since) && !broken.contains(&id) {
                broken.push(id);
            }
        };
        let there = self.areas();
        for area in asked.iter().copied() {
            // An area that was left out of the machine, or never was there, has no rules.
            if !there.iter().any(|a| a.0 == area) {
                continue;
            }
            let wide = stage.scope() == Scope::Whole;
            let earlier = Stage::ALL.into_iter().take_while(|s| *s < stage);
            let mut open = earlier.flat_map(|s| there.iter().map(move |a| (s, a.0)));
            let out_of_order = open.any(|(s, a)| (wide || a == area) && !self.settled(a, s));
            rule("order", area, out_of_order, None);
            let loose = there.iter().any(|a| a.0 == area && a.1 == PANELS);
            let machine = there.iter().filter(|a| a.1 != PANELS);
            if stage == Stage::SecondPass && !loose {
                let open = machine.clone().any(|a| !self.settled(a.0, Stage::FirstPass));
                rule("first-pass-everywhere", area, open, None);
            }
            if matches!(stage, Stage::Wipe | Stage::Dewax | Stage::Degrease | Stage::Neutralise)
                && let Some((e, air, steel)) = self.last_reading()
            {
                let cold = air.min(steel) < 5.0 && self.now - e.at <= TimeDelta::minutes(30);
                rule("wash-air", area, cold, Some(e.id));
            }
            if let Some(used_as) = Use::film_of(stage) {
                let last = self.last_reading();
                // Of the generator's readings only the one at 18 °C is good for film.
                let good = last.is_some_and(|(e, air, _)| air == 18.0 && self.now - e.at <= TimeDelta::hours(2));
                rule("film-air", area, !good, last.map(|l| l.0.id));
                let films = self.of_kind(|e| match &e.what {
                    What::Product { snapshot } => Some((e.id, snapshot)),
                    _ => None,
                });
                // The generator has one product that changes its use: only the last word about it counts.
                if let Some((id, film)) = films.last().filter(|f| f.1.used_as == used_as) {
                    rule("product-dates", area, film.batch.is_empty(), Some(*id));
                }
                rule("keep-bare", area, self.bare_unseen(stage, area), self.bare_since(stage, area));
            }
            if stage == Stage::SecondPass
                && let Some(at) = self.last_done(Stage::FirstPass)
            {
                rule("flash-off", area, self.now - at < TimeDelta::minutes(20), None);
            }
            if stage == Stage::AirOut
                && let Some(at) = self.last_done(Stage::SecondPass)
                && there.iter().any(|a| self.state(self.entries.len(), a.0, Stage::SecondPass) == 1)
            {
                let open = there.iter().any(|a| !self.settled(a.0, Stage::SecondPass));
                // No reading of the generator is over 20 °C.
                rule("air-out", area, open || self.now - at < TimeDelta::hours(48), None);
            }
            if matches!(stage, Stage::AirOut | Stage::Refit) {
                rule("paper-off", area, self.is_on(Covering::Paper), None);
                rule("foil-off", area, self.is_on(Covering::Foil), None);
            }
            if matches!(stage, Stage::Degrease | Stage::Neutralise) {
                self.soaped(stage, area, &mut rule);
            }
            let mine: Vec<Uuid> = self
                .found_open()
                .into_iter()
                .filter(|f| f.1 == area && dealt_in(f.2) == Some(stage))
                .map(|f| f.0)
                .collect();
            rule("findings", area, !mine.is_empty(), mine.iter().max().copied());
            if stage == Stage::Refit {
                let full =
                    self.bags_out().iter().any(|b| matches!(b.what, What::Bagged { area: a, .. } if a == area));
                rule("bags-back", area, full, None);
            }
        }
        broken
    }

    fn soaped(&self, stage: Stage, area: AreaId, rule: &mut impl FnMut(&'static str, AreaId, bool, Option<Uuid>)) {
        let all: Vec<_> = self.soap().into_iter().filter(|s| s.area == area).collect();
        let since = all.iter().map(|s| s.rinsed.map_or(s.id, |r| r.1)).max();
        let degreased = self.of_kind(|e| match &e.what {
            What::Done { stage: Stage::Degrease, areas } | What::Skipped { stage: Stage::Degrease, areas, .. } => {
                areas.contains(&area).then_some(e.id)
            }
            _ => None,
        });
        // Before Neutralise only what was soaped since Degrease was settled.
        let from =
            if stage == Stage::Neutralise && self.settled(area, Stage::Degrease) { degreased.last() } else { None };
        let mine = |s: &Uuid| from.is_none_or(|id| s > id);
        rule("soap-off", area, all.iter().any(|s| mine(&s.id) && s.rinsed.is_none()), since);
        let over = |s: &Soap| {
            let end = s.rinsed.map_or(self.now, |r| r.0);
            (end - s.at).num_milliseconds() as f64 > s.minutes * 60_000.0
        };
        let unwashed = |bad: &Uuid, place: &str| {
            !all.iter()
                .any(|s| s.id > *bad && s.rinsed.is_some() && !over(s) && (place.is_empty() || place == s.place))
        };
        // The gate names the first one that wants a second wash; only that one is asked for before Neutralise.
        let bad = all.iter().find(|s| over(s) && unwashed(&s.id, &s.place));
        rule("second-wash", area, bad.is_some_and(|s| mine(&s.id)), since);
    }

    fn bare_since(&self, stage: Stage, area: AreaId) -> Option<Uuid> {
        let opened = |e: &Entry| matches!(&e.what, What::OpenedAgain { stage: s, areas, .. } if *s == stage && areas.contains(&area));
        self.of_kind(|e| (self.wets(e, area) || opened(e)).then_some(e.id)).last().copied()
    }

    fn bare_unseen(&self, stage: Stage, area: AreaId) -> bool {
        let seen = self.of_kind(|e| {
            matches!(&e.what, What::BareSeen { stage: s, areas } if *s == stage && areas.contains(&area))
                .then_some(e.id)
        });
        seen.last().copied() <= self.bare_since(stage, area)
    }

    fn bag_back(&self, bag: Uuid, counted: Option<u32>, plugs: Option<u32>, short: &str) -> Vec<&'static str> {
        let Some(e) = self.entries.iter().find(|e| e.id == bag) else { return vec!["no such bag"] };
        let What::Bagged { area, fasteners, plugs: off, joint, screwed, .. } = &e.what else {
            return vec!["no such bag"];
        };
        let mut broken = self.stage(Stage::Refit, &[*area], "bags-back");
        let came: u32 = fasteners.iter().map(|f| f.count).sum();
        let before = self.of_kind(|e| match e.what {
            What::BagBack { bag: b, plugs, .. } if b == bag => plugs,
            _ => None,
        });
        let went = plugs.or(before.last().copied()).unwrap_or(0);
        if short.trim().is_empty() && (counted.is_some_and(|n| n != came) || off.unwrap_or(0) != went) {
            broken.push("not counted");
        }
        // A reason is for one bag: it must be newer than the last one that was filled or went back on the area.
        let of_area = |id: Uuid| {
            self.entries.iter().any(|b| b.id == id && matches!(b.what, What::Bagged { area: a, .. } if a == *area))
        };
        let first_back = |id: Uuid| {
            self.entries.iter().find(|e| matches!(e.what, What::BagBack { bag, .. } if bag == id)).map(|e| e.id)
        };
        let last = self.of_kind(|e| matches!(e.what, What::Bagged { .. }).then_some(e.id));
        let last = last.into_iter().filter(|id| of_area(*id)).map(|id| first_back(id).unwrap_or(id)).max();
        let out = self.bags_out();
        let behind = out
            .iter()
            .any(|o| o.id != bag && matches!(&o.what, What::Bagged { behind, .. } if behind.contains(&bag)));
        let ticked = |id: &str| {
            let item = format!("{bag}/{id}");
            let ticks = self.of_kind(|e| match &e.what {
                What::Ticked { stage: Stage::Refit, item: i, on } if *i == item => Some(*on),
                _ => None,
            });
            ticks.last() == Some(&true)
        };
        let steps: &[&str] = match joint {
            Fixing::Plain if fasteners[0].size == "clip" && !screwed => &[],
            Fixing::Plain => &["dab", "wet", "tighten", "recoat"],
            _ => &["clean", "dry", "manual"],
        };
        let mut rule = |id: &'static str, breach: bool, since: Option<Uuid>| {
            if breach && !self.said(id, Stage::Refit, *area, since) {
                broken.push(id);
            }
        };
        rule("behind", behind, last);
        rule("bag-order", out.last().is_some_and(|o| o.id != bag), None);
        rule("thread-steps", steps.iter().any(|s| !ticked(s)), last);
        broken
    }
}

fn dealt_in(sort: Finding) -> Option<Stage> {
    match sort {
        Finding::ShippingWax => Some(Stage::Dewax),
        Finding::MixedMetals => Some(Stage::FirstPass),
        Finding::Hazard => None,
        _ => Some(Stage::Mend),
    }
}
