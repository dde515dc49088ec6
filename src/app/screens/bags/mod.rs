//! Bags: every part taken off, its number, its fasteners; at refit in reverse order.
//!
//! May use: the job. Must not: decide the order; the job does.

pub mod back;
pub mod labels;
pub mod new;
pub mod one;
pub mod parts;
pub mod scan;

use crate::app::parts::live::{list, live, memo};
use leptos::prelude::*;

use crate::app::route::Route;
use crate::app::session::use_session;
use crate::job::fold::Bag;
use crate::job::stage::Stage;

/// All bags.
#[component]
pub fn Bags() -> impl IntoView {
    let session = use_session();
    let none = move || session.job(|j| j.bags.is_empty());
    let full = move || session.job(|j| j.bags_to_go_back().len());
    view! {
        <header class="head">
            <h1>"Bags"</h1>
        </header>
        <p class="aim">
            {live(move || match (none(), full()) {
                (true, _) => "One bag for each part that comes off. The app gives the number; you write it on the bag.".to_string(),
                (_, 0) => "All bags are back.".to_string(),
                (_, 1) => "1 bag to go back.".to_string(),
                (_, n) => format!("{n} bags to go back, the last one filled first."),
            })}
        </p>
        <div class="row bag-ways">
            <a class="button" data-id="parts" href="#/parts">"What comes off"</a>
            <a class="button" data-id="scan" href="#/scan">"Scan a label"</a>
            {live(move || (!none()).then(|| view! { <a class="button" data-id="labels" href="#/labels">"Print labels"</a> }))}
        </div>
        <BagList/>
        <div class="main-action"><a class="button main" data-id="new-bag" href=Route::NewBag.address()>"Fill a bag"</a></div>
    }
}

/// The bags inside Take off and Refit.
#[component]
pub fn BagsHere(stage: Stage) -> impl IntoView {
    let fill = (stage == Stage::TakeOff).then(|| {
        view! {
            <div class="row">
                <a class="button work" data-id="new-bag" href=Route::NewBag.address()>"Fill a bag"</a>
                <a class="button work" data-id="parts" href="#/parts">"What comes off"</a>
            </div>
        }
    });
    view! {
        <section>
            <h2>{if stage == Stage::Refit { "Bags, in the order they go back" } else { "Bags" }}</h2>
            {fill}
            <BagList/>
        </section>
    }
}

/// The bags, full ones first in the order in which they go back.
#[component]
fn BagList() -> impl IntoView {
    let session = use_session();
    let bags = memo(move || session.job(|j| j.bags_in_order().cloned().collect::<Vec<_>>()));
    view! {
        <ul class="tickets">
            {list(move || bags.get(), |b| (b.id, b.back.is_some()), move |b| view! { <li>
                    <a
                        class="ticket with-number"
                        href=Route::Bag(b.id).address()
                        data-bag=b.number.to_string()
                        data-state=if b.back.is_some() { "done" } else { "open" }
                    >
                        <span class="number">{session.peek(|l| l.job().bag_label(&b))}</span>
                        <span class="ticket-text">
                            <span class="ticket-name">{b.part.clone()}</span>
                            <span class="ticket-word">
                                {session.peek(|l| l.job().area_name(b.area).to_owned())} ", " {state(&b)}
                            </span>
                        </span>
                    </a>
                </li> }.into_any())}
        </ul>
    }
}

fn state(b: &Bag) -> &'static str {
    match (b.back.is_some(), b.screwed) {
        (true, _) => "back",
        (false, true) => "off, screws in place",
        (false, false) => "full",
    }
}
