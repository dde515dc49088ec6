//! The years after the film: the care that comes again, a touch-up, the history of a machine, the bin.
//!
//! May use: `job::{aftercare, touch_up, history, bin}`, the session, the parts. Must not: reckon a day or a figure.

pub mod aftercare;
pub mod bin;
pub mod history;
pub mod look;
pub mod touch_up;

use chrono::Local;
use leptos::prelude::*;

use crate::app::parts::live::{live, tap};
use crate::app::session::use_session;
use crate::app::shell::go;
use crate::job::guide::guide;
use crate::job::history::MachineDue;
use crate::job::stage::Stage;

/// The safety point of the aftercare, and those of its cautions that `with` names by a word.
fn cautions(with: &'static [&'static str]) -> AnyView {
    let guide = guide(Stage::Aftercare);
    let named = guide.cautions.iter().filter(|c| with.iter().any(|w| c.words.contains(w)));
    let words = guide.safety.iter().map(|p| p.words).chain(named.map(|c| c.words));
    view! {
        <section class="cautions" data-id="care-cautions">
            <ul>{words.map(|w| view! { <li>{w}{(!w.ends_with('.')).then_some(".")}</li> }).collect_view()}</ul>
        </section>
    }
    .into_any()
}

/// What is due on each machine, tracked.
fn machines() -> Vec<MachineDue> {
    let session = use_session();
    let now = session.now.get().with_timezone(&Local);
    session.heads.with(|heads| crate::job::history::due(heads, now))
}

/// Machines with something due: a tap opens the job of one, and leads to its aftercare.
fn due_machines(all: Vec<MachineDue>) -> AnyView {
    let session = use_session();
    let trouble = RwSignal::new(None::<String>);
    let open = move |job| {
        wasm_bindgen_futures::spawn_local(async move {
            match session.load(job).await {
                Ok(()) => go(crate::app::route::Route::Aftercare),
                Err(e) => drop(trouble.try_set(Some(e.words()))),
            }
        });
    };
    let row = move |m: MachineDue| {
        let lines = m.due.iter().filter(|d| d.is_due()).map(|d| d.words()).collect::<Vec<_>>().join(". ");
        view! {
            <li>
                <button type="button" class="ticket" data-state="again" data-care-job=m.job.to_string() on:click=tap(move |()| open(m.job))>
                    <span class="ticket-name">{m.name}</span>
                    <span class="ticket-word">{lines}</span>
                </button>
            </li>
        }
    };
    view! {
        {live(move || trouble.get().map(|t| view! { <p class="bad" role="alert">{t}</p> }))}
        <ul class="tickets">{all.into_iter().map(row).collect_view()}</ul>
    }
    .into_any()
}
