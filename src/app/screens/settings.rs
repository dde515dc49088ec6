//! What this phone's user chose: his name, units, light or dark, which hand.
//!
//! May use: the preferences. Must not: keep anything of a job.

use crate::app::parts::live::{said, tap};
use leptos::prelude::*;

use crate::app::parts::field::{Draft, Field};
use crate::app::parts::head::Head;
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::store::prefs::UnitSet;

/// The choices.
#[component]
pub fn Settings() -> impl IntoView {
    let session = use_session();
    let name = Draft::new("setting/name", session.prefs.with_untracked(|p| p.name.clone()));
    Effect::new(move || {
        let n: String = name.get().trim().chars().take(40).collect();
        if session.prefs.with_untracked(|p| p.name != n) {
            session.choose(|p| p.name = n);
        }
    });
    let units = [
        ("Litres, °C, mm", UnitSet::Metric),
        ("US gallons, °F, inch", UnitSet::Us),
        ("Imperial gallons, °C, mm", UnitSet::Imperial),
    ];
    let grounds = [("As the phone", ""), ("Light", "light"), ("Dark", "dark")];
    let hands = [("Right hand", false), ("Left hand", true)];
    view! {
        <Head title="Settings" back=Route::Record back_word="Record"/>
        <Field label="Your name, on your entries" id="setting-name" draft=name hint="Useful when two work on one machine"/>
        <fieldset>
            <legend>"Units"</legend>
            <div class="chips">
                {units
                    .into_iter()
                    .map(|(word, u)| {
                        view! {
                            <button
                                type="button"
                                class="chip"
                                data-units=format!("{u:?}").to_ascii_lowercase()
                                aria-pressed=said(move || (session.prefs.with(|p| p.units) == u).to_string())
                                on:click=tap(move |_| session.choose(|p| p.units = u))
                            >
                                {word}
                            </button>
                        }
                    })
                    .collect_view()}
            </div>
        </fieldset>
        <fieldset>
            <legend>"Light or dark"</legend>
            <div class="chips">
                {grounds
                    .into_iter()
                    .map(|(word, g)| {
                        view! {
                            <button
                                type="button"
                                class="chip"
                                data-ground-choice=g
                                aria-pressed=said(move || session.prefs.with(|p| p.ground == g).to_string())
                                on:click=tap(move |_| session.choose(|p| p.ground = g.into()))
                            >
                                {word}
                            </button>
                        }
                    })
                    .collect_view()}
            </div>
        </fieldset>
        <fieldset>
            <legend>"Buttons for the"</legend>
            <div class="chips">
                {hands
                    .into_iter()
                    .map(|(word, left)| {
                        view! {
                            <button
                                type="button"
                                class="chip"
                                aria-pressed=said(move || (session.prefs.with(|p| p.left_handed) == left).to_string())
                                on:click=tap(move |_| session.choose(|p| p.left_handed = left))
                            >
                                {word}
                            </button>
                        }
                    })
                    .collect_view()}
            </div>
        </fieldset>
    }
}
