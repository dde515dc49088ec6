//! One product: its label, what its data sheet says, its sizes and prices. What follows stands on top and moves along.
//!
//! Typed figures go to the phone's shelf when a field is left, and into the job's log once, when the screen is left; a
//! new product also when its first field is left, so that a phone that dies does not forget that the job uses it.
//!
//! May use: the plan's products, the parts. Must not: hold a figure or a rule; `job::product` does.

mod label;
mod sheet;

use leptos::prelude::*;
use uuid::Uuid;

use super::sizes::{Asked, Sized, sizes};
use crate::app::desk::planning::{Planning, use_planning};
use crate::app::parts::ask::sentence;
use crate::app::parts::figure::{Figure, figure};
use crate::app::parts::head::Head;
use crate::app::parts::live::{live, memo, tap};
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::device::window;
use crate::job::materials::{Item, Show};
use crate::job::product::{Product, Size, Spot, Use};
use crate::sums::range::Field;
use crate::units::Measure;

/// The product of that id.
#[component]
pub fn ProductScreen(id: Uuid) -> impl IntoView {
    let planning = use_planning();
    let title = memo(move || planning.product(id).map_or("Product".to_owned(), |p| p.called()));
    // Its fields are built once: what is typed must not build them anew.
    let found = memo(move || planning.shelf_read.get().then(|| planning.product(id).is_some()));
    view! {
        <Head title=title back=Route::Plan back_word="Plan"/>
        {live(move || match found.get() {
            None => ().into_any(),
            Some(true) => untrack(|| planning.product(id).map_or(().into_any(), |p| editor(planning, p))),
            Some(false) => {
                view! {
                    <p>"This product is not on this phone."</p>
                    <a class="button work" href="#/plan/products">"Products"</a>
                }
                    .into_any()
            }
        })}
    }
}

/// The product on its screen. Cheap to copy.
#[derive(Clone, Copy)]
struct Typing {
    planning: Planning,
    id: Uuid,
    used_as: Use,
    /// As the shelf had it, or as it was put into the log since.
    opened: StoredValue<Product>,
    /// Made just now: used in this job once something is typed.
    new: bool,
    /// It was put into the log since.
    put: StoredValue<bool>,
    /// What is wrong with it, by place.
    faults: Memo<Vec<(Spot, String)>>,
}

impl Typing {
    fn begin(planning: Planning, product: Product) -> Typing {
        let id = product.id;
        let typing = Typing {
            planning,
            id,
            used_as: product.used_as,
            new: untouched(&product) && planning.in_job(id).is_none(),
            put: StoredValue::new(false),
            opened: StoredValue::new(product.clone()),
            faults: memo(move || {
                let today = planning.today.get();
                planning.typed.with(|p| p.as_ref().map_or(Vec::new(), |p| p.faults(today)))
            }),
        };
        planning.typed.set(Some(product));
        typing
    }

    /// Reads it, tracked.
    fn with<T: Default>(self, read: impl FnOnce(&Product) -> T) -> T {
        self.planning.typed.with(|p| p.as_ref().filter(|p| p.id == self.id).map_or(T::default(), read))
    }

    /// Changes it: plan and list follow at once.
    fn change(self, change: impl FnOnce(&mut Product)) {
        self.planning.typed.update(|p| {
            if let Some(p) = p.as_mut().filter(|p| p.id == self.id) {
                change(p);
            }
        });
    }

    /// A field was left: the phone's shelf gets it.
    fn keep(self) {
        let Some(now) = self.changed() else { return };
        match self.new && !self.put.get_value() {
            true => {
                self.put.set_value(true);
                self.planning.put_product(now);
            }
            false => self.planning.shelve_product(now),
        }
    }

    /// The screen is left or the phone put away: the job's log gets it, if the job uses it and something changed.
    fn settle(self) {
        let Some(now) = self.changed() else { return };
        let in_job = untrack(|| self.planning.in_job(self.id).is_some());
        match self.new || in_job {
            true => self.planning.put_product(now.clone()),
            false => self.planning.shelve_product(now.clone()),
        }
        self.opened.set_value(now);
    }

    fn changed(self) -> Option<Product> {
        let now = self.planning.typed.get_untracked().filter(|p| p.id == self.id)?;
        self.opened.with_value(|was| now.tidied() != was.tidied()).then_some(now)
    }

    /// A product begun and left with nothing typed is none.
    fn drop_untouched(self) {
        if self.new && self.opened.with_value(untouched) {
            self.planning.drop_product(self.id);
        }
    }

    /// What is wrong at a place.
    fn fault(self, spot: Spot) -> AnyView {
        live(move || {
            let all = self.faults.get();
            all.into_iter()
                .filter(|f| f.0 == spot)
                .map(|f| view! { <p class="why" data-id="fault">{sentence(&f.1)}</p> })
                .collect_view()
        })
    }
}

/// As it was begun.
fn untouched(product: &Product) -> bool {
    *product == Product { name: String::new(), ..Product::generic(product.used_as, product.id) }
}

fn editor(planning: Planning, product: Product) -> AnyView {
    let typing = Typing::begin(planning, product.clone());
    let put_away = window_event_listener_untyped("visibilitychange", move |_| {
        if window().document().is_some_and(|d| d.hidden()) {
            typing.settle();
        }
    });
    on_cleanup(move || {
        put_away.remove();
        typing.settle();
        typing.drop_untouched();
        planning.typed.set(None);
    });
    let used = move || planning.in_job(typing.id).is_some();
    let take = move |_| {
        if let Some(now) = planning.typed.get_untracked() {
            planning.put_product(now.clone());
            typing.opened.set_value(now);
        }
    };
    view! {
        <p class="over">{product.used_as.title()}</p>
        <section class="sheet-answer goods-answer" data-id="product-answer" aria-live="polite">{live(move || answer(typing))}</section>
        <p class="quiet" data-id="product-defaults">{live(move || typing.with(Product::defaults_words))}</p>
        {label::label(typing, &product)}
        {sheet::sheet(typing, &product)}
        {stock(typing, &product)}
        {live(move || match (used(), typing.new) {
            (true, _) => used_words("Used in this job. The record gets its figures when you leave this screen."),
            (false, true) if typing.with(untouched) => used_words("This job uses it as soon as you type something."),
            (false, true) => used_words("This job uses it. The record gets it when you leave this screen."),
            (false, false) => {
                view! { <button type="button" class="work" data-id="use-product" on:click=tap(take)>"Use it in this job"</button> }
                    .into_any()
            }
        })}
        <a class="button work" href="#/plan/products" data-id="all-products">"All products"</a>
    }
    .into_any()
}

fn used_words(words: &'static str) -> AnyView {
    view! { <p data-id="product-used">{words}</p> }.into_any()
}

/// How far it goes, and what this machine takes of it.
fn answer(typing: Typing) -> AnyView {
    let set = use_session().prefs.with(|p| p.units);
    let today = typing.planning.today.get();
    let goes = typing
        .with(|p| p.settled(today).0.goes(set))
        .unwrap_or("how far it goes can't be said with these figures".into());
    let item = Item::ALL.into_iter().find(|i| i.product() == Some(typing.used_as));
    let needs = typing.planning.list.with(|l| {
        let line = l.line(item?)?;
        (line.need.high > 0.0).then(|| format!("This machine needs {}.", line.need_words(&Show::of(set))))
    });
    let missing = "No need can be reckoned: see what is wrong below, or give the machine areas.";
    view! {
        <p class="figure-large">{sentence(&goes)}</p>
        <p>{needs.unwrap_or_else(|| missing.into())}</p>
    }
    .into_any()
}

/// Sizes, prices, and what is there already.
fn stock(typing: Typing, product: &Product) -> AnyView {
    let can = typing.used_as == Use::AerosolFilm;
    let asked = Asked {
        before: String::new(),
        field: Field::PackSize,
        measure: Some(if can { Measure::Jug } else { Measure::Volume }),
        label: if can { "Can" } else { "Size" },
    };
    let start: Vec<Sized> = product.sizes.iter().map(|s| (s.size_ml / 1000.0, s.price)).collect();
    let take = move |all: Vec<Sized>| {
        let all = all.into_iter().map(|(litres, price)| Size { size_ml: litres * 1000.0, price }).collect();
        typing.change(|p| p.resize(all));
    };
    let shelf = Figure {
        id: "shelf".into(),
        label: if can { "Cans on the shelf".into() } else { "On the shelf already".into() },
        field: if can { Field::ShelfCount } else { Field::PackNeed },
        measure: (!can).then_some(Measure::Volume),
        hint: "Empty means none. It is taken off what is to be bought.".into(),
    };
    let there = Some(product.in_stock()).filter(|v| *v > 0.0);
    let put = move |v: Option<f64>| typing.change(|p| p.stock(v.unwrap_or(0.0)));
    view! {
        <h2>"Sizes and prices"</h2>
        <p class="quiet">"In your own money. Without all prices the list says what to buy, not what it costs."</p>
        {typing.fault(Spot::Sizes)}
        {sizes(asked, start, take, move || typing.keep())}
        <h2>"There already"</h2>
        {figure(shelf, there, put, move || typing.keep())}
        {typing.fault(Spot::Shelf)}
    }
    .into_any()
}
