//! The list of a pass: read outside the spray zone, what rusts first on top. Nothing here asks for a tap while spraying.
//!
//! May use: `job::passes`. Must not: rank.

use leptos::prelude::*;

use crate::app::parts::head::Head;
use crate::app::parts::live::{live, memo};
use crate::app::parts::stretches::note;
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::job::guide::guide;
use crate::job::passes::{self, GUN};
use crate::job::stage::Stage;

/// The pass list, area by area.
#[component]
pub fn PassScreen(stage: Stage) -> impl IntoView {
    let session = use_session();
    let open = memo(move || session.job(|j| j.open_areas(stage)));
    let hazards = move || session.job(|j| passes::hazards(j).collect::<Vec<_>>());
    let first = stage == Stage::FirstPass;
    view! {
        <Head title=if first { "First pass list" } else { "Second pass list" } back=Route::Stage(stage) back_word=stage.title()/>
        <p class="caution">"Read it here, outside. The phone stays out of the spray zone, about 6 m off. Log afterwards, outside again."</p>
        <section class="cautions" aria-label="Cautions">
            <ul>
                {live(move || hazards().into_iter().map(|h| view! { <li>"Hazard found: "{h}</li> }).collect_view())}
                {guide(stage).cautions.iter().take(2).map(|c| view! { <li>{c.words}</li> }).collect_view()}
            </ul>
        </section>
        {(!first).then(|| view! {
            <section data-id="gun">
                <h2>"Set the gun up first"</h2>
                <dl class="pairs">{GUN.iter().map(|g| view! { <div><dt>{g.what}</dt><dd>{g.set}</dd></div> }).collect_view()}</dl>
                {note(passes::GUN_BASIS, "The gun's and the film's own sheets win.")}
            </section>
        })}
        {live(move || open.get().into_iter().map(|area| {
            let (name, lines) = session.job(|j| (j.area_name(area).to_owned(), passes::list(j, stage, area)));
            view! {
                <section class="pass-area steps" data-area=area.0.to_string()>
                    <h2>{name}</h2>
                    <ol>{lines.into_iter().map(|l| view! { <li><strong>{l.words}</strong>{(!l.why.is_empty()).then(|| view! { <span class="quiet">": "{l.why}</span> })}</li> }).collect_view()}</ol>
                </section>
            }
        }).collect_view())}
        {live(move || open.with(Vec::is_empty).then(|| view! { <p>"This pass is settled on every area."</p> }))}
        {note(passes::BASIS, "Ranked by what rusts first.")}
        <a class="button work" href="#/plan/took" data-id="to-took">"Log what it took: cans, litres"</a>
        <div class="main-action"><a class="button main" href=Route::Stage(stage).address() data-id="pass-log">"Back: log the pass"</a></div>
    }
}
