//! What stays bare, gone through before a pass; and the position of the arms.
//!
//! May use: the job, the kinds. Must not: hold a rule; the gates `keep-bare` and `arms-locked` do.

use crate::app::parts::live::{live, memo, tap};
use leptos::prelude::*;

use super::choice::choice;
use crate::app::session::use_session;
use crate::job::entry::{AreaId, POSITIONS, What};
use crate::job::gate;
use crate::job::guide::{KEEP_BARE, KEEP_BARE_NOTE};
use crate::job::kinds::kind;
use crate::job::stage::Stage;

/// The keep-bare list of these areas; before a pass it is answered with one tap.
#[component]
pub fn BareList(stage: Stage, areas: Memo<Vec<AreaId>>) -> impl IntoView {
    let session = use_session();
    let asked = matches!(stage, Stage::FirstPass | Stage::SecondPass);
    let open = memo(move || {
        let areas = areas.get();
        session.job(|j| {
            let open = |id: &AreaId| j.area(*id).is_some_and(|a| asked && a.bare_seen(stage).is_none());
            areas.into_iter().filter(open).collect::<Vec<_>>()
        })
    });
    let own = move || {
        let areas = areas.get();
        session.job(|j| {
            let of = |id: &AreaId| {
                let a = j.area(*id)?;
                let bare = kind(&j.machine)?.area(&a.of)?.bare;
                (!bare.is_empty()).then(|| format!("{}: {}", a.name, bare.join(", ")))
            };
            areas.iter().filter_map(of).collect::<Vec<_>>()
        })
    };
    let seen = move |_| session.write(What::BareSeen { stage, areas: open.get_untracked() });
    view! {
        <section data-id="bare">
            <h2>"Keep bare"</h2>
            <ul class="plain">{live(move || own().into_iter().map(|l| view! { <li>{l}</li> }).collect_view())}</ul>
            <details class="more">
                <summary>"On every machine"</summary>
                <ul>{KEEP_BARE.iter().map(|l| view! { <li>{*l}</li> }).collect_view()}</ul>
                <p class="quiet">{KEEP_BARE_NOTE}</p>
            </details>
            {live(move || match open.with(Vec::is_empty) {
                true => asked.then(|| view! { <p class="quiet">"Answered: covered, or left bare."</p> }).into_any(),
                false => view! { <button type="button" class="work" data-id="bare-seen" on:click=tap(seen)>"All covered or left bare"</button> }.into_any(),
            })}
        </section>
    }
}

/// Where the arms stand, and what keeps them there.
#[component]
pub fn Arms() -> impl IntoView {
    let session = use_session();
    let now = move || session.job(|j| j.arms.as_ref().and_then(|(_, p)| POSITIONS.iter().position(|x| x == p)));
    view! {
        <Locked/>
        {choice("Arms stand at position", &POSITIONS, now, move |i| session.write(What::Arms { position: POSITIONS[i].into() }))}
    }
}

/// Engine and hydraulics are locked while an intake cover or foil is on.
#[component]
pub fn Locked() -> impl IntoView {
    let session = use_session();
    let why = memo(move || session.job(|j| gate::arms_locked(j).into_iter().next().map(|h| h.because)));
    live(move || why.get().map(|w| view! { <p class="why" data-id="locked"><strong>"Locked: "</strong>{w}"."</p> }))
}
