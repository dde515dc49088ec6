//! A sum: its answer above, what it asks below. One screen for every [`Sheet`].
//!
//! May use: the sheets, the session. Must not: reckon, or know any one sum.

use leptos::prelude::*;

use crate::app::parts::field::{Draft, Field};
use crate::app::parts::head::Head;
use crate::app::parts::live::{live, mark, memo, said, tap};
use crate::app::parts::picture::picture;
use crate::app::route::Route;
use crate::app::session::{Session, use_session};
use crate::job::entry::What;
use crate::job::fold::Reading;
use crate::sheets::{Ask, Filled, Given, Kind, Outcome, SHEETS, Sheet};
use crate::sums::air;
use crate::units::{CELSIUS, Gallons, HOUR, UnitSet};

/// The sum at that place of the list.
#[component]
pub fn SheetScreen(place: usize) -> impl IntoView {
    let session = use_session();
    let sheet: &'static Sheet = SHEETS[place.min(SHEETS.len() - 1)];
    let units = session.prefs.with_untracked(|p| p.units);
    let given = given(session);
    // What was typed as litres must not come back as gallons.
    let key = move |ask: &Ask| format!("{}/{}/{units:?}", sheet.slug, ask.id);
    let starts: Vec<String> = sheet.asks.iter().map(|ask| ask.start_text(units, &given)).collect();
    let drafts: Vec<Draft> = sheet
        .asks
        .iter()
        .zip(&starts)
        .map(|(ask, start)| {
            let kept = session.prefs.with_untracked(|p| p.kept.get(&key(ask)).cloned());
            Draft::new(format!("sum/{}", key(ask)), kept.unwrap_or_else(|| start.clone()))
        })
        .collect();
    let drafts = StoredValue::new(drafts);
    Effect::new(move || {
        for (i, ask) in sheet.asks.iter().enumerate().filter(|(_, a)| a.kept) {
            let typed = drafts.with_value(|d| d[i].get());
            let own = (typed != starts[i]).then_some(typed);
            if session.prefs.with_untracked(|p| p.kept.get(&key(ask)) != own.as_ref()) {
                session.choose(|p| match own {
                    Some(text) => drop(p.kept.insert(key(ask), text)),
                    None => drop(p.kept.remove(&key(ask))),
                });
            }
        }
    });
    let filled = memo(move || {
        let texts: Vec<String> = drafts.with_value(|d| d.iter().map(|d| d.get()).collect());
        Filled::read(sheet, units, given.clone(), &texts, gallons(session))
    });
    let outcome = memo(move || filled.with(Filled::answer));
    let asked: Vec<AnyView> = sheet
        .asks
        .iter()
        .enumerate()
        .map(|(i, ask)| question(session, ask, i, units, drafts.with_value(|d| d[i]), filled))
        .collect();
    let mut asked = asked.into_iter();
    let first = matches!(sheet.asks[0].kind, Kind::Choice(_)).then(|| asked.next());
    view! {
        <Head title=sheet.name.to_string() back=Route::Sums back_word="Sums"/>
        {first}
        <section class="sheet-answer" data-id="answer" aria-live="polite">{live(move || outcome.with(answer))}</section>
        <section class="sheet-more" data-id="answer-more">{live(move || outcome.with(more))}</section>
        <section class="sheet-asks">{asked.collect_view()}</section>
        <section class="cautions" data-id="cautions">
            <ul>{sheet.cautions.iter().map(|c| view! { <li>{*c}</li> }).collect_view()}</ul>
        </section>
        {live(move || keep(session, sheet, filled, outcome))}
        <details class="more" data-id="how-reckoned">
            <summary>"How it is reckoned"</summary>
            <p>{sheet.formula}</p>
            <p>"Source: "{sheet.source}</p>
        </details>
    }
}

/// Opens a sum with some of its questions answered: what stood there half typed gives way. The sum is asked in the units
/// chosen in the settings.
pub fn fill_in(session: Session, slug: &str, answers: &[(&str, &str)]) {
    let units = session.prefs.with_untracked(|p| p.units);
    for (ask, answer) in answers {
        Draft::new(format!("sum/{slug}/{ask}/{units:?}"), "").set((*answer).to_owned());
    }
    let _ = crate::device::window().location().set_hash(&format!("#/sums/{slug}"));
}

/// What stays in view while one types.
fn answer(o: &Outcome) -> AnyView {
    view! {
        {lines("figure-large", &o.big)}
        {lines("sheet-wait", o.wait.as_slice())}
        {lines("why", &o.warn)}
    }
    .into_any()
}

/// What stands below it.
fn more(o: &Outcome) -> AnyView {
    view! {
        {o.picture.as_ref().map(picture)}
        {o.doubt.as_ref().map(|d| view! { <p data-id="doubt"><strong>"Give or take: "</strong>{d.clone()}</p> })}
        {lines("", &o.small)}
    }
    .into_any()
}

fn lines(class: &'static str, all: &[String]) -> Vec<AnyView> {
    all.iter().map(|l| view! { <p class=class>{l.clone()}</p> }.into_any()).collect()
}

/// "Put in the record", while a job is open and there is an answer.
fn keep(session: Session, sheet: &'static Sheet, filled: Memo<Filled>, outcome: Memo<Outcome>) -> AnyView {
    if !session.has_job() {
        return view! { <p class="quiet">"No job is open: nothing is put in the record."</p> }.into_any();
    }
    if outcome.with(|o| o.big.is_empty()) {
        return ().into_any();
    }
    let write = move |_| {
        session.write(What::Sum {
            sum: sheet.name.into(),
            inputs: filled.with_untracked(Filled::inputs),
            result: outcome.with_untracked(|o| o.big.join(", ")),
        });
    };
    view! { <button type="button" class="work" data-id="sum-keep" on:click=tap(write)>"Put in the record"</button> }
        .into_any()
}

/// One question, hidden while it is not asked.
fn question(
    session: Session,
    ask: &'static Ask,
    place: usize,
    units: UnitSet,
    draft: Draft,
    filled: Memo<Filled>,
) -> AnyView {
    let hidden = memo(move || !filled.with(|f| f.asks(place)));
    let body = match ask.kind {
        Kind::Choice(options) => choice(ask, options(units), draft),
        _ => {
            let trouble = memo(move || filled.with(|f| f.trouble(place).cloned()));
            let error = Signal::derive(move || trouble.get().map(|t| t.words));
            let number = !matches!(ask.kind, Kind::List(..));
            let unit = ask.unit(units).map(str::to_string);
            let id = format!("ask-{}", ask.id);
            let hint = if ask.optional { format!("May stay empty. {}", ask.hint) } else { ask.hint.to_string() };
            view! {
                <Field label=ask.label id draft unit=Signal::stored(unit) error hint=Signal::stored(Some(hint)) number/>
                {live(move || trouble.get().is_some_and(|t| t.which_gallon).then(|| which_gallon(session)))}
            }
            .into_any()
        }
    };
    view! { <div class="sheet-ask" class:half=ask.half hidden=mark(move || hidden.get(), "")>{body}</div> }.into_any()
}

/// Asked once, then kept.
fn which_gallon(session: Session) -> AnyView {
    let say = |word: &'static str, id: &'static str, which: Gallons| {
        view! {
            <button type="button" data-id=id on:click=tap(move |_| session.choose(|p| p.gallons = Some(which)))>
                {word}
            </button>
        }
        .into_any()
    };
    view! {
        <div class="row">
            {say("US", "gallon-us", Gallons::Us)} {say("Imperial", "gallon-imperial", Gallons::Imperial)}
        </div>
    }
    .into_any()
}

/// A few words as buttons, more of them as a list of the phone's own.
fn choice(ask: &'static Ask, options: Vec<(&'static str, &'static str)>, draft: Draft) -> AnyView {
    // Buttons only where they fit one row of a phone.
    const MOST_LETTERS: usize = 26;
    let name = format!("ask-{}", ask.id);
    if options.iter().map(|o| o.1.len() + 3).sum::<usize>() > MOST_LETTERS {
        let for_id = name.clone();
        let all = options
            .into_iter()
            .map(|(id, words)| view! { <option value=id selected=draft.peek() == id>{words}</option> })
            .collect_view();
        return view! {
            <div class="field">
                <label for=for_id.clone()>{ask.label}</label>
                <select id=for_id data-id=name on:change=move |e| draft.set(event_target_value(&e))>{all}</select>
                {(!ask.hint.is_empty()).then(|| view! { <p class="field-more">{ask.hint}</p> })}
            </div>
        }
        .into_any();
    }
    let buttons = options
        .into_iter()
        .map(|(id, words)| {
            view! {
                <button
                    type="button"
                    class="chip"
                    data-id=format!("{name}-{id}")
                    aria-pressed=said(move || (draft.get() == id).to_string())
                    on:click=tap(move |_| draft.set(id.to_string()))
                >
                    {words}
                </button>
            }
        })
        .collect_view();
    view! { <fieldset><legend>{ask.label}</legend><div class="chips">{buttons}</div></fieldset> }.into_any()
}

/// What a bare "gal" means, tracked.
fn gallons(session: Session) -> Option<Gallons> {
    session.prefs.with(|p| p.units.gallons().or(p.gallons))
}

/// What the open job knows.
fn given(session: Session) -> Given {
    let now = session.now.get_untracked();
    let hours_ago = |r: &Reading| (now - r.stamp.at).num_seconds() as f64 / 3600.0;
    session.peek(|log| {
        let readings = &log.job().readings;
        let Some(last) = readings.last() else { return Given::default() };
        let told = |r: &Reading| {
            Some(air::Reading {
                at: HOUR.of(hours_ago(last) - hours_ago(r)),
                air: air::Air::new(CELSIUS.of(r.air_c), r.rh_pct?),
                steel: CELSIUS.of(r.steel_c?),
            })
        };
        Given {
            air_c: Some(last.air_c),
            rh_percent: last.rh_pct,
            steel_c: last.steel_c,
            readings: readings.iter().filter_map(told).collect(),
            age_hours: Some(hours_ago(last).max(0.0)),
        }
    })
}
