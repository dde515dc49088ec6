//! Where one is: the part of the address behind `#`, so that any static host serves the app.
//!
//! May use: the names of stages. Must not: know what a screen shows; what stands behind the places of the desk is the
//! desk's own affair ([`super::desk`]).

use uuid::Uuid;

use crate::job::entry::AreaId;
use crate::job::stage::Stage;

/// A place in the app.
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
    Backup,
    Bring,
}

impl Route {
    /// The place an address names; anything unknown is Today.
    pub fn read(hash: &str) -> Route {
        let parts: Vec<&str> = hash.trim_start_matches(['#', '/']).split('/').filter(|p| !p.is_empty()).collect();
        let id = |s: &str| Uuid::parse_str(s).ok();
        let found = match parts.as_slice() {
            ["stage", s] => Stage::from_slug(s).map(Route::Stage),
            ["stage", s, a] => Stage::from_slug(s).zip(id(a)).map(|(s, a)| Route::StageArea(s, AreaId(a))),
            ["plan", ..] => Some(Route::Plan),
            ["machine"] => Some(Route::Machine),
            ["machine", "areas"] => Some(Route::Areas),
            ["machine", a] => id(a).map(|a| Route::Area(AreaId(a))),
            ["bags"] => Some(Route::Bags),
            ["bags", "new"] => Some(Route::NewBag),
            ["bags", b] => id(b).map(Route::Bag),
            ["sums", ..] => Some(Route::Sums),
            ["record", "close"] => Some(Route::Close),
            ["record", "backup"] => Some(Route::Backup),
            ["record", "bring"] => Some(Route::Bring),
            ["record", ..] => Some(Route::Record),
            ["jobs"] => Some(Route::Jobs),
            ["jobs", "new"] => Some(Route::NewJob),
            ["settings"] => Some(Route::Settings),
            _ => None,
        };
        found.unwrap_or(Route::Today)
    }

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
            Route::Backup => "#/record/backup".into(),
            Route::Bring => "#/record/bring".into(),
            Route::Jobs => "#/jobs".into(),
            Route::NewJob => "#/jobs/new".into(),
            Route::Settings => "#/settings".into(),
        }
    }

    /// It stands at the desk, not in the walk.
    pub fn at_desk(self) -> bool {
        self.needs_no_job()
            || matches!(self, Route::Plan | Route::Machine | Route::Areas | Route::Record | Route::Close)
    }

    /// It can be seen while no job is open.
    pub fn needs_no_job(self) -> bool {
        matches!(self, Route::Sums | Route::Jobs | Route::NewJob | Route::Settings | Route::Backup | Route::Bring)
    }

    /// The place in the bottom bar it belongs to, 0 to 4.
    pub fn place(self) -> usize {
        match self {
            Route::Machine | Route::Area(_) | Route::Areas => 1,
            Route::Bags | Route::NewBag | Route::Bag(_) => 2,
            Route::Sums => 3,
            Route::Record | Route::Close | Route::Settings | Route::Jobs | Route::Backup | Route::Bring => 4,
            _ => 0,
        }
    }
}
