//! Small things a person chose, kept in localStorage: never anything of a job.
//!
//! May use: gloo-storage. Must not: keep entries (localStorage is small and slow).

use std::collections::BTreeMap;

use gloo_storage::{LocalStorage, Storage};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::units::Gallons;
pub use crate::units::UnitSet;

const KEY: &str = "coatwalk-prefs";

/// What this phone's user chose.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, Default)]
#[serde(default)]
pub struct Prefs {
    /// The name on his entries.
    pub name: String,
    /// The job that was open last.
    pub job: Option<Uuid>,
    /// Which units to show.
    pub units: UnitSet,
    /// What a bare "gal" means to someone who thinks in litres; asked once.
    pub gallons: Option<Gallons>,
    /// Figures of his own things on the sums, such as his pail, by sheet, question and units.
    pub kept: BTreeMap<String, String>,
    /// "", "light" or "dark": empty follows the phone.
    pub ground: String,
    /// Main buttons for the left thumb.
    pub left_handed: bool,
    /// "Ready for no signal" was said.
    pub told_ready: bool,
    /// The clocks that rang, by their word, the last ones.
    pub rang: Vec<String>,
    /// A clock that rings is read aloud too.
    pub speaks: bool,
}

impl Prefs {
    /// What was chosen before, or the defaults.
    pub fn load() -> Prefs {
        Prefs::stored().unwrap_or_default()
    }

    /// What this browser keeps now, if it keeps anything.
    pub fn stored() -> Option<Prefs> {
        LocalStorage::get(KEY).ok()
    }

    /// Keeps it. A browser that keeps nothing is no reason to stop: the choice holds until the app closes.
    pub fn save(&self) {
        let _ = LocalStorage::set(KEY, self);
    }
}
