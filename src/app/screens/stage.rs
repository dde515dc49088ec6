//! One stage: what stands against it, what to do, its tools, and where it is done.
//!
//! May use: the guide, the gates, parts. Must not: hold a rule.

use crate::app::parts::live::{list, live, mark, memo, said, tap};
use leptos::prelude::*;

use crate::app::clocks::ClockRow;
use crate::app::parts::bare::{Arms, BareList};
use crate::app::parts::coverings::Coverings;
use crate::app::parts::head::Head;
use crate::app::parts::holds::Holds;
use crate::app::parts::kept::KeepHere;
use crate::app::parts::mix::MixHere;
use crate::app::parts::reading::ReadingHere;
use crate::app::route::Route;
use crate::app::screens::bags::BagsHere;
use crate::app::session::{Session, use_session};
use crate::job::entry::{AreaId, Covering, What};
use crate::job::fold::Cell;
use crate::job::gate::{self, Hold};
use crate::job::guide::{Caution, MOVING, guide};
use crate::job::kinds::kind;
use crate::job::stage::Stage;

/// How many cautions stand open; the rest are one tap away on the same screen.
const CAUTIONS_IN_VIEW: usize = 3;

/// A stage's screen.
#[component]
pub fn StageScreen(stage: Stage) -> impl IntoView {
    let session = use_session();
    let g = guide(stage);
    let open = memo(move || session.job(|j| j.open_areas(stage)));
    let holds = memo(move || {
        let now = session.now.get();
        session.job(|j| if j.open_areas(stage).is_empty() { Vec::new() } else { gate::holds(j, stage, &[], now) })
    });
    let count = move || {
        let n = session.job(|j| j.count(stage));
        match n.open {
            0 => "Settled".to_string(),
            o if o == n.total() => format!("Open on all {o} areas"),
            o => format!("{o} of {} areas to go", n.total()),
        }
    };
    let hazards = move || {
        let show = matches!(stage, Stage::Survey | Stage::TakeOff | Stage::Wipe);
        session.job(|j| kind(&j.machine)).filter(|_| show).map(|k| k.hazards).unwrap_or_default()
    };
    view! {
        <Head title=stage.title().to_string() back=Route::Today back_word="Today" over=format!("Stage {} of 15", stage.number())/>
        <p class="aim">{g.aim}" "<strong data-id="stage-count">{live(count)}"."</strong></p>
        <Holds stage holds areas=open/>
        <Cautions of_stage=g.cautions of_machine=Signal::derive(hazards)/>
        <section class="steps">
            <h2>"What to do"</h2>
            <ol>{g.steps.iter().map(|s| view! { <li>{*s}</li> }).collect_view()}</ol>
        </section>
        <details class="more">
            <summary>"At hand, and what goes wrong"</summary>
            <ul>{g.at_hand.iter().map(|s| view! { <li>{*s}</li> }).collect_view()}</ul>
            <p>{g.goes_wrong}</p>
        </details>
        <Tools stage open/>
        {if stage.one_entry() {
            view! { <AllExcept stage holds/> }.into_any()
        } else {
            view! { <AreaByArea stage/> }.into_any()
        }}
        {(!reads_air(stage)).then(|| view! { <details class="more" data-id="read-air"><summary>"Read air and steel"</summary><ReadingHere steel=true/></details> })}
        <Checks stage/>
        <KeepHere stage area=None bag=None/>
        {live(move || {
            (open.with(Vec::is_empty))
                .then(|| {
                    stage
                        .next()
                        .map(|next| {
                            view! {
                                <div class="main-action">
                                    <a class="button main" data-id="next-stage" href=Route::Stage(next).address()>"Next: "{next.title()}</a>
                                </div>
                            }
                        })
                })
        })}
    }
}

/// What can hurt here, the gravest first; what the machine carried adds its own.
#[component]
fn Cautions(of_stage: &'static [Caution], of_machine: Signal<&'static [Caution]>) -> impl IntoView {
    let (first, more) = of_stage.split_at(of_stage.len().min(CAUTIONS_IN_VIEW));
    let lines = |all: &'static [Caution]| all.iter().map(|c| view! { <li>{c.words}</li> }).collect_view();
    view! {
        <section class="cautions" aria-label="Cautions">
            <ul>{lines(first)} {live(move || lines(of_machine.get()))}</ul>
            {(!more.is_empty())
                .then(|| {
                    view! {
                        <details>
                            <summary>{format!("{} more cautions", more.len())}</summary>
                            <ul>{lines(more)}</ul>
                        </details>
                    }
                })}
        </section>
    }
}

/// Has a reading among its tools.
fn reads_air(stage: Stage) -> bool {
    matches!(stage, Stage::Dry | Stage::FirstPass | Stage::SecondPass | Stage::AirOut)
}

/// What a stage needs besides its list.
#[component]
fn Tools(stage: Stage, open: Memo<Vec<AreaId>>) -> impl IntoView {
    match stage {
        Stage::TakeOff | Stage::Refit => view! { <BagsHere stage/> }.into_any(),
        Stage::Cover => view! { <Coverings sorts=&[Covering::Cover] putting_on=true/> }.into_any(),
        Stage::Degrease | Stage::Neutralise => view! { <MixHere stage/> }.into_any(),
        Stage::Dry => view! {
            <WetAgain/>
            <ReadingHere steel=true/>
            <List words="Moving the machine? Do this first." lines=MOVING note=""/>
        }
        .into_any(),
        Stage::Mask => view! {
            <BareList stage areas=open/>
            <Coverings sorts=&[Covering::Paper, Covering::Foil] putting_on=true/>
            <Arms/>
        }
        .into_any(),
        Stage::FirstPass | Stage::SecondPass => view! {
            <a class="button work" data-id="pass-list" href=format!("#/pass/{}", stage.slug())>"Pass list: read it outside"</a>
            <ReadingHere steel=true/>
            <BareList stage areas=open/>
            <Arms/>
        }
        .into_any(),
        Stage::AirOut => view! {
            <ClockRow/>
            <ReadingHere steel=false/>
            <Coverings sorts=&[Covering::Paper, Covering::Foil, Covering::Cover] putting_on=false/>
        }
        .into_any(),
        Stage::Aftercare => view! { <a class="button work" data-id="aftercare" href=Route::Aftercare.address()>"Dates, looks, touch-up"</a> }
            .into_any(),
        _ => ().into_any(),
    }
}

/// Rain in, a rinse, drops on the steel: what was dry goes back to Dry.
#[component]
fn WetAgain() -> impl IntoView {
    let session = use_session();
    let dry = memo(move || {
        session.job(|j| {
            let dry = j.areas().filter(|a| matches!(a.cell(Stage::Dry), Cell::Done(_)));
            dry.map(|a| a.id).collect::<Vec<_>>()
        })
    });
    let wet = move |_| session.write(What::Wetted { areas: dry.get_untracked(), reason: "it got wet again".into() });
    live(move || {
        (!dry.with(Vec::is_empty)).then(
            || view! { <button type="button" data-id="wet-again" on:click=tap(wet)>"It got wet again"</button> },
        )
    })
}

#[component]
fn List(words: &'static str, lines: &'static [&'static str], note: &'static str) -> impl IntoView {
    view! {
        <details class="more">
            <summary>{words}</summary>
            <ul>{lines.iter().map(|l| view! { <li>{*l}</li> }).collect_view()}</ul>
            <p class="quiet">{note}</p>
        </details>
    }
}

#[component]
fn Checks(stage: Stage) -> impl IntoView {
    let session = use_session();
    let checks = guide(stage).checks;
    (!checks.is_empty()).then(|| {
        view! {
            <details class="more checks">
                <summary>
                    {live(move || {
                        let ticked = session
                            .job(|j| checks.iter().filter(|c| j.ticks.contains(&(stage, c.id.to_string()))).count());
                        format!("Checks: {ticked} of {} ticked", checks.len())
                    })}
                </summary>
                <ul class="tickets">
                    {checks
                        .iter()
                        .map(|c| {
                            let on = memo(move || {
                                session.job(|j| j.ticks.contains(&(stage, c.id.to_string())))
                            });
                            view! {
                                <li>
                                    <button
                                        type="button"
                                        class="ticket check"
                                        role="checkbox"
                                        data-check=c.id
                                        data-state=said(move || if on.get() { "done" } else { "open" })
                                        aria-checked=said(move || if on.get() { "true" } else { "false" })
                                        on:click=tap(move |_| {
                                            session
                                                .write(What::Ticked {
                                                    stage,
                                                    item: c.id.into(),
                                                    on: !on.get_untracked(),
                                                });
                                        })
                                    >
                                        <span class="box" aria-hidden="true"></span>
                                        <span class="ticket-name">{c.words}</span>
                                    </button>
                                </li>
                            }
                        })
                        .collect_view()}
                </ul>
            </details>
        }
    })
}

/// "All done, except …", and "does not apply".
#[component]
fn AllExcept(stage: Stage, holds: Memo<Vec<Hold>>) -> impl IntoView {
    let session = use_session();
    let except = RwSignal::new(Vec::<AreaId>::new());
    let choosing = RwSignal::new(false);
    let open = memo(move || {
        session.job(|j| {
            j.areas().filter(|a| !a.cell(stage).settled()).map(|a| (a.id, a.name.clone())).collect::<Vec<_>>()
        })
    });
    let rest = memo(move || {
        open.with(|o| o.iter().map(|(id, _)| *id).filter(|id| except.with(|e| !e.contains(id))).collect::<Vec<_>>())
    });
    let flip = move |id| {
        except.update(|e| match e.iter().position(|x| *x == id) {
            Some(i) => {
                e.remove(i);
            }
            None => e.push(id),
        });
    };
    let word = move || match (except.with(Vec::len), stage) {
        (0, Stage::FirstPass | Stage::SecondPass) => "All sprayed".to_string(),
        (0, _) => "All done".to_string(),
        (n, _) => format!("Done, except {n}"),
    };
    let done = move |_| {
        session.write_with(What::Done { stage, areas: rest.get_untracked() }, None, move |_| {
            except.try_set(Vec::new());
        });
    };
    let apart = if stage == Stage::Dewax { "No wax found" } else { "Does not apply" };
    let skip = move |_| session.write(What::Skipped { stage, areas: rest.get_untracked(), reason: apart.into() });
    view! {
        <section class="all-except">
            {live(move || {
                (!open.with(Vec::is_empty))
                    .then(|| {
                        view! {
                            <div class="row">
                                <button type="button" data-id="except" aria-expanded=said(move || choosing.get().to_string()) on:click=tap(move |_| choosing.update(|c| *c = !*c))>
                                    "All, except …"
                                </button>
                                <button type="button" data-id="not-apply" on:click=tap(skip)>{apart}</button>
                            </div>
                            {live(move || {
                                choosing
                                    .get()
                                    .then(|| {
                                        view! {
                                            <ul class="tickets">
                                                {list(move || open.get(), |a| a.0, move |a| view! { <li>
                                                        <button
                                                            type="button"
                                                            class="ticket"
                                                            data-except=a.0.0.to_string()
                                                            data-state=said(move || if except.with(|e| e.contains(&a.0)) { "skipped" } else { "open" })
                                                            on:click=tap(move |_| flip(a.0))
                                                        >
                                                            <span class="ticket-name">{a.1.clone()}</span>
                                                            <span class="ticket-word">
                                                                {live(move || if except.with(|e| e.contains(&a.0)) { "not yet" } else { "done" })}
                                                            </span>
                                                        </button>
                                                    </li> }.into_any())}
                                            </ul>
                                        }
                                    })
                            })}
                            <div class="main-action">
                                <button
                                    type="button"
                                    class="main"
                                    data-id="all-done"
                                    data-held=mark(move || !holds.with(Vec::is_empty), "yes")
                                    on:click=tap(done)
                                >
                                    {word}
                                </button>
                            </div>
                        }
                    })
            })}
        </section>
        <Settled stage/>
    }
}

/// The areas one by one: a tap on the name opens it, "Done" finishes it.
#[component]
fn AreaByArea(stage: Stage) -> impl IntoView {
    let session = use_session();
    let areas = memo(move || session.job(|j| j.areas().map(|a| a.id).collect::<Vec<_>>()));
    let open = memo(move || session.job(|j| j.open_areas(stage)));
    let apart = if stage == Stage::Dewax { "No wax found on the rest" } else { "Does not apply to the rest" };
    let reason = if stage == Stage::Dewax { "No wax found" } else { "Does not apply" };
    view! {
        <section class="area-by-area">
            <h2>"Areas"</h2>
            <ul class="tickets">
                {list(move || areas.get(), |a| *a, move |id| view! { <AreaTicket stage id/> }.into_any())}
            </ul>
            {live(move || {
                (!open.with(Vec::is_empty))
                    .then(|| {
                        view! {
                            <button
                                type="button"
                                data-id="not-apply"
                                on:click=tap(move |_| {
                                    session.write(What::Skipped { stage, areas: open.get_untracked(), reason: reason.into() });
                                })
                            >
                                {apart}
                            </button>
                        }
                    })
            })}
        </section>
        {live(move || {
            open.with(|o| o.first().copied())
                .map(|id| {
                    view! {
                        <div class="main-action">
                            <a class="button main" data-id="next-area" href=Route::StageArea(stage, id).address()>
                                "Next: "{live(move || session.job(|j| j.area_name(id).to_owned()))}
                            </a>
                        </div>
                    }
                })
        })}
    }
}

#[component]
fn AreaTicket(stage: Stage, id: AreaId) -> impl IntoView {
    let session = use_session();
    let cell = memo(move || session.job(|j| j.area(id).map(|a| a.cell(stage).clone()).unwrap_or_default()));
    let name = move || session.job(|j| j.area_name(id).to_owned());
    let kept = move || session.job(|j| j.kept.iter().filter(|k| k.stage == stage && k.area == Some(id)).count());
    view! {
        <li class="ticket split" data-state=said(move || state(&cell.get())) data-area=id.0.to_string()>
            <a class="ticket-open" href=Route::StageArea(stage, id).address()>
                <span class="ticket-name">{live(name)}</span>
                <span class="ticket-word">
                    {live(move || word(&cell.get()))}
                    {live(move || claimed(session, stage, id).map(|by| format!(", {by} is on it")))}
                    {live(move || match kept() {
                        0 => String::new(),
                        n => format!(", {n} kept"),
                    })}
                </span>
            </a>
            {live(move || {
                (!cell.get().settled())
                    .then(|| {
                        view! {
                            <button
                                type="button"
                                class="ticket-button"
                                data-id="area-done"
                                on:click=tap(move |_| session.write(What::Done { stage, areas: vec![id] }))
                            >
                                "Done"
                            </button>
                        }
                    })
            })}
        </li>
    }
}

/// What was settled, for stages that are one entry.
#[component]
fn Settled(stage: Stage) -> impl IntoView {
    let session = use_session();
    let areas = memo(move || {
        session.job(|j| j.areas().filter(|a| a.cell(stage).settled()).map(|a| a.id).collect::<Vec<_>>())
    });
    live(move || {
        (!areas.with(Vec::is_empty)).then(|| {
            view! {
                <details class="more">
                    <summary>{format!("Settled on {} areas", areas.with(Vec::len))}</summary>
                    <ul class="tickets">
                        {list(move || areas.get(), |a| *a, move |id| view! { <AreaTicket stage id/> }.into_any())}
                    </ul>
                </details>
            }
        })
    })
}

/// Who is on a stage there, while it is open.
pub fn claimed(session: Session, stage: Stage, area: AreaId) -> Option<String> {
    session.job(|j| {
        let a = j.area(area).filter(|a| !a.cell(stage).settled())?;
        a.claimed(stage).map(|s| if s.by.is_empty() { "someone".to_owned() } else { s.by.clone() })
    })
}

/// A cell's state for the style: shape first.
pub fn state(cell: &Cell) -> &'static str {
    match cell {
        Cell::Open => "open",
        Cell::Again(_) => "blocked",
        Cell::Done(_) => "done",
        Cell::Skipped(..) => "skipped",
    }
}

/// A cell's state in words.
pub fn word(cell: &Cell) -> String {
    match cell {
        Cell::Open => "open".into(),
        Cell::Again(why) => format!("again: {why}"),
        Cell::Done(stamp) if stamp.by.is_empty() => "done".into(),
        Cell::Done(stamp) => format!("done, {}", stamp.by),
        Cell::Skipped(_, why) => format!("left out: {why}"),
    }
}
