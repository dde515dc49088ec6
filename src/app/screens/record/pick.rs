//! One of a few things, from a list that drops down.
//!
//! May use: nothing. Must not: know what is chosen.

use leptos::prelude::*;

use crate::app::parts::live::live;

/// A labelled list. `none` is what no choice is called; without it one always holds. A choice that narrows what is shown
/// is marked by a bar on its left.
pub fn pick(
    id: &'static str,
    label: &'static str,
    none: &'static str,
    options: impl Fn() -> Vec<(String, String)> + Send + 'static,
    now: impl Fn() -> String + Send + Sync + Clone + 'static,
    chosen: impl Fn(String) + Copy + Send + 'static,
) -> AnyView {
    live(move || {
        let value = now();
        let first = (!none.is_empty()).then(|| view! { <option value="" selected=value.is_empty()>{none}</option> });
        let all: Vec<_> = options()
            .into_iter()
            .map(|(v, words)| view! { <option value=v.clone() selected={v == value}>{words}</option> })
            .collect();
        let set = (!none.is_empty() && !value.is_empty()).then_some("yes");
        view! {
            <div class="pick" data-set=set>
                <label for=id>{label}</label>
                <select id=id data-id=id on:change=move |e| chosen(event_target_value(&e))>{first}{all}</select>
            </div>
        }
    })
}
