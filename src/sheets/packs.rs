//! Packs: which sizes to buy for the least money.

use super::draw::{Can, cans};
use super::words::bare;
use super::{Ask, Filled, Outcome, Sheet, Stop};
use crate::sums::packs::{self, Pack};
use crate::sums::range::Field;
use crate::units::{Measure, Quantity, Volume};

/// Sizes that can be told: ids of size and price.
const SHELF: [(&str, &str); 4] = [("s1", "p1"), ("s2", "p2"), ("s3", "p3"), ("s4", "p4")];

pub static SHEET: Sheet = Sheet {
    slug: "packs",
    name: "Packs",
    what: "Which sizes to buy for the least money",
    asks: &[
        Ask::amount("need", "You need", Measure::Volume, Field::PackNeed)
            .start("6.5", "1.7")
            .hint("Sizes and prices below are invented: put in your own, in your own money."),
        Ask::amount("s1", "One holds", Measure::Volume, Field::PackSize).kept().half().start("1", "0.25"),
        Ask::number("p1", "It costs", Field::PackPrice).kept().half().start("30", "30"),
        Ask::amount("s2", "Another holds", Measure::Volume, Field::PackSize).kept().half().start("5", "1").optional(),
        Ask::number("p2", "It costs", Field::PackPrice).kept().half().start("110", "95").optional(),
        Ask::amount("s3", "Another holds", Measure::Volume, Field::PackSize).kept().half().optional(),
        Ask::number("p3", "It costs", Field::PackPrice).kept().half().optional(),
        Ask::amount("s4", "Another holds", Measure::Volume, Field::PackSize).kept().half().optional(),
        Ask::number("p4", "It costs", Field::PackPrice).kept().half().optional(),
    ],
    answer,
    formula: "Every set of packs that could be cheaper is looked at. At the same cost, the least left over.",
    source: "An exact search: no rule of thumb.",
    cautions: &[
        "Solvent products: dry, cool, locked, away from flame, feed and children. Local rules limit how much.",
        "Mind the use-by date: what is left over may not keep.",
    ],
};

fn answer(f: &Filled) -> Result<Outcome, Stop> {
    let need = f.get::<Volume>("need")?;
    let mut shelf = Vec::new();
    for (size, price) in SHELF {
        match (f.opt::<Volume>(size)?, f.opt_number(price)?) {
            (None, None) => {}
            (None, _) => return Err(Stop::Missing(size)),
            (_, None) => return Err(Stop::Missing(price)),
            (Some(size), Some(price)) => shelf.push(Pack { size, price }),
        }
    }
    let buy = packs::cheapest(need, &shelf)?;
    let say = |v: Volume| f.say(Measure::Volume, v);
    let rows: Vec<Can> = buy
        .counts
        .iter()
        .zip(&shelf)
        .filter(|(count, _)| **count > 0)
        .map(|(count, pack)| Can {
            count: *count,
            volume: pack.size.si(),
            words: format!("{count} × {}", say(pack.size)),
        })
        .collect();
    let list = match rows.is_empty() {
        true => "Nothing to buy".to_owned(),
        false => rows.iter().map(|r| r.words.as_str()).collect::<Vec<_>>().join(" and "),
    };
    Ok(Outcome::of([list, format!("for {}", bare(buy.cost))])
        .small(format!("{} in all, {} left over.", say(buy.total), say(buy.left_over)))
        .small("Packs are counted on the likely need. Look at the high figure too before you drive.")
        .picture(cans(&rows)))
}
