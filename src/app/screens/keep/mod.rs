//! Keeping it: the backup, and bringing one in.
//!
//! May use: [`crate::app::desk::backup`], [`crate::app::desk::bring`], the parts. Must not: know a file's format.

pub mod backup;
pub mod bring;
mod room;
mod swap;

use leptos::prelude::*;
use uuid::Uuid;
use wasm_bindgen_futures::spawn_local;

use self::backup::{Progress, State};
use crate::app::desk::backup::parts;
use crate::app::parts::live::{live, memo};
use crate::app::session::{Session, use_session};
use crate::share::tally::{Tally, reminder};
use crate::store::backed_up;

/// What the open job has that its last backup has not.
#[component]
pub fn Reminder(
    /// A backup in the making: when it is handed over, the reminder goes.
    #[prop(optional)]
    making: Option<Progress>,
) -> impl IntoView {
    let session = use_session();
    let words = RwSignal::new(None::<String>);
    let changed = memo(move || session.log(|l| (l.job().id, l.job().demo, l.len())));
    Effect::new(move || {
        let (Some(job), false, _) = changed.get() else { return };
        if making.is_some_and(|m| matches!(m.get(), State::Making(..))) {
            return;
        }
        spawn_local(async move {
            let said = of(session, job).await;
            words.try_set(said);
        });
    });
    live(move || words.get().map(|w| view! { <p class="backup-due" data-id="backup-due">{w}</p> }))
}

/// The reminder for a job.
pub async fn of(session: Session, job: Uuid) -> Option<String> {
    let store = session.store().ok()?;
    let parts = parts(&store, Some(job)).await.ok()?;
    reminder(parts.first()?.tally(), backed_up::load().get(&job).map(|l| l.had))
}

/// All of these together.
fn sum(tallies: impl IntoIterator<Item = Tally>) -> Tally {
    tallies.into_iter().fold(Tally::default(), Tally::and)
}
