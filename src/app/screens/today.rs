//! Today: what now, on which areas, what is running, what has to wait and why, and one big button.
//!
//! May use: the job, the gates, the clocks. Must not: hold a rule.

use crate::app::parts::live::{live, memo};
use chrono::Local;
use leptos::prelude::*;

use crate::app::clocks::ClockRow;
use crate::app::parts::bare::Locked;
use crate::app::parts::line::{StageLine, StageList};
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::job::aftercare;
use crate::job::entry::Covering;
use crate::job::fold::Cell;
use crate::job::gate::{self, Weight};
use crate::job::guide::guide;
use crate::job::history;
use crate::job::resume;

/// The screen one comes back to.
#[component]
pub fn Today() -> impl IntoView {
    let session = use_session();
    let name = move || session.job(|j| j.name.clone());
    let stage = memo(move || session.job(|j| j.in_hand()));
    let closed = memo(move || session.job(|j| j.closed.is_some()));
    let holds = memo(move || {
        let now = session.now.get();
        stage.get().map(|s| session.job(|j| gate::holds(j, s, &[], now))).unwrap_or_default()
    });
    let areas = memo(move || {
        let s = stage.get()?;
        Some(session.job(|j| {
            j.areas()
                .filter(|a| !a.cell(s).settled())
                .map(|a| (a.name.clone(), if let Cell::Again(why) = a.cell(s) { Some(why.clone()) } else { None }))
                .collect::<Vec<_>>()
        }))
    });
    view! {
        <header class="today-head">
            <h1 class="job-name" data-id="job-name-shown">{live(name)}</h1>
            <a class="button quiet-button" data-id="plan" href=Route::Plan.address()>"Plan"</a>
            <a class="button quiet-button" data-id="jobs" href=Route::Jobs.address()>"Jobs"</a>
        </header>
        <StageLine/>
        <CareDue/>
        <Back/>
        <ClockRow/>
        {live(move || match stage.get() {
            None => {
                let (title, words, to, button) = if closed.get() {
                    ("Closed", "The record stands. Aftercare is a look each month.", Route::Aftercare, "See the aftercare")
                } else {
                    ("All stages are settled", "Close the job: what is still open is listed there.", Route::Close, "Close the job")
                };
                view! {
                    <section class="now ticket" data-state="done">
                        <h2 class="now-stage" data-id="now-stage">{title}</h2>
                        <p>{words}</p>
                    </section>
                    <div class="main-action"><a class="button main" data-id="go" href=to.address()>{button}</a></div>
                }
                    .into_any()
            }
            Some(s) => {
                view! {
                    <section class="now ticket" data-state="hand">
                        <p class="over">{format!("Now, stage {} of 15", s.number())}</p>
                        <h2 class="now-stage" data-id="now-stage">{s.title()}</h2>
                        <p class="aim">{guide(s).aim}</p>
                        {live(move || {
                            let all = holds.get();
                            let quality: Vec<_> = all.iter().filter(|h| h.weight == Weight::Quality).cloned().collect();
                            let safety = all.len() - quality.len();
                            view! {
                                {quality
                                    .first()
                                    .map(|h| {
                                        view! {
                                            <p class="why" data-id="why"><strong>"Not yet, "</strong>"because "{h.because.clone()}"."</p>
                                        }
                                    })}
                                {(safety > 0)
                                    .then(|| {
                                        view! {
                                            <p class="why">
                                                <strong>"Make safe first: "</strong>
                                                {format!("{safety} {}", if safety == 1 { "point" } else { "points" })}
                                            </p>
                                        }
                                    })}
                            }
                        })}
                        {live(move || {
                            let list = areas.get().unwrap_or_default();
                            let total = session.job(|j| j.areas().count());
                            let again = list.iter().find_map(|(n, why)| why.clone().map(|w| format!("{n}: {w}")));
                            view! {
                                <p class="open-areas" data-id="open-areas">
                                    {if list.len() == total {
                                        format!("Open on all {total} areas.")
                                    } else {
                                        let names: Vec<_> = list.iter().take(3).map(|(n, _)| n.clone()).collect();
                                        let more = list.len().saturating_sub(3);
                                        let tail = if more > 0 { format!(", and {more} more") } else { String::new() };
                                        format!("Open on {} of {total}: {}{tail}.", list.len(), names.join(", "))
                                    }}
                                </p>
                                {again.map(|w| view! { <p class="why"><strong>"Again. "</strong>{w}"."</p> })}
                            }
                        })}
                    </section>
                    <OnNow/>
                    <Locked/>
                    <a class="button" data-id="work-view" href="#/work">"Gloves on: work view"</a>
                    <div class="main-action">
                        <a class="button main" data-id="go" href=Route::Stage(s).address()>"Go on: "{s.title()}</a>
                    </div>
                }
                    .into_any()
            }
        })}
        <details class="more">
            <summary>"All fifteen stages"</summary>
            <StageList/>
        </details>
    }
}

/// What of the aftercare is due, on any machine of this phone.
#[component]
fn CareDue() -> impl IntoView {
    let session = use_session();
    let day = memo(move || session.now.get().with_timezone(&Local).date_naive());
    let line = memo(move || {
        day.get();
        let now = session.now.get_untracked().with_timezone(&Local);
        let all = session.heads.with(|heads| history::due(heads, now));
        aftercare::line(all.iter().flat_map(|m| &m.due))
    });
    live(move || {
        line.get().map(|w| {
            view! { <a class="button care-due-line" data-id="care-due" href=Route::Aftercare.address()>"Aftercare: "{w}</a> }
        })
    })
}

/// Back after a break: how long, and what is not what it was.
#[component]
fn Back() -> impl IntoView {
    let session = use_session();
    let back = memo(move || {
        let now = session.now.get();
        session
            .log(|l| resume::resume(l.job(), l.entries().next_back().map(|e| e.at), now))
            .filter(|b| !b.stale.is_empty())
    });
    live(move || {
        back.get().map(|b| {
            let mut stale = b.stale.into_iter();
            let first = stale.next().unwrap_or_default();
            view! {
                <section class="back-after" data-id="back-after">
                    <h2>{format!("Back after {}", b.away)}</h2>
                    <p class="why"><strong>"First: "</strong>{first}"."</p>
                    <ul class="plain">{stale.map(|l| view! { <li>{l}"."</li> }).collect_view()}</ul>
                </section>
            }
        })
    })
}

/// What is on, off, full: the counts that must be nought at the end.
#[component]
fn OnNow() -> impl IntoView {
    let session = use_session();
    let counts = memo(move || {
        session.job(|j| {
            let bags = j.bags_to_go_back().len();
            let mut all = vec![(if bags == 1 { "bag full" } else { "bags full" }, bags)];
            all.extend(Covering::ALL.map(|c| {
                let n = j.covers_on(c);
                let word = match (c, n) {
                    (Covering::Cover, 1) => "cover on",
                    (Covering::Cover, _) => "covers on",
                    (Covering::Paper, _) => "paper on",
                    (Covering::Foil, _) => "foil on",
                };
                (word, n)
            }));
            all
        })
    });
    view! {
        <ul class="counts" data-id="counts">
            {live(move || {
                counts
                    .get()
                    .into_iter()
                    .filter(|(_, n)| *n > 0)
                    .map(|(word, n)| view! { <li><span class="figure">{n}</span>" "{word}</li> })
                    .collect_view()
            })}
        </ul>
    }
}
