//! A product in words: what it is called, its dates, how far it goes, and where what is wrong with it stands.
//!
//! May use: the sums of film and dilution, the units. Must not: reach for a clock; today is an argument.

use chrono::{Datelike, NaiveDate};

use super::asked::brief;
use super::{Chemistry, Figure, Product, Sheet, Size, Use};
use crate::job::machine::Fault;
use crate::sums::dilution::MixRatio;
use crate::sums::film::{self, Paint};
use crate::units::{LITRE, MICROMETRE, Measure, Quantity, SQUARE_METRE, UnitSet};

/// A line about a product's dates.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Dated {
    /// The line.
    pub words: String,
    /// It asks for something to be done.
    pub wrong: bool,
}

/// Where on its screen a fault of a product belongs.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Spot {
    /// At the figure of that name in the store.
    Figure(&'static str),
    /// At the day it was opened.
    Opened,
    /// At the day it has to be used by.
    Expires,
    /// At the sizes.
    Sizes,
    /// At what is on the shelf.
    Shelf,
}

/// A day as one writes it: "3 May 2027".
fn plain(date: NaiveDate) -> String {
    const MONTHS: [&str; 12] = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
    format!("{} {} {}", date.day(), MONTHS[date.month0() as usize], date.year())
}

impl Product {
    /// As the user calls it, or what it is for while it has no name.
    ///
    /// # Example
    /// ```
    /// use coatwalk::job::product::{Product, Use};
    /// let mut film = Product::generic(Use::LiquidFilm, uuid::Uuid::nil());
    /// film.name = " ".into();
    /// assert_eq!(film.called(), "Film, liquid, no name yet");
    /// ```
    pub fn called(&self) -> String {
        match self.name.trim() {
            "" => format!("{}, no name yet", self.used_as.title()),
            name => name.into(),
        }
    }

    /// True when it has a name that the user gave.
    pub fn is_named(&self) -> bool {
        let name = self.name.trim();
        !name.is_empty() && name != Product::generic(self.used_as, self.id).name
    }

    /// How many of its figures are still defaults, and how many it has.
    pub fn defaults(&self) -> (usize, usize) {
        let generic = Sheet::generic(self.used_as);
        let asked = Sheet::asked(self.used_as).filter(|a| generic.figure(a.name).is_some());
        let own = |name: &str| self.sheet.figure(name).is_some_and(|f| !f.default);
        asked.fold((0, 0), |(left, all), a| (left + usize::from(!own(a.name)), all + 1))
    }

    /// The same as a line: "12 of 15 figures are defaults".
    pub fn defaults_words(&self) -> String {
        match self.defaults() {
            (0, _) => "All figures from your data sheet".into(),
            (left, all) if left == all => {
                format!("All {all} figures are defaults: replace them from your data sheet")
            }
            (1, all) => format!("1 of {all} figures is a default"),
            (left, all) => format!("{left} of {all} figures are defaults"),
        }
    }

    /// Batch and dates, a line each, on the user's own day.
    pub fn dated(&self, today: NaiveDate) -> Vec<Dated> {
        let line = |words: String, wrong: bool| Dated { words, wrong };
        let batch = match self.batch.trim() {
            "" => line("No batch number: without it the record proves little".into(), true),
            batch => line(format!("Batch {batch}"), false),
        };
        let opened = self.opened.map(|day| match day > today {
            true => line(format!("Opened {}: that day is still to come", plain(day)), true),
            false => line(format!("Opened {}", plain(day)), false),
        });
        let expires = match self.expires {
            None => line("No expiry date: look for it on the label".into(), true),
            Some(day) if day < today => line(format!("Expired on {}: buy fresh", plain(day)), true),
            Some(day) => line(format!("Use by {}", plain(day)), false),
        };
        let order = match (self.opened, self.expires) {
            (Some(o), Some(e)) if o > e => Some(line("Opened after it expired: check the dates".into(), true)),
            _ => None,
        };
        [Some(batch), opened, Some(expires), order].into_iter().flatten().collect()
    }

    /// Its mix in words, none for a film: "3 water to 1 concentrate".
    pub fn mix(&self) -> Option<MixRatio> {
        let figure = |f: &Option<Figure>| f.as_ref().map(|f| f.likely);
        MixRatio::parts(figure(&self.sheet.water_parts)?, figure(&self.sheet.concentrate_parts)?).ok()
    }

    /// How far it goes, in words; none when its figures allow no answer. Give it a settled product.
    ///
    /// # Example
    /// ```
    /// use coatwalk::{job::product::{Figure, Product, Use}, units::UnitSet};
    /// let mut film = Product::generic(Use::LiquidFilm, uuid::Uuid::nil());
    /// // 1000 × 0.60 / 75 m² a litre, less 30 %.
    /// (film.sheet.solids_pct, film.sheet.dry_um) = (Some(Figure::own(60.0)), Some(Figure::own(75.0)));
    /// film.sheet.loss_pct = Some(Figure::own(30.0));
    /// assert_eq!(film.goes(UnitSet::Metric).unwrap(), "spreads about 5.6 m²/L after losses");
    /// ```
    pub fn goes(&self, set: UnitSet) -> Option<String> {
        let figure = |f: &Option<Figure>| f.as_ref().map(|f| f.likely);
        let s = &self.sheet;
        let area = |m2: f64| {
            let unit = Measure::Area.unit(set);
            format!("{} {}", brief(unit.from_si(SQUARE_METRE.of(m2).si())), unit.symbol)
        };
        match self.used_as {
            Use::LiquidFilm => {
                let paint = Paint::neat(figure(&s.solids_pct)?);
                let dry = MICROMETRE.of(figure(&s.dry_um)?);
                let spread = film::spread(dry, paint, figure(&s.loss_pct)?).ok()?.practical;
                let unit = Measure::Spread.unit(set);
                Some(format!("spreads about {} {} after losses", brief(unit.from_si(spread.si())), unit.symbol))
            }
            Use::AerosolFilm => {
                let can_l = self.sizes.first().map_or(super::CAN_ML, |s| s.size_ml) / 1000.0;
                let m2 = can_l * figure(&s.can_sprays_pct)? / 100.0 / figure(&s.use_l_per_m2)?;
                let can = Measure::Jug.unit(set).print(LITRE.of(can_l).si());
                Some(format!("a can of {can} does about {} of machine in the first pass", area(m2)))
            }
            Use::Degreaser | Use::Neutraliser => {
                let ratio = self.mix()?;
                let m2 = 1.0 / (ratio.percent() / 100.0 * figure(&s.use_l_per_m2)?);
                // A litre, or a gallon where one thinks in those.
                let unit = Measure::Volume.unit(set);
                let one_l = LITRE.get(crate::units::Volume::from_si(unit.to_si(1.0)));
                let one = format!("1 {}", unit.symbol);
                Some(format!("{}; {one} of concentrate does about {}", ratio.words(), area(one_l * m2)))
            }
        }
    }

    /// What to mind with a neutraliser of this kind; nothing for other uses.
    pub fn minds(&self) -> Vec<&'static str> {
        if self.used_as != Use::Neutraliser {
            return Vec::new();
        }
        let mut all = match self.chemistry {
            Some(Chemistry::Alkaline) => {
                vec!["Attacks aluminium and zinc when left. Keep it off them, or short and rinsed."]
            }
            // Not said is treated as the worse one.
            Some(Chemistry::Acid) | None => vec![
                "Never let an acid rinse meet a chlorine product: poison gas.",
                "Short on zinc. Keep it off 10.9, 12.9 and grade 8 bolts: it can make them brittle.",
            ],
        };
        if self.left_on {
            all.push("Left on only where its data sheet says so, at the strength it says.");
        }
        all
    }

    /// What is wrong with it, each with its place and without the product's name.
    pub fn faults(&self, today: NaiveDate) -> Vec<(Spot, String)> {
        let called = format!("{}: ", self.called());
        let bare = |text: &str| text.strip_prefix(&called).unwrap_or(text).to_owned();
        let words = |fault: &Fault| match fault.instead.as_str() {
            "" => bare(&fault.words),
            instead => format!("{}; the plan takes {instead}", bare(&fault.words)),
        };
        let (_, faults) = self.settled(today);
        faults.iter().filter_map(|f| Some((self.spot(&bare(&f.field))?, words(f)))).collect()
    }

    fn spot(&self, field: &str) -> Option<Spot> {
        match field {
            "expiry" => Some(Spot::Expires),
            "opened" => Some(Spot::Opened),
            "sizes" => Some(Spot::Sizes),
            "on the shelf" => Some(Spot::Shelf),
            // Both ends clash; one of them says so.
            "product temperature" => Some(Spot::Figure("product_most_c")),
            other => self.sheet.rows().into_iter().find(|r| r.1 == other).map(|r| Spot::Figure(r.0)),
        }
    }

    /// Changes the sizes. Cans are counted by the first size, so as many stay on the shelf as before.
    pub fn resize(&mut self, sizes: Vec<Size>) {
        let cans = self.cans_on_shelf();
        self.sizes = sizes;
        if let (Some(cans), Some(first)) = (cans, self.sizes.first()) {
            self.shelf_ml = cans * first.size_ml;
        }
    }

    /// Cans on the shelf, none for what is no can.
    pub fn cans_on_shelf(&self) -> Option<f64> {
        let can_ml = self.sizes.first().map_or(super::CAN_ML, |s| s.size_ml);
        (self.used_as == Use::AerosolFilm && can_ml > 0.0).then(|| self.shelf_ml / can_ml)
    }

    /// Puts so many on the shelf: cans, or litres of the rest.
    pub fn stock(&mut self, amount: f64) {
        let unit_ml = match self.used_as {
            Use::AerosolFilm => self.sizes.first().map_or(super::CAN_ML, |s| s.size_ml),
            _ => 1000.0,
        };
        self.shelf_ml = amount * unit_ml;
    }

    /// What is on the shelf: cans, or litres of the rest.
    pub fn in_stock(&self) -> f64 {
        self.cans_on_shelf().unwrap_or(self.shelf_ml / 1000.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use uuid::Uuid;

    fn day(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    fn of(used_as: Use) -> Product {
        Product { name: "Test product (invented)".into(), ..Product::generic(used_as, Uuid::nil()) }
    }

    #[test]
    fn every_figure_is_asked_for_once_and_under_its_name_in_the_store() {
        let names: Vec<_> = Sheet::default().rows().iter().map(|r| r.0).collect();
        for used_as in Use::ALL {
            let asked: Vec<_> = Sheet::asked(used_as).collect();
            for a in &asked {
                assert!(names.contains(&a.name), "{}", a.name);
                let kind = a.field().range().unit.map(|u| u.kind);
                assert!(kind.is_none() || kind == a.measure.map(|m| m.unit(UnitSet::Metric).kind), "{}", a.name);
                assert!(!a.hint(used_as, UnitSet::Us).is_empty(), "{}", a.name);
            }
            let generic = Sheet::generic(used_as);
            let missing = generic.rows().into_iter().filter(|r| r.3.is_some());
            assert!(missing.clone().count() > 0);
            for row in missing {
                assert_eq!(asked.iter().filter(|a| a.name == row.0).count(), 1, "{}", row.0);
            }
        }
    }

    #[test]
    fn an_own_figure_is_no_default_and_goes_back_to_one() {
        let mut film = of(Use::LiquidFilm);
        let (all, total) = film.defaults();
        assert_eq!((all, total), (14, 14));
        film.sheet.put("solids_pct", Some(Figure::own(33.0)));
        assert_eq!(film.defaults(), (13, 14));
        assert_eq!(film.defaults_words(), "13 of 14 figures are defaults");
        film.sheet.put("solids_pct", Sheet::generic(Use::LiquidFilm).solids_pct);
        assert_eq!(film.defaults().0, 14);
        film.sheet.put("no such figure", Some(Figure::own(1.0)));
        assert_eq!(film.sheet, Sheet::generic(Use::LiquidFilm));
    }

    #[test]
    fn dates_are_told_plainly() {
        let mut film = of(Use::LiquidFilm);
        let told = |film: &Product| {
            film.dated(day("2026-10-05")).into_iter().map(|d| (d.words, d.wrong)).collect::<Vec<_>>()
        };
        assert!(told(&film).iter().all(|d| d.1) && told(&film).len() == 2, "no batch, no expiry");
        film.batch = "B-17".into();
        film.expires = Some(day("2026-10-05"));
        assert_eq!(told(&film), [("Batch B-17".into(), false), ("Use by 5 Oct 2026".into(), false)]);
        film.expires = Some(day("2026-10-04"));
        film.opened = Some(day("2026-10-06"));
        let words: Vec<String> = told(&film).into_iter().filter(|d| d.1).map(|d| d.0).collect();
        assert_eq!(
            words,
            [
                "Opened 6 Oct 2026: that day is still to come",
                "Expired on 4 Oct 2026: buy fresh",
                "Opened after it expired: check the dates"
            ]
        );
    }

    #[test]
    fn how_far_it_goes_is_said_in_the_users_units() {
        let film = of(Use::LiquidFilm);
        // 1000 × 0.40 / 15 × 0.55 = 14.7 m²/L, and 1 m²/L is 40.75 ft²/US gal (3.785412 L, 10.76391 ft²).
        assert_eq!(film.goes(UnitSet::Metric).unwrap(), "spreads about 14.7 m²/L after losses");
        assert_eq!(film.goes(UnitSet::Us).unwrap(), "spreads about 598 ft²/US gal after losses");
        // 0.5 L × 0.55 / 0.0225 L/m² = 12.2 m².
        let cans = of(Use::AerosolFilm);
        assert!(cans.goes(UnitSet::Metric).unwrap().ends_with("does about 12.2 m² of machine in the first pass"));
        // A litre of concentrate makes 4 L of mix at 0.25 L/m².
        let degreaser = of(Use::Degreaser);
        let words = degreaser.goes(UnitSet::Metric).unwrap();
        assert_eq!(words, "3 water to 1 concentrate; 1 L of concentrate does about 16 m²");
        // 16 m²/L × 3.785412 L × 10.76391 ft²/m² = 652 ft².
        assert!(degreaser.goes(UnitSet::Us).unwrap().ends_with("1 US gal of concentrate does about 652 ft²"));
    }

    #[test]
    fn what_is_wrong_stands_at_its_field() {
        let mut film = of(Use::LiquidFilm);
        film.sheet.rh_most_pct = Some(Figure::own(140.0));
        film.sheet.solids_pct = Some(Figure::own(0.0));
        film.sheet.refit_h = None;
        film.sheet.product_least_c = Some(Figure::own(40.0));
        film.sizes = vec![Size { size_ml: 5000.0, price: Some(-3.0) }];
        film.shelf_ml = -1.0;
        film.expires = Some(day("2020-01-01"));
        let faults = film.faults(day("2026-10-05"));
        let spots: Vec<Spot> = faults.iter().map(|f| f.0).collect();
        for name in ["rh_most_pct", "solids_pct", "refit_h", "product_most_c"] {
            assert!(spots.contains(&Spot::Figure(name)), "{name}: {faults:?}");
        }
        for spot in [Spot::Sizes, Spot::Shelf, Spot::Expires] {
            assert!(spots.contains(&spot), "{spot:?}: {faults:?}");
        }
        assert_eq!(faults.len(), film.settled(day("2026-10-05")).1.len(), "every fault has a place");
        assert!(faults.iter().all(|f| !f.1.contains("Test product")), "{faults:?}");
    }

    #[test]
    fn as_many_cans_stay_on_the_shelf_when_their_size_changes() {
        let mut cans = of(Use::AerosolFilm);
        cans.stock(3.0);
        assert_eq!(cans.shelf_ml, 1500.0);
        cans.resize(vec![Size { size_ml: 400.0, price: None }]);
        assert_eq!((cans.shelf_ml, cans.in_stock()), (1200.0, 3.0));
        let mut film = of(Use::LiquidFilm);
        film.stock(2.0);
        film.resize(vec![]);
        assert_eq!((film.shelf_ml, film.in_stock()), (2000.0, 2.0));
    }

    #[test]
    fn an_acid_says_where_it_must_not_go() {
        let mut rinse = of(Use::Neutraliser);
        rinse.chemistry = Some(Chemistry::Acid);
        let words = rinse.minds().join(" ");
        assert!(words.contains("chlorine") && words.contains("zinc") && words.contains("10.9, 12.9 and grade 8"));
        rinse.chemistry = None;
        assert_eq!(rinse.minds().join(" "), words, "not said is treated as the worse one");
        rinse.chemistry = Some(Chemistry::Alkaline);
        assert!(rinse.minds().join(" ").contains("aluminium"));
        assert!(of(Use::Degreaser).minds().is_empty());
    }
}
