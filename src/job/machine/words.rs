//! What is said about an area's surface: names, what follows for the trade, how a figure with its range reads.
//!
//! May use: [`super`], units. Must not: know a screen.

use super::{Condition, Exposure, Known, Measured};
use crate::job::guide::Basis::{self, CommonPractice, Memory};
use crate::job::surface::Material;
use crate::sums::band::Band;
use crate::units::{Def, SQUARE_METRE};

/// What follows for the work, and where that comes from.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Advice {
    /// One line for the screen.
    pub words: &'static str,
    /// Where it comes from.
    pub basis: Basis,
    /// It can hurt someone.
    pub caution: bool,
}

const fn say(words: &'static str, basis: Basis) -> Advice {
    Advice { words, basis, caution: false }
}

const fn caution(words: &'static str) -> Advice {
    Advice { words, basis: CommonPractice, caution: true }
}

const ACID: Advice = caution(
    "Acid rinse: keep it short, then rinse with water. Never with chlorine products. The product's sheet wins.",
);
const SHORT_SOAP: Advice = say("Soap stands 2 minutes at most, then rinse. Wash short stretches.", Memory);

impl Material {
    /// What it means for washing and coating.
    ///
    /// ```
    /// use coatwalk::job::surface::Material;
    /// assert!(Material::Aluminium.follows().iter().any(|a| a.caution && a.words.contains("Acid rinse")));
    /// ```
    pub fn follows(self) -> &'static [Advice] {
        match self {
            Material::Painted => {
                const { &[say("Fresh paint cures first, as long as its own sheet says.", CommonPractice)] }
            }
            Material::Galvanised => {
                const { &[SHORT_SOAP, ACID, say("Shipping wax comes off with hot water first, 80 °C at most.", Memory)] }
            }
            Material::BareSteel => {
                const {
                    &[
                        say("It rusts soon after the wash: dry it at once, film it first.", CommonPractice),
                        say("An infrared thermometer reads bare steel wrong. Use one that touches.", CommonPractice),
                    ]
                }
            }
            Material::Aluminium => {
                const {
                    &[
                        SHORT_SOAP,
                        ACID,
                        say("What degreaser leaves eats aluminium: neutralise and rinse all of it.", CommonPractice),
                    ]
                }
            }
            Material::Plastic => {
                const {
                    &[
                        say("Usually stays bare: it comes off or is masked.", CommonPractice),
                        say(
                            "The plan still counts its surface. Type only what gets film, or leave the area out.",
                            CommonPractice,
                        ),
                    ]
                }
            }
            Material::Rubber => {
                const {
                    &[
                        say(
                            "Usually stays bare: film stays tacky on it. Film it only if the product's sheet says so.",
                            CommonPractice,
                        ),
                        say(
                            "The plan still counts its surface. Type only what gets film, or leave the area out.",
                            CommonPractice,
                        ),
                    ]
                }
            }
        }
    }
}

impl Exposure {
    /// All of them.
    pub const ALL: [Exposure; 4] = [Exposure::None, Exposure::Fertiliser, Exposure::Manure, Exposure::Salt];

    /// The name on the screen.
    pub fn title(self) -> &'static str {
        match self {
            Exposure::None => "None of these",
            Exposure::Fertiliser => "Fertiliser",
            Exposure::Manure => "Manure",
            Exposure::Salt => "Road salt",
        }
    }

    /// What it means for washing and for after.
    pub fn follows(self) -> &'static [Advice] {
        const STRIP: Advice =
            say("Salt left behind drives rust under film: rinse again, then try a salt strip.", CommonPractice);
        const AFTER: Advice = say("Later: rinse after each use, look at edges and heads each month.", CommonPractice);
        match self {
            Exposure::None => &[],
            Exposure::Fertiliser => {
                const {
                    &[
                        caution(
                            "Ammonium nitrate with oil or solvent rags can burn. Clear it away before the cans come out.",
                        ),
                        STRIP,
                        AFTER,
                    ]
                }
            }
            Exposure::Manure => {
                const {
                    &[
                        caution("Never climb into a slurry tank: its gas kills."),
                        say("It packs in behind panels: brush it out before water.", CommonPractice),
                        AFTER,
                    ]
                }
            }
            Exposure::Salt => const { &[STRIP, AFTER] },
        }
    }
}

impl Condition {
    /// All of them, from little to much.
    pub const ALL: [Condition; 3] = [Condition::Sound, Condition::Spots, Condition::Loose];

    /// The name on the screen.
    pub fn title(self) -> &'static str {
        match self {
            Condition::Sound => "Sound",
            Condition::Spots => "Rust in spots",
            Condition::Loose => "Loose rust or paint",
        }
    }

    /// What there is to do.
    pub fn follows(self) -> &'static [Advice] {
        const LEAD: Advice = caution(
            "Old coats may hold lead. Test first. If so: no dry sanding, no heat, no sparks; follow local rules.",
        );
        match self {
            Condition::Sound => &[],
            Condition::Spots => {
                const { &[say("Scrape and abrade to bright sound edges, dust off, prime, wait.", CommonPractice), LEAD] }
            }
            Condition::Loose => {
                const {
                    &[
                        say(
                            "All that is loose comes off first: clear film over loose scale seals rust in.",
                            CommonPractice,
                        ),
                        LEAD,
                    ]
                }
            }
        }
    }
}

impl Known {
    /// Where the figure comes from, in a few words.
    pub fn words(self) -> &'static str {
        match self {
            Known::Measured => "measured",
            Known::Estimated => "estimated from kind and size",
            Known::Guessed => "guessed: measure it",
        }
    }
}

impl Measured {
    /// Minutes of mending by one practised person if it were in this condition (common practice, no source).
    ///
    /// ```
    /// use coatwalk::job::{kinds::kind, machine::{self, Condition, Machine}};
    /// let figures = Machine::of_kind("trailer").figures(&machine::places_of_kind(kind("trailer").unwrap()));
    /// let area = &figures.areas[0];
    /// assert_eq!(area.mending(Condition::Spots).likely, 3.0 * area.m2.likely);
    /// ```
    pub fn mending(&self, condition: Condition) -> Band {
        condition.mend_min_per_m2().times(self.m2.likely)
    }

    /// What is out of the ordinary about it, for a list: material, exposure and condition that matter.
    pub fn remarks(&self) -> String {
        let mut all = vec![self.made_of.title().to_ascii_lowercase()];
        if self.exposure != Exposure::None {
            all.push(self.exposure.title().to_ascii_lowercase());
        }
        if self.condition != Condition::Sound {
            all.push(self.condition.title().to_ascii_lowercase());
        }
        all.join(", ")
    }
}

/// A surface in m² as it is read in a unit of area: the likely figure, and its range.
///
/// ```
/// use coatwalk::{job::machine::surface_words, sums::band::Band, units::{SQUARE_FOOT, SQUARE_METRE}};
/// let m2 = Band::of([38.64, 48.3, 60.375]);
/// assert_eq!(surface_words(m2, SQUARE_METRE.def()), ("48 m²".into(), "39 to 60 m²".into()));
/// assert_eq!(surface_words(m2, SQUARE_FOOT.def()).0, "520 ft²");
/// ```
pub fn surface_words(m2: Band, unit: &Def) -> (String, String) {
    let inside = |v: f64| unit.from_si(SQUARE_METRE.def().to_si(v));
    let figure = |v: f64| {
        let places = match inside(m2.likely) {
            likely if likely < 1.0 => 2,
            likely if likely < 20.0 => 1,
            _ => 0,
        };
        format!("{:.places$}", inside(v))
    };
    let symbol = unit.symbol;
    (format!("{} {symbol}", figure(m2.likely)), format!("{} to {} {symbol}", figure(m2.low), figure(m2.high)))
}

/// A range of minutes, rounded to what an estimate can hold.
///
/// ```
/// use coatwalk::{job::machine::minutes_words, sums::band::Band};
/// assert_eq!(minutes_words(Band::of([12.6, 25.2, 67.2])), "about 25 min (13 to 67)");
/// ```
pub fn minutes_words(min: Band) -> String {
    match min.high < 0.5 {
        true => "no mending".into(),
        false => format!("about {:.0} min ({:.0} to {:.0})", min.likely.max(1.0), min.low, min.high),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all() -> Vec<&'static Advice> {
        let materials = Material::ALL.iter().flat_map(|m| m.follows());
        let exposures = Exposure::ALL.iter().flat_map(|e| e.follows());
        materials.chain(exposures).chain(Condition::ALL.iter().flat_map(|c| c.follows())).collect()
    }

    #[test]
    fn every_line_is_short_calm_and_has_its_basis() {
        for a in all() {
            assert!(a.words.len() <= 115 && a.words.ends_with('.') && !a.words.contains('!'), "{}", a.words);
            assert!(!a.basis.words().is_empty(), "{}", a.words);
            for never in ["safe", "passed", "verified", "approved"] {
                assert!(!a.words.contains(never), "{}", a.words);
            }
        }
    }

    #[test]
    fn zinc_and_aluminium_get_short_soap_and_an_acid_caution() {
        for m in Material::ALL {
            let says = |words: &str| m.follows().iter().any(|a| a.words.contains(words));
            let soft = matches!(m, Material::Galvanised | Material::Aluminium);
            assert_eq!(says("2 minutes"), soft, "{m:?}");
            assert_eq!(says("Acid rinse"), soft, "{m:?}");
            assert_eq!(says("stays bare"), matches!(m, Material::Plastic | Material::Rubber), "{m:?}");
        }
    }

    #[test]
    fn the_soap_is_as_short_as_the_stretch_clock() {
        // The clock's own shortest soak: see `guide::wash`, "2 in sun, wind, on aluminium, zinc".
        assert!(SHORT_SOAP.words.contains("2 minutes"));
        let degrease = crate::job::guide::guide(crate::job::stage::Stage::Degrease);
        assert!(format!("{degrease:?}").contains("2 in sun, wind, on aluminium, zinc"));
    }

    #[test]
    fn figures_keep_the_places_their_size_deserves() {
        let m2 = |v| surface_words(Band::sure(v), SQUARE_METRE.def()).0;
        assert_eq!([m2(0.333), m2(3.33), m2(33.3)], ["0.33 m²", "3.3 m²", "33 m²"]);
        assert_eq!(minutes_words(Band::sure(0.0)), "no mending");
        assert_eq!(minutes_words(Band::of([0.1, 0.3, 0.8])), "about 1 min (0 to 1)");
    }
}
