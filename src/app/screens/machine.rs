//! The machine, drawn from its areas; tap one for its stages, photos and notes.
//!
//! May use: the job, the kinds. Must not: hold a rule.

use crate::app::parts::live::{list, live, memo, said};
use leptos::prelude::*;

use super::stage::{state, word};
use crate::app::parts::drawing::{MachineDrawing, Tone, tally};
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::job::entry::AreaId;
use crate::job::fold::Cell;
use crate::job::kinds::kind;
use crate::job::stage::Stage;

/// The drawing and the list of areas, both for the stage in hand.
#[component]
pub fn Machine() -> impl IntoView {
    let session = use_session();
    let stage = memo(move || session.job(|j| j.in_hand().unwrap_or(Stage::Aftercare)));
    let next = memo(move || session.job(|j| j.open_areas(stage.get()).first().copied()));
    let tone = Callback::new(move |id: AreaId| {
        session.job(|j| match j.area(id).map(|a| a.cell(stage.get())) {
            Some(Cell::Done(_)) => Tone::Done,
            Some(Cell::Skipped(..)) => Tone::Skipped,
            Some(Cell::Again(_)) => Tone::Again,
            _ if next.get() == Some(id) => Tone::Next,
            _ => Tone::Open,
        })
    });
    let areas = memo(move || session.job(|j| j.areas().map(|a| a.id).collect::<Vec<_>>()));
    let name = move || session.job(|j| kind(&j.machine).map_or(String::new(), |k| k.name.to_string()));
    view! {
        <header class="head"><p class="over">{live(name)}</p><h1>{live(move || session.job(|j| j.name.clone()))}</h1></header>
        <p class="aim">"Stage in hand: "<strong>{live(move || stage.get().title())}</strong></p>
        <MachineDrawing tone to=|a| Route::Area(a).address()/>
        {live(move || {
            let tones: Vec<Tone> = areas.get().into_iter().map(|a| tone.run(a)).collect();
            let row = |t: Tone, word| (t, tones.iter().filter(|x| **x == t).count(), word);
            tally(vec![
                row(Tone::Next, "next"),
                row(Tone::Open, "open"),
                row(Tone::Again, "again"),
                row(Tone::Done, "done"),
                row(Tone::Skipped, "left out"),
            ])
        })}
        <p class="quiet">"Front is left. Boxes: inside, unseen. Tap an area."</p>
        <ul class="tickets">
            {list(move || areas.get(), |a| *a, move |id| view! { <li>
                    <a
                        class="ticket"
                        href=Route::Area(id).address()
                        data-state=said(move || session.job(|j| j.area(id).map_or("open", |a| state(a.cell(stage.get())))))
                    >
                        <span class="ticket-name">{live(move || session.job(|j| j.area_name(id).to_owned()))}</span>
                        <span class="ticket-word">
                            {live(move || session.job(|j| j.area(id).map_or(String::new(), |a| word(a.cell(stage.get())))))}
                        </span>
                    </a>
                </li> }.into_any())}
        </ul>
        <div class="row">
            <a class="button" data-id="aftercare" href=Route::Aftercare.address()>"Aftercare"</a>
            <a class="button" data-id="history" href="#/aftercare/history">"History"</a>
        </div>
        <a class="button" data-id="edit-areas" href=Route::Areas.address()>"Change the list of areas"</a>
    }
}
