//! The record: the log as it grew, newest first; the phone's storage; the way out as a file.
//!
//! May use: the log, [`tell`]. Must not: change what the log says.

use crate::app::parts::live::{list, live, memo, tap};
use leptos::prelude::*;

use wasm_bindgen_futures::spawn_local;

use crate::app::clocks::local;
use crate::app::parts::kept::Shown;
use crate::app::route::Route;
use crate::app::screens::keep::Reminder;
use crate::app::session::use_session;
use crate::device::file;
use crate::device::stay::{self, Stays};
use crate::job::entry::What;
use crate::job::tell::tell;

/// How many lines are drawn at first; more on request.
const FIRST: usize = 60;

/// The record of the open job.
#[component]
pub fn Record() -> impl IntoView {
    let session = use_session();
    let shown = RwSignal::new(FIRST);
    let lines = memo(move || {
        let most = shown.get();
        session.log(|log| {
            let undone = log.undone();
            log.entries()
                .rev()
                .take(most)
                .map(|e| {
                    let picture = if let What::Photo { photo, .. } = &e.what { Some(*photo) } else { None };
                    (e.id, e.at, e.by.clone(), tell(log.job(), e), undone.contains(&e.id), picture)
                })
                .collect::<Vec<_>>()
        })
    });
    let total = move || session.log(|l| l.len());
    let save = move |_| {
        let _ = file::save_text("coatwalk-log.txt", "text/plain", &session.raw_lines());
    };
    view! {
        <header class="head"><h1>"Record"</h1></header>
        <div class="row">
            <a class="button" data-id="backup" href=Route::Backup.address()>"Back up"</a>
            <a class="button" data-id="bring" href=Route::Bring.address()>"Bring in"</a>
            <button type="button" data-id="save-log" on:click=tap(save)>"Save the log as a file"</button>
            <a class="button" data-id="close" href=Route::Close.address()>"Close the job"</a>
            <a class="button" data-id="settings" href=Route::Settings.address()>"Settings"</a>
            <a class="button" href=Route::Jobs.address()>"Jobs"</a>
        </div>
        <Reminder/>
        <Kept/>
        <Problems/>
        <ol class="timeline" data-id="timeline">
            {list(move || lines.get(), |l| (l.0, l.4), move |l| view! { <li data-entry=l.0.to_string() data-marked=l.3.marked.then_some("yes") data-undone=l.4.then_some("yes")>
                    <time>{local(l.1)}</time>
                    {(!l.2.is_empty()).then(|| view! { <span class="by">{l.2.clone()}</span> })}
                    <p class="timeline-head">{l.3.head.clone()}{l.4.then_some(" (taken back)")}</p>
                    {(!l.3.rest.is_empty()).then(|| view! { <p class="timeline-rest">{l.3.rest.clone()}</p> })}
                    {l.5.map(|photo| view! { <Shown photo/> })}
                </li> }.into_any())}
        </ol>
        {live(move || {
            (total() > shown.get())
                .then(|| {
                    view! {
                        <button type="button" on:click=tap(move |_| shown.update(|n| *n += FIRST))>
                            {format!("Show earlier entries ({} more)", total() - shown.get())}
                        </button>
                    }
                })
        })}
    }
}

/// Whether the phone will keep it, and how much room there is.
#[component]
fn Kept() -> impl IntoView {
    let session = use_session();
    let room = RwSignal::new(None::<(f64, f64)>);
    spawn_local(async move {
        let said = stay::room().await;
        room.try_set(said);
    });
    view! {
        <p class="quiet" data-id="stays">
            {live(move || match session.stays.get() {
                Stays::Yes => "The browser will not clear this on its own.",
                Stays::Maybe => "The browser may clear this when the phone runs short of room. Make a backup.",
                Stays::Unknown => "The browser has not said whether it keeps this for good. Make a backup.",
            })}
            {live(move || room.get().map(|(used, _)| format!(" Used: {:.1} MB.", used / 1e6)))}
        </p>
    }
}

/// Lines that can't be used, named: they are kept and stop nothing.
#[component]
fn Problems() -> impl IntoView {
    let session = use_session();
    let all = memo(move || {
        session.log(|l| {
            let unread = l.unread().iter().map(|u| u.why.clone());
            let odd = l.job().problems.iter().map(|p| p.why.clone());
            unread.chain(odd).collect::<Vec<_>>()
        })
    });
    live(move || {
        (!all.with(Vec::is_empty)).then(|| {
            view! {
                <details class="more" data-id="problems">
                    <summary>{format!("{} lines could not be used. They are kept.", all.with(Vec::len))}</summary>
                    <ul>{all.get().into_iter().map(|w| view! { <li>{w}</li> }).collect_view()}</ul>
                </details>
            }
        })
    })
}
