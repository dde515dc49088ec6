//! One area over all stages: what stays bare, how each stage stands, photos and notes.
//!
//! May use: the job, the kinds. Must not: hold a rule.

use crate::app::parts::live::{live, memo, said};
use leptos::prelude::*;

use super::stage::{state, word};
use crate::app::parts::head::Head;
use crate::app::parts::kept::{KeptList, Of};
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::job::entry::AreaId;
use crate::job::kinds::kind;
use crate::job::stage::Stage;

/// One area over all stages.
#[component]
pub fn AreaScreen(area: AreaId) -> impl IntoView {
    let session = use_session();
    let name = Signal::derive(move || session.job(|j| j.area_name(area).to_owned()));
    let of_kind = move || session.job(|j| kind(&j.machine)?.area(&j.area(area)?.of));
    view! {
        <Head title=name back=Route::Machine back_word="Machine"/>
        {live(move || {
            of_kind()
                .filter(|a| !a.bare.is_empty())
                .map(|a| {
                    view! {
                        <section class="keep-bare">
                            <h2>"Stays bare here"</h2>
                            <ul class="plain">{a.bare.iter().map(|b| view! { <li>{*b}</li> }).collect_view()}</ul>
                        </section>
                    }
                })
        })}
        <h2>"Stages"</h2>
        <ul class="tickets">
            {Stage::ALL
                .into_iter()
                .map(|s| {
                    let cell = memo(move || {
                        session.job(|j| j.area(area).map(|a| a.cell(s).clone()).unwrap_or_default())
                    });
                    view! {
                        <li>
                            <a class="ticket" href=Route::StageArea(s, area).address() data-state=said(move || state(&cell.get()))>
                                <span class="ticket-name">{s.number()}" "{s.title()}</span>
                                <span class="ticket-word">{live(move || word(&cell.get()))}</span>
                            </a>
                        </li>
                    }
                })
                .collect_view()}
        </ul>
        <a class="button" data-id="area-plan" href=format!("#/plan/area/{}", area.0)>"Its surface, for the plan"</a>
        <h2>"Photos and notes"</h2>
        <KeptList of=Signal::derive(move || Of { stage: None, area: Some(area), bag: None })/>
    }
}
