//! Closing the job: everything still open is named, and each has to be put right or given a reason.
//!
//! May use: [`closing`]. Must not: let anything stay open unsaid; the gates see to it.

use crate::app::parts::live::{list, live, memo, tap};
use leptos::prelude::*;

use crate::app::parts::field::{Draft, Field};
use crate::app::parts::head::Head;
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::app::shell::go;
use crate::job::closing;
use crate::job::entry::{Left, What};

/// What is open, a reason each, and the last tap.
#[component]
pub fn Close() -> impl IntoView {
    let session = use_session();
    let open = memo(move || session.job(closing::open_points));
    let draft = |point: &str| Draft::new(format!("close/{point}"), "");
    let asked = RwSignal::new(false);
    let close = move |_| {
        asked.set(true);
        let left: Vec<_> = open
            .get_untracked()
            .into_iter()
            .map(|what| Left { reason: draft(&what).peek().trim().to_owned(), what })
            .collect();
        session.write_with(What::Closed { left }, None, move |_| go(Route::Today));
    };
    view! {
        <Head title="Close the job" back=Route::Record back_word="Record"/>
        {live(move || {
            if open.with(Vec::is_empty) {
                view! { <p class="aim" data-id="nothing-open">"Nothing is open: no bag full, no cover, paper or foil on."</p> }.into_any()
            } else {
                view! { <p class="aim">"Still open. Put it right, or say why it stays so."</p> }.into_any()
            }
        })}
        <ul class="tickets">
            {list(move || open.get(), |p| p.clone(), move |p| view! { {
                    let d = draft(&p);
                    // A label belongs to one field: each has its own id.
                    let id = format!("close-reason-{}", p.replace(|c: char| !c.is_ascii_alphanumeric(), "-"));
                    let error = Signal::derive(move || {
                        (asked.get() && d.get().trim().is_empty()).then(|| "Say why it stays so.".to_string())
                    });
                    view! {
                        <li class="ticket hold" data-state="blocked" data-open=p.clone()>
                            <p class="hold-words">{p.clone()}</p>
                            <Field label="Why it stays so" id draft=d error/>
                        </li>
                    }
                } }.into_any())}
        </ul>
        <p class="caution">
            "Before the machine works again: covers out, brakes, lamps, guards, steering and leaks checked outdoors, as its manual says."
        </p>
        <div class="main-action"><button type="button" class="main" data-id="close-job" on:click=tap(close)>"Close the job"</button></div>
    }
}
