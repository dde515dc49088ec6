//! The owner's machine as the plan takes it: overall size, what he measured or changed on single areas, and the figures
//! that follow for every area.
//!
//! May use: [`super::surface`], [`super::kinds`], the job, serde. Must not: fail. What makes no sense becomes a
//! [`Fault`] that says what was taken instead, so that the plan still shows what it can.

mod words;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::entry::AreaId;
use super::fold::{Job, LOOSE};
use super::kinds::{Kind, kind};
use super::surface::{self, ESTIMATED, MEASURED, Material, Piece, UNKNOWN_M2};
use crate::sums::SumError;
use crate::sums::area::Overall;
use crate::sums::band::Band;
use crate::sums::range::{Field, check};
use crate::units::{METRE, Quantity, SQUARE_METRE};

pub use words::{Advice, minutes_words, surface_words};

/// An input that makes no sense, or is missing, and what the plan takes in its place.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Fault {
    /// The input by name: "length", "cure hours".
    pub field: String,
    /// What is wrong and what would be right.
    pub words: String,
    /// What is taken instead; empty when that part of the plan is left out.
    pub instead: String,
}

impl Fault {
    pub(super) fn new(field: &str, words: impl Into<String>, instead: impl Into<String>) -> Fault {
        Fault { field: field.into(), words: words.into(), instead: instead.into() }
    }

    pub(super) fn of(field: &str, why: &SumError, instead: impl Into<String>) -> Fault {
        Fault::new(field, why.to_string(), instead)
    }

    /// One line for a screen.
    pub fn line(&self) -> String {
        match self.instead.as_str() {
            "" => self.words.clone(),
            instead => format!("{}; the plan takes {instead}", self.words),
        }
    }
}

/// What an area lives with.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the names say it
pub enum Exposure {
    #[default]
    None,
    Fertiliser,
    Manure,
    Salt,
}

/// What the survey found on an area.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Condition {
    /// Nothing to mend.
    #[default]
    Sound,
    /// Rust in spots: scrape, abrade, prime.
    Spots,
    /// Loose rust or flaking paint over much of it.
    Loose,
}

impl Condition {
    /// Mending, minutes per m² of the area (common practice, no source).
    pub fn mend_min_per_m2(self) -> Band {
        match self {
            Condition::Sound => Band::sure(0.0),
            Condition::Spots => Band::of([1.5, 3.0, 8.0]),
            Condition::Loose => Band::of([6.0, 12.0, 30.0]),
        }
    }
}

/// What the owner measured or changed on one area. This is also the stored shape.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct OwnArea {
    /// Measured by shape; empty when not.
    pub pieces: Vec<Piece>,
    /// Typed as a plain area; goes before the pieces.
    pub area_m2: Option<f64>,
    /// What it is made of, if not as the kind's table says.
    pub made_of: Option<Material>,
    /// What it lives with.
    pub exposure: Exposure,
    /// What the survey found.
    pub condition: Condition,
}

/// The machine's size and the owner's changes. This is also the stored shape.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Machine {
    /// The kind's id.
    pub kind: String,
    /// Overall length; the kind's typical one when not given.
    pub length_m: Option<f64>,
    /// Overall width.
    pub width_m: Option<f64>,
    /// Overall height.
    pub height_m: Option<f64>,
    /// Changes, by area of the job.
    pub areas: BTreeMap<AreaId, OwnArea>,
}

/// Where the figure for an area comes from.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Known {
    /// The owner measured it.
    Measured,
    /// From the kind's shapes and the overall size.
    Estimated,
    /// No table knows the area: a plain guess. Ask for a measure.
    Guessed,
}

/// One area with its figures.
#[derive(Clone, PartialEq, Debug)]
pub struct Measured {
    /// Its id in the job, if there is one.
    pub id: Option<AreaId>,
    /// Its id in the kind's list.
    pub of: String,
    /// What it is called.
    pub name: String,
    /// How much there is, m².
    pub m2: Band,
    /// Where that comes from.
    pub known: Known,
    /// What it is mostly made of.
    pub made_of: Material,
    /// Parts that come off here.
    pub parts: u32,
    /// What it lives with.
    pub exposure: Exposure,
    /// What the survey found.
    pub condition: Condition,
}

impl Measured {
    /// Loose panels are no part of the standing machine.
    pub fn loose(&self) -> bool {
        self.of == LOOSE
    }
}

/// The machine in figures.
#[derive(Clone, PartialEq, Debug)]
pub struct Figures {
    /// The kind, if it is a known one.
    pub kind: Option<&'static Kind>,
    /// Its areas, in the order they came.
    pub areas: Vec<Measured>,
    /// All areas together, m². Estimates by the same eye err the same way, so the ends simply add up.
    pub m2: Band,
    /// Glass to be masked, m².
    pub glass_m2: f64,
    /// Cylinder rods.
    pub rods: u32,
    /// Lamps.
    pub lamps: u32,
    /// Openings to be bagged.
    pub openings: u32,
    /// Parts that come off.
    pub parts: u32,
    /// Steel to be warmed, kg.
    pub steel_kg: f64,
    /// What made no sense.
    pub faults: Vec<Fault>,
}

/// An area to be measured: its id in the job, its id in the kind's list, its name.
pub type Place = (Option<AreaId>, String, String);

/// The areas of a job as they are now.
pub fn places_of_job(job: &Job) -> Vec<Place> {
    job.areas().map(|a| (Some(a.id), a.of.clone(), a.name.clone())).collect()
}

/// The areas a kind of machine starts with, before there is a job.
pub fn places_of_kind(kind: &Kind) -> Vec<Place> {
    kind.areas.iter().map(|a| (None, a.id.to_owned(), a.name.to_owned())).collect()
}

impl Figures {
    /// The fault is about the machine's surface: its kind, its list of areas, its size, or an area by name.
    ///
    /// ```
    /// use coatwalk::job::{kinds::kind, machine::{self, Machine}};
    /// let figures = Machine::of_kind("trailer").sized(-1.0, 2.5, 3.0).figures(&machine::places_of_kind(kind("trailer").unwrap()));
    /// assert!(figures.faults.len() == 1 && figures.has(&figures.faults[0]));
    /// ```
    pub fn has(&self, fault: &Fault) -> bool {
        const OWN: [&str; 5] = ["kind of machine", "areas", "length", "width", "height"];
        OWN.contains(&fault.field.as_str()) || self.areas.iter().any(|a| a.name == fault.field)
    }
}

impl Machine {
    /// A machine of a kind, of typical size.
    pub fn of_kind(kind: &str) -> Machine {
        Machine { kind: kind.into(), ..Machine::default() }
    }

    /// With its overall size in metres.
    pub fn sized(self, length_m: f64, width_m: f64, height_m: f64) -> Machine {
        Machine { length_m: Some(length_m), width_m: Some(width_m), height_m: Some(height_m), ..self }
    }

    /// Changes what the owner says about one area; an area he says nothing about is forgotten.
    ///
    /// ```
    /// use coatwalk::job::{entry::AreaId, machine::Machine};
    /// let (mut loader, arms) = (Machine::of_kind("compact-wheel-loader"), AreaId(uuid::Uuid::from_u128(1)));
    /// loader.change_area(arms, |own| own.area_m2 = Some(4.0));
    /// assert_eq!(loader.areas[&arms].area_m2, Some(4.0));
    /// loader.change_area(arms, |own| own.area_m2 = None);
    /// assert!(loader.areas.is_empty());
    /// ```
    pub fn change_area(&mut self, area: AreaId, change: impl FnOnce(&mut OwnArea)) {
        let own = self.areas.entry(area).or_default();
        change(own);
        if *own == OwnArea::default() {
            self.areas.remove(&area);
        }
    }

    /// The figures of every area. Never fails; see [`Figures::faults`].
    ///
    /// # Example
    /// ```
    /// use coatwalk::job::{kinds::kind, machine::{self, Machine}};
    /// let loader = Machine::of_kind("compact-wheel-loader").sized(5.0, 1.75, 2.5);
    /// let figures = loader.figures(&machine::places_of_kind(kind("compact-wheel-loader").unwrap()));
    /// assert!(figures.faults.is_empty() && (45.0..55.0).contains(&figures.m2.likely));
    /// ```
    pub fn figures(&self, places: &[Place]) -> Figures {
        let mut faults = Vec::new();
        let kind = kind(&self.kind);
        if kind.is_none() {
            let guess = format!("{UNKNOWN_M2} m² for each area: measure them");
            faults.push(Fault::new("kind of machine", format!("no kind is called \"{}\"", self.kind), guess));
        }
        let size = kind.map(|k| (k, self.size(k, &mut faults)));
        let areas: Vec<Measured> = places.iter().map(|p| self.measure(p, size, &mut faults)).collect();
        if areas.is_empty() {
            faults.push(Fault::new("areas", "the machine has no areas: add one", ""));
        }
        let table = kind.and_then(|k| surface::of_kind(k.id));
        // Glass, rods and steel grow with the whole machine.
        let grown = size.map_or(1.0, |(k, s)| {
            let typical = k.length_m * k.width_m * k.height_m;
            s.length.si() * s.width.si() * s.height.si() / typical
        });
        let sum = |f: fn(&Band) -> f64| areas.iter().map(|a| f(&a.m2)).sum();
        Figures {
            kind,
            m2: Band { low: sum(|b| b.low), likely: sum(|b| b.likely), high: sum(|b| b.high) },
            glass_m2: table.map_or(0.0, |t| t.glass_m2) * grown.powf(2.0 / 3.0),
            rods: table.map_or(0, |t| t.rods),
            lamps: table.map_or(0, |t| t.lamps),
            openings: table.map_or(0, |t| t.openings),
            parts: areas.iter().map(|a| a.parts).sum(),
            steel_kg: table.map_or(1000.0, |t| t.steel_kg) * grown,
            areas,
            faults,
        }
    }

    fn size(&self, kind: &Kind, faults: &mut Vec<Fault>) -> Overall {
        let mut side = |name: &str, given: Option<f64>, typical: f64| {
            let Some(metres) = given else { return METRE.of(typical) };
            match check(Field::MachineLength, metres) {
                Ok(_) => METRE.of(metres),
                Err(e) => {
                    let instead = format!("{typical} m, typical for a {}", kind.name.to_ascii_lowercase());
                    faults.push(Fault::of(name, &e.into(), instead));
                    METRE.of(typical)
                }
            }
        };
        Overall {
            length: side("length", self.length_m, kind.length_m),
            width: side("width", self.width_m, kind.width_m),
            height: side("height", self.height_m, kind.height_m),
        }
    }

    fn measure(&self, place: &Place, size: Option<(&'static Kind, Overall)>, faults: &mut Vec<Fault>) -> Measured {
        let (id, of, name) = place;
        let own = id.and_then(|id| self.areas.get(&id));
        let row = size.and_then(|(k, _)| surface::of_kind(k.id)?.area(of));
        let by_kind = || match size.and_then(|(k, s)| surface::of_area(k, of, s).ok()) {
            Some(area) => (ESTIMATED.times(SQUARE_METRE.get(area)), Known::Estimated),
            None => (Band::of([0.4, 1.0, 2.5]).times(UNKNOWN_M2), Known::Guessed),
        };
        let (m2, known) = match own.and_then(OwnArea::measured) {
            None => by_kind(),
            Some(Ok(m2)) => (MEASURED.times(m2), Known::Measured),
            Some(Err(why)) => {
                let (m2, known) = by_kind();
                faults.push(Fault::of(name, &why, format!("{:.1} m² for it", m2.likely)));
                (m2, known)
            }
        };
        let parts = size.and_then(|(k, _)| k.area(of)).map_or(0, |a| a.parts.len() as u32);
        Measured {
            id: *id,
            of: of.clone(),
            name: name.clone(),
            m2,
            known,
            made_of: own.and_then(|o| o.made_of).or(row.map(|r| r.made_of[0])).unwrap_or_default(),
            parts,
            exposure: own.map(|o| o.exposure).unwrap_or_default(),
            condition: own.map(|o| o.condition).unwrap_or_default(),
        }
    }
}

impl OwnArea {
    /// What was measured, m², if anything was. Pieces with a side still to be measured count for nothing.
    fn measured(&self) -> Option<Result<f64, SumError>> {
        if let Some(m2) = self.area_m2 {
            return Some(check(Field::Area, m2).map_err(SumError::from));
        }
        let whole: Vec<Piece> = self.pieces.iter().filter(|p| p.is_measured()).copied().collect();
        let sum = || surface::of_pieces(&whole).and_then(|a| Ok(check(Field::Area, SQUARE_METRE.get(a))?));
        (!whole.is_empty()).then(sum)
    }

    /// The pieces together, m², whether or not they are what the plan takes.
    pub fn pieces_m2(&self) -> f64 {
        self.pieces.iter().filter_map(Piece::m2).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::surface::Form;

    #[test]
    fn half_measured_pieces_leave_the_estimate_as_it_is() {
        let trailer = kind("trailer").unwrap();
        let id = AreaId(uuid::Uuid::from_u128(7));
        let places = vec![(Some(id), trailer.areas[0].id.to_owned(), "Deck".to_owned())];
        let mut machine = Machine::of_kind("trailer");
        let estimate = machine.figures(&places);
        let cube = Form::Box { length_m: 2.0, width_m: 1.0, height_m: 0.0 };
        machine.change_area(id, |own| own.pieces.push(Piece::one(cube)));
        assert_eq!(machine.figures(&places), estimate);
        machine.change_area(id, |own| own.pieces[0].form = cube.with(2, 1.0));
        let own = machine.figures(&places);
        assert!(own.faults.is_empty() && own.areas[0].known == Known::Measured);
        assert!((own.m2.likely - 10.0).abs() < 1e-9 && (machine.areas[&id].pieces_m2() - 10.0).abs() < 1e-9);
        // A size that makes no sense is no size still to come.
        machine.change_area(id, |own| own.pieces[0].form = cube.with(2, -1.0));
        assert_eq!(machine.figures(&places).faults.len(), 1);
    }
}
