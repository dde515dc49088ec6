//! Plan.

use leptos::prelude::*;

use crate::app::parts::head::Head;
use crate::app::route::Route;

/// Plan.
#[component]
pub fn OverviewScreen() -> impl IntoView {
    view! { <Head title="Plan" back=Route::Plan back_word="Plan"/> }
}
