//! What passes between the walk and the sums, which are a part of their own: a second WebAssembly, fetched when the
//! Sums are first opened, so that the first start does not carry it.
//!
//! The walk hands over what the job knows ([`Handed`]); the sums hand back what is to be put in the record ([`Slip`]).
//! Both travel as JSON; preferences are read from where they are kept.
//!
//! May use: preferences. Must not: reach the store of entries (that is the walk's).

use leptos::prelude::*;
use serde::{Deserialize, Serialize};

use crate::store::prefs::Prefs;

/// What the open job knows.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Handed {
    /// A job is open: results can be put in its record.
    pub has_job: bool,
    /// Its readings, oldest first.
    pub readings: Vec<HandedReading>,
}

/// One reading.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct HandedReading {
    /// Hours before now.
    pub hours_ago: f64,
    pub air_c: f64,
    pub rh_pct: Option<f64>,
    pub steel_c: Option<f64>,
}

/// A result for the record.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Slip {
    pub sum: String,
    pub inputs: String,
    pub result: String,
}

/// The event that carries a [`Slip`] to the walk.
pub const SLIP: &str = "coatwalk-slip";

/// What the screens of the sums share.
#[derive(Clone, Copy)]
pub struct Desk {
    pub prefs: RwSignal<Prefs>,
    pub handed: StoredValue<Handed>,
}

impl Desk {
    /// Changes a preference and keeps it.
    pub fn choose(self, change: impl FnOnce(&mut Prefs)) {
        self.prefs.update(change);
        self.prefs.with_untracked(Prefs::save);
    }

    /// A job is open.
    pub fn has_job(self) -> bool {
        self.handed.with_value(|h| h.has_job)
    }
}

/// The desk of the sums.
pub fn use_desk() -> Desk {
    expect_context::<Desk>()
}
