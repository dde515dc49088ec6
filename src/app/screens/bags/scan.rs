//! Scan a label.

use leptos::prelude::*;

use crate::app::parts::head::Head;
use crate::app::route::Route;

#[component]
pub fn Scan() -> impl IntoView {
    view! { <Head title="Scan a label" back=Route::Bags back_word="Bags"/> }
}
