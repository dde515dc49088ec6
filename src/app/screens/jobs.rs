//! The jobs on this phone.

use std::collections::BTreeMap;

use crate::app::parts::live::{list, live, memo, tap};
use chrono::Local;
use leptos::prelude::*;
use uuid::Uuid;

use wasm_bindgen_futures::spawn_local;

use crate::app::parts::head::Head;
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::app::shell::go;
use crate::job::aftercare;
use crate::job::history::{self, MachineDue};
use crate::job::kinds::kind;
use crate::share::tally::{Tally, reminder};
use crate::store::backed_up;

/// Choose the one to work on, or start another.
#[component]
pub fn Jobs() -> impl IntoView {
    let session = use_session();
    let trouble = RwSignal::new(None::<String>);
    let due = RwSignal::new(BTreeMap::new());
    let binned = memo(move || session.heads.with(|all| all.iter().filter(|h| h.binned_ms.is_some()).count()));
    let jobs = memo(move || {
        session.heads.with(|all| all.iter().filter(|h| h.binned_ms.is_none()).cloned().collect::<Vec<_>>())
    });
    let care = memo(move || {
        let now = session.now.get().with_timezone(&Local);
        let line = |m: MachineDue| Some((m.job, aftercare::line(&m.due)?));
        session.heads.with(|all| history::due(all, now)).into_iter().filter_map(line).collect::<BTreeMap<_, _>>()
    });
    Effect::new(move || {
        let jobs: Vec<_> = jobs.with(|all| all.iter().filter(|h| !h.demo).map(|h| h.job).collect());
        spawn_local(async move {
            // Counted, not read: many long jobs would keep the list waiting.
            let Ok(store) = session.store() else { return };
            let Ok(counts) = store.counts(&jobs).await else { return };
            let last = backed_up::load();
            let words = |(job, entries): (Uuid, usize)| {
                let had = last.get(&job).map(|l| Tally { entries: l.had.entries, ..Tally::default() });
                Some((job, reminder(Tally { entries, ..Tally::default() }, had)?))
            };
            due.try_set(jobs.into_iter().zip(counts).filter_map(words).collect());
        });
    });
    let open = move |job| {
        spawn_local(async move {
            match session.load(job).await {
                Ok(()) => go(Route::Today),
                Err(e) => trouble.set(Some(e.words())),
            }
        });
    };
    view! {
        <Head title="Jobs" back=Route::Today back_word="Today"/>
        {live(move || trouble.get().map(|t| view! { <p class="bad" role="alert">{t}</p> }))}
        <ul class="tickets">
            {list(move || jobs.get(), |h| (h.job, h.last_ms), move |h| view! { <li>
                    <button
                        type="button"
                        class="ticket"
                        data-state=if h.closed { "done" } else { "open" }
                        data-job=h.job.to_string()
                        on:click=tap(move |_| open(h.job))
                    >
                        <span class="ticket-name">{h.name.clone()}</span>
                        <span class="ticket-word">
                            {kind(&h.machine).map_or("", |k| k.name)} ", "
                            {match (h.closed, h.stage) {
                                (true, _) => "closed",
                                (_, Some(s)) => s.title(),
                                (_, None) => "all done",
                            }}
                            {h.demo.then_some(", invented")}
                        </span>
                        {live(move || care.with(|c| c.get(&h.job).cloned()).map(|w| view! {
                            <span class="ticket-word care-word" data-id="care-due">"Aftercare: "{w}"."</span>
                        }))}
                        {live(move || due.with(|d| d.get(&h.job).cloned()).map(|w| view! {
                            <span class="ticket-word" data-id="backup-due">{w}</span>
                        }))}
                    </button>
                </li> }.into_any())}
        </ul>
        <div class="row">
            <a class="button" data-id="backup" href=Route::Backup.address()>"Back up"</a>
            <a class="button" data-id="bring" href=Route::Bring.address()>"Bring in"</a>
            <a class="button" data-id="away" href="#/jobs/away">"Put one away"</a>
            {live(move || (binned.get() > 0).then(|| view! {
                <a class="button" data-id="open-bin" href=Route::Bin.address()>{format!("Bin ({})", binned.get())}</a>
            }))}
        </div>
        <div class="main-action"><a class="button main" data-id="start-job" href=Route::NewJob.address()>"Start a job"</a></div>
    }
}
