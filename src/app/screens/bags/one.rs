//! One bag: what is in it, its photos, and at refit what stands before it goes back.
//!
//! May use: the job, the gates. Must not: decide the order; the gates do.

use crate::app::parts::live::{live, memo, tap};
use leptos::prelude::*;

use uuid::Uuid;

use crate::app::parts::head::Head;
use crate::app::parts::holds::Holds;
use crate::app::parts::kept::{KeptList, Of, PhotoButton};
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::app::shell::go;
use crate::job::entry::What;
use crate::job::fold::Bag;
use crate::job::gate;
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
            <p>"This bag is not in the job that is open."</p>
        }
        .into_any(),
        Some(b) => view! { <OneBag b/> }.into_any(),
    })
}

#[component]
fn OneBag(b: Bag) -> impl IntoView {
    let session = use_session();
    let area_name = session.peek(|l| l.job().area_name(b.area).to_owned());
    let (id, area, back) = (b.id, b.area, b.back.is_some());
    let areas = memo(move || vec![area]);
    // Against its refit only once refit is in sight: before, the bag just waits.
    let due = memo(move || session.job(|j| !back && j.in_hand().is_none_or(|s| s >= Stage::AirOut)));
    let holds = memo(move || {
        let now = session.now.get();
        if due.get() { session.job(|j| gate::bag_holds(j, id, now)) } else { Vec::new() }
    });
    let put_back = move |_| {
        session.write_with(
            What::BagBack { bag: id, counted: None, plugs: None, short: String::new() },
            None,
            move |_| go(Route::Bags),
        );
    };
    view! {
        <Head title=b.part.clone() back=Route::Bags back_word="Bags" over=area_name/>
        <p class="bag-number" data-id="bag-number"><span class="quiet">"Bag"</span>{b.number}</p>
        <p>{tell::list(&b.fasteners)}</p>
        {(!b.put.is_empty()).then(|| view! { <p>"Part is at: "<strong>{b.put.clone()}</strong></p> })}
        <KeptList of=Signal::derive(move || Of { stage: None, area: None, bag: Some(id) })/>
        <PhotoButton stage=if back { Stage::Refit } else { Stage::TakeOff } area=Some(area) bag=Some(id)/>
        {live(move || due.get().then(|| view! { <Holds stage=Stage::Refit holds areas/> }))}
        {if back {
            view! { <p class="ticket" data-state="done">"Back on the machine."</p> }.into_any()
        } else {
            view! {
                <p class="caution">
                    "Wheel, roll-over frame, brake, steering, driveline, seat-belt and towing fixings: clean, dry, and by the machine's manual only. Replace split pins, tab washers and one-use nuts."
                </p>
                <div class="main-action">
                    <button type="button" class="main" data-id="bag-back" on:click=tap(put_back)>"Empty, all back on"</button>
                </div>
            }
                .into_any()
        }}
    }
}
