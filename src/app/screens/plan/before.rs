//! The day before.

use leptos::prelude::*;

use crate::app::parts::head::Head;
use crate::app::route::Route;

/// The day before.
#[component]
pub fn BeforeScreen() -> impl IntoView {
    view! { <Head title="The day before" back=Route::Plan back_word="Plan"/> }
}
