//! Two metals that touch: how far apart they stand in the anodic index, and what that means where they stand.
//!
//! Sources: the anodic index of the common handbooks, in the grouping of MIL-STD-889, and its limits of 0.15, 0.25 and
//! 0.50 V: all from memory. The index is in volts against gold; a real pair also depends on what wets it and on how
//! large each part is, so the figure ranks pairs and foretells no rate.

/// A group of metals.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Metal {
    /// Kept in the log: never change it.
    pub slug: &'static str,
    /// What it is called.
    pub name: &'static str,
    /// Anodic index against gold, hundredths of a volt: whole numbers, so that 0.15 V is 0.15 V.
    index: u16,
}

impl Metal {
    /// Anodic index against gold, volts.
    pub fn volts(self) -> f64 {
        f64::from(self.index) / 100.0
    }
}

const fn metal(slug: &'static str, name: &'static str, index: u16) -> Metal {
    Metal { slug, name, index }
}

/// The metals, the noblest first (from memory).
pub const METALS: [Metal; 19] = [
    metal("gold", "Gold", 0),
    metal("silver", "Silver", 15),
    metal("nickel", "Nickel, titanium", 30),
    metal("copper", "Copper", 35),
    metal("bronze", "Bronze, red brass", 40),
    metal("brass", "Yellow brass", 45),
    metal("stainless", "Stainless, 18 % chromium", 50),
    metal("stainless-12", "Stainless, 12 % chromium", 60),
    metal("chrome", "Chromium or tin plate", 60),
    metal("solder", "Tin-lead solder", 65),
    metal("lead", "Lead", 70),
    metal("aluminium-2000", "Aluminium, 2000 series", 75),
    metal("steel", "Steel, iron", 85),
    metal("aluminium", "Aluminium, other wrought", 90),
    metal("aluminium-cast", "Aluminium, cast", 95),
    metal("cadmium", "Cadmium plate", 95),
    metal("galvanised", "Galvanised steel", 120),
    metal("zinc", "Zinc, zinc plate", 125),
    metal("magnesium", "Magnesium", 175),
];

/// The metal of that slug.
pub fn by_slug(slug: &str) -> Option<Metal> {
    METALS.into_iter().find(|m| m.slug == slug)
}

/// Where a pair may stand without more than ordinary care.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// Up to 0.15 V: outdoors, wet, with salt.
    Outdoors,
    /// Up to 0.25 V: under a roof, not heated.
    UnderRoof,
    /// Up to 0.50 V: heated and dry.
    DryRoom,
    /// Over 0.50 V: nowhere, unless kept apart or coated.
    Nowhere,
}

/// The limits, hundredths of a volt (from memory).
const LIMITS: [(u16, Place); 3] = [(15, Place::Outdoors), (25, Place::UnderRoof), (50, Place::DryRoom)];

impl Place {
    /// What it means, in words.
    pub fn words(self) -> &'static str {
        match self {
            Place::Outdoors => "Up to 0.15 V: goes together outdoors, wet or salted",
            Place::UnderRoof => "0.15 to 0.25 V: goes together under a roof; outdoors keep water out or apart",
            Place::DryRoom => "0.25 to 0.50 V: only in a dry room; outdoors coat both and keep them apart",
            Place::Nowhere => "Over 0.50 V: eats fast when wet; keep them apart and coat both",
        }
    }
}

/// Two metals together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pair {
    /// How far apart they stand, volts.
    pub volts: f64,
    /// The one that is eaten; none when neither is.
    pub lesser: Option<Metal>,
    /// The best place they go together in.
    pub place: Place,
}

/// Two metals that touch and get wet.
///
/// ```
/// use coatwalk::sums::galvanic::{Place, by_slug, difference};
/// let pair = difference(by_slug("gold").unwrap(), by_slug("silver").unwrap());
/// assert_eq!((pair.volts, pair.place), (0.15, Place::Outdoors));
/// assert_eq!(pair.lesser, by_slug("silver"));
/// ```
pub fn difference(a: Metal, b: Metal) -> Pair {
    let apart = a.index.abs_diff(b.index);
    let place = LIMITS.into_iter().find(|(most, _)| apart <= *most).map_or(Place::Nowhere, |(_, place)| place);
    let lesser = (apart > 0).then_some(if a.index > b.index { a } else { b });
    Pair { volts: f64::from(apart) / 100.0, lesser, place }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rows of "Anodic Index Information" (eicac.co.uk) and of "Galvanic table" (vk6ysf.com), read there: gold and silver
    /// 0.15 V, which both call acceptable in a harsh place; the index of the other groups as vk6ysf.com prints it.
    #[test]
    fn the_index_is_the_printed_one() {
        for (slug, volts) in [
            ("gold", 0.00),
            ("silver", 0.15),
            ("nickel", 0.30),
            ("copper", 0.35),
            ("bronze", 0.40),
            ("brass", 0.45),
            ("stainless", 0.50),
            ("stainless-12", 0.60),
            ("chrome", 0.60),
            ("solder", 0.65),
            ("lead", 0.70),
            ("aluminium-2000", 0.75),
        ] {
            assert_eq!(by_slug(slug).unwrap().volts(), volts, "{slug}");
        }
        let pair = |a, b| difference(by_slug(a).unwrap(), by_slug(b).unwrap());
        assert_eq!((pair("gold", "silver").volts, pair("gold", "silver").place), (0.15, Place::Outdoors));
    }

    /// The rest of the index from memory, and the pairs met on a machine worked out by hand.
    #[test]
    fn pairs_of_a_machine() {
        let pair = |a, b| difference(by_slug(a).unwrap(), by_slug(b).unwrap());
        for (a, b, volts, lesser, place) in [
            ("steel", "stainless", 0.35, Some("steel"), Place::DryRoom),
            ("steel", "zinc", 0.40, Some("zinc"), Place::DryRoom),
            ("steel", "aluminium", 0.05, Some("aluminium"), Place::Outdoors),
            ("copper", "aluminium", 0.55, Some("aluminium"), Place::Nowhere),
            ("stainless", "copper", 0.15, Some("stainless"), Place::Outdoors),
            ("stainless", "aluminium-2000", 0.25, Some("aluminium-2000"), Place::UnderRoof),
            ("copper", "steel", 0.50, Some("steel"), Place::DryRoom),
            ("stainless-12", "chrome", 0.0, None, Place::Outdoors),
            ("cadmium", "magnesium", 0.80, Some("magnesium"), Place::Nowhere),
            ("galvanised", "brass", 0.75, Some("galvanised"), Place::Nowhere),
        ] {
            for pair in [pair(a, b), pair(b, a)] {
                assert_eq!((pair.volts, pair.place), (volts, place), "{a} {b}");
                assert_eq!(pair.lesser.map(|m| m.slug), lesser, "{a} {b}");
            }
        }
    }

    #[test]
    fn the_noblest_stands_first_and_slugs_are_unique() {
        assert!(METALS.is_sorted_by_key(|m| m.index));
        let slugs: std::collections::BTreeSet<_> = METALS.iter().map(|m| m.slug).collect();
        assert_eq!(slugs.len(), METALS.len());
    }
}
