//! The frame round every screen: banners above, the five places below.
//!
//! May use: the session, screens, parts. Must not: hold a rule.

use crate::app::parts::live::{live, memo};
use leptos::prelude::*;

use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::clocks;
use super::parts::banners::Banners;
use super::parts::bar::Bar;
use super::route::{Route, Standing};
use super::screens;
use super::session::{Session, Start, follow_ground, use_session};
use crate::device::{pause, window};

/// How long the first screen has the phone to itself before the desk is fetched.
const QUIET_MS: i32 = 300;

/// Puts the app into the page.
pub fn mount() {
    console_error_panic_hook::set_once();
    let root = window().document().and_then(|d| d.get_element_by_id("app")).expect("index.html has #app");
    root.set_text_content(None);
    leptos::mount::mount_to(root.unchecked_into(), App).forget();
}

/// Where one is, kept in step with the address.
#[derive(Clone, Copy)]
pub struct Here(pub RwSignal<Standing>);

/// The place in view.
pub fn here() -> Standing {
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
    let route = RwSignal::new(standing());
    provide_context(Here(route));
    follow_address(route, session);
    clocks::run(session);
    session.follow_desk();
    spawn_local(session.begin());
    follow_ground(session);
    fetch_desk(session);
    let at_desk = memo(move || {
        let place = route.get();
        place.at_desk && (place.needs_no_job || session.has_job())
    });
    view! {
        <Banners/>
        <clocks::ClockStrip/>
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
        <clocks::StretchCall/>
    }
}

#[component]
fn Place() -> impl IntoView {
    let session = use_session();
    let has_job = memo(move || session.has_job());
    live(move || match has_job.get() {
        false => screens::welcome::Welcome().into_any(),
        true => screens::today::Today().into_any(),
    })
}

/// Fetches the desk once a job is open and nothing else is to do: its screens are the next tap.
fn fetch_desk(session: Session) {
    let ready = memo(move || session.start.get() == Start::Ready && session.has_job());
    Effect::new(move || {
        if ready.get() {
            spawn_local(async move {
                pause(QUIET_MS).await;
                screens::desk_place::part().await;
            });
        }
    });
}

fn standing() -> Standing {
    Standing::read(&window().location().hash().unwrap_or_default())
}

fn follow_address(route: RwSignal<Standing>, session: Session) {
    let changed = Closure::<dyn Fn()>::new(move || {
        session.refused.set(None);
        session.saved.set(None);
        let now = standing();
        if now != route.get_untracked() {
            route.set(now);
        }
        window().scroll_to_with_x_and_y(0.0, 0.0);
        // Readers start at the new screen, not at the bar below.
        if let Some(screen) = window().document().and_then(|d| d.get_element_by_id("screen")) {
            let calm = web_sys::FocusOptions::new();
            calm.set_prevent_scroll(true);
            let _ = screen.unchecked_into::<web_sys::HtmlElement>().focus_with_options(&calm);
        }
    });
    let _ = window().add_event_listener_with_callback("hashchange", changed.as_ref().unchecked_ref());
    changed.forget();
}
