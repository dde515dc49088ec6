//! The desk: every screen but Today, as a part of its own. A second WebAssembly, fetched as soon as Today stands, so that
//! the first start does not carry it.
//!
//! It has a session of its own over the same store, and hears of entries as a second tab would: the walk's and the
//! desk's session tell each other through the channel (`app::session`). It is mounted once, into an element that the
//! walk's page takes in (`screens::desk_place`) while the address names a place of the desk.
//!
//! May use: everything in `app`. Must not: be used by the walk's screens; they reach it by address only.

pub mod backup;
pub mod bring;
pub mod planning;
pub mod spot;

use std::cell::RefCell;

use leptos::prelude::*;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::HtmlElement;

use self::planning::Planning;
use self::spot::Spot;
use super::clocks;
use super::parts::banners::Answers;
use super::parts::live::live;
use super::screens;
use super::session::{Session, Start, follow_ground};
use crate::device::window;

/// What is mounted, once it is.
#[derive(Clone)]
struct Mounted {
    root: HtmlElement,
    session: Session,
    planning: Planning,
    spot: RwSignal<Option<Spot>>,
}

thread_local! {
    static MOUNTED: RefCell<Option<Mounted>> = const { RefCell::new(None) };
}

/// Opens the desk into an element, at the place the address names.
pub fn open(into: &HtmlElement) {
    let known = MOUNTED.with_borrow(Clone::clone);
    let desk = known.unwrap_or_else(mount);
    let _ = into.append_child(&desk.root);
    let (session, planning) = (desk.session, desk.planning);
    spawn_local(async move {
        session.open_again().await;
        planning.refresh();
        learn(planning, desk.spot);
    });
    desk.spot.set(here());
}

/// Takes it out of the page; what is half typed stays in its drafts.
pub fn close() {
    if let Some(desk) = MOUNTED.with_borrow(Clone::clone) {
        desk.session.rest();
        desk.spot.set(None);
        desk.root.remove();
    }
}

/// The plan's places learn from other jobs; those logs are read only there.
fn learn(planning: Planning, spot: RwSignal<Option<Spot>>) {
    if spot.get_untracked().is_some_and(Spot::plans) {
        planning.learn();
    }
}

fn mount() -> Mounted {
    let made = window().document().and_then(|d| d.create_element("div").ok());
    let root: HtmlElement = made.expect("a page makes elements").unchecked_into();
    let handles = std::rc::Rc::new(RefCell::new(None));
    let out = handles.clone();
    leptos::mount::mount_to(root.clone(), move || {
        let session = Session::closed();
        let (planning, spot) = (Planning::of(session), RwSignal::new(None));
        out.replace(Some((session, planning, spot)));
        view! { <Desk session planning spot/> }
    })
    .forget();
    let (session, planning, spot) = handles.take().expect("mounting runs the view");
    let desk = Mounted { root, session, planning, spot };
    MOUNTED.set(Some(desk.clone()));
    desk
}

#[component]
fn Desk(session: Session, planning: Planning, spot: RwSignal<Option<Spot>>) -> impl IntoView {
    provide_context(session);
    provide_context(planning);
    let follow = Closure::<dyn Fn()>::new(move || {
        if spot.get_untracked().is_some() {
            session.refused.set(None);
            session.saved.set(None);
            spot.set(here());
            learn(planning, spot);
        }
    });
    let _ = window().add_event_listener_with_callback("hashchange", follow.as_ref().unchecked_ref());
    follow.forget();
    follow_ground(session);
    spawn_local(clocks::tick(session));
    view! {
        <Answers/>
        {live(move || match (spot.get(), session.start.get()) {
            (None, _) => ().into_any(),
            // A browser that keeps nothing can still reckon.
            (Some(Spot::Sums), _) => screens::sums::Sums().into_any(),
            (Some(Spot::Sum(place)), start) if start != Start::Opening => {
                view! { <screens::sheet::SheetScreen place/> }.into_any()
            }
            (_, Start::Opening) => view! { <p class="quiet">"Opening the job card."</p> }.into_any(),
            (_, Start::Failed(e)) => view! { <screens::trouble::CannotKeep why=e.words()/> }.into_any(),
            (Some(spot), Start::Ready) => spot.screen(),
        })}
    }
}

/// The place of the desk that the address names.
fn here() -> Option<Spot> {
    Spot::read(&window().location().hash().unwrap_or_default())
}
