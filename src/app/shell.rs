//! The frame round every screen: banners above, the five places below.
//!
//! May use: the session, screens, parts. Must not: hold a rule.

use crate::app::parts::live::{live, memo};
use leptos::prelude::*;

use wasm_bindgen::prelude::*;

use super::clocks;
use super::parts::banners::Banners;
use super::parts::bar::Bar;
use super::route::Route;
use super::screens;
use super::session::{Session, Start, follow_ground, use_session};
use crate::device::window;

/// Puts the app into the page.
pub fn mount() {
    console_error_panic_hook::set_once();
    let root = window().document().and_then(|d| d.get_element_by_id("app")).expect("index.html has #app");
    root.set_text_content(None);
    leptos::mount::mount_to(root.unchecked_into(), App).forget();
}

/// Where one is, kept in step with the address.
#[derive(Clone, Copy)]
pub struct Here(pub RwSignal<Route>);

/// The place in view.
pub fn here() -> Route {
    expect_context::<Here>().0.get()
}

/// Goes to a place.
pub fn go(to: Route) {
    let _ = window().location().set_hash(&to.address());
}

#[component]
fn App() -> impl IntoView {
    let session = Session::closed();
    provide_context(session);
    let route = RwSignal::new(Route::read(&window().location().hash().unwrap_or_default()));
    provide_context(Here(route));
    follow_address(route, session);
    clocks::run(session);
    session.follow_desk();
    wasm_bindgen_futures::spawn_local(session.begin());
    follow_ground(session);
    let at_desk = memo(move || {
        let place = route.get();
        place.at_desk() && (place.needs_no_job() || session.has_job())
    });
    view! {
        <Banners/>
        <div class="screen" id="screen" tabindex="-1">
            {live(move || {
                if at_desk.get() {
                    return view! { <screens::desk_place::DeskPlace/> }.into_any();
                }
                live(move || match session.start.get() {
                    Start::Opening => view! { <p class="quiet">"Opening the job card."</p> }.into_any(),
                    Start::Failed(e) => view! { <screens::trouble::CannotKeep why=e.words()/> }.into_any(),
                    Start::Ready => view! { <Place/> }.into_any(),
                })
            })}
        </div>
        <Bar/>
    }
}

#[component]
fn Place() -> impl IntoView {
    let session = use_session();
    let has_job = memo(move || session.has_job());
    live(move || match (here(), has_job.get()) {
        (_, false) => screens::welcome::Welcome().into_any(),
        (Route::Stage(stage), _) => view! { <screens::stage::StageScreen stage/> }.into_any(),
        (Route::StageArea(stage, area), _) => view! { <screens::stage_area::StageArea stage area/> }.into_any(),
        (Route::Area(area), _) => view! { <screens::area::AreaScreen area/> }.into_any(),
        _ => screens::today::Today().into_any(),
    })
}

fn follow_address(route: RwSignal<Route>, session: Session) {
    let changed = Closure::<dyn Fn()>::new(move || {
        let now = Route::read(&window().location().hash().unwrap_or_default());
        if now != route.get_untracked() {
            session.refused.set(None);
            session.saved.set(None);
            route.set(now);
            window().scroll_to_with_x_and_y(0.0, 0.0);
            // Readers start at the new screen, not at the bar below.
            if let Some(screen) = window().document().and_then(|d| d.get_element_by_id("screen")) {
                let calm = web_sys::FocusOptions::new();
                calm.set_prevent_scroll(true);
                let _ = screen.unchecked_into::<web_sys::HtmlElement>().focus_with_options(&calm);
            }
        }
    });
    let _ = window().add_event_listener_with_callback("hashchange", changed.as_ref().unchecked_ref());
    changed.forget();
}
