//! A photo in a list: its small copy, made once; a tap shows the whole one.
//!
//! May use: the session, [`thumb`]. Must not: read a whole photo while one scrolls past.

use std::cell::Cell;

use leptos::prelude::*;
use uuid::Uuid;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Blob, Url};

use super::kept::Shown;
use super::live::{live, tap};
use crate::app::session::{Session, use_session};
use crate::device::{pause, photo, seen, thumb};

/// A row that is gone again after this long was only scrolled past, ms.
const SCROLLED_PAST: i32 = 90;

thread_local! {
    /// One copy is made at a time: each needs a whole photo in memory.
    static MAKING: Cell<bool> = const { Cell::new(false) };
}

/// The small copy.
#[component]
pub fn Small(photo: Uuid) -> impl IntoView {
    let session = use_session();
    let url = RwSignal::new(None::<String>);
    let open = RwSignal::new(false);
    let place = NodeRef::<leptos::html::Span>::new();
    Effect::new(move || {
        let Some(place) = place.get() else { return };
        let row = place.clone();
        seen::once(&place, move || {
            spawn_local(async move {
                pause(SCROLLED_PAST).await;
                let Some(blob) = copy(session, photo, || row.is_connected()).await else { return };
                let made = Url::create_object_url_with_blob(&blob).ok();
                // The row may be gone by now.
                if url.try_set(made.clone()).is_some() {
                    made.iter().for_each(|u| photo::forget(u));
                }
            });
        });
    });
    on_cleanup(move || {
        if let Some(u) = url.try_get_untracked().flatten() {
            photo::forget(&u);
        }
    });
    view! {
        <span class="small-place" node_ref=place>
            {live(move || if open.get() {
                view! { <Shown photo/> }.into_any()
            } else {
                view! {
                    <button type="button" class="photo-open" data-id="photo-open" aria-label="Photo. Show it whole." on:click=tap(move |()| open.set(true))>
                        {live(move || url.get().map(|u| view! { <img class="photo" src=u alt="" decoding="async" data-photo=photo.to_string()/> }))}
                    </button>
                }
                .into_any()
            })}
        </span>
    }
}

/// The small copy of a photo; none when it is no longer wanted, or not on this phone.
async fn copy(session: Session, photo: Uuid, wanted: impl Fn() -> bool) -> Option<Blob> {
    if !wanted() {
        return None;
    }
    if let Some(blob) = thumb::kept(photo).await {
        return Some(blob);
    }
    while MAKING.get() {
        pause(20).await;
        if !wanted() {
            return None;
        }
    }
    MAKING.set(true);
    let made = async {
        let (mime, bytes) = session.picture(photo).await?;
        thumb::make(photo, &mime, &bytes).await
    };
    let made = made.await;
    MAKING.set(false);
    made
}
