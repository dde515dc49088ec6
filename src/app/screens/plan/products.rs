//! Products.

use leptos::prelude::*;

use crate::app::parts::head::Head;
use crate::app::route::Route;

/// Products.
#[component]
pub fn ProductsScreen() -> impl IntoView {
    view! { <Head title="Products" back=Route::Plan back_word="Plan"/> }
}
