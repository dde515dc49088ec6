//! The look at the film: area by area good, or to be touched up.
//!
//! May use: the job. Must not: judge; the person who looks does.

use std::collections::BTreeMap;

use leptos::prelude::*;

use super::cautions;
use crate::app::parts::field::{Draft, Field};
use crate::app::parts::head::Head;
use crate::app::parts::live::{list, live, memo, said, tap};
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::app::shell::go;
use crate::device::window;
use crate::job::aftercare::{Sort, look_note};
use crate::job::entry::{AreaId, What};

/// The look.
#[component]
pub fn LookScreen() -> impl IntoView {
    let session = use_session();
    let areas = memo(move || session.job(|j| j.areas().map(|a| (a.id, a.name.clone())).collect::<Vec<_>>()));
    // Good, or to be touched up; not looked at when it is not there.
    let seen = RwSignal::new(BTreeMap::<AreaId, bool>::new());
    let note = Draft::new(format!("look/{:?}", session.peek(|l| l.job().id)), "");
    let asked = RwSignal::new(false);
    let all_good = move |_| {
        let all = areas.get_untracked();
        seen.update(|s| all.into_iter().for_each(|(id, _)| _ = s.entry(id).or_insert(true)));
    };
    let done = move |_| {
        asked.set(true);
        let seen = seen.get_untracked();
        if seen.is_empty() {
            return;
        }
        let worn: Vec<AreaId> = seen.iter().filter(|(_, good)| !**good).map(|(id, _)| *id).collect();
        let unseen: Vec<String> = areas
            .get_untracked()
            .into_iter()
            .filter(|(id, _)| !seen.contains_key(id))
            .map(|(_, name)| name)
            .collect();
        let touch_up = !worn.is_empty();
        let what = What::Looked {
            sort: Sort::Look.word().into(),
            areas: worn,
            note: look_note(note.peek().trim(), &unseen),
        };
        session.write_with(what, None, move |_| {
            note.clear();
            match touch_up {
                true => drop(window().location().set_hash("#/aftercare/touch-up")),
                false => go(Route::Aftercare),
            }
        });
    };
    let chip = move |id: AreaId, good: bool, word: &'static str| {
        let pressed = said(move || seen.with(|s| s.get(&id) == Some(&good)).to_string());
        let take = move |_| seen.update(|s| _ = s.insert(id, good));
        view! { <button type="button" class="chip work" data-choice=word aria-pressed=pressed on:click=tap(take)>{word}</button> }
    };
    view! {
        <Head title="Look at the film" back=Route::Aftercare back_word="Aftercare" over=session.peek(|l| l.job().name.clone())/>
        <p class="figure-large years-figure" data-id="look-left">
            {live(move || format!("{} of {} looked at", seen.with(BTreeMap::len), areas.with(Vec::len)))}
        </p>
        {cautions(&["climb", "arm", "Arm"])}
        <p>"Dry off, torch, underneath too. Look at edges, bolt heads, where a foot or a chain rubs. Scratched, rusty or bare: touch up."</p>
        <ul class="tickets look-list" data-id="look-areas">
            {list(move || areas.get(), |a| a.clone(), move |(id, name)| view! {
                <li class="ticket" data-area=id.0.to_string() data-state=said(move || match seen.with(|s| s.get(&id).copied()) {
                    Some(true) => "done",
                    Some(false) => "again",
                    None => "open",
                })>
                    <span class="ticket-name">{name}</span>
                    <div class="chips">{chip(id, true, "Good")}{chip(id, false, "Touch up")}</div>
                </li>
            }.into_any())}
        </ul>
        <button type="button" class="work" data-id="look-rest-good" on:click=tap(all_good)>"All the rest: good"</button>
        <Field label="Note" id="look-note" draft=note hint="For example: step edge, left side"/>
        <div class="main-action">
            {live(move || (asked.get() && seen.with(BTreeMap::is_empty)).then(|| view! {
                <p class="bad" role="alert" data-id="field-error">"Say of one area at least how it is."</p>
            }))}
            <button type="button" class="main" data-id="look-done" on:click=tap(done)>"Look done"</button>
        </div>
    }
}
