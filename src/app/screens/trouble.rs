//! When the browser keeps nothing: say so, and what still works.

use leptos::prelude::*;

use crate::app::route::Route;

/// Shown instead of a job when the store can't be opened.
#[component]
pub fn CannotKeep(why: String) -> impl IntoView {
    view! {
        <h1>"Nothing can be kept here"</h1>
        <p data-id="cannot-keep">{why}</p>
        <p>"A job can't be started: its record would be lost. The sums work all the same."</p>
        <div class="main-action"><a class="button main" href=Route::Sums.address()>"Go to the sums"</a></div>
    }
}
