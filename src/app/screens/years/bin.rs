//! The bin: putting a job away, and bringing it back.
//!
//! May use: `job::bin`, the backup's tally. Must not: remove anything; the start does, when the time is over.

use chrono::Utc;
use leptos::prelude::*;
use uuid::Uuid;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;

use crate::app::desk::backup::parts;
use crate::app::parts::field::{Draft, Field};
use crate::app::parts::head::Head;
use crate::app::parts::live::{list, live, memo, tap};
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::app::shell::go;
use crate::device::window;
use crate::job::bin::{self, Bin, KEPT_DAYS, WORD};
use crate::job::kinds::kind;
use crate::share::tally::{Tally, reminder};
use crate::store::backed_up;

/// What is in the bin.
#[component]
pub fn BinScreen() -> impl IntoView {
    let session = use_session();
    let trouble = RwSignal::new(None::<String>);
    let rows = memo(move || {
        let now = session.now.get().timestamp_millis();
        session.heads.with(|all| {
            let row = |h: &crate::job::head::Head| Some((h.job, h.name.clone(), Bin::of(h, now)?.words()));
            all.iter().filter_map(row).collect::<Vec<_>>()
        })
    });
    let back = move |job: Uuid| {
        spawn_local(async move {
            if let Err(e) = session.bring_back(job).await {
                trouble.try_set(Some(e.words()));
            }
        });
    };
    view! {
        <Head title="Bin" back=Route::Jobs back_word="Jobs"/>
        <p class="figure-large years-figure" data-id="bin-count">
            {live(move || match rows.with(Vec::len) { 0 => "The bin is empty".to_owned(), 1 => "1 job".into(), n => format!("{n} jobs") })}
        </p>
        <p>{format!("A job stays here for {KEPT_DAYS} days. Then this phone removes it with its photos. Backups and other phones keep what they have.")}</p>
        {live(move || trouble.get().map(|t| view! { <p class="bad" role="alert">{t}</p> }))}
        <ul class="tickets" data-id="bin">
            {list(move || rows.get(), |r| r.clone(), move |(job, name, left)| view! {
                <li class="ticket" data-state="open" data-binned=job.to_string()>
                    <span class="ticket-name">{name}</span>
                    <span class="ticket-word">{left}</span>
                    <button type="button" class="work" data-id="bring-back" on:click=tap(move |()| back(job))>"Bring it back"</button>
                </li>
            }.into_any())}
        </ul>
    }
}

/// Which job is to be put away.
#[component]
pub fn PickScreen() -> impl IntoView {
    let session = use_session();
    let jobs = memo(move || {
        session.heads.with(|all| all.iter().filter(|h| h.binned_ms.is_none()).cloned().collect::<Vec<_>>())
    });
    view! {
        <Head title="Put which job away?" back=Route::Jobs back_word="Jobs"/>
        <ul class="tickets">
            {list(move || jobs.get(), |h| (h.job, h.last_ms), |h| view! {
                <li>
                    <a class="ticket" data-away=h.job.to_string() data-state=if h.closed { "done" } else { "open" } href=format!("#/jobs/away/{}", h.job)>
                        <span class="ticket-name">{h.name.clone()}</span>
                        <span class="ticket-word">{kind(&h.machine).map_or("", |k| k.name)}{h.demo.then_some(", invented")}</span>
                    </a>
                </li>
            }.into_any())}
        </ul>
    }
}

/// Puts one job away.
#[component]
pub fn PutAwayScreen(job: Uuid) -> impl IntoView {
    let session = use_session();
    let head =
        memo(move || session.heads.with(|all| all.iter().find(|h| h.job == job && h.binned_ms.is_none()).cloned()));
    let held = RwSignal::new(None::<Tally>);
    let had = backed_up::load().get(&job).map(|l| l.had);
    let backed = move || held.get().is_some_and(|now| reminder(now, had).is_none());
    let typed = Draft::new(format!("away/{job}"), "");
    let asked = RwSignal::new(false);
    let trouble = RwSignal::new(None::<String>);
    spawn_local(async move {
        let Ok(store) = session.store() else { return };
        let found = parts(&store, Some(job)).await.ok().and_then(|p| p.first().map(|p| p.tally()));
        held.try_set(found);
    });
    let may = move || head.with(|h| h.as_ref().is_some_and(|h| bin::may_go(h, backed(), &typed.get())));
    let error = Signal::derive(move || {
        (asked.get() && !may()).then(|| format!("Type the word “{WORD}”, or the job's name."))
    });
    let put = move |_| {
        asked.set(true);
        if !untrack(may) {
            // The field may stand out of sight, and its answer with it.
            let field = window().document().and_then(|d| d.get_element_by_id("away-word"));
            if let Some(field) = field {
                let _ = field.unchecked_into::<web_sys::HtmlElement>().focus();
            }
            return;
        }
        spawn_local(async move {
            match session.put_away(job).await {
                Ok(()) => {
                    typed.clear();
                    go(Route::Bin);
                }
                Err(e) => drop(trouble.try_set(Some(e.words()))),
            }
        });
    };
    live(move || {
        let Some(h) = head.get() else {
            return view! {
                <Head title="Put a job away" back=Route::Jobs back_word="Jobs"/>
                <p>"This job is not in the list of jobs."</p>
            }
            .into_any();
        };
        let now = Utc::now().timestamp_millis();
        let asks = !h.demo && !bin::may_go(&h, backed(), "");
        let days = Bin::of(&crate::job::head::Head { binned_ms: Some(now), ..h.clone() }, now)
            .map_or(KEPT_DAYS, |b| b.days_left);
        view! {
            <Head title="Put this job away" back=Route::Jobs back_word="Jobs" over=h.name.clone()/>
            <p class="figure-large years-figure" data-id="away-holds">
                {live(move || held.get().map_or("Reading the job.".to_owned(), Tally::words))}
            </p>
            {match asks {
                true => view! {
                    <p class="why" data-id="away-why">
                        {live(move || held.get().and_then(|now| reminder(now, had)))}
                        " Once the bin has removed it, nothing brings it back."
                    </p>
                    <a class="button" data-id="backup" href=Route::Backup.address()>"Back up first"</a>
                    <Field label=format!("To do it without a backup, type “{WORD}” or the job's name") id="away-word" draft=typed error/>
                }.into_any(),
                false => view! {
                    <p data-id="away-backed">{if h.demo { "It is the invented example." } else { "The last backup has all of it." }}</p>
                }.into_any(),
            }}
            <p>{format!("It goes into the bin and can be brought back for {days} days. Then this phone removes it with its photos.")}</p>
            {live(move || trouble.get().map(|t| view! { <p class="bad" role="alert">{t}</p> }))}
            <div class="main-action"><button type="button" class="main" data-id="put-away" on:click=tap(put)>"Put in the bin"</button></div>
        }
        .into_any()
    })
}
