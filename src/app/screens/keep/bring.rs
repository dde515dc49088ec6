//! Bringing a backup in: choose, check, look, then bring it in.
//!
//! May use: [`bring`]. Must not: write before the person has seen what would come.

use std::rc::Rc;

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Blob, HtmlInputElement};

use crate::app::clocks::local;
use crate::app::desk::bring::{self, Found, Outcome, Step};
use crate::app::desk::planning::use_planning;
use crate::app::parts::head::Head;
use crate::app::parts::live::{live, tap};
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::app::shell::go;
use crate::share::tally::{Tally, counted};

/// How far it is.
#[derive(Clone)]
enum State {
    Nothing,
    Busy(Step),
    Bad(String),
    Found(Rc<Found>),
    Done(Rc<Outcome>),
}

/// The screen.
#[component]
pub fn Bring() -> impl IntoView {
    let (session, planning) = (use_session(), use_planning());
    let state: RwSignal<State, LocalStorage> = RwSignal::new_local(State::Nothing);
    let busy = move || matches!(state.get(), State::Busy(_));
    let check = move |file: Blob| {
        state.set(State::Busy(Step::Checking(0, 0)));
        spawn_local(async move {
            let found = async {
                let store = session.store().map_err(|e| e.words())?;
                bring::check(&store, file, |step| _ = state.try_set(State::Busy(step))).await
            };
            state.try_set(found.await.map_or_else(State::Bad, |f| State::Found(Rc::new(f))));
        });
    };
    let picked = move |e: leptos::ev::Event| {
        let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) else { return };
        if let Some(file) = input.files().and_then(|l| l.get(0)) {
            check(file.into());
        }
    };
    let take_in = move |found: Rc<Found>| {
        if !matches!(state.get_untracked(), State::Found(_)) {
            return;
        }
        state.set(State::Busy(Step::Writing(0, 0)));
        spawn_local(async move {
            let jobs: Vec<_> = found.preview.jobs.iter().map(|j| j.job).collect();
            let done = async {
                let store = session.store().map_err(|e| e.words())?;
                bring::bring(&store, &found, |step| _ = state.try_set(State::Busy(step))).await
            }
            .await;
            // Also when it stopped half way: what came in is there.
            session.came_in(&jobs).await;
            planning.refresh();
            state.try_set(done.map_or_else(State::Bad, |o| State::Done(Rc::new(o))));
        });
    };
    view! {
        <Head title="Bring in" back=Route::Record back_word="Record"/>
        {live(move || match state.get() {
            State::Nothing => view! {
                <p class="aim">"A backup from this phone or another one. Nothing here is changed or replaced: what is new comes in beside it."</p>
            }.into_any(),
            State::Busy(step) => view! { <p class="figure-large keep-said" role="status" data-id="bring-progress">{progress(step)}</p> }.into_any(),
            State::Bad(why) => view! { <p class="bad" role="alert" data-id="bring-bad">{why}</p> }.into_any(),
            State::Found(found) => seen(&found),
            State::Done(outcome) => view! { <Came outcome/> }.into_any(),
        })}
        {live(move || (!busy()).then(|| view! {
            <label class="button work photo-button">
                {live(move || match state.get() {
                    State::Nothing | State::Bad(_) => "Choose a backup",
                    _ => "Choose another file",
                })}
                <input
                    type="file"
                    accept=".zip,application/zip,application/x-zip-compressed"
                    class="reader"
                    data-id="bring-file"
                    on:change=picked
                />
            </label>
        }))}
        {live(move || match state.get() {
            State::Found(found) if !found.is_empty() => view! {
                <div class="main-action">
                    <button type="button" class="main" data-id="bring-in" on:click=tap(move |_| take_in(found.clone()))>"Bring it in"</button>
                </div>
            }.into_any(),
            _ => ().into_any(),
        })}
    }
}

fn progress(step: Step) -> String {
    match step {
        Step::Checking(_, 0) => "Looking into the file".into(),
        Step::Checking(n, of) => format!("Checking file {n} of {of}"),
        Step::Writing(_, 0) => "Writing".into(),
        Step::Writing(n, of) => format!("Writing: {n} of {of}"),
    }
}

/// What would come in.
fn seen(found: &Found) -> AnyView {
    let mut words = found.preview.words();
    let (first, nothing) = (words.remove(0), found.is_empty());
    // Products alone are news too.
    let first = if found.preview.is_empty() && !nothing { "New products only.".into() } else { first };
    words.extend(found.products.words());
    let jobs = found.preview.jobs.iter().map(|j| {
        let name = if j.name.is_empty() { "A job without its first entry".to_owned() } else { j.name.clone() };
        view! {
            <li class="ticket" data-state="open" data-job=j.job.to_string()>
                <span class="ticket-name">{name}</span>
                <span class="ticket-word">{j.words()}</span>
            </li>
        }
    });
    let (jobs, stays_out) = (jobs.collect_view(), stays_out(found));
    view! {
        <section data-id="bring-preview">
            <p class="figure-large keep-said" data-id="bring-new">{first}</p>
            <ul class="plain" data-id="bring-words">{words.into_iter().map(|w| view! { <li>{w}</li> }).collect_view()}</ul>
            <ul class="tickets">{jobs}</ul>
            {stays_out}
        </section>
        {nothing.then(|| view! { <p data-id="bring-nothing">"There is nothing to bring in."</p> })}
    }
    .into_any()
}

/// The lines that stay out, as they are.
fn stays_out(found: &Found) -> Option<AnyView> {
    const MOST: usize = 20;
    let differs = found.preview.differs.iter().map(|d| format!("Here another: {}", d.theirs.raw));
    let unread = found.preview.unreadable.iter().map(|u| format!("Can't be read ({}): {}", u.why, u.raw));
    let lines: Vec<String> = differs.chain(unread).take(MOST).collect();
    (!lines.is_empty()).then(|| {
        let rows =
            lines.into_iter().map(|l| view! { <li class="raw">{l.chars().take(300).collect::<String>()}</li> });
        view! {
            <details class="more" data-id="bring-out">
                <summary>"Lines that stay out"</summary>
                <ul>{rows.collect_view()}</ul>
            </details>
        }
        .into_any()
    })
}

/// What came of it.
#[component]
fn Came(outcome: Rc<Outcome>) -> impl IntoView {
    let session = use_session();
    let trouble = RwSignal::new(None::<String>);
    let open = move |job| {
        spawn_local(async move {
            match session.load_brought(job).await {
                Ok(()) => go(Route::Today),
                Err(e) => trouble.set(Some(e.words())),
            }
        });
    };
    let conflicts: Vec<_> = outcome.conflicts.iter().map(|(c, log)| c.words(log.job(), local)).collect();
    let jobs = outcome.jobs.iter().map(|head| {
        let job = head.job;
        view! {
            <li>
                <button type="button" class="ticket" data-state="open" data-job=job.to_string() data-id="open-brought" on:click=tap(move |_| open(job))>
                    <span class="ticket-name">{head.name.clone()}</span>
                    <span class="ticket-word">"Open it"</span>
                </button>
            </li>
        }
    });
    let jobs = jobs.collect_view();
    view! {
        <section role="status" data-id="bring-done">
            <p class="figure-large keep-said">
                {Tally { entries: outcome.entries, photos: outcome.photos, ..Tally::default() }.words()} " came in."
            </p>
            {(outcome.products > 0).then(|| view! {
                <p>{counted(outcome.products, "product", "products")} " put on the shelf."</p>
            })}
        </section>
        {(!conflicts.is_empty()).then(|| view! {
            <section data-id="bring-conflicts">
                <h2>"Done on both phones"</h2>
                <ul class="plain">{conflicts.into_iter().map(|c| view! { <li class="why">{c}</li> }).collect_view()}</ul>
            </section>
        })}
        {live(move || trouble.get().map(|t| view! { <p class="bad" role="alert">{t}</p> }))}
        <ul class="tickets">{jobs}</ul>
    }
}
