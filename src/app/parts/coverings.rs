//! Covers, paper and foil: counted on and counted off.
//!
//! May use: the session. Must not: say when something may come off; the gates do.

use crate::app::parts::live::{list, live, memo, tap};
use leptos::prelude::*;

use super::field::{Draft, Field};
use crate::app::session::use_session;
use crate::job::entry::{Covering, What};
use crate::job::guide::usually_covered;

/// Counts a sort of covering on and off.
#[component]
pub fn Coverings(
    /// The sorts shown here.
    sorts: &'static [Covering],
    /// Also offers to put more on.
    putting_on: bool,
) -> impl IntoView {
    let session = use_session();
    sorts
        .iter()
        .map(|sort| {
            let sort = *sort;
            let all = memo(move || {
                session.job(|j| j.covers.iter().filter(|c| c.cover == sort).cloned().collect::<Vec<_>>())
            });
            let on_now = move || all.get().into_iter().filter(|c| c.off.is_none()).collect::<Vec<_>>();
            let on = move || all.with(|all| all.iter().filter(|c| c.off.is_none()).count());
            let fresh = move || {
                let there = all.with(|all| all.iter().filter(|c| c.off.is_none()).map(|c| c.place.clone()).collect::<Vec<_>>());
                usually_covered(sort).iter().filter(|p| !there.iter().any(|t| t == *p)).collect::<Vec<_>>()
            };
            let own = Draft::new(format!("cover/{}", sort.title()), "");
            let put = move |place: String| session.write(What::CoverOn { covering: sort, area: None, place, with: String::new(), arms: String::new() });
            view! {
                <section class="coverings" data-sort=sort.title()>
                    <h2>{sort.title()}<span class="count">{live(move || format!("{} on", on()))}</span></h2>
                    <ul class="tickets">
                        {list(on_now, |c| c.id, move |c| view! { <li class="ticket" data-state="hand">
                                <span class="ticket-name">{c.place.clone()}</span>
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
