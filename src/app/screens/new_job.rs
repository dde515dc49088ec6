//! Opening a job: the kind of machine, a name, its areas.

use crate::app::parts::live::{live, said, tap};
use chrono::Utc;
use leptos::prelude::*;

use uuid::Uuid;
use wasm_bindgen_futures::spawn_local;

use crate::app::parts::drawing::kind_picture;
use crate::app::parts::field::{Draft, Field};
use crate::app::parts::head::Head;
use crate::app::route::Route;
use crate::app::session::{Session, use_session};
use crate::app::shell::go;
use crate::job::entry::{AreaId, AreaSeed, Entry, VERSION, What};
use crate::job::example;
use crate::job::kinds::{KINDS, Kind, kind};
use crate::job::log::id_after;
use crate::store::StoreError;

/// The longest name, characters.
const LONGEST_NAME: usize = 80;

/// Pick a kind, give a name, go through the areas.
#[component]
pub fn NewJob() -> impl IntoView {
    let picked = RwSignal::new(None::<&'static str>);
    view! {
        {live(move || match picked.get().and_then(kind) {
            None => view! { <PickKind picked/> }.into_any(),
            Some(k) => view! { <NameIt k picked/> }.into_any(),
        })}
    }
}

#[component]
fn PickKind(picked: RwSignal<Option<&'static str>>) -> impl IntoView {
    view! {
        <Head title="What machine?" back=Route::Today back_word="Back" over="New job, 1 of 2"/>
        <ul class="tickets">
            {KINDS
                .iter()
                .map(|k| {
                    view! {
                        <li>
                            <button type="button" class="ticket with-picture" data-id=format!("kind-{}", k.id) on:click=tap(move |_| picked.set(Some(k.id)))>
                                {kind_picture(k)} <span class="ticket-name">{k.name}</span>
                            </button>
                        </li>
                    }
                })
                .collect_view()}
        </ul>
        <p class="quiet">"None fits? Take the nearest one: every area can be renamed, removed or added."</p>
    }
}

#[component]
fn NameIt(k: &'static Kind, picked: RwSignal<Option<&'static str>>) -> impl IntoView {
    let session = use_session();
    let name = Draft::new(format!("new-job/{}", k.id), "");
    let asked = RwSignal::new(false);
    let trouble = RwSignal::new(None::<String>);
    let error = Signal::derive(move || {
        let n = name.get();
        if n.chars().count() > LONGEST_NAME {
            return Some(format!("At most {LONGEST_NAME} characters, please; these are {}.", n.chars().count()));
        }
        (asked.get() && n.trim().is_empty()).then(|| "Give the job a name you will know it by.".to_string())
    });
    let left_out = RwSignal::new(Vec::<&'static str>::new());
    let flip = move |id: &'static str| {
        left_out.update(|l| match l.iter().position(|x| *x == id) {
            Some(i) => {
                l.remove(i);
            }
            None if l.len() + 1 < k.areas.len() => l.push(id),
            None => {}
        });
    };
    let open = move |then: Route| {
        asked.set(true);
        if error.get_untracked().is_some() || name.peek().trim().is_empty() {
            return;
        }
        let seeds = k
            .areas
            .iter()
            .filter(|a| left_out.with_untracked(|l| !l.contains(&a.id)))
            .map(|a| AreaSeed { id: AreaId(Uuid::now_v7()), of: a.id.into(), name: a.name.into() })
            .collect();
        let what = What::Opened { name: name.peek().trim().into(), machine: k.id.into(), seeds, demo: false };
        let entry = Entry {
            v: VERSION,
            id: Uuid::now_v7(),
            job: Uuid::now_v7(),
            at: Utc::now(),
            by: session.prefs.with_untracked(|p| p.name.clone()),
            what,
        };
        spawn_local(async move {
            match session.open_new(vec![entry]).await {
                Ok(()) => {
                    name.clear();
                    go(then);
                }
                Err(e) => trouble.set(Some(e.words())),
            }
        });
    };
    view! {
        <header class="head">
            <button type="button" class="back" on:click=tap(move |_| picked.set(None))>
                <svg viewBox="0 0 24 24" class="sign" aria-hidden="true"><path d="M15 4l-8 8 8 8"/></svg>
                "Another machine"
            </button>
            <p class="over">"New job, 2 of 2"</p>
            <h1>{k.name}</h1>
        </header>
        <Field label="Name of this job" id="job-name" draft=name error hint="For example: Grey spreader, autumn"/>
        <h2>"Its areas"</h2>
        <p class="quiet">"Tap out what your machine does not have. You can rename and add areas later."</p>
        <ul class="tickets">
            {k
                .areas
                .iter()
                .map(|a| {
                    let out = move || left_out.with(|l| l.contains(&a.id));
                    view! {
                        <li>
                            <button
                                type="button"
                                class="ticket"
                                data-state=said(move || if out() { "skipped" } else { "open" })
                                aria-pressed=said(move || if out() { "false" } else { "true" })
                                on:click=tap(move |_| flip(a.id))
                            >
                                <span class="ticket-name">{a.name}</span>
                                <span class="ticket-word">{live(move || if out() { "left out" } else { "in" })}</span>
                            </button>
                        </li>
                    }
                })
                .collect_view()}
        </ul>
        {live(move || trouble.get().map(|t| view! { <p class="bad" role="alert">{t}</p> }))}
        <div class="main-action beside">
            <button type="button" class="main second" data-id="open-plan" on:click=tap(move |_| open(Route::Plan))>"Open and plan"</button>
            <button type="button" class="main" data-id="open-job" on:click=tap(move |_| open(Route::Today))>"Open the job"</button>
        </div>
    }
}

/// Opens the invented example.
pub async fn open_demo(session: Session) -> Result<(), StoreError> {
    let job = Uuid::now_v7();
    let mut newest = None;
    let entries = example::entries(Utc::now(), Uuid::now_v7)
        .into_iter()
        .map(|(at, what)| {
            let id = id_after(newest, Uuid::now_v7());
            newest = Some(id);
            Entry { v: VERSION, id, job, at, by: String::new(), what }
        })
        .collect();
    session.open_new(entries).await
}
