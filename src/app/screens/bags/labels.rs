//! Labels to print.

use leptos::prelude::*;

use crate::app::parts::head::Head;
use crate::app::route::Route;

#[component]
pub fn Labels() -> impl IntoView {
    view! { <Head title="Labels to print" back=Route::Bags back_word="Bags"/> }
}
