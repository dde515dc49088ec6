//! What stands against going on: "Not yet, because …", and what to do about it.
//!
//! May use: the gates. Must not: decide which way past there is; the gate's weight does.

use crate::app::parts::live::{list, live, memo, tap};
use leptos::prelude::*;

use super::field::{Draft, Field};
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::device::window;
use crate::job::entry::{AreaId, What};
use crate::job::gate::{Hold, Remedy, Weight};
use crate::job::stage::Stage;

/// The holds against a stage, each with its remedy; safety points with "Made safe", quality points with a reason.
#[component]
pub fn Holds(
    stage: Stage,
    /// What holds now.
    holds: Memo<Vec<Hold>>,
    /// The areas asked about: a reason given is kept for these.
    areas: Memo<Vec<AreaId>>,
) -> impl IntoView {
    let all = memo(move || holds.with(|h| h.iter().map(|h| (h.gate, h.weight)).collect::<Vec<_>>()));
    let safety = move || all.with(|k| k.iter().filter(|k| k.1 == Weight::Safety).count());
    // Safety points come one at a time, as they are read out and answered; quality points stand together below.
    let keys = move || {
        let (first, rest): (Vec<_>, Vec<_>) = all.get().into_iter().partition(|k| k.1 == Weight::Safety);
        first.into_iter().take(1).chain(rest).collect::<Vec<_>>()
    };
    let hold = move |gate: &'static str| holds.with(|h| h.iter().find(|h| h.gate == gate).cloned());
    view! {
        <section class="holds" data-id="holds" aria-label="What stands against it">
            {live(move || match safety() {
                0 => None,
                n => Some(view! {
                    <h2 class="holds-head" data-id="safety-left">
                        {if n == 1 { "Make safe: the last point".to_string() } else { format!("Make safe: {n} points to go") }}
                    </h2>
                }),
            })}
            {list(keys, |k| k.0, move |key| view! { {match key.1 {
                    Weight::Safety => view! { <SafetyHold stage hold=hold(key.0)/> }.into_any(),
                    Weight::Quality => {
                        let now = memo(move || hold(key.0));
                        view! { <QualityHold stage gate=key.0 hold=now areas/> }.into_any()
                    }
                }} }.into_any())}
        </section>
    }
}

#[component]
fn SafetyHold(stage: Stage, hold: Option<Hold>) -> impl IntoView {
    let session = use_session();
    let Some(Hold { gate, because, remedy: Remedy::MakeSafe(point), .. }) = hold else { return ().into_any() };
    view! {
        <div class="ticket hold" data-state="blocked" data-weight="safety" data-gate=gate>
            <p class="hold-words">{because}</p>
            <p class="hold-how">{point.how}</p>
            <button
                type="button"
                class="work"
                data-id="made-safe"
                on:click=tap(move |_| session.write(What::MadeSafe { stage, point: gate.to_owned() }))
            >
                "Made safe"
            </button>
        </div>
    }
    .into_any()
}

/// Brings what puts it right into view, when it stands on the same screen.
fn show(id: &str) {
    let found = window().document().and_then(|d| d.query_selector(&format!("[data-id={id}]")).ok().flatten());
    if let Some(section) = found {
        section.scroll_into_view();
    }
}

#[component]
fn QualityHold(
    stage: Stage,
    gate: &'static str,
    hold: Memo<Option<Hold>>,
    areas: Memo<Vec<AreaId>>,
) -> impl IntoView {
    let session = use_session();
    let because = move || hold.with(|h| h.as_ref().map(|h| h.because.clone())).unwrap_or_default();
    let opened = RwSignal::new(false);
    let reason = Draft::new(format!("went-on/{gate}/{}", stage.slug()), "");
    let missing = RwSignal::new(false);
    let remedy = move || {
        let remedy = hold.with(|h| h.as_ref().map(|h| h.remedy.clone()))?;
        match remedy {
            Remedy::Finish(s) => Some((Route::Stage(s).address(), format!("Go to {}", s.title()))),
            Remedy::Bag(n) => {
                let id = session.job(|j| j.bags.iter().find(|b| b.number == n && b.back.is_none()).map(|b| b.id))?;
                Some((Route::Bag(id).address(), format!("Go to bag {n}")))
            }
            Remedy::Uncover(_) => Some((Route::Stage(Stage::AirOut).address(), "Go to Air out".to_string())),
            Remedy::Product(_) => Some(("#/plan/products".to_string(), "Go to the products".to_string())),
            Remedy::Rinse(id) => {
                let area = session.job(|j| j.stretches.iter().find(|s| s.id == id).map(|s| s.area))?;
                Some((Route::StageArea(Stage::Degrease, area).address(), "Go to the stretch".to_string()))
            }
            Remedy::Soap(area) => {
                Some((Route::StageArea(Stage::Degrease, area).address(), "Go to the area".to_string()))
            }
            Remedy::Finding(id) => {
                let area = session.job(|j| j.found.iter().find(|f| f.id == id).map(|f| f.area))?;
                Some((format!("#/found/{}", area.0), "Go to what was found".to_string()))
            }
            Remedy::ThreadSteps(id) => Some((Route::Bag(id).address(), "Go to the bag".to_string())),
            // These stand on the same screen.
            Remedy::Reading | Remedy::Until(_) | Remedy::MakeSafe(_) | Remedy::BareList => None,
        }
    };
    let go_on = move |_| {
        if reason.peek().trim().is_empty() {
            missing.set(true);
            return;
        }
        session.write_with(
            What::WentOn {
                stage,
                areas: areas.get_untracked(),
                gate: gate.to_owned(),
                because: because(),
                reason: reason.peek().trim().to_owned(),
            },
            None,
            move |_| reason.clear(),
        );
    };
    view! {
        <div class="ticket hold" data-state="blocked" data-weight="quality" data-gate=gate>
            <p class="hold-words"><strong>"Not yet, "</strong>"because "{live(because)}"."</p>
            <div class="row">
                {live(move || {
                    let (word, id) = match hold.with(|h| h.as_ref().map(|h| h.remedy.clone()))? {
                        Remedy::Reading => ("Take a reading", "reading"),
                        Remedy::BareList => ("Go through it", "bare"),
                        _ => return None,
                    };
                    Some(view! { <button type="button" data-id=format!("take-{id}") on:click=tap(move |_| show(id))>{word}</button> })
                })}
                {live(move || remedy().map(|(to, word)| view! { <a class="button" href=to data-id="remedy">{word}</a> }))}
                {live(move || {
                    (!opened.get())
                        .then(|| {
                            view! {
                                <button type="button" data-id="go-on" on:click=tap(move |_| opened.set(true))>"Go on anyway"</button>
                            }
                        })
                })}
            </div>
            {live(move || {
                opened
                    .get()
                    .then(|| {
                        let error = Signal::derive(move || {
                            (missing.get() && reason.get().trim().is_empty())
                                .then(|| "Say why: a few words are enough.".to_string())
                        });
                        view! {
                            <Field label="Why go on? It stays in the record." id=format!("reason-{gate}") draft=reason error/>
                            <button type="button" class="work" data-id="go-on-confirm" on:click=tap(go_on)>"Go on, and keep the reason"</button>
                        }
                    })
            })}
        </div>
    }
}
