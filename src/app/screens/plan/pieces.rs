//! An area measured by pieces: add one, give its sides, take it out. Each is drawn with its measures; the sum follows.
//!
//! May use: the plan's setup, the sheets' drawing of a body. Must not: reckon.

use crate::app::parts::live::{list, live, memo, said, tap};
use leptos::prelude::*;

use super::area::slug;
use crate::app::desk::planning::use_planning;
use crate::app::parts::figure::{Figure, figure, forget};
use crate::app::parts::picture::picture;
use crate::app::session::use_session;
use crate::job::entry::AreaId;
use crate::job::machine::{OwnArea, surface_words};
use crate::job::surface::{FACES, Form, INTRICACIES, Piece};
use crate::sheets::{Solid, solid};
use crate::sums::band::Band;
use crate::sums::range::Field;
use crate::units::{METRE, Measure, UnitSet};

/// All pieces of an area, their sum, and buttons for another.
#[component]
pub fn Pieces(area: AreaId) -> impl IntoView {
    let (session, planning) = (use_session(), use_planning());
    let own = move || planning.setup.with(|s| s.machine.areas.get(&area).cloned().unwrap_or_default());
    let unit = move || Measure::Area.unit(session.prefs.with(|p| p.units));
    let changing = RwSignal::new(None::<usize>);
    let rows = memo(move || {
        let pieces = own().pieces;
        pieces.iter().enumerate().map(|(i, p)| (i, pieces.len(), p.form.title())).collect::<Vec<_>>()
    });
    let add = move |form: Form| {
        let n = own().pieces.len();
        changing.set(Some(n));
        planning.choose(|s| s.machine.change_area(area, |o| o.pieces.push(Piece::one(form))));
    };
    view! {
        {live(move || {
            let own = own();
            let open = own.pieces.iter().filter(|p| p.m2().is_none()).count();
            let sum = surface_words(Band::sure(own.pieces_m2()), unit()).0;
            view! {
                {(own.pieces_m2() > 0.0).then(|| view! { <p>"Together "<strong data-id="pieces-m2">{sum}</strong></p> })}
                {(open > 0).then(|| view! { <p class="why" data-id="pieces-open">"A shape without all its sides counts for nothing."</p> })}
            }
        })}
        <ul class="tickets">
            {list(move || rows.get(), |r| *r, move |(i, _, _)| view! { <PieceTicket area i changing/> }.into_any())}
        </ul>
        <p class="quiet">"Add a shape. Measure from the ground; leave out what stays bare."</p>
        <div class="chips">
            {Form::ALL
                .into_iter()
                .map(|f| {
                    view! {
                        <button type="button" data-id=format!("add-{}", slug(f.title())) on:click=tap(move |_| add(f))>
                            {f.title()}
                        </button>
                    }
                })
                .collect_view()}
        </div>
    }
}

#[component]
fn PieceTicket(area: AreaId, i: usize, changing: RwSignal<Option<usize>>) -> impl IntoView {
    let (session, planning) = (use_session(), use_planning());
    let set = session.prefs.with_untracked(|p| p.units);
    let piece =
        memo(move || planning.setup.with(|s| s.machine.areas.get(&area).and_then(|o| o.pieces.get(i).copied())));
    let open = memo(move || changing.get() == Some(i));
    let remove = move |_| {
        changing.set(None);
        planning.choose(|s| {
            s.machine.change_area(area, |o: &mut OwnArea| {
                if i < o.pieces.len() {
                    o.pieces.remove(i);
                }
            })
        });
        // Those behind it move up: what is half typed would move to another piece.
        for n in i..i + MOST_SHIFTED {
            for side in 0..3 {
                forget(&side_id(n, side));
            }
            forget(&format!("piece-{n}-count"));
        }
    };
    let size = move || match piece.get().and_then(|p| p.m2()) {
        Some(m2) => surface_words(Band::sure(m2), Measure::Area.unit(set)).0,
        None => "no size yet".into(),
    };
    view! {
        <li class="ticket piece" data-piece=i.to_string() data-state=said(move || if open.get() { "hand" } else { "open" })>
            <span class="surface-line">
                <span class="ticket-name">{live(move || piece.get().map(|p| name(&p)).unwrap_or_default())}</span>
                <span class="figure" data-id=format!("piece-{i}-m2")>{live(size)}</span>
            </span>
            {live(move || piece.get().map(|p| drawn(&p, set)))}
            {live(move || open.get().then(|| view! { <Sides area i set/> }))}
            <div class="row">
                <button
                    type="button"
                    data-id=format!("piece-{i}-change")
                    on:click=tap(move |_| changing.set((!open.get_untracked()).then_some(i)))
                >
                    {live(move || if open.get() { "Done" } else { "Change" })}
                </button>
                <button type="button" data-id=format!("piece-{i}-remove") on:click=tap(remove)>"Remove"</button>
            </div>
        </li>
    }
}

/// More pieces than anybody measures on one area.
const MOST_SHIFTED: usize = 20;

fn side_id(piece: usize, side: usize) -> String {
    format!("piece-{piece}-side-{side}")
}

fn name(p: &Piece) -> String {
    match p.count {
        1 => p.form.title().into(),
        n => format!("{} × {n}", p.form.title()),
    }
}

/// The fields and choices of one piece.
#[component]
fn Sides(area: AreaId, i: usize, set: UnitSet) -> impl IntoView {
    let planning = use_planning();
    let change = move |f: &dyn Fn(&mut Piece)| {
        planning.change(|s| s.machine.change_area(area, |o| o.pieces.get_mut(i).into_iter().for_each(f)))
    };
    let now = move || planning.setup.with(|s| s.machine.areas.get(&area).and_then(|o| o.pieces.get(i).copied()));
    let start = planning.setup.with_untracked(|s| s.machine.areas.get(&area).and_then(|o| o.pieces.get(i).copied()));
    let Some(start) = start else { return ().into_any() };
    let unit = Measure::Size.unit(set).symbol;
    let sides = start.form.sides().into_iter().enumerate().map(|(n, side)| {
        let asked = Figure {
            id: side_id(i, n),
            label: side.name.into(),
            field: Field::PartLength,
            measure: Some(Measure::Size),
            hint: format!("In {unit}"),
        };
        let known = (side.m != 0.0).then_some(side.m);
        let take = move |v: Option<f64>| change(&|p| p.form = p.form.with(n, v.unwrap_or_default()));
        figure(asked, known, take, move || planning.keep())
    });
    let sides = sides.collect_view();
    let count = figure(
        Figure {
            id: format!("piece-{i}-count"),
            label: "How many".into(),
            field: Field::PartCount,
            measure: None,
            hint: "A whole number. Empty: one".into(),
        },
        (start.count != 1).then_some(f64::from(start.count)),
        move |v| change(&|p| p.count = v.map_or(1, |v| v.round() as u32)),
        move || planning.keep(),
    );
    let chips = move |id: &'static str, all: &'static [(f64, &'static str)], of: fn(&mut Piece) -> &mut f64| {
        let one = move |(factor, words): (f64, &'static str)| {
            let is = memo(move || now().is_some_and(|mut p| *of(&mut p) == factor));
            view! {
                <button
                    type="button"
                    class="chip"
                    data-id=format!("piece-{i}-{id}-{}", slug(words))
                    aria-pressed=said(move || is.get().to_string())
                    on:click=tap(move |_| {
                        change(&|p| *of(p) = factor);
                        planning.keep();
                    })
                >
                    {words}
                </button>
            }
        };
        view! { <div class="chips">{all.iter().map(|c| one(*c)).collect_view()}</div> }
    };
    view! {
        <div class="overall">{sides} {count}</div>
        {chips("faces", &FACES, |p| &mut p.faces)}
        {chips("intricacy", &INTRICACIES, |p| &mut p.intricacy)}
        <p class="quiet">"Counts 1, 1.5 or 2 times: common practice, no source."</p>
    }
    .into_any()
}

/// The piece with its measures at the thing.
fn drawn(p: &Piece, set: UnitSet) -> AnyView {
    let sides = p.form.sides();
    let said = |n: usize| match sides.get(n) {
        None => String::new(),
        Some(s) if s.m == 0.0 => format!("{}?", s.name.to_ascii_lowercase()),
        Some(s) => Measure::Size.unit(set).print(METRE.def().to_si(s.m)),
    };
    // The body takes its words along, up and into the depth.
    let (body, order) = match p.form {
        Form::Box { .. } => (Solid::Box, [0, 2, 1]),
        Form::Plate { .. } => (Solid::Plate, [0, 1, 3]),
        Form::Tube { .. } => (Solid::Tube, [1, 0, 3]),
        Form::Wheel { .. } => (Solid::Wheel, [1, 0, 3]),
        Form::Rail { .. } => (Solid::Rail, [0, 1, 2]),
    };
    let [along, up, deep] = order.map(said);
    picture(&solid(body, [&along, &up, &deep]))
}
