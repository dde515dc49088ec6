//! The place where the desk stands: fetches its part and takes it into the page.
//!
//! May use: the session. Must not: know any one place of the desk.

use js_sys::{Array, Promise, Reflect};
use leptos::prelude::*;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};

use crate::app::parts::live::live;
use crate::app::session::use_session;
use crate::device::{call, window};
use crate::store::prefs::Prefs;

/// The desk's place.
#[component]
pub fn DeskPlace() -> impl IntoView {
    let session = use_session();
    let place = NodeRef::<leptos::html::Div>::new();
    let trouble = RwSignal::new(false);
    Effect::new(move || {
        let Some(element) = place.get() else { return };
        spawn_local(async move {
            if open(&element).await.is_none() {
                trouble.try_set(true);
            }
        });
    });
    on_cleanup(move || {
        // A unit or a name may have been chosen there.
        session.prefs.set(Prefs::load());
        spawn_local(async move {
            if let Some(part) = part().await {
                // Opened again meanwhile, it stands in another element.
                call(&part, "closePart", &Array::new());
            }
        });
    });
    view! {
        <div node_ref=place></div>
        {live(move || {
            trouble
                .get()
                .then(|| view! { <p class="bad" role="alert">"This part is not on this phone yet. Open it once with a signal."</p> })
        })}
    }
}

/// The part, fetched once.
pub async fn part() -> Option<JsValue> {
    let w: JsValue = window().into();
    let promise = call(&w, "coatwalkPart", &Array::of1(&"desk".into()))?.dyn_into::<Promise>().ok()?;
    JsFuture::from(promise).await.ok()
}

async fn open(into: &web_sys::HtmlElement) -> Option<()> {
    let part = part().await?;
    // Left again while it was fetched.
    if !into.is_connected() {
        return Some(());
    }
    let open = Reflect::get(&part, &"openPart".into()).ok()?.dyn_into::<js_sys::Function>().ok()?;
    open.call1(&JsValue::NULL, into).ok().map(drop)
}
