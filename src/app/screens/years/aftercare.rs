//! Aftercare: what is due on this machine and on others, the schedule and how it came about, the dates for a calendar.
//!
//! May use: `job::aftercare`, `share::care`. Must not: reckon a day.

use chrono::{Local, Utc};
use leptos::prelude::*;

use super::{cautions, due_machines, machines};
use crate::app::parts::ask::sentence;
use crate::app::parts::choice::choice;
use crate::app::parts::figure::{Figure, figure};
use crate::app::parts::head::Head;
use crate::app::parts::live::{list, live, memo, tap};
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::device::file;
use crate::job::aftercare::{self, Exposure, Row, Sort};
use crate::job::entry::What;
use crate::share::{calendar, care};
use crate::sums::range::Field;

const FILE: &str = "coatwalk-aftercare.ics";

/// The aftercare of the open job's machine.
#[component]
pub fn AftercareScreen() -> impl IntoView {
    let session = use_session();
    let id = memo(move || session.job(|j| j.id));
    // To the day: what is shown does not change within one.
    let all = memo(machines);
    let mine = move || all.with(|all| all.iter().find(|m| id.get().is_some_and(|id| m.jobs.contains(&id))).cloned());
    let others = move || {
        let id = id.get();
        let not_mine = |m: &&_| !id.is_some_and(|id| crate::job::history::MachineDue::has(m, id));
        all.with(|all| {
            all.iter().filter(not_mine).filter(|m| m.due.iter().any(|d| d.is_due())).cloned().collect::<Vec<_>>()
        })
    };
    let filmed = memo(move || session.job(|j| aftercare::film_on(j).is_some()));
    view! {
        <Head title="Aftercare" back=Route::Today back_word="Today" over=session.peek(|l| l.job().name.clone())/>
        {live(move || match mine() {
            None => view! {
                <p class="figure-large years-figure" data-id="care-answer">"No film yet"</p>
                <p>"The days count from the last pass of film on this machine."</p>
            }.into_any(),
            Some(m) => view! {
                <p class="figure-large years-figure" data-id="care-answer">{aftercare::line(&m.due).unwrap_or("Nothing is due".into())}</p>
                <ul class="plain care-due" data-id="care-list">
                    {m.due.iter().take(4).map(|d| view! { <li data-due=d.is_due().then_some("yes")>{d.words()}"."</li> }).collect_view()}
                </ul>
            }.into_any(),
        })}
        {cautions(&["Touch-up is spraying", "climb"])}
        {live(move || {
            let others = others();
            (!others.is_empty()).then(|| view! { <h2>"Due on other machines"</h2> {due_machines(others)} })
        })}
        {live(move || filmed.get().then(|| view! { <Schedule/> }))}
        <Lives/>
        <h2>"Also here"</h2>
        <div class="row care-ways">
            <a class="button work" data-id="touch-up" href="#/aftercare/touch-up">"Make a touch-up job"</a>
            <a class="button work" data-id="history" href="#/aftercare/history">"History of this machine"</a>
        </div>
    }
}

/// The schedule, line by line, and its way into a calendar.
#[component]
fn Schedule() -> impl IntoView {
    let session = use_session();
    let today = memo(move || session.now.get().with_timezone(&Local).date_naive());
    let rows = memo(move || {
        today.get();
        session.job(aftercare::rows)
    });
    let came = RwSignal::new(None::<String>);
    let save = move |_| {
        let events = session.peek(|l| care::events(l, Utc::now(), &Local));
        let said = file::save_text(FILE, "text/calendar", &calendar::ics(&events));
        came.set(Some(
            said.map_or_else(|why| why, |()| format!("Saved as {FILE}. Open it with the phone's calendar.")),
        ));
    };
    view! {
        <h2>"The schedule"</h2>
        <ul class="tickets" data-id="schedule">
            {list(move || rows.get(), move |r| (r.sort.word(), r.at, r.last, today.get_untracked()), line)}
        </ul>
        <button type="button" class="work care-file" data-id="care-ics" on:click=tap(save)>"Save the dates for the calendar"</button>
        {live(move || came.get().map(|w| view! { <p role="status" data-id="care-ics-answer">{w}</p> }))}
    }
}

fn line(row: Row) -> AnyView {
    let session = use_session();
    let now = session.now.get_untracked().with_timezone(&Local);
    let sort = row.sort;
    let due = row.stands(now).is_some_and(|d| d.is_due());
    let state = match () {
        () if due => "again",
        () if sort.waits() && row.stands(now).is_some_and(|d| d.late_days >= 0) => "done",
        () => "open",
    };
    let day = |at: chrono::DateTime<Utc>| at.with_timezone(&Local).format("%-d %b %Y").to_string();
    let when = match (row.at, sort.waits()) {
        (Some(at), true) => format!("{}, until {}", row.when(now), day(at)),
        (Some(at), false) => format!("{}, {}", row.when(now), day(at)),
        (None, _) => row.when(now),
    };
    let every = row.every.filter(|_| !sort.waits()).map(|s| sentence(&s.each()) + " ");
    let last = row.last.map(|at| format!("Last done {}. ", day(at)));
    let done = move |_| {
        session.write(What::Looked { sort: sort.word().into(), areas: Vec::new(), note: String::new() });
    };
    let act = match sort {
        Sort::NoWash | Sort::NoHotWash => ().into_any(),
        Sort::Look => view! { <a class="button work" data-id="look" href="#/aftercare/look">"Look now"</a> }.into_any(),
        _ => view! { <button type="button" class="work" data-id=format!("care-done-{}", sort.word()) on:click=tap(done)>"Done now"</button> }
            .into_any(),
    };
    view! {
        <li class="ticket care-line" data-state=state data-care=sort.word()>
            <span class="ticket-name">{sort.title()}</span>
            <span class="ticket-word">{when}</span>
            <p class="care-more">{every}{last}{sort.more()}</p>
            <p class="quiet">{row.basis}"."</p>
            {act}
        </li>
    }
    .into_any()
}

/// How the machine lives, and what the film's own sheet says.
#[component]
fn Lives() -> impl IntoView {
    let session = use_session();
    let now = memo(move || session.job(|j| Exposure::of_job(j) as usize));
    let kept = session.peek(|l| l.job().care.clone());
    let start = kept.map_or([None; 3], |c| [c.no_wash_days, c.no_hot_days, c.renew_months]);
    let own = RwSignal::new(start);
    let write = move |exposure: Exposure| {
        let Some([no_wash_days, no_hot_days, renew_months]) = own.try_get_untracked() else { return };
        let what = What::Exposure { word: exposure.word().into(), no_wash_days, no_hot_days, renew_months };
        let said = session.peek(|l| {
            l.job().care.as_ref().is_some_and(|c| {
                c.word == exposure.word()
                    && [c.no_wash_days, c.no_hot_days, c.renew_months] == [no_wash_days, no_hot_days, renew_months]
            })
        });
        if !said {
            session.write(what);
        }
    };
    let keep = move || {
        let as_kept = session
            .peek(|l| l.job().care.as_ref().map_or([None; 3], |c| [c.no_wash_days, c.no_hot_days, c.renew_months]));
        if own.try_get_untracked().is_some_and(|own| own != as_kept) {
            write(session.peek(|l| Exposure::of_job(l.job())));
        }
    };
    let field = move |place: usize, id: &str, label: &str, field: Field, hint: &str| {
        let asked = Figure { id: id.into(), label: label.into(), field, measure: None, hint: hint.into() };
        let take = move |v: Option<f64>| own.update(|own| own[place] = v.map(|v| v.round() as u32));
        figure(asked, start[place].map(f64::from), take, keep)
    };
    view! {
        <h2>"How the machine lives"</h2>
        <div data-id="exposure">
            {choice("It sets how often", &Exposure::TITLES, move || Some(now.get()), move |i| write(Exposure::ALL[i]))}
        </div>
        <details class="more" data-id="own-days">
            <summary>"What the film's sheet says"</summary>
            <p class="quiet">"Left empty, the default stands. The product's sheet wins."</p>
            {field(0, "care-no-wash", "No washing", Field::CareDays, "Default 7 days, from memory")}
            {field(1, "care-no-hot", "No hot wash, no degreaser", Field::CareDays, "Default 28 days, from memory")}
            {field(2, "care-renew", "Renew after", Field::CareMonths, "Default 6 to 24 months, from memory")}
        </details>
    }
}
