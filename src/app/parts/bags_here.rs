//! The bags inside Take off and Refit: a short list of links. Their screens stand at the desk.
//!
//! May use: the job. Must not: decide the order; the job does. It is in the first load: keep it small.

use leptos::prelude::*;

use super::live::list;
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::job::stage::Stage;

/// Number, part and state of each bag, full ones first in the order in which they go back.
#[component]
pub fn BagsHere(stage: Stage) -> impl IntoView {
    let session = use_session();
    let rows = move || {
        session.job(|j| j.bags_in_order().map(|b| (b.id, b.number, b.part.clone(), b.back.is_some())).collect())
    };
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
            <ul class="tickets">
                {list(rows, |b| (b.0, b.3), |(id, number, part, back)| view! { <li>
                    <a
                        class="ticket with-number"
                        href=Route::Bag(id).address()
                        data-bag=number.to_string()
                        data-state=if back { "done" } else { "open" }
                    >
                        <span class="number">{number}</span>
                        <span class="ticket-name">{part}</span>
                    </a>
                </li> }.into_any())}
            </ul>
        </section>
    }
}
