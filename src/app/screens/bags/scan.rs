//! Scanning a label: the camera looks for a code and opens its bag.
//!
//! May use: the camera, the part `scan`, the store for bags of other jobs. Must not: keep a picture.

use std::rc::Rc;

use js_sys::{Array, Promise, Uint8Array};
use leptos::prelude::*;
use uuid::Uuid;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{HtmlInputElement, HtmlVideoElement};

use crate::app::parts::head::Head;
use crate::app::parts::live::{live, tap};
use crate::app::route::Route;
use crate::app::session::{Session, use_session};
use crate::app::shell::go;
use crate::device::camera::{self, Camera, NoCamera, Still};
use crate::device::{call, pause, window};
use crate::share;

/// Between two looks, ms: a few a second, and the phone stays cool.
const LOOK_MS: i32 = 250;

/// Where it stands.
#[derive(Clone, PartialEq)]
enum Said {
    Asking,
    Looking,
    NoCamera(NoCamera),
    NoReader,
    NoCode,
    NoPicture,
    NotOurs(String),
    Elsewhere(Uuid, Uuid, String),
    Nowhere,
}

/// The reader.
#[component]
pub fn Scan() -> impl IntoView {
    let session = use_session();
    let said = RwSignal::new(Said::Asking);
    let video = NodeRef::<leptos::html::Video>::new();
    let running: StoredValue<Option<Rc<Camera>>, LocalStorage> = StoredValue::new_local(None);
    Effect::new(move || {
        if let Some(element) = video.get() {
            spawn_local(look(session, said, element, running));
        }
    });
    on_cleanup(move || {
        if let Some(camera) = running.try_get_value().flatten() {
            camera.stop();
        }
    });
    let picked = move |e: leptos::ev::Event| {
        let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) else { return };
        let Some(file) = input.files().and_then(|l| l.get(0)) else { return };
        spawn_local(async move {
            match (camera::picture(&file).await, reader().await) {
                (None, _) => drop(said.try_set(Said::NoPicture)),
                (_, None) => drop(said.try_set(Said::NoReader)),
                (Some(still), Some(part)) => match read(&part, &still) {
                    Some(text) => found(session, said, text).await,
                    None => drop(said.try_set(Said::NoCode)),
                },
            }
            // The same file can be picked again.
            input.set_value("");
        });
    };
    let camera_shown = move || !matches!(said.get(), Said::NoCamera(_));
    view! {
        <Head title="Scan a label" back=Route::Bags back_word="Bags"/>
        <div class="scan-view" data-shown=move || camera_shown().to_string()>
            <video node_ref=video class="scan-video" data-id="scan-video" autoplay=true prop:muted=true playsinline="" aria-label="What the camera sees"></video>
        </div>
        <div class="scan-said" data-id="scan-said" role="status">{live(move || words(session, said.get()))}</div>
        <label class="button work photo-button">
            "Read from a photo"
            <input type="file" accept="image/*" class="reader" data-id="scan-file" on:change=picked/>
        </label>
        <p class="quiet">"No picture is kept."</p>
    }
}

/// Starts the camera and looks until a bag is found or the screen is left.
async fn look(
    session: Session,
    said: RwSignal<Said>,
    video: HtmlVideoElement,
    running: StoredValue<Option<Rc<Camera>>, LocalStorage>,
) {
    let Some(part) = reader().await else { return drop(said.try_set(Said::NoReader)) };
    let camera = match camera::start(video).await {
        Ok(camera) => Rc::new(camera),
        Err(why) => return drop(said.try_set(Said::NoCamera(why))),
    };
    // Left while the phone asked: nobody else would switch it off.
    if running.is_disposed() {
        return camera.stop();
    }
    running.set_value(Some(camera.clone()));
    said.set(Said::Looking);
    let mut last = String::new();
    while running.try_get_value().flatten().is_some() {
        if let Some(text) = camera.still().and_then(|s| read(&part, &s)).filter(|t| *t != last) {
            last.clone_from(&text);
            found(session, said, text).await;
        }
        pause(LOOK_MS).await;
    }
}

/// The part that reads codes, fetched once.
async fn reader() -> Option<JsValue> {
    let w: JsValue = window().into();
    let promise = call(&w, "coatwalkPart", &Array::of1(&"scan".into()))?.dyn_into::<Promise>().ok()?;
    JsFuture::from(promise).await.ok()
}

fn read(part: &JsValue, still: &Still) -> Option<String> {
    let bytes = Uint8Array::from(still.rgba.as_slice());
    call(part, "readQr", &Array::of3(&still.width.into(), &still.height.into(), &bytes))?.as_string()
}

/// Opens the bag a code names, or says whose it is.
async fn found(session: Session, said: RwSignal<Said>, text: String) {
    let Some(bag) = share::bag_of(&text) else { return drop(said.try_set(Said::NotOurs(text))) };
    if session.peek(|l| l.job().bags.iter().any(|b| b.id == bag)) {
        if !said.is_disposed() {
            go(Route::Bag(bag));
        }
        return;
    }
    let open = session.peek(|l| l.job().id);
    let heads = session.heads.get_untracked();
    for head in heads.iter().filter(|h| Some(h.job) != open) {
        let lines = session.other_lines(head.job).await.unwrap_or_default();
        if share::has_bag(lines, bag) {
            return drop(said.try_set(Said::Elsewhere(head.job, bag, head.name.clone())));
        }
    }
    said.try_set(Said::Nowhere);
}

fn words(session: Session, said: Said) -> AnyView {
    let line = |bad: bool, words: String| view! { <p class=if bad { "bad" } else { "" }>{words}</p> }.into_any();
    let (bad, words) = match said {
        Said::Asking => (false, "Starting the camera. If the phone asks, allow it.".to_string()),
        Said::Looking => (false, "Hold the label flat in view, a hand's width away.".to_string()),
        Said::NoCamera(NoCamera::None) => {
            (true, "This phone shows no camera here. Take a photo of the label and read it below.".to_string())
        }
        Said::NoCamera(NoCamera::Refused) => (
            true,
            "The camera is not allowed. Allow it in the phone's settings for this page, or read from a photo below."
                .to_string(),
        ),
        Said::NoCamera(NoCamera::Busy) => {
            (true, "The camera did not start; another app may hold it. Close that app and open this again, or read from a photo below.".to_string())
        }
        Said::NoReader => (true, "The reader is not on this phone yet. Open it once with a signal.".to_string()),
        Said::NoCode => {
            (true, "No code was found on this photo. Go closer, hold it flat, keep shade off it.".to_string())
        }
        Said::NoPicture => (true, "This file is not a picture this phone can read.".to_string()),
        Said::NotOurs(text) => {
            let short: String = text.chars().take(60).collect();
            (true, format!("This is not one of our labels. It says: {short}"))
        }
        Said::Nowhere => (
            true,
            "This bag is in no job on this phone. It may have been taken back, or belong to another phone."
                .to_string(),
        ),
        Said::Elsewhere(job, bag, name) => {
            let open = move |_| {
                spawn_local(async move {
                    if session.load(job).await.is_ok() {
                        go(Route::Bag(bag));
                    }
                });
            };
            return view! {
                <p class="bad">"This bag belongs to another job: "<strong>{name}</strong></p>
                <button type="button" class="work" data-id="scan-open-job" on:click=tap(open)>"Open that job"</button>
            }
            .into_any();
        }
    };
    line(bad, words)
}
