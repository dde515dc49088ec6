//! Before and after: two photos of an area, one over the other, with a slider between them.
//!
//! May use: [`timeline`](crate::job::timeline), which chooses the two. Must not: change a photo.

use leptos::prelude::*;
use uuid::Uuid;

use super::pick::pick;
use crate::app::clocks::local;
use crate::app::parts::head::Head;
use crate::app::parts::kept::Shown;
use crate::app::parts::live::{live, memo, said};
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::job::entry::AreaId;
use crate::job::timeline::{Shot, comparable, pair, shots};

/// The screen.
#[component]
pub fn Compare() -> impl IntoView {
    let session = use_session();
    let asked = RwSignal::new(None::<AreaId>);
    let areas = memo(move || session.job(comparable));
    let area = memo(move || {
        asked.get().filter(|a| areas.with(|all| all.contains(a))).or_else(|| areas.with(|all| all.first().copied()))
    });
    let all =
        memo(move || area.get().map_or(vec![], |a| session.job(|j| shots(j, a).into_iter().map(Choice).collect())));
    // What the user chose in place of what is proposed.
    let own = RwSignal::new((None::<Uuid>, None::<Uuid>));
    let two = memo(move || {
        all.with(|all| {
            let plain: Vec<Shot> = all.iter().map(|c| c.0.clone()).collect();
            let (before, after) = pair(&plain)?;
            let (a, b) = own.get();
            Some((a.unwrap_or(plain[before].photo), b.unwrap_or(plain[after].photo)))
        })
    });
    // Where the line stands, % from the left: the knob under it and the line move together.
    let line = RwSignal::new(50.0);
    let options = move || {
        session.job(|j| areas.get().into_iter().map(|a| (a.0.to_string(), j.area_name(a).to_owned())).collect())
    };
    let area_now = move || area.get().map(|a| a.0.to_string()).unwrap_or_default();
    let to_area = move |v: String| {
        own.set((None, None));
        asked.set(Uuid::parse_str(&v).ok().map(AreaId));
    };
    let photos = move || all.with(|all| all.iter().map(Choice::option).collect::<Vec<_>>());
    let before = move || two.get().map(|t| t.0.to_string()).unwrap_or_default();
    let after = move || two.get().map(|t| t.1.to_string()).unwrap_or_default();
    let to_before = move |v: String| own.update(|o| o.0 = Uuid::parse_str(&v).ok());
    let to_after = move |v: String| own.update(|o| o.1 = Uuid::parse_str(&v).ok());
    let words = move || format!("{:.0} % of the photo after", 100.0 - line.get());
    view! {
        <Head title="Before and after" back=Route::Record back_word="Record"/>
        {live(move || if areas.with(Vec::is_empty) {
            view! {
                <p data-id="compare-none">"No area has two photos yet. Take one at Survey and one after Second pass, from the same place."</p>
            }
            .into_any()
        } else {
            view! {
                {live(move || two.get().map(|(a, b)| view! {
                    <figure class="compare">
                        <div class="compare-photo" data-id="compare-before"><Shown photo=a/></div>
                        <div class="compare-photo over" data-id="compare-after" style:clip-path=move || format!("inset(0 0 0 {:.0}%)", line.get())>
                            <Shown photo=b/>
                        </div>
                        <span class="compare-line" aria-hidden="true" style:left=move || format!("{:.0}%", line.get())></span>
                        <figcaption><span>"Before"</span><span>"After"</span></figcaption>
                    </figure>
                }))}
                <div class="field">
                    <label for="compare-slider">"Slide the line"</label>
                    <input type="range" id="compare-slider" data-id="compare-slider" class="slider" min="0" max="100" step="5"
                        prop:value=move || line.get().to_string() aria-valuetext=said(words)
                        on:input=move |e| line.set(event_target_value(&e).parse().unwrap_or(50.0))/>
                    <p class="field-more" data-id="compare-share">{live(words)}</p>
                </div>
                {pick("compare-area", "Area", "", options, area_now, to_area)}
                {pick("pick-before", "Photo before", "", photos, before, to_before)}
                {pick("pick-after", "Photo after", "", photos, after, to_after)}
            }
            .into_any()
        })}
    }
}

/// A photo on offer.
#[derive(Clone, PartialEq)]
struct Choice(Shot);

impl Choice {
    fn option(&self) -> (String, String) {
        (self.0.photo.to_string(), format!("{}, {}", self.0.stage.title(), local(self.0.at)))
    }
}
