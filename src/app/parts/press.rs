//! A main button for gloves and drips: it acts when it is held down for half a second with one finger.
//!
//! May use: nothing. Must not: know what it does. A keyboard or a screen reader works it with one stroke.

use std::rc::Rc;

use leptos::ev::{MouseEvent, PointerEvent};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::live::mark;
use crate::device::{hands, pause};

/// How long it is held, ms. A drop or a sleeve that brushes by is gone sooner.
const HOLD_MS: i32 = 500;
/// A touch broader than this is a sleeve or a palm, px.
const BROAD_PX: i32 = 90;

/// The button.
pub fn press(id: &'static str, class: &'static str, words: AnyView, act: impl Fn() + 'static) -> AnyView {
    let act = Rc::new(act);
    // Counts up with each finger put down; 0 while none is.
    let held = RwSignal::new(0u32);
    let round = StoredValue::new(0u32);
    let down = {
        let act = act.clone();
        move |e: PointerEvent| {
            if !e.is_primary() || e.width() > BROAD_PX || e.height() > BROAD_PX {
                held.set(0);
                return;
            }
            let mine = round.get_value() + 1;
            round.set_value(mine);
            held.set(mine);
            let act = act.clone();
            spawn_local(async move {
                pause(HOLD_MS).await;
                if held.try_get_untracked() == Some(mine) {
                    held.set(0);
                    hands::buzz(&[60]);
                    act();
                }
            });
        }
    };
    let up = move |_: PointerEvent| held.set(0);
    // No finger: Enter, space, a screen reader.
    let click = move |e: MouseEvent| {
        if e.detail() == 0 {
            act();
        }
    };
    view! {
        <button type="button" class=class data-id=id data-press=mark(move || held.get() > 0, "down")
            on:pointerdown=down on:pointerup=up on:pointercancel=up on:pointerleave=up
            on:click=click on:contextmenu=|e: MouseEvent| e.prevent_default()>
            {words}
            <span class="press-how">"hold"</span>
        </button>
    }
    .into_any()
}
