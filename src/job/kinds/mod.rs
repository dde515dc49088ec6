//! The kinds of machine: the areas one walks round, what comes off there, what stays bare, and a flat side view of each.
//!
//! Lists and sizes are starting points (common practice, no source): the owner edits his own. The side view is drawn in
//! one hand: front to the left, a ground line, and below it boxes for what cannot be seen from the side.
//!
//! May use: [`super::guide`] for its cautions. Must not: know a job, a screen or how a shape is painted.

mod haulers;
mod hazards;
mod loaders;
mod shape;
mod spreaders;
mod tractors;

pub use shape::{Drawing, Shape};

use super::guide::Caution;

/// One kind of machine.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Kind {
    /// Kebab case. Kept in the log: never change it.
    pub id: &'static str,
    pub name: &'static str,
    /// Typical overall length, from memory; see [`SIZE_NOTE`].
    pub length_m: f64,
    /// Typical overall width, from memory.
    pub width_m: f64,
    /// Typical overall height, from memory.
    pub height_m: f64,
    /// In the order one walks round the machine.
    pub areas: &'static [KindArea],
    /// From what it has carried or how it is built: shown at Survey, Take off and Wipe.
    pub hazards: &'static [Caution],
    pub drawing: Drawing,
}

/// Said wherever a kind's size is shown.
pub const SIZE_NOTE: &str = "Typical size, from memory. Measure yours.";

/// One area of a kind of machine.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct KindArea {
    /// Kebab case, unique in its kind. Kept in the log: never change it.
    pub id: &'static str,
    pub name: &'static str,
    /// Parts that usually come off here.
    pub parts: &'static [&'static str],
    /// What stays bare here.
    pub bare: &'static [&'static str],
    /// Its outline in the side view, in the drawing's own units.
    pub shape: &'static [Shape],
    /// Painted from low to high: 0 lies at the back.
    pub layer: u8,
}

impl KindArea {
    /// On another layer.
    const fn on(self, layer: u8) -> KindArea {
        KindArea { layer, ..self }
    }

    /// The box round all its shapes: left, top, right, bottom, in the drawing's units.
    pub fn bounds(&self) -> (f32, f32, f32, f32) {
        shape::bounds(self.shape)
    }

    /// Unseen from the side: drawn as a box with its name under the ground line.
    pub fn is_boxed(&self, drawing: &Drawing) -> bool {
        self.bounds().1 > drawing.ground
    }
}

impl Kind {
    /// The areas as they are painted, the ones at the back first.
    ///
    /// ```
    /// let loader = coatwalk::job::kinds::kind("compact-wheel-loader").unwrap();
    /// let painted = loader.back_to_front();
    /// assert!(painted.windows(2).all(|w| w[0].layer <= w[1].layer));
    /// ```
    pub fn back_to_front(&self) -> Vec<&'static KindArea> {
        let mut areas: Vec<_> = self.areas.iter().collect();
        areas.sort_by_key(|a| a.layer);
        areas
    }

    /// The area of this kind with this id.
    pub fn area(&self, id: &str) -> Option<&'static KindArea> {
        self.areas.iter().find(|a| a.id == id)
    }
}

/// All kinds, in the order they are offered.
pub static KINDS: &[Kind] = &[
    loaders::WHEEL_LOADER,
    loaders::SKID_STEER,
    tractors::TRACTOR,
    tractors::TELEHANDLER,
    spreaders::SPREADER,
    spreaders::SLURRY_TANKER,
    haulers::TRAILER,
    haulers::PICKUP,
];

/// The kind with this id.
///
/// ```
/// use coatwalk::job::kinds::kind;
/// assert_eq!(kind("compact-wheel-loader").unwrap().name, "Compact wheel loader");
/// assert!(kind("submarine").is_none());
/// ```
pub fn kind(id: &str) -> Option<&'static Kind> {
    KINDS.iter().find(|k| k.id == id)
}

// Short forms for the tables.
const fn area(
    id: &'static str,
    name: &'static str,
    parts: &'static [&'static str],
    bare: &'static [&'static str],
    shape: &'static [Shape],
) -> KindArea {
    KindArea { id, name, parts, bare, shape, layer: 0 }
}

/// The area every kind has: metal parts taken off, coated on both faces and edges.
const fn loose_panels(shape: &'static [Shape]) -> KindArea {
    area(
        "loose-panels",
        "Loose panels on trestles",
        &[],
        &["Decals, rubber edges, latch faces, threads noted as bare"],
        shape,
    )
}

#[cfg(test)]
mod tests;
