//! What comes off, area by area: off, taped or still to go; with what speaks for either.
//!
//! May use: the list of parts, `tape_or_off`. Must not: choose between them.

use leptos::prelude::*;

use super::new::fill_in;
use crate::app::parts::head::Head;
use crate::app::parts::live::{list, live, memo, tap};
use crate::app::route::Route;
use crate::app::session::{Session, use_session};
use crate::job::entry::AreaId;
use crate::job::part_list::{self, Part, State};
use crate::job::tape_or_off;

/// The list.
#[component]
pub fn Parts() -> impl IntoView {
    let session = use_session();
    let parts = memo(move || session.job(part_list::all));
    let to_go = move || parts.with(|all| all.iter().filter(|p| p.state == State::ToGo).count());
    let off = move || parts.with(|all| all.iter().filter(|p| matches!(p.state, State::Off(_))).count());
    let taped = move || parts.with(|all| all.iter().filter(|p| matches!(p.state, State::Taped(_))).count());
    let areas = memo(move || {
        parts.with(|all| {
            let mut ids: Vec<AreaId> = all.iter().map(|p| p.area).collect();
            ids.dedup();
            ids
        })
    });
    let section = move |area: AreaId| {
        let here = memo(move || parts.with(|all| all.iter().filter(|p| p.area == area).cloned().collect::<Vec<_>>()));
        let name = session.peek(|l| l.job().area_name(area).to_owned());
        view! {
            <section data-area=area.0.to_string()>
                <h2>{name}</h2>
                <ul class="tickets">
                    {list(move || here.get(), |p| (p.name.clone(), p.state), move |p| view! { <li>{row(session, p)}</li> }.into_any())}
                </ul>
            </section>
        }
        .into_any()
    };
    view! {
        <Head title="What comes off" back=Route::Bags back_word="Bags"/>
        <section class="answer column" data-id="parts-answer">
            {live(move || match (parts.with(Vec::is_empty), to_go()) {
                (true, _) => view! { <p>"No list for this machine. Fill a bag for each part that comes off."</p> }.into_any(),
                (_, n) => view! {
                    <p class="figure-large">{format!("{n} still to go")}</p>
                    <p>{format!("{} off, {} taped", off(), taped())}</p>
                }.into_any(),
            })}
        </section>
        <p class="quiet">"The list is what usually comes off such a machine: common practice, no source. Times are for one part, from the same list."</p>
        {list(move || areas.get(), |a| *a, section)}
        <div class="main-action"><a class="button main" data-id="new-bag" href=Route::NewBag.address()>"Another part"</a></div>
    }
}

fn row(session: Session, part: Part) -> AnyView {
    let Part { area, name, state } = part;
    let head = view! { <span class="ticket-name">{name.clone()}</span> };
    let bag = |id| {
        session.peek(|l| l.job().bags.iter().find(|b| b.id == id).map(|b| l.job().bag_label(b)).unwrap_or_default())
    };
    match state {
        State::Off(id) | State::Back(id) => {
            let back = matches!(state, State::Back(_));
            let words = format!("{} {}", if back { "back, bag" } else { "off, bag" }, bag(id));
            view! {
                <a class="ticket" data-part=name.clone() data-state=if back { "done" } else { "hand" } href=Route::Bag(id).address()>
                    {head} <span class="ticket-word">{words}</span>
                </a>
            }
            .into_any()
        }
        State::Taped(_) => view! {
            <div class="ticket" data-part=name.clone() data-state="hand">{head} <span class="ticket-word">"taped. The tape is on the list in Mask; off at touch-dry."</span></div>
        }
        .into_any(),
        State::TapeOff => view! {
            <div class="ticket" data-part=name.clone() data-state="done">{head} <span class="ticket-word">"was taped, tape is off"</span></div>
        }
        .into_any(),
        State::ToGo => {
            let (off, tape) = (name.clone(), name.clone());
            view! {
                <div class="ticket part-open" data-part=name.clone() data-state="open">
                    {head}
                    {either(&name)}
                    <div class="row">
                        <button type="button" class="work" data-id="part-off" on:click=tap(move |_| fill_in(area, &off))>"Take it off"</button>
                        <button type="button" class="work" data-id="part-tape" on:click=tap(move |_| session.write(part_list::tape(area, &tape)))>"Tape it"</button>
                    </div>
                </div>
            }
            .into_any()
        }
    }
}

/// Minutes either way and what stays without film, where something is known.
fn either(part: &str) -> AnyView {
    match tape_or_off::choice(part) {
        None => ().into_any(),
        Some(c) => view! {
            <p class="part-either">
                {format!("Off and back {:.0} min, tape {:.0} min. ", c.off_min, c.tape_min)}
                <span class="quiet">"Taped, no film gets to "{c.uncoated}"."</span>
            </p>
        }
        .into_any(),
    }
}
