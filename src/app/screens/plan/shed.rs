//! Shed.

use leptos::prelude::*;

use crate::app::parts::head::Head;
use crate::app::route::Route;

/// Shed.
#[component]
pub fn ShedScreen() -> impl IntoView {
    view! { <Head title="Shed" back=Route::Plan back_word="Plan"/> }
}
