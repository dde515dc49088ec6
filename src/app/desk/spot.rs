//! The places of the desk, by address, and the screen of each.
//!
//! May use: the screens. Must not: know what a screen shows.

use leptos::prelude::*;

use uuid::Uuid;

use crate::app::screens;
use crate::app::screens::{bags, floor, plan, years};
use crate::job::entry::AreaId;
use crate::job::product::Use;
use crate::job::stage::Stage;
use crate::sheets::SHEETS;

/// A place of the desk.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Spot {
    Sums,
    /// The sum at that place of the list.
    Sum(usize),
    Plan,
    Days,
    Size,
    /// Surface, material and exposure of an area.
    Surface(AreaId),
    Products,
    Product(Uuid),
    Buy,
    Shed,
    Air,
    Took,
    Before,
    Clocks,
    Found(AreaId),
    Pass(Stage),
    Work,
    Stage(Stage),
    StageArea(Stage, AreaId),
    Machine,
    Area(AreaId),
    Areas,
    Bags,
    NewBag,
    Bag(Uuid),
    Parts,
    Labels,
    Scan,
    Record,
    Compare,
    Report,
    Close,
    Backup,
    Bring,
    Aftercare,
    Look,
    TouchUp,
    History,
    Jobs,
    Bin,
    /// Putting a job away; none is chosen yet without an id.
    PutAway(Option<Uuid>),
    NewJob,
    Settings,
}

impl Spot {
    /// The place an address names, if it is one of the desk's.
    pub fn read(hash: &str) -> Option<Spot> {
        let parts: Vec<&str> = hash.trim_start_matches(['#', '/']).split('/').filter(|p| !p.is_empty()).collect();
        let id = |s: &str| Uuid::parse_str(s).ok();
        let area = |s: &str| id(s).map(AreaId);
        Some(match parts.as_slice() {
            ["sums", slug] => SHEETS.iter().position(|s| s.slug == *slug).map_or(Spot::Sums, Spot::Sum),
            ["sums", ..] => Spot::Sums,
            ["plan"] => Spot::Plan,
            ["plan", "days"] => Spot::Days,
            ["plan", "machine"] => Spot::Size,
            ["plan", "area", a] => Spot::Surface(area(a)?),
            ["plan", "products"] => Spot::Products,
            ["plan", "product", p] => Spot::Product(id(p)?),
            ["plan", "buy"] => Spot::Buy,
            ["plan", "shed"] => Spot::Shed,
            ["plan", "air"] => Spot::Air,
            ["plan", "took"] => Spot::Took,
            ["plan", "before"] => Spot::Before,
            ["clocks"] => Spot::Clocks,
            ["found", a] => Spot::Found(area(a)?),
            ["pass", s] => Spot::Pass(Stage::from_slug(s).filter(|s| Use::film_of(*s).is_some())?),
            ["work"] => Spot::Work,
            ["stage", s] => Spot::Stage(Stage::from_slug(s)?),
            ["stage", s, a] => Spot::StageArea(Stage::from_slug(s)?, area(a)?),
            ["machine"] => Spot::Machine,
            ["machine", "areas"] => Spot::Areas,
            ["machine", a] => Spot::Area(area(a)?),
            ["bags"] => Spot::Bags,
            ["bags", "new"] => Spot::NewBag,
            ["bags", b] => id(b).map_or(Spot::Bags, Spot::Bag),
            ["parts"] => Spot::Parts,
            ["labels"] => Spot::Labels,
            ["scan"] => Spot::Scan,
            ["record"] => Spot::Record,
            ["record", "compare"] => Spot::Compare,
            ["record", "report"] => Spot::Report,
            ["record", "close"] => Spot::Close,
            ["record", "backup"] => Spot::Backup,
            ["record", "bring"] => Spot::Bring,
            ["aftercare"] => Spot::Aftercare,
            ["aftercare", "look"] => Spot::Look,
            ["aftercare", "touch-up"] => Spot::TouchUp,
            ["aftercare", "history"] => Spot::History,
            ["jobs", "bin"] => Spot::Bin,
            ["jobs", "away"] => Spot::PutAway(None),
            ["jobs", "away", j] => Spot::PutAway(Some(id(j)?)),
            ["jobs"] => Spot::Jobs,
            ["jobs", "new"] => Spot::NewJob,
            ["settings"] => Spot::Settings,
            _ => return None,
        })
    }

    /// It shows the plan, which learns from other jobs.
    pub fn plans(self) -> bool {
        matches!(
            self,
            Spot::Plan
                | Spot::Days
                | Spot::Size
                | Spot::Surface(_)
                | Spot::Products
                | Spot::Product(_)
                | Spot::Buy
                | Spot::Shed
                | Spot::Air
                | Spot::Took
                | Spot::Before
        )
    }

    /// Its screen.
    pub fn screen(self) -> AnyView {
        match self {
            Spot::Sums => screens::sums::Sums().into_any(),
            Spot::Sum(place) => view! { <screens::sheet::SheetScreen place/> }.into_any(),
            Spot::Plan => plan::overview::OverviewScreen().into_any(),
            Spot::Days => plan::days::DaysScreen().into_any(),
            Spot::Size => plan::machine::MachineScreen().into_any(),
            Spot::Surface(area) => view! { <plan::area::AreaScreen area/> }.into_any(),
            Spot::Products => plan::products::ProductsScreen().into_any(),
            Spot::Product(id) => view! { <plan::product::ProductScreen id/> }.into_any(),
            Spot::Buy => plan::buy::BuyScreen().into_any(),
            Spot::Shed => plan::shed::ShedScreen().into_any(),
            Spot::Air => plan::air::AirScreen().into_any(),
            Spot::Took => plan::took::TookScreen().into_any(),
            Spot::Before => plan::before::BeforeScreen().into_any(),
            Spot::Clocks => floor::clocks::ClocksScreen().into_any(),
            Spot::Found(area) => view! { <floor::found::FoundScreen area/> }.into_any(),
            Spot::Pass(stage) => view! { <floor::pass::PassScreen stage/> }.into_any(),
            Spot::Work => floor::work::WorkScreen().into_any(),
            Spot::Stage(stage) => view! { <screens::stage::StageScreen stage/> }.into_any(),
            Spot::StageArea(stage, area) => view! { <screens::stage_area::StageArea stage area/> }.into_any(),
            Spot::Machine => screens::machine::Machine().into_any(),
            Spot::Area(area) => view! { <screens::area::AreaScreen area/> }.into_any(),
            Spot::Areas => screens::areas::Areas().into_any(),
            Spot::Bags => bags::Bags().into_any(),
            Spot::NewBag => bags::new::NewBag().into_any(),
            Spot::Bag(bag) => view! { <bags::one::BagScreen bag/> }.into_any(),
            Spot::Parts => bags::parts::Parts().into_any(),
            Spot::Labels => bags::labels::Labels().into_any(),
            Spot::Scan => bags::scan::Scan().into_any(),
            Spot::Record => screens::record::Record().into_any(),
            Spot::Compare => screens::record::compare::Compare().into_any(),
            Spot::Report => screens::record::report::ReportScreen().into_any(),
            Spot::Close => screens::close::Close().into_any(),
            Spot::Backup => screens::keep::backup::Backup().into_any(),
            Spot::Bring => screens::keep::bring::Bring().into_any(),
            Spot::Aftercare => years::aftercare::AftercareScreen().into_any(),
            Spot::Look => years::look::LookScreen().into_any(),
            Spot::TouchUp => years::touch_up::TouchUpScreen().into_any(),
            Spot::History => years::history::HistoryScreen().into_any(),
            Spot::Bin => years::bin::BinScreen().into_any(),
            Spot::PutAway(None) => years::bin::PickScreen().into_any(),
            Spot::PutAway(Some(job)) => view! { <years::bin::PutAwayScreen job/> }.into_any(),
            Spot::Jobs => screens::jobs::Jobs().into_any(),
            Spot::NewJob => screens::new_job::NewJob().into_any(),
            Spot::Settings => screens::settings::Settings().into_any(),
        }
    }
}
