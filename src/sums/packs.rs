//! Packs: which container sizes cover a quantity at least cost.
//!
//! Source: none needed; every set of packs that could be cheaper is looked at, so the answer is exact.

use std::collections::HashMap;

use super::range::{Field, check};
use super::{Answer, NotPossible};
use crate::units::{LITRE, Volume};

/// A size on the shelf.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pack {
    /// How much is in it.
    pub size: Volume,
    /// What it costs, in the user's own money.
    pub price: f64,
}

/// What to buy.
#[derive(Clone, Debug, PartialEq)]
pub struct Purchase {
    /// How many of each size, in the order the sizes came.
    pub counts: Vec<u32>,
    /// What they hold together.
    pub total: Volume,
    /// What is left over.
    pub left_over: Volume,
    /// What they cost.
    pub cost: f64,
}

/// Sizes taken at most.
pub const MOST_SIZES: usize = 8;
/// Packs of the smallest size that the quantity may be at most.
pub const MOST_PACKS: f64 = 1000.0;
/// Sets of packs looked at before the sum gives up: far above what a shelf of eight sizes makes.
const MOST_SETS: usize = 400_000;

/// One set of packs on the way.
#[derive(Clone)]
struct Set {
    litres: f64,
    cost: f64,
    counts: [u32; MOST_SIZES],
}

/// The cheapest packs that cover a quantity; at the same cost, the least left over. Never short.
///
/// # Errors
/// An input outside its range; no sizes or more than eight; a quantity of more than a thousand of the smallest.
///
/// ```
/// use coatwalk::{sums::packs::{self, Pack}, units::LITRE};
/// let shelf = [
///     Pack { size: LITRE.of(1.0), price: 30.0 },
///     Pack { size: LITRE.of(5.0), price: 110.0 },
/// ];
/// let buy = packs::cheapest(LITRE.of(6.5), &shelf)?;
/// assert_eq!((buy.counts, buy.cost), (vec![2, 1], 170.0));
/// let buy = packs::cheapest(LITRE.of(8.9), &shelf)?;
/// assert_eq!((buy.counts, buy.cost), (vec![0, 2], 220.0));
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn cheapest(need: Volume, shelf: &[Pack]) -> Answer<Purchase> {
    let need = Field::PackNeed.take(need)?.max(0.0);
    if shelf.is_empty() {
        return Err(NotPossible::Nothing.into());
    }
    if shelf.len() > MOST_SIZES {
        return Err(NotPossible::TooMany { most: MOST_SIZES }.into());
    }
    let mut sizes = Vec::with_capacity(shelf.len());
    for (place, pack) in shelf.iter().enumerate() {
        sizes.push((Field::PackSize.take(pack.size)?, check(Field::PackPrice, pack.price)?.max(0.0), place));
    }
    let smallest = sizes.iter().map(|s| s.0).fold(f64::INFINITY, f64::min);
    if need / smallest > MOST_PACKS {
        return Err(NotPossible::Clash("too many packs: leave out the smallest sizes").into());
    }
    // Cheapest per litre last: then the price still to come is bounded best from the start.
    sizes.sort_by(|a, b| (b.1 / b.0).total_cmp(&(a.1 / a.0)));
    let best = search(need, &sizes)?;
    Ok(Purchase {
        counts: best.counts[..shelf.len()].to_vec(),
        total: LITRE.of(best.litres),
        left_over: LITRE.of((best.litres - need).max(0.0)),
        cost: best.cost,
    })
}

fn search(need: f64, sizes: &[(f64, f64, usize)]) -> Answer<Set> {
    // A litre that came out of gallons a hair short still covers.
    let enough = need * (1.0 - 1e-12);
    let empty = Set { litres: 0.0, cost: 0.0, counts: [0; MOST_SIZES] };
    // Any single size is an answer to begin with.
    let mut best =
        (0..sizes.len()).map(|i| fill(&empty, sizes[i], enough)).reduce(better).unwrap_or_else(|| empty.clone());
    let cheapest_per_litre = sizes.last().map_or(0.0, |s| s.1 / s.0);
    let mut open = vec![empty];
    let mut looked = 0;
    for size in sizes {
        let mut next: HashMap<u64, Set> = HashMap::new();
        for set in &open {
            let mut set = set.clone();
            while set.litres < enough {
                looked += 1;
                if looked > MOST_SETS {
                    return Err(NotPossible::Clash("too many ways to pack: leave out some sizes").into());
                }
                // Even at the best price per litre the rest makes it dearer.
                let least = set.cost + (need - set.litres) * cheapest_per_litre;
                if least > best.cost * (1.0 + 1e-12) {
                    break;
                }
                // Sets of the same volume (to a millionth of a litre) differ in cost only.
                let key = (set.litres * 1e6).round() as u64;
                match next.get(&key) {
                    Some(kept) if kept.cost <= set.cost => {}
                    _ => {
                        next.insert(key, set.clone());
                    }
                }
                add(&mut set, *size);
            }
            if set.litres >= enough {
                best = better(best, set);
            }
        }
        open = next.into_values().collect();
    }
    Ok(best)
}

fn add(set: &mut Set, (litres, price, place): (f64, f64, usize)) {
    set.counts[place] += 1;
    set.litres += litres;
    set.cost += price;
}

fn fill(set: &Set, size: (f64, f64, usize), enough: f64) -> Set {
    let mut set = set.clone();
    while set.litres < enough {
        add(&mut set, size);
    }
    set
}

fn better(a: Set, b: Set) -> Set {
    let same_cost = (a.cost - b.cost).abs() <= 1e-9 * a.cost.abs().max(1e-9);
    let b_wins = match same_cost {
        true => b.litres < a.litres,
        false => b.cost < a.cost,
    };
    if b_wins { b } else { a }
}
