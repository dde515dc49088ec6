//! The record: the timeline of the log, the phone's storage, the way out as a file; from here to the report and to before
//! and after.
//!
//! May use: the log. Must not: change what the log says.

pub mod compare;
mod pick;
pub mod report;
mod timeline;

use crate::app::parts::live::{live, memo, tap};
use leptos::prelude::*;

use wasm_bindgen_futures::spawn_local;

use crate::app::route::Route;
use crate::app::screens::keep::Reminder;
use crate::app::session::use_session;
use crate::device::file;
use crate::device::stay::{self, Stays};

/// The record of the open job.
#[component]
pub fn Record() -> impl IntoView {
    let session = use_session();
    let save = move |_| {
        let _ = file::save_text("coatwalk-log.txt", "text/plain", &session.raw_lines());
    };
    view! {
        <header class="head"><h1>"Record"</h1></header>
        <div class="row">
            <a class="button" data-id="report" href="#/record/report">"Report"</a>
            <a class="button" data-id="compare" href="#/record/compare">"Before and after"</a>
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
        <timeline::Timeline/>
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
