//! Product.

use leptos::prelude::*;
use uuid::Uuid;

use crate::app::parts::head::Head;
use crate::app::route::Route;

/// Product.
#[component]
pub fn ProductScreen(id: Uuid) -> impl IntoView {
    let _ = id;
    view! { <Head title="Product" back=Route::Plan back_word="Plan"/> }
}
