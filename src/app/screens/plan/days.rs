//! Days.

use leptos::prelude::*;

use crate::app::parts::head::Head;
use crate::app::route::Route;

/// Days.
#[component]
pub fn DaysScreen() -> impl IntoView {
    view! { <Head title="Days" back=Route::Plan back_word="Plan"/> }
}
