//! What it really took: amounts and times logged, the film that so many litres made, and the next estimate.
//!
//! May use: `job::took`, [`planning`](crate::app::desk::planning). Must not: reckon.

use leptos::prelude::*;

use crate::app::clocks::local;
use crate::app::desk::planning::{Planning, use_planning};
use crate::app::parts::ask::sentence;
use crate::app::parts::figure::{Figure, figure, forget};
use crate::app::parts::head::Head;
use crate::app::parts::live::{live, memo, said, tap};
use crate::app::parts::stepper::stepper;
use crate::app::route::Route;
use crate::app::session::{Session, use_session};
use crate::job::entry::{What, tidy};
use crate::job::hours::MOST_HANDS;
use crate::job::materials::{Item, Measure as Counted, Show};
use crate::job::plan;
use crate::job::stage::Stage;
use crate::job::took::{self, Achieved};
use crate::sums::range::Field;
use crate::units::{MICROMETRE, Measure, SQUARE_METRE};

/// How an amount was found.
const NOTES: [&str; 4] = ["By dipstick", "Weighed", "Counted", "By eye"];

/// What it took.
#[component]
pub fn TookScreen() -> impl IntoView {
    let (session, planning) = (use_session(), use_planning());
    view! {
        <Head title="What it took" back=Route::Plan back_word="Plan"/>
        {film(session, planning)}
        {use_form(session, planning)}
        {time_form(session, planning)}
        {logged(session, planning)}
        {next(session, planning)}
    }
}

/// The film that the litres made.
fn film(session: Session, planning: Planning) -> AnyView {
    let reckoned = memo(move || {
        let film = planning.film();
        let seed = planning.setup.with(|s| s.seed);
        planning.plan.with(|p| session.job(|j| took::achieved(j, &p.figures, &film, seed)))
    });
    let words = move |a: Achieved| {
        let set = session.prefs.with(|p| p.units);
        let unit = Measure::Film.unit(set);
        let um = |v: f64| unit.print(MICROMETRE.def().to_si(v));
        let show = Show::of(set);
        let on =
            if a.passed { "that have their second pass" } else { "of the whole machine: no second pass is done yet" };
        let area = show.area.print(SQUARE_METRE.of(a.m2.likely));
        view! {
            <p class="over">"Dry film, on average"</p>
            <p class="figure-large" data-id="film-now">{format!("about {}", um(a.um.likely))}</p>
            <p>{format!("{} to {}. Wanted: {}, {} to {}.", um(a.um.low), um(a.um.high), um(a.wanted.likely), um(a.wanted.low), um(a.wanted.high))}</p>
            <p class="figure" data-id="film-against">{a.against()}</p>
            <p class="quiet">{format!("{} on {area} {on}.", show.amount(Item::FilmLiquid, a.litres))}</p>
            <p class="why">"Reckoned from litres, solids and loss, not measured. Edges, undersides and boxes have less."</p>
        }
        .into_any()
    };
    view! {
        <section class="answer column" data-id="film-answer">
            {live(move || match reckoned.get() {
                None => view! {
                    <p class="figure-large">"No film logged yet"</p>
                    <p>"Log the liquid film used: then the film it made stands here."</p>
                }
                .into_any(),
                Some(Ok(a)) => words(a),
                Some(Err(why)) => view! { <strong class="bad">{sentence(&why.to_string())}</strong> }.into_any(),
            })}
        </section>
    }
    .into_any()
}

/// What the amount of an item is asked in.
fn asked(item: Item, planned: String) -> Figure {
    let (field, measure) = match item.measure() {
        Counted::Litres => (Field::UsedVolume, Some(Measure::Volume)),
        Counted::SquareMetres => (Field::UsedArea, Some(Measure::Area)),
        Counted::Metres => (Field::UsedLength, Some(Measure::Size)),
        Counted::Pieces => (Field::UsedCount, None),
    };
    let other = if item.measure() == Counted::Litres { " Another unit: type it behind, 500 mL, 4 qt." } else { "" };
    Figure {
        id: format!("used-{}", item.slug()),
        label: "Used".into(),
        field,
        measure,
        hint: format!("{planned}{other}"),
    }
}

/// A new round begins once an entry is kept: what was typed for it goes, then, where the screen still stands.
fn cleared(round: RwSignal<u32>, last: StoredValue<u32>, id: &str) {
    if last.get_value() != round.get() {
        last.set_value(round.get());
        forget(id);
    }
}

/// Logs an amount.
fn use_form(session: Session, planning: Planning) -> AnyView {
    let item = RwSignal::new(Item::FilmLiquid);
    let amount = RwSignal::new(None::<f64>);
    let note = RwSignal::new(None::<&'static str>);
    let (round, last, empty) = (RwSignal::new(0u32), StoredValue::new(0u32), RwSignal::new(false));
    let pick = move |slug: String| {
        if let Some(picked) = Item::of_slug(&slug) {
            amount.set(None);
            empty.set(false);
            item.set(picked);
        }
    };
    let options = Item::ALL.map(|i| view! { <option value=i.slug()>{i.title()}</option> }.into_any());
    let field = move || {
        let item = item.get();
        cleared(round, last, &format!("used-{}", item.slug()));
        let planned = planning.list.with_untracked(|l| {
            let show = Show::of(session.prefs.with_untracked(|p| p.units));
            l.line(item).map_or(String::new(), |l| format!("Estimate: {}.", l.need_words(&show)))
        });
        figure(asked(item, planned), None, move |v| amount.set(v), || ())
    };
    let log = move |()| {
        let Some(much) = amount.get_untracked() else { return empty.set(true) };
        let of = item.get_untracked();
        let product_id = of.product().and_then(|u| session.peek(|l| l.job().product(u).map(|p| p.id)));
        let what = What::Used {
            stage: took::stage_of(of),
            item: of.slug().into(),
            amount: tidy(much),
            product_id,
            note: note.get_untracked().unwrap_or_default().into(),
        };
        session.write_with(what, None, move |_| {
            amount.try_set(None);
            note.try_set(None);
            empty.try_set(false);
            round.try_update(|r| *r += 1);
        });
    };
    let notes = NOTES.map(|word| {
        let on = move || note.get() == Some(word);
        view! {
            <button
                type="button"
                class="chip"
                data-id=format!("note-{}", word.replace(' ', "-").to_ascii_lowercase())
                aria-pressed=said(move || on().to_string())
                on:click=tap(move |()| note.set((!untrack(on)).then_some(word)))
            >
                {word}
            </button>
        }
        .into_any()
    });
    view! {
        <h2>"Log an amount"</h2>
        <div class="field">
            <label for="used-item">"Material"</label>
            <select id="used-item" data-id="used-item" on:change=move |e| pick(event_target_value(&e))>{Vec::from(options)}</select>
        </div>
        {live(field)}
        <fieldset><legend>"How you know"</legend><div class="chips">{Vec::from(notes)}</div></fieldset>
        {live(move || (empty.get() && amount.get().is_none()).then(|| view! { <strong class="bad" data-id="used-missing">"Type the amount first."</strong> }))}
        <button type="button" class="work" data-id="log-used" on:click=tap(log)>"Log the amount"</button>
    }
    .into_any()
}

/// Logs a time.
fn time_form(session: Session, planning: Planning) -> AnyView {
    // Mostly the stage in hand.
    let stage = RwSignal::new(session.peek(|l| l.job().in_hand()).unwrap_or(Stage::Refit));
    let minutes = RwSignal::new(None::<f64>);
    let hands = RwSignal::new(planning.setup.with_untracked(|s| s.how.hands.clamp(1, MOST_HANDS)));
    let (round, last, empty) = (RwSignal::new(0u32), StoredValue::new(0u32), RwSignal::new(false));
    let worked = |s: &Stage| !matches!(s, Stage::AirOut | Stage::Aftercare);
    let options = Stage::ALL.into_iter().filter(worked).map(|s| {
        let chosen = s == stage.get_untracked();
        view! { <option value=s.slug() selected=chosen>{s.title()}</option> }.into_any()
    });
    let field = move || {
        cleared(round, last, &format!("worked-{}", stage.get().slug()));
        let planned = planning.plan.with_untracked(|p| plan::lengths(p.work.of(stage.get()).minutes));
        let asked = Figure {
            id: format!("worked-{}", stage.get().slug()),
            label: "Minutes on the clock".into(),
            field: Field::WorkedMinutes,
            measure: None,
            hint: format!("Estimate for the whole stage: {planned}"),
        };
        figure(asked, None, move |v| minutes.set(v), || ())
    };
    let log = move |()| {
        let Some(min) = minutes.get_untracked() else { return empty.set(true) };
        let of = stage.get_untracked();
        let what = What::Worked { stage: of, minutes: tidy(min), hands: hands.get_untracked() };
        session.write_with(what, None, move |_| {
            minutes.try_set(None);
            empty.try_set(false);
            round.try_update(|r| *r += 1);
        });
    };
    let pick = move |slug: String| {
        if let Some(picked) = Stage::from_slug(&slug) {
            minutes.set(None);
            empty.set(false);
            stage.set(picked);
        }
    };
    view! {
        <h2>"Log a time"</h2>
        <div class="field">
            <label for="worked-stage">"Stage"</label>
            <select id="worked-stage" data-id="worked-stage" on:change=move |e| pick(event_target_value(&e))>{options.collect::<Vec<_>>()}</select>
        </div>
        {live(field)}
        {stepper(
            "Pairs of hands",
            "worked-hands",
            move || hands.get().to_string(),
            move || (hands.get() <= 1, hands.get() >= MOST_HANDS),
            move |by| hands.update(|h| *h = h.saturating_add_signed(by).clamp(1, MOST_HANDS)),
        )}
        {live(move || (empty.get() && minutes.get().is_none()).then(|| view! { <strong class="bad" data-id="worked-missing">"Type the minutes first."</strong> }))}
        <button type="button" class="work" data-id="log-worked" on:click=tap(log)>"Log the time"</button>
    }
    .into_any()
}

/// Sums against the estimate, and every entry with the way to take it back.
fn logged(session: Session, planning: Planning) -> AnyView {
    let show = move || Show::of(session.prefs.with(|p| p.units));
    let row = |name: String, words: String, more: String| {
        view! { <div><dt>{name}</dt><dd><span class="figure">{words}</span><span class="quiet">{more}</span></dd></div> }.into_any()
    };
    let sums = move || {
        let show = show();
        let amounts = planning.list.with(|l| session.job(|j| took::taken(j, l))).into_iter().map(|t| {
            let need = t.need.map_or(String::new(), |n| format!(", estimate {}", show.amount(t.item, n.likely)));
            row(t.item.title().into(), show.amount(t.item, t.amount), need)
        });
        let times = planning.plan.with(|p| session.job(|j| took::times(j, &p.work))).into_iter().map(|t| {
            let planned = format!(", estimate {}", plan::length(t.planned.likely));
            row(t.stage.title().into(), plan::length(t.minutes), planned)
        });
        amounts.chain(times).collect::<Vec<AnyView>>()
    };
    let entries = move || {
        let show = show();
        session.job(|j| {
            let used = j.used.iter().map(|u| {
                let item = Item::of_slug(&u.item);
                let amount = item.map_or(u.amount.to_string(), |i| show.amount(i, u.amount));
                let note =
                    if u.note.is_empty() { String::new() } else { format!(", {}", u.note.to_ascii_lowercase()) };
                (u.stamp.clone(), format!("{}: {amount}{note}", item.map_or(u.item.as_str(), |i| i.title())))
            });
            let worked = j.worked.iter().map(|w| {
                let hands =
                    if w.hands == 1 { "1 pair of hands".to_owned() } else { format!("{} pairs of hands", w.hands) };
                (w.stamp.clone(), format!("{}: {}, {hands}", w.stage.title(), plan::length(w.minutes)))
            });
            let mut all: Vec<_> = used.chain(worked).collect();
            all.sort_by_key(|e| std::cmp::Reverse(e.0.entry));
            all
        })
    };
    view! {
        <h2>"Logged"</h2>
        {live(move || {
            let sums = sums();
            match sums.is_empty() {
                true => view! { <p class="quiet" data-id="took-empty">"Nothing yet. What you log here makes your next estimate."</p> }.into_any(),
                false => view! { <dl class="rows" data-id="took-sums">{sums}</dl> }.into_any(),
            }
        })}
        {live(move || {
            let entries = entries();
            (!entries.is_empty()).then(|| {
                let rows = entries
                    .into_iter()
                    .map(|(stamp, words)| {
                        let id = stamp.entry;
                        view! {
                            <li class="entry-row" data-entry=id.to_string()>
                                <span>{words} <time class="quiet">{local(stamp.at)}</time></span>
                                <button type="button" data-id="take-back" on:click=tap(move |()| session.undo(id))>"Take back"</button>
                            </li>
                        }
                    })
                    .collect_view();
                view! {
                    <details class="more" data-id="took-entries">
                        <summary>"Each entry"</summary>
                        <ul class="entry-rows">{rows}</ul>
                    </details>
                }
            })
        })}
    }
    .into_any()
}

/// The next estimate.
fn next(session: Session, planning: Planning) -> AnyView {
    let shifts = memo(move || {
        let all = planning.inputs(|inputs| {
            planning.list.with(|l| planning.past.with(|past| session.job(|j| took::shifts(j, inputs, l, past))))
        });
        let show = Show::of(session.prefs.with(|p| p.units));
        let told = |s: &took::Shift| {
            let amount = |v: f64| s.item.map_or_else(|| plan::length(v), |i| show.amount(i, v));
            let name = s.item.map_or("All the work", Item::title);
            let band =
                format!("likely {}, {} to {}", amount(s.after.likely), amount(s.after.low), amount(s.after.high));
            (name, band, format!("Was {}. {}", amount(s.before.likely), sentence(&s.from)))
        };
        all.iter().map(told).collect::<Vec<_>>()
    });
    let demo = memo(move || session.job(|j| j.demo));
    view! {
        <h2>"Your next estimate"</h2>
        {live(move || {
            let all = shifts.get();
            if demo.get() {
                return view! { <p class="quiet">"This example is invented: it teaches nothing."</p> }.into_any();
            }
            if all.is_empty() {
                return view! {
                    <p class="quiet" data-id="next-empty">"A machine like this one would be estimated as before. An amount or a time counts once its stage is finished."</p>
                }
                .into_any();
            }
            let rows = all
                .into_iter()
                .map(|(name, band, from)| {
                    view! { <div><dt>{name}</dt><dd><span class="figure">{band}</span> <span class="quiet">{from}</span></dd></div> }
                })
                .collect_view();
            view! { <dl class="rows tall" data-id="next">{rows}</dl> }.into_any()
        })}
    }
    .into_any()
}
