//! Area.

use crate::job::entry::AreaId;
use leptos::prelude::*;

use crate::app::parts::head::Head;
use crate::app::route::Route;

/// Area.
#[component]
pub fn AreaScreen(area: AreaId) -> impl IntoView {
    let _ = area;
    view! { <Head title="Area" back=Route::Plan back_word="Plan"/> }
}
