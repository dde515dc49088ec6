//! The figures of a product as its data sheets give them, and the generic ones that stand in for them.
//!
//! May use: the ranges and defaults of [`crate::sums`]. Must not: know which product is in use.

use super::{DEFAULT_NOTE, PRODUCT_C, Use, origin};
use crate::job::entry::tidy;
use crate::sums::band::Band;
use crate::sums::film::{CAN_SPRAYS_PERCENT, RESIN_UM, SOLIDS_PERCENT, Tool};
use crate::sums::range::Field;
use crate::sums::vapour::{self, Share};
use crate::sums::{air, cure, dilution};
use crate::units::CELSIUS;

/// A figure of a product. An own figure has no spread unless the user gave one.
#[derive(Clone, PartialEq, Debug)]
pub struct Figure {
    /// The figure itself.
    pub likely: f64,
    /// One job in ten is lower.
    pub low: Option<f64>,
    /// One in ten is higher.
    pub high: Option<f64>,
    /// Not the user's own.
    pub default: bool,
    /// Where it comes from.
    pub note: String,
}

impl Figure {
    /// The user's own figure, from his data sheet.
    pub fn own(likely: f64) -> Figure {
        Figure { likely, low: None, high: None, default: false, note: origin(true).into() }
    }

    fn generic(row: [f64; 3], basis: &str) -> Figure {
        let spread = row[0] < row[2];
        Figure {
            likely: row[1],
            low: spread.then_some(row[0]),
            high: spread.then_some(row[2]),
            default: true,
            note: format!("{DEFAULT_NOTE} ({basis})"),
        }
    }

    /// With its spread; none for a bare figure.
    pub fn band(&self) -> Band {
        let (low, high) = (self.low.unwrap_or(self.likely), self.high.unwrap_or(self.likely));
        Band { low, likely: self.likely, high }
    }
}

macro_rules! figures {
    ($($(#[$doc:meta])* $name:ident $words:literal $field:ident;)*) => {
        /// The figures of a product; each may be missing. Field names carry the unit.
        #[derive(Clone, PartialEq, Debug, Default)]
            pub struct Sheet {$(
            $(#[$doc])*
            pub $name: Option<Figure>,
        )*}

        impl Sheet {
            /// Every figure with its name in the store, its words and range, in the order of a data sheet.
            pub fn rows(&self) -> Vec<(&'static str, &'static str, Field, Option<&Figure>)> {
                vec![$((stringify!($name), $words, Field::$field, self.$name.as_ref())),*]
            }

            /// Every figure by its name in the store.
            pub(in crate::job) fn slots(&mut self) -> Vec<(&'static str, &mut Option<Figure>)> {
                vec![$((stringify!($name), &mut self.$name)),*]
            }

            pub(super) fn each(&mut self, generic: &Sheet, mut settle: impl FnMut(&str, Field, &mut Option<Figure>, &Option<Figure>)) {
                $(settle($words, Field::$field, &mut self.$name, &generic.$name);)*
            }
        }
    };
}

figures! {
    /// Solids, % by volume.
    solids_pct "solids by volume" Solids;
    /// Dry film wanted, µm.
    dry_um "dry film" DryFilm;
    /// Share that does not land, %.
    loss_pct "share lost" Loss;
    /// Share of a can that comes out, %.
    can_sprays_pct "share of a can that comes out" CanSprays;
    /// Liquid as used per area: the mix of a degreaser or neutraliser, the film out of cans in the first pass, L/m².
    use_l_per_m2 "liquid per area" VolumePerArea;
    /// Parts of water in the mix.
    water_parts "parts of water" WaterParts;
    /// Parts of concentrate in the mix.
    concentrate_parts "parts of concentrate" ConcentrateParts;
    /// Lowest product temperature, °C.
    product_least_c "lowest product temperature" ProductTemperature;
    /// Highest product temperature, °C.
    product_most_c "highest product temperature" ProductTemperature;
    /// Lowest steel and air temperature, °C.
    steel_least_c "lowest steel temperature" SteelTemperature;
    /// Highest relative humidity, %.
    rh_most_pct "highest relative humidity" RelativeHumidity;
    /// Wait between the passes, min.
    flash_off_min "flash-off minutes" WaitMinutes;
    /// Touch-dry at the reference temperature, h.
    touch_dry_h "touch-dry hours" EquivalentHours;
    /// Refit at the reference temperature, h.
    refit_h "cure hours" EquivalentHours;
    /// Temperature those hours hold for, °C.
    reference_c "reference temperature of the cure" CureTemperature;
    /// No cure counts below it, °C.
    cure_least_c "lowest cure temperature" CureTemperature;
    /// Flash point, °C.
    flash_point_c "flash point" FlashPoint;
    /// Lower explosive limit of its vapour, % by volume.
    lel_pct "lower explosive limit" Lel;
    /// Vapour from one litre of it, L.
    vapour_l_per_l "vapour per litre" VapourRatio;
}

impl Sheet {
    /// Generic starting values, each with its basis.
    pub fn generic(used_as: Use) -> Sheet {
        const CP: &str = "common practice, no source";
        const MEM: &str = "from memory";
        let three = |row: [f64; 3], basis| Some(Figure::generic(row, basis));
        let one = |v: f64, basis| Some(Figure::generic([v; 3], basis));
        // White spirit stands for the solvent, with the lowest limit printed for it.
        let spirit = vapour::solvent("white spirit (as n-nonane)").map(|solvent| Share { solvent, parts: 60.0 });
        let vapour = spirit
            .and_then(|s| vapour::blend(&[s], 40.0, CELSIUS.of(20.0), air::standard_pressure()).ok())
            .map(|b| (tidy(b.vapour_per_liquid), b.lel_percent));
        let film = |tool: Tool| Sheet {
            solids_pct: three(SOLIDS_PERCENT, MEM),
            dry_um: three(RESIN_UM, MEM),
            loss_pct: three(tool.loss_percent(), MEM),
            product_least_c: one(PRODUCT_C[0], CP),
            product_most_c: one(PRODUCT_C[1], CP),
            steel_least_c: one(5.0, CP),
            rh_most_pct: one(85.0, "ISO 12944-7, from memory"),
            flash_off_min: three(cure::FLASH_OFF_MINUTES, MEM),
            touch_dry_h: three(cure::TOUCH_DRY_HOURS, MEM),
            refit_h: one(cure::REFIT_HOURS, CP),
            reference_c: one(cure::REFERENCE_C, CP),
            flash_point_c: one(38.0, "white spirit, from memory"),
            lel_pct: vapour.and_then(|v| one(v.1, "white spirit, lowest limit printed, from memory")),
            vapour_l_per_l: vapour.and_then(|v| one(v.0, "60 % white spirit, ideal gas at 20 °C")),
            ..Sheet::default()
        };
        let wash = |per_m2: [f64; 3], water: f64, basis: &str| Sheet {
            use_l_per_m2: three(per_m2, MEM),
            water_parts: Some(Figure::generic([water; 3], basis)),
            concentrate_parts: one(1.0, CP),
            ..Sheet::default()
        };
        match used_as {
            Use::LiquidFilm => film(Tool::Hvlp),
            Use::AerosolFilm => Sheet {
                can_sprays_pct: three(CAN_SPRAYS_PERCENT, MEM),
                // Fasteners, welds and seams only; makes the trade's 4 cans (2 to 7) on a compact loader.
                use_l_per_m2: three([0.0125, 0.0225, 0.0335], CP),
                ..film(Tool::Aerosol)
            },
            Use::Degreaser => wash(dilution::DEGREASER_L_PER_M2, 3.0, CP),
            Use::Neutraliser => wash(dilution::NEUTRALISER_L_PER_M2, 9.0, MEM),
        }
    }
}
