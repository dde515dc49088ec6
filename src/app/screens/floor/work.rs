//! The work view: one area, two big buttons that must be held, the next step read aloud, the screen kept on.
//!
//! May use: the gates, the guide, the parts. Must not: hold a rule. The two passes have none: the phone stays outside.

use leptos::prelude::*;

use crate::app::parts::head::Head;
use crate::app::parts::kept::KeepHere;
use crate::app::parts::line::StageLine;
use crate::app::parts::live::{live, memo, said, tap};
use crate::app::parts::press::press;
use crate::app::route::Route;
use crate::app::session::{Session, use_session};
use crate::device::{hands, window};
use crate::job::entry::{AreaId, What};
use crate::job::gate;
use crate::job::guide::guide;
use crate::job::stage::Stage;
use crate::job::stretch;

/// The work view of the stage in hand.
#[component]
pub fn WorkScreen() -> impl IntoView {
    let session = use_session();
    let stage = memo(move || session.job(|j| j.in_hand()));
    live(move || {
        match stage.get() {
        None => view! {
            <Head title="Work view" back=Route::Today back_word="Today"/>
            <p class="aim">"No stage is in hand."</p>
        }
        .into_any(),
        Some(stage) if matches!(stage, Stage::FirstPass | Stage::SecondPass) => view! {
            <Head title=stage.title() back=Route::Today back_word="Today"/>
            <p class="caution">"The phone stays outside while you spray. Read the list here, outside, and log the pass afterwards."</p>
            <div class="main-action two">
                <a class="button main" data-id="work-list" href=format!("#/pass/{}", stage.slug())>"Read the list"</a>
                <a class="button main second" data-id="work-log" href=Route::Stage(stage).address()>"Log the pass"</a>
            </div>
        }
        .into_any(),
        Some(stage) => view! { <Work stage/> }.into_any(),
    }
    })
}

#[component]
fn Work(stage: Stage) -> impl IntoView {
    let session = use_session();
    let open = memo(move || session.job(|j| j.open_areas(stage)));
    let at = RwSignal::new(0usize);
    // One tap for the whole machine, or the area in hand.
    let areas = memo(move || {
        let open = open.get();
        let one = open.get(at.get() % open.len().max(1)).copied();
        if stage.one_entry() { open } else { one.into_iter().collect::<Vec<_>>() }
    });
    let place = memo(move || {
        let areas = areas.get();
        match areas.as_slice() {
            [one] => session.job(|j| j.area_name(*one).to_owned()),
            _ => "Whole machine".into(),
        }
    });
    let held = memo(move || {
        let (now, areas) = (session.now.get(), areas.get());
        session.job(|j| gate::holds(j, stage, &areas, now)).into_iter().next().map(|h| h.because)
    });
    let done = move || {
        session.write(What::Done { stage, areas: areas.get_untracked() });
    };
    let read = move || {
        let steps = guide(stage).steps.join(". ");
        let held = held.get_untracked().map(|h| format!("Not yet, because {h}. ")).unwrap_or_default();
        format!("{}. {}. {held}{steps}.", stage.title(), place.get_untracked())
    };
    let voice = RwSignal::new(true);
    view! {
        <Head title=Signal::derive(move || place.get()) back=Route::Today back_word="Today" over=stage.title()/>
        <StageLine/>
        {live(move || held.get().map(|h| view! {
            <p class="why" data-id="work-held"><strong>"Not yet, "</strong>"because "{h}"."</p>
            <div class="row"><a class="button" href=Route::Stage(stage).address()>{format!("Open {}", stage.title())}</a></div>
        }))}
        <div class="work-buttons">
            {match stage {
                Stage::Degrease => view! { <SoapButton areas/> }.into_any(),
                _ => press("work-read", "main second", "Read it to me".into_any(), move || { voice.set(hands::say(&read())); }),
            }}
            {press("work-done", "main", live(move || if areas.with(|a| a.len() > 1) { "All done" } else { "Done here" }), done)}
        </div>
        {live(move || (!voice.get()).then(|| view! { <p class="bad" role="alert" data-id="no-voice">"This phone has no voice."</p> }))}
        <div class="row">
            {(stage == Stage::Degrease).then(|| view! { <button type="button" data-id="work-read-small" on:click=tap(move |_| voice.set(hands::say(&read())))>"Read it to me"</button> })}
            {live(move || (!stage.one_entry() && open.with(|o| o.len() > 1)).then(|| view! {
                <button type="button" data-id="work-next" on:click=tap(move |_| at.update(|n| *n += 1))>"Other area"</button>
            }))}
            <Awake/>
        </div>
        <section class="steps"><ol>{guide(stage).steps.iter().map(|s| view! { <li>{*s}</li> }).collect_view()}</ol></section>
        {live(move || {
            let area = areas.with(|a| if let [one] = a.as_slice() { Some(*one) } else { None });
            view! { <KeepHere stage area bag=None/> }
        })}
    }
}

/// Soap on, or the stretch rinsed.
#[component]
fn SoapButton(areas: Memo<Vec<AreaId>>) -> impl IntoView {
    let session = use_session();
    let open = memo(move || {
        let areas = areas.get();
        session.job(|j| stretch::open(j).find(|s| areas.contains(&s.area)).map(|s| (s.id, s.ends())))
    });
    let left = move || {
        let now = session.now.get();
        open.get().map(|(_, ends)| {
            format!("{}{}", if ends < now { "over by " } else { "" }, stretch::clock_words(ends - now))
        })
    };
    let words = live(move || match left() {
        Some(left) => format!("Rinsed ({left})"),
        None => "Soap on".into(),
    });
    let act = move || match open.get_untracked() {
        Some((stretch, _)) => session.write(What::Rinsed { stretch }),
        None => soap(session, areas.get_untracked().first().copied()),
    };
    press("work-soap", "main second", words, act)
}

/// Soap on, by the last reading; sun and metal are chosen on the area's own screen.
fn soap(session: Session, area: Option<AreaId>) {
    let now = session.now.get_untracked();
    let (Some(area), rule) = (area, session.peek(|l| stretch::limit_now(l.job(), false, false, now))) else { return };
    match rule {
        Ok(minutes) => session.write(What::SoapOn { area, minutes, place: String::new() }),
        Err(why) => session.refused.set(Some(why.into())),
    }
}

/// Keeps the screen on while the work view is up, and says whether the phone does.
#[component]
fn Awake() -> impl IntoView {
    let session = use_session();
    let can = RwSignal::new(hands::keep_awake(true));
    let on = RwSignal::new(true);
    on_cleanup(|| {
        hands::keep_awake(false);
    });
    let flip = move |_| {
        on.update(|o| *o = !*o);
        can.set(hands::keep_awake(on.get_untracked()));
    };
    let holds = move || {
        session.now.track();
        let page = window().document().and_then(|d| d.document_element());
        page.and_then(|p| p.get_attribute("data-awake")).as_deref() == Some("yes")
    };
    let word = move || match (can.get(), on.get(), holds()) {
        (false, ..) => "This phone can't keep its screen on",
        (_, true, true) => "Screen stays on",
        (_, true, false) => "Screen may go dark",
        (_, false, _) => "Keep the screen on",
    };
    view! { <button type="button" class="chip" data-id="awake" aria-pressed=said(move || (on.get() && holds()).to_string()) on:click=tap(flip)>{live(word)}</button> }
}
