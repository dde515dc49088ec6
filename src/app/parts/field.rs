//! A field to type in: big, with its unit, and with the answer to what was typed right beside it.
//!
//! May use: sessionStorage for what is half typed. Must not: judge what is typed; the caller hands the answer in.

use crate::app::parts::live::{live, mark, said};
use gloo_storage::{SessionStorage, Storage};
use leptos::prelude::*;

/// Something half typed. It survives a turn of the screen and a reload, until it is cleared.
#[derive(Clone, Copy)]
pub struct Draft {
    text: RwSignal<String>,
    key: Key,
}

impl Draft {
    /// The draft under this key, or `start` if there is none yet.
    pub fn new(key: impl Into<String>, start: impl Into<String>) -> Draft {
        let key = Key::of(key.into());
        let text = key.with(|k| SessionStorage::get(k)).unwrap_or_else(|_| start.into());
        Draft { text: RwSignal::new(text), key }
    }

    /// What stands there, tracked.
    pub fn get(self) -> String {
        self.text.get()
    }

    /// What stands there, untracked; nothing once its screen is gone.
    pub fn peek(self) -> String {
        self.text.try_get_untracked().unwrap_or_default()
    }

    /// Types.
    pub fn set(self, text: String) {
        let _ = self.key.with(|k| SessionStorage::set(k, &text));
        self.text.set(text);
    }

    /// What stands there is kept elsewhere now: the next time its screen opens, it starts from that.
    pub fn settle(self) {
        self.key.with(|k| SessionStorage::delete(k));
    }

    /// Done with it. Often called when an entry is durable, and the screen it was typed on may be gone by then.
    pub fn clear(self) {
        self.key.with(|k| SessionStorage::delete(k));
        self.text.try_set(String::new());
    }
}

/// A draft's key, kept once however often its screen opens, so that a draft can be cleared after its screen is gone.
#[derive(Clone, Copy)]
struct Key(usize);

thread_local! {
    static KEYS: std::cell::RefCell<Vec<String>> = const { std::cell::RefCell::new(Vec::new()) };
}

impl Key {
    fn of(key: String) -> Key {
        KEYS.with_borrow_mut(|all| {
            Key(all.iter().position(|k| *k == key).unwrap_or_else(|| {
                all.push(key);
                all.len() - 1
            }))
        })
    }

    fn with<T>(self, read: impl FnOnce(&str) -> T) -> T {
        KEYS.with_borrow(|all| read(&all[self.0]))
    }
}

/// One field.
#[component]
pub fn Field(
    /// What is asked.
    #[prop(into)]
    label: String,
    /// For tests and for the label.
    #[prop(into)]
    id: String,
    draft: Draft,
    /// The unit, shown behind the field.
    #[prop(optional, into)]
    unit: MaybeProp<String>,
    /// What would be right, when what was typed is not.
    #[prop(optional, into)]
    error: MaybeProp<String>,
    /// A default and where it comes from, or an example.
    #[prop(optional, into)]
    hint: MaybeProp<String>,
    /// Brings up the number pad.
    #[prop(optional)]
    number: bool,
    /// Several lines.
    #[prop(optional)]
    long: bool,
) -> impl IntoView {
    let describe = format!("{id}-more");
    let bad = move || error.get().is_some();
    let typed = move |text: String| draft.set(text);
    let (for_id, data_id, more) = (id.clone(), id.clone(), describe.clone());
    view! {
        <div class="field" data-bad=mark(bad, "yes")>
            <label for=for_id>{label}</label>
            <div class="field-row">
                {if long {
                    view! {
                        <textarea
                            id=id
                            data-id=data_id
                            rows="3"
                            aria-describedby=more
                            prop:value=said(move || draft.get())
                            on:input=move |e| typed(event_target_value(&e))
                        ></textarea>
                    }
                        .into_any()
                } else {
                    view! {
                        <input
                            id=id
                            data-id=data_id
                            type="text"
                            inputmode=if number { "decimal" } else { "text" }
                            autocomplete="off"
                            aria-describedby=more
                            aria-invalid=mark(bad, "true")
                            prop:value=said(move || draft.get())
                            on:input=move |e| typed(event_target_value(&e))
                        />
                    }
                        .into_any()
                }}
                {live(move || unit.get().map(|u| view! { <span class="unit">{u}</span> }))}
            </div>
            <p class="field-more" id=describe>
                {live(move || match error.get() {
                    Some(e) => view! { <strong class="bad" data-id="field-error">{e}</strong> }.into_any(),
                    None => view! { <span>{hint.get()}</span> }.into_any(),
                })}
            </p>
        </div>
    }
}
