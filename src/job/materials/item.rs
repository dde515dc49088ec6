//! The materials by name, what each is counted in, and the sizes shops usually have.

use serde::{Deserialize, Serialize};

use crate::job::product::Use;

/// A material.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the titles say it
pub enum Item {
    FilmLiquid,
    FilmCans,
    Degreaser,
    Neutraliser,
    Water,
    Paper,
    Tape,
    Foil,
    Bags,
    CoverBags,
    Rags,
    Gloves,
    Cartridges,
    Brushes,
    Pads,
}

/// What a material is counted in; in an [`Item`]'s figures and sizes it is the unit.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Measure {
    /// Litres.
    Litres,
    /// Square metres.
    SquareMetres,
    /// Metres.
    Metres,
    /// Pieces: cans, bags, pairs.
    Pieces,
}

impl Item {
    /// All of them, in the order of the list.
    pub const ALL: [Item; 15] = [
        Item::FilmLiquid,
        Item::FilmCans,
        Item::Degreaser,
        Item::Neutraliser,
        Item::Water,
        Item::Paper,
        Item::Tape,
        Item::Foil,
        Item::Bags,
        Item::CoverBags,
        Item::Rags,
        Item::Gloves,
        Item::Cartridges,
        Item::Brushes,
        Item::Pads,
    ];

    /// The name on the list.
    pub fn title(self) -> &'static str {
        match self {
            Item::FilmLiquid => "Film, liquid",
            Item::FilmCans => "Film, cans",
            Item::Degreaser => "Degreaser, concentrate",
            Item::Neutraliser => "Neutraliser, concentrate",
            Item::Water => "Water to catch",
            Item::Paper => "Masking paper",
            Item::Tape => "Masking tape",
            Item::Foil => "Aluminium foil",
            Item::Bags => "Bags for fasteners",
            Item::CoverBags => "Bags for openings",
            Item::Rags => "Rags",
            Item::Gloves => "Gloves, pairs",
            Item::Cartridges => "Mask cartridges, pairs",
            Item::Brushes => "Brushes",
            Item::Pads => "Scrub pads",
        }
    }

    /// Its name in the log, the same as serde's. Never change one.
    pub fn slug(self) -> &'static str {
        match self {
            Item::FilmLiquid => "film_liquid",
            Item::FilmCans => "film_cans",
            Item::Degreaser => "degreaser",
            Item::Neutraliser => "neutraliser",
            Item::Water => "water",
            Item::Paper => "paper",
            Item::Tape => "tape",
            Item::Foil => "foil",
            Item::Bags => "bags",
            Item::CoverBags => "cover_bags",
            Item::Rags => "rags",
            Item::Gloves => "gloves",
            Item::Cartridges => "cartridges",
            Item::Brushes => "brushes",
            Item::Pads => "pads",
        }
    }

    /// The item of a slug.
    pub fn of_slug(slug: &str) -> Option<Item> {
        Item::ALL.into_iter().find(|i| i.slug() == slug)
    }

    /// What it is counted in.
    pub fn measure(self) -> Measure {
        match self {
            Item::FilmLiquid | Item::Degreaser | Item::Neutraliser | Item::Water => Measure::Litres,
            Item::Paper | Item::Foil => Measure::SquareMetres,
            Item::Tape => Measure::Metres,
            _ => Measure::Pieces,
        }
    }

    /// The product it comes from, if it is one.
    pub fn product(self) -> Option<Use> {
        match self {
            Item::FilmLiquid => Some(Use::LiquidFilm),
            Item::FilmCans => Some(Use::AerosolFilm),
            Item::Degreaser => Some(Use::Degreaser),
            Item::Neutraliser => Some(Use::Neutraliser),
            _ => None,
        }
    }

    /// Sizes that shops usually have, when the user has not said his.
    pub fn usual_sizes(self) -> &'static [f64] {
        match self {
            Item::Paper => &[15.0, 45.0],
            Item::Tape => &[50.0],
            Item::Foil => &[3.0, 9.0],
            Item::Bags => &[50.0],
            Item::CoverBags | Item::Rags => &[20.0],
            Item::Gloves => &[10.0, 50.0],
            _ => &[1.0],
        }
    }
}

/// A size of a material that is no product, in its own [`Measure`].
#[derive(Clone, Copy, PartialEq, Debug, Serialize, Deserialize)]
pub struct SupplySize {
    /// How much is in it: m² of paper and foil, m of tape, pieces of the rest.
    pub amount: f64,
    /// What it costs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<f64>,
}

/// The user's sizes and stock of a material that is no product. This is also the stored shape.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Supply {
    /// Which.
    pub item: Item,
    /// Sizes to be had; the usual ones when empty.
    #[serde(default)]
    pub sizes: Vec<SupplySize>,
    /// On the shelf already, in the item's measure.
    #[serde(default)]
    pub on_shelf: f64,
}

impl Supply {
    /// The one of this item among all; a new one with nothing in it when there is none yet.
    pub fn of(all: &mut Vec<Supply>, item: Item) -> &mut Supply {
        let place = all.iter().position(|s| s.item == item).unwrap_or_else(|| {
            all.push(Supply { item, sizes: Vec::new(), on_shelf: 0.0 });
            all.len() - 1
        });
        &mut all[place]
    }

    /// The user's own sizes, or the usual ones while he has none.
    pub fn sizes(all: &[Supply], item: Item) -> Vec<SupplySize> {
        let own = all.iter().find(|s| s.item == item).map_or(&[][..], |s| &s.sizes);
        match own {
            [] => item.usual_sizes().iter().map(|a| SupplySize { amount: *a, price: None }).collect(),
            own => own.to_vec(),
        }
    }
}
