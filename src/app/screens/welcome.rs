//! The first start: two ways in.

use crate::app::parts::live::{live, tap};
use leptos::prelude::*;

use wasm_bindgen_futures::spawn_local;

use crate::app::route::Route;
use crate::app::screens::new_job;
use crate::app::session::use_session;
use crate::app::shell::go;

/// What this is, and where to begin.
#[component]
pub fn Welcome() -> impl IntoView {
    let session = use_session();
    let trouble = RwSignal::new(None::<String>);
    let look = move |_| {
        spawn_local(async move {
            match new_job::open_demo(session).await {
                Ok(()) => go(Route::Today),
                Err(e) => trouble.set(Some(e.words())),
            }
        });
    };
    let jobs = move || session.heads.with(|h| !h.is_empty());
    view! {
        <h1 class="name">"Coatwalk"</h1>
        <p class="lead">"Strip the machine, wash it, coat it against rust, and keep the record."</p>
        <p class="caution">
            "Solvent, flame, hot water and hydraulics can hurt you. The app advises; it certifies nothing. Safety data sheets, the machine's manual, local rules and licensed practice come first."
        </p>
        {live(move || trouble.get().map(|t| view! { <p class="bad" role="alert">{t}</p> }))}
        {live(move || jobs().then(|| view! { <a class="button" href=Route::Jobs.address()>"Jobs on this phone"</a> }))}
        <div class="main-action two welcome">
            <a class="button main" data-id="start-job" href=Route::NewJob.address()>"Start a job"</a>
            <button type="button" class="main second" data-id="look-round" on:click=tap(look)>"Look round the example job"</button>
            <a class="button main second" data-id="bring" href=Route::Bring.address()>"Bring in a backup"</a>
        </div>
    }
}
