//! What this phone's user chose: his name, units, light or dark, which hand.
//!
//! May use: the preferences. Must not: keep anything of a job.

use leptos::prelude::*;

use crate::app::parts::choice::choice;
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
    let units = choice(
        "Units",
        &["Litres, °C, mm", "US gallons, °F, inch", "Imperial gallons, °C, mm"],
        move || session.prefs.with(|p| UnitSet::ALL.iter().position(|u| *u == p.units)),
        move |i| session.choose(|p| p.units = UnitSet::ALL[i]),
    );
    const GROUNDS: [&str; 3] = ["", "light", "dark"];
    let ground = choice(
        "Light or dark",
        &["As the phone", "Light", "Dark"],
        move || session.prefs.with(|p| GROUNDS.iter().position(|g| *g == p.ground)),
        move |i| session.choose(|p| p.ground = GROUNDS[i].into()),
    );
    let hand = choice(
        "Buttons for the",
        &["Right hand", "Left hand"],
        move || Some(usize::from(session.prefs.with(|p| p.left_handed))),
        move |i| session.choose(|p| p.left_handed = i == 1),
    );
    view! {
        <Head title="Settings" back=Route::Record back_word="Record"/>
        <Field label="Your name, on your entries" id="setting-name" draft=name hint="Useful when two work on one machine"/>
        {units} {ground} {hand}
    }
}
