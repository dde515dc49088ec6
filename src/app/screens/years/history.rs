//! One machine over its jobs: when, what was done, what it took, when it is to be looked at next.
//!
//! May use: `job::history`, the logs of this machine's jobs. Must not: reckon.

use chrono::{DateTime, Local, Utc};
use leptos::prelude::*;
use uuid::Uuid;
use wasm_bindgen_futures::spawn_local;

use crate::app::parts::figure::short;
use crate::app::parts::head::Head;
use crate::app::parts::live::{list, live, memo, tap};
use crate::app::route::Route;
use crate::app::session::{Session, use_session};
use crate::app::shell::go;
use crate::job::aftercare::Sort;
use crate::job::air;
use crate::job::entry::What;
use crate::job::head;
use crate::job::history::{Took, by_machine, ran};
use crate::job::log::Log;
use crate::job::product::Use;
use crate::units::{Measure, UnitSet};

/// A job of the machine, as it is told here.
#[derive(Clone, PartialEq)]
struct Told {
    job: Uuid,
    name: String,
    ran: Option<(DateTime<Utc>, DateTime<Utc>)>,
    closed: bool,
    took: Took,
    films: Vec<String>,
    next_look: Option<DateTime<Utc>>,
}

/// The history.
#[component]
pub fn HistoryScreen() -> impl IntoView {
    let session = use_session();
    let told = RwSignal::new(None::<Vec<Told>>);
    let trouble = RwSignal::new(None::<String>);
    let group = memo(move || {
        let id = session.job(|j| j.id);
        let kept: Vec<_> = session.heads.with(|all| all.iter().filter(|h| h.binned_ms.is_none()).cloned().collect());
        by_machine(&kept).into_iter().find(|g| g.iter().any(|h| Some(h.job) == id)).unwrap_or_default()
    });
    Effect::new(move || {
        let group = group.get();
        spawn_local(async move {
            let mut all = Vec::new();
            for head in group {
                all.extend(tell(session, head).await);
            }
            all.sort_by_key(|t| std::cmp::Reverse(t.ran));
            told.try_set(Some(all));
        });
    });
    let set = move || session.prefs.with(|p| p.units);
    let open = move |job: Uuid| {
        spawn_local(async move {
            match session.load(job).await {
                Ok(()) => go(Route::Today),
                Err(e) => drop(trouble.try_set(Some(e.words()))),
            }
        });
    };
    view! {
        <Head title="History" back=Route::Aftercare back_word="Aftercare" over=session.peek(|l| l.job().name.clone())/>
        {live(move || told.with(|told| match told {
            None => view! { <p class="quiet">"Reading this machine's jobs."</p> }.into_any(),
            Some(all) => view! {
                <p class="figure-large years-figure" data-id="history-jobs">
                    {match all.len() { 1 => "1 job".to_owned(), n => format!("{n} jobs") }}
                </p>
                {(all.len() > 1).then(|| figures(all.iter().fold(Took::default(), |sum, t| sum.and(t.took.clone())), set(), "history-total"))}
            }.into_any(),
        }))}
        {live(move || trouble.get().map(|t| view! { <p class="bad" role="alert">{t}</p> }))}
        <ul class="tickets" data-id="history">
            {list(move || told.get().unwrap_or_default(), |t| (t.job, t.ran), move |t| {
                let job = t.job;
                let films = if t.films.is_empty() { "no film logged by name".to_owned() } else { t.films.join(", ") };
                view! {
                    <li class="ticket history-job" data-state=if t.closed { "done" } else { "open" } data-job=job.to_string()>
                        <span class="ticket-name">{t.name}</span>
                        <span class="ticket-word">{days(t.ran)}{if t.closed { ", closed" } else { "" }}</span>
                        {figures(t.took, set(), "")}
                        <p>"Film: "{films}"."</p>
                        {t.next_look.map(|at| view! { <p>"Next look: "{day(at)}"."</p> })}
                        <button type="button" class="work" data-id="history-open" on:click=tap(move |()| open(job))>"Open this job"</button>
                    </li>
                }.into_any()
            })}
        </ul>
        <p class="quiet">"Only what was logged is counted. Cost: the best price of the product's packs."</p>
        <SameMachine/>
    }
}

/// Other jobs of this kind of machine, which may be this very machine.
#[component]
fn SameMachine() -> impl IntoView {
    let session = use_session();
    let others = memo(move || {
        let (id, kind) = session.job(|j| (j.id, j.machine.clone()));
        let kept: Vec<_> = session.heads.with(|all| all.iter().filter(|h| h.binned_ms.is_none()).cloned().collect());
        let apart = |g: &Vec<head::Head>| !g.iter().any(|h| Some(h.job) == id);
        by_machine(&kept).into_iter().filter(apart).flatten().filter(|h| h.machine == kind).collect::<Vec<_>>()
    });
    let join = move |as_job: Uuid| session.write(What::SameMachine { as_job });
    live(move || {
        (!others.with(Vec::is_empty)).then(|| view! {
            <details class="more" data-id="same-machine">
                <summary>"Another job was this machine too"</summary>
                <ul class="tickets">
                    {others.get().into_iter().map(|h| view! {
                        <li>
                            <button type="button" class="ticket" data-state="open" data-same=h.job.to_string() on:click=tap(move |()| join(h.job))>
                                <span class="ticket-name">{h.name}</span>
                                <span class="ticket-word">"is the same machine"</span>
                            </button>
                        </li>
                    }).collect_view()}
                </ul>
            </details>
        })
    })
}

async fn tell(session: Session, head: head::Head) -> Option<Told> {
    let log = Log::from_lines(session.other_lines(head.job).await?);
    let job = log.job();
    let film = |u: Use| matches!(u, Use::LiquidFilm | Use::AerosolFilm);
    let mut films: Vec<String> =
        job.products.iter().filter(|p| film(p.product.used_as)).map(|p| p.product.called()).collect();
    films.sort();
    films.dedup();
    Some(Told {
        job: head.job,
        name: head.name,
        ran: ran(job),
        closed: head.closed,
        took: Took::of(job),
        films,
        next_look: head.care.iter().find(|c| c.sort == Sort::Look.word()).map(|c| c.at),
    })
}

fn day(at: DateTime<Utc>) -> String {
    at.with_timezone(&Local).format("%-d %b %Y").to_string()
}

fn days(ran: Option<(DateTime<Utc>, DateTime<Utc>)>) -> String {
    match ran.map(|(from, to)| (day(from), day(to))) {
        None => String::new(),
        Some((from, to)) if from == to => from,
        Some((from, to)) => format!("{from} to {to}"),
    }
}

/// What it took, in pairs.
fn figures(took: Took, set: UnitSet, id: &'static str) -> AnyView {
    let volume = Measure::Volume.unit(set);
    let film = format!("{} {}", short(volume.from_si(took.film_l / 1000.0)), volume.symbol);
    let cans = (took.cans > 0.0).then(|| format!("{} cans", short(took.cans)));
    let hours = match took.minutes > 0.0 {
        true => format!(
            "{} ({} of hands)",
            air::minutes(took.minutes.round() as i64),
            air::minutes(took.hand_minutes.round() as i64)
        ),
        false => "not logged".into(),
    };
    let money = match (took.money, took.unpriced) {
        (None, _) => "no prices known".to_owned(),
        (Some(m), 0) => format!("{m:.2}"),
        (Some(m), n) => format!("{m:.2}, and {n} without a price"),
    };
    let film = match (took.film_l > 0.0, cans) {
        (_, Some(cans)) if took.film_l <= 0.0 => cans,
        (_, Some(cans)) => format!("{film}, {cans}"),
        (true, None) => film,
        (false, None) => "not logged".into(),
    };
    let row = |what: &'static str, value: String| view! { <div><dt>{what}</dt><dd>{value}</dd></div> };
    view! {
        <dl class="pairs" data-id=id>
            {row("Stages done", took.stages.to_string())}
            {row("Film used", film)}
            {row("Work", hours)}
            {row("Materials cost", money)}
        </dl>
    }
    .into_any()
}
