//! The report: which photos, which paper; what it looks like; print it or hand it over as one file.
//!
//! May use: [`report`](crate::share::report), which says what stands in it. Must not: reckon, or put a typed word in as HTML.

use std::collections::BTreeSet;

use chrono::{Datelike, Local, Utc};
use js_sys::{Array, Function, Reflect};
use leptos::prelude::*;
use uuid::Uuid;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::HtmlImageElement;

use crate::app::clocks::local;
use crate::app::desk::planning::day;
use crate::app::parts::choice::choice;
use crate::app::parts::hand_over::hand_over_file;
use crate::app::parts::head::Head;
use crate::app::parts::live::{live, memo, tap};
use crate::app::parts::small::Small;
use crate::app::route::Route;
use crate::app::session::{Session, use_session};
use crate::device::{bytes, photo, window};
use crate::job::fold::{Job, Keep, Kept};
use crate::job::timeline::{comparable, pair, shots};
use crate::job::{airlog, moment};
use crate::share::report::html::{self, Piece};
use crate::share::report::{About, Chosen, Report, aftercare, air_plot};
use crate::share::tally::counted;

/// The papers, as the looks name them.
const PAPERS: [&str; 2] = ["a4", "letter"];
/// More than this many photos make a file that few apps take.
const MANY_PHOTOS: usize = 60;

/// The screen.
#[component]
pub fn ReportScreen() -> impl IntoView {
    let session = use_session();
    let chosen = RwSignal::new(session.peek(|l| usual(l.job())));
    let paper = RwSignal::new(usize::from(session.prefs.with_untracked(|p| p.units == crate::units::UnitSet::Us)));
    let opened = RwSignal::new(false);
    Effect::new(move || take_looks(PAPERS[paper.get()]));
    let report = memo(move || made(session, &chosen.get()));
    let body = memo(move || report.with(html::body));
    let count = move || counted(chosen.with(BTreeSet::len), "photo", "photos");
    let file = move || {
        let pieces = report.with_untracked(|r| html::file(r, PAPERS[paper.get_untracked()]));
        let name = format!("coatwalk-report-{}.html", moment::day::write(day(Utc::now())));
        async move { Ok((name, "text/html", joined(session, pieces).await?)) }
    };
    view! {
        <div class="off-paper">
            <Head title="Report" back=Route::Record back_word="Record"/>
            <p>"What was logged, in order, for somebody who was not there. The file opens without this app."</p>
            {choice("Paper", &["A4", "US Letter"], move || Some(paper.get()), move |i| paper.set(i))}
            <details class="more" data-id="report-photos" on:toggle=move |_| opened.set(true)>
                <summary>"Photos in it: " {live(count)}</summary>
                {live(move || (chosen.with(BTreeSet::len) > MANY_PHOTOS).then(|| view! {
                    <p class="why">{format!("More than {MANY_PHOTOS} photos make a large file. Some apps will not take it.")}</p>
                }))}
                {live(move || opened.get().then(|| view! { <Photos chosen/> }))}
            </details>
            {hand_over_file("Report", file)}
        </div>
        <article class="report" data-id="report">
            {live(move || { let html = body.get(); view! { <Body html/> } })}
        </article>
    }
}

/// The report of the open job as it stands.
fn made(session: Session, chosen: &BTreeSet<Uuid>) -> Report {
    let units = session.prefs.with(|p| p.units);
    session.log(|log| {
        let job = log.job();
        let all = photos(job);
        let photos: Vec<Chosen> = all.into_iter().filter(|c| chosen.contains(&c.photo)).collect();
        let about = About {
            units,
            today: day(Utc::now()),
            when: &with_year,
            plot: airlog::curve(job, None, Utc::now()).map(|log| air_plot(&log, units, &Local).draw()),
            photos: &photos,
            aftercare: aftercare(job, &|at| moment::day::write(day(at))),
        };
        Report::of(log, &about)
    })
}

/// A moment with its year: the file may be read in ten years.
fn with_year(at: chrono::DateTime<Utc>) -> String {
    let words = local(at);
    let (date, time) = words.split_once(',').unwrap_or((&words, ""));
    format!("{date} {},{time}", at.with_timezone(&Local).year())
}

/// All photos, area by area, with what stands under each.
fn photos(job: &Job) -> Vec<Chosen> {
    let place = |k: &Kept| job.areas.iter().position(|a| Some(a.id) == k.area).unwrap_or(usize::MAX);
    let mut all: Vec<&Kept> = job.kept.iter().filter(|k| matches!(k.keep, Keep::Photo(_))).collect();
    all.sort_by_key(|k| (place(k), k.stamp.at));
    let words = |k: &Kept| {
        let area = k.area.map_or("Whole machine", |a| job.area_name(a));
        format!("{area}, {}, {}", k.stage.title(), with_year(k.stamp.at))
    };
    let one = |k: &Kept| match k.keep {
        Keep::Photo(photo) => Some(Chosen { photo, words: words(k) }),
        _ => None,
    };
    all.into_iter().filter_map(one).collect()
}

/// Before and after of each area.
fn usual(job: &Job) -> BTreeSet<Uuid> {
    let two = |area| {
        let all = shots(job, area);
        pair(&all).map(|(a, b)| [all[a].photo, all[b].photo])
    };
    comparable(job).into_iter().filter_map(two).flatten().collect()
}

/// Every photo with its tick.
#[component]
fn Photos(chosen: RwSignal<BTreeSet<Uuid>>) -> impl IntoView {
    let session = use_session();
    let all = session.peek(|l| photos(l.job()));
    if all.is_empty() {
        return view! { <p>"No photo is kept in this job."</p> }.into_any();
    }
    let flip = move |photo: Uuid| {
        chosen.update(|c| {
            if !c.remove(&photo) {
                c.insert(photo);
            }
        });
    };
    let rows: Vec<_> = all
        .into_iter()
        .map(|Chosen { photo, words }| {
            let in_it = move || chosen.with(|c| c.contains(&photo));
            view! {
                <li>
                    <button type="button" class="ticket check" data-id="report-photo" aria-pressed=move || in_it().to_string()
                        data-state=move || if in_it() { "done" } else { "open" } on:click=tap(move |()| flip(photo))>
                        <span class="box" aria-hidden="true"></span>
                        <span class="ticket-text">
                            <span class="ticket-name">{words}</span>
                            <span class="ticket-word">{live(move || if in_it() { "In the report" } else { "Left out" })}</span>
                        </span>
                    </button>
                    <Small photo/>
                </li>
            }
        })
        .collect();
    view! { <ul class="tickets report-choice">{rows}</ul> }.into_any()
}

/// The report itself. Its words were made harmless where they were put together (`share::report::html`).
#[component]
fn Body(html: String) -> impl IntoView {
    let session = use_session();
    let place = NodeRef::<leptos::html::Div>::new();
    let urls = StoredValue::new(Vec::<String>::new());
    Effect::new(move || {
        let Some(place) = place.get() else { return };
        let Ok(found) = place.query_selector_all("img[data-photo]") else { return };
        let images: Vec<HtmlImageElement> =
            (0..found.length()).filter_map(|i| found.item(i)?.dyn_into().ok()).collect();
        spawn_local(async move {
            for image in images {
                let id = image.get_attribute("data-photo").and_then(|id| Uuid::parse_str(&id).ok());
                let Some((mime, bytes)) = session.picture(id.unwrap_or_default()).await else { continue };
                let Some(url) = photo::show(&mime, &bytes) else { continue };
                image.set_src(&url);
                if urls.try_update_value(|u| u.push(url.clone())).is_none() {
                    photo::forget(&url);
                    return;
                }
            }
        });
    });
    on_cleanup(move || {
        urls.try_with_value(|u| u.iter().for_each(|u| photo::forget(u)));
    });
    view! { <div node_ref=place inner_html=html></div> }
}

/// The file, with the photos inside.
async fn joined(session: Session, pieces: Vec<Piece>) -> Result<web_sys::Blob, String> {
    let mut blobs = Vec::new();
    for piece in pieces {
        let text = match piece {
            Piece::Text(text) => text,
            Piece::Photo(id) => match session.picture(id).await {
                // A photo that another phone took may not be here: its words still stand.
                None => "data:,".into(),
                Some((mime, kept)) => {
                    let blob = photo::blob(&mime, &kept).ok_or("The browser has no room to make the file.")?;
                    bytes::data_address(&blob).await?
                }
            },
        };
        blobs.push(bytes::held(text.as_bytes())?);
    }
    bytes::joined(&blobs, "text/html")
}

/// The report's looks come with it, not with the first start. Another paper takes the place of the one before.
fn take_looks(paper: &str) {
    thread_local! {
        static TAKEN: std::cell::RefCell<Option<JsValue>> = const { std::cell::RefCell::new(None) };
    }
    let fresh = || {
        let class = Reflect::get(&window(), &"CSSStyleSheet".into()).ok()?.dyn_into::<Function>().ok()?;
        let sheet = Reflect::construct(&class, &Array::new()).ok()?;
        let document: JsValue = window().document()?.into();
        let now = Array::from(&Reflect::get(&document, &"adoptedStyleSheets".into()).ok()?);
        now.push(&sheet);
        Reflect::set(&document, &"adoptedStyleSheets".into(), &now).ok()?;
        Some(sheet)
    };
    let Some(sheet) = TAKEN.with_borrow(Clone::clone).or_else(fresh) else { return };
    crate::device::call(&sheet, "replaceSync", &Array::of1(&html::looks(paper).into()));
    TAKEN.set(Some(sheet));
}
