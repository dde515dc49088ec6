//! A small count with a button on each side: no keyboard, gloves on.
//!
//! May use: nothing. Must not: know what is counted.

use leptos::prelude::*;

use super::live::{live, mark, tap};

/// "− 2 +". `shown` is the count in words, `step` gets −1 or 1; `ends` says whether the lower and the upper end are reached.
pub fn stepper(
    label: &'static str,
    id: &'static str,
    shown: impl Fn() -> String + Send + 'static,
    ends: impl Fn() -> (bool, bool) + Copy + Send + 'static,
    step: impl Fn(i32) + Copy + 'static,
) -> AnyView {
    view! {
        <fieldset data-id=id>
            <legend>{label}</legend>
            <div class="stepper">
                <button type="button" data-id=format!("{id}-less") aria-label="One less" disabled=mark(move || ends().0, "") on:click=tap(move |()| step(-1))>"−"</button>
                <output class="figure" data-id=format!("{id}-now")>{live(shown)}</output>
                <button type="button" data-id=format!("{id}-more") aria-label="One more" disabled=mark(move || ends().1, "") on:click=tap(move |()| step(1))>"+"</button>
            </div>
        </fieldset>
    }
    .into_any()
}
