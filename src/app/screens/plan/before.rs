//! The list for the day before, ticked point by point.
//!
//! May use: the list in `job::shed`. Must not: say that a shed with all ticks is fit.

use leptos::prelude::*;

use crate::app::parts::head::Head;
use crate::app::parts::live::{live, said, tap};
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::job::entry::{DAY_BEFORE as LIST, What};
use crate::job::plan;
use crate::job::shed::DAY_BEFORE;

/// The day before.
#[component]
pub fn BeforeScreen() -> impl IntoView {
    let session = use_session();
    let left = move || match session.job(plan::day_before) {
        (done, all) if done == all => "All points are ticked".to_owned(),
        (done, all) => format!("{} of {all} left", all - done),
    };
    let points = DAY_BEFORE.iter().map(|point| {
        let on = move || session.job(|j| j.listed.contains(&(LIST.to_owned(), point.id.to_owned())));
        let flip = move |()| {
            let on = !untrack(on);
            session.write(What::Listed { list: LIST.into(), item: point.id.into(), on });
        };
        view! {
            <li>
                <button
                    type="button"
                    class="ticket check"
                    data-id=format!("before-{}", point.id)
                    data-state=said(move || if on() { "done" } else { "open" })
                    aria-pressed=said(move || on().to_string())
                    on:click=tap(flip)
                >
                    <span class="box" aria-hidden="true"></span>
                    <span class="ticket-name">{point.words}</span>
                </button>
            </li>
        }
        .into_any()
    });
    view! {
        <Head title="The day before" back=Route::Plan back_word="Plan"/>
        <p class="figure-large" data-id="before-left">{live(left)}</p>
        <p>"A tick says that you did it. It certifies nothing."</p>
        <section class="cautions">
            <ul>
                <li>"The phone is an ignition source: from the first can on it stays outside."</li>
                <li>"Heaters with a flame are out and cold before any can is opened, and stay out until the purge ends."</li>
            </ul>
        </section>
        <ul class="tickets">{points.collect::<Vec<_>>()}</ul>
        <p class="quiet">"Common practice. Extinguisher, earthing and ignition after NFPA 33 and 29 CFR 1910.107, from memory. Your local fire rules go first."</p>
    }
}
