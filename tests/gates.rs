//! The gates hold over random sequences of entries, legal and not: over a hundred thousand of them in a run.
//!
//! What a sequence may not do is judged by [`Judge`], which reads the bare entries and knows neither the fold nor the
//! gates: a gate that forgot its rule is caught by it. `a_broken_gate_is_caught` takes each gate away in turn and must see
//! that happen. A failure names its seed; `SEED=… cargo test --test gates` runs that one sequence again.
#![cfg(not(target_arch = "wasm32"))]

use std::collections::BTreeSet;

use chrono::{DateTime, TimeDelta, Utc};
use coatwalk::job::clocks;
use coatwalk::job::closing::{FUNCTION_CHECK, open_points};
use coatwalk::job::entry::{AreaId, AreaSeed, Covering, Entry, Fastener, Finding, Fixing, Left, VERSION, What};
use coatwalk::job::fold::Job;
use coatwalk::job::gate::{self, ARMS_LOCKED, BAG_GATES, GATES, Refusal};
use coatwalk::job::guide::guide;
use coatwalk::job::log::Log;
use coatwalk::job::product::{Product, Use};
use coatwalk::job::resume;
use coatwalk::job::stage::Stage;
use coatwalk::job::tell::tell;
use coatwalk::job::thread_steps;
use uuid::Uuid;

/// Sequences in a run; every fourth asks no gate before it writes.
const SEQUENCES: u64 = 120_000;
/// Sequences within which a gate that was taken away must be missed.
const MISSED_WITHIN: u64 = 40_000;

mod judge;
use judge::Judge;

/// SplitMix64: the same sequences in every run.
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn below(&mut self, n: usize) -> usize {
        (self.next() % n as u64) as usize
    }

    fn one_in(&mut self, n: usize) -> bool {
        self.below(n) == 0
    }

    fn of<T: Copy>(&mut self, all: &[T]) -> T {
        all[self.below(all.len())]
    }
}

fn id(n: u64) -> Uuid {
    uuid::Builder::from_unix_timestamp_millis(1_790_000_000_000 + n, &[5; 10]).into_uuid()
}

fn area(n: u64) -> AreaId {
    AreaId(id(n))
}

/// Which gates the door asks: all, all but one, or none at all.
#[derive(Clone, Copy, PartialEq)]
enum Door {
    Whole,
    Without(&'static str),
    Open,
}

impl Door {
    fn permits(self, job: &Job, what: &What, now: DateTime<Utc>) -> bool {
        match (self, gate::permits(job, what, now)) {
            (Door::Open, _) | (_, Ok(())) => true,
            (Door::Without(id), Err(Refusal::Held(holds))) => holds.iter().all(|h| h.gate == id),
            (_, Err(_)) => false,
        }
    }
}

/// One sequence on its way.
struct Walk {
    dice: Dice,
    door: Door,
    log: Log,
    now: DateTime<Utc>,
    n: u64,
    /// The stage in which most of it happens.
    focus: Stage,
    /// Rules found broken by something that was let through.
    broken: BTreeSet<&'static str>,
}

impl Walk {
    fn start(seed: u64, door: Door) -> Walk {
        let now = "2026-10-05T12:00:00Z".parse().unwrap();
        let mut dice = Dice(seed);
        let focus = Stage::ALL[dice.below(15)];
        let mut walk = Walk { dice, door, log: Log::default(), now, n: 1000, focus, broken: BTreeSet::new() };
        let seed = |n, of: &str| AreaSeed { id: area(n), of: of.into(), name: of.into() };
        walk.write(What::Opened {
            name: "Grey trailer".into(),
            machine: "trailer".into(),
            seeds: vec![seed(1, "frame"), seed(2, "deck"), seed(3, "loose-panels")],
            demo: false,
        });
        for stage in Stage::ALL.into_iter().take_while(|s| *s < focus) {
            let areas = vec![area(1), area(2), area(3)];
            walk.write(What::Skipped { stage, areas, reason: "begins later".into() });
        }
        walk
    }

    fn run(mut self) -> Walk {
        for _ in 0..6 + self.dice.below(12) {
            self.now += TimeDelta::seconds(self.dice.below(90) as i64);
            self.step();
            if self.dice.one_in(6) {
                self.focus = self.focus.next().unwrap_or(self.focus);
            }
        }
        self
    }

    /// Asks the door, lets the judge look, and writes.
    fn write(&mut self, what: What) {
        if !self.door.permits(self.log.job(), &what, self.now) {
            return;
        }
        if self.door != Door::Open {
            let broken = Judge::of(&self.log, self.now).broken(&what);
            self.broken.extend(broken);
        }
        self.n += 1;
        // Two phones, each with its own hand and a clock of its own.
        let by = ["", "second pair of hands"][self.dice.below(2)];
        let e = Entry { v: VERSION, id: id(self.n), job: id(0), at: self.now, by: by.into(), what };
        self.log.add(e);
    }

    fn areas(&mut self) -> Vec<AreaId> {
        match self.dice.below(4) {
            0 => vec![area(1), area(2)],
            1 => vec![self.some_area()],
            _ => vec![area(1), area(2), area(3)],
        }
    }

    /// Sometimes one that is not there.
    fn some_area(&mut self) -> AreaId {
        let n = if self.dice.one_in(40) { 4 } else { 1 + self.dice.below(3) as u64 };
        area(n)
    }

    /// The id of an entry of a sort, or one that is of another sort or not there at all.
    fn some_entry(&mut self, sort: fn(&What) -> bool) -> Uuid {
        let fitting: Vec<Uuid> = self.log.entries().filter(|e| sort(&e.what)).map(|e| e.id).collect();
        if fitting.is_empty() || self.dice.one_in(30) {
            return id(990 + self.dice.below(60) as u64);
        }
        self.dice.of(&fitting)
    }

    /// What the stage needs, as somebody does who knows the way and now and then forgets a point.
    fn get_ready(&mut self, stage: Stage) {
        let points = guide(stage).safety;
        let forgotten = self.dice.below(4 * points.len());
        for (_, p) in points.iter().enumerate().filter(|(i, _)| *i != forgotten) {
            self.write(What::MadeSafe { stage, point: p.id.into() });
        }
        if matches!(stage, Stage::FirstPass | Stage::SecondPass) {
            self.write(What::BareSeen { stage, areas: vec![area(1), area(2), area(3)] });
            self.reading(0);
        }
    }

    /// Good for film, too near the dew point, wet steel, frost.
    fn reading(&mut self, which: usize) {
        let (air_c, rh, steel_c) =
            [(18.0, 55.0, 16.0), (10.0, 80.0, 8.5), (10.0, 95.0, 9.0), (2.0, 60.0, 2.0)][which];
        self.write(What::Reading { air_c, rh_pct: Some(rh), steel_c: Some(steel_c), product_c: None });
    }

    fn step(&mut self) {
        let stage = if self.dice.one_in(8) { Stage::ALL[self.dice.below(15)] } else { self.focus };
        // Refit is more than one tap: parts, their bags and their threads.
        let bags = self.focus == Stage::Refit && self.dice.one_in(2);
        match if bags { 17 + self.dice.below(4) } else { self.dice.below(27) } {
            0..=4 => {
                if self.dice.one_in(2) {
                    self.get_ready(stage);
                }
                let areas = self.areas();
                self.write(What::Done { stage, areas });
            }
            5..=7 => self.get_ready(stage),
            8 => {
                let points = guide(stage).safety;
                let point = self.dice.of(points).id.into();
                self.write(What::MadeSafe { stage, point });
            }
            9 => {
                let quality = GATES.iter().filter(|g| g.stages.contains(&stage)).map(|g| g.id);
                let mut all: Vec<&str> = quality.chain(BAG_GATES.iter().map(|g| g.id)).collect();
                all.extend([ARMS_LOCKED, guide(stage).safety[0].id]);
                let gate = self.dice.of(&all).into();
                let reason = if self.dice.one_in(8) { " ".into() } else { "said so".into() };
                let areas = self.areas();
                self.write(What::WentOn { stage, areas, gate, because: "b".into(), reason });
            }
            10 | 11 => {
                let minutes = self.dice.of(&[1, 3, 6, 15, 25, 60, 150, 13 * 60, 60 * 60]);
                self.now += TimeDelta::minutes(minutes);
            }
            12 => {
                let which = self.dice.below(4);
                self.reading(which);
            }
            13 => {
                let (area, minutes) = (self.some_area(), self.dice.of(&[2.0, 5.0, 8.0, f64::NAN, -1.0, 2.0]));
                let place = self.dice.of(&["", "door", "Door"]).into();
                self.write(What::SoapOn { area, minutes, place });
                if self.dice.one_in(2) {
                    self.now += TimeDelta::minutes(self.dice.of(&[1, 6]));
                    let stretch = self.some_entry(|w| matches!(w, What::SoapOn { .. }));
                    self.write(What::Rinsed { stretch });
                }
            }
            14 => {
                let stretch = self.some_entry(|w| matches!(w, What::SoapOn { .. }));
                self.write(What::Rinsed { stretch });
            }
            15 => {
                let (area, sort) = (self.some_area(), self.dice.of(&Finding::ALL));
                self.write(What::Found { area, sort, text: "left".into(), metals: vec![] });
            }
            16 => {
                let finding = self.some_entry(|w| matches!(w, What::Found { .. }));
                self.write(What::DealtWith { finding, how: "scraped".into() });
            }
            17 | 18 => self.bag(),
            19 | 20 => self.bag_back(),
            21 => {
                let covering = self.dice.of(&Covering::ALL);
                let (with, arms) = (String::new(), String::new());
                self.write(What::CoverOn { covering, area: None, place: "rods".into(), with, arms });
            }
            22 => {
                let cover = self.some_entry(|w| matches!(w, What::CoverOn { .. }));
                self.write(What::CoverOff { cover });
            }
            23 => {
                let position = self.dice.of(&["A", "B", "up"]).into();
                self.write(What::Arms { position });
            }
            24 => {
                let areas = self.areas();
                let what = match self.dice.below(5) {
                    0 => What::Wetted { areas, reason: "rain".into() },
                    1 => What::OpenedAgain { stage, areas, reason: "missed".into() },
                    2 => What::Skipped {
                        stage,
                        areas,
                        reason: if self.dice.one_in(3) { "" } else { "not here" }.into(),
                    },
                    3 => What::Claimed { stage, areas, on: self.dice.one_in(2) },
                    _ => What::BareSeen { stage, areas },
                };
                self.write(what);
            }
            25 => {
                let entry = self.some_entry(|_| true);
                self.write(What::Undone { entry });
            }
            _ => self.seldom(stage),
        }
    }

    fn bag(&mut self) {
        let mut behind: Vec<Uuid> = Vec::new();
        if self.dice.one_in(2) {
            behind.push(self.some_entry(|w| matches!(w, What::Bagged { .. })));
        }
        let area = self.some_area();
        let size = self.dice.of(&["M8", "clip"]);
        let what = What::Bagged {
            number: 1 + self.dice.below(4) as u32,
            part: "lamp".into(),
            area,
            put: String::new(),
            fasteners: vec![Fastener { size: size.into(), length_mm: None, count: 4 }],
            plugs: [None, Some(1)][self.dice.below(2)],
            screwed: self.dice.one_in(4),
            behind: Box::new(behind),
            coat: true,
            joint: [Fixing::Plain, Fixing::Manual][self.dice.below(2)],
        };
        self.write(what);
    }

    /// Half the time by somebody who knows the way; now and then after a reason for going past a gate of the bag.
    fn bag_back(&mut self) {
        let bag = self.some_entry(|w| matches!(w, What::Bagged { .. }));
        if self.dice.one_in(2) {
            self.get_ready(Stage::Refit);
            let steps = [Fixing::Plain, Fixing::Manual].into_iter().flat_map(thread_steps::of_joint);
            for item in steps.map(|s| thread_steps::item(bag, s)) {
                self.write(What::Ticked { stage: Stage::Refit, item, on: true });
            }
        }
        if self.dice.one_in(3) {
            let gate = BAG_GATES[self.dice.below(BAG_GATES.len())].id.into();
            let (areas, because, reason) = (vec![area(1), area(2), area(3)], "b".into(), "said so".into());
            self.write(What::WentOn { stage: Stage::Refit, areas, gate, because, reason });
        }
        let counted = self.dice.of(&[None, Some(4), Some(3)]);
        let plugs = self.dice.of(&[None, Some(1)]);
        let short = if self.dice.one_in(4) { "lost".into() } else { String::new() };
        self.write(What::BagBack { bag, counted, plugs, short });
    }

    fn seldom(&mut self, stage: Stage) {
        let what = match self.dice.below(7) {
            0 => What::ClockSet { name: "Test patch".into(), minutes: self.dice.of(&[30.0, 1e300, -5.0]) },
            1 => What::ClockStopped { clock: self.some_entry(|w| matches!(w, What::ClockSet { .. })) },
            2 | 3 => {
                let used_as = self.dice.of(&[Use::AerosolFilm, Use::LiquidFilm]);
                let mut film = Product::generic(used_as, id(11));
                film.batch = self.dice.of(&["", "B-17"]).into();
                What::Product { snapshot: Box::new(film) }
            }
            4 => What::AreaRemoved { area: self.some_area() },
            5 => What::Ticked { stage: Stage::Refit, item: self.dice.of(&FUNCTION_CHECK).into(), on: true },
            _ => {
                let mut left: Vec<Left> = open_points(self.log.job())
                    .into_iter()
                    .map(|what| Left { what, reason: format!("left so, {}", stage.title()) })
                    .collect();
                if self.dice.one_in(2) {
                    left.pop();
                }
                What::Closed { left }
            }
        };
        self.write(what);
    }

    /// All that is asked of a finished sequence besides the judge's rules.
    fn laws(&mut self, seed: u64) {
        let job = self.log.job();
        // Nothing that looks at a job may fall over it.
        let running = clocks::running(job, self.now);
        assert!(running.is_sorted_by_key(|c| !c.over), "seed {seed}");
        clocks::to_ring(job, &[], self.now);
        resume::resume(job, self.log.entries().next_back().map(|e| e.at), self.now + TimeDelta::hours(1));
        let last = self.log.entries().next_back().unwrap();
        assert!(!tell(job, last).head.is_empty());
        let entries: Vec<Entry> = self.log.entries().cloned().collect();
        let same = |one: &Job, two: &Job, law: &str| {
            let [one, two] = [one, two].map(|j| Job { last_at: None, ..j.clone() });
            assert_eq!(one, two, "seed {seed}: {law}");
        };

        if entries.len() < 2 {
            return;
        }
        // Taking an entry back leaves the state that is there without it.
        let k = 1 + self.dice.below(entries.len() - 1);
        let undo = What::Undone { entry: entries[k].id };
        let mut undone = self.log.clone();
        undone.add(Entry { v: VERSION, id: id(self.n + 1), job: id(0), at: self.now, by: String::new(), what: undo });
        let mut without = Log::default();
        for e in entries.iter().filter(|e| e.id != entries[k].id) {
            without.add(e.clone());
        }
        same(undone.job(), without.job(), "undo");

        // Entries of the other phone that come late, in any order. Now and then all of one phone's at once.
        let all_late = seed.is_multiple_of(32);
        let late =
            |i: usize, e: &Entry| if all_late { !e.by.is_empty() } else { i == k || i == (k * 7) % entries.len() };
        let mut here = Log::default();
        for (i, e) in entries.iter().enumerate() {
            if !late(i, e) {
                here.add(e.clone());
            }
        }
        for (i, e) in entries.iter().enumerate().rev() {
            if late(i, e) {
                here.add(e.clone());
            }
        }
        assert_eq!(here.job(), self.log.job(), "seed {seed}: order of arrival");
    }
}

#[test]
fn no_sequence_breaks_a_rule_unsaid() {
    if let Some(seed) = std::env::var("SEED").ok().and_then(|s| s.parse().ok()) {
        let walk = Walk::start(seed, Door::Whole).run();
        walk.log.entries().for_each(|e| println!("{}", e.line()));
        assert_eq!(walk.broken, BTreeSet::new());
        return;
    }
    let (mut written, mut done) = (0, 0);
    for seed in 0..SEQUENCES {
        let door = if seed % 4 == 3 { Door::Open } else { Door::Whole };
        let mut walk = Walk::start(seed, door).run();
        assert_eq!(walk.broken, BTreeSet::new(), "seed {seed}");
        walk.laws(seed);
        written += walk.log.len();
        if door == Door::Whole {
            done += walk.log.entries().filter(|e| matches!(e.what, What::Done { .. } | What::BagBack { .. })).count();
        }
    }
    println!("{SEQUENCES} sequences, {written} entries; {done} stages and bags let through by the gates");
    assert!(done > SEQUENCES as usize / 4, "hardly anything was let through: {done}");
}

/// With a gate taken away, the judge must miss it: so the run above can fail, by every one of the gates.
#[test]
fn a_broken_gate_is_caught() {
    let safety = [Stage::Cover, Stage::Refit].map(|s| guide(s).safety[0].id);
    let quality = GATES.iter().map(|g| g.id).chain(BAG_GATES.iter().map(|g| g.id));
    for gate in quality.chain([ARMS_LOCKED]).chain(safety) {
        let caught = (0..MISSED_WITHIN).find(|seed| !Walk::start(*seed, Door::Without(gate)).run().broken.is_empty());
        let seed = caught.unwrap_or_else(|| panic!("without {gate} nobody misses it"));
        let broken = Walk::start(seed, Door::Without(gate)).run().broken;
        assert_eq!(broken, BTreeSet::from([gate]), "seed {seed}");
        println!("without {gate}: caught in sequence {seed}");
    }
}
