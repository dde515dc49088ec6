//! One stage on one area: done or left out with a reason, photo, note.
//!
//! May use: the gates, parts. Must not: hold a rule.

use crate::app::parts::live::{live, memo, tap};
use leptos::prelude::*;

use super::stage::word;
use crate::app::parts::field::{Draft, Field};
use crate::app::parts::head::Head;
use crate::app::parts::holds::Holds;
use crate::app::parts::kept::KeepHere;
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::app::shell::go;
use crate::job::entry::{AreaId, What};
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
    let usual = move || {
        let list = match stage {
            Stage::TakeOff => of_kind().map(|a| ("Usually comes off here", a.parts)),
            Stage::Mask | Stage::FirstPass | Stage::SecondPass => of_kind().map(|a| ("Stays bare here", a.bare)),
            _ => None,
        };
        list.filter(|(_, l)| !l.is_empty())
    };
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
            usual()
                .map(|(words, list)| {
                    view! {
                        <section>
                            <h2>{words}</h2>
                            <ul class="plain">{list.iter().map(|p| view! { <li>{*p}</li> }).collect_view()}</ul>
                        </section>
                    }
                })
        })}
        <KeepHere stage area=Some(area) bag=None/>
        {live(move || {
            if cell.get().settled() {
                view! { <button type="button" data-id="open-again" on:click=tap(again)>"Open it again"</button> }.into_any()
            } else {
                view! {
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
