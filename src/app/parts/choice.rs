//! A few words of which one holds.
//!
//! May use: nothing. Must not: know what is chosen.

use std::sync::Arc;

use leptos::prelude::*;

use super::live::{said, tap};

/// A few words of which one holds.
pub fn choice(
    legend: &'static str,
    words: &'static [&'static str],
    now: impl Fn() -> Option<usize> + Send + Sync + 'static,
    pick: impl Fn(usize) + Send + Sync + 'static,
) -> AnyView {
    let now: Arc<dyn Fn() -> Option<usize> + Send + Sync> = Arc::new(now);
    let pick: Arc<dyn Fn(usize) + Send + Sync> = Arc::new(pick);
    let chips: Vec<AnyView> = words
        .iter()
        .enumerate()
        .map(|(i, word)| {
            let (now, pick) = (now.clone(), pick.clone());
            let pressed = said(move || (now() == Some(i)).to_string());
            view! {
                <button type="button" class="chip" data-choice=*word aria-pressed=pressed on:click=tap(move |_| pick(i))>
                    {*word}
                </button>
            }
            .into_any()
        })
        .collect();
    view! { <fieldset><legend>{legend}</legend><div class="chips">{chips}</div></fieldset> }.into_any()
}
