//! The state of a job, computed from its entries one by one.
//!
//! May use: [`entry`](super::entry), [`stage`](super::stage), the sums. Must not: fail, reach for a clock, know the
//! browser. An entry that makes no sense changes nothing and becomes a [`Problem`].

use std::collections::{BTreeMap, BTreeSet};

use chrono::{DateTime, Utc};
use uuid::Uuid;

use super::air;
use super::entry::{AreaId, Covering, Entry, Left, Raw, What};
pub use super::finding::Found;
use super::product::{Product, Use};
use super::stage::Stage;
pub use super::stretch::Stretch;

mod area;
mod records;

use area::Mark;
pub use area::*;
pub use records::*;

/// Something in the log that could not be used, by the entry it stands in.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Problem {
    pub entry: Uuid,
    pub why: String,
}

/// Who wrote an entry and when: every state carries the stamp of the entry it came from.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Stamp {
    pub entry: Uuid,
    pub at: DateTime<Utc>,
    pub by: String,
}

/// The state of one job.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Job {
    pub id: Option<Uuid>,
    pub name: String,
    /// Id of the kind of machine.
    pub machine: String,
    pub demo: bool,
    pub opened: Option<DateTime<Utc>>,
    /// Every area ever named, removed ones too.
    pub areas: Vec<Area>,
    pub bags: Vec<Bag>,
    pub covers: Vec<Cover>,
    pub readings: Vec<Reading>,
    pub mixes: Vec<Mix>,
    pub stretches: Vec<Stretch>,
    pub found: Vec<Found>,
    /// The position the arms were last set to.
    pub arms: Option<(Stamp, String)>,
    pub clocks: Vec<OwnClock>,
    /// How the machine lives.
    pub care: Option<Care>,
    /// What was done of the aftercare.
    pub looked: Vec<Looked>,
    /// Another job of the same machine.
    pub same_as: Option<Uuid>,
    /// In the bin, since then.
    pub binned: Option<Stamp>,
    /// The plan's setup, as JSON; [`super::plan::Setup::of`] reads it.
    pub setup: Option<Raw>,
    /// Every product ever logged, in the order in which they first came, those no longer used too.
    pub products: Vec<InUse>,
    pub used: Vec<Used>,
    pub worked: Vec<Worked>,
    /// Lines ticked on the lists: list and item.
    pub listed: BTreeSet<(String, String)>,
    pub kept: Vec<Kept>,
    pub went_on: Vec<WentOn>,
    /// Safety points answered, by stage and point, with the last time.
    pub made_safe: BTreeMap<(Stage, String), DateTime<Utc>>,
    pub ticks: BTreeSet<(Stage, String)>,
    pub closed: Option<(Stamp, Vec<Left>)>,
    /// When the stage last got a `Done`, by stage.
    pub last_done: BTreeMap<Stage, DateTime<Utc>>,
    pub last_at: Option<DateTime<Utc>>,
    pub problems: Vec<Problem>,
}

/// A limit longer than a year is no limit, min.
const A_YEAR_MIN: f64 = 525_600.0;

/// How a stage stands over the whole machine.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Count {
    pub open: usize,
    pub done: usize,
    pub skipped: usize,
}

impl Count {
    /// All areas.
    pub fn total(self) -> usize {
        self.open + self.done + self.skipped
    }
}

impl Job {
    /// The areas that are there now.
    pub fn areas(&self) -> impl Iterator<Item = &Area> {
        self.areas.iter().filter(|a| !a.removed)
    }

    /// One area, also a removed one.
    pub fn area(&self, id: AreaId) -> Option<&Area> {
        self.areas.iter().find(|a| a.id == id)
    }

    /// An area's name, also of a removed one.
    pub fn area_name(&self, id: AreaId) -> &str {
        self.area(id).map_or("an area of another version", |a| a.name.as_str())
    }

    /// Ids of the areas on which a stage is still open.
    pub fn open_areas(&self, stage: Stage) -> Vec<AreaId> {
        self.areas().filter(|a| !a.cell(stage).settled()).map(|a| a.id).collect()
    }

    /// How a stage stands.
    pub fn count(&self, stage: Stage) -> Count {
        let mut n = Count::default();
        for a in self.areas() {
            match a.cell(stage) {
                Cell::Open | Cell::Again(_) => n.open += 1,
                Cell::Done(_) => n.done += 1,
                Cell::Skipped(..) => n.skipped += 1,
            }
        }
        n
    }

    /// The stage in hand: the first with something open. `None` when all is settled.
    pub fn in_hand(&self) -> Option<Stage> {
        Stage::ALL.into_iter().find(|s| self.count(*s).open > 0)
    }

    /// The number for the next bag.
    pub fn next_bag(&self) -> u32 {
        self.bags.iter().map(|b| b.number).max().unwrap_or(0).saturating_add(1)
    }

    /// Bags still full, last filled first: the order in which they go back.
    pub fn bags_to_go_back(&self) -> Vec<&Bag> {
        self.bags.iter().rev().filter(|b| b.back.is_none()).collect()
    }

    /// All bags: the full ones in the order in which they go back, then those that are back.
    pub fn bags_in_order(&self) -> impl Iterator<Item = &Bag> {
        let full = self.bags_to_go_back().into_iter();
        full.chain(self.bags.iter().rev().filter(|b| b.back.is_some()))
    }

    /// Covers of a sort still on.
    pub fn covers_on(&self, cover: Covering) -> usize {
        self.covers.iter().filter(|c| c.cover == cover && c.off.is_none()).count()
    }

    /// The last reading.
    pub fn last_reading(&self) -> Option<&Reading> {
        self.readings.last()
    }

    /// The products in use, in the order in which they first came.
    pub fn in_use(&self) -> impl Iterator<Item = &InUse> {
        self.products.iter().filter(|p| !p.out)
    }

    /// The product of this use with its stamp: the one logged last.
    pub fn in_use_as(&self, used_as: Use) -> Option<&InUse> {
        self.in_use().filter(|p| p.product.used_as == used_as).max_by_key(|p| p.stamp.entry)
    }

    /// The product of this use: the one logged last.
    pub fn product(&self, used_as: Use) -> Option<&Product> {
        self.in_use_as(used_as).map(|p| &p.product)
    }

    /// The product of each use that has one.
    pub fn products_chosen(&self) -> Vec<Product> {
        Use::ALL.into_iter().filter_map(|u| self.product(u).cloned()).collect()
    }

    /// Takes one entry in. Entries must come in the order of their ids; [`super::log::Log`] sees to it.
    pub fn apply(&mut self, e: &Entry) {
        let stamp = Stamp { entry: e.id, at: e.at, by: e.by.clone() };
        self.last_at = self.last_at.max(Some(e.at));
        if let Err(why) = self.take(e, stamp) {
            self.problems.push(Problem { entry: e.id, why: why.into() });
        }
    }

    fn take(&mut self, e: &Entry, stamp: Stamp) -> Result<(), &'static str> {
        match &e.what {
            What::Opened { name, machine, seeds, demo } => {
                if self.id.is_some() {
                    return Err("the job was opened twice; the first one counts");
                }
                (self.id, self.opened, self.demo) = (Some(e.job), Some(e.at), *demo);
                (self.name, self.machine) = (name.clone(), machine.clone());
                for a in seeds {
                    self.add_area(a.id, &a.name, &a.of)?;
                }
            }
            What::AreaAdded { area, name } => self.add_area(*area, name, "")?,
            What::AreaRenamed { area, name } => self.area_mut(*area)?.name = name.clone(),
            What::AreaRemoved { area } => {
                if self.areas().filter(|a| a.id != *area).count() == 0 {
                    return Err("the last area can't be removed");
                }
                self.area_mut(*area)?.removed = true;
            }
            What::Done { stage, areas } => {
                let last = self.last_done.entry(*stage).or_insert(e.at);
                *last = (*last).max(e.at);
                self.each(areas, |a| {
                    a.cells[stage.index()] = Cell::Done(stamp.clone());
                    a.set_mark(*stage, Mark::Claimed, None);
                    a.wetted_by(*stage, e.id);
                })?;
            }
            What::Skipped { stage, areas, reason } => {
                self.each(areas, |a| {
                    a.cells[stage.index()] = Cell::Skipped(stamp.clone(), reason.clone());
                    a.set_mark(*stage, Mark::Claimed, None);
                })?;
            }
            What::OpenedAgain { stage, areas, reason } => {
                self.each(areas, |a| {
                    a.cells[stage.index()] = Cell::Again(reason.clone());
                    a.set_mark(*stage, Mark::Opened, Some(&stamp));
                })?;
            }
            What::Wetted { areas, reason } => self.each(areas, |a| a.dry_again(reason, e.id))?,
            What::Ticked { stage, item, on } => {
                let key = (*stage, item.clone());
                if *on {
                    self.ticks.insert(key)
                } else {
                    self.ticks.remove(&key)
                };
            }
            What::MadeSafe { stage, point } => {
                self.made_safe.insert((*stage, point.clone()), e.at);
            }
            What::WentOn { stage, areas, gate, because, reason } => self.went_on.push(WentOn {
                stamp,
                stage: *stage,
                areas: areas.clone(),
                gate: gate.clone(),
                because: because.clone(),
                reason: reason.clone(),
            }),
            What::Note { stage, area, text } => {
                self.kept.push(Kept { stamp, stage: *stage, area: *area, bag: None, keep: Keep::Note(text.clone()) });
            }
            What::Photo { stage, area, bag, photo, .. } => {
                self.kept.push(Kept { stamp, stage: *stage, area: *area, bag: *bag, keep: Keep::Photo(*photo) });
            }
            What::Voice { stage, area, bag, sound, .. } => {
                self.kept.push(Kept { stamp, stage: *stage, area: *area, bag: *bag, keep: Keep::Sound(*sound) });
            }
            What::Bagged { number, part, area, put, fasteners, plugs, screwed, behind, coat, joint, photos } => {
                // Taken before it came off: they belong to the part from now on.
                let of_it =
                    |k: &&mut Kept| k.bag.is_none() && matches!(k.keep, Keep::Photo(id) if photos.contains(&id));
                self.kept.iter_mut().filter(of_it).for_each(|k| (k.bag, k.area) = (Some(e.id), Some(*area)));
                self.bags.push(Bag {
                    id: e.id,
                    number: *number,
                    by: e.by.clone(),
                    part: part.clone(),
                    area: *area,
                    put: put.clone(),
                    fasteners: fasteners.to_vec(),
                    plugs: *plugs,
                    screwed: *screwed,
                    behind: behind.to_vec(),
                    coat: *coat,
                    joint: *joint,
                    back: None,
                    plugs_back: None,
                    short: String::new(),
                })
            }
            What::BagBack { bag, plugs, short, .. } => {
                let bag = self.bags.iter_mut().find(|b| b.id == *bag).ok_or("no such bag")?;
                bag.back.get_or_insert(stamp);
                // Counted anew later: the last count is the one that stands.
                bag.plugs_back = plugs.or(bag.plugs_back);
                bag.short.clone_from(short);
            }
            What::CoverOn { covering, area, place, with, arms } => self.covers.push(Cover {
                id: e.id,
                cover: *covering,
                area: *area,
                place: place.clone(),
                with: with.clone(),
                arms: arms.clone(),
                off: None,
            }),
            What::CoverOff { cover } => {
                let cover = self.covers.iter_mut().find(|c| c.id == *cover).ok_or("no such cover")?;
                cover.off.get_or_insert(stamp);
            }
            What::Mixed { stage, product, water_ml, concentrate_ml, .. } => self.mixes.push(Mix {
                stamp,
                stage: *stage,
                product: product.clone(),
                water_ml: *water_ml,
                concentrate_ml: *concentrate_ml,
            }),
            What::Reading { air_c, rh_pct, steel_c, product_c } => {
                let (air_c, rh_pct, steel_c, product_c) = (*air_c, *rh_pct, *steel_c, *product_c);
                let reading = Reading { stamp, air_c, rh_pct, steel_c, product_c };
                if air::steel_is_wet(&reading) {
                    self.areas.iter_mut().for_each(|a| a.dry_again("the steel was at or under the dew point", e.id));
                }
                self.readings.push(reading);
            }
            What::Sum { .. } => {}
            What::Planned { setup } => self.setup = Some(setup.clone()),
            What::Product { snapshot } => {
                let now = InUse { stamp, product: (**snapshot).clone(), out: false };
                match self.products.iter_mut().find(|p| p.product.id == snapshot.id) {
                    Some(known) => *known = now,
                    None => self.products.push(now),
                }
            }
            What::ProductOut { product_id } => {
                self.products.iter_mut().find(|p| p.product.id == *product_id).ok_or("no such product")?.out = true;
            }
            What::Used { amount, .. } if *amount < 0.0 => return Err("less than nothing can't be used"),
            What::Used { stage, item, amount, product_id, note } => self.used.push(Used {
                stamp,
                stage: *stage,
                item: item.clone(),
                amount: *amount,
                product_id: *product_id,
                note: note.clone(),
            }),
            What::Worked { minutes, .. } if *minutes < 0.0 => return Err("less than no time can't be worked"),
            What::Worked { stage, minutes, hands } => {
                self.worked.push(Worked { stamp, stage: *stage, minutes: *minutes, hands: *hands });
            }
            What::Listed { list, item, on } => {
                let key = (list.clone(), item.clone());
                if *on {
                    self.listed.insert(key)
                } else {
                    self.listed.remove(&key)
                };
            }
            What::SoapOn { minutes, .. } | What::ClockSet { minutes, .. }
                if !(0.0..=A_YEAR_MIN).contains(minutes) =>
            {
                return Err("these minutes make no sense");
            }
            What::SoapOn { area, minutes, place } => {
                self.area_mut(*area)?.soaped(e.id);
                let (area, minutes, place) = (*area, *minutes, place.clone());
                self.stretches.push(Stretch { id: e.id, stamp, area, minutes, place, rinsed: None });
            }
            What::Rinsed { stretch } => {
                let stretch = self.stretches.iter_mut().find(|s| s.id == *stretch).ok_or("no such stretch")?;
                stretch.rinsed.get_or_insert(stamp);
                let area = stretch.area;
                self.area_mut(area)?.dry_again("it was rinsed after it was dry", e.id);
            }
            What::Found { area, sort, text, metals } => {
                let (area, sort, text, metals) = (self.area_mut(*area)?.id, *sort, text.clone(), metals.clone());
                self.found.push(Found { id: e.id, stamp, area, sort, text, metals, dealt: None });
            }
            What::DealtWith { finding, how } => {
                let found = self.found.iter_mut().find(|f| f.id == *finding).ok_or("no such finding")?;
                found.dealt.get_or_insert((stamp, how.clone()));
            }
            What::Arms { position } => self.arms = Some((stamp, position.clone())),
            What::BareSeen { stage, areas } => {
                self.each(areas, |a| a.set_mark(*stage, Mark::BareSeen, Some(&stamp)))?;
            }
            What::ClockSet { name, minutes } => {
                let (name, minutes) = (name.clone(), *minutes);
                self.clocks.push(OwnClock { id: e.id, stamp, name, minutes, stopped: None });
            }
            What::ClockStopped { clock } => {
                let clock = self.clocks.iter_mut().find(|c| c.id == *clock).ok_or("no such clock")?;
                clock.stopped.get_or_insert(stamp);
            }
            What::Claimed { stage, areas, on } => {
                self.each(areas, |a| a.set_mark(*stage, Mark::Claimed, on.then_some(&stamp)))?;
            }
            What::Exposure { word, no_wash_days, no_hot_days, renew_months } => {
                let (no_wash_days, no_hot_days, renew_months) = (*no_wash_days, *no_hot_days, *renew_months);
                self.care = Some(Care { stamp, word: word.clone(), no_wash_days, no_hot_days, renew_months });
            }
            What::Looked { sort, areas, note } => {
                self.looked.push(Looked { stamp, sort: sort.clone(), areas: areas.clone(), note: note.clone() });
            }
            What::SameMachine { as_job } if *as_job == e.job => return Err("a job is its own machine's already"),
            What::SameMachine { as_job } => self.same_as = Some(*as_job),
            What::Binned { on } => self.binned = on.then_some(stamp),
            // Taking back is the log's work: an `Undone` that reaches the fold found nothing to take back or did so.
            What::Undone { .. } => {}
            What::Closed { left } => self.closed = Some((stamp, left.clone())),
        }
        Ok(())
    }

    fn add_area(&mut self, id: AreaId, name: &str, of: &str) -> Result<(), &'static str> {
        if self.area(id).is_some() {
            return Err("this area is there already");
        }
        self.areas.push(Area {
            id,
            name: name.into(),
            of: of.into(),
            removed: false,
            cells: std::array::from_fn(|_| Cell::Open),
            wet: None,
            marks: Vec::new(),
        });
        Ok(())
    }

    fn area_mut(&mut self, id: AreaId) -> Result<&mut Area, &'static str> {
        self.areas.iter_mut().find(|a| a.id == id).ok_or("no such area")
    }

    /// Does it for every area named; one that is not there is a problem but stops none of the others.
    fn each(&mut self, ids: &[AreaId], mut change: impl FnMut(&mut Area)) -> Result<(), &'static str> {
        let mut result = Ok(());
        for id in ids {
            match self.area_mut(*id) {
                Ok(a) => change(a),
                Err(why) => result = Err(why),
            }
        }
        result
    }
}

impl Job {
    /// A bag's number as it is shown. Two phones can give out the same one: then each bag carries the name of who filled
    /// it, and, where that does not tell them apart, a letter in the order of filling: "4", "4 (Anna)", "4a", "4b".
    pub fn bag_label(&self, bag: &Bag) -> String {
        let twins = || self.bags.iter().filter(|b| b.number == bag.number);
        let namesakes = || twins().filter(|b| b.by == bag.by);
        let place = namesakes().position(|b| b.id == bag.id).unwrap_or_default();
        let letter = match namesakes().count() {
            0 | 1 => String::new(),
            _ => char::from_u32('a' as u32 + place as u32)
                .filter(|_| place < 26)
                .map_or(format!("-{}", place + 1), String::from),
        };
        match twins().count() > 1 && !bag.by.is_empty() {
            true => format!("{}{letter} ({})", bag.number, bag.by),
            false => format!("{}{letter}", bag.number),
        }
    }
}
