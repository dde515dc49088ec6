//! A touch-up: a short job on this machine, on a few areas, with only the stages it needs.
//!
//! May use: `job::touch_up`. Must not: choose what may be left out.

use chrono::Utc;
use leptos::prelude::*;
use uuid::Uuid;
use wasm_bindgen_futures::spawn_local;

use super::cautions;
use crate::app::parts::head::Head;
use crate::app::parts::live::{live, said, tap};
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::app::shell::go;
use crate::job::entry::{AreaId, Entry, VERSION};
use crate::job::log::id_after;
use crate::job::stage::Stage;
use crate::job::touch_up;

/// Areas, stages, and the start.
#[component]
pub fn TouchUpScreen() -> impl IntoView {
    let session = use_session();
    let (areas, wanted) = session.peek(|l| {
        let job = l.job();
        (job.areas().map(|a| (a.id, a.name.clone())).collect::<Vec<_>>(), touch_up::wanted(job))
    });
    let picked = RwSignal::new(wanted);
    let left_out = RwSignal::new(touch_up::LEFT_OUT.to_vec());
    let asked = RwSignal::new(false);
    let trouble = RwSignal::new(None::<String>);
    let flip = move |id: AreaId| {
        picked.update(|all| match all.iter().position(|a| *a == id) {
            Some(i) => drop(all.remove(i)),
            None => all.push(id),
        });
    };
    let flip_stage = move |stage: Stage| {
        left_out.update(|all| match all.iter().position(|s| *s == stage) {
            Some(i) => drop(all.remove(i)),
            None => all.push(stage),
        });
    };
    let start = move |_| {
        asked.set(true);
        let (areas, left_out) = (picked.get_untracked(), left_out.get_untracked());
        let Some(whats) = session.peek(|l| touch_up::entries(l.job(), &areas, &left_out, Uuid::now_v7)) else {
            return;
        };
        let (job, at, mut newest) = (Uuid::now_v7(), Utc::now(), None);
        let by = session.prefs.with_untracked(|p| p.name.clone());
        let entry = |what| {
            let id = id_after(newest, Uuid::now_v7());
            newest = Some(id);
            Entry { v: VERSION, id, job, at, by: by.clone(), what }
        };
        let entries = whats.into_iter().map(entry).collect();
        spawn_local(async move {
            match session.open_new(entries).await {
                Ok(()) => go(Route::Today),
                Err(e) => drop(trouble.try_set(Some(e.words()))),
            }
        });
    };
    let area = move |(id, name): (AreaId, String)| {
        let on = move || picked.with(|p| p.contains(&id));
        view! {
            <li>
                <button type="button" class="ticket check" data-area=id.0.to_string() data-state=said(move || if on() { "done" } else { "open" })
                    aria-pressed=said(move || on().to_string()) on:click=tap(move |()| flip(id))>
                    <span class="box" aria-hidden="true"></span>
                    <span class="ticket-name">{name}</span>
                </button>
            </li>
        }
    };
    let stage = move |s: Stage| {
        let fixed = touch_up::ALWAYS.contains(&s);
        let out = move || left_out.with(|l| l.contains(&s));
        let word = move || match (fixed, out()) {
            (true, _) => "always in",
            (false, true) => "left out",
            (false, false) => "in",
        };
        view! {
            <li>
                <button type="button" class="ticket" data-stage=s.slug() data-state=said(move || if out() { "skipped" } else { "open" })
                    aria-pressed=said(move || (!out()).to_string()) disabled=fixed on:click=tap(move |()| flip_stage(s))>
                    <span class="ticket-name">{s.title()}</span>
                    <span class="ticket-word">{live(word)}</span>
                </button>
            </li>
        }
    };
    view! {
        <Head title="Touch-up" back=Route::Aftercare back_word="Aftercare" over=session.peek(|l| l.job().name.clone())/>
        <p class="figure-large years-figure" data-id="touch-up-size">
            {live(move || {
                let (areas, stages) = (picked.with(Vec::len), Stage::ALL.len() - left_out.with(Vec::len));
                format!("{areas} {}, {stages} stages", if areas == 1 { "area" } else { "areas" })
            })}
        </p>
        <p>"A new, short job on the same machine. Safety points and gates stand in it as ever."</p>
        {cautions(&["Touch-up is spraying", "rags"])}
        <h2>"Which areas?"</h2>
        <p class="quiet">"Ticked: what the last look found."</p>
        <ul class="tickets" data-id="touch-up-areas">{areas.into_iter().map(area).collect_view()}</ul>
        <h2>"Which stages?"</h2>
        <p class="quiet">"Left out at first is what a touch-up mostly does without: common practice, no source. Tap to change."</p>
        <ul class="tickets" data-id="touch-up-stages">{Stage::ALL.into_iter().map(stage).collect_view()}</ul>
        <div class="main-action">
            {live(move || (asked.get() && picked.with(Vec::is_empty)).then(|| view! {
                <p class="bad" role="alert" data-id="field-error">"Tick one area at least."</p>
            }))}
            {live(move || trouble.get().map(|t| view! { <p class="bad" role="alert">{t}</p> }))}
            <button type="button" class="main" data-id="touch-up-start" on:click=tap(start)>"Start the touch-up"</button>
        </div>
    }
}
