//! What to buy: each material low, likely and high, packed into the sizes to be had, the shelf's stock taken off.
//!
//! Each need is a product of inputs with their spread, run as [`crate::sums::band`] describes: one job in ten needs less
//! than `low`, one in ten more than `high`. Film by the data sheet; degreaser, neutraliser and water by the area;
//! covers by glass, lamps, rods, openings and parts; gloves and cartridges by days. Rates are common practice, no
//! source, unless marked.
//!
//! May use: [`super::machine`], [`super::product`], [`super::hours`], the sums. Must not: fail, reach for a clock.

mod how;
mod item;
mod text;

pub use how::how;
pub use item::{Item, Measure, Supply, SupplySize};
pub use text::{Show, note, text};

use std::collections::BTreeMap;

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::hours::{How, Work};
use super::machine::{Fault, Figures};
use super::product::{CAN_ML, Figure, Product, Use};
use super::stage::Stage;
use crate::sums::band::{self, Band, Factor, JOB_SCATTER_LN, Learnt, by, over};
use crate::sums::dilution::RINSE_L_PER_M2;
use crate::sums::packs::{self, Pack};
use crate::sums::range::{Field, check};
use crate::units::LITRE;

// Rates: low, likely, high; common practice, no source.

/// Masking paper, m² for each m² to be covered.
const PAPER: [f64; 3] = [1.15, 1.3, 1.6];
/// A lamp taped over, m².
const LAMP_M2: f64 = 0.1;
/// Share of the usual tape.
const TAPE: [f64; 3] = [0.7, 1.0, 1.5];
/// Tape for each m² of glass, each opening, each lamp, m.
const TAPE_M: [f64; 3] = [10.0, 2.0, 1.5];
/// Aluminium foil for each rod, m².
const FOIL: [f64; 3] = [0.2, 0.35, 0.6];
/// Bags for each part that comes off.
const BAGS: [f64; 3] = [0.8, 1.0, 1.4];
/// Bags for each opening.
const COVER_BAGS: [f64; 3] = [1.0, 1.2, 1.6];
/// Rags for each m².
const RAGS: [f64; 3] = [0.3, 0.6, 1.2];
/// Pairs of gloves for each person and day.
const GLOVES: [f64; 3] = [1.0, 2.0, 4.0];
/// A pair of cartridges lasts so long, min, or one day.
const CARTRIDGE_MIN: f64 = 480.0;
/// Brushes for each m².
const BRUSHES: [f64; 3] = [0.02, 0.04, 0.06];
/// Scrub pads for each m².
const PADS: [f64; 3] = [0.04, 0.08, 0.16];
/// Working hours in a day, when those given make no sense.
const DAY_HOURS: f64 = 8.0;

/// Which end of the estimate is bought.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Cover {
    /// Runs out in one job of two.
    Likely,
    /// Lasts in nine jobs of ten.
    #[default]
    High,
}

/// What the list is made from.
#[derive(Clone, Copy)]
pub struct Inputs<'a> {
    /// The machine.
    pub figures: &'a Figures,
    /// Its work.
    pub work: &'a Work,
    /// Who works.
    pub how: &'a How,
    /// Working hours in a day.
    pub day_hours: f64,
    /// The user's products; the first of each use is taken.
    pub products: &'a [Product],
    /// His other sizes and stock.
    pub supplies: &'a [Supply],
    /// For each past job, what it really took over the likely amount estimated for it.
    pub past: &'a BTreeMap<Item, Vec<f64>>,
    /// Which end is bought.
    pub cover: Cover,
    /// His own date, held against expiry dates.
    pub today: NaiveDate,
    /// Seeds the spread.
    pub seed: u64,
}

/// So many of one size.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Buy {
    /// How many.
    pub count: u32,
    /// How much is in each, in the item's measure.
    pub amount: f64,
    /// What each costs.
    pub price: Option<f64>,
}

/// One line of the list.
#[derive(Clone, PartialEq, Debug)]
pub struct Line {
    /// Which material.
    pub item: Item,
    /// The product's or the material's name.
    pub name: String,
    /// What the job takes.
    pub need: Band,
    /// Where the estimate comes from, in words: "from your 2 jobs, ...".
    pub from: String,
    /// There already.
    pub on_shelf: f64,
    /// Still to be got.
    pub missing: f64,
    /// In these sizes; empty when nothing is missing, and for water.
    pub buy: Vec<Buy>,
    /// What that costs; none when a price is missing.
    pub cost: Option<f64>,
}

/// The list.
#[derive(Clone, PartialEq, Debug)]
pub struct List {
    /// Its lines, in the order of [`Item::ALL`].
    pub lines: Vec<Line>,
    /// What the priced lines cost together; none when none has a price.
    pub cost: Option<f64>,
    /// The same for each m² of the machine.
    pub cost_per_m2: Option<f64>,
    /// To be bought, but without a price.
    pub unpriced: Vec<Item>,
    /// What made no sense.
    pub faults: Vec<Fault>,
}

impl List {
    /// One line.
    pub fn line(&self, item: Item) -> Option<&Line> {
        self.lines.iter().find(|l| l.item == item)
    }

    /// The lines of what the job takes: the rest is not shown.
    pub fn taken(&self) -> impl Iterator<Item = &Line> {
        self.lines.iter().filter(|l| l.need.high > 0.0)
    }

    /// What was wrong with a line, or with the product behind it.
    pub fn faults_of(&self, line: &Line) -> Vec<&Fault> {
        self.faults.iter().filter(|f| line.has(f)).collect()
    }

    /// What was wrong and belongs to no line that is shown.
    pub fn other_faults(&self) -> Vec<&Fault> {
        self.faults.iter().filter(|f| !self.taken().any(|l| l.has(f))).collect()
    }
}

/// The list. Never fails: what makes no sense stands in [`List::faults`], the rest is there.
pub fn list(inputs: &Inputs) -> List {
    let mut faults = Vec::new();
    let mut products = BTreeMap::new();
    for used_as in Use::ALL {
        let (product, why) = Product::chosen(inputs.products, used_as, inputs.today);
        faults.extend(why);
        products.insert(used_as, product);
    }
    let needs = Needs { inputs, products: &products };
    let mut lines = Vec::new();
    for (place, item) in Item::ALL.into_iter().enumerate() {
        // Each line has its own shift, so that no two err in step.
        let seed = inputs.seed.wrapping_mul(31).wrapping_add(place as u64);
        let need = match needs.of(item, seed) {
            Ok(need) => need,
            Err(why) => {
                faults.push(Fault::of(item.title(), &why, ""));
                continue;
            }
        };
        let past = inputs.past.get(&item).map_or(&[][..], Vec::as_slice);
        let learnt = band::learn(need, past, JOB_SCATTER_LN).unwrap_or_else(|why| {
            faults.push(Fault::of(item.title(), &why, "the estimate without past jobs"));
            Learnt { band: need, jobs: 0, weight_percent: 0.0 }
        });
        lines.push(needs.line(item, learnt, &mut faults));
    }
    let unpriced: Vec<Item> =
        lines.iter().filter(|l| !l.buy.is_empty() && l.cost.is_none()).map(|l| l.item).collect();
    let priced: Vec<f64> = lines.iter().filter(|l| !l.buy.is_empty()).filter_map(|l| l.cost).collect();
    let cost = (!priced.is_empty()).then(|| priced.iter().sum::<f64>());
    let m2 = inputs.figures.m2.likely;
    List { cost_per_m2: cost.filter(|_| m2 > 0.0).map(|c| c / m2), cost, unpriced, lines, faults }
}

struct Needs<'a> {
    inputs: &'a Inputs<'a>,
    products: &'a BTreeMap<Use, Product>,
}

impl Needs<'_> {
    /// What the job takes of a material, in its measure.
    fn of(&self, item: Item, seed: u64) -> crate::sums::Answer<Band> {
        let (machine, how) = (self.inputs.figures, self.inputs.how);
        let m2 = by(machine.m2);
        let product = |factors: &[Factor]| band::product(factors, seed);
        let lamps = f64::from(how.lamps_taped.min(machine.lamps));
        let (glass, openings) = (machine.glass_m2, f64::from(machine.openings));
        let hands = f64::from(how.hands.max(1));
        match item {
            Item::FilmLiquid => {
                let sheet = &self.products[&Use::LiquidFilm].sheet;
                // m² · µm is a thousandth of a litre.
                let film = figure(&sheet.dry_um).times(1e-3);
                let solids = figure(&sheet.solids_pct).times(0.01);
                product(&[m2, by(film), over(solids), over(figure(&sheet.loss_pct).rest_of_percent())])
            }
            Item::FilmCans => {
                let cans = &self.products[&Use::AerosolFilm];
                let content = cans.sizes.first().map_or(CAN_ML, |s| s.size_ml) / 1000.0;
                let sprays = figure(&cans.sheet.can_sprays_pct).times(0.01 * content);
                product(&[m2, by(figure(&cans.sheet.use_l_per_m2)), over(sprays)])
            }
            Item::Degreaser | Item::Neutraliser => {
                let used_as = item.product().expect("it is a product");
                let sheet = &self.products[&used_as].sheet;
                let (water, part) = (figure(&sheet.water_parts).likely, figure(&sheet.concentrate_parts).likely);
                let share = Band::sure(part / (water + part));
                product(&[m2, by(figure(&sheet.use_l_per_m2)), by(share)])
            }
            Item::Water => product(&[m2, by(Band::of(RINSE_L_PER_M2))]),
            Item::Paper => product(&[by(Band::of(PAPER)), by(Band::sure(glass + LAMP_M2 * lamps))]),
            Item::Tape => {
                let [of_glass, of_opening, of_lamp] = TAPE_M;
                let metres = of_glass * glass + of_opening * openings + of_lamp * lamps;
                product(&[by(Band::of(TAPE)), by(Band::sure(metres))])
            }
            Item::Foil => product(&[by(Band::of(FOIL)), by(Band::sure(f64::from(machine.rods)))]),
            Item::Bags => product(&[by(Band::of(BAGS)), by(Band::sure(f64::from(machine.parts)))]),
            Item::CoverBags => product(&[by(Band::of(COVER_BAGS)), by(Band::sure(openings))]),
            Item::Rags => product(&[m2, by(Band::of(RAGS))]),
            Item::Gloves => {
                let total = self.inputs.work.total();
                let day = check(Field::DayHours, self.inputs.day_hours).unwrap_or(DAY_HOURS);
                product(&[by(total.times(hands / (60.0 * day))), by(Band::of(GLOVES))])
            }
            // One pair for eight hours of spraying or one day, whichever comes first; the passes are one day.
            Item::Cartridges => {
                let spray_min = [Stage::FirstPass, Stage::SecondPass].map(|s| self.inputs.work.of(s).minutes);
                let pairs = |min: f64| (min / CARTRIDGE_MIN).ceil().max(1.0);
                Ok(match machine.areas.is_empty() {
                    true => Band::sure(0.0),
                    false => Band {
                        low: 1.0,
                        likely: pairs(spray_min[0].likely + spray_min[1].likely),
                        high: pairs(spray_min[0].high + spray_min[1].high).max(2.0),
                    },
                })
            }
            Item::Brushes => product(&[m2, by(Band::of(BRUSHES))]),
            Item::Pads => product(&[m2, by(Band::of(PADS))]),
        }
    }

    fn line(&self, item: Item, learnt: Learnt, faults: &mut Vec<Fault>) -> Line {
        let need = learnt.band;
        let (name, sizes, on_shelf) = self.stock(item, faults);
        let wanted = match self.inputs.cover {
            Cover::Likely => need.likely,
            Cover::High => need.high,
        };
        let whole = |v: f64| if item.measure() == Measure::Pieces { (v - 1e-9).ceil() } else { v };
        let missing = whole((wanted - on_shelf).max(0.0));
        let mut line =
            Line { item, name, need, from: learnt.words(), on_shelf, missing, buy: Vec::new(), cost: Some(0.0) };
        if item == Item::Water || missing <= 0.0 {
            return line;
        }
        // Without all prices: as if a pack twice as large cost 1.7 times as much (common practice, no source).
        let priced = sizes.iter().all(|s| s.price.is_some());
        let shelf: Vec<Pack> = sizes
            .iter()
            // The sum packs litres; any other measure only rides in them.
            .map(|s| Pack {
                size: LITRE.of(s.amount),
                price: s.price.filter(|_| priced).unwrap_or(s.amount.powf(0.8)),
            })
            .collect();
        line.cost = None;
        match packs::cheapest(LITRE.of(missing), &shelf) {
            Ok(purchase) => {
                let counted = sizes.iter().zip(&purchase.counts).filter(|(_, n)| **n > 0);
                line.buy = counted.map(|(s, n)| Buy { count: *n, amount: s.amount, price: s.price }).collect();
                line.cost = priced.then_some(purchase.cost);
            }
            Err(why) => faults.push(Fault::of(item.title(), &why, "the bare amount, without sizes")),
        }
        line
    }

    /// Name, sizes and stock of a material.
    fn stock(&self, item: Item, faults: &mut Vec<Fault>) -> (String, Vec<SupplySize>, f64) {
        if let Some(used_as) = item.product() {
            let product = &self.products[&used_as];
            // Cans are counted in cans of the first size.
            let unit_ml = match item.measure() {
                Measure::Pieces => product.sizes.first().map_or(CAN_ML, |s| s.size_ml),
                _ => 1000.0,
            };
            let sizes = product.sizes.iter().map(|s| SupplySize { amount: s.size_ml / unit_ml, price: s.price });
            return (product.called(), sizes.collect(), product.shelf_ml / unit_ml);
        }
        let usual = || item.usual_sizes().iter().map(|a| SupplySize { amount: *a, price: None }).collect();
        let Some(supply) = self.inputs.supplies.iter().find(|s| s.item == item) else {
            return (item.title().into(), usual(), 0.0);
        };
        let fits = |s: &&SupplySize| {
            check(Field::SupplySize, s.amount).is_ok() && s.price.is_none_or(|p| check(Field::PackPrice, p).is_ok())
        };
        let mut sizes: Vec<SupplySize> = supply.sizes.iter().filter(fits).copied().collect();
        if sizes.len() < supply.sizes.len() {
            faults.push(Fault::new(item.title(), "a size or price must be more than nothing", "the other sizes"));
        }
        if sizes.is_empty() {
            sizes = usual();
        }
        let on_shelf = check(Field::SupplyStock, supply.on_shelf).unwrap_or_else(|e| {
            faults.push(Fault::of(item.title(), &e.into(), "none on the shelf"));
            0.0
        });
        (item.title().into(), sizes, on_shelf)
    }
}

/// A settled product has every figure its use needs.
fn figure(figure: &Option<Figure>) -> Band {
    figure.as_ref().map_or(Band::sure(0.0), Figure::band)
}
