//! The machine's list of areas: rename, add, leave out.

use crate::app::parts::live::{list, live, memo, tap};
use leptos::prelude::*;

use uuid::Uuid;

use crate::app::parts::field::{Draft, Field};
use crate::app::parts::head::Head;
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::job::entry::{AreaId, What};

/// The longest name of an area, characters.
const LONGEST_NAME: usize = 60;

fn name_error(name: &str) -> Option<String> {
    match name.trim().chars().count() {
        0 => Some("Give the area a name.".into()),
        n if n > LONGEST_NAME => Some(format!("At most {LONGEST_NAME} characters, please; these are {n}.")),
        _ => None,
    }
}

/// All areas, each with its two changes; a field for a new one.
#[component]
pub fn Areas() -> impl IntoView {
    let session = use_session();
    let areas = memo(move || session.job(|j| j.areas().map(|a| (a.id, a.name.clone())).collect::<Vec<_>>()));
    let fresh = Draft::new("new-area", "");
    let asked = RwSignal::new(false);
    let error = Signal::derive(move || {
        let text = fresh.get();
        (asked.get() || !text.is_empty()).then(|| name_error(&text)).flatten()
    });
    let add = move |_| {
        asked.set(true);
        let name = fresh.peek().trim().to_owned();
        if name_error(&name).is_none() {
            session.write_with(What::AreaAdded { area: AreaId(Uuid::now_v7()), name }, None, move |_| {
                fresh.clear();
                asked.set(false);
            });
        }
    };
    view! {
        <Head title="Areas" back=Route::Machine back_word="Machine"/>
        <ul class="tickets">
            {list(move || areas.get(), |a| a.clone(), move |a| view! { <AreaLine id=a.0 name=a.1.clone()/> }.into_any())}
        </ul>
        <Field label="Another area" id="area-new" draft=fresh error hint="For example: Drawbar eye"/>
        <button type="button" class="work" data-id="area-add" on:click=tap(add)>"Add this area"</button>
    }
}

#[component]
fn AreaLine(id: AreaId, name: String) -> impl IntoView {
    let session = use_session();
    let changing = RwSignal::new(false);
    let draft = Draft::new(format!("area-name/{}", id.0), name.clone());
    let error = Signal::derive(move || name_error(&draft.get()));
    let rename = move |_| {
        let name = draft.peek().trim().to_owned();
        if name_error(&name).is_none() {
            changing.set(false);
            session.write_with(What::AreaRenamed { area: id, name }, None, move |_| draft.clear());
        }
    };
    view! {
        <li class="ticket" data-state="open" data-area=id.0.to_string()>
            <span class="ticket-name">{name}</span>
            {live(move || {
                if changing.get() {
                    view! {
                        <div class="row">
                            <Field label="New name" id="area-rename" draft error/>
                            <button type="button" data-id="area-rename-save" on:click=tap(rename)>"Keep"</button>
                        </div>
                    }
                        .into_any()
                } else {
                    view! {
                        <div class="row">
                            <button type="button" data-id="area-rename-open" on:click=tap(move |_| changing.set(true))>"Rename"</button>
                            <button type="button" data-id="area-remove" on:click=tap(move |_| session.write(What::AreaRemoved { area: id }))>
                                "Leave out"
                            </button>
                        </div>
                    }
                        .into_any()
                }
            })}
        </li>
    }
}
