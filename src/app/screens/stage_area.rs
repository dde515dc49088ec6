//! One stage on one area: done or left out with a reason, photo, note.
//!
//! May use: the gates, parts. Must not: hold a rule.

use crate::app::parts::live::{live, memo, tap};
use leptos::prelude::*;

use super::stage::{claimed, word};
use crate::app::parts::bare::BareList;
use crate::app::parts::coverings::Coverings;
use crate::app::parts::field::{Draft, Field};
use crate::app::parts::head::Head;
use crate::app::parts::holds::Holds;
use crate::app::parts::kept::KeepHere;
use crate::app::parts::stretches::Stretches;
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::app::shell::go;
use crate::job::entry::{AreaId, Covering, What};
use crate::job::gate;
use crate::job::guide::guide;
use crate::job::kinds::kind;
use crate::job::stage::Stage;

/// The screen.
#[component]
pub fn StageArea(stage: Stage, area: AreaId) -> impl IntoView {
    let session = use_session();
    let name = Signal::derive(move || session.job(|j| j.area_name(area).to_owned()));
    let cell = memo(move || session.job(|j| j.area(area).map(|a| a.cell(stage).clone()).unwrap_or_default()));
    let areas = memo(move || vec![area]);
    let holds = memo(move || {
        let now = session.now.get();
        if cell.get().settled() { Vec::new() } else { session.job(|j| gate::holds(j, stage, &[area], now)) }
    });
    let of_kind = move || session.job(|j| kind(&j.machine)?.area(&j.area(area)?.of));
    let parts = move || of_kind().map(|a| a.parts).filter(|l| stage == Stage::TakeOff && !l.is_empty());
    let done = move |_| {
        session.write_with(What::Done { stage, areas: vec![area] }, None, move |_| go(Route::Stage(stage)));
    };
    let leaving = RwSignal::new(false);
    let again = move |_| {
        session.write(What::OpenedAgain { stage, areas: vec![area], reason: "opened by hand".into() });
    };
    view! {
        <Head title=name back=Route::Stage(stage) back_word=stage.title() over=stage.title()/>
        <p class="aim">{guide(stage).aim}" "<strong data-id="cell">{live(move || word(&cell.get()))}"."</strong></p>
        {guide(stage).cautions.first().map(|c| view! { <p class="caution">{c.words}</p> })}
        <Holds stage holds areas/>
        {live(move || {
            parts()
                .map(|list| {
                    view! {
                        <section>
                            <h2>"Usually comes off here"</h2>
                            <ul class="plain">{list.iter().map(|p| view! { <li>{*p}</li> }).collect_view()}</ul>
                        </section>
                    }
                })
        })}
        {match stage {
            Stage::Degrease => view! { <Stretches area/> }.into_any(),
            Stage::Mask => view! {
                <BareList stage areas/>
                <Coverings sorts=&[Covering::Paper, Covering::Foil] putting_on=true area=Some(area)/>
            }
            .into_any(),
            Stage::FirstPass | Stage::SecondPass => view! { <BareList stage areas/> }.into_any(),
            _ => ().into_any(),
        }}
        <FoundHere stage area/>
        <KeepHere stage area=Some(area) bag=None/>
        {live(move || {
            if cell.get().settled() {
                view! { <button type="button" data-id="open-again" on:click=tap(again)>"Open it again"</button> }.into_any()
            } else {
                view! {
                    <Claim stage area/>
                    {live(move || {
                        if leaving.get() {
                            view! { <LeaveOut stage area/> }.into_any()
                        } else {
                            view! {
                                <button type="button" data-id="skip" on:click=tap(move |_| leaving.set(true))>"Leave it out"</button>
                            }
                                .into_any()
                        }
                    })}
                    <div class="main-action"><button type="button" class="main" data-id="done" on:click=tap(done)>"Done here"</button></div>
                }
                    .into_any()
            }
        })}
    }
}

/// What the survey found here and this stage sees to, and the way to write more down.
#[component]
fn FoundHere(stage: Stage, area: AreaId) -> impl IntoView {
    let session = use_session();
    let found = move || {
        let all = session.job(|j| j.found.iter().filter(|f| f.area == area).cloned().collect::<Vec<_>>());
        all.into_iter().filter(|f| stage == Stage::Survey || f.sort.stage() == Some(stage)).collect::<Vec<_>>()
    };
    let word = if stage == Stage::Survey { "Found something? Write it down" } else { "Deal with what was found" };
    live(move || {
        let found = found();
        (stage == Stage::Survey || !found.is_empty()).then(|| {
            view! {
                <ul class="plain" data-id="found-here">
                    {found
                        .iter()
                        .map(|f| view! { <li>{f.words()}{f.dealt.is_some().then_some(": dealt with")}</li> })
                        .collect_view()}
                </ul>
                <a class="button work" data-id="found" href=format!("#/found/{}", area.0)>{word}</a>
            }
        })
    })
}

/// "I am on it", for two at one machine: offered to who gave his name.
#[component]
fn Claim(stage: Stage, area: AreaId) -> impl IntoView {
    let session = use_session();
    let on = memo(move || claimed(session, stage, area));
    let named = move || session.prefs.with(|p| !p.name.is_empty());
    let flip = move |_| {
        let on = on.get_untracked().is_none();
        session.write(What::Claimed { stage, areas: vec![area], on });
    };
    live(move || {
        let by = on.get();
        (named() || by.is_some()).then(|| {
            view! {
                {by.clone().map(|by| view! { <p class="quiet" data-id="claimed">{format!("{by} is on it.")}</p> })}
                <button type="button" data-id="claim" on:click=tap(flip)>{if by.is_some() { "Nobody is on it" } else { "I am on it" }}</button>
            }
        })
    })
}

#[component]
fn LeaveOut(stage: Stage, area: AreaId) -> impl IntoView {
    let session = use_session();
    let reason = Draft::new(format!("skip/{}/{}", stage.slug(), area.0), "");
    let asked = RwSignal::new(false);
    let error = Signal::derive(move || {
        (asked.get() && reason.get().trim().is_empty()).then(|| "Say why: a few words are enough.".to_string())
    });
    let leave = move |_| {
        asked.set(true);
        let why = reason.peek().trim().to_owned();
        if !why.is_empty() {
            session.write_with(What::Skipped { stage, areas: vec![area], reason: why }, None, move |_| {
                reason.clear();
                go(Route::Stage(stage));
            });
        }
    };
    view! {
        <Field label="Why is it left out?" id="skip-reason" draft=reason error/>
        <button type="button" class="work" data-id="skip-confirm" on:click=tap(leave)>"Leave it out"</button>
    }
}
