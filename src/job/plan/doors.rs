//! How far each part of the plan is, in a few words: what stands on the doors to it.

use crate::job::entry::{BUY, DAY_BEFORE};
use crate::job::fold::Job;
use crate::job::materials::{Item, List};
use crate::job::product::{Product, Use};
use crate::job::shed;

/// "2 of 4 from your sheets".
pub fn products_known(products: &[Product]) -> String {
    let own = |p: &&Product| p.sheet.rows().iter().any(|(.., f)| f.is_some_and(|f| !f.default));
    match products.iter().filter(own).count() {
        0 => "All figures are defaults".into(),
        n => format!("{n} of {} from your sheets", Use::ALL.len()),
    }
}

/// "11 to buy, 3 got".
pub fn shopping(job: &Job, list: &List) -> String {
    let missing = list.lines.iter().filter(|l| l.missing > 0.0 && l.item != Item::Water);
    let ticked = |item: Item| job.listed.contains(&(BUY.to_owned(), item.slug().to_owned()));
    let (got, to_buy): (Vec<_>, Vec<_>) = missing.partition(|l| ticked(l.item));
    match (to_buy.len(), got.len()) {
        (0, _) => "Nothing left to buy".into(),
        (n, 0) => format!("{n} to buy"),
        (n, got) => format!("{n} to buy, {got} got"),
    }
}

/// Points of the day before that are done, and all of them.
pub fn day_before(job: &Job) -> (usize, usize) {
    let ticked = |id: &str| job.listed.contains(&(DAY_BEFORE.to_owned(), id.to_owned()));
    (shed::DAY_BEFORE.iter().filter(|p| ticked(p.id)).count(), shed::DAY_BEFORE.len())
}

/// "3 amounts, 2 times".
pub fn logged(job: &Job) -> String {
    let count = |n: usize, one: &str| format!("{n} {one}{}", if n == 1 { "" } else { "s" });
    match (job.used.len(), job.worked.len()) {
        (0, 0) => "Nothing logged yet".into(),
        (used, worked) => format!("{}, {}", count(used, "amount"), count(worked, "time")),
    }
}
