//! Words on their way out: through the phone's share sheet, as a file where there is none, on paper.
//!
//! May use: the share sheet, files. Must not: know what the words say.

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::live::{live, tap};
use crate::device::file;
use crate::device::share::{self, Shared};

/// "Share as text" (or "Save as text" where the phone has no share sheet) and "Print". `words` is read at the tap.
pub fn hand_over(title: &'static str, file_name: &'static str, words: impl Fn() -> String + 'static) -> AnyView {
    let came = RwSignal::new(None::<String>);
    let send = move |_| {
        let words = untrack(&words);
        spawn_local(async move {
            let answer = match share::text(title, &words).await {
                Shared::Yes | Shared::PutAway => None,
                Shared::NoSheet => Some(match file::save_text(file_name, "text/plain", &words) {
                    Ok(()) => format!("Saved as {file_name} in your downloads."),
                    Err(why) => why,
                }),
            };
            came.try_set(answer);
        });
    };
    let word = if share::has_sheet() { "Share as text" } else { "Save as text" };
    view! {
        <div class="row off-paper">
            <button type="button" class="work" data-id="hand-over" on:click=tap(send)>{word}</button>
            <button type="button" class="work" data-id="print" on:click=tap(|()| share::print())>"Print"</button>
        </div>
        {live(move || came.get().map(|w| view! { <p role="status" data-id="hand-over-answer">{w}</p> }))}
    }
    .into_any()
}
