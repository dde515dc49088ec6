//! Air log.

use leptos::prelude::*;

use crate::app::parts::head::Head;
use crate::app::route::Route;

/// Air log.
#[component]
pub fn AirScreen() -> impl IntoView {
    view! { <Head title="Air log" back=Route::Plan back_word="Plan"/> }
}
