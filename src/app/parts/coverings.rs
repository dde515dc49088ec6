//! Covers, paper and foil: counted on and counted off.
//!
//! May use: the session. Must not: say when something may come off; the gates do.

use crate::app::parts::live::{list, live, memo, tap};
use leptos::prelude::*;

use super::choice::choice;
use super::field::{Draft, Field};
use crate::app::session::use_session;
use crate::job::entry::{AreaId, Covering, What};
use crate::job::fold::Cover;
use crate::job::guide::usually_covered;
use crate::job::kinds::kind;

/// Counts a sort of covering on and off.
#[component]
pub fn Coverings(
    /// The sorts shown here.
    sorts: &'static [Covering],
    /// Also offers to put more on.
    putting_on: bool,
    /// Only those of this area, and put on here.
    #[prop(optional_no_strip)]
    area: Option<AreaId>,
) -> impl IntoView {
    let session = use_session();
    sorts
        .iter()
        .map(|sort| {
            let sort = *sort;
            let all = memo(move || {
                session.job(|j| {
                    let here = |c: &&Cover| c.cover == sort && (area.is_none() || c.area == area);
                    j.covers.iter().filter(here).cloned().collect::<Vec<_>>()
                })
            });
            let on_now = move || all.get().into_iter().filter(|c| c.off.is_none()).collect::<Vec<_>>();
            let on = move || all.with(|all| all.iter().filter(|c| c.off.is_none()).count());
            let fresh = move || {
                let there = all.with(|all| all.iter().filter(|c| c.off.is_none()).map(|c| c.place.clone()).collect::<Vec<_>>());
                let of_area = session.job(|j| Some(kind(&j.machine)?.area(&j.area(area?)?.of)?.bare));
                let usual = match (sort, of_area) {
                    (Covering::Paper, Some(bare)) => bare,
                    _ => usually_covered(sort),
                };
                usual.iter().filter(|p| !there.iter().any(|t| t == *p)).collect::<Vec<_>>()
            };
            let own = Draft::new(format!("cover/{}", sort.title()), "");
            let made_of: &'static [&'static str] = match sort {
                Covering::Cover => &["bag", "cap"],
                Covering::Paper => &["paper", "tape"],
                Covering::Foil => &["foil"],
            };
            let with = RwSignal::new(0usize);
            let put = move |place: String| {
                let arms = session.peek(|l| l.job().arms.as_ref().map(|a| a.1.clone())).unwrap_or_default();
                let with = made_of[with.get_untracked()].into();
                session.write(What::CoverOn { covering: sort, area, place, with, arms });
            };
            view! {
                <section class="coverings" data-sort=sort.title()>
                    <h2>{sort.title()}<span class="count">{live(move || format!("{} on", on()))}</span></h2>
                    <ul class="tickets">
                        {list(on_now, |c| c.id, move |c| view! { <li class="ticket" data-state="hand">
                                <span class="ticket-name">{c.place.clone()}{(!c.arms.is_empty()).then(|| format!(" (arms at {})", c.arms))}</span>
                                <button
                                    type="button"
                                    class="ticket-button"
                                    data-id="cover-off"
                                    on:click=tap(move |_| session.write(What::CoverOff { cover: c.id }))
                                >
                                    "Off"
                                </button>
                            </li> }.into_any())}
                    </ul>
                    {putting_on
                        .then(|| {
                            view! {
                                {(made_of.len() > 1).then(|| choice("With", made_of, move || Some(with.get()), move |i| with.set(i)))}
                                <p class="quiet">"Tap what is on now:"</p>
                                <div class="chips">
                                    {live(move || {
                                        fresh()
                                            .into_iter()
                                            .map(|p| {
                                                view! {
                                                    <button type="button" data-id="cover-on" on:click=tap(move |_| put(p.to_string()))>
                                                        "+ "{*p}
                                                    </button>
                                                }
                                            })
                                            .collect_view()
                                    })}
                                </div>
                                <div class="field-with-button">
                                    <Field label="Another place" id=format!("cover-{}", sort.title().to_ascii_lowercase()) draft=own/>
                                    <button
                                        type="button"
                                        data-id="cover-on-own"
                                        on:click=tap(move |_| {
                                            let place = own.peek().trim().to_owned();
                                            if !place.is_empty() {
                                                put(place);
                                                own.clear();
                                            }
                                        })
                                    >
                                        "Put on"
                                    </button>
                                </div>
                            }
                        })}
                </section>
            }
        })
        .collect_view()
}
