//! The timeline: every line of the log, newest first, by area, stage and what it is about. Only the rows in view and a
//! screen on both sides stand in the page.
//!
//! May use: [`timeline`](crate::job::timeline). Must not: tell an entry, or reckon a height it can measure.

use std::collections::HashMap;

use leptos::ev;
use leptos::prelude::*;
use uuid::Uuid;
use wasm_bindgen::prelude::*;
use web_sys::{Element, MutationObserver, MutationObserverInit};

use super::pick::pick;
use crate::app::clocks::local;
use crate::app::parts::kept::Shown;
use crate::app::parts::live::{list, live, memo, tap};
use crate::app::parts::small::Small;
use crate::app::session::use_session;
use crate::device::window;
use crate::job::entry::AreaId;
use crate::job::stage::Stage;
use crate::job::timeline::rows::{Rows, Slice};
use crate::job::timeline::{Filter, Line, Media, Sort, lines};

/// So much more than the view is drawn above and below it, px.
const MARGIN: f64 = 700.0;
/// What a row is reckoned with until it is measured, px: without words, a line of words, a picture, a player.
const GUESS: [f64; 4] = [44.0, 25.0, 226.0, 64.0];
/// About so many letters stand in a line.
const LETTERS: usize = 32;

/// The filters and the rows.
#[component]
pub fn Timeline() -> impl IntoView {
    let session = use_session();
    let filter = RwSignal::new(Filter::default());
    let all = memo(move || session.log(lines));
    let left = memo(move || {
        let filter = filter.get();
        all.with(|all| all.iter().filter(|l| filter.takes(l)).cloned().collect::<Vec<_>>())
    });
    let areas = move || session.job(|j| j.areas().map(|a| (a.id.0.to_string(), a.name.clone())).collect::<Vec<_>>());
    let stages = || Stage::ALL.into_iter().map(|s| (s.slug().to_owned(), s.title().to_owned())).collect();
    let sorts = || Sort::ALL.into_iter().map(|s| (s.slug().to_owned(), s.title().to_owned())).collect();
    let area_now = move || filter.get().area.map(|a| a.0.to_string()).unwrap_or_default();
    let stage_now = move || filter.get().stage.map_or(String::new(), |s| s.slug().into());
    let sort_now = move || filter.get().sort.map_or(String::new(), |s| s.slug().into());
    let to_area = move |v: String| filter.update(|f| f.area = Uuid::parse_str(&v).ok().map(AreaId));
    let to_stage = move |v: String| filter.update(|f| f.stage = Stage::from_slug(&v));
    let to_sort = move |v: String| filter.update(|f| f.sort = Sort::ALL.into_iter().find(|s| s.slug() == v));
    let count = move || match (left.with(Vec::len), all.with(Vec::len)) {
        (some, every) if some == every => format!("{every} lines, newest first."),
        (0, every) => format!("None of {every} lines is like that."),
        (some, every) => format!("{some} of {every} lines, newest first."),
    };
    view! {
        <section class="record-filters" aria-label="What is shown">
            {pick("filter-area", "Area", "All areas", areas, area_now, to_area)}
            {pick("filter-stage", "Stage", "All stages", stages, stage_now, to_stage)}
            {pick("filter-sort", "About", "Everything", sorts, sort_now, to_sort)}
        </section>
        <p class="record-count" role="status" data-id="timeline-count">{live(count)}</p>
        {live(move || (!filter.get().is_open()).then(|| view! {
            <button type="button" class="off-paper" data-id="filter-all" on:click=tap(move |()| filter.set(Filter::default()))>"Show all lines"</button>
        }))}
        {rows(left)}
    }
}

/// The rows in view.
fn rows(left: Memo<Vec<Line>>) -> AnyView {
    let place = NodeRef::<leptos::html::Ol>::new();
    let heights = StoredValue::new(Rows::default());
    // Of rows measured before the filter or the log changed.
    let known = StoredValue::new(HashMap::<Uuid, f64>::new());
    let slice = RwSignal::new(Slice::default());
    let top = move || -> Option<f64> {
        // The list begins where the empty room above its first row does.
        let list = place.get_untracked()?;
        Some(slice.with_untracked(|s| s.above) - list.get_bounding_client_rect().top())
    };
    let look = move || {
        let Some(top) = top() else { return };
        let view = window().inner_height().ok().and_then(|h| h.as_f64()).unwrap_or(640.0);
        let now = heights.with_value(|h| h.slice(top, view, MARGIN));
        if slice.with_untracked(|s| *s != now) {
            slice.set(now);
        }
    };
    let measure = move || {
        let (Some(list), Some(top)) = (place.get_untracked(), top()) else { return };
        let (children, first) = (list.children(), slice.with_untracked(|s| s.rows.start));
        let mut above = 0.0;
        for i in 0..children.length() {
            let Some(row) = children.item(i) else { continue };
            let at = first + i as usize;
            let id = left.with_untracked(|l| l.get(at).map(|l| l.id));
            // In the middle of a change the page may hold other rows than the slice.
            let Some(id) = id.filter(|id| row.get_attribute("data-entry") == Some(id.to_string())) else { return };
            let height = row.get_bounding_client_rect().height();
            known.update_value(|k| {
                k.insert(id, height);
            });
            let before = heights.with_value(|h| h.top_of(at));
            let more = heights.try_update_value(|h| h.measure(at, height)).unwrap_or(0.0);
            if before < top {
                above += more;
            }
        }
        if above.abs() >= 1.0 {
            // What stands in view stays where it is.
            slice.update(|s| s.above = heights.with_value(|h| h.top_of(s.rows.start)));
            window().scroll_by_with_x_and_y(0.0, above);
        }
        look();
    };
    Effect::new(move || {
        let guessed = left.with(|l| known.with_value(|k| Rows::guessed(l.iter().map(|l| guess(l, k)))));
        heights.set_value(guessed);
        // Another list: drawn anew from where one is.
        let end = heights.with_value(Rows::len);
        slice.update(|s| (s.rows.start, s.rows.end) = (s.rows.start.min(end), s.rows.end.min(end)));
        look();
    });
    let scrolled = window_event_listener(ev::scroll, move |_| look());
    let turned = window_event_listener(ev::resize, move |_| {
        known.set_value(HashMap::new());
        measure();
    });
    let watch = StoredValue::new_local(None::<MutationObserver>);
    Effect::new(move || {
        if let Some(list) = place.get() {
            watch.set_value(watched(&list, measure));
            look();
        }
    });
    on_cleanup(move || {
        scrolled.remove();
        turned.remove();
        watch.with_value(|w| w.iter().for_each(MutationObserver::disconnect));
    });
    let drawn = move || {
        let rows = slice.with(|s| s.rows.clone());
        left.with(|l| l.get(rows).map(<[Line]>::to_vec).unwrap_or_default())
    };
    let px = |v: f64| format!("{v:.1}px");
    view! {
        <div class="timeline-all">
            <div style:height=move || px(slice.with(|s| s.above))></div>
            <ol class="timeline" data-id="timeline" node_ref=place>{list(drawn, |l| (l.id, l.undone), row)}</ol>
            <div style:height=move || px(slice.with(|s| s.below))></div>
        </div>
    }
    .into_any()
}

fn guess(line: &Line, known: &HashMap<Uuid, f64>) -> f64 {
    let lines = |text: &str| text.chars().count().div_ceil(LETTERS) as f64;
    known.get(&line.id).copied().unwrap_or_else(|| {
        GUESS[0]
            + GUESS[1] * (lines(&line.told.head) + lines(&line.told.rest))
            + match line.media {
                Some(Media::Photo(_)) => GUESS[2],
                Some(Media::Sound(_)) => GUESS[3],
                None => 0.0,
            }
    })
}

fn watched(list: &Element, then: impl Fn() + 'static) -> Option<MutationObserver> {
    let changed = Closure::<dyn Fn()>::new(then).into_js_value();
    let watch = MutationObserver::new(changed.unchecked_ref()).ok()?;
    let what = MutationObserverInit::new();
    what.set_child_list(true);
    what.set_subtree(true);
    watch.observe_with_options(list, &what).ok()?;
    Some(watch)
}

fn row(l: Line) -> AnyView {
    let media = l.media.map(|m| match m {
        Media::Photo(photo) => view! { <Small photo/> }.into_any(),
        Media::Sound(id) => view! { <Shown photo=id sound=true/> }.into_any(),
    });
    view! {
        <li data-entry=l.id.to_string() data-sort=l.sort.slug() data-marked=l.told.marked.then_some("yes") data-undone=l.undone.then_some("yes")>
            <time>{local(l.at)}</time>
            {(!l.by.is_empty()).then(|| view! { <span class="by">{l.by.clone()}</span> })}
            <p class="timeline-head">{l.told.head}{l.undone.then_some(" (taken back)")}</p>
            {(!l.told.rest.is_empty()).then(|| view! { <p class="timeline-rest">{l.told.rest}</p> })}
            {media}
        </li>
    }
    .into_any()
}
