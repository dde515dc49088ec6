//! Sizes and prices of what can be bought, a row each.
//!
//! May use: the figure field. Must not: know what is bought.

use std::sync::Arc;

use leptos::prelude::*;

use crate::app::parts::figure::{Figure, figure, forget};
use crate::app::parts::live::{list, live, tap};
use crate::sums::packs::MOST_SIZES;
use crate::sums::range::Field;
use crate::units::Measure;

/// How a size is asked for.
#[derive(Clone)]
pub struct Asked {
    /// Goes before the ids of the fields, where one screen has several lists.
    pub before: String,
    /// The range of a size; sizes go in and out in its unit.
    pub field: Field,
    /// Decides the unit; none for pieces.
    pub measure: Option<Measure>,
    /// "Size", "Pieces in a pack".
    pub label: &'static str,
}

/// A size and its price.
pub type Sized = (f64, Option<f64>);

/// A row as it is being typed.
#[derive(Clone, PartialEq)]
struct Row {
    key: usize,
    size: Option<f64>,
    price: Option<f64>,
}

/// A change of the rows.
type Change = Box<dyn FnOnce(&mut Vec<Row>)>;

/// The rows; `take` gets those with a size each time something changes, `left` is called when a field is left.
pub fn sizes(
    asked: Asked,
    start: Vec<Sized>,
    take: impl Fn(Vec<Sized>) + Send + Sync + 'static,
    left: impl Fn() + Send + Sync + 'static,
) -> AnyView {
    let first: Vec<Row> =
        start.into_iter().enumerate().map(|(key, (size, price))| Row { key, size: Some(size), price }).collect();
    let rows = RwSignal::new(first);
    let left = Arc::new(left);
    let change = {
        let take = Arc::new(take);
        Arc::new(move |change: Change| {
            rows.update(change);
            take(rows.with_untracked(|all| all.iter().filter_map(|r| Some((r.size?, r.price))).collect()));
        })
    };
    let add = move |_| {
        rows.update(|all| {
            let key = all.iter().map(|r| r.key + 1).max().unwrap_or(0);
            all.push(Row { key, size: None, price: None });
        });
    };
    let row = {
        let (asked, change, left) = (asked.clone(), change.clone(), left.clone());
        move |row: Row| {
            let key = row.key;
            let put = |set: fn(&mut Row, Option<f64>)| {
                let change = change.clone();
                move |v: Option<f64>| {
                    change(Box::new(move |all| all.iter_mut().filter(|r| r.key == key).for_each(|r| set(r, v))));
                }
            };
            let leave = || {
                let left = left.clone();
                move || left()
            };
            let size = Figure {
                id: format!("{}size-{key}", asked.before),
                label: asked.label.into(),
                field: asked.field,
                measure: asked.measure,
                hint: String::new(),
            };
            let price = Figure {
                id: format!("{}price-{key}", asked.before),
                label: "Price".into(),
                field: Field::PackPrice,
                measure: None,
                hint: String::new(),
            };
            let (change, done) = (change.clone(), leave());
            let ids = [size.id.clone(), price.id.clone()];
            // A tap has no owner of its own, and the drafts' keys ask for the session.
            let owner = Owner::current();
            let remove = move |_| {
                if let Some(owner) = &owner {
                    owner.with(|| ids.iter().for_each(|id| forget(id)));
                }
                change(Box::new(move |all| all.retain(|r| r.key != key)));
                done();
            };
            view! {
                <li class="goods-size">
                    <div class="two-fields">
                        {figure(size, row.size, put(|r, v| r.size = v), leave())}
                        {figure(price, row.price, put(|r, v| r.price = v), leave())}
                    </div>
                    <button type="button" class="goods-off" data-id=format!("{}size-off-{key}", asked.before) on:click=tap(remove)>"Remove this size"</button>
                </li>
            }
            .into_any()
        }
    };
    let add_id = format!("{}size-add", asked.before);
    view! {
        <ul class="goods-sizes" data-id=format!("{}sizes", asked.before)>
            {list(move || rows.get(), |r| r.key, row)}
        </ul>
        {live(move || match rows.with(Vec::len) {
            MOST_SIZES.. => view! { <p class="quiet">{format!("{MOST_SIZES} sizes at most.")}</p> }.into_any(),
            0 => view! { <p class="quiet">"No sizes: the list gives the bare amount."</p> }.into_any(),
            _ => ().into_any(),
        })}
        {live(move || {
            (rows.with(Vec::len) < MOST_SIZES)
                .then(|| view! { <button type="button" data-id=add_id.clone() on:click=tap(add)>"Add a size"</button> })
        })}
    }
    .into_any()
}
