//! A bag going back: what stands against it, its thread steps, its fasteners and plugs counted in.
//!
//! May use: the job, the gates. Must not: decide what may go back; the gates do.

use leptos::prelude::*;

use crate::app::parts::field::{Draft, Field};
use crate::app::parts::holds::Holds;
use crate::app::parts::kept::PhotoButton;
use crate::app::parts::live::{live, mark, memo, said, tap};
use crate::app::parts::stepper::stepper;
use crate::app::route::Route;
use crate::app::screens::sheet;
use crate::app::session::use_session;
use crate::app::shell::go;
use crate::job::entry::{Fastener, Fixing, What};
use crate::job::fold::Bag;
use crate::job::gate;
use crate::job::stage::Stage;
use crate::job::{tell, thread_steps};

/// The gate whose steps stand on this screen: its hold stands below them.
const STEPS: &str = "thread-steps";
/// More than came off by this much is a slip of a finger.
const MOST_OVER: u32 = 99;

/// All of it, down to "Empty, all back on".
#[component]
pub fn GoesBack(b: Bag) -> impl IntoView {
    let session = use_session();
    let (id, area) = (b.id, b.area);
    let areas = memo(move || vec![area]);
    // Against its refit only once refit is in sight: before, the bag just waits.
    let due = memo(move || session.job(|j| j.in_hand().is_none_or(|s| s >= Stage::AirOut)));
    let holds = memo(move || {
        let now = session.now.get();
        if due.get() { session.job(|j| gate::bag_holds(j, id, now)) } else { Vec::new() }
    });
    let (first, after) = (
        memo(move || holds.with(|h| h.iter().filter(|h| h.gate != STEPS).cloned().collect::<Vec<_>>())),
        memo(move || holds.with(|h| h.iter().filter(|h| h.gate == STEPS).cloned().collect::<Vec<_>>())),
    );
    let counts: Vec<Draft> = (0..b.fasteners.len()).map(|i| Draft::new(format!("back/{id}/{i}"), "")).collect();
    let plugs = Draft::new(format!("back/{id}/plugs"), "");
    let short = Draft::new(format!("back/{id}/short"), "");
    let (came, opened) = (b.fasteners_in(), b.plugs.unwrap_or(0));
    let counted = StoredValue::new(counts.clone());
    let sum = move || counted.with_value(|all| all.iter().map(|d| count(*d)).fold(0u32, u32::saturating_add));
    let differs = move || came.is_some_and(|n| n != sum()) || opened != count(plugs);
    let asked = RwSignal::new(false);
    let short_error = Signal::derive(move || {
        (asked.get() && differs() && short.get().trim().is_empty())
            .then(|| "Count again, or say why: a few words are enough.".to_string())
    });
    let put_back = move |_| {
        asked.set(true);
        let (sum, differs) = untrack(|| (sum(), differs()));
        let why = if differs { short.peek().trim().to_owned() } else { String::new() };
        let plugs_back = (opened > 0).then(|| untrack(|| count(plugs)));
        let what = What::BagBack { bag: id, counted: came.map(|_| sum), plugs: plugs_back, short: why };
        session.write_with(what, None, move |_| {
            counted.try_with_value(|all| all.iter().for_each(|d| d.clear()));
            [plugs, short].iter().for_each(|d| d.clear());
            go(Route::Bags);
        });
    };
    let sorts: Vec<AnyView> = b.fasteners.iter().enumerate().map(|(i, f)| sort(i, f, counts[i])).collect();
    view! {
        {live(move || match due.get() {
            true => view! { <Holds stage=Stage::Refit holds=first areas/> }.into_any(),
            false => view! { <PhotoButton stage=Stage::TakeOff area=Some(area) bag=Some(id)/> }.into_any(),
        })}
        // Folded while the bag just waits: what is asked at refit would only be in the way.
        <details class="more" data-id="goes-back" prop:open=move || due.get()>
        <summary>"When it goes back"</summary>
        {strip(&b)}
        {live(move || due.get().then(|| view! { <Holds stage=Stage::Refit holds=after areas/> }))}
        {(!sorts.is_empty()).then(|| view! { <h2>"Count them in"</h2> })}
        <ul class="bag-counts">{sorts}</ul>
        {(opened > 0).then(|| stepper(
            "Plugs connected",
            "back-plugs",
            move || format!("{} of {opened}", count(plugs)),
            move || (count(plugs) == 0, count(plugs) >= opened),
            move |by| plugs.set(untrack(|| count(plugs)).saturating_add_signed(by).min(opened).to_string()),
        ))}
        </details>
        {live(move || (asked.get() && differs()).then(|| view! {
            <Field label="Fewer or more than came off: why?" id="back-short" draft=short error=short_error hint="For example: one clip broke, a new one is in"/>
        }))}
        {live(move || due.get().then(|| view! {
            <div data-id="after-photo">
                <PhotoButton stage=Stage::Refit area=Some(area) bag=Some(id)/>
                <p class="quiet">"After: once it sits, before the tools go."</p>
            </div>
        }))}
        <div class=said(move || if due.get() { "main-action" } else { "row" })>
            <button type="button" class=said(move || if due.get() { "main" } else { "work" }) data-id="bag-back" on:click=tap(put_back)>
                {if b.screwed { "It is back on" } else { "Empty, all back on" }}
            </button>
        </div>
    }
}

fn count(draft: Draft) -> u32 {
    draft.get().parse().unwrap_or(0)
}

/// One sort of fasteners: all in by one tap, or counted.
fn sort(i: usize, f: &Fastener, draft: Draft) -> AnyView {
    let (off, name) = (f.count, tell::list(std::slice::from_ref(f)));
    let all = move || count(draft) == off;
    let step = move |by: i32| {
        let now = untrack(|| count(draft));
        draft.set(now.saturating_add_signed(by).min(off.saturating_add(MOST_OVER)).to_string());
    };
    let state = said(move || if all() { "done" } else { "open" });
    view! {
        <li class="ticket bag-count" data-state=state data-sort=i.to_string()>
            <span class="ticket-name">{name}</span>
            <span class="ticket-word" data-id="count-now">{live(move || format!("{} of {off} in", count(draft)))}</span>
            <div class="row">
                <button type="button" data-id="count-less" aria-label="One less" disabled=mark(move || count(draft) == 0, "") on:click=tap(move |_| step(-1))>"−"</button>
                <button type="button" data-id="count-more" aria-label="One more" on:click=tap(move |_| step(1))>"+"</button>
                <button type="button" class="count-all" data-id="count-all" aria-pressed=said(move || all().to_string()) on:click=tap(move |_| draft.set(off.to_string()))>
                    {format!("All {off} in")}
                </button>
            </div>
        </li>
    }
    .into_any()
}

/// The thread steps, each ticked as it is done.
fn strip(b: &Bag) -> AnyView {
    let session = use_session();
    let steps = thread_steps::of(b);
    if steps.is_empty() {
        return ().into_any();
    }
    let id = b.id;
    let rows: Vec<AnyView> = steps
        .iter()
        .map(|step| {
            let on = memo(move || session.job(|j| thread_steps::ticked(j, id, step)));
            let turn = move |_| {
                session.write(What::Ticked { stage: Stage::Refit, item: thread_steps::item(id, step), on: !on.get_untracked() })
            };
            view! {
                <li>
                    <button type="button" class="thread-step" data-id="thread-step" data-step=step.id aria-pressed=said(move || on.get().to_string()) on:click=tap(turn)>
                        <span class="good-box" aria-hidden="true"></span>
                        <span>{step.words}</span>
                    </button>
                </li>
            }
            .into_any()
        })
        .collect();
    view! {
        <section data-id="thread-steps">
            <h2>"Threads"</h2>
            <ol class="thread-strip">{rows}</ol>
            {torque(b)}
        </section>
    }
    .into_any()
}

/// A figure for plain joints, none for the others.
fn torque(b: &Bag) -> AnyView {
    let session = use_session();
    if b.joint != Fixing::Plain {
        return view! {
            <p class="caution" data-id="manual-only">
                {format!("Clean, dry, and by the machine's manual only: {}.", thread_steps::meant(b.joint))}
            </p>
        }
        .into_any();
    }
    let size = b.fasteners.iter().find_map(|f| thread_steps::size_of_sum(&f.size));
    let open = move |_| {
        let known = [("joint", "panel"), ("how", "size"), ("thread", size.unwrap_or_default()), ("surface", "film")];
        let known: Vec<_> = known.into_iter().filter(|k| !k.1.is_empty()).collect();
        sheet::fill_in(session, "thread", &known);
    };
    view! {
        <p class="caution">
            "Wheel, roll-over frame, brake, steering, driveline, seat-belt and towing fixings: clean, dry, and by the machine's manual only. Replace split pins, tab washers and one-use nuts."
        </p>
        <button type="button" data-id="thread-sum" on:click=tap(open)>
            {match size { Some(size) => format!("Torque for {size}, wet with film"), None => "Torque for plain fixings".into() }}
        </button>
    }
    .into_any()
}
