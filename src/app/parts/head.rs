//! The top of a screen: the way back, and what this is.

use leptos::prelude::*;

use crate::app::route::Route;

/// A title with the way back above it.
#[component]
pub fn Head(
    /// The title.
    #[prop(into)]
    title: Signal<String>,
    /// Where "back" leads.
    back: Route,
    /// What is there.
    back_word: &'static str,
    /// A few words above the title.
    #[prop(optional, into)]
    over: String,
) -> impl IntoView {
    view! {
        <header class="head">
            <a class="back" href=back.address() data-id="back">
                <svg viewBox="0 0 24 24" class="sign" aria-hidden="true"><path d="M15 4l-8 8 8 8"/></svg>
                {back_word}
            </a>
            {(!over.is_empty()).then(|| view! { <p class="over">{over.clone()}</p> })}
            <h1>{title}</h1>
        </header>
    }
}
