//! The places of the desk, by address, and the screen of each.
//!
//! May use: the screens. Must not: know what a screen shows.

use leptos::prelude::*;

use crate::app::screens;
use crate::sheets::SHEETS;

/// A place of the desk.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Spot {
    Sums,
    /// The sum at that place of the list.
    Sum(usize),
    Machine,
    Areas,
    Record,
    Close,
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
            ["machine"] => Spot::Machine,
            ["machine", "areas"] => Spot::Areas,
            ["record"] => Spot::Record,
            ["record", "close"] => Spot::Close,
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
            Spot::Machine => screens::machine::Machine().into_any(),
            Spot::Areas => screens::areas::Areas().into_any(),
            Spot::Record => screens::record::Record().into_any(),
            Spot::Close => screens::close::Close().into_any(),
            Spot::Jobs => screens::jobs::Jobs().into_any(),
            Spot::NewJob => screens::new_job::NewJob().into_any(),
            Spot::Settings => screens::settings::Settings().into_any(),
        }
    }
}
