//! Every clock: what is left, to the calendar, stopped, set; and how this phone rings.
//!
//! May use: `job::clocks`, the calendar. Must not: reckon.

use leptos::prelude::*;
use uuid::Uuid;

use crate::app::clocks::{MayRing, local};
use crate::app::parts::field::{Draft, Field};
use crate::app::parts::head::Head;
use crate::app::parts::live::{list, live, memo, said, tap};
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::device::{file, hands};
use crate::job::clocks::{self, Clock, OFTEN};
use crate::job::entry::{What, tidy};
use crate::share::calendar;
use crate::share::clock_date::event;

/// All clocks.
#[component]
pub fn ClocksScreen() -> impl IntoView {
    let session = use_session();
    let ids = memo(move || {
        let now = session.now.get();
        session.job(|j| clocks::running(j, now).into_iter().map(|c| c.id).collect::<Vec<_>>())
    });
    view! {
        <Head title="Clocks" back=Route::Today back_word="Today"/>
        {live(move || ids.with(Vec::is_empty).then(|| view! { <p class="aim" data-id="no-clock">"No clock runs."</p> }))}
        {list(move || ids.get(), |id| id.clone(), |id| view! { <One id/> }.into_any())}
        <SetOne/>
        <section>
            <h2>"How this phone rings"</h2>
            <MayRing/>
            <div class="chips">
                <button type="button" class="chip" data-id="speaks" aria-pressed=said(move || session.prefs.with(|p| p.speaks).to_string())
                    on:click=tap(move |_| session.choose(|p| p.speaks = !p.speaks))>"Read aloud when it rings"</button>
                <button type="button" data-id="try-sound" on:click=tap(|_| { hands::beep(); hands::buzz(&[500]); })>"Try the sound"</button>
            </div>
            <p class="quiet">"A sleeping phone does not run the app. Put what matters into the phone's calendar."</p>
        </section>
    }
}

#[component]
fn One(id: String) -> impl IntoView {
    let session = use_session();
    let key = id.clone();
    let clock = memo(move || {
        let now = session.now.get();
        session.job(|j| clocks::running(j, now).into_iter().find(|c| c.id == key))
    });
    let words = move || {
        let now = session.now.get();
        clock.with(|c| c.as_ref().map(|c| clocks::words(c, now)))
    };
    let own = id.strip_prefix("own/").and_then(|i| Uuid::parse_str(i).ok());
    let stretch = id.strip_prefix("stretch/").and_then(|i| Uuid::parse_str(i).ok());
    let came = RwSignal::new(None::<String>);
    let to_calendar = move |_| {
        let now = session.now.get_untracked();
        let made = session.peek(|l| {
            let c = clock.get_untracked()?;
            event(l.job(), &c, l.entries().count() as u32, now)
        });
        came.set(Some(match made {
            None => "Its end is not known yet: read the shed's air.".into(),
            Some(e) => match file::save_text("coatwalk-clock.ics", "text/calendar", &calendar::ics(&[e])) {
                Ok(()) => "Saved as coatwalk-clock.ics: open it, and the calendar takes it in. Send it again when the clock moved.".into(),
                Err(why) => why,
            },
        }));
    };
    let field = move |f: fn(&Clock) -> String| live(move || clock.with(|c| c.as_ref().map(f)));
    view! {
        <section class="clock" data-id="clock" data-clock=id>
            <p class="over">{field(|c| c.title.clone())}</p>
            <p class="figure-large" role="timer">{live(words)}</p>
            {live(move || clock.with(|c| c.as_ref().and_then(|c| c.ends)).map(|e| view! { <p>"Ends "{local(e)}</p> }))}
            <div class="row">
                {stretch.map(|s| view! { <button type="button" data-id="rinsed" on:click=tap(move |_| session.write(What::Rinsed { stretch: s }))>"Rinsed"</button> })}
                {own.map(|clock| view! { <button type="button" data-id="stop-clock" on:click=tap(move |_| session.write(What::ClockStopped { clock }))>"Stop"</button> })}
                {stretch.is_none().then(|| view! { <button type="button" data-id="to-calendar" on:click=tap(to_calendar)>"To the calendar"</button> })}
            </div>
            {live(move || came.get().map(|w| view! { <p role="status" data-id="calendar-answer">{w}</p> }))}
        </section>
    }
}

#[component]
fn SetOne() -> impl IntoView {
    let session = use_session();
    let name = Draft::new("clock/name", "");
    let minutes = Draft::new("clock/minutes", "");
    let asked = RwSignal::new(false);
    let read =
        move || minutes.get().trim().replace(',', ".").parse::<f64>().ok().filter(|m| (1.0..=525_600.0).contains(m));
    let name_error =
        Signal::derive(move || (asked.get() && name.get().trim().is_empty()).then(|| "Give it a name.".to_string()));
    let minutes_error = Signal::derive(move || {
        (asked.get() && read().is_none()).then(|| "Minutes: 1 at least, 525600 (a year) at most.".to_string())
    });
    let set = move |_| {
        asked.set(true);
        let (Some(m), title) = (untrack(read), name.peek().trim().to_owned()) else { return };
        if !title.is_empty() {
            session.write_with(What::ClockSet { name: title, minutes: tidy(m) }, None, move |_| {
                name.clear();
                minutes.clear();
                asked.try_set(false);
            });
        }
    };
    view! {
        <section>
            <h2>"Set a clock"</h2>
            <div class="chips">
                {OFTEN.iter().map(|o| view! {
                    <button type="button" data-often=o.name on:click=tap(move |_| {
                        name.set(o.name.into());
                        if let Some(m) = o.minutes { minutes.set(format!("{m}")); }
                    })>{o.name}</button>
                }).collect_view()}
            </div>
            <Field label="What for" id="clock-name" draft=name error=name_error/>
            <Field label="How long" id="clock-minutes" draft=minutes error=minutes_error unit="min" number=true
                hint="Test patch 24 h, cartridges 8 h: common practice, no source. Your product's sheet wins."/>
            <button type="button" class="work" data-id="clock-set" on:click=tap(set)>"Set it"</button>
        </section>
    }
}
