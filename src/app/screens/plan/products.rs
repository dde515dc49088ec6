//! Products: for each use the one chosen in this job, and the others on the phone's shelf.
//!
//! May use: the plan's products and shelf. Must not: judge a date or a figure; the product says it itself.

use leptos::prelude::*;
use uuid::Uuid;

use crate::app::desk::planning::{Planning, use_planning};
use crate::app::parts::head::Head;
use crate::app::parts::live::{live, tap};
use crate::app::route::Route;
use crate::device::window;
use crate::job::product::{Product, Use};

/// The products by their use.
#[component]
pub fn ProductsScreen() -> impl IntoView {
    let planning = use_planning();
    // The product that waits for the second tap.
    let asked = RwSignal::new(None::<Uuid>);
    let head = move || {
        planning.products.with(|all| {
            let chosen = format!("{} of {} products chosen", all.len(), Use::ALL.len());
            let left: usize = all.iter().map(|p| p.defaults().0).sum();
            let figures = match (all.len(), left) {
                (0, _) => "The plan takes generic figures, all of them defaults.".to_owned(),
                (_, 0) => "All their figures are from your data sheets.".to_owned(),
                (_, left) => format!("{left} of their figures are still defaults."),
            };
            (chosen, figures)
        })
    };
    view! {
        <Head title="Products" back=Route::Plan back_word="Plan"/>
        <section class="answer column" data-id="products-answer">
            {live(move || {
                let (chosen, figures) = head();
                view! {
                    <p class="figure-large">{chosen}</p>
                    <p>{figures}</p>
                }
            })}
        </section>
        {Use::ALL.into_iter().map(|used_as| of_use(planning, used_as, asked)).collect_view()}
    }
}

/// A product as its ticket shows it.
struct Shown {
    product: Product,
    chosen: bool,
    /// The job has it otherwise than the shelf.
    behind: bool,
    on_shelf: bool,
}

/// The chosen one first, then the others by name.
fn shown(planning: Planning, used_as: Use) -> Vec<Shown> {
    let chosen = planning.products.with(|all| all.iter().find(|p| p.used_as == used_as).cloned());
    let id = chosen.as_ref().map(|p| p.id);
    let mut rows: Vec<Shown> = planning.shelf.with(|all| {
        let of_use = all.iter().filter(|p| p.used_as == used_as).cloned();
        let row = |product: Product| {
            let is_chosen = Some(product.id) == id;
            let behind = is_chosen && chosen.as_ref() != Some(&product);
            Shown { chosen: is_chosen, behind, on_shelf: true, product }
        };
        of_use.map(row).collect()
    });
    if let Some(product) = chosen.filter(|p| !rows.iter().any(|r| r.product.id == p.id)) {
        rows.push(Shown { product, chosen: true, behind: false, on_shelf: false });
    }
    rows.sort_by_key(|r| (!r.chosen, r.product.called()));
    rows
}

fn of_use(planning: Planning, used_as: Use, asked: RwSignal<Option<Uuid>>) -> AnyView {
    let new = move |_| {
        let product = Product { name: String::new(), ..Product::generic(used_as, Uuid::now_v7()) };
        let place = address(product.id);
        planning.shelve_product(product);
        let _ = window().location().set_hash(&place);
    };
    let slug = slug(used_as);
    view! {
        <section class="goods-use" data-id=format!("use-{slug}")>
            <h2>{used_as.title()}</h2>
            {live(move || {
                let rows = shown(planning, used_as);
                let none = !rows.iter().any(|r| r.chosen);
                view! {
                    {none
                        .then(|| {
                            view! { <p data-id=format!("generic-{slug}")>"None chosen: the plan takes generic figures, defaults."</p> }
                        })}
                    <ul class="tickets">
                        {rows.into_iter().map(|r| ticket(planning, r, asked)).collect_view()}
                    </ul>
                }
            })}
            <button type="button" class="goods-new" data-id=format!("new-{slug}") on:click=tap(new)>
                {format!("New product: {}", used_as.title().to_ascii_lowercase())}
            </button>
        </section>
    }
    .into_any()
}

fn ticket(planning: Planning, row: Shown, asked: RwSignal<Option<Uuid>>) -> AnyView {
    let Shown { product, chosen, behind, on_shelf } = row;
    let id = product.id;
    let dated = product.dated(planning.today.get());
    let expired = product.expires.is_some_and(|e| e < planning.today.get());
    let state = match (expired, chosen) {
        (true, _) => "blocked",
        (_, true) => "hand",
        _ => "open",
    };
    let word = match (chosen, on_shelf) {
        (true, true) => "Used in this job",
        (true, false) => "Used in this job, not on this phone's shelf",
        (false, _) => "On the shelf",
    };
    let used = product.clone();
    let take = move |_| planning.use_product(used.clone());
    let off = move |_| match asked.get_untracked() == Some(id) {
        true => {
            asked.set(None);
            planning.drop_product(id);
        }
        false => asked.set(Some(id)),
    };
    let off_words = move || match (asked.get() == Some(id), chosen) {
        (false, _) => "Take off the shelf",
        (true, false) => "Tap again: take it off",
        (true, true) => "Tap again: take it off, this job uses it no longer",
    };
    let use_word = if behind { "Use it as the shelf has it now" } else { "Use in this job" };
    view! {
        <li data-product=id.to_string()>
            <a class="ticket" data-state=state href=address(id) data-id="product">
                <span class="ticket-name">{product.called()}</span>
                <span class="ticket-word">{word}</span>
                {dated
                    .into_iter()
                    .map(|d| {
                        let class = if d.wrong { "goods-line bad" } else { "goods-line" };
                        view! { <span class=class>{d.words}</span> }
                    })
                    .collect_view()}
                <span class="goods-line">{product.defaults_words()}</span>
                {behind.then(|| view! { <span class="goods-line bad">"This job has it as it was logged; the shelf has it otherwise now"</span> })}
            </a>
            <div class="row">
                {(!chosen || behind)
                    .then(|| view! { <button type="button" data-id="use-product" on:click=tap(take)>{use_word}</button> })}
                {on_shelf
                    .then(|| {
                        view! { <button type="button" class="goods-off" data-id="drop-product" on:click=tap(off)>{live(off_words)}</button> }
                    })}
            </div>
            {live(move || {
                (asked.get() == Some(id)).then(|| view! { <p class="quiet">"Jobs keep what they logged of it."</p> })
            })}
        </li>
    }
    .into_any()
}

/// The address of a product's screen.
pub fn address(id: Uuid) -> String {
    format!("#/plan/product/{id}")
}

/// For tests.
fn slug(used_as: Use) -> &'static str {
    match used_as {
        Use::LiquidFilm => "liquid-film",
        Use::AerosolFilm => "aerosol-film",
        Use::Degreaser => "degreaser",
        Use::Neutraliser => "neutraliser",
    }
}
