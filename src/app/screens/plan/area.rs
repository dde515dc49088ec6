//! One area's surface: how much there is of it, what it is made of, what it lives with, what the survey found, and the
//! owner's own measure in place of the estimate.
//!
//! May use: the plan's figures. Must not: reckon.

use crate::app::parts::live::{live, memo, said, tap};
use leptos::prelude::*;

use super::pieces::Pieces;
use crate::app::desk::planning::use_planning;
use crate::app::parts::ask::sentence;
use crate::app::parts::figure::{Figure, figure, forget};
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::job::entry::AreaId;
use crate::job::machine::{Advice, Condition, Exposure, Known, OwnArea, minutes_words, surface_words};
use crate::job::surface::Material;
use crate::sums::range::Field;
use crate::units::Measure;

/// How the owner gives the surface.
#[derive(Clone, Copy, PartialEq)]
enum Way {
    Estimate,
    Typed,
    Pieces,
}

impl Way {
    fn of(own: &OwnArea) -> Way {
        match (own.area_m2, own.pieces.is_empty()) {
            (Some(_), _) => Way::Typed,
            (None, false) => Way::Pieces,
            (None, true) => Way::Estimate,
        }
    }
}

/// Surface, material, exposure and condition of an area.
#[component]
pub fn AreaScreen(area: AreaId) -> impl IntoView {
    let session = use_session();
    let there = memo(move || session.job(|j| j.area(area).is_some()));
    let name = move || session.job(|j| j.area(area).map_or("No such area".to_owned(), |a| a.name.clone()));
    view! {
        <header class="head">
            <a class="back" href="#/plan/machine" data-id="back">
                <svg viewBox="0 0 24 24" class="sign" aria-hidden="true"><path d="M15 4l-8 8 8 8"/></svg>
                "Machine size"
            </a>
            <h1>{live(name)}</h1>
        </header>
        {live(move || match there.get() {
            true => view! { <Surface area/> }.into_any(),
            false => {
                view! {
                    <p>"It is not on this job's list of areas."</p>
                    <a class="button" href=Route::Areas.address()>"See the list of areas"</a>
                }
                    .into_any()
            }
        })}
    }
}

#[component]
fn Surface(area: AreaId) -> impl IntoView {
    let (session, planning) = (use_session(), use_planning());
    let row = memo(move || planning.plan.with(|p| p.figures.areas.iter().find(|a| a.id == Some(area)).cloned()));
    let unit = move || Measure::Area.unit(session.prefs.with(|p| p.units));
    let words = move || row.get().map(|a| surface_words(a.m2, unit())).unwrap_or_default();
    let material = memo(move || row.get().map(|a| a.made_of).unwrap_or_default());
    let exposure = memo(move || row.get().map(|a| a.exposure).unwrap_or_default());
    let condition = memo(move || row.get().map(|a| a.condition).unwrap_or_default());
    let chosen =
        memo(move || planning.setup.with(|s| s.machine.areas.get(&area).is_some_and(|o| o.made_of.is_some())));
    let choose = move |change: &dyn Fn(&mut OwnArea)| planning.choose(|s| s.machine.change_area(area, |o| change(o)));
    let name = move || row.get().map(|a| a.name).unwrap_or_default();
    view! {
        <section class="answer column" aria-live="polite">
            <p class="figure-large" data-id="area-m2-shown">{live(move || words().0)}</p>
            <p data-id="area-known">
                {live(move || format!("{}; {}.", words().1, row.get().map_or(Known::Guessed, |a| a.known).words()))}
            </p>
        </section>
        {live(move || {
            let faults = planning.plan.with(|p| p.faults.clone());
            let mine = name();
            faults
                .into_iter()
                .filter(|f| f.field == mine)
                .map(|f| view! { <p class="why" data-id="area-fault">{sentence(&f.line())}</p> })
                .collect_view()
        })}
        <Measuring area/>
        <h2>"Made of"</h2>
        {chips("made-of", &Material::ALL, Material::title, material, move |m| choose(&|o| o.made_of = Some(m)))}
        <p class="quiet" data-id="made-of-from">
            {live(move || match chosen.get() {
                true => "As you said.",
                false => "From the kind's list. Tap what most of yours is.",
            })}
        </p>
        {live(move || advice(material.get().follows()))}
        <h2>"Lives with"</h2>
        {chips("exposure", &Exposure::ALL, Exposure::title, exposure, move |e| choose(&|o| o.exposure = e))}
        {live(move || advice(exposure.get().follows()))}
        <h2>"The survey found"</h2>
        <ul class="choice-list">
            {Condition::ALL
                .into_iter()
                .map(|c| {
                    let mending = move || row.get().map(|a| minutes_words(a.mending(c))).unwrap_or_default();
                    view! {
                        <li>
                            <button
                                type="button"
                                class="ticket"
                                data-id=format!("condition-{}", slug(c.title()))
                                data-state=said(move || if condition.get() == c { "done" } else { "open" })
                                aria-pressed=said(move || (condition.get() == c).to_string())
                                on:click=tap(move |_| choose(&|o| o.condition = c))
                            >
                                <span class="ticket-name">{c.title()}</span>
                                <span class="ticket-word">
                                    {live(move || match c {
                                        Condition::Sound => mending(),
                                        _ => format!("mending: {}", mending()),
                                    })}
                                </span>
                            </button>
                        </li>
                    }
                })
                .collect_view()}
        </ul>
        <p class="quiet">"Minutes for one practised person: common practice, no source."</p>
        {live(move || advice(condition.get().follows()))}
    }
}

/// The estimate, a plain figure, or pieces added up.
#[component]
fn Measuring(area: AreaId) -> impl IntoView {
    let planning = use_planning();
    let stored = memo(move || planning.setup.with(|s| s.machine.areas.get(&area).map_or(Way::Estimate, Way::of)));
    // A way just tapped holds before there is anything to store, and while its field is emptied.
    let tapped = RwSignal::new(stored.get_untracked());
    let way = memo(move || match tapped.get() {
        Way::Estimate => stored.get(),
        tapped => tapped,
    });
    let change = move |change: &dyn Fn(&mut OwnArea)| planning.choose(|s| s.machine.change_area(area, |o| change(o)));
    let turn = move |to: Way| {
        tapped.set(to);
        match to {
            Way::Estimate => change(&|o| {
                o.area_m2 = None;
                o.pieces.clear();
            }),
            // A plain figure would go before the pieces.
            Way::Pieces => change(&|o| o.area_m2 = None),
            Way::Typed => {}
        }
        if to != Way::Typed {
            forget("area-m2");
        }
    };
    let one = move |id: &'static str, to: Way, words: &'static str| {
        view! {
            <button
                type="button"
                class="chip"
                data-id=id
                aria-pressed=said(move || (way.get() == to).to_string())
                on:click=tap(move |_| turn(to))
            >
                {words}
            </button>
        }
    };
    view! {
        <h2>"Measure this one"</h2>
        <div class="chips ways">
            {one("way-estimate", Way::Estimate, "Estimate")}
            {one("way-typed", Way::Typed, "Figure")}
            {one("way-pieces", Way::Pieces, "Shapes")}
        </div>
        {live(move || match way.get() {
            Way::Estimate => {
                view! { <p class="quiet">"From the kind's shapes and the overall size: common practice, no source."</p> }
                    .into_any()
            }
            Way::Typed => view! { <Typed area/> }.into_any(),
            Way::Pieces => view! { <Pieces area/> }.into_any(),
        })}
    }
}

#[component]
fn Typed(area: AreaId) -> impl IntoView {
    let planning = use_planning();
    let start = planning.setup.with_untracked(|s| s.machine.areas.get(&area).and_then(|o| o.area_m2));
    let asked = Figure {
        id: "area-m2".into(),
        label: "Surface, only what gets film".into(),
        field: Field::Area,
        measure: Some(Measure::Area),
        hint: "Leave out glass, rods, tyres. Empty: as before.".into(),
    };
    figure(
        asked,
        start,
        move |v| planning.change(|s| s.machine.change_area(area, |o| o.area_m2 = v)),
        move || planning.keep(),
    )
}

/// A choice of one, as chips.
fn chips<T: Copy + PartialEq + Send + Sync + 'static>(
    id: &'static str,
    all: &'static [T],
    title: fn(T) -> &'static str,
    now: Memo<T>,
    pick: impl Fn(T) + Copy + 'static,
) -> AnyView {
    let one = move |t: T| {
        view! {
            <button
                type="button"
                class="chip"
                data-id=format!("{id}-{}", slug(title(t)))
                aria-pressed=said(move || (now.get() == t).to_string())
                on:click=tap(move |_| pick(t))
            >
                {title(t)}
            </button>
        }
    };
    view! { <div class="chips">{all.iter().map(|t| one(*t)).collect_view()}</div> }.into_any()
}

/// "Rust in spots" as `rust-in-spots`.
pub fn slug(title: &str) -> String {
    title.to_ascii_lowercase().replace(", ", "-").replace(' ', "-")
}

/// What follows for the work: cautions first.
fn advice(all: &'static [Advice]) -> AnyView {
    let line = |a: &Advice| view! { <li>{a.words} <span class="basis">{a.basis.words()}</span></li> };
    let (cautions, rest): (Vec<&Advice>, Vec<&Advice>) = all.iter().partition(|a| a.caution);
    let cautions = (!cautions.is_empty())
        .then(|| view! { <section class="cautions" data-id="advice-cautions"><ul>{cautions.into_iter().map(line).collect_view()}</ul></section> });
    let rest = (!rest.is_empty())
        .then(|| view! { <ul class="advice" data-id="advice">{rest.into_iter().map(line).collect_view()}</ul> });
    view! { {cautions} {rest} }.into_any()
}
