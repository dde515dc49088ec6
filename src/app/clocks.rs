//! The clocks in view, and the ringing while the app lives.
//!
//! May use: [`clock`], notifications. Must not: reckon; the job's clocks do.

use crate::app::parts::live::{live, mark, memo, tap};
use chrono::{DateTime, Datelike, Local, Timelike, Utc};
use leptos::prelude::*;

use wasm_bindgen_futures::spawn_local;

use super::route::Route;
use super::session::{Session, use_session};
use crate::device::notify::{self, Allowed};
use crate::device::pause;
use crate::job::clock::{self, AirOut};
use crate::job::stage::Stage;

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

/// Moves the session's "now" and rings when a clock runs out.
pub fn run(session: Session) {
    spawn_local(async move {
        let mut was_over = None::<bool>;
        loop {
            session.now.set(Utc::now());
            let clock = session.peek(|l| clock::air_out(l.job(), Utc::now()).filter(|_| l.job().closed.is_none()));
            let over = clock.as_ref().map(|c| c.over && c.open == 0);
            if was_over == Some(false) && over == Some(true) {
                let _ = notify::show(
                    "Air out is over",
                    "Count the covers, then refit.",
                    "air-out",
                    &Route::Stage(Stage::AirOut).address(),
                )
                .await;
            }
            was_over = over;
            pause(1000).await;
        }
    });
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
    let allowed = RwSignal::new(notify::allowed());
    let ask = move |_| {
        spawn_local(async move {
            let answer = notify::ask().await;
            allowed.set(answer);
        });
    };
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
            {live(move || match allowed.get() {
                Allowed::NotAsked => {
                    view! { <button type="button" data-id="allow-ring" on:click=tap(ask)>"Ring when it is over"</button> }.into_any()
                }
                Allowed::Yes => {
                    view! {
                        <p class="quiet" data-id="ring-words">"Rings while the app is open. A sleeping phone may not ring: set its own alarm too."</p>
                    }
                        .into_any()
                }
                Allowed::No | Allowed::Unsupported => {
                    view! {
                        <p class="quiet" data-id="ring-words">"This phone does not let the app ring. Set the phone's own alarm."</p>
                    }
                        .into_any()
                }
            })}
        </section>
    }
}
