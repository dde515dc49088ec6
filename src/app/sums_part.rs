//! The sums as a part of their own: opened into an element of the walk's page, closed when one leaves it.
//!
//! May use: the sheets and the parts they are shown with. Must not: know the session, the log or the store.

use std::cell::RefCell;

use leptos::prelude::*;
use wasm_bindgen::prelude::*;
use web_sys::HtmlElement;

use super::desk::{Desk, Handed, SLIP, Slip};
use super::parts::live::live;
use super::screens::{sheet, sums};
use crate::device::{call, window};
use crate::sheets::SHEETS;
use crate::store::prefs::Prefs;

thread_local! {
    /// Ends what is open.
    static OPEN: RefCell<Option<Box<dyn FnOnce()>>> = const { RefCell::new(None) };
}

/// Opens the sums into an element. `handed` is a [`Handed`] as JSON; what can't be read counts as nothing known.
pub fn open(into: HtmlElement, handed: &str) {
    close();
    let handed: Handed = serde_json::from_str(handed).unwrap_or_default();
    let route = ArcRwSignal::new(here());
    let follow = {
        let route = route.clone();
        Closure::<dyn Fn()>::new(move || route.set(here()))
    };
    let listener = follow.as_ref().unchecked_ref::<js_sys::Function>().clone();
    let _ = window().add_event_listener_with_callback("hashchange", &listener);
    let mounted = leptos::mount::mount_to(into, move || {
        provide_context(Desk { prefs: RwSignal::new(Prefs::load()), handed: StoredValue::new(handed) });
        live(move || match route.get() {
            Some(place) => view! { <sheet::SheetScreen place/> }.into_any(),
            None => sums::Sums().into_any(),
        })
    });
    OPEN.set(Some(Box::new(move || {
        let _ = window().remove_event_listener_with_callback("hashchange", &listener);
        drop(follow);
        drop(mounted);
    })));
}

/// Closes them.
pub fn close() {
    if let Some(end) = OPEN.take() {
        end();
    }
}

/// The sum the address names; the list when it names none.
fn here() -> Option<usize> {
    let hash = window().location().hash().unwrap_or_default();
    let slug = hash.strip_prefix("#/sums/")?;
    SHEETS.iter().position(|s| s.slug == slug)
}

/// Hands a result to the walk for its record.
pub fn hand_in(slip: &Slip) {
    let Ok(words) = serde_json::to_string(slip) else { return };
    let init = web_sys::CustomEventInit::new();
    init.set_detail(&words.into());
    if let Ok(event) = web_sys::CustomEvent::new_with_event_init_dict(SLIP, &init) {
        let w: JsValue = window().into();
        call(&w, "dispatchEvent", &js_sys::Array::of1(&event));
    }
}
