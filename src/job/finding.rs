//! What is found on the walk round, and the stage that deals with it.
//!
//! May use: stages, entries. Must not: judge; the gate `findings` stands in [`super::gate`].

use super::entry::AreaId;
use super::fold::Stamp;
use super::stage::Stage;
use uuid::Uuid;

/// A sort of finding (common practice, no source).
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Finding {
    /// Points of rust that sit fast.
    RustSpots,
    /// Rust that flakes or powders.
    LooseRust,
    /// Paint that lifts.
    FlakingPaint,
    /// Bent, cracked, torn.
    Damage,
    /// Wax from the works on plated or bare parts.
    ShippingWax,
    /// Unlike metals that touch.
    MixedMetals,
    /// A grease nipple that is dry.
    DryNipple,
    /// Something that can hurt: shown everywhere.
    Hazard,
}

/// One row for each: its name in the log (never change one), on the screen, and where it is dealt with.
const ROWS: [(Finding, &str, &str, Option<Stage>); 8] = [
    (Finding::RustSpots, "rust_spots", "Rust spots", Some(Stage::Mend)),
    (Finding::LooseRust, "loose_rust", "Loose rust", Some(Stage::Mend)),
    (Finding::FlakingPaint, "flaking_paint", "Flaking paint", Some(Stage::Mend)),
    (Finding::Damage, "damage", "Damage", Some(Stage::Mend)),
    (Finding::ShippingWax, "shipping_wax", "Shipping wax", Some(Stage::Dewax)),
    (Finding::MixedMetals, "mixed_metals", "Mixed metals", Some(Stage::FirstPass)),
    (Finding::DryNipple, "dry_nipple", "Dry grease nipple", Some(Stage::Mend)),
    (Finding::Hazard, "hazard", "Hazard", None),
];

impl Finding {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Finding; 8] = [
        Finding::RustSpots,
        Finding::LooseRust,
        Finding::FlakingPaint,
        Finding::Damage,
        Finding::ShippingWax,
        Finding::MixedMetals,
        Finding::DryNipple,
        Finding::Hazard,
    ];

    /// Its name in the log.
    ///
    /// ```
    /// use coatwalk::job::{entry::Finding, stage::Stage};
    /// assert_eq!(Finding::ShippingWax.word(), "shipping_wax");
    /// assert_eq!(Finding::ShippingWax.stage(), Some(Stage::Dewax));
    /// assert_eq!(Finding::Hazard.stage(), None);
    /// ```
    pub fn word(self) -> &'static str {
        ROWS[self as usize].1
    }

    /// The name on the screen.
    pub fn title(self) -> &'static str {
        ROWS[self as usize].2
    }

    /// The stage before whose end it is dealt with; a hazard is shown in every stage and holds none.
    pub fn stage(self) -> Option<Stage> {
        ROWS[self as usize].3
    }
}

/// Something found.
#[derive(Clone, PartialEq, Debug)]
pub struct Found {
    pub id: Uuid,
    pub stamp: Stamp,
    pub area: AreaId,
    pub sort: Finding,
    pub text: String,
    /// Of mixed metals: slugs of [`crate::sums::galvanic::METALS`].
    pub metals: Vec<String>,
    /// When it was dealt with, and how.
    pub dealt: Option<(Stamp, String)>,
}

impl Found {
    /// "Loose rust (left rail)".
    pub fn words(&self) -> String {
        match self.text.trim() {
            "" => self.sort.title().to_owned(),
            text => format!("{} ({text})", self.sort.title()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_finding_has_its_own_row() {
        for (i, sort) in Finding::ALL.into_iter().enumerate() {
            assert_eq!((sort as usize, ROWS[i].0), (i, sort));
        }
    }
}
