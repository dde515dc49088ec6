//! One bag: what is in it, its photos, and at refit what stands before it goes back.
//!
//! May use: the job, the gates. Must not: decide the order; the gates do.

use crate::app::parts::live::{live, memo};
use leptos::prelude::*;

use uuid::Uuid;

use super::back::GoesBack;
use crate::app::parts::head::Head;
use crate::app::parts::kept::{KeptList, Of, PhotoButton};
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::job::entry::Fixing;
use crate::job::fold::Bag;
use crate::job::stage::Stage;
use crate::job::tell;

/// One bag, its number large enough to copy onto it.
#[component]
pub fn BagScreen(bag: Uuid) -> impl IntoView {
    let session = use_session();
    let it = memo(move || session.job(|j| j.bags.iter().find(|b| b.id == bag).cloned()));
    live(move || match it.get() {
        None => view! {
            <Head title="No such bag" back=Route::Bags back_word="Bags"/>
            <p data-id="no-bag">"This bag is not in the job that is open."</p>
        }
        .into_any(),
        Some(b) => view! { <OneBag b/> }.into_any(),
    })
}

#[component]
fn OneBag(b: Bag) -> impl IntoView {
    let session = use_session();
    let (area_name, label) = session.peek(|l| (l.job().area_name(b.area).to_owned(), l.job().bag_label(&b)));
    let (id, area, back) = (b.id, b.area, b.back.is_some());
    let in_front = {
        let ids = b.behind.clone();
        memo(move || {
            session.job(|j| {
                ids.iter().filter_map(|id| Some(j.bags.iter().find(|b| b.id == *id)?.words())).collect::<Vec<_>>()
            })
        })
    };
    let facts = facts(&b);
    view! {
        <Head title=b.part.clone() back=Route::Bags back_word="Bags" over=area_name/>
        <p class="bag-number" data-id="bag-number">
            <span class="quiet">{if b.screwed { "No bag, number" } else { "Bag" }}</span>
            {label}
        </p>
        <ul class="bag-facts" data-id="bag-facts">
            {facts.into_iter().map(|f| view! { <li>{f}</li> }).collect_view()}
            {live(move || in_front.get().into_iter().map(|w| view! { <li>"Sits behind "{w}</li> }).collect_view())}
        </ul>
        {photos(id, Stage::TakeOff, "Before, and off")}
        {photos(id, Stage::Refit, "Back on")}
        {if back {
            view! {
                <p class="ticket" data-state="done">"Back on the machine."</p>
                <PhotoButton stage=Stage::Refit area=Some(area) bag=Some(id)/>
                <p class="quiet">"After: as it sits now."</p>
            }
            .into_any()
        } else {
            view! { <GoesBack b/> }.into_any()
        }}
    }
}

/// Its photos of one stage, under a heading once there is one.
fn photos(bag: Uuid, stage: Stage, heading: &'static str) -> AnyView {
    let session = use_session();
    let any = memo(move || session.job(|j| j.kept.iter().any(|k| k.bag == Some(bag) && k.stage == stage)));
    let of = Of { stage: Some(stage), area: None, bag: Some(bag) };
    view! {
        <div data-photos=stage.slug()>
            {live(move || any.get().then(|| view! { <h2>{heading}</h2> }))}
            <KeptList of=Signal::derive(move || of)/>
        </div>
    }
    .into_any()
}

/// What is known of it, a line each.
fn facts(b: &Bag) -> Vec<String> {
    let joint = match b.joint {
        Fixing::Plain => String::new(),
        other => other.title().into(),
    };
    let lines = [
        tell::list(&b.fasteners),
        if b.screwed { "Its screws are back in, finger-tight".into() } else { String::new() },
        b.plugs.map(|n| format!("Plugs opened: {n}")).unwrap_or_default(),
        if b.put.is_empty() { String::new() } else { format!("Part is at: {}", b.put) },
        if b.coat { "Coat its edges and both faces".into() } else { String::new() },
        joint,
    ];
    lines.into_iter().filter(|l| !l.is_empty()).collect()
}
