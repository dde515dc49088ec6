//! Addresses: the part behind `#`, so that any static host serves the app.
//!
//! May use: the names of stages. Must not: know what a screen shows; what stands behind the places of the desk is the
//! desk's own affair ([`super::desk`]).

use uuid::Uuid;

use crate::job::entry::AreaId;
use crate::job::stage::Stage;

/// A place one can be sent to.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Route {
    Today,
    Stage(Stage),
    StageArea(Stage, AreaId),
    /// The plan and what stands behind it.
    Plan,
    Machine,
    Area(AreaId),
    Areas,
    Bags,
    NewBag,
    Bag(Uuid),
    Sums,
    Record,
    Jobs,
    NewJob,
    Settings,
    Close,
    /// The care after the film, and what stands behind it.
    Aftercare,
    /// The jobs in the bin.
    Bin,
    Backup,
    Bring,
}

impl Route {
    /// Its address.
    pub fn address(self) -> String {
        match self {
            Route::Today => "#/".into(),
            Route::Stage(s) => format!("#/stage/{}", s.slug()),
            Route::StageArea(s, a) => format!("#/stage/{}/{}", s.slug(), a.0),
            Route::Plan => "#/plan".into(),
            Route::Machine => "#/machine".into(),
            Route::Areas => "#/machine/areas".into(),
            Route::Area(a) => format!("#/machine/{}", a.0),
            Route::Bags => "#/bags".into(),
            Route::NewBag => "#/bags/new".into(),
            Route::Bag(b) => format!("#/bags/{b}"),
            Route::Sums => "#/sums".into(),
            Route::Record => "#/record".into(),
            Route::Close => "#/record/close".into(),
            Route::Aftercare => "#/aftercare".into(),
            Route::Bin => "#/jobs/bin".into(),
            Route::Backup => "#/record/backup".into(),
            Route::Bring => "#/record/bring".into(),
            Route::Jobs => "#/jobs".into(),
            Route::NewJob => "#/jobs/new".into(),
            Route::Settings => "#/settings".into(),
        }
    }
}

/// Where one stands, as far as the walk's page must know it; the desk knows the rest ([`super::desk`]).
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Standing {
    /// The place in the bottom bar, 0 to 4.
    pub place: usize,
    /// Anywhere but Today.
    pub at_desk: bool,
    /// It can be seen while no job is open.
    pub needs_no_job: bool,
}

impl Standing {
    /// What the part of the address behind `#` says; anything unknown is Today.
    pub fn read(hash: &str) -> Standing {
        let mut words = hash.trim_start_matches(['#', '/']).split('/');
        let (first, second) = (words.next().unwrap_or_default(), words.next().unwrap_or_default());
        let (place, at_desk) = match first {
            "machine" => (1, true),
            "bags" | "parts" | "labels" | "scan" => (2, true),
            "sums" => (3, true),
            "record" | "jobs" | "settings" => (4, true),
            "stage" | "plan" | "clocks" | "found" | "pass" | "work" | "aftercare" => (0, true),
            _ => (0, false),
        };
        let needs_no_job =
            matches!((first, second), ("sums" | "jobs" | "settings", _) | ("record", "backup" | "bring"));
        Standing { place, at_desk, needs_no_job }
    }
}
