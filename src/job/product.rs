//! The user's products: what their data sheets say, which batch it is, and what stands on his shelf.
//!
//! A product may have any figure missing: the generic one is taken then and says that it is a default. The sheets of
//! the user's own products (TDS and SDS) go before every figure here.
//!
//! May use: [`crate::sums`] ranges, serde, chrono dates. Must not: reach for a clock; today is an argument.

mod asked;
mod sheet;
mod told;

pub(super) use asked::brief;
pub use asked::{Asked, Part};
pub use sheet::{Figure, Sheet};
pub use told::{Dated, Spot};

use chrono::NaiveDate;
use uuid::Uuid;

use super::entry::tidy;
use super::machine::Fault;
use super::stage::Stage;
use super::stored::Kept;
use crate::sums::range::{Field, check};
use crate::sums::{NotPossible, SumError, air};
use crate::units::CELSIUS;

/// The version written into stored products.
pub const VERSION: u32 = 1;

/// Said beside every default.
pub const DEFAULT_NOTE: &str = "default, replace from your data sheet";

/// Product temperature when its sheet says none, °C (common practice, no source).
pub const PRODUCT_C: [f64; 2] = [15.0, 25.0];

/// Whose figure it is, in words.
pub fn origin(own: bool) -> &'static str {
    if own { "your data sheet" } else { "default" }
}

/// A figure whose value is one that the field can have.
pub(super) fn sane(figure: &Option<Figure>, field: Field) -> Option<&Figure> {
    figure.as_ref().filter(|f| check(field, f.likely).is_ok())
}
/// A can holds so much when its size is not known, mL (common practice, no source).
pub const CAN_ML: f64 = 500.0;

/// What a product is for.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
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

    /// Its name in the store. Never change one.
    pub fn word(self) -> &'static str {
        match self {
            Use::LiquidFilm => "liquid_film",
            Use::AerosolFilm => "aerosol_film",
            Use::Degreaser => "degreaser",
            Use::Neutraliser => "neutraliser",
        }
    }

    /// The name on the screen.
    pub fn title(self) -> &'static str {
        match self {
            Use::LiquidFilm => "Film, liquid",
            Use::AerosolFilm => "Film, cans",
            Use::Degreaser => "Degreaser",
            Use::Neutraliser => "Neutraliser",
        }
    }

    /// The film that goes on in a stage.
    pub fn film_of(stage: Stage) -> Option<Use> {
        match stage {
            Stage::FirstPass => Some(Use::AerosolFilm),
            Stage::SecondPass => Some(Use::LiquidFilm),
            _ => None,
        }
    }
}

/// Whether a neutraliser is sour or not.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Chemistry {
    /// Never with chlorine products, short on zinc, not on high-strength bolts.
    Acid,
    /// Attacks aluminium and zinc when left.
    Alkaline,
}

impl Chemistry {
    /// Both.
    pub const ALL: [Chemistry; 2] = [Chemistry::Acid, Chemistry::Alkaline];

    /// Its name in the store. Never change one.
    pub fn word(self) -> &'static str {
        match self {
            Chemistry::Acid => "acid",
            Chemistry::Alkaline => "alkaline",
        }
    }
}

/// A size the user can buy.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Size {
    /// How much is in it: mL for liquids, cans by their content.
    pub size_ml: f64,
    /// What it costs, in the user's own money.
    pub price: Option<f64>,
}

/// A product. This is also the stored shape.
#[derive(Clone, PartialEq, Debug)]
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
    pub batch: String,
    /// When it was opened.
    pub opened: Option<NaiveDate>,
    /// Use by.
    pub expires: Option<NaiveDate>,
    /// Of a neutraliser or degreaser.
    pub chemistry: Option<Chemistry>,
    /// Of a neutraliser: left on, not rinsed.
    pub left_on: bool,
    /// What its sheets say.
    pub sheet: Sheet,
    /// Sizes to be had.
    pub sizes: Vec<Size>,
    /// On the shelf already, mL.
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

    /// As it is kept on the phone's shelf: one line of JSON.
    pub fn line(&self) -> String {
        self.put().to_string()
    }

    /// From what was kept; none when it is no product.
    pub fn read(line: &str) -> Option<Product> {
        Product::take(serde_json::from_str(line).ok()?)
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

    /// What a film asks of air, steel and itself, for the gates; what its sheet does not say, or says impossibly, is the
    /// default.
    pub fn limits(&self) -> air::Limits {
        let celsius = |figure: &Option<Figure>, field: Field| sane(figure, field).map(|f| CELSIUS.of(f.likely));
        let (sheet, default) = (&self.sheet, air::Limits::default());
        let range = [&sheet.product_least_c, &sheet.product_most_c].map(|f| sane(f, Field::ProductTemperature));
        let clash = matches!(range, [Some(least), Some(most)] if least.likely > most.likely);
        let [product_least, product_most] = range.map(|f| f.filter(|_| !clash).map(|f| CELSIUS.of(f.likely)));
        air::Limits {
            rh_most_percent: sane(&sheet.rh_most_pct, Field::RelativeHumidity)
                .map_or(default.rh_most_percent, |f| f.likely),
            steel_least: celsius(&sheet.steel_least_c, Field::SteelTemperature).unwrap_or(default.steel_least),
            air_least: celsius(&sheet.steel_least_c, Field::AirTemperature).or(default.air_least),
            product_least: product_least.or(default.product_least),
            product_most: product_most.or(default.product_most),
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
