//! Words and files on their way out: through the phone's share sheet, as a file where there is none, on paper.
//!
//! May use: the share sheet, files. Must not: know what the words say.

use std::future::Future;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::live::{live, tap};
use crate::device::share::{self, Shared};
use crate::device::{bytes, file};

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

/// "Print", and "Make the file", which is shared from a second tap where the phone has a share sheet for it: it opens from
/// a fresh tap only. Elsewhere it goes to the downloads. `make` gives its name, its type and the file.
pub fn hand_over_file<F>(title: &'static str, make: impl Fn() -> F + 'static) -> AnyView
where
    F: Future<Output = Result<(String, &'static str, web_sys::Blob), String>> + 'static,
{
    let came = RwSignal::new(None::<String>);
    let (busy, sheet) = (RwSignal::new(false), RwSignal::new_local(None::<web_sys::File>));
    let send = move |()| {
        if busy.get_untracked() {
            return;
        }
        busy.set(true);
        sheet.set(None);
        came.set(None);
        let made = make();
        spawn_local(async move {
            let answer = match made.await {
                Err(why) => Some(why),
                Ok((name, mime, blob)) => match bytes::named(&blob, &name, mime).filter(bytes::can_share) {
                    Some(file) => {
                        sheet.try_set(Some(file));
                        None
                    }
                    None => Some(save(&name, &blob)),
                },
            };
            came.try_set(answer);
            busy.try_set(false);
        });
    };
    let share_it = move |()| {
        let Some(file) = sheet.get_untracked() else { return };
        spawn_local(async move {
            let answer = match bytes::share(&file).await {
                bytes::Shared::Yes => Some("Handed to another app.".to_owned()),
                bytes::Shared::GivenUp => None,
                bytes::Shared::Refused => Some(save(&file.name(), &file)),
            };
            came.try_set(answer);
        });
    };
    view! {
        <div class="row off-paper" aria-label=title>
            <button type="button" class="work" data-id="print" on:click=tap(|()| share::print())>"Print"</button>
            <button type="button" class="work" data-id="make-file" on:click=tap(send)>
                {live(move || if busy.get() { "Making the file" } else { "Make the file" })}
            </button>
        </div>
        {live(move || sheet.get().map(|file| view! {
            <div class="row off-paper">
                <button type="button" class="work" data-id="share-file" on:click=tap(share_it)>"Share it"</button>
                <button type="button" class="work" data-id="save-file" on:click=tap(move |()| came.set(Some(save(&file.name(), &file))))>"Save it"</button>
            </div>
        }))}
        {live(move || came.get().map(|w| view! { <p role="status" class="off-paper" data-id="hand-over-answer">{w}</p> }))}
    }
    .into_any()
}

fn save(name: &str, blob: &web_sys::Blob) -> String {
    match file::save(name, blob) {
        Ok(()) => format!("Saved as {name} in your downloads."),
        Err(why) => why,
    }
}
