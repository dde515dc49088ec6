//! The fifteen stages as ticks on one line, the one in hand opened.

use crate::app::parts::live::{live, memo, said};
use leptos::prelude::*;

use crate::app::route::Route;
use crate::app::session::use_session;
use crate::job::fold::Count;
use crate::job::stage::Stage;

/// The line. Shape tells the state: a solid bar with a notch is done, an outline is open, a bar struck through is left
/// out, the tall one is in hand.
#[component]
pub fn StageLine() -> impl IntoView {
    let session = use_session();
    let states = memo(move || {
        session.job(|job| {
            let in_hand = job.in_hand();
            Stage::ALL.map(|s| {
                let n = job.count(s);
                (s, state_of(s, n, in_hand), n)
            })
        })
    });
    view! {
        <ol class="stage-line" aria-label="Stages">
            {live(move || {
                states
                    .get()
                    .into_iter()
                    .map(|(s, state, n)| {
                        let label = match state {
                            "hand" => format!("{}, in hand, {} of {} areas to go", s.title(), n.open, n.total()),
                            "open" => format!("{}, open", s.title()),
                            "skipped" => format!("{}, left out", s.title()),
                            _ => format!("{}, done", s.title()),
                        };
                        view! {
                            <li class="tick" data-state=state>
                                <span class="tick-mark" aria-hidden="true"></span>
                                <span class="reader">{label}</span>
                            </li>
                        }
                    })
                    .collect_view()
            })}
        </ol>
    }
}

/// All stages as a list to go to.
#[component]
pub fn StageList() -> impl IntoView {
    let session = use_session();
    view! {
        <ol class="tickets" aria-label="All stages">
            {Stage::ALL
                .into_iter()
                .map(|s| {
                    let n = memo(move || session.job(|j| j.count(s)));
                    let state = move || state_of(s, n.get(), session.job(|j| j.in_hand()));
                    let word = move || {
                        let n = n.get();
                        match state() {
                            "done" => "done".to_string(),
                            "skipped" => "left out".to_string(),
                            _ if n.open == n.total() => "open".to_string(),
                            _ => format!("{} of {} to go", n.open, n.total()),
                        }
                    };
                    view! {
                        <li>
                            <a class="ticket" data-state=said(state) href=Route::Stage(s).address()>
                                <span class="ticket-name">{s.number()}" "{s.title()}</span>
                                <span class="ticket-word">{live(word)}</span>
                            </a>
                        </li>
                    }
                })
                .collect_view()}
        </ol>
    }
}

/// How a stage stands, for the style: shape first.
fn state_of(stage: Stage, n: Count, in_hand: Option<Stage>) -> &'static str {
    match () {
        () if in_hand == Some(stage) => "hand",
        () if n.open > 0 => "open",
        () if n.done == 0 => "skipped",
        () => "done",
    }
}
