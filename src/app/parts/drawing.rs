//! The machine drawn from its areas: tap one. State by fill pattern, outline and sign, then by word in the list below.
//!
//! May use: the kinds' shapes. Must not: know how a stage is judged.

use crate::app::parts::live::{live, memo, said, tap};
use leptos::prelude::*;
use leptos::svg;

use crate::app::route::Route;
use crate::app::session::use_session;
use crate::app::shell::go;
use crate::job::entry::AreaId;
use crate::job::kinds::{Kind, KindArea, Shape, kind};

/// How an area is painted.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    Open,
    Hand,
    Done,
    Skipped,
    Gone,
}

impl Tone {
    fn word(self) -> &'static str {
        match self {
            Tone::Open => "open",
            Tone::Hand => "hand",
            Tone::Done => "done",
            Tone::Skipped => "skipped",
            Tone::Gone => "gone",
        }
    }
}

/// The open job's machine; areas of the user's own stand only in the list below it.
#[component]
pub fn MachineDrawing(
    /// How an area is painted, by its id.
    tone: Callback<AreaId, Tone>,
) -> impl IntoView {
    let session = use_session();
    let machine = memo(move || session.job(|j| j.machine.clone()));
    let here = move |of: &str| session.job(|j| j.areas().find(|a| a.of == of).map(|a| (a.id, a.name.clone())));
    live(move || {
        let k = kind(&machine.get())?;
        let areas = k
            .back_to_front()
            .into_iter()
            .map(|a| {
                let there = memo(move || here(a.id));
                let state = move || there.get().map_or(Tone::Gone, |(id, _)| tone.run(id)).word();
                let open = move |_| {
                    if let Some((id, _)) = there.get_untracked() {
                        go(Route::Area(id));
                    }
                };
                let name = move || there.get().map(|(_, n)| n).unwrap_or_default();
                view! {
                    <g class="part" data-tone=said(state) data-area=a.id on:click=tap(open)>
                        <title>{live(name)}</title>
                        {shapes(a.shape)}
                        {sign(a, k)}
                    </g>
                }
            })
            .collect_view();
        Some(frame(k, areas))
    })
}

/// A kind as it is offered: no states, nothing to tap.
pub fn kind_picture(k: &'static Kind) -> impl IntoView {
    let areas = k
        .back_to_front()
        .into_iter()
        .filter(|a| !a.is_boxed(&k.drawing))
        .map(|a| view! { <g class="part" data-tone="open">{shapes(a.shape)}</g> })
        .collect_view();
    let d = &k.drawing;
    let view_box = format!("0 0 {} {}", d.width, d.ground + 4.0);
    view! {
        <svg class="machine small" viewBox=view_box aria-hidden="true">
            {areas} <g class="detail">{shapes(d.detail)}</g>
            <path class="ground" d=format!("M0 {g}H{w}", g = d.ground, w = d.width)/>
        </svg>
    }
}

fn frame(k: &'static Kind, areas: impl IntoView) -> impl IntoView {
    let d = &k.drawing;
    view! {
        <svg class="machine" viewBox=format!("0 0 {} {}", d.width, d.height) role="img" aria-label=format!("{} from the side", k.name)>
            {areas} <g class="detail">{shapes(d.detail)}</g>
            <path class="ground" d=format!("M0 {g}H{w}", g = d.ground, w = d.width)/>
        </svg>
    }
}

/// A tick for done, a stroke for left out, in the middle of the area: the state must be plain without colour.
fn sign(a: &'static KindArea, k: &'static Kind) -> impl IntoView {
    let (l, t, r, b) = a.bounds();
    let (x, y) = ((l + r) / 2.0, (t + b) / 2.0);
    let word = a.is_boxed(&k.drawing).then(|| {
        let first = a.name.split(' ').next().unwrap_or(a.name);
        view! { <text class="box-word" x=x.to_string() y=(b - 7.0).to_string()>{first}</text> }
    });
    let up = if a.is_boxed(&k.drawing) { y - 9.0 } else { y };
    view! {
        <path class="sign-done" d=format!("M{} {up}l5 6l9 -12", x - 7.0)/>
        <path class="sign-skipped" d=format!("M{} {up}h16", x - 8.0)/>
        {word}
    }
}

fn shapes(all: &'static [Shape]) -> Vec<AnyView> {
    all.iter().map(shape).collect()
}

fn shape(s: &'static Shape) -> AnyView {
    let points = |p: &[(f32, f32)]| p.iter().map(|(x, y)| format!("{x},{y}")).collect::<Vec<_>>().join(" ");
    match *s {
        Shape::Rect { x, y, w, h, r } => svg::rect()
            .attr("x", x.to_string())
            .attr("y", y.to_string())
            .attr("width", w.to_string())
            .attr("height", h.to_string())
            .attr("rx", r.to_string())
            .into_any(),
        Shape::Circle { cx, cy, r } => {
            svg::circle().attr("cx", cx.to_string()).attr("cy", cy.to_string()).attr("r", r.to_string()).into_any()
        }
        Shape::Poly(p) => svg::polygon().attr("points", points(p)).into_any(),
        Shape::Line(p) => svg::polyline().attr("class", "stroke").attr("points", points(p)).into_any(),
    }
}
