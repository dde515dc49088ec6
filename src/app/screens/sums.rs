//! The list of sums, and the way to each.
//!
//! May use: parts. Must not: reckon.

use leptos::prelude::*;

use crate::app::parts::head::Head;
use crate::app::parts::mix::MixHere;
use crate::app::parts::reading::ReadingHere;
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::job::stage::Stage;

/// Every sum that has a screen: its address index, its name, what it answers.
const LIST: [(usize, &str, &str); 2] = [
    (0, "Mix", "Water and concentrate for a bucket"),
    (3, "Air and steel", "Is the steel dry enough against the dew point?"),
];

/// The list.
#[component]
pub fn Sums() -> impl IntoView {
    view! {
        <header class="head"><h1>"Sums"</h1></header>
        <ul class="tickets">
            {LIST
                .into_iter()
                .map(|(i, name, what)| {
                    view! {
                        <li>
                            <a class="ticket" data-state="open" href=Route::Sum(i).address()>
                                <span class="ticket-name">{name}</span>
                                <span class="ticket-word">{what}</span>
                            </a>
                        </li>
                    }
                })
                .collect_view()}
        </ul>
    }
}

/// One sum.
pub fn one(i: usize) -> AnyView {
    let session = use_session();
    let title = LIST.iter().find(|s| s.0 == i).map_or("Sums", |s| s.1).to_string();
    let body = match i {
        0 => view! { <MixHere stage=Stage::Degrease/> }.into_any(),
        3 => view! { <ReadingHere steel=true/> }.into_any(),
        _ => ().into_any(),
    };
    let no_job = !session.has_job();
    view! {
        <Head title back=Route::Sums back_word="Sums"/>
        {no_job.then(|| view! { <p class="quiet">"No job is open: nothing is put in the record."</p> })}
        {body}
    }
    .into_any()
}
