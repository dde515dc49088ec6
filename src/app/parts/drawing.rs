//! The machine drawn from its areas, from the side or from above: tap one. State by fill pattern, outline and sign, then
//! by word and count under the drawing.
//!
//! May use: the kinds' shapes. Must not: know how a stage is judged or a surface is measured.

use crate::app::parts::live::{live, memo, said, tap};
use leptos::prelude::*;
use leptos::svg;

use super::field::Draft;
use crate::app::session::use_session;
use crate::device::window;
use crate::job::entry::AreaId;
use crate::job::kinds::{Kind, Shape, View, bounds, kind};

/// How an area is painted.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    Open,
    /// The first open one, in the order one walks round.
    Next,
    Done,
    Skipped,
    Again,
    /// No area of this job.
    Gone,
    Measured,
    Estimated,
    Guessed,
}

impl Tone {
    fn word(self) -> &'static str {
        match self {
            Tone::Open => "open",
            Tone::Next => "next",
            Tone::Done => "done",
            Tone::Skipped => "skipped",
            Tone::Again => "again",
            Tone::Gone => "gone",
            Tone::Measured => "measured",
            Tone::Estimated => "estimated",
            Tone::Guessed => "guessed",
        }
    }

    /// Its pattern, where a plain face will not do.
    fn fill(self) -> &'static str {
        match self {
            Tone::Skipped | Tone::Estimated => "url(#hatch)",
            Tone::Again => "url(#bars)",
            Tone::Guessed => "url(#dots)",
            _ => "none",
        }
    }

    /// Its sign, about 20 wide, round the middle: the state must be plain without colour.
    fn sign(self) -> &'static str {
        match self {
            Tone::Done | Tone::Measured => "M-9 0l6 7l12 -14",
            Tone::Skipped => "M-10 0h20",
            Tone::Again => "M6 -7a9 9 0 1 0 3 8M8 -13v7h-7",
            Tone::Next => "M-5 -9l9 9l-9 9",
            Tone::Guessed => "M-5 -6a5 5 0 1 1 7 5q-2 1 -2 4M0 9v1",
            Tone::Open | Tone::Gone | Tone::Estimated => "",
        }
    }
}

/// The open job's machine; areas of the user's own stand only in the list below it.
#[component]
pub fn MachineDrawing(
    /// How an area is painted, by its id.
    tone: Callback<AreaId, Tone>,
    /// Where a tap on an area leads.
    to: fn(AreaId) -> String,
) -> impl IntoView {
    let session = use_session();
    let machine = memo(move || session.job(|j| j.machine.clone()));
    let chosen = Draft::new("machine-view", "side");
    let view = memo(move || if chosen.get() == "top" { View::Top } else { View::Side });
    live(move || {
        let k = kind(&machine.get())?;
        let one = move |word: &'static str, v: View, name: &'static str| {
            view! {
                <button
                    type="button"
                    class="chip"
                    data-id=format!("view-{word}")
                    aria-pressed=said(move || (view.get() == v).to_string())
                    on:click=tap(move |_| chosen.set(word.into()))
                >
                    {name}
                </button>
            }
        };
        Some(view! {
            <div class="chips views">{one("side", View::Side, "From the side")} {one("top", View::Top, "From above")}</div>
            {live(move || drawn(k, view.get(), tone, to))}
        })
    })
}

fn drawn(k: &'static Kind, view: View, tone: Callback<AreaId, Tone>, to: fn(AreaId) -> String) -> AnyView {
    let session = use_session();
    let state = move |of: &'static str| {
        let here = memo(move || session.job(|j| j.areas().find(|a| a.of == of).map(|a| (a.id, a.name.clone()))));
        (here, memo(move || here.get().map_or(Tone::Gone, |(id, _)| tone.run(id))))
    };
    let areas = k
        .painted(view)
        .into_iter()
        .map(|(a, outline)| {
            let (here, tone) = state(a.id);
            let open = move |_| {
                if let Some((id, _)) = here.get_untracked() {
                    let _ = window().location().set_hash(&to(id));
                }
            };
            let name = move || here.get().map(|(_, n)| n).unwrap_or_default();
            let word = is_boxed(outline, k).then(|| box_word(a.name, outline));
            view! {
                <g
                    class="part"
                    data-tone=said(move || tone.get().word())
                    data-area=a.id
                    fill=said(move || tone.get().fill())
                    on:click=tap(open)
                >
                    <title>{live(name)}</title>
                    {shapes(outline)}
                    {word}
                </g>
            }
        })
        .collect_view();
    let signs = k
        .in_sight(view)
        .into_iter()
        .map(|s| {
            let (_, tone) = state(s.area.id);
            let outline = k.outline(s.area.id, view);
            let (at, size) = match is_boxed(outline, k) {
                // On the upper edge, clear of the word.
                true => ((bounds(outline).2 - 12.0, bounds(outline).1), 0.7),
                false => (s.at, (s.side / 24.0).clamp(0.6, 1.2)),
            };
            sign(move || tone.get(), at, size)
        })
        .collect_view();
    let d = k.drawing();
    let from = if view == View::Side { "the side" } else { "above" };
    let ground = (view == View::Side).then(|| view! { <path class="ground" d=ground_line(k)/> });
    view! {
        <svg
            class="machine"
            data-id="drawing"
            data-view=if view == View::Side { "side" } else { "top" }
            viewBox=format!("0 0 {} {}", f64::from(d.width), f64::from(d.height))
            role="img"
            aria-label=format!("{} from {from}, front to the left", k.name)
        >
            {patterns()}
            {areas}
            <g class="detail">{shapes(d.detail_in(view))}</g>
            {ground}
            {signs}
        </svg>
    }
    .into_any()
}

/// What each tone on the drawing means and how often it is there; tones that are not there are left out.
pub fn tally(rows: Vec<(Tone, usize, &'static str)>) -> AnyView {
    let rows = rows
        .into_iter()
        .filter(|r| r.1 > 0)
        .map(|(tone, count, word)| {
            view! {
                <li data-id=format!("tally-{}", tone.word())>
                    <svg class="machine swatch" viewBox="0 0 44 32" aria-hidden="true">
                        <g class="part" data-tone=tone.word() fill=tone.fill()><path d=swatch()/></g>
                        {sign(move || tone, (22.0, 16.0), 0.8)}
                    </svg>
                    <span><strong>{count.to_string()}</strong>" "{word}</span>
                </li>
            }
        })
        .collect_view();
    view! { <ul class="tally">{rows}</ul> }.into_any()
}

fn swatch() -> String {
    "M2 2h40v28h-40Z".into()
}

/// A sign over a halo of the ground, so that it stands out on any pattern.
fn sign(tone: impl Fn() -> Tone + Copy + Send + 'static, (x, y): (f32, f32), size: f32) -> AnyView {
    let [x, y, size] = [x, y, size].map(f64::from);
    view! {
        <g class="mark" data-tone=said(move || tone().word()) transform=format!("translate({x:.1} {y:.1}) scale({size:.2})")>
            <path class="halo" d=said(move || tone().sign())/>
            <path class="stroke" d=said(move || tone().sign())/>
        </g>
    }
    .into_any()
}

/// The three patterns; their strokes take their colours from the stylesheet.
fn patterns() -> AnyView {
    let one = |id: &'static str, turn: &'static str, strokes: &'static str| {
        svg::pattern()
            .attr("id", id)
            .attr("width", "9")
            .attr("height", "9")
            .attr("patternUnits", "userSpaceOnUse")
            .attr("patternTransform", turn)
            .child((
                svg::path().attr("class", format!("{id}-back")).attr("d", "M0 0h9v9h-9Z"),
                svg::path().attr("class", format!("{id}-ink")).attr("d", strokes),
            ))
    };
    svg::defs()
        .child((
            one("hatch", "rotate(45)", "M4.5 0v9"),
            one("bars", "rotate(0)", "M0 4.5h9"),
            one("dots", "rotate(0)", "M3 4.5h3"),
        ))
        .into_any()
}

/// A kind as it is offered: no states, nothing to tap.
pub fn kind_picture(k: &'static Kind) -> impl IntoView {
    let areas = k
        .painted(View::Side)
        .into_iter()
        .filter(|(_, outline)| !is_boxed(outline, k))
        .map(|(_, outline)| view! { <g class="part" data-tone="open">{shapes(outline)}</g> })
        .collect_view();
    let d = k.drawing();
    let view_box = format!("0 0 {} {}", f64::from(d.width), f64::from(d.ground + 4.0));
    view! {
        <svg class="machine small" viewBox=view_box aria-hidden="true">
            {areas} <g class="detail">{shapes(d.detail)}</g>
            <path class="ground" d=ground_line(k)/>
        </svg>
    }
}

fn ground_line(k: &Kind) -> String {
    format!("M0 {}H{}", f64::from(k.drawing().ground), f64::from(k.drawing().width))
}

/// Unseen in a view: drawn as a box with its name under the machine.
fn is_boxed(outline: &[Shape], k: &Kind) -> bool {
    bounds(outline).1 > k.drawing().ground
}

fn box_word(name: &'static str, outline: &[Shape]) -> AnyView {
    let (l, t, r, b) = bounds(outline);
    let first = name.split(' ').next().unwrap_or(name);
    let (x, y) = (f64::from(l + r) / 2.0, f64::from(t + b) / 2.0 + 8.0);
    view! { <text class="box-word" x=x.to_string() y=y.to_string()>{first}</text> }.into_any()
}

fn shapes(all: &'static [Shape]) -> Vec<AnyView> {
    all.iter()
        .map(|s| {
            let line = matches!(s, Shape::Line(_));
            view! { <path class=if line { "stroke" } else { "" } d=path_of(s)/> }.into_any()
        })
        .collect()
}

/// A shape as the letters of an SVG path.
fn path_of(s: &Shape) -> String {
    let through = |points: &[(f32, f32)]| {
        let corner = |(x, y): &(f32, f32)| format!("{} {}", f64::from(*x), f64::from(*y));
        points.iter().map(corner).collect::<Vec<_>>().join("L")
    };
    match *s {
        Shape::Rect { x, y, w, h, r } => {
            let [x, y, w, h, r] = [x, y, w, h, r].map(f64::from);
            let (across, down) = (w - 2.0 * r, h - 2.0 * r);
            let (ne, se, sw, nw) = (turn(r, r, r), turn(r, -r, r), turn(r, -r, -r), turn(r, r, -r));
            format!("M{} {y}h{across}{ne}v{down}{se}h{}{sw}v{}{nw}Z", x + r, -across, -down)
        }
        Shape::Circle { cx, cy, r } => {
            let [cx, cy, r] = [cx, cy, r].map(f64::from);
            format!("M{} {cy}{}{}Z", cx - r, turn(r, 2.0 * r, 0.0), turn(r, -2.0 * r, 0.0))
        }
        Shape::Poly(points) => format!("M{}Z", through(points)),
        Shape::Line(points) => format!("M{}", through(points)),
    }
}

/// An arc of radius `r` to a point `x`, `y` further on; nothing where there is no radius.
fn turn(r: f64, x: f64, y: f64) -> String {
    if r > 0.0 { format!("a{r} {r} 0 0 1 {x} {y}") } else { String::new() }
}
