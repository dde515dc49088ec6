//! What comes off.

use leptos::prelude::*;

use crate::app::parts::head::Head;
use crate::app::route::Route;

#[component]
pub fn Parts() -> impl IntoView {
    view! { <Head title="What comes off" back=Route::Bags back_word="Bags"/> }
}
