//! The clocks in view, and the ringing while the app lives.
//!
//! May use: [`clocks`], notifications, sound. Must not: reckon; the job's clocks do.

use crate::app::parts::live::{list, live, mark, memo, tap};
use chrono::{DateTime, Datelike, Local, Timelike, Utc};
use leptos::prelude::*;

use uuid::Uuid;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::route::Route;
use super::session::{Session, use_session};
use crate::device::notify::{self, Allowed};
use crate::device::{hands, pause, window};
use crate::job::clock::{self, AirOut};
use crate::job::clocks::{self, Clock, Kind};
use crate::job::entry::What;
use crate::job::stage::Stage;
use crate::job::stretch;

/// How many clocks that rang are remembered.
const RANG_KEPT: usize = 40;
/// "Later" on a notification, minutes.
const LATER_MIN: f64 = 5.0;
/// The clocks' own place at the desk.
pub const CLOCKS: &str = "#/clocks";

/// A moment as the wall clock tells it: "Tue 24 Nov, 18:30".
pub fn local(at: DateTime<Utc>) -> String {
    const MONTHS: [&str; 12] = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
    let t = at.with_timezone(&Local);
    let month = MONTHS[t.month0() as usize];
    // By hand: chrono's own patterns would be a tenth of the download.
    format!("{} {} {month}, {:02}:{:02}", t.weekday(), t.day(), t.hour(), t.minute())
}

/// Moves a session's "now", and nothing else.
pub async fn tick(session: Session) {
    loop {
        session.now.set(Utc::now());
        pause(1000).await;
    }
}

/// What rings and was not yet seen, and the stretch whose call was put aside.
#[derive(Clone, Copy)]
struct Ringing {
    clocks: RwSignal<Vec<Clock>>,
    aside: RwSignal<Option<Uuid>>,
}

/// Moves the session's "now" and rings when a clock runs out; what ran out while the app was dead rings at the start.
pub fn run(session: Session) {
    let ringing = Ringing { clocks: RwSignal::new(Vec::new()), aside: RwSignal::new(None) };
    provide_context(ringing);
    follow_buttons(session);
    spawn_local(async move {
        loop {
            let now = Utc::now();
            session.now.set(now);
            let rang = session.prefs.with_untracked(|p| p.rang.clone());
            let (new, over) = session.peek(|l| {
                let over = clocks::running(l.job(), now).into_iter().filter(|c| c.over).count();
                (clocks::to_ring(l.job(), &rang, now), over)
            });
            if BADGE.replace(over) != over {
                hands::badge(over);
            }
            for c in &new {
                ring(session, c, now);
            }
            if !new.is_empty() {
                ringing.aside.set(None);
                ringing.clocks.update(|all| {
                    all.retain(|c| new.iter().all(|n| n.id != c.id));
                    all.extend(new.into_iter().filter(|c| c.kind != Kind::Stretch));
                });
            } else if called(session, ringing).is_some() && now.second().is_multiple_of(5) {
                call_again();
            }
            pause(1000).await;
        }
    });
}

thread_local! {
    static BADGE: std::cell::Cell<usize> = const { std::cell::Cell::new(0) };
}

fn call_again() {
    hands::buzz(&[1500]);
    hands::beep();
}

/// Rings one clock, in every way this phone has.
fn ring(session: Session, c: &Clock, now: DateTime<Utc>) {
    session.choose(|p| {
        p.rang.push(c.ring_word());
        let old = p.rang.len().saturating_sub(RANG_KEPT);
        p.rang.drain(..old);
    });
    call_again();
    let title = format!("{}: {}", c.title, clocks::words(c, now));
    if session.prefs.with_untracked(|p| p.speaks) {
        hands::say(&title);
    }
    let address = match (c.stage, c.area) {
        (Some(s), Some(a)) => Route::StageArea(s, a).address(),
        (Some(s), None) => Route::Stage(s).address(),
        _ => CLOCKS.into(),
    };
    let button = match c.id.strip_prefix("stretch/") {
        Some(id) => (format!("rinsed/{id}"), "Rinsed"),
        None => (format!("later/{}", c.title), "In 5 min"),
    };
    let (id, body) = (c.id.clone(), c.words_when_over());
    spawn_local(async move {
        let _ = notify::show(&title, body, &id, &address, &[button]).await;
    });
}

/// The buttons of notifications.
fn follow_buttons(session: Session) {
    let heard = Closure::<dyn FnMut(web_sys::CustomEvent)>::new(move |e: web_sys::CustomEvent| {
        let word = e.detail().as_string().unwrap_or_default();
        match word.split_once('/') {
            Some(("rinsed", id)) => {
                if let Ok(stretch) = Uuid::parse_str(id) {
                    session.write(What::Rinsed { stretch });
                }
            }
            Some(("later", name)) => session.write(What::ClockSet { name: name.into(), minutes: LATER_MIN }),
            _ => {}
        }
    });
    let _ = window().add_event_listener_with_callback("coatwalk-action", heard.as_ref().unchecked_ref());
    heard.forget();
}

/// The stretch that calls now and was not put aside: its id, where it is, the words of its clock, and whether it is over.
fn called(session: Session, ringing: Ringing) -> Option<(Uuid, String, String, bool)> {
    let now = session.now.get_untracked();
    session.peek(|l| {
        let j = l.job();
        let s = stretch::open(j).filter(|s| s.is_called(now)).min_by_key(|s| s.ends())?;
        let left = s.ends() - now;
        let aside = ringing.aside.get_untracked() == Some(s.id);
        (!aside).then(|| (s.id, s.words(j), stretch::clock_words(left), left.num_milliseconds() < 0))
    })
}

/// The call to rinse, over the whole screen: a voice is lost under the washer.
#[component]
pub fn StretchCall() -> impl IntoView {
    let session = use_session();
    let ringing = expect_context::<Ringing>();
    let now = memo(move || {
        session.now.track();
        session.log(|_| ());
        ringing.aside.track();
        called(session, ringing)
    });
    let id = memo(move || now.with(|n| n.as_ref().map(|n| n.0)));
    let over = move || now.with(|n| n.as_ref().is_some_and(|n| n.3));
    live(move || {
        id.get().map(|stretch| {
            view! {
                <section class="call" role="alertdialog" aria-label="Rinse now" data-id="call">
                    <p class="call-word" role="alert">{live(move || if over() { "Too long" } else { "Rinse" })}</p>
                    <p class="call-place">{live(move || now.with(|n| n.as_ref().map(|n| n.1.clone())))}</p>
                    <p class="call-figure" role="timer" data-id="call-left">{live(move || now.with(|n| n.as_ref().map(|n| n.2.clone())))}</p>
                    <p>{live(move || if over() { "Over its time. Rinse, then soap this stretch once more." } else { "before the soap dries. From the top down." })}</p>
                    <button type="button" class="main" data-id="call-rinsed" on:click=tap(move |_| session.write(What::Rinsed { stretch }))>"Rinsed"</button>
                    <button type="button" class="work" data-id="call-aside" on:click=tap(move |_| ringing.aside.set(Some(stretch)))>"Put this aside"</button>
                </section>
            }
        })
    })
}

/// Every clock that counts, in one line that stays in view: the most pressing by name, the others by number. Under it
/// what rang, until it is seen.
#[component]
pub fn ClockStrip() -> impl IntoView {
    let session = use_session();
    let ringing = expect_context::<Ringing>();
    let first = memo(move || {
        let now = session.now.get();
        session.job(|j| {
            let all = clocks::running(j, now);
            all.first().map(|c| (c.title.clone(), clocks::words(c, now), c.over, all.len() - 1))
        })
    });
    let there = memo(move || first.with(Option::is_some));
    let part = move |f: fn(&(String, String, bool, usize)) -> String| live(move || first.with(|c| c.as_ref().map(f)));
    view! {
        {live(move || {
            there.get().then(|| {
                view! {
                    <a class="strip" href=CLOCKS data-id="strip" data-over=mark(move || first.with(|c| c.as_ref().is_some_and(|c| c.2)), "yes")>
                        <span class="strip-title">{part(|c| c.0.clone())}</span>
                        <span class="strip-left" role="timer">{part(|c| c.1.clone())}</span>
                        {live(move || first.with(|c| c.as_ref().map_or(0, |c| c.3)).checked_sub(1).map(|n| view! { <span class="strip-more">{format!("+{}", n + 1)}</span> }))}
                    </a>
                }
            })
        })}
        <div role="status">
            {list(move || ringing.clocks.get(), |c| c.ring_word(), move |c| {
                let word = clocks::words(&c, session.now.get_untracked());
                let id = c.id.clone();
                view! {
                    <p class="banner wait" data-id="rang">
                        <span>{c.title.clone()}": "{word}". "{c.words_when_over()}</span>
                        <button type="button" data-id="rang-ok" on:click=tap(move |_| ringing.clocks.update(|all| all.retain(|c| c.id != id)))>"Seen"</button>
                    </p>
                }.into_any()
            })}
        </div>
    }
}

/// The air-out clock, when it runs.
#[component]
pub fn ClockRow() -> impl IntoView {
    let session = use_session();
    let clock = memo(move || {
        let now = session.now.get();
        session.job(|j| {
            let waiting = j.closed.is_none() && j.count(Stage::AirOut).open > 0;
            clock::air_out(j, now).filter(|_| waiting)
        })
    });
    let running = memo(move || clock.with(Option::is_some));
    live(move || running.get().then(|| view! { <AirOutClock clock/> }))
}

#[component]
fn AirOutClock(clock: Memo<Option<AirOut>>) -> impl IntoView {
    let session = use_session();
    let left = memo(move || clock.with(|c| c.as_ref().map(|c| c.left_words(session.now.get()))).unwrap_or_default());
    let share = move || clock.with(|c| c.as_ref().map_or(0.0, |c| (c.counted_h / c.wanted_h).min(1.0)));
    let told = memo(move || {
        let (now, units) = (session.now.get(), session.prefs.with(|p| p.units));
        clock.with(|c| c.as_ref().map(|c| session.job(|j| clock::told(j, c, now, units, &local))))
    });
    view! {
        <section class="clock" data-id="clock-air-out" data-over=mark(move || clock.with(|c| c.as_ref().is_some_and(|c| c.over)), "yes")>
            <p class="over">"Air out"</p>
            <p class="figure-large" role="timer" data-id="clock-left">{live(move || left.get())}</p>
            <div class="clock-bar" aria-hidden="true"><span class="clock-done" style:width=move || format!("{:.1}%", share() * 100.0)></span></div>
            {live(move || {
                told.get()
                    .map(|t| {
                        let marks = t.marks.into_iter().map(|m| view! { <li>{m}</li> }).collect_view();
                        view! { <p data-id="clock-words">{t.words}</p> <ul class="plain" data-id="clock-marks">{marks}</ul> }
                    })
            })}
            <MayRing/>
        </section>
    }
}

/// Whether this phone lets the app ring, and the button that asks it to.
#[component]
pub fn MayRing() -> impl IntoView {
    let allowed = RwSignal::new(notify::allowed());
    let ask = move |_| {
        spawn_local(async move {
            let answer = notify::ask().await;
            allowed.try_set(answer);
        });
    };
    live(move || {
        let words = match allowed.get() {
            Allowed::NotAsked => {
                return view! { <button type="button" data-id="allow-ring" on:click=tap(ask)>"Ring when it is over"</button> }
                    .into_any();
            }
            Allowed::Yes => "Rings while the app is open. A sleeping phone may not ring: set its own alarm too.",
            Allowed::No | Allowed::Unsupported => "This phone does not let the app ring. Set the phone's own alarm.",
        };
        view! { <p class="quiet" data-id="ring-words">{words}</p> }.into_any()
    })
}
