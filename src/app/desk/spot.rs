//! The places of the desk, by address, and the screen of each.
//!
//! May use: the screens. Must not: know what a screen shows.

use leptos::prelude::*;

use uuid::Uuid;

use crate::app::screens;
use crate::app::screens::plan;
use crate::job::entry::AreaId;
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
    Machine,
    Areas,
    Record,
    Compare,
    Report,
    Close,
    Backup,
    Bring,
    Jobs,
    NewJob,
    Settings,
}

impl Spot {
    /// The place an address names, if it is one of the desk's.
    pub fn read(hash: &str) -> Option<Spot> {
        let parts: Vec<&str> = hash.trim_start_matches(['#', '/']).split('/').filter(|p| !p.is_empty()).collect();
        Some(match parts.as_slice() {
            ["sums", slug] => SHEETS.iter().position(|s| s.slug == *slug).map_or(Spot::Sums, Spot::Sum),
            ["sums", ..] => Spot::Sums,
            ["plan"] => Spot::Plan,
            ["plan", "days"] => Spot::Days,
            ["plan", "machine"] => Spot::Size,
            ["plan", "area", a] => Spot::Surface(AreaId(Uuid::parse_str(a).ok()?)),
            ["plan", "products"] => Spot::Products,
            ["plan", "product", p] => Spot::Product(Uuid::parse_str(p).ok()?),
            ["plan", "buy"] => Spot::Buy,
            ["plan", "shed"] => Spot::Shed,
            ["plan", "air"] => Spot::Air,
            ["plan", "took"] => Spot::Took,
            ["plan", "before"] => Spot::Before,
            ["machine"] => Spot::Machine,
            ["machine", "areas"] => Spot::Areas,
            ["record"] => Spot::Record,
            ["record", "compare"] => Spot::Compare,
            ["record", "report"] => Spot::Report,
            ["record", "close"] => Spot::Close,
            ["record", "backup"] => Spot::Backup,
            ["record", "bring"] => Spot::Bring,
            ["jobs"] => Spot::Jobs,
            ["jobs", "new"] => Spot::NewJob,
            ["settings"] => Spot::Settings,
            _ => return None,
        })
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
            Spot::Machine => screens::machine::Machine().into_any(),
            Spot::Areas => screens::areas::Areas().into_any(),
            Spot::Record => screens::record::Record().into_any(),
            Spot::Compare => screens::record::compare::Compare().into_any(),
            Spot::Report => screens::record::report::ReportScreen().into_any(),
            Spot::Close => screens::close::Close().into_any(),
            Spot::Backup => screens::keep::backup::Backup().into_any(),
            Spot::Bring => screens::keep::bring::Bring().into_any(),
            Spot::Jobs => screens::jobs::Jobs().into_any(),
            Spot::NewJob => screens::new_job::NewJob().into_any(),
            Spot::Settings => screens::settings::Settings().into_any(),
        }
    }
}
