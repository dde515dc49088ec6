//! stub
use leptos::prelude::*;
#[component]
pub fn ReportScreen() -> impl IntoView {
    view! { <h1>"Report"</h1> }
}
