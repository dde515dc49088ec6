//! The backup: what is not in one yet, making one, handing it over, and what the phone keeps.
//!
//! May use: [`backup`], the share sheet, the downloads. Must not: call a file kept that only the browser holds.

use chrono::Utc;
use leptos::prelude::*;
use uuid::Uuid;
use wasm_bindgen_futures::spawn_local;

use super::room::Room;
use super::swap::Swap;
use super::{Reminder, sum};
use crate::app::clocks::local;
use crate::app::desk::backup::{self, MIME, Made, Part};
use crate::app::desk::planning::day;
use crate::app::parts::head::Head;
use crate::app::parts::live::{live, memo, tap};
use crate::app::route::Route;
use crate::app::session::{Session, use_session};
use crate::device::bytes::{self, Shared};
use crate::device::file;
use crate::share::tally::{counted, file_name, megabytes};
use crate::store::backed_up;

/// How far it is.
#[derive(Clone)]
pub enum State {
    Idle,
    /// So many photos of so many are in it.
    Making(usize, usize),
    Ready(Ready),
    Failed(String),
}

/// A finished file.
#[derive(Clone)]
pub struct Ready {
    name: String,
    made: Made,
    /// It goes onto the share sheet.
    sheet: Option<web_sys::File>,
    /// What became of it.
    handed: Option<&'static str>,
}

/// The signal a backup in the making is shown through.
pub type Progress = RwSignal<State, LocalStorage>;

const SAVED: &str = "Handed to the downloads.";
const SHARED: &str = "Handed to another app.";

/// The screen.
#[component]
pub fn Backup() -> impl IntoView {
    let session = use_session();
    let state: Progress = RwSignal::new_local(State::Idle);
    let job = memo(move || session.job(|j| j.id.map(|id| (id, j.name.clone()))));
    let last = move || {
        let (id, _) = job.get()?;
        // Told anew when one is made.
        state.track();
        backed_up::load()
            .get(&id)
            .map(|l| local(chrono::DateTime::from_timestamp_millis(l.at_ms).unwrap_or_default()))
    };
    view! {
        <Head title="Backup" back=Route::Record back_word="Record"/>
        <Reminder making=state/>
        {live(move || last().map(|when| view! { <p data-id="backup-last">"Last backup of this job: " {when} "."</p> }))}
        <p class="quiet">"One file with jobs, photos and products. It opens without this app too. Keep it somewhere else than on this phone."</p>
        <Making state/>
        {live(move || (!matches!(state.get(), State::Making(..))).then(|| view! {
            {job.get().map(|(id, name)| view! {
                <button type="button" class="work" data-id="backup-job" on:click=tap(move |_| start(session, state, Some((id, name.clone()))))>
                    "Back up this job"
                </button>
            })}
            <button type="button" class="work" data-id="backup-all" on:click=tap(move |_| start(session, state, None))>
                "Back up everything"
            </button>
        }))}
        <div class="row"><a class="button" data-id="bring" href=Route::Bring.address()>"Bring in a backup"</a></div>
        <Room/>
        <Swap state/>
    }
}

fn start(session: Session, state: Progress, only: Option<(Uuid, String)>) {
    if matches!(state.get_untracked(), State::Making(..)) {
        return;
    }
    state.set(State::Making(0, 0));
    spawn_local(async move {
        let made = async {
            let store = session.store().map_err(|e| e.words())?;
            let parts = backup::parts(&store, only.as_ref().map(|o| o.0)).await.map_err(|e| e.words())?;
            // The shelf is the phone's: it goes with everything, not with one job.
            let shelf = if only.is_some() { vec![] } else { store.shelf().await.map_err(|e| e.words())? };
            write(session, state, parts, shelf, only.as_ref().map(|o| o.1.as_str())).await
        };
        if let Err(why) = made.await {
            state.try_set(State::Failed(why));
        }
    });
}

/// Makes the file of these parts and offers it.
pub async fn write(
    session: Session,
    state: Progress,
    parts: Vec<Part>,
    shelf: Vec<String>,
    what: Option<&str>,
) -> Result<(), String> {
    let store = session.store().map_err(|e| e.words())?;
    let now = Utc::now();
    let made = backup::make(&store, &parts, &shelf, now, |n, of| {
        state.try_set(State::Making(n, of));
    })
    .await?;
    let name = file_name(&day(now).to_string(), what);
    let sheet = bytes::named(&made.blob, &name, MIME).filter(bytes::can_share);
    let mut ready = Ready { name, made, sheet, handed: None };
    // The share sheet opens from a tap only, and this one may be long ago; a download needs none.
    if ready.sheet.is_none() {
        save(&mut ready)?;
    }
    state.try_set(State::Ready(ready));
    Ok(())
}

fn save(ready: &mut Ready) -> Result<(), String> {
    file::save(&ready.name, &ready.made.blob)?;
    handed(ready, SAVED);
    Ok(())
}

fn handed(ready: &mut Ready, how: &'static str) {
    ready.handed = Some(how);
    backed_up::note(&ready.made.jobs, Utc::now().timestamp_millis());
}

/// A backup in the making, and the finished one.
#[component]
fn Making(state: Progress) -> impl IntoView {
    let give = move |act: fn(&mut Ready) -> Result<(), String>| {
        let State::Ready(mut ready) = state.get_untracked() else { return };
        let done = act(&mut ready);
        state.set(done.map_or_else(State::Failed, |()| State::Ready(ready)));
    };
    let share = move |_| {
        let State::Ready(mut ready) = state.get_untracked() else { return };
        let Some(sheet) = ready.sheet.clone() else { return };
        spawn_local(async move {
            let done = match bytes::share(&sheet).await {
                Shared::Yes => {
                    handed(&mut ready, SHARED);
                    Ok(())
                }
                Shared::GivenUp => return,
                // Some browsers open the sheet for a ZIP file only to refuse it.
                Shared::Refused => {
                    ready.sheet = None;
                    save(&mut ready)
                }
            };
            state.try_set(done.map_or_else(State::Failed, |()| State::Ready(ready)));
        });
    };
    live(move || match state.get() {
        State::Idle => ().into_any(),
        State::Failed(why) => view! { <p class="bad" role="alert" data-id="backup-failed">{why}</p> }.into_any(),
        State::Making(n, of) => view! {
            <p class="figure-large keep-said" role="status" data-id="backup-progress">
                {if of == 0 { "Reading the record".to_owned() } else { format!("Photo {n} of {of}") }}
            </p>
        }
        .into_any(),
        State::Ready(ready) => {
            let tally = sum(ready.made.jobs.iter().map(|(_, t)| *t));
            let (bytes, missing) = (ready.made.blob.size(), ready.made.missing);
            let has_sheet = ready.sheet.is_some();
            view! {
                <section class="answer column" role="status" data-id="backup-ready">
                    <p class="figure-large keep-said">{ready.handed.unwrap_or("The backup is made. Hand it over now.")}</p>
                    <p data-id="backup-name">{ready.name.clone()}</p>
                    <p>
                        {counted(ready.made.jobs.len(), "job", "jobs")} ", " {tally.words()} ", " {megabytes(bytes)} "."
                    </p>
                    {(missing > 0).then(|| view! {
                        <p class="why">{counted(missing, "photo is", "photos are")} " named in the record but not on this phone."</p>
                    })}
                    {has_sheet.then(|| view! {
                        <button type="button" class="work" data-id="backup-share" on:click=tap(share)>"Share it"</button>
                    })}
                    <button type="button" data-id="backup-save" on:click=tap(move |_| give(save))>
                        {if ready.handed == Some(SAVED) { "Save it once more" } else { "Save it in the downloads" }}
                    </button>
                </section>
            }
            .into_any()
        }
    })
}
