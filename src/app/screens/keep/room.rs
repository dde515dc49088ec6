//! What the phone keeps: how much, how much more it could, for how long, job by job.
//!
//! May use: the store, `device::stay`. Must not: reckon.

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::app::desk::backup;
use crate::app::parts::live::{list, live, tap};
use crate::app::session::use_session;
use crate::device::stay::{self, Stays};
use crate::share::tally::{Tally, megabytes};

/// The room on this phone.
#[component]
pub fn Room() -> impl IntoView {
    let session = use_session();
    let room = RwSignal::new(None::<(f64, f64)>);
    let jobs = RwSignal::new(Vec::<(String, Tally, usize)>::new());
    spawn_local(async move {
        let said = stay::room().await;
        room.try_set(said);
        let Ok(store) = session.store() else { return };
        let Ok(parts) = backup::parts(&store, None).await else { return };
        let rows = parts.iter().map(|p| (p.name.clone(), p.tally(), p.missing.len())).collect();
        jobs.try_set(rows);
    });
    let ask = move |_| {
        spawn_local(async move { session.stays.set(stay::ask().await) });
    };
    view! {
        <h2>"Room on this phone"</h2>
        <p data-id="room">
            {live(move || match room.get() {
                Some((used, most)) => format!("Used: {}. Free: {}, as the browser says.", megabytes(used), megabytes((most - used).max(0.0))),
                None => "The browser does not say how much room there is.".into(),
            })}
        </p>
        <p data-id="stays">
            {live(move || match session.stays.get() {
                Stays::Yes => "The browser will not clear this on its own.",
                Stays::Maybe => "The browser may clear this when the phone runs short of room.",
                Stays::Unknown => "The browser has not said whether it keeps this for good.",
            })}
        </p>
        {live(move || (session.stays.get() != Stays::Yes).then(|| view! {
            <button type="button" data-id="ask-to-stay" on:click=tap(ask)>"Ask it to keep this"</button>
        }))}
        <ul class="plain room-jobs" data-id="room-jobs">
            {list(move || jobs.get(), |j| (j.0.clone(), j.1.entries, j.1.photos), |(name, tally, missing)| view! {
                <li>
                    <strong>{if name.is_empty() { "A job without its first entry".to_owned() } else { name }}</strong>
                    ": " {tally.words()}
                    {(tally.photos > 0).then(|| format!(", {}", megabytes(tally.photo_bytes as f64)))}
                    {(missing > 0).then(|| format!(", {missing} more photos are not on this phone"))}
                    "."
                </li>
            }.into_any())}
        </ul>
    }
}
