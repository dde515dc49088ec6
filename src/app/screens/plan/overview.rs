//! The plan at one look: the answer, the timeline, doors to what it is made from, and the way out as text or on paper.
//!
//! May use: [`planning`](crate::app::desk::planning), the words of `job::plan`. Must not: reckon.

use chrono::Local;
use leptos::prelude::*;

use crate::app::desk::planning::{Planning, use_planning};
use crate::app::parts::ask::sentence;
use crate::app::parts::hand_over::hand_over;
use crate::app::parts::head::Head;
use crate::app::parts::live::{live, memo};
use crate::app::parts::timeline::timeline;
use crate::app::route::Route;
use crate::app::session::{Session, use_session};
use crate::job::materials::Show;
use crate::job::plan;
use crate::units::{CELSIUS, Measure, SQUARE_METRE};

/// The plan at one look.
#[component]
pub fn OverviewScreen() -> impl IntoView {
    let (session, planning) = (use_session(), use_planning());
    let name = session.peek(|l| l.job().name.clone());
    view! {
        <Head title="Plan" back=Route::Today back_word="Today" over=name/>
        {answer(session, planning)}
        <h2>"Timeline"</h2>
        {done(planning)}
        {timeline(planning)}
        <p class="quiet">"Solid is work, in your working hours. Hatched is waiting, day and night. Likely times, from now on."</p>
        <h2 class="off-paper">"What it is made from"</h2>
        <ul class="tickets off-paper">{doors(session, planning)}</ul>
        {faults(planning)}
        {out(session, planning)}
    }
}

/// The plan in words: film, work, dates, cost.
fn answer(session: Session, planning: Planning) -> AnyView {
    let told = memo(move || {
        let show = Show::of(session.prefs.with(|p| p.units));
        let now = planning.now.get();
        planning.plan.with(|p| planning.list.with(|l| plan::answer(p, l, &show, now, &Local)))
    });
    let row = |id: &'static str, label: &'static str, words: String| {
        // The likely figure large, its ends below.
        let (likely, ends) = words.split_once(", ").map_or((words.as_str(), ""), |(a, b)| (a, b));
        let (figure, ends) = match likely.strip_prefix("likely ") {
            Some(figure) => (figure.to_owned(), format!("likely; {ends}")),
            None => (likely.to_owned(), ends.to_owned()),
        };
        view! {
            <div data-id=id>
                <dt class="over">{label}</dt>
                <dd><span class="figure-large">{figure}</span> <span>{ends}</span></dd>
            </div>
        }
        .into_any()
    };
    view! {
        <section class="answer column plan-answer" data-id="plan-answer">
            {live(move || {
                let told = told.get();
                view! {
                    <p class="figure-large" data-id="plan-dates">{told.dates}</p>
                    <dl>
                        {row("plan-work", "Work left", told.work)}
                        {told.film.map(|w| row("plan-film", "Film, liquid", w))}
                        {told.cans.map(|w| row("plan-cans", "Film, cans", w))}
                        {told.cost.map(|w| row("plan-cost", "Cost", w))}
                    </dl>
                }
            })}
            <p class="quiet">"Estimates: eight jobs in ten come out between the two ends. Your figures and your finished jobs make them closer."</p>
        </section>
    }
    .into_any()
}

/// What the log has settled, in one line with ticks.
fn done(planning: Planning) -> AnyView {
    live(move || {
        let names = planning.plan.with(|p| p.finished.iter().map(|(s, _)| s.title()).collect::<Vec<_>>());
        (!names.is_empty()).then(|| {
            let all = names.into_iter().map(|n| view! { <li>{n}</li> }).collect_view();
            view! {
                <h3 class="reader">"Done"</h3>
                <ul class="done-stages" data-id="done-stages">{all}</ul>
            }
        })
    })
}

/// The doors, each with its key figure.
fn doors(session: Session, planning: Planning) -> Vec<AnyView> {
    let door = |path: &'static str, name: &'static str, words: Box<dyn Fn() -> String + Send>| {
        view! {
            <li>
                <a class="ticket" data-id=format!("door-{path}") href=format!("#/plan/{path}")>
                    <span class="ticket-name">{name}</span>
                    <span class="ticket-word">{live(words)}</span>
                </a>
            </li>
        }
        .into_any()
    };
    let units = move || session.prefs.with(|p| p.units);
    let machine = move || {
        let area = Show::of(units()).area;
        planning.plan.with(|p| {
            let m2 = area.print(SQUARE_METRE.of(p.figures.m2.likely));
            format!("About {m2}, {} areas", p.figures.areas.len())
        })
    };
    let days = move || {
        planning.setup.with(|s| {
            let hands = if s.how.hands == 1 {
                "1 pair of hands".to_owned()
            } else {
                format!("{} pairs of hands", s.how.hands)
            };
            format!("{hands}, {} h a day from {:02}:{:02}", s.week.hours, s.week.from_min / 60, s.week.from_min % 60)
        })
    };
    let warm = move |c: f64| {
        let unit = Measure::Temperature.unit(units());
        unit.print(CELSIUS.def().to_si(c))
    };
    let shed = move || {
        let c = planning.plan.with(|p| p.shed_c);
        let default = planning.setup.with(|s| s.shed_c.is_none()) && session.job(|j| j.last_reading().is_none());
        format!("Reckoned at {}{}", warm(c), if default { ", a default" } else { "" })
    };
    let air = move || match session.job(|j| (j.readings.len(), j.last_reading().map(|r| r.air_c))) {
        (n, Some(c)) => format!("Air {} at the last of {n} readings", warm(c)),
        _ => "No reading yet".into(),
    };
    let before = move || {
        let (done, all) = session.job(plan::day_before);
        format!("{done} of {all} done")
    };
    vec![
        door("machine", "Machine", Box::new(machine)),
        door("products", "Products", Box::new(move || planning.products.with(|p| plan::products_known(p)))),
        door("buy", "Shopping list", Box::new(move || planning.list.with(|l| session.job(|j| plan::shopping(j, l))))),
        door("days", "Days and hands", Box::new(days)),
        door("shed", "Shed", Box::new(shed)),
        door("air", "Air and night", Box::new(air)),
        door("before", "The day before", Box::new(before)),
        door("took", "What it took", Box::new(move || session.job(plan::logged))),
    ]
}

/// What made no sense, and what is taken instead.
pub fn faults(planning: Planning) -> AnyView {
    let lines = memo(move || planning.faults().iter().map(|f| sentence(&f.line())).collect::<Vec<_>>());
    live(move || {
        let lines = lines.get();
        (!lines.is_empty()).then(|| {
            let summary = match lines.len() {
                1 => "1 input is missing or makes no sense".to_owned(),
                n => format!("{n} inputs are missing or make no sense"),
            };
            view! {
                <details class="more" data-id="faults">
                    <summary>{summary}</summary>
                    <ul>{lines.into_iter().map(|w| view! { <li>{w}</li> }).collect_view()}</ul>
                </details>
            }
        })
    })
}

/// The way out: as text, on paper.
fn out(session: Session, planning: Planning) -> AnyView {
    let text = move || {
        let show = Show::of(session.prefs.with(|p| p.units));
        let name = session.job(|j| j.name.clone());
        let now = planning.now.get();
        planning.plan.with(|p| planning.list.with(|l| plan::text(&name, p, l, &show, now, &Local)))
    };
    view! {
        {hand_over("Plan", "coatwalk-plan.txt", text)}
        <pre class="on-paper">{live(text)}</pre>
    }
    .into_any()
}
