//! How a line of the list is reckoned, in words, with the very figures that were taken.

use super::{
    BAGS, BRUSHES, CARTRIDGE_MIN, COVER_BAGS, FOIL, GLOVES, Inputs, Item, LAMP_M2, PADS, PAPER, RAGS, TAPE, TAPE_M,
};
use crate::job::product::{CAN_ML, Figure, Product, brief};
use crate::sums::dilution::RINSE_L_PER_M2;
use crate::units::{LITRE_PER_SQUARE_METRE, METRE, MICROMETRE, MILLILITRE, Measure, Quantity, SQUARE_METRE, UnitSet};

/// How the need of a material is reckoned: two or three sentences.
pub fn how(item: Item, inputs: &Inputs, set: UnitSet) -> String {
    let words = Words { set };
    let f = inputs.figures;
    let machine = format!("the machine's {}", words.area(f.m2.likely));
    let lamps = inputs.how.lamps_taped.min(f.lamps);
    let span = |rate: [f64; 3]| format!("{} ({} to {})", rate[1], rate[0], rate[2]);
    let each = |rate: [f64; 3], of: &str| format!("{} for each {of}", span(rate));
    // Rates by the area are for a square metre; in feet they would be fractions of a rag.
    let by_area = |rate: [f64; 3]| format!("{}, {machine}", each(rate, &words.area(10.0)));
    let tens = |rate: [f64; 3]| rate.map(|v| (v * 1000.0).round() / 100.0);
    let (reckoned, basis) = match item {
        Item::FilmLiquid | Item::FilmCans | Item::Degreaser | Item::Neutraliser => {
            let used_as = item.product().expect("it is a product");
            let (product, _) = Product::chosen(inputs.products, used_as, inputs.today);
            (words.product(item, &product, &machine), "figures of the product; defaults say that they are")
        }
        Item::Water => {
            let [low, likely, high] = RINSE_L_PER_M2.map(|v| words.per_area(v));
            (format!("Rinsing takes {likely} ({low} to {high}), {machine}"), "from memory")
        }
        Item::Paper => {
            let (glass, lamp) = (words.area(f.glass_m2), words.area(LAMP_M2));
            (format!("{glass} of glass and {lamp} for each lamp taped over ({lamps}), times {}", span(PAPER)), CP)
        }
        Item::Tape => {
            let [glass, opening, lamp] = TAPE_M.map(|v| words.length(v));
            let of_glass = format!("{glass} for each {} of glass ({})", words.area(1.0), words.area(f.glass_m2));
            let of_openings = format!("{opening} for each opening ({})", f.openings);
            let of_lamps = format!("{lamp} for each lamp taped over ({lamps})");
            (format!("{of_glass}, {of_openings}, {of_lamps}, times {}", span(TAPE)), CP)
        }
        Item::Foil => {
            let [low, likely, high] = FOIL.map(|v| words.area(v));
            (format!("{likely} ({low} to {high}) for each of {} cylinder rods", f.rods), CP)
        }
        Item::Bags => (each(BAGS, &format!("of {} parts that come off", f.parts)), CP),
        Item::CoverBags => (each(COVER_BAGS, &format!("of {} openings", f.openings)), CP),
        Item::Rags => (by_area(tens(RAGS)), CP),
        Item::Brushes => (by_area(tens(BRUSHES)), CP),
        Item::Pads => (by_area(tens(PADS)), CP),
        Item::Gloves => (each(GLOVES, "pair of hands and working day"), CP),
        Item::Cartridges => {
            let hours = CARTRIDGE_MIN / 60.0;
            (format!("One pair for {hours} hours of spraying or one day, whichever comes first"), CP)
        }
    };
    format!("{}. {}.", upper(&reckoned), upper(basis))
}

const CP: &str = "common practice, no source";

fn upper(words: &str) -> String {
    let mut chars = words.chars();
    let first = chars.next().map(|c| c.to_ascii_uppercase()).unwrap_or_default();
    format!("{first}{}", chars.as_str())
}

struct Words {
    set: UnitSet,
}

impl Words {
    fn print(&self, measure: Measure, si: f64) -> String {
        let unit = measure.unit(self.set);
        format!("{} {}", brief(unit.from_si(si)), unit.symbol)
    }

    fn area(&self, m2: f64) -> String {
        self.print(Measure::Area, SQUARE_METRE.of(m2).si())
    }

    fn length(&self, m: f64) -> String {
        self.print(Measure::Size, METRE.of(m).si())
    }

    fn per_area(&self, litres: f64) -> String {
        self.print(Measure::PerArea, LITRE_PER_SQUARE_METRE.of(litres).si())
    }

    fn product(&self, item: Item, product: &Product, machine: &str) -> String {
        let sheet = &product.sheet;
        let likely = |f: &Option<Figure>| f.as_ref().map_or(0.0, |f| f.likely);
        let per_area = self.per_area(likely(&sheet.use_l_per_m2));
        match item {
            Item::FilmLiquid => {
                let film = self.print(Measure::Film, MICROMETRE.of(likely(&sheet.dry_um)).si());
                let (solids, lost) = (likely(&sheet.solids_pct), likely(&sheet.loss_pct));
                format!("{machine}, {film} dry, {solids} % solids, {lost} % does not land")
            }
            Item::FilmCans => {
                let can = product.sizes.first().map_or(CAN_ML, |s| s.size_ml);
                let can = self.print(Measure::Jug, MILLILITRE.of(can).si());
                let sprays = likely(&sheet.can_sprays_pct);
                format!("{machine}, {per_area} in the first pass, cans of {can} of which {sprays} % comes out")
            }
            _ => {
                let mix = product.mix().map_or(String::new(), |m| format!(", {}", m.words()));
                format!("{machine}, {per_area} of mix{mix}")
            }
        }
    }
}
