//! The shopping list: what to buy, ticked off as it is got. Shared and printed as the very lines the screen shows.
//!
//! May use: the plan's list, `job::materials` for its words. Must not: reckon or word a line itself.

use leptos::prelude::*;

use super::products::address;
use super::sizes::{Asked, Sized, sizes};
use crate::app::desk::planning::{Planning, use_planning};
use crate::app::parts::ask::sentence;
use crate::app::parts::figure::{Figure, figure};
use crate::app::parts::hand_over::hand_over;
use crate::app::parts::head::Head;
use crate::app::parts::live::{list, live, memo, said, tap};
use crate::app::route::Route;
use crate::app::session::{Session, use_session};
use crate::job::entry::{BUY, What};
use crate::job::materials::{Cover, Item, Line, Measure, Show, Supply, SupplySize, note, text};
use crate::sums::range::Field;
use crate::units;

/// The list of the open job.
#[component]
pub fn BuyScreen() -> impl IntoView {
    let (planning, session) = (use_planning(), use_session());
    let show = memo(move || Show::of(session.prefs.with(|p| p.units)));
    let opened = RwSignal::new(None::<Item>);
    let items = move || planning.list.with(|l| l.taken().map(|l| l.item).collect::<Vec<_>>());
    let row = move |item: Item| line(planning, session, item, show, opened);
    let others = move || {
        let notes: Vec<String> = planning.list.with(|l| l.other_faults().into_iter().map(note).collect());
        notes.into_iter().map(|n| view! { <p class="why" data-id="note">{n}</p> }).collect_view()
    };
    view! {
        <Head title="Shopping list" back=Route::Plan back_word="Plan"/>
        <section class="answer column" data-id="buy-answer">{live(move || answer(planning, session, show.get()))}</section>
        {cover(planning)}
        {live(move || items().is_empty().then(|| view! { <p data-id="buy-empty">"Nothing to buy: the machine takes nothing yet. Give it areas first."</p> }))}
        <ul class="goods" data-id="goods">{list(items, |i| *i, row)}</ul>
        <div data-id="buy-foot">
            {live(move || {
                let foot = planning.list.with(|l| l.foot(&show.get()));
                foot.into_iter().map(|w| view! { <p class="goods-foot">{w}</p> }).collect_view()
            })}
            {live(others)}
        </div>
        {hand_over("Shopping list", "shopping-list.txt", move || planning.list.with(|l| text(l, &show.get())))}
    }
}

/// What it costs, or how much there is to buy; and how far one is.
fn answer(planning: Planning, session: Session, show: Show) -> AnyView {
    let (mut foot, cost, wanted) = planning.list.with(|l| {
        let wanted: Vec<Item> = l.taken().filter(|l| is_bought(l)).map(|l| l.item).collect();
        (l.foot(&show).into_iter(), l.cost.is_some(), wanted)
    });
    let got = wanted.iter().filter(|i| session.job(|j| is_got(&j.listed, **i))).count();
    let count = format!("{} to buy, {got} got", wanted.len());
    let (big, small) = match cost {
        true => (foot.next().unwrap_or_default(), count),
        false => (count, "No prices yet: open a line and type them.".into()),
    };
    view! {
        <p class="figure-large">{big}</p>
        <p>{small}</p>
    }
    .into_any()
}

/// Something of it has to be bought.
fn is_bought(line: &Line) -> bool {
    line.item != Item::Water && line.missing > 0.0
}

fn is_got(listed: &std::collections::BTreeSet<(String, String)>, item: Item) -> bool {
    listed.contains(&(BUY.to_owned(), item.slug().to_owned()))
}

/// Which end of the estimate is bought.
fn cover(planning: Planning) -> AnyView {
    let chip = move |cover: Cover, id: &'static str, word: &'static str| {
        let on = said(move || planning.setup.with(|s| s.cover == cover).to_string());
        let pick = move |_| planning.choose(|s| s.cover = cover);
        view! { <button type="button" class="chip" data-id=id aria-pressed=on on:click=tap(pick)>{word}</button> }
    };
    let follows = move || match planning.setup.with(|s| s.cover) {
        Cover::Likely => "Runs out in one job of two.",
        Cover::High => "Lasts in nine jobs of ten.",
    };
    view! {
        <fieldset class="goods-cover">
            <legend>"Buy the amount that is"</legend>
            <div class="chips">{chip(Cover::Likely, "cover-likely", "Likely")} {chip(Cover::High, "cover-high", "High")}</div>
            <p data-id="cover-words">{live(follows)}</p>
        </fieldset>
    }
    .into_any()
}

/// One material: the tick, its words, and behind a tap how it is reckoned and what it costs.
fn line(
    planning: Planning,
    session: Session,
    item: Item,
    show: Memo<Show>,
    opened: RwSignal<Option<Item>>,
) -> AnyView {
    let now = memo(move || planning.list.with(|l| l.line(item).cloned()));
    let got = memo(move || session.job(|j| is_got(&j.listed, item)));
    let bought = memo(move || now.with(|l| l.as_ref().is_some_and(is_bought)));
    let open = memo(move || opened.get() == Some(item));
    let slug = item.slug();
    let flip = move |_| {
        session.write(What::Listed { list: BUY.into(), item: slug.into(), on: !got.get_untracked() });
    };
    let turn = move |_| opened.update(|o| *o = (*o != Some(item)).then_some(item));
    let notes = move || {
        let notes: Vec<String> = planning
            .list
            .with(|l| l.line(item).map_or(Vec::new(), |line| l.faults_of(line).into_iter().map(note).collect()));
        notes.into_iter().map(|n| view! { <p class="why" data-id="note">{n}</p> }).collect_view()
    };
    view! {
        <li class="good" data-item=slug data-state=said(move || if got.get() && bought.get() { "got" } else { "open" })>
            <div class="good-row">
                {live(move || {
                    bought.get().then(|| view! {
                        <button
                            type="button"
                            class="good-tick"
                            data-id=format!("tick-{slug}")
                            aria-pressed=said(move || got.get().to_string())
                            aria-label=format!("Got: {}", item.title())
                            on:click=tap(flip)
                        >
                            <span class="good-box" aria-hidden="true"></span>
                            <span class="good-word">{live(move || if got.get() { "got" } else { "" })}</span>
                        </button>
                    })
                })}
                <button
                    type="button"
                    class="good-open"
                    data-id=format!("line-{slug}")
                    aria-expanded=said(move || open.get().to_string())
                    on:click=tap(turn)
                >
                    {live(move || now.get().map(|l| words(&l, &show.get())))}
                </button>
            </div>
            {live(notes)}
            {live(move || open.get().then(|| untrack(|| detail(planning, item))))}
        </li>
    }
    .into_any()
}

/// The parts of a line, as they stand in the shared text.
fn words(line: &Line, show: &Show) -> AnyView {
    let basket = line.basket_words(show);
    let caution = line.item == Item::Water;
    view! {
        <span class="ticket-name">{line.title()}</span>
        <span class=if caution { "good-basket bad" } else { "good-basket" }>{basket}</span>
        <span class="good-need">{line.need_words(show)}</span>
        {line.shelf_words(show).map(|w| view! { <span class="good-need">{w}</span> })}
        {line.own_words().map(|w| view! { <span class="good-need">{w.to_owned()}</span> })}
    }
    .into_any()
}

/// How a line is reckoned, and where its sizes and prices are.
fn detail(planning: Planning, item: Item) -> AnyView {
    let session = use_session();
    let set = session.prefs.with_untracked(|p| p.units);
    let from = move || planning.list.with(|l| l.line(item).map(|l| l.from.clone())).unwrap_or_default();
    let packs = match item {
        Item::Water => "All of it is to be caught: it carries grease and degreaser.",
        _ => {
            "Bought is the cheapest set of sizes that covers what is missing. While a price is missing, twice the size is taken to cost 1.7 times as much (common practice, no source)."
        }
    };
    let goods = match item.product() {
        Some(used_as) => {
            let chosen =
                planning.products.with_untracked(|all| all.iter().find(|p| p.used_as == used_as).map(|p| p.id));
            let (to, word) = match chosen {
                Some(id) => (address(id), "Its figures, sizes and prices"),
                None => ("#/plan/products".into(), "Choose a product: figures, sizes, prices"),
            };
            view! { <a class="button work" data-id="good-product" href=to>{word}</a> }.into_any()
        }
        None if item == Item::Water => ().into_any(),
        None => supply(planning, item),
    };
    view! {
        <section class="good-detail" data-id=format!("detail-{}", item.slug())>
            <h3>"How it is reckoned"</h3>
            <p>{live(move || planning.how(item, set))}</p>
            <p>{live(move || sentence(&from()))}</p>
            <p>"One job in ten takes less than the first end, one in ten more than the second. "{packs}</p>
            {goods}
        </section>
    }
    .into_any()
}

/// Sizes, prices and stock of a material that is no product.
fn supply(planning: Planning, item: Item) -> AnyView {
    let (measure, label) = match item.measure() {
        Measure::SquareMetres => (Some(units::Measure::Area), "Size"),
        Measure::Metres => (Some(units::Measure::Size), "Length"),
        Measure::Litres => (Some(units::Measure::Volume), "Size"),
        Measure::Pieces => (None, "In a pack"),
    };
    let (start, there) = planning.setup.with_untracked(|s| {
        let there = s.supplies.iter().find(|s| s.item == item).map_or(0.0, |s| s.on_shelf);
        (Supply::sizes(&s.supplies, item), Some(there).filter(|v| *v > 0.0))
    });
    let start: Vec<Sized> = start.into_iter().map(|s| (s.amount, s.price)).collect();
    let take = move |all: Vec<Sized>| {
        let own: Vec<_> = all.into_iter().map(|(amount, price)| SupplySize { amount, price }).collect();
        planning.change(|s| Supply::of(&mut s.supplies, item).sizes = own);
    };
    let shelf = Figure {
        id: format!("{}-shelf", item.slug()),
        label: "On the shelf already".into(),
        field: Field::SupplyStock,
        measure,
        hint: "Empty means none.".into(),
    };
    let put = move |v: Option<f64>| {
        planning.change(|s| Supply::of(&mut s.supplies, item).on_shelf = v.unwrap_or(0.0));
    };
    let shelf = figure(shelf, there, put, move || planning.keep());
    let asked = Asked { before: format!("{}-", item.slug()), field: Field::SupplySize, measure, label };
    view! {
        <h3>"Sizes and prices"</h3>
        <p class="quiet">"Usual sizes until you type your own."</p>
        {sizes(asked, start, take, move || planning.keep())}
        {shelf}
    }
    .into_any()
}
