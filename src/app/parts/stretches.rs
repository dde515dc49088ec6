//! Soap on, rinsed: an area worked in stretches, each with its clock.
//!
//! May use: the job's stretches. Must not: know how long soap may stay; `job::stretch` does.

use crate::app::parts::live::{list, live, memo, said, tap};
use leptos::prelude::*;

use super::field::{Draft, Field};
use super::stepper::stepper;
use crate::app::session::use_session;
use crate::job::entry::{AreaId, What};
use crate::job::guide::Basis;
use crate::job::stretch;

/// A sentence with where its figures come from.
pub fn note(basis: Basis, words: &'static str) -> AnyView {
    view! { <p class="quiet">{words}" Basis: "{basis.words()}"."</p> }.into_any()
}

/// The stretches of one area.
#[component]
pub fn Stretches(area: AreaId) -> impl IntoView {
    let session = use_session();
    let (sun, metal) = (RwSignal::new(false), RwSignal::new(false));
    let own = RwSignal::new(None::<f64>);
    let place = Draft::new(format!("stretch/{}", area.0), "");
    let rule = memo(move || {
        let now = session.now.get();
        session.job(|j| stretch::limit_now(j, sun.get(), metal.get(), now))
    });
    let minutes = move || rule.get().map(|m| own.get().unwrap_or(m));
    let soap = move |_| {
        let Ok(minutes) = untrack(minutes) else { return };
        let what = What::SoapOn { area, minutes, place: place.peek().trim().to_owned() };
        session.write_with(what, None, move |_| place.clear());
    };
    let open =
        memo(move || session.job(|j| stretch::open(j).filter(|s| s.area == area).map(|s| s.id).collect::<Vec<_>>()));
    let again = memo(move || {
        let now = session.now.get();
        session.job(|j| stretch::second_wash(j, area, now).filter(|s| s.rinsed.is_some()).map(|s| s.words(j)))
    });
    let done = move || session.job(|j| j.stretches.iter().filter(|s| s.area == area && s.rinsed.is_some()).count());
    let flip = move |word: &'static str, on: RwSignal<bool>| {
        let pressed = said(move || on.get().to_string());
        view! { <button type="button" class="chip" data-choice=word aria-pressed=pressed on:click=tap(move |_| { on.update(|o| *o = !*o); own.set(None); })>{word}</button> }
    };
    let form = move || {
        view! {
                <p class="quiet">"1 to 2 m² at a time. Soap from the bottom up, rinse from the top down."</p>
                <div class="chips">{flip("Sun or wind", sun)} {flip("Aluminium or zinc", metal)}</div>
                {live(move || rule.get().err().map(|words| view! { <p class="bad" data-id="no-soap">{words}</p> }))}
                {stepper(
                    "Soap may stay (default from memory: your product's sheet wins)",
                    "soap-minutes",
                    move || minutes().map_or("0 min".into(), |m| format!("{m} min")),
                    move || (minutes().is_ok_and(|m| m <= 1.0), minutes().is_ok_and(|m| m >= stretch::MOST_MINUTES)),
                    move |by| own.set(untrack(minutes).ok().map(|m| m + f64::from(by))),
                )}
                <Field label="Where, if you work on several" id="stretch-place" draft=place hint="For example: left rail"/>
                <button type="button" class="work" data-id="soap-on" on:click=tap(soap)>"Soap on"</button>
        }
    };
    view! {
        <section class="stretches" data-id="stretches">
            <h2>"Stretches"<span class="count">{live(move || format!("{} rinsed", done()))}</span></h2>
            {live(move || again.get().map(|words| view! { <p class="why" data-id="wash-again"><strong>"Wash once more: "</strong>{words}". Its soap stood too long."</p> }))}
            {list(move || open.get(), |id| *id, move |id| {
                let words = move || {
                    let now = session.now.get();
                    session.job(|j| j.stretches.iter().find(|s| s.id == id).map(|s| {
                        let over = if s.ends() < now { "over by " } else { "" };
                        (s.words(j), format!("{over}{}", stretch::clock_words(s.ends() - now)))
                    }))
                };
                view! {
                    <div class="clock" data-id="stretch">
                        <p class="over">{live(move || words().map(|w| w.0))}</p>
                        <p class="figure-large" role="timer" data-id="stretch-left">{live(move || words().map(|w| w.1))}</p>
                        <button type="button" class="work" data-id="rinsed" on:click=tap(move |_| session.write(What::Rinsed { stretch: id }))>"Rinsed"</button>
                    </div>
                }.into_any()
            })}
            {live(move || match open.with(Vec::is_empty) {
                true => form().into_any(),
                // What is asked now is to rinse: the next stretch waits behind a tap.
                false => view! { <details class="more" data-id="stretch-more"><summary>"Soap on another stretch"</summary>{form()}</details> }.into_any(),
            })}
        </section>
    }
}
