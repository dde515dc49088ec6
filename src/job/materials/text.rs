//! The shopping list as plain lines, the same on the screen, on paper and in a message.

use super::{Item, Line, List, Measure};
use crate::units::{
    Area, LITRE, Length, METRE, Measure as Measured, Quantity, SQUARE_METRE, Step, Unit, UnitSet, Volume,
};

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

    /// As the user thinks.
    pub fn of(set: UnitSet) -> Show {
        let known = "a measure is shown in a unit of its own kind";
        Show {
            volume: Unit::by_id(Measured::Volume.unit(set).id).expect(known),
            area: Unit::by_id(Measured::Area.unit(set).id).expect(known),
            length: Unit::by_id(Measured::Size.unit(set).id).expect(known),
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

    /// A size as printed on the pack: 0.5 L, 45 m².
    fn size(&self, item: Item, amount: f64) -> String {
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
    /// One line of the list, the need with its ends.
    pub fn words(&self, show: &Show) -> String {
        let amount = |v: f64| show.amount(self.item, v);
        let need = if self.need.low == self.need.high {
            amount(self.need.likely)
        } else {
            format!("likely {}, {} to {}", amount(self.need.likely), amount(self.need.low), amount(self.need.high))
        };
        format!("{}: {need}", self.item.title())
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
        let one = |b: &super::Buy| match (self.item.measure(), b.amount == 1.0) {
            (Measure::Pieces, true) => format!("{}", b.count),
            (Measure::Pieces, false) => format!("{} of {}", b.count, show.size(self.item, b.amount)),
            _ => format!("{} of {}", b.count, show.size(self.item, b.amount)),
        };
        format!("buy {}", self.buy.iter().map(one).collect::<Vec<_>>().join(" and "))
    }
}

/// The whole list as plain text.
pub fn text(list: &List, show: &Show) -> String {
    let mut lines = vec!["Shopping list".to_owned()];
    for line in list.lines.iter().filter(|l| l.need.high > 0.0) {
        let mut words = format!("- {}", line.words(show));
        if line.on_shelf > 0.0 {
            words += &format!(", {} on the shelf", show.amount(line.item, line.on_shelf));
        }
        words += &format!("; {}", line.basket(show));
        match line.cost {
            Some(cost) if !line.buy.is_empty() => words += &format!(", {cost:.2}"),
            _ => {}
        }
        lines.push(words);
    }
    if let Some(cost) = list.cost {
        lines.push(format!("Together {cost:.2}, from your own prices"));
    }
    if !list.unpriced.is_empty() {
        let names: Vec<_> = list.unpriced.iter().map(|i| i.title()).collect();
        lines.push(format!("No price yet: {}", names.join("; ")));
    }
    for fault in &list.faults {
        lines.push(format!("Note: {}", fault.line()));
    }
    lines.join("\n")
}
