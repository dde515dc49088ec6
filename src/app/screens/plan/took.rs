//! What it took.

use leptos::prelude::*;

use crate::app::parts::head::Head;
use crate::app::route::Route;

/// What it took.
#[component]
pub fn TookScreen() -> impl IntoView {
    view! { <Head title="What it took" back=Route::Plan back_word="Plan"/> }
}
