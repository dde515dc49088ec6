//! What was found on an area: written down on the walk round, dealt with later.
//!
//! May use: findings, the sum of two metals. Must not: judge.

use leptos::prelude::*;
use uuid::Uuid;

use crate::app::parts::field::{Draft, Field};
use crate::app::parts::head::Head;
use crate::app::parts::live::{list, live, memo, said, tap};
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::job::entry::{AreaId, Finding, What};
use crate::job::stage::Stage;
use crate::sums::galvanic::{METALS, by_slug, difference};

/// The findings of one area.
#[component]
pub fn FoundScreen(area: AreaId) -> impl IntoView {
    let session = use_session();
    let name = session.peek(|l| l.job().area_name(area).to_owned());
    let ids = memo(move || {
        session.job(|j| j.found.iter().rev().filter(|f| f.area == area).map(|f| f.id).collect::<Vec<_>>())
    });
    view! {
        <Head title="Found here" back=Route::StageArea(Stage::Survey, area) back_word="Survey" over=name/>
        <NewFinding area/>
        {live(move || (!ids.with(Vec::is_empty)).then(|| view! { <h2>"Written down"</h2> }))}
        <ul class="tickets" data-id="findings">{list(move || ids.get(), |id| *id, |id| view! { <OneFinding id/> }.into_any())}</ul>
    }
}

#[component]
fn NewFinding(area: AreaId) -> impl IntoView {
    let session = use_session();
    let sort = RwSignal::new(None::<Finding>);
    let text = Draft::new(format!("found/{}", area.0), "");
    let metals = RwSignal::new(Vec::<&'static str>::new());
    let asked = RwSignal::new(false);
    let pick = move |slug: &'static str| {
        metals.update(|m| match m.iter().position(|x| *x == slug) {
            Some(i) => {
                m.remove(i);
            }
            None => {
                m.push(slug);
                // A pair: the one chosen first goes.
                let more = m.len().saturating_sub(2);
                m.drain(..more);
            }
        });
    };
    let pair = move || {
        let m = metals.get();
        let (a, b) = (by_slug(m.first()?)?, by_slug(m.get(1)?)?);
        Some(difference(a, b))
    };
    let keep = move |_| {
        asked.set(true);
        let Some(sort) = sort.get_untracked() else { return };
        let metals_now = if sort == Finding::MixedMetals { metals.get_untracked() } else { Vec::new() };
        let what = What::Found {
            area,
            sort,
            text: text.peek().trim().to_owned(),
            metals: metals_now.into_iter().map(String::from).collect(),
        };
        session.write_with(what, None, move |_| {
            text.clear();
            metals.try_set(Vec::new());
            asked.try_set(false);
        });
    };
    let chip = move |f: Finding| {
        let pressed = said(move || (sort.get() == Some(f)).to_string());
        view! { <button type="button" class="chip" data-choice=f.word() aria-pressed=pressed on:click=tap(move |_| sort.set(Some(f)))>{f.title()}</button> }
    };
    view! {
        <fieldset>
            <legend>"What is it?"</legend>
            <div class="chips">{Finding::ALL.into_iter().map(chip).collect_view()}</div>
            {live(move || (asked.get() && sort.get().is_none()).then(|| view! { <p class="bad" data-id="field-error">"Tap what it is."</p> }))}
        </fieldset>
        {live(move || (sort.get() == Some(Finding::MixedMetals)).then(|| view! {
            <fieldset data-id="metals">
                <legend>"Which two metals touch?"</legend>
                <div class="chips">
                    {METALS.iter().map(|m| {
                        let pressed = said(move || metals.with(|all| all.contains(&m.slug)).to_string());
                        view! { <button type="button" class="chip" data-choice=m.slug aria-pressed=pressed on:click=tap(move |_| pick(m.slug))>{m.name}</button> }
                    }).collect_view()}
                </div>
                {live(move || pair().map(|p| view! {
                    <div class="answer column" data-id="pair">
                        <p class="figure-large">{format!("{:.2} V apart", p.volts)}</p>
                        <p>{p.place.words()}". "{p.lesser.map(|m| format!("{} is eaten. Coat both, the nobler one too.", m.name))}</p>
                        <p class="quiet">"Anodic index, after MIL-STD-889; figures from memory."</p>
                    </div>
                }))}
            </fieldset>
        }))}
        <Field label="Where, and what you see" id="found-text" draft=text hint="For example: left rail, under the step"/>
        <div class="main-action"><button type="button" class="main" data-id="found-keep" on:click=tap(keep)>"Write it down"</button></div>
    }
}

#[component]
fn OneFinding(id: Uuid) -> impl IntoView {
    let session = use_session();
    let it = memo(move || session.job(|j| j.found.iter().find(|f| f.id == id).cloned()));
    let how = Draft::new(format!("dealt/{id}"), "");
    let asked = RwSignal::new(false);
    let error = Signal::derive(move || {
        (asked.get() && how.get().trim().is_empty()).then(|| "Say what was done: a few words are enough.".to_string())
    });
    let deal = move |_| {
        asked.set(true);
        let how_now = how.peek().trim().to_owned();
        if !how_now.is_empty() {
            session.write_with(What::DealtWith { finding: id, how: how_now }, None, move |_| how.clear());
        }
    };
    live(move || {
        let f = it.get()?;
        let state = if f.dealt.is_some() { "done" } else { "open" };
        let when = f
            .sort
            .stage()
            .map_or("shown on every pass list".into(), |s| format!("to be dealt with in {}", s.title()));
        Some(view! {
            <li class="ticket" data-state=state data-finding=f.sort.word()>
                <span class="ticket-name">{f.words()}</span>
                {match f.dealt {
                    Some((_, how)) => view! { <span class="ticket-word">{format!("dealt with: {how}")}</span> }.into_any(),
                    None => view! {
                        <span class="ticket-word">{when}</span>
                        <Field label="What was done" id="dealt-how" draft=how error hint="For example: scraped, primed"/>
                        <button type="button" class="work" data-id="dealt" on:click=tap(deal)>"Dealt with"</button>
                    }.into_any(),
                }}
            </li>
        })
    })
}
