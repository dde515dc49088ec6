//! The machine's surface: how much there is to wash and coat, its overall size, and each area with where its figure
//! comes from.
//!
//! May use: the plan's figures. Must not: reckon.

use crate::app::parts::live::{list, live, memo, said};
use leptos::prelude::*;

use crate::app::desk::planning::use_planning;
use crate::app::parts::ask::sentence;
use crate::app::parts::drawing::{MachineDrawing, Tone, tally};
use crate::app::parts::figure::{Figure, figure};
use crate::app::parts::head::Head;
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::job::entry::AreaId;
use crate::job::kinds::{SIZE_NOTE, kind};
use crate::job::machine::{Fault, Known, Machine, Measured, surface_words};
use crate::sums::range::Field;
use crate::units::{METRE, Measure};

/// Where an area's surface stands.
pub fn address(area: AreaId) -> String {
    format!("#/plan/area/{}", area.0)
}

/// The surface of the whole machine.
#[component]
pub fn MachineScreen() -> impl IntoView {
    let (session, planning) = (use_session(), use_planning());
    let figures = memo(move || planning.plan.with(|p| p.figures.clone()));
    let unit = memo(move || session.prefs.with(|p| p.units));
    let words = move |m2| surface_words(m2, Measure::Area.unit(unit.get()));
    let known = move |what: Known| figures.with(|f| f.areas.iter().filter(|a| a.known == what).count());
    let ids = memo(move || figures.with(|f| f.areas.iter().filter_map(|a| a.id).collect::<Vec<_>>()));
    let area = move |id: AreaId| figures.with(|f| f.areas.iter().find(|a| a.id == Some(id)).cloned());
    let tone = Callback::new(move |id: AreaId| match area(id).map(|a| a.known) {
        Some(Known::Measured) => Tone::Measured,
        Some(Known::Guessed) => Tone::Guessed,
        _ => Tone::Estimated,
    });
    view! {
        <Head title="Machine size" back=Route::Plan back_word="Plan"/>
        <section class="answer column" aria-live="polite">
            <p class="figure-large" data-id="size-m2">{live(move || words(figures.with(|f| f.m2)).0)}</p>
            <p>
                <span data-id="size-range">{live(move || words(figures.with(|f| f.m2)).1)}</span>
                " to wash and to coat."
            </p>
        </section>
        {live(move || {
            let faults = planning.plan.with(|p| p.faults.iter().filter(|f| p.figures.has(f)).cloned().collect::<Vec<_>>());
            let line = |f: Fault| view! { <p class="why" data-id="size-fault">{sentence(&f.line())}</p> };
            faults.into_iter().map(line).collect_view()
        })}
        <MachineDrawing tone to=address/>
        {live(move || {
            tally(vec![
                (Tone::Measured, known(Known::Measured), Known::Measured.words()),
                (Tone::Estimated, known(Known::Estimated), Known::Estimated.words()),
                (Tone::Guessed, known(Known::Guessed), Known::Guessed.words()),
            ])
        })}
        <h2>"Overall size"</h2>
        <p class="quiet">{SIZE_NOTE}" Left empty, the typical size counts."</p>
        <div class="overall">{SIDES.into_iter().map(side).collect_view()}</div>
        <h2>"Its areas"</h2>
        <p class="quiet">"Tap one to measure it, or to say what it is made of."</p>
        <ul class="tickets">
            {list(move || ids.get(), |id| *id, move |id| {
                let row = memo(move || area(id));
                let of = move |f: &dyn Fn(Measured) -> String| row.get().map(f).unwrap_or_default();
                view! {
                    <li>
                        <a
                            class="ticket"
                            data-id=format!("surface-{}", id.0)
                            href=address(id)
                            data-state=said(move || row.get().map_or("open", |a| state(a.known)))
                        >
                            <span class="surface-line">
                                <span class="ticket-name">{live(move || of(&|a| a.name))}</span>
                                <span class="figure">{live(move || of(&|a| words(a.m2).0))}</span>
                            </span>
                            <span class="ticket-word">
                                {live(move || of(&|a| format!("{}; {}", words(a.m2).1, a.known.words())))}
                            </span>
                            <span class="ticket-word">{live(move || of(&|a| a.remarks()))}</span>
                        </a>
                    </li>
                }
                    .into_any()
            })}
        </ul>
        <a class="button" data-id="edit-areas" href=Route::Areas.address()>"Change the list of areas"</a>
    }
}

/// Measured is done, guessed is to be done.
fn state(known: Known) -> &'static str {
    match known {
        Known::Measured => "done",
        Known::Estimated => "open",
        Known::Guessed => "hand",
    }
}

/// A side of the machine: id, label, where it stands, what is typical.
type Side = (&'static str, &'static str, fn(&mut Machine) -> &mut Option<f64>, fn(&crate::job::kinds::Kind) -> f64);

const SIDES: [Side; 3] = [
    ("machine-length", "Length", |m| &mut m.length_m, |k| k.length_m),
    ("machine-width", "Width", |m| &mut m.width_m, |k| k.width_m),
    ("machine-height", "Height", |m| &mut m.height_m, |k| k.height_m),
];

fn side((id, label, of, typical): Side) -> AnyView {
    let (session, planning) = (use_session(), use_planning());
    let unit = Measure::Size.unit(session.prefs.with_untracked(|p| p.units));
    let (start, k) = planning.setup.with_untracked(|s| (*of(&mut s.machine.clone()), kind(&s.machine.kind)));
    let hint =
        k.map_or("Measure yours".to_owned(), |k| format!("Typical: {}", unit.print(METRE.def().to_si(typical(k)))));
    let asked = Figure {
        id: id.into(),
        label: label.into(),
        field: Field::MachineLength,
        measure: Some(Measure::Size),
        hint,
    };
    figure(asked, start, move |v| planning.change(|s| *of(&mut s.machine) = v), move || planning.keep())
}
