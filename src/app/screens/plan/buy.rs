//! Shopping list.

use leptos::prelude::*;

use crate::app::parts::head::Head;
use crate::app::route::Route;

/// Shopping list.
#[component]
pub fn BuyScreen() -> impl IntoView {
    view! { <Head title="Shopping list" back=Route::Plan back_word="Plan"/> }
}
