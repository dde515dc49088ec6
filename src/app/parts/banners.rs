//! What has to be said above any screen: example data, what was not saved, what stood against the last tap, and undo.

use crate::app::parts::live::{live, memo, tap};
use leptos::prelude::*;

use wasm_bindgen::prelude::*;

use crate::app::session::use_session;
use crate::device::{file, window};
use crate::job::entry::{Entry, What};
use crate::job::fold::Job;
use crate::job::tell;

/// What stands above any screen of the walk and the desk.
#[component]
pub fn Banners() -> impl IntoView {
    let session = use_session();
    let demo = memo(move || session.job(|j| j.demo));
    view! {
        {live(move || demo.get().then(|| view! { <p class="banner demo">"Example job: all of it invented"</p> }))}
        {live(move || {
            session
                .read_only
                .get()
                .then(|| view! { <p class="banner stop" role="alert">"A newer Coatwalk has written here. This one only reads. Reload to get the newer one."</p> })
        })}
        <Answers/>
        <Offline/>
    }
}

/// What came of the last tap: not saved (announced at once), refused, or kept, with undo.
#[component]
pub fn Answers() -> impl IntoView {
    let session = use_session();
    let saved = move || {
        let id = session.saved.get()?;
        session.log(|log| log.get(id).map(|e| (id, tell::head(log.job(), e))))
    };
    let export = move |_| {
        let _ = file::save_text("coatwalk-log.txt", "text/plain", &session.raw_lines());
    };
    view! {
        {live(move || {
            let unsaved = session.unsaved.get();
            (!unsaved.is_empty()).then(|| {
                let why = unsaved[0].why.words();
                let what = session
                    .log(|l| unsaved.iter().map(|u| unsaved_words(l.job(), &u.entry)).collect::<Vec<_>>());
                view! {
                    <section class="banner stop" role="alert" data-id="unsaved">
                        <h2>"Not saved"</h2>
                        <p>{why}</p>
                        <ul>
                            {what.into_iter().map(|t| view! { <li>{t}</li> }).collect_view()}
                        </ul>
                        <button type="button" on:click=tap(move |_| session.try_again())>"Try again"</button>
                        <button type="button" on:click=tap(export) data-id="unsaved-export">"Save the log as a file"</button>
                    </section>
                }
            })
        })}
        {live(move || {
            session
                .refused
                .get()
                .map(|why| view! { <p class="banner wait" role="alert" data-id="refused">{why}</p> })
        })}
        <div class="undo-place" role="status" aria-live="polite">
            {live(move || {
                saved()
                    .map(|(id, head)| {
                        view! {
                            <div class="undo" data-id="saved">
                                <span class="undo-word">"Kept: "{head}</span>
                                <button type="button" data-id="undo" on:click=tap(move |_| session.undo(id))>"Undo"</button>
                            </div>
                        }
                    })
            })}
        </div>
    }
}

/// What could not be kept; a note whole, so that its words are not lost from view.
fn unsaved_words(job: &Job, e: &Entry) -> String {
    match &e.what {
        What::Note { text, .. } => format!("Note: {text}"),
        _ => tell::head(job, e),
    }
}

/// Says once that the app is ready for no signal, and offers a newer version when one waits.
#[component]
fn Offline() -> impl IntoView {
    let session = use_session();
    let ready = RwSignal::new(page_says("offline", "just-ready"));
    let waiting = RwSignal::new(page_says("update", "waiting"));
    on_window("coatwalk-ready-offline", move || ready.set(true));
    on_window("coatwalk-update-waiting", move || waiting.set(true));
    let take = move |_| {
        let w: JsValue = window().into();
        let _ = crate::device::call(&w, "coatwalkTakeUpdate", &js_sys::Array::new());
    };
    view! {
        {live(move || {
            (ready.get() && !session.prefs.with(|p| p.told_ready))
                .then(|| {
                    view! {
                        <p class="banner done" data-id="ready-offline" role="status">
                            <span>"Ready for no signal."</span>
                            <button type="button" data-id="ready-offline-ok" on:click=tap(move |_| session.choose(|p| p.told_ready = true))>
                                "Good"
                            </button>
                        </p>
                    }
                })
        })}
        {live(move || {
            waiting
                .get()
                .then(|| {
                    view! {
                        <p class="banner wait" data-id="update" role="status">
                            <span>"A newer Coatwalk is on this phone."</span>
                            <button type="button" on:click=tap(take)>"Use it now"</button>
                        </p>
                    }
                })
        })}
    }
}

fn page_says(name: &str, value: &str) -> bool {
    let page = window().document().and_then(|d| d.document_element());
    page.and_then(|p| p.get_attribute(&format!("data-{name}"))).as_deref() == Some(value)
}

fn on_window(event: &str, then: impl FnMut() + 'static) {
    let heard = Closure::<dyn FnMut()>::new(then);
    let _ = window().add_event_listener_with_callback(event, heard.as_ref().unchecked_ref());
    heard.forget();
}
