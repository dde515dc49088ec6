//! Days and hands: when one works, who works and how; the timeline follows at once, and each choice has its price.
//!
//! May use: [`planning`](crate::app::desk::planning), the choices of `job::plan`. Must not: reckon.

use chrono::{Days, Local, NaiveDate};
use leptos::prelude::*;

use super::overview::faults;
use crate::app::desk::planning::{Planning, day, use_planning};
use crate::app::parts::ask::sentence;
use crate::app::parts::choice::choice;
use crate::app::parts::figure::{Figure, figure};
use crate::app::parts::head::Head;
use crate::app::parts::live::{live, memo, said, tap};
use crate::app::parts::stepper::stepper;
use crate::app::parts::timeline::timeline;
use crate::app::route::Route;
use crate::app::session::{Session, use_session};
use crate::job::hours::MOST_HANDS;
use crate::job::materials::Show;
use crate::job::moment;
use crate::job::plan::{self, Setup};
use crate::job::stage::Stage;
use crate::sums::range::Field;
use crate::units::Measure;

/// Days and hands.
#[component]
pub fn DaysScreen() -> impl IntoView {
    let (session, planning) = (use_session(), use_planning());
    view! {
        <Head title="Days and hands" back=Route::Plan back_word="Plan"/>
        {dates(session, planning)}
        {begin(session, planning)}
        {week(planning)}
        {hands(planning)}
        {waits(session, planning)}
        <h2>"Timeline"</h2>
        {timeline(planning)}
        {faults(planning)}
        <h2>"Could be done otherwise"</h2>
        {choices(planning)}
        {minutes(session, planning)}
    }
}

/// The dates that follow, always in view.
fn dates(session: Session, planning: Planning) -> AnyView {
    let told = memo(move || {
        let show = Show::of(session.prefs.with(|p| p.units));
        let now = planning.now.get();
        planning.plan.with(|p| planning.list.with(|l| plan::answer(p, l, &show, now, &Local)))
    });
    view! {
        <section class="sheet-answer" data-id="days-answer" aria-live="polite">
            <p class="figure" data-id="plan-dates">{live(move || told.get().dates)}</p>
            <p>"Work left: " {live(move || told.get().work)}</p>
        </section>
    }
    .into_any()
}

/// The day one means to begin.
fn begin(session: Session, planning: Planning) -> AnyView {
    let today = move || day(planning.now.get());
    let tomorrow = move || today().checked_add_days(Days::new(1)).unwrap_or(today());
    let begin = memo(move || planning.setup.with(|s| s.begin));
    let picked = RwSignal::new(false);
    let is = move |which: usize| match (picked.get(), begin.get()) {
        (true, _) => which == 2,
        (_, None) => which == 0,
        (_, Some(d)) if d <= today() => which == 0,
        (_, Some(d)) if d == tomorrow() => which == 1,
        _ => which == 2,
    };
    let chip = move |which: usize, word: &'static str, id: &'static str| {
        let act = move |()| {
            picked.set(which == 2);
            match which {
                0 => planning.choose(|s| s.begin = None),
                1 => planning.choose(|s| s.begin = Some(untrack(tomorrow))),
                _ => {}
            }
        };
        view! {
            <button type="button" class="chip" data-id=id aria-pressed=said(move || is(which).to_string()) on:click=tap(act)>
                {word}
            </button>
        }
        .into_any()
    };
    let typed = move |words: String| {
        let read: Option<NaiveDate> = moment::day::read(&words);
        if let Some(date) = read {
            planning.choose(|s| s.begin = Some(date));
        }
    };
    view! {
        <fieldset>
            <legend>"Begin"</legend>
            <div class="chips big-chips">
                {chip(0, "Today", "begin-today")} {chip(1, "Tomorrow", "begin-tomorrow")} {chip(2, "Another day", "begin-pick")}
            </div>
            {live(move || is(2).then(|| {
                let value = begin.get_untracked().map(moment::day::write).unwrap_or_default();
                let least = moment::day::write(untrack(today));
                view! {
                    <div class="field">
                        <label for="begin-date">"Day"</label>
                        <div class="field-row">
                            <input id="begin-date" data-id="begin-date" type="date" min=least prop:value=value on:change=move |e| typed(event_target_value(&e))/>
                        </div>
                    </div>
                }
            }))}
            {live(move || {
                let begun = session.job(|j| !j.last_done.is_empty());
                let past = begin.get().is_some_and(|d| d < today());
                match (begun, past) {
                    (true, _) => Some("Work has begun: the plan goes on from now."),
                    (_, true) => Some("That day is over: the plan begins now."),
                    _ => None,
                }
                .map(|w| view! { <p class="quiet" data-id="begin-words">{w}</p> })
            })}
        </fieldset>
    }
    .into_any()
}

/// The hours and days one works.
fn week(planning: Planning) -> AnyView {
    let from = planning.setup.with_untracked(|s| s.week.from_min);
    let typed = move |words: String| {
        let read = words
            .split_once(':')
            .and_then(|(h, m)| Some(h.parse::<u32>().ok()? * 60 + m.get(..2)?.parse::<u32>().ok()?));
        if let Some(min) = read {
            planning.choose(|s| s.week.from_min = min);
        }
    };
    let hours = Figure {
        id: "day-hours".into(),
        label: "Hours a day".into(),
        field: Field::DayHours,
        measure: None,
        hint: "Breaks not counted. Default 8 h".into(),
    };
    let start = planning.setup.with_untracked(|s| s.week.hours);
    let take = move |v: Option<f64>| planning.change(|s| s.week.hours = v.unwrap_or(Setup::default().week.hours));
    let names = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];
    let days = names.iter().enumerate().map(|(i, name)| {
        let on = move || planning.setup.with(|s| s.week.days[i]);
        view! {
            <button
                type="button"
                class="chip day-chip"
                data-id=format!("day-{name}")
                aria-pressed=said(move || on().to_string())
                on:click=tap(move |()| planning.choose(|s| s.week.days[i] = !s.week.days[i]))
            >
                {*name}
            </button>
        }
        .into_any()
    });
    let none = move || planning.setup.with(|s| s.week.days == [false; 7]);
    view! {
        <div>
            <div class="field">
                <label for="day-from">"Day starts at"</label>
                <div class="field-row">
                    <input
                        id="day-from"
                        data-id="day-from"
                        type="time"
                        prop:value=format!("{:02}:{:02}", from / 60 % 24, from % 60)
                        on:change=move |e| typed(event_target_value(&e))
                    />
                </div>
                <p class="field-more">"Default 08:00"</p>
            </div>
            {figure(hours, Some(start), take, move || planning.keep())}
        </div>
        <fieldset>
            <legend>"Working days"</legend>
            <div class="chips seven">{days.collect::<Vec<_>>()}</div>
            {live(move || none().then(|| view! {
                <strong class="bad" data-id="field-error">"Choose at least one. Until then the plan takes every day."</strong>
            }))}
        </fieldset>
    }
    .into_any()
}

/// Who works and how.
fn hands(planning: Planning) -> AnyView {
    let how = move |read: fn(&Setup) -> bool| planning.setup.with(read);
    let hands = memo(move || planning.setup.with(|s| s.how.hands));
    let lamps = memo(move || (planning.setup.with(|s| s.how.lamps_taped), planning.plan.with(|p| p.figures.lamps)));
    let step = |n: u32, by: i32| n.saturating_add_signed(by);
    view! {
        {stepper(
            "Pairs of hands",
            "hands",
            move || hands.get().to_string(),
            move || (hands.get() <= 1, hands.get() >= MOST_HANDS),
            move |by| planning.choose(|s| s.how.hands = step(s.how.hands, by).clamp(1, MOST_HANDS)),
        )}
        {choice(
            "Who has done it before",
            &["Practised", "First job"],
            move || Some(usize::from(how(|s| s.how.first_job))),
            move |i| planning.choose(|s| s.how.first_job = i == 1),
        )}
        {choice(
            "The machine is",
            &["Clean or dusty", "Filthy, caked"],
            move || Some(usize::from(how(|s| s.how.filthy))),
            move |i| planning.choose(|s| s.how.filthy = i == 1),
        )}
        {choice(
            "Wipe surplus grease off before the wash",
            &["Wipe first", "Skip the wipe"],
            move || Some(usize::from(how(|s| s.how.skip_wipe))),
            move |i| planning.choose(|s| s.how.skip_wipe = i == 1),
        )}
        {stepper(
            "Lamps taped over, left on",
            "lamps",
            move || { let (n, all) = lamps.get(); format!("{n} of {all}") },
            move || { let (n, all) = lamps.get(); (n == 0, n >= all) },
            move |by| {
                let all = lamps.get_untracked().1;
                planning.choose(|s| s.how.lamps_taped = step(s.how.lamps_taped, by).min(all));
            },
        )}
    }
    .into_any()
}

/// What makes the waits: warm-up and the shed's temperature.
fn waits(session: Session, planning: Planning) -> AnyView {
    let read = session.peek(|l| l.job().last_reading().is_some());
    let shed = Figure {
        id: "shed-c".into(),
        label: "Shed, while it airs out".into(),
        field: Field::CureTemperature,
        measure: Some(Measure::Temperature),
        hint: if read { "Left empty: your last reading" } else { "Left empty: 15 °C (59 °F), a default" }.into(),
    };
    let warm = Figure {
        id: "warm-up".into(),
        label: "Warm-up before the passes".into(),
        field: Field::WaitMinutes,
        measure: None,
        hint: "Minutes. Default: none. The shed's page reckons it".into(),
    };
    let cold = Figure {
        id: "heater-off".into(),
        label: "Heater out before the first can".into(),
        field: Field::WaitMinutes,
        measure: None,
        hint: "Minutes. Out and cold before any can is opened".into(),
    };
    let now = planning.setup.with_untracked(|s| (s.shed_c, s.warm_up_min, s.heater_off_min));
    let some = |min: f64| (min > 0.0).then_some(min);
    let keep = move || planning.keep();
    view! {
        {figure(shed, now.0, move |v| planning.change(|s| s.shed_c = v), keep)}
        {figure(warm, some(now.1), move |v| planning.change(|s| s.warm_up_min = v.unwrap_or(0.0)), keep)}
        {figure(cold, some(now.2), move |v| planning.change(|s| s.heater_off_min = v.unwrap_or(0.0)), keep)}
    }
    .into_any()
}

/// What could be done otherwise, one tap each.
fn choices(planning: Planning) -> AnyView {
    let all = memo(move || planning.choices());
    live(move || {
        let all = all.get();
        if all.is_empty() {
            return view! { <p class="quiet">"No choice is left open."</p> }.into_any();
        }
        let ticket = |c: plan::Choice| {
            let id = c.id;
            let price = c.price();
            view! {
                <li>
                    <div class="ticket choice" data-id=format!("choice-{id}")>
                        <span class="ticket-name">{c.words}</span>
                        <span class="ticket-word">{sentence(&price)}</span>
                        <p class="why">{c.caution}</p>
                        <button type="button" class="choice-take" data-id=format!("take-{id}") on:click=tap(move |()| planning.choose(|s| *s = c.setup.clone()))>
                            "Take it"
                        </button>
                    </div>
                </li>
            }
            .into_any()
        };
        view! { <ul class="tickets">{all.into_iter().map(ticket).collect::<Vec<_>>()}</ul> }.into_any()
    })
}

/// Minutes of every stage, and where they come from.
fn minutes(session: Session, planning: Planning) -> AnyView {
    let rows = move || {
        planning.plan.with(|p| {
            let row = |stage: &Stage| {
                let b = p.work.of(*stage).minutes;
                let done = p.finished.iter().any(|(s, _)| s == stage);
                (b.high > 0.0).then(|| (stage.title(), plan::lengths(b), done))
            };
            Stage::ALL.iter().filter_map(row).collect::<Vec<_>>()
        })
    };
    let from = move || {
        planning.plan.with(|p| match p.work.learnt.jobs {
            0 => "Baseline: common practice, no source. Your finished jobs replace it.".to_owned(),
            _ => sentence(&p.work.learnt.words()),
        })
    };
    let logged = move || session.job(|j| !j.worked.is_empty());
    view! {
        <h2>"Time for each stage"</h2>
        <p class="quiet" data-id="minutes-from">{live(from)}</p>
        <dl class="rows" data-id="minutes">
            {live(move || {
                rows()
                    .into_iter()
                    .map(|(name, words, done)| {
                        view! { <div><dt>{name} {done.then_some(", done")}</dt><dd>{words}</dd></div> }
                    })
                    .collect_view()
            })}
        </dl>
        {live(move || {
            let words = if logged() { "What it really took" } else { "Log what it really took" };
            view! { <a class="button wide" data-id="to-took" href="#/plan/took">{words}</a> }
        })}
    }
    .into_any()
}
