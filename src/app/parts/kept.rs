//! Photos, voice notes and notes: taking them in, and showing what is kept.
//!
//! May use: the session, the phone's camera through a file field, the recorder. Must not: keep a file as the camera wrote it.

use crate::app::parts::live::{list, live, memo, tap};
use leptos::prelude::*;

use uuid::Uuid;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;
use web_sys::HtmlInputElement;

use super::field::{Draft, Field};
use crate::app::session::use_session;
use crate::device::voice::{self, Spoken};
use crate::device::{photo, seen};
use crate::job::entry::{AreaId, What};
use crate::job::fold::{Keep, Kept};
use crate::job::stage::Stage;
use crate::store::Picture;

/// The longest note, characters.
const LONGEST_NOTE: usize = 4000;

/// Three ways to keep something here, and what is kept.
#[component]
pub fn KeepHere(
    stage: Stage,
    #[prop(optional_no_strip)] area: Option<AreaId>,
    #[prop(optional_no_strip)] bag: Option<Uuid>,
) -> impl IntoView {
    view! {
        <section class="keep" aria-label="Photos and notes">
            <PhotoButton stage area bag/>
            <VoiceButton stage area bag/>
            <NoteField stage area/>
            <KeptList of=Signal::derive(move || Of { stage: Some(stage), area, bag })/>
        </section>
    }
}

/// Takes photos in, one or several.
#[component]
pub fn PhotoButton(
    stage: Stage,
    #[prop(optional_no_strip)] area: Option<AreaId>,
    #[prop(optional_no_strip)] bag: Option<Uuid>,
    /// Hears of each photo once it is kept.
    #[prop(optional_no_strip)]
    heard: Option<Callback<Uuid>>,
) -> impl IntoView {
    let session = use_session();
    let busy = RwSignal::new(0);
    let trouble = RwSignal::new(None::<String>);
    let picked = move |e: leptos::ev::Event| {
        let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) else { return };
        let files: Vec<web_sys::File> =
            input.files().map(|l| (0..l.length()).filter_map(|i| l.get(i)).collect()).unwrap_or_default();
        trouble.set(None);
        busy.update(|n| *n += files.len());
        spawn_local(async move {
            for file in files {
                match photo::intake(&file).await {
                    Ok(taken) => {
                        let id = Uuid::now_v7();
                        let what = What::Photo {
                            stage,
                            area,
                            bag,
                            photo: id,
                            mime: taken.mime.into(),
                            bytes: taken.bytes.byte_length(),
                            width_px: taken.width,
                            height_px: taken.height,
                        };
                        let picture = Picture { id, mime: taken.mime.into(), bytes: taken.bytes };
                        session.write_with(what, Some(picture), move |_| heard.iter().for_each(|h| h.run(id)));
                    }
                    Err(why) => {
                        trouble.try_set(Some(why));
                    }
                }
                busy.try_update(|n| *n -= 1);
            }
            // The same file can be picked again.
            input.set_value("");
        });
    };
    view! {
        <label class="button work photo-button">
            <svg viewBox="0 0 24 24" class="sign" aria-hidden="true">
                <path d="M3 7h5l2-3h4l2 3h5v13H3zM12 17a4 4 0 1 0-.1 0"/>
            </svg>
            {live(move || if busy.get() > 0 { "Keeping the photo" } else { "Photo" })}
            <input
                type="file"
                accept="image/*"
                capture="environment"
                multiple=true
                class="reader"
                data-id="photo-input"
                on:change=picked
            />
        </label>
        {live(move || trouble.get().map(|t| view! { <p class="bad" role="alert" data-id="photo-error">{t}</p> }))}
    }
}

/// A voice note: one tap begins it, another ends and keeps it. The words on the button are the recorder's.
#[component]
fn VoiceButton(stage: Stage, area: Option<AreaId>, bag: Option<Uuid>) -> impl IntoView {
    let session = use_session();
    let button = NodeRef::<leptos::html::Button>::new();
    let trouble = RwSignal::new(String::new());
    let speak = move |_| {
        let Some(button) = button.get_untracked() else { return };
        trouble.set(String::new());
        spawn_local(async move {
            match voice::record(&button).await {
                Ok(Spoken { bytes, mime, seconds }) => {
                    let sound = Uuid::now_v7();
                    let length = bytes.byte_length();
                    let what = What::Voice { stage, area, bag, sound, mime: mime.clone(), bytes: length, seconds };
                    session.write_with(what, Some(Picture { id: sound, mime, bytes }), |_| ());
                }
                Err(why) => drop(trouble.try_set(why)),
            }
        });
    };
    view! {
        <button type="button" class="work" data-id="voice" node_ref=button on:click=tap(speak)>
            <svg viewBox="0 0 24 24" class="sign" aria-hidden="true"><path d="M9 3h6v9H9zM5 10v5h14v-5M12 15v6M8 21h8"/></svg>
            <span>"Voice note"</span>
        </button>
        <p class="bad" role="alert" data-id="voice-error">{live(move || trouble.get())}</p>
    }
}

/// A note, typed.
#[component]
fn NoteField(stage: Stage, area: Option<AreaId>) -> impl IntoView {
    let session = use_session();
    let key = format!("note/{}/{}", stage.slug(), area.map(|a| a.0.to_string()).unwrap_or_default());
    let text = Draft::new(key, "");
    let asked = RwSignal::new(false);
    let error = Signal::derive(move || {
        let (empty, length) = (text.get().trim().is_empty(), text.get().chars().count());
        if length > LONGEST_NOTE {
            return Some(format!("{length} characters; a note holds {LONGEST_NOTE}. Split it in two."));
        }
        (asked.get() && empty).then(|| "Type a few words first.".to_string())
    });
    let save = move |_| {
        let words = text.peek().trim().to_owned();
        asked.set(true);
        if words.is_empty() || words.chars().count() > LONGEST_NOTE {
            return;
        }
        session.write_with(What::Note { stage, area, text: words.clone() }, None, move |_| {
            if text.peek().trim() == words {
                text.clear();
            }
            asked.set(false);
        });
    };
    view! {
        <Field label="Note" id="note-text" draft=text error long=true/>
        <button type="button" data-id="note-save" on:click=tap(save)>"Keep the note"</button>
    }
}

/// Which kept things a list shows.
#[derive(Clone, Copy, PartialEq)]
pub struct Of {
    pub stage: Option<Stage>,
    pub area: Option<AreaId>,
    pub bag: Option<Uuid>,
}

impl Of {
    fn has(&self, k: &Kept) -> bool {
        self.stage.is_none_or(|s| s == k.stage)
            && k.area == self.area.or(k.area.filter(|_| self.bag.is_some()))
            && k.bag == self.bag
    }
}

/// What is kept, newest first.
#[component]
pub fn KeptList(of: Signal<Of>) -> impl IntoView {
    let session = use_session();
    let kept = memo(move || {
        let of = of.get();
        session.job(|j| j.kept.iter().rev().filter(|k| of.has(k)).cloned().collect::<Vec<_>>())
    });
    view! {
        <ul class="kept">
            {list(move || kept.get(), |k| k.stamp.entry, move |k| view! { <li data-entry=k.stamp.entry.to_string()>
                    {match &k.keep {
                        Keep::Note(text) => view! { <p class="note">{text.clone()}</p> }.into_any(),
                        Keep::Photo(id) => view! { <Shown photo=*id/> }.into_any(),
                        Keep::Sound(id) => view! { <Shown photo=*id sound=true/> }.into_any(),
                    }}
                </li> }.into_any())}
        </ul>
    }
}

/// One kept photo, or a sound to be played.
#[component]
pub fn Shown(photo: Uuid, #[prop(optional)] sound: bool) -> impl IntoView {
    let session = use_session();
    let url = RwSignal::new(None::<String>);
    let place = NodeRef::<leptos::html::Span>::new();
    let read = move || {
        spawn_local(async move {
            if let Some((mime, bytes)) = session.picture(photo).await {
                let made = photo::show(&mime, &bytes);
                // The screen may be gone by now.
                if url.try_set(made.clone()).is_some() {
                    made.iter().for_each(|u| photo::forget(u));
                }
            }
        });
    };
    Effect::new(move || {
        if let Some(place) = place.get() {
            seen::once(&place, read);
        }
    });
    on_cleanup(move || {
        if let Some(u) = url.try_get_untracked().flatten() {
            photo::forget(&u);
        }
    });
    view! {
        <span class=if sound { "sound-place" } else { "photo-place" } node_ref=place>
            {live(move || url.get().map(|u| match sound {
                true => view! { <audio class="sound" controls src=u data-sound=photo.to_string()></audio> }.into_any(),
                false => view! { <img class="photo" src=u alt="Photo" decoding="async" data-photo=photo.to_string()/> }.into_any(),
            }))}
        </span>
    }
}
