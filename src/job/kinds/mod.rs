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
}

/// A kind as its table tells it: words and drawing in one place. The walk needs only the words, so they are split into
/// [`KINDS`] and [`PICTURES`], and the walk's download carries no outlines.
struct Row {
    kind: Kind,
    areas: &'static [Drawn],
    drawing: Drawing,
}

/// How an area is drawn.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Drawn {
    area: KindArea,
    /// Its outline in the side view, in the drawing's own units.
    pub shape: &'static [Shape],
    /// Painted from low to high: 0 lies at the back.
    pub layer: u8,
    /// Its outline from above; empty where it can't be seen from there.
    pub top: &'static [Shape],
    /// The order of painting in the top view: 0 lies lowest.
    pub top_layer: u8,
}

/// The picture of a kind.
struct Picture {
    areas: &'static [Drawn],
    drawing: Drawing,
}

impl Drawn {
    /// On another layer.
    const fn on(self, layer: u8) -> Drawn {
        Drawn { layer, ..self }
    }

    /// With an outline seen from above.
    const fn seen_from_above(self, top_layer: u8, top: &'static [Shape]) -> Drawn {
        Drawn { top, top_layer, ..self }
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
    fn picture(&self) -> &'static Picture {
        let place = KINDS.iter().position(|k| k.id == self.id).expect("a kind is one of the list");
        &PICTURES[place]
    }

    /// The sheet it is drawn on.
    pub fn drawing(&self) -> &'static Drawing {
        &self.picture().drawing
    }

    /// Its areas as they are drawn, in the order of [`Kind::areas`].
    pub fn drawn(&self) -> &'static [Drawn] {
        self.picture().areas
    }

    /// The outline of one area in a view; empty where it is unseen.
    pub fn outline(&self, area: &str, view: View) -> &'static [Shape] {
        let drawn = self.drawn().iter().find(|d| d.area.id == area);
        drawn.map_or(&[], |d| d.in_view(view, self.drawing()))
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
        let drawing = self.drawing();
        let mut all: Vec<_> = self.drawn().iter().collect();
        all.sort_by_key(|d| if view == View::Side { d.layer } else { d.top_layer });
        let outlines = all.into_iter().map(|d| (&d.area, d.in_view(view, drawing)));
        outlines.filter(|(_, shapes)| !shapes.is_empty()).collect()
    }

    /// The area of this kind with this id.
    pub fn area(&self, id: &str) -> Option<&'static KindArea> {
        self.areas.iter().find(|a| a.id == id)
    }
}

/// The words of a table's areas.
const fn words<const N: usize>(areas: &[Drawn]) -> [KindArea; N] {
    let mut all = [areas[0].area; N];
    let mut i = 1;
    while i < N {
        all[i] = areas[i].area;
        i += 1;
    }
    all
}

macro_rules! kinds {
    ($($row:path),* $(,)?) => {
        /// All kinds, in the order they are offered.
        pub static KINDS: &[Kind] = &[$({
            static AREAS: [KindArea; $row.areas.len()] = words($row.areas);
            Kind { areas: &AREAS, ..$row.kind }
        }),*];

        /// Their pictures, in the same order.
        static PICTURES: &[Picture] = &[$(Picture { areas: $row.areas, drawing: $row.drawing }),*];
    };
}

kinds![
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
) -> Drawn {
    Drawn { area: KindArea { id, name, parts, bare }, shape, layer: 0, top: &[], top_layer: 0 }
}

/// The area every kind has: metal parts taken off, coated on both faces and edges.
const fn loose_panels(shape: &'static [Shape]) -> Drawn {
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
