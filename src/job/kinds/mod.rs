//! The kinds of machine: the areas one walks round, what comes off there, what stays bare, and two flat views.
//!
//! Lists and sizes are starting points (common practice, no source): the owner edits his own. The side view is drawn in
//! one hand: front to the left, a ground line, and below it boxes for what cannot be seen from the side. The top view has
//! the same sheet and the same scale along the machine; what can be seen from neither keeps its box.
//!
//! May use: [`super::guide`] for its cautions. Must not: know a job, a screen or how a shape is painted.

mod haulers;
mod hazards;
mod loaders;
mod shape;
mod sight;
mod spreaders;
mod tractors;

pub use shape::{Drawing, Shape, View, bounds};
pub use sight::Sight;

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
    /// Its outline from above; empty where it can't be seen from there.
    pub top: &'static [Shape],
    /// The order of painting in the top view: 0 lies lowest.
    pub top_layer: u8,
}

impl KindArea {
    /// On another layer.
    const fn on(self, layer: u8) -> KindArea {
        KindArea { layer, ..self }
    }

    /// With an outline seen from above.
    const fn seen_from_above(self, top_layer: u8, top: &'static [Shape]) -> KindArea {
        KindArea { top, top_layer, ..self }
    }

    /// The box round all its shapes: left, top, right, bottom, in the drawing's units.
    pub fn bounds(&self) -> (f32, f32, f32, f32) {
        shape::bounds(self.shape)
    }

    /// Unseen from the side: drawn as a box with its name under the ground line.
    pub fn is_boxed(&self, drawing: &Drawing) -> bool {
        self.bounds().1 > drawing.ground
    }

    /// Its outline in a view. From above, what has a box in the side view and is not seen keeps its box; anything else
    /// unseen has none.
    pub fn in_view(&self, view: View, drawing: &Drawing) -> &'static [Shape] {
        match view {
            View::Side => self.shape,
            View::Top if self.top.is_empty() && self.is_boxed(drawing) => self.shape,
            View::Top => self.top,
        }
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

    /// The areas seen in a view with their outlines, as they are painted, the lowest first.
    ///
    /// ```
    /// use coatwalk::job::kinds::{View, kind};
    /// let loader = kind("compact-wheel-loader").unwrap();
    /// let seen = |v| loader.painted(v).iter().any(|(a, _)| a.id == "underside");
    /// assert!(seen(View::Side) && !seen(View::Top));
    /// ```
    pub fn painted(&self, view: View) -> Vec<(&'static KindArea, &'static [Shape])> {
        let outline = |a: &'static KindArea| (a, a.in_view(view, &self.drawing));
        let mut all: Vec<_> = self.areas.iter().map(outline).filter(|(_, shapes)| !shapes.is_empty()).collect();
        all.sort_by_key(|(a, _)| if view == View::Side { a.layer } else { a.top_layer });
        all
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
    KindArea { id, name, parts, bare, shape, layer: 0, top: &[], top_layer: 0 }
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
