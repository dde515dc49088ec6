//! How much there is to wash and coat on each area of a kind of machine, and what it is made of.
//!
//! Every area is described by plain shapes as on the machine of the kind's typical size; they grow with the overall
//! length, width and height of the owner's own. Shapes, counts and masses are estimates (common practice, no source),
//! set so that the compact wheel loader comes to about 50 m², which fits the trade's "about one gallon of thin film"
//! for it. The owner may change each and may measure an area instead.
//!
//! May use: [`crate::sums::area`], [`super::kinds`]. Must not: know a job, a clock or a screen.

mod form;
mod loaders;
mod tools;

pub use form::{FACES, INTRICACIES, Side};

use serde::{Deserialize, Serialize};

use super::kinds::Kind;
use crate::sums::area::{self, Lies, Overall, Part, Shape};
use crate::sums::band::Band;
use crate::sums::{Answer, NotPossible};
use crate::units::{Area, METRE, Quantity, SQUARE_METRE};

/// What an area is made of, as far as washing and coating care.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Material {
    /// Painted steel or castings.
    #[default]
    Painted,
    /// Hot-dip galvanised or zinc-plated: no acid left standing, short soap times.
    Galvanised,
    /// Bare or worn bright.
    BareSteel,
    /// Attacked by strong alkali: short soap times.
    Aluminium,
    /// Wants no film, comes off or is masked.
    Plastic,
    /// Stays tacky under film; the sheet says whether.
    Rubber,
}

impl Material {
    /// All of them.
    pub const ALL: [Material; 6] = [
        Material::Painted,
        Material::Galvanised,
        Material::BareSteel,
        Material::Aluminium,
        Material::Plastic,
        Material::Rubber,
    ];

    /// The name on the screen.
    pub fn title(self) -> &'static str {
        match self {
            Material::Painted => "Painted",
            Material::Galvanised => "Galvanised or zinc-plated",
            Material::BareSteel => "Bare steel",
            Material::Aluminium => "Aluminium",
            Material::Plastic => "Plastic",
            Material::Rubber => "Rubber",
        }
    }
}

/// A shape with its sizes in metres, as the tables and the owner's own measurements hold it.
#[derive(Clone, Copy, PartialEq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the names say it; see sums::area::Shape
pub enum Form {
    Box { length_m: f64, width_m: f64, height_m: f64 },
    Plate { length_m: f64, width_m: f64 },
    Tube { diameter_m: f64, length_m: f64 },
    Wheel { diameter_m: f64, width_m: f64 },
    Rail { length_m: f64, web_m: f64, flange_m: f64 },
}

/// Some parts alike: the stored twin of [`Part`].
#[derive(Clone, Copy, PartialEq, Debug, Serialize, Deserialize)]
pub struct Piece {
    /// Their shape.
    pub form: Form,
    /// How many.
    pub count: u32,
    /// Faces to be covered: 1 the outside, 2 both sides of the sheet.
    pub faces: f64,
    /// How much more there is than the plain shape: 1 smooth, 1.5 ribs and brackets, 2 pipes and castings.
    pub intricacy: f64,
}

impl Piece {
    /// As the sums take it.
    pub fn part(&self) -> Part {
        let m = |v: f64| METRE.of(v);
        let shape = match self.form {
            Form::Box { length_m, width_m, height_m } => {
                Shape::Box { length: m(length_m), width: m(width_m), height: m(height_m) }
            }
            Form::Plate { length_m, width_m } => Shape::Plate { length: m(length_m), width: m(width_m) },
            Form::Tube { diameter_m, length_m } => Shape::Tube { diameter: m(diameter_m), length: m(length_m) },
            Form::Wheel { diameter_m, width_m } => Shape::Wheel { diameter: m(diameter_m), width: m(width_m) },
            Form::Rail { length_m, web_m, flange_m } => {
                Shape::Rail { length: m(length_m), web: m(web_m), flange: m(flange_m) }
            }
        };
        Part { shape, count: self.count, faces: self.faces, intricacy: self.intricacy }
    }
}

/// One area of a kind: its shapes and what it is made of, the most of it first.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct AreaSurface {
    /// The area's id in its kind's list.
    pub id: &'static str,
    /// Which overall sizes it grows with.
    pub lies: Lies,
    /// What it is made of, the most of it first.
    pub made_of: &'static [Material],
    /// Its shapes on a machine of the kind's typical size, only what gets film.
    pub pieces: &'static [Piece],
}

/// What else of a kind the plan counts.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct KindSurface {
    /// The kind's id.
    pub kind: &'static str,
    /// Glass to be masked, m².
    pub glass_m2: f64,
    /// Cylinder rods to be wrapped in foil.
    pub rods: u32,
    /// Lamps.
    pub lamps: u32,
    /// Openings to be bagged before water.
    pub openings: u32,
    /// Steel to be warmed, kg.
    pub steel_kg: f64,
    /// Its areas.
    pub areas: &'static [AreaSurface],
}

/// How far the shapes may be off: a fifth less to a quarter more (common practice, no source).
pub const ESTIMATED: Band = Band::of([0.8, 1.0, 1.25]);
/// How far an area measured by the owner may be off (common practice, no source).
pub const MEASURED: Band = Band::of([0.95, 1.0, 1.05]);
/// Taken for an area that no table knows, m²; the owner is asked to measure it.
pub const UNKNOWN_M2: f64 = 2.0;

static TABLES: [&KindSurface; 8] = [
    &loaders::WHEEL_LOADER,
    &loaders::SKID_STEER,
    &loaders::TRACTOR,
    &loaders::TELEHANDLER,
    &tools::SPREADER,
    &tools::SLURRY_TANKER,
    &tools::TRAILER,
    &tools::PICKUP,
];

/// The table of a kind.
///
/// ```
/// use coatwalk::job::surface;
/// assert_eq!(surface::of_kind("compact-wheel-loader").unwrap().areas.len(), 14);
/// assert!(surface::of_kind("submarine").is_none());
/// ```
pub fn of_kind(kind: &str) -> Option<&'static KindSurface> {
    TABLES.into_iter().find(|t| t.kind == kind)
}

impl KindSurface {
    /// The area with this id.
    pub fn area(&self, id: &str) -> Option<&'static AreaSurface> {
        self.areas.iter().find(|a| a.id == id)
    }
}

/// The kind's typical overall size.
pub fn typical(kind: &Kind) -> Overall {
    Overall { length: METRE.of(kind.length_m), width: METRE.of(kind.width_m), height: METRE.of(kind.height_m) }
}

/// How much there is of an area on a machine of this size, or of the kind's typical size.
///
/// # Errors
/// An area that the kind's table does not know; a size outside its range.
///
/// # Example
/// ```
/// use coatwalk::{job::{kinds, surface}, units::SQUARE_METRE};
/// let loader = kinds::kind("compact-wheel-loader").unwrap();
/// let bucket = surface::of_area(loader, "bucket", surface::typical(loader))?;
/// assert!((SQUARE_METRE.get(bucket) - 8.4).abs() < 0.5);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn of_area(kind: &Kind, area_id: &str, size: Overall) -> Answer<Area> {
    let row = of_kind(kind.id).and_then(|t| t.area(area_id)).ok_or(NotPossible::Nothing)?;
    let factor = area::scale(typical(kind), size, row.lies)?;
    Ok(Area::from_si(of_pieces(row.pieces)?.si() * factor))
}

/// How much there is of pieces, as when the owner measures an area by shape.
///
/// # Errors
/// A size, a count or a factor outside its range.
pub fn of_pieces(pieces: &[Piece]) -> Answer<Area> {
    let parts: Vec<Part> = pieces.iter().map(Piece::part).collect();
    area::of_parts(&parts)
}

/// How much there is of the whole machine at the kind's typical size.
pub(super) fn typical_m2(kind: &Kind) -> f64 {
    let areas = of_kind(kind.id).map_or(&[][..], |t| t.areas);
    areas.iter().filter_map(|a| of_pieces(a.pieces).ok()).map(|a| SQUARE_METRE.get(a)).sum()
}

// Short forms for the tables.
const fn row(id: &'static str, lies: Lies, made_of: &'static [Material], pieces: &'static [Piece]) -> AreaSurface {
    AreaSurface { id, lies, made_of, pieces }
}
const fn boxed(l: f64, w: f64, h: f64, count: u32, intricacy: f64) -> Piece {
    Piece { form: Form::Box { length_m: l, width_m: w, height_m: h }, count, faces: 1.0, intricacy }
}
const fn sheet(l: f64, w: f64, count: u32, faces: f64, intricacy: f64) -> Piece {
    Piece { form: Form::Plate { length_m: l, width_m: w }, count, faces, intricacy }
}
const fn tube(d: f64, l: f64, count: u32, intricacy: f64) -> Piece {
    Piece { form: Form::Tube { diameter_m: d, length_m: l }, count, faces: 1.0, intricacy }
}
const fn rim(d: f64, w: f64, count: u32) -> Piece {
    Piece { form: Form::Wheel { diameter_m: d, width_m: w }, count, faces: 1.0, intricacy: 1.0 }
}
const fn rail(l: f64, web: f64, flange: f64, count: u32, intricacy: f64) -> Piece {
    Piece { form: Form::Rail { length_m: l, web_m: web, flange_m: flange }, count, faces: 2.0, intricacy }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::kinds::KINDS;

    #[test]
    fn every_area_of_every_kind_has_its_row_and_no_row_is_over() {
        for kind in KINDS {
            let table = of_kind(kind.id).unwrap_or_else(|| panic!("{}", kind.id));
            let ours: Vec<_> = table.areas.iter().map(|a| a.id).collect();
            let theirs: Vec<_> = kind.areas.iter().map(|a| a.id).collect();
            assert_eq!(ours, theirs, "{}", kind.id);
            for a in table.areas {
                let m2 = SQUARE_METRE.get(of_pieces(a.pieces).unwrap());
                assert!(m2 > 0.2 && m2 < 40.0, "{} {}: {m2}", kind.id, a.id);
                assert!(!a.made_of.is_empty(), "{} {}", kind.id, a.id);
            }
        }
    }

    #[test]
    fn machines_come_to_sizes_a_person_would_guess() {
        // Common practice, no source: about as much as the box round the machine, once to twice for open frames.
        for kind in KINDS {
            let (l, w, h) = (kind.length_m, kind.width_m, kind.height_m);
            let around = 2.0 * (l * w + l * h + w * h);
            let share = typical_m2(kind) / around;
            assert!((0.6..2.0).contains(&share), "{}: {:.1} m², {share:.2}", kind.id, typical_m2(kind));
        }
    }

    #[test]
    fn areas_grow_with_the_machine() {
        let loader = crate::job::kinds::kind("compact-wheel-loader").unwrap();
        let large = Overall { length: METRE.of(10.0), width: METRE.of(1.75), height: METRE.of(2.5) };
        let m2 = |size| SQUARE_METRE.get(of_area(loader, "arms", size).unwrap());
        assert!((m2(large) / m2(typical(loader)) - 2.0).abs() < 1e-9, "arms lie along the side");
        assert!(of_area(loader, "wings", typical(loader)).is_err());
    }
}
