//! How the sessions of one phone keep in step: those of other tabs, and the walk's with the desk's in the same page.
//!
//! Each new entry is told by its name; whoever hears it reads it from the store. The desk reads anew when it comes up, and
//! tells the walk when it opened another job.
//!
//! May use: the channel between tabs, the store. Must not: write.

use leptos::prelude::*;
use uuid::Uuid;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{BroadcastChannel, MessageEvent};

use super::{Session, Start};
use crate::device::{call, window};
use crate::job::entry::Entry;
use crate::job::log::Log;
use crate::store::StoreError;
use crate::store::prefs::Prefs;

/// The event that tells the walk that the desk opened another job.
const JOB_OPENED: &str = "coatwalk-job-opened";

impl Session {
    /// The walk follows when the desk opened a job.
    pub(super) fn tell_walk(self) {
        if let Ok(event) = web_sys::CustomEvent::new(JOB_OPENED) {
            let w: JsValue = window().into();
            call(&w, "dispatchEvent", &js_sys::Array::of1(&event));
        }
    }

    /// Opens a job that came in. The walk is told in any case: it may be the one it opened last and lost.
    pub async fn load_brought(self, job: Uuid) -> Result<(), StoreError> {
        self.load(job).await?;
        self.tell_walk();
        Ok(())
    }

    /// Follows the desk when it opens another job, as long as the page lives.
    pub fn follow_desk(self) {
        let heard = Closure::<dyn Fn()>::new(move || {
            let job = Prefs::load().job;
            if job == self.peek(|l| l.job().id) {
                return;
            }
            self.prefs.set(Prefs::load());
            let Some(job) = job else {
                // The only job went into the bin.
                self.log.set(Log::default());
                return spawn_local(async move {
                    let _ = self.read_heads().await;
                });
            };
            self.start.set(Start::Opening);
            spawn_local(async move {
                let read = self.load(job).await;
                let _ = self.read_heads().await;
                self.start.set(read.map_or_else(Start::Failed, |()| Start::Ready));
            });
        });
        let _ = window().add_event_listener_with_callback(JOB_OPENED, heard.as_ref().unchecked_ref());
        heard.forget();
    }

    /// The desk comes up: opens the store the first time, else reads what the walk did meanwhile.
    pub async fn open_again(self) {
        self.resting.set_value(false);
        self.prefs.set(Prefs::load());
        if self.store.with_value(Option::is_none) {
            return self.begin().await;
        }
        let _ = self.read_heads().await;
        let Some(job) = self.prefs.with_untracked(|p| p.job) else { return };
        if self.load(job).await.is_err() {
            // A newer app took the store over and closed it: what can be had is reading it anew.
            self.begin().await;
        }
    }

    /// The desk is out of sight: what others write is read when it comes up again.
    pub fn rest(self) {
        self.resting.set_value(true);
    }

    /// Entries of these jobs came in from outside: the open one is read anew, and the other tabs hear of it.
    pub async fn came_in(self, jobs: &[Uuid]) {
        let _ = self.read_heads().await;
        for job in jobs {
            self.read_anew(*job).await;
            self.say(&format!("{job}/"));
        }
    }

    /// Adds what stands in the store and not yet in the open log. What is written meanwhile stays.
    pub(super) async fn read_anew(self, job: Uuid) {
        let Some(store) = self.store.get_value().filter(|_| self.peek(|l| l.job().id) == Some(job)) else { return };
        let Ok(lines) = store.lines(job).await else { return };
        let stored = Log::from_lines(lines);
        self.log.update(|open| open.take_in(stored));
    }

    /// Tells the other tabs which entry is new.
    pub(super) fn say(self, words: &str) {
        self.channel.with_value(|c| {
            if let Some(c) = c {
                let _ = c.post_message(&JsValue::from_str(words));
            }
        });
    }

    /// Hears from other tabs.
    pub(super) fn listen(self) {
        if self.channel.with_value(Option::is_some) {
            return;
        }
        let Ok(channel) = BroadcastChannel::new("coatwalk") else { return };
        let heard = Closure::<dyn Fn(MessageEvent)>::new(move |e: MessageEvent| {
            let Some(words) = e.data().as_string().filter(|_| !self.resting.get_value()) else { return };
            let mut ids = words.split('/').map(Uuid::parse_str);
            let (Some(Ok(job)), entry) = (ids.next(), ids.next()) else { return };
            spawn_local(async move {
                let _ = self.read_heads().await;
                let (Some(Ok(entry)), Some(store)) = (entry, self.store.get_value()) else {
                    // No entry is named when many came at once.
                    return self.read_anew(job).await;
                };
                if self.peek(|l| l.job().id) != Some(job) {
                    return;
                }
                if let Ok(Some(line)) = store.line(job, entry).await {
                    // What was offered for undo here is no longer the last thing done.
                    self.saved.set(None);
                    self.log.update(|l| match Entry::read(&line) {
                        Ok(e) => {
                            l.add(e);
                        }
                        Err(u) => l.add_unread(u),
                    });
                }
            });
        });
        channel.set_onmessage(Some(heard.as_ref().unchecked_ref()));
        // Lives as long as the page.
        heard.forget();
        self.channel.set_value(Some(channel));
    }
}
