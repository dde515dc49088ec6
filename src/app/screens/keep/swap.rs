//! Two phones at one machine: each tells what it has, the other sends only what is missing there.
//!
//! May use: [`backup`], the clipboard. Must not: know how the difference is found.

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::backup::{Progress, State, write};
use crate::app::desk::backup;
use crate::app::parts::field::{Draft, Field};
use crate::app::parts::live::{live, tap};
use crate::app::session::use_session;
use crate::device::file;
use crate::share::merge::Known;

/// What the file is called: what it holds is new only to the other phone.
const WHAT: &str = "what they lack";

/// Tell what this phone has; send what another one lacks.
#[component]
pub fn Swap(state: Progress) -> impl IntoView {
    let session = use_session();
    let mine = RwSignal::new(None::<String>);
    let said = RwSignal::new(None::<String>);
    let theirs = Draft::new("swap/theirs", "");
    let show = move |_| {
        spawn_local(async move {
            let Ok(store) = session.store() else { return };
            match backup::parts(&store, None).await {
                Ok(parts) => _ = mine.try_set(Some(backup::known(&parts).text())),
                Err(e) => _ = said.try_set(Some(e.words())),
            }
        });
    };
    let send = move |_| {
        said.set(None);
        let known = match Known::read(&theirs.peek().trim().replace("\r\n", "\n")) {
            Ok(known) => known,
            Err(why) => return said.set(Some(why)),
        };
        if matches!(state.get_untracked(), State::Making(..)) {
            return;
        }
        spawn_local(async move {
            let made = async {
                let store = session.store().map_err(|e| e.words())?;
                let all = backup::parts(&store, None).await.map_err(|e| e.words())?;
                let parts = backup::lacking_parts(all, &known);
                if parts.is_empty() {
                    said.try_set(Some("They have everything that is on this phone.".into()));
                    return Ok(());
                }
                state.try_set(State::Making(0, 0));
                write(session, state, parts, vec![], Some(WHAT)).await
            };
            if let Err(why) = made.await {
                state.try_set(State::Failed(why));
            }
        });
    };
    let save = move |_| {
        if let Some(text) = mine.get_untracked() {
            let _ = file::save_text("coatwalk-has.txt", "text/plain", &text);
        }
    };
    view! {
        <details class="more" data-id="swap">
            <summary>"Two phones: send only what the other lacks"</summary>
            <p>"On the phone that wants to catch up: show what it has and send that text over. On the other: put the text in below."</p>
            {live(move || match mine.get() {
                None => view! { <button type="button" data-id="swap-show" on:click=tap(show)>"Show what this phone has"</button> }.into_any(),
                Some(text) => view! {
                    <textarea class="swap-text" data-id="swap-mine" readonly rows="4" aria-label="What this phone has">{text}</textarea>
                    <div class="row"><button type="button" data-id="swap-save" on:click=tap(save)>"Save it as a file"</button></div>
                }.into_any(),
            })}
            <Field label="What the other phone has" id="swap-theirs" draft=theirs long=true error=Signal::derive(move || said.get())/>
            <button type="button" data-id="swap-send" on:click=tap(send)>"Make a file of what they lack"</button>
        </details>
    }
}
