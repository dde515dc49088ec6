//! The jobs on this phone.

use std::collections::BTreeMap;

use crate::app::parts::live::{list, live, tap};
use leptos::prelude::*;

use wasm_bindgen_futures::spawn_local;

use crate::app::parts::head::Head;
use crate::app::route::Route;
use crate::app::screens::keep;
use crate::app::session::use_session;
use crate::app::shell::go;
use crate::job::kinds::kind;

/// Choose the one to work on, or start another.
#[component]
pub fn Jobs() -> impl IntoView {
    let session = use_session();
    let trouble = RwSignal::new(None::<String>);
    let due = RwSignal::new(BTreeMap::new());
    Effect::new(move || {
        let jobs: Vec<_> = session.heads.with(|h| h.iter().filter(|h| !h.demo).map(|h| h.job).collect());
        spawn_local(async move {
            let mut said = BTreeMap::new();
            for job in jobs {
                said.extend(keep::of(session, job).await.map(|words| (job, words)));
            }
            due.try_set(said);
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
            {list(move || session.heads.get(), |h| (h.job, h.last_ms), move |h| view! { <li>
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
                        {live(move || due.with(|d| d.get(&h.job).cloned()).map(|w| view! {
                            <span class="ticket-word" data-id="backup-due">{w}</span>
                        }))}
                    </button>
                </li> }.into_any())}
        </ul>
        <div class="row">
            <a class="button" data-id="backup" href=Route::Backup.address()>"Back up"</a>
            <a class="button" data-id="bring" href=Route::Bring.address()>"Bring in"</a>
        </div>
        <div class="main-action"><a class="button main" data-id="start-job" href=Route::NewJob.address()>"Start a job"</a></div>
    }
}
