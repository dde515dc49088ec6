//! The list of sums, and the way to each.

use leptos::prelude::*;

use crate::sheets::SHEETS;

/// The list.
#[component]
pub fn Sums() -> impl IntoView {
    view! {
        <header class="head"><h1>"Sums"</h1></header>
        <ul class="tickets">
            {SHEETS
                .iter()
                .map(|sheet| {
                    view! {
                        <li>
                            <a class="ticket" data-state="open" data-sum=sheet.slug href=format!("#/sums/{}", sheet.slug)>
                                <span class="ticket-name">{sheet.name}</span>
                                <span class="ticket-word">{sheet.what}</span>
                            </a>
                        </li>
                    }
                })
                .collect_view()}
        </ul>
    }
}
