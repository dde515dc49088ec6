//! The bottom bar: five places, one thumb.

use crate::app::parts::live::mark;
use leptos::prelude::*;

use crate::app::route::Route;
use crate::app::shell::here;

/// Each place with its word and its sign, drawn in a 24 × 24 square.
const PLACES: [(Route, &str, &str); 5] = [
    (Route::Today, "Today", "M4 5h16v15H4zM4 10h16M8 15l3 3 5-6"),
    (Route::Machine, "Machine", "M3 16h18M5 16V9h8l4 4h3v3M8 16a3 3 0 1 0 .1 0M17 16a3 3 0 1 0 .1 0"),
    (Route::Bags, "Bags", "M6 8h12l2 13H4zM9 8V4h6v4M9 14h6"),
    (Route::Sums, "Sums", "M5 3h14v18H5zM8 7h8M8 12h2M14 12h2M8 17h2M14 17h2"),
    (Route::Record, "Record", "M5 3h10l4 4v14H5zM8 10h8M8 14h8M8 18h5"),
];

/// The bar.
#[component]
pub fn Bar() -> impl IntoView {
    view! {
        <nav class="bar" aria-label="Places">
            {PLACES
                .into_iter()
                .enumerate()
                .map(|(i, (to, word, sign))| {
                    view! {
                        <a
                            href=to.address()
                            class="bar-place"
                            data-id=format!("place-{}", word.to_ascii_lowercase())
                            aria-current=mark(move || here().place == i, "page")
                        >
                            <svg viewBox="0 0 24 24" class="sign" aria-hidden="true"><path d=sign/></svg>
                            <span>{word}</span>
                        </a>
                    }
                })
                .collect_view()}
        </nav>
    }
}
