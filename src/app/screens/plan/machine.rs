//! Machine size.

use leptos::prelude::*;

use crate::app::parts::head::Head;
use crate::app::route::Route;

/// Machine size.
#[component]
pub fn MachineScreen() -> impl IntoView {
    view! { <Head title="Machine size" back=Route::Plan back_word="Plan"/> }
}
