//! The shopping list in words: the screen, paper and a message are built from the same lines.

use super::{Buy, Item, Line, List, Measure};
use crate::job::machine::Fault;
use crate::job::product::Product;
use crate::units::{self, Area, LITRE, Length, METRE, Quantity, SQUARE_METRE, Step, Unit, UnitSet, Volume};

/// The units it is shown in.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Show {
    /// Liquids.
    pub volume: Unit<Volume>,
    /// Paper and foil.
    pub area: Unit<Area>,
    /// Tape.
    pub length: Unit<Length>,
}

impl Show {
    /// Litres, square metres, metres.
    pub const METRIC: Show = Show { volume: LITRE, area: SQUARE_METRE, length: METRE };

    /// As a person thinks.
    ///
    /// # Example
    /// ```
    /// use coatwalk::{job::materials::Show, units::{SQUARE_FOOT, US_GALLON, UnitSet}};
    /// assert_eq!(Show::of(UnitSet::Metric), Show::METRIC);
    /// let us = Show::of(UnitSet::Us);
    /// assert!(us.volume == US_GALLON && us.area == SQUARE_FOOT);
    /// ```
    pub fn of(set: UnitSet) -> Show {
        fn unit<Q: Quantity>(measure: units::Measure, set: UnitSet) -> Unit<Q> {
            Unit::by_id(measure.unit(set).id).expect("a measure's unit is one of its quantity")
        }
        Show {
            volume: unit(units::Measure::Volume, set),
            area: unit(units::Measure::Area, set),
            length: unit(units::Measure::Size, set),
        }
    }

    /// An amount of an item, coarse enough to be read: two figures under ten, whole ones above.
    pub fn amount(&self, item: Item, amount: f64) -> String {
        match item.measure() {
            Measure::Litres => print(self.volume, LITRE.of(amount)),
            Measure::SquareMetres => print(self.area, SQUARE_METRE.of(amount)),
            Measure::Metres => print(self.length, METRE.of(amount)),
            // Half a bag is a bag.
            Measure::Pieces if amount > 0.0 => format!("{}", amount.round().max(1.0)),
            Measure::Pieces => "0".into(),
        }
    }

    /// A size as printed on the pack, or what was logged: 0.5 L, 45 m².
    pub fn size(&self, item: Item, amount: f64) -> String {
        match item.measure() {
            Measure::Litres => self.volume.print(LITRE.of(amount)),
            Measure::SquareMetres => self.area.print(SQUARE_METRE.of(amount)),
            Measure::Metres => self.length.print(METRE.of(amount)),
            Measure::Pieces => format!("{}", (amount * 100.0).round() / 100.0),
        }
    }
}

fn print<Q: Quantity>(unit: Unit<Q>, quantity: Q) -> String {
    let value = unit.get(quantity).abs();
    let step =
        if value < 9.95 { Step::Decimal { size: 0.1, places: 1 } } else { Step::Decimal { size: 1.0, places: 0 } };
    unit.print_to(quantity, step)
}

impl Line {
    /// The material, and the product if the user named his.
    pub fn title(&self) -> String {
        let generic = self.item.product().map(|u| Product::generic(u, uuid::Uuid::nil()).name);
        match generic.is_some_and(|g| g != self.name) {
            true => format!("{} ({})", self.item.title(), self.name),
            false => self.item.title().into(),
        }
    }

    /// The need with its ends: "likely 4.1 L, 3.2 to 5.6 L".
    pub fn need_words(&self, show: &Show) -> String {
        let amount = |v: f64| show.amount(self.item, v);
        if self.need.low == self.need.high {
            return amount(self.need.likely);
        }
        let (low, high) = (amount(self.need.low), amount(self.need.high));
        // One unit is enough for both ends.
        let bare = low.split_once(' ').map_or(low.as_str(), |(figure, _)| figure);
        format!("likely {}, {bare} to {high}", amount(self.need.likely))
    }

    /// One line of the list, the need with its ends.
    pub fn words(&self, show: &Show) -> String {
        format!("{}: {}", self.title(), self.need_words(show))
    }

    /// "2 L on the shelf", none when there is nothing.
    pub fn shelf_words(&self, show: &Show) -> Option<String> {
        (self.on_shelf > 0.0).then(|| format!("{} on the shelf", show.amount(self.item, self.on_shelf)))
    }

    /// What to put in the basket: "buy 2 of 5 L".
    pub fn basket(&self, show: &Show) -> String {
        if self.item == Item::Water {
            return "catch all of it, local rules say where it may go".into();
        }
        if self.missing <= 0.0 {
            return "nothing to buy".into();
        }
        if self.buy.is_empty() {
            return format!("buy {}", show.amount(self.item, self.missing));
        }
        let one = |b: &Buy| match (self.item.measure(), b.amount == 1.0) {
            (Measure::Pieces, true) => format!("{}", b.count),
            _ => format!("{} of {}", b.count, show.size(self.item, b.amount)),
        };
        format!("buy {}", self.buy.iter().map(one).collect::<Vec<_>>().join(" and "))
    }

    /// The basket and what it costs: "buy 2 of 5 L, 48.00".
    pub fn basket_words(&self, show: &Show) -> String {
        match self.cost {
            Some(cost) if !self.buy.is_empty() => format!("{}, {cost:.2}", self.basket(show)),
            _ => self.basket(show),
        }
    }

    /// Where the estimate comes from, when jobs of the user's own are in it.
    pub fn own_words(&self) -> Option<&str> {
        self.from.starts_with("from your").then_some(&self.from)
    }

    /// What the fault is about is on this line.
    pub(super) fn has(&self, fault: &Fault) -> bool {
        let title = self.item.product().map_or(self.item.title(), |u| u.title());
        fault.field == title
            || fault.field == self.item.title()
            || fault.field.starts_with(&format!("{}: ", self.name))
    }
}

impl List {
    /// What stands under the lines: what it costs, what has no price.
    pub fn foot(&self, show: &Show) -> Vec<String> {
        let mut lines = Vec::new();
        if let Some(cost) = self.cost {
            let so_far = if self.unpriced.is_empty() { "" } else { " so far" };
            lines.push(format!("Together {cost:.2}{so_far}, from your own prices"));
        }
        if let Some(per_m2) = self.cost_per_m2 {
            let m2_in_unit = SQUARE_METRE.get(show.area.of(1.0));
            lines.push(format!("{:.2} for each {} of the machine", per_m2 * m2_in_unit, show.area.symbol()));
        }
        if !self.unpriced.is_empty() {
            let names: Vec<_> = self.unpriced.iter().map(|i| i.title()).collect();
            lines.push(format!("No price yet: {}", names.join("; ")));
        }
        lines
    }
}

/// A fault as a line of the list.
pub fn note(fault: &Fault) -> String {
    format!("Note: {}", fault.line())
}

/// The whole list as plain text: what the screen shows, line by line.
pub fn text(list: &List, show: &Show) -> String {
    let mut lines = vec!["Shopping list".to_owned()];
    for line in list.taken() {
        let shelf = line.shelf_words(show).map_or(String::new(), |s| format!(", {s}"));
        let own = line.own_words().map_or(String::new(), |w| format!("; {w}"));
        lines.push(format!("- {}{shelf}; {}{own}", line.words(show), line.basket_words(show)));
        lines.extend(list.faults_of(line).into_iter().map(|f| format!("  {}", note(f))));
    }
    lines.extend(list.foot(show));
    lines.extend(list.other_faults().into_iter().map(note));
    lines.join("\n")
}
