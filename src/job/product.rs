//! The user's products: what their data sheets say, which batch it is, and what stands on his shelf.
//!
//! A product may have any figure missing: the generic one is taken then and says that it is a default. The sheets of
//! the user's own products (TDS and SDS) go before every figure here.
//!
//! May use: [`crate::sums`] ranges, serde, chrono dates. Must not: reach for a clock; today is an argument.

mod asked;
mod told;

pub(super) use asked::brief;
pub use asked::{Asked, Part};
pub use told::{Dated, Spot};

use std::collections::BTreeMap;

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::entry::tidy;
use super::machine::Fault;
use super::moment::day;
use crate::sums::band::Band;
use crate::sums::film::{CAN_SPRAYS_PERCENT, RESIN_UM, SOLIDS_PERCENT, Tool};
use crate::sums::range::{Field, check};
use crate::sums::vapour::{self, Share};
use crate::sums::{NotPossible, SumError, air, cure, dilution};
use crate::units::CELSIUS;

/// The version written into stored products.
pub const VERSION: u32 = 1;

/// Said beside every default.
pub const DEFAULT_NOTE: &str = "default, replace from your data sheet";

/// A can holds so much when its size is not known, mL (common practice, no source).
pub const CAN_ML: f64 = 500.0;

/// What a product is for.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Use {
    /// Film from the gun, for the second pass.
    LiquidFilm,
    /// Film from cans, for the first pass.
    AerosolFilm,
    /// Water-based degreaser.
    Degreaser,
    /// Neutralising rinse.
    Neutraliser,
}

impl Use {
    /// All of them.
    pub const ALL: [Use; 4] = [Use::LiquidFilm, Use::AerosolFilm, Use::Degreaser, Use::Neutraliser];

    /// The name on the screen.
    pub fn title(self) -> &'static str {
        match self {
            Use::LiquidFilm => "Film, liquid",
            Use::AerosolFilm => "Film, cans",
            Use::Degreaser => "Degreaser",
            Use::Neutraliser => "Neutraliser",
        }
    }
}

/// A figure of a product. An own figure has no spread unless the user gave one.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Figure {
    /// The figure itself.
    pub likely: f64,
    /// One job in ten is lower.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub low: Option<f64>,
    /// One in ten is higher.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub high: Option<f64>,
    /// Not the user's own.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub default: bool,
    /// Where it comes from.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

impl Figure {
    /// The user's own figure, from his data sheet.
    pub fn own(likely: f64) -> Figure {
        Figure { likely, low: None, high: None, default: false, note: "your data sheet".into() }
    }

    fn generic(row: [f64; 3], basis: &str) -> Figure {
        let spread = row[0] < row[2];
        Figure {
            likely: row[1],
            low: spread.then_some(row[0]),
            high: spread.then_some(row[2]),
            default: true,
            note: format!("{DEFAULT_NOTE} ({basis})"),
        }
    }

    /// With its spread; none for a bare figure.
    pub fn band(&self) -> Band {
        let (low, high) = (self.low.unwrap_or(self.likely), self.high.unwrap_or(self.likely));
        Band { low, likely: self.likely, high }
    }
}

macro_rules! figures {
    ($($(#[$doc:meta])* $name:ident $words:literal $field:ident;)*) => {
        /// The figures of a product; each may be missing. Field names carry the unit.
        ///
        /// Stored by way of a map of its figures: the same line, and a tenth of the code of a reader by fields. A
        /// figure that this version does not know is dropped.
        #[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
        #[serde(from = "Figures", into = "Figures")]
        pub struct Sheet {$(
            $(#[$doc])*
            pub $name: Option<Figure>,
        )*}

        impl Sheet {
            /// Every figure with its name in the store, its words and range, in the order of a data sheet.
            pub fn rows(&self) -> Vec<(&'static str, &'static str, Field, Option<&Figure>)> {
                vec![$((stringify!($name), $words, Field::$field, self.$name.as_ref())),*]
            }

            /// Every figure by its name in the store.
            fn slots(&mut self) -> Vec<(&'static str, &mut Option<Figure>)> {
                vec![$((stringify!($name), &mut self.$name)),*]
            }

            fn each(&mut self, generic: &Sheet, mut settle: impl FnMut(&str, Field, &mut Option<Figure>, &Option<Figure>)) {
                $(settle($words, Field::$field, &mut self.$name, &generic.$name);)*
            }
        }
    };
}

/// A sheet as it is stored.
type Figures = BTreeMap<String, Option<Figure>>;

impl From<Figures> for Sheet {
    fn from(mut figures: Figures) -> Sheet {
        let mut sheet = Sheet::default();
        for (name, slot) in sheet.slots() {
            *slot = figures.remove(name).flatten();
        }
        sheet
    }
}

impl From<Sheet> for Figures {
    fn from(mut sheet: Sheet) -> Figures {
        let slots = sheet.slots().into_iter();
        slots.filter_map(|(name, slot)| slot.take().map(|figure| (name.to_owned(), Some(figure)))).collect()
    }
}

figures! {
    /// Solids, % by volume.
    solids_pct "solids by volume" Solids;
    /// Dry film wanted, µm.
    dry_um "dry film" DryFilm;
    /// Share that does not land, %.
    loss_pct "share lost" Loss;
    /// Share of a can that comes out, %.
    can_sprays_pct "share of a can that comes out" CanSprays;
    /// Liquid as used per area: the mix of a degreaser or neutraliser, the film out of cans in the first pass, L/m².
    use_l_per_m2 "liquid per area" VolumePerArea;
    /// Parts of water in the mix.
    water_parts "parts of water" WaterParts;
    /// Parts of concentrate in the mix.
    concentrate_parts "parts of concentrate" ConcentrateParts;
    /// Lowest product temperature, °C.
    product_least_c "lowest product temperature" ProductTemperature;
    /// Highest product temperature, °C.
    product_most_c "highest product temperature" ProductTemperature;
    /// Lowest steel and air temperature, °C.
    steel_least_c "lowest steel temperature" SteelTemperature;
    /// Highest relative humidity, %.
    rh_most_pct "highest relative humidity" RelativeHumidity;
    /// Wait between the passes, min.
    flash_off_min "flash-off minutes" WaitMinutes;
    /// Touch-dry at the reference temperature, h.
    touch_dry_h "touch-dry hours" EquivalentHours;
    /// Refit at the reference temperature, h.
    refit_h "cure hours" EquivalentHours;
    /// Temperature those hours hold for, °C.
    reference_c "reference temperature of the cure" CureTemperature;
    /// No cure counts below it, °C.
    cure_least_c "lowest cure temperature" CureTemperature;
    /// Flash point, °C.
    flash_point_c "flash point" FlashPoint;
    /// Lower explosive limit of its vapour, % by volume.
    lel_pct "lower explosive limit" Lel;
    /// Vapour from one litre of it, L.
    vapour_l_per_l "vapour per litre" VapourRatio;
}

/// Whether a neutraliser is sour or not.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Chemistry {
    /// Never with chlorine products, short on zinc, not on high-strength bolts.
    Acid,
    /// Attacks aluminium and zinc when left.
    Alkaline,
}

/// A size the user can buy.
#[derive(Clone, Copy, PartialEq, Debug, Serialize, Deserialize)]
pub struct Size {
    /// How much is in it: mL for liquids, cans by their content.
    pub size_ml: f64,
    /// What it costs, in the user's own money.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<f64>,
}

/// A product. This is also the stored shape.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Product {
    /// Version of this shape.
    pub v: u32,
    /// Its own id.
    pub id: Uuid,
    /// What it is for.
    pub used_as: Use,
    /// As the user calls it.
    pub name: String,
    /// Batch number.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub batch: String,
    /// When it was opened.
    #[serde(default, with = "day", skip_serializing_if = "Option::is_none")]
    pub opened: Option<NaiveDate>,
    /// Use by.
    #[serde(default, with = "day", skip_serializing_if = "Option::is_none")]
    pub expires: Option<NaiveDate>,
    /// Of a neutraliser or degreaser.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub chemistry: Option<Chemistry>,
    /// Of a neutraliser: left on, not rinsed.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub left_on: bool,
    /// What its sheets say.
    #[serde(default)]
    pub sheet: Sheet,
    /// Sizes to be had.
    #[serde(default)]
    pub sizes: Vec<Size>,
    /// On the shelf already, mL.
    #[serde(default)]
    pub shelf_ml: f64,
}

impl Product {
    /// A product with generic figures, each marked as a default.
    ///
    /// # Example
    /// ```
    /// use coatwalk::job::product::{Product, Use};
    /// let film = Product::generic(Use::LiquidFilm, uuid::Uuid::nil());
    /// let solids = film.sheet.solids_pct.unwrap();
    /// assert!(solids.default && solids.note.starts_with("default, replace from your data sheet"));
    /// ```
    pub fn generic(used_as: Use, id: Uuid) -> Product {
        let sizes_ml: &[f64] = match used_as {
            Use::AerosolFilm => &[CAN_ML],
            Use::LiquidFilm | Use::Degreaser | Use::Neutraliser => &[1000.0, 5000.0],
        };
        Product {
            v: VERSION,
            id,
            used_as,
            name: format!("{} (no product chosen)", used_as.title()),
            batch: String::new(),
            opened: None,
            expires: None,
            chemistry: match used_as {
                Use::Neutraliser => Some(Chemistry::Acid),
                Use::Degreaser => Some(Chemistry::Alkaline),
                Use::LiquidFilm | Use::AerosolFilm => None,
            },
            left_on: false,
            sheet: Sheet::generic(used_as),
            sizes: sizes_ml.iter().map(|ml| Size { size_ml: *ml, price: None }).collect(),
            shelf_ml: 0.0,
        }
    }

    /// The product with every missing or impossible figure taken from the generic one, and what was wrong.
    ///
    /// `today` is the user's own date; the expiry is held against it.
    pub fn settled(&self, today: NaiveDate) -> (Product, Vec<Fault>) {
        let mut product = self.clone();
        let mut faults = Vec::new();
        let named = |what: &str| format!("{}: {what}", self.called());
        let generic = Sheet::generic(self.used_as);
        product.sheet.each(&generic, |words, field, mine, generic| {
            let instead = || generic.as_ref().map(|g| format!("{} ({DEFAULT_NOTE})", g.likely)).unwrap_or_default();
            match &*mine {
                None if generic.is_some() => {
                    faults.push(Fault::new(&named(words), named(&format!("no {words} given")), instead()));
                    *mine = generic.clone();
                }
                None => {}
                Some(figure) => {
                    if let Err(why) = figure.band().within(field) {
                        faults.push(Fault::new(&named(words), named(&why.to_string()), instead()));
                        *mine = generic.clone();
                    }
                }
            }
        });
        product.contradictions(&generic, &mut faults);
        product.sizes.retain(|s| {
            let price = s.price.map_or(Ok(0.0), |p| check(Field::PackPrice, p));
            match check(Field::PackSize, s.size_ml / 1000.0).and(price) {
                Ok(_) => true,
                Err(e) => {
                    faults.push(Fault::new(&named("sizes"), named(&e.to_string()), "the other sizes"));
                    false
                }
            }
        });
        if let Err(e) = check(Field::PackNeed, product.shelf_ml / 1000.0) {
            faults.push(Fault::new(&named("on the shelf"), named(&e.to_string()), "none on the shelf"));
            product.shelf_ml = 0.0;
        }
        if let Some(expires) = self.expires.filter(|e| *e < today) {
            faults.push(Fault::new(&named("expiry"), named(&format!("it expired on {expires}; buy fresh")), ""));
        }
        if let (Some(opened), Some(expires)) = (self.opened, self.expires)
            && opened > expires
        {
            faults.push(Fault::new(&named("opened"), named("it was opened after it expired: check the dates"), ""));
        }
        (product, faults)
    }

    /// With every number as entries keep it ([`tidy`]): so it goes into a line.
    pub fn tidied(&self) -> Product {
        let mut product = self.clone();
        for (_, slot) in product.sheet.slots() {
            if let Some(f) = slot {
                (f.likely, f.low, f.high) = (tidy(f.likely), f.low.map(tidy), f.high.map(tidy));
            }
        }
        for size in &mut product.sizes {
            (size.size_ml, size.price) = (tidy(size.size_ml), size.price.map(tidy));
        }
        product.shelf_ml = tidy(product.shelf_ml);
        product
    }

    /// What a film asks of air, steel and itself, for the gates; what its sheet does not say is the default.
    pub fn limits(&self) -> air::Limits {
        let celsius = |figure: &Option<Figure>| figure.as_ref().map(|f| CELSIUS.of(f.likely));
        let (sheet, default) = (&self.sheet, air::Limits::default());
        air::Limits {
            rh_most_percent: sheet.rh_most_pct.as_ref().map_or(default.rh_most_percent, |f| f.likely),
            steel_least: celsius(&sheet.steel_least_c).unwrap_or(default.steel_least),
            air_least: celsius(&sheet.steel_least_c).or(default.air_least),
            product_least: celsius(&sheet.product_least_c).or(default.product_least),
            product_most: celsius(&sheet.product_most_c).or(default.product_most),
            ..default
        }
    }

    /// The first product of a use, settled; the generic one when the user has chosen none.
    pub fn chosen(products: &[Product], used_as: Use, today: NaiveDate) -> (Product, Vec<Fault>) {
        match products.iter().find(|p| p.used_as == used_as) {
            Some(product) => product.settled(today),
            None => {
                let words = format!("no product is chosen for \"{}\"", used_as.title());
                let fault = Fault::new(used_as.title(), words, format!("generic figures ({DEFAULT_NOTE})"));
                (Product::generic(used_as, Uuid::nil()), vec![fault])
            }
        }
    }

    /// Figures that are fine one by one but not together.
    fn contradictions(&mut self, generic: &Sheet, faults: &mut Vec<Fault>) {
        let clash = |a: &Option<Figure>, b: &Option<Figure>, bad: fn(f64, f64) -> bool| match (a, b) {
            (Some(a), Some(b)) => bad(a.likely, b.likely),
            _ => false,
        };
        let called = self.called();
        let s = &mut self.sheet;
        if clash(&s.product_least_c, &s.product_most_c, |least, most| least > most) {
            let why = SumError::from(NotPossible::Clash("the lowest product temperature is over the highest"));
            faults.push(Fault::of(&format!("{called}: product temperature"), &why, "15 to 25 °C"));
            s.product_least_c.clone_from(&generic.product_least_c);
            s.product_most_c.clone_from(&generic.product_most_c);
        }
        if clash(&s.touch_dry_h, &s.refit_h, |touch, refit| touch > refit) {
            let why = SumError::from(NotPossible::Clash("touch-dry comes after the cure hours: check both"));
            faults.push(Fault::of(&format!("{called}: touch-dry hours"), &why, "the cure hours for both"));
            s.touch_dry_h.clone_from(&s.refit_h);
        }
        if clash(&s.cure_least_c, &s.reference_c, |least, reference| least > reference) {
            let why = SumError::from(NotPossible::Clash("the lowest cure temperature is over the reference"));
            faults.push(Fault::of(&format!("{called}: lowest cure temperature"), &why, "no lowest one"));
            s.cure_least_c = None;
        }
    }
}

impl Sheet {
    /// Generic starting values, each with its basis.
    pub fn generic(used_as: Use) -> Sheet {
        const CP: &str = "common practice, no source";
        const MEM: &str = "from memory";
        let three = |row: [f64; 3], basis| Some(Figure::generic(row, basis));
        let one = |v: f64, basis| Some(Figure::generic([v; 3], basis));
        // White spirit stands for the solvent, with the lowest limit printed for it.
        let spirit = vapour::solvent("white spirit (as n-nonane)").map(|solvent| Share { solvent, parts: 60.0 });
        let vapour = spirit
            .and_then(|s| vapour::blend(&[s], 40.0, CELSIUS.of(20.0), air::standard_pressure()).ok())
            .map(|b| (tidy(b.vapour_per_liquid), b.lel_percent));
        let film = |tool: Tool| Sheet {
            solids_pct: three(SOLIDS_PERCENT, MEM),
            dry_um: three(RESIN_UM, MEM),
            loss_pct: three(tool.loss_percent(), MEM),
            product_least_c: one(15.0, CP),
            product_most_c: one(25.0, CP),
            steel_least_c: one(5.0, CP),
            rh_most_pct: one(85.0, "ISO 12944-7, from memory"),
            flash_off_min: three(cure::FLASH_OFF_MINUTES, MEM),
            touch_dry_h: three(cure::TOUCH_DRY_HOURS, MEM),
            refit_h: one(cure::REFIT_HOURS, CP),
            reference_c: one(cure::REFERENCE_C, CP),
            flash_point_c: one(38.0, "white spirit, from memory"),
            lel_pct: vapour.and_then(|v| one(v.1, "white spirit, lowest limit printed, from memory")),
            vapour_l_per_l: vapour.and_then(|v| one(v.0, "60 % white spirit, ideal gas at 20 °C")),
            ..Sheet::default()
        };
        let wash = |per_m2: [f64; 3], water: f64, basis: &str| Sheet {
            use_l_per_m2: three(per_m2, MEM),
            water_parts: Some(Figure::generic([water; 3], basis)),
            concentrate_parts: one(1.0, CP),
            ..Sheet::default()
        };
        match used_as {
            Use::LiquidFilm => film(Tool::Hvlp),
            Use::AerosolFilm => Sheet {
                can_sprays_pct: three(CAN_SPRAYS_PERCENT, MEM),
                // Fasteners, welds and seams only; makes the trade's 4 cans (2 to 7) on a compact loader.
                use_l_per_m2: three([0.0125, 0.0225, 0.0335], CP),
                ..film(Tool::Aerosol)
            },
            Use::Degreaser => wash(dilution::DEGREASER_L_PER_M2, 3.0, CP),
            Use::Neutraliser => wash(dilution::NEUTRALISER_L_PER_M2, 9.0, MEM),
        }
    }
}
