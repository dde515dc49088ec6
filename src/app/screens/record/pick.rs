//! One of a few things, from a list that drops down.
//!
//! May use: nothing. Must not: know what is chosen.

use leptos::prelude::*;

use crate::app::parts::live::{live, mark, memo};

/// A labelled list. `none` is what no choice is called; without it one always holds. A choice that narrows what is shown
/// is marked by a bar on its left. The list itself is drawn once, or the keys would lose it at every choice.
pub fn pick(
    id: &'static str,
    label: &'static str,
    none: &'static str,
    options: impl Fn() -> Vec<(String, String)> + Send + Sync + 'static,
    now: impl Fn() -> String + Send + Sync + 'static,
    chosen: impl Fn(String) + 'static,
) -> AnyView {
    let (options, now) = (memo(options), memo(now));
    let option = move |value: String, words: String| {
        let own = value.clone();
        view! { <option value=value prop:selected=move || now.with(|n| *n == own)>{words}</option> }
    };
    let all = move || {
        let first = (!none.is_empty()).then(|| (String::new(), none.to_owned()));
        first.into_iter().chain(options.get()).map(|(v, words)| option(v, words)).collect::<Vec<_>>()
    };
    view! {
        <div class="pick" data-set=mark(move || !none.is_empty() && now.with(|n| !n.is_empty()), "yes")>
            <label for=id>{label}</label>
            <select id=id data-id=id on:change=move |e| chosen(event_target_value(&e))>{live(all)}</select>
        </div>
    }
    .into_any()
}
