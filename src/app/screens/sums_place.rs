//! The place where the sums stand: fetches their part and opens it here.
//!
//! May use: the session. Must not: reckon, or know any one sum.

use js_sys::{Array, Promise, Reflect};
use leptos::prelude::*;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};

use crate::app::desk::{Handed, HandedReading, SLIP, Slip};
use crate::app::parts::live::live;
use crate::app::session::{Session, use_session};
use crate::device::{call, window};
use crate::job::entry::What;
use crate::store::prefs::Prefs;

/// The sums' place.
#[component]
pub fn SumsPlace() -> impl IntoView {
    let session = use_session();
    let place = NodeRef::<leptos::html::Div>::new();
    let trouble = RwSignal::new(false);
    Effect::new(move || {
        let Some(element) = place.get() else { return };
        spawn_local(async move {
            if open(&element, &handed(session)).await.is_none() {
                trouble.try_set(true);
            }
        });
    });
    on_cleanup(move || {
        spawn_local(async move {
            if let Some(part) = part().await {
                call(&part, "closePart", &Array::new());
            }
            // A unit or an own pail may have been chosen there.
            session.prefs.set(Prefs::load());
        });
    });
    view! {
        <div node_ref=place></div>
        {live(move || {
            trouble
                .get()
                .then(|| view! { <p class="bad" role="alert">"The sums are not on this phone yet. Open them once with a signal."</p> })
        })}
    }
}

/// The part, fetched once.
async fn part() -> Option<JsValue> {
    let w: JsValue = window().into();
    let promise = call(&w, "coatwalkPart", &Array::of1(&"sums".into()))?.dyn_into::<Promise>().ok()?;
    JsFuture::from(promise).await.ok()
}

async fn open(into: &web_sys::HtmlElement, handed: &str) -> Option<()> {
    let part = part().await?;
    // Left again while it was fetched.
    if !into.is_connected() {
        return Some(());
    }
    let open = Reflect::get(&part, &"openPart".into()).ok()?.dyn_into::<js_sys::Function>().ok()?;
    open.call2(&JsValue::NULL, into, &handed.into()).ok().map(drop)
}

/// What the open job knows, as JSON.
fn handed(session: Session) -> String {
    let now = session.now.get_untracked();
    let handed = session.peek(|log| {
        let job = log.job();
        let reading = |r: &crate::job::fold::Reading| HandedReading {
            hours_ago: (now - r.stamp.at).num_seconds() as f64 / 3600.0,
            air_c: r.air_c,
            rh_pct: r.rh_pct,
            steel_c: r.steel_c,
        };
        Handed { has_job: job.id.is_some(), readings: job.readings.iter().map(reading).collect() }
    });
    serde_json::to_string(&handed).unwrap_or_default()
}

/// Puts what the sums hand in into the record, as long as the app lives.
pub fn take_slips(session: Session) {
    let taken = Closure::<dyn Fn(web_sys::CustomEvent)>::new(move |e: web_sys::CustomEvent| {
        let words = e.detail().as_string().unwrap_or_default();
        if let Ok(Slip { sum, inputs, result }) = serde_json::from_str(&words) {
            session.write(What::Sum { sum, inputs, result });
        }
    });
    let _ = window().add_event_listener_with_callback(SLIP, taken.as_ref().unchecked_ref());
    taken.forget();
}
