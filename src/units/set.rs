//! The units a person thinks in, and which of them fits which measure.

use serde::{Deserialize, Serialize};

use super::*;

/// Units as a person thinks in them.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize, Default)]
#[serde(rename_all = "snake_case")]
pub enum UnitSet {
    /// Litres, °C, millimetres.
    #[default]
    Metric,
    /// US gallons, °F, inches.
    Us,
    /// Imperial gallons, °C, millimetres.
    Imperial,
}

impl UnitSet {
    /// All of them.
    pub const ALL: [UnitSet; 3] = [UnitSet::Metric, UnitSet::Us, UnitSet::Imperial];

    /// What a bare "gal" means in them; with litres it has to be asked.
    pub fn gallons(self) -> Option<Gallons> {
        match self {
            UnitSet::Us => Some(Gallons::Us),
            UnitSet::Imperial => Some(Gallons::Imperial),
            UnitSet::Metric => None,
        }
    }
}

macro_rules! measures {
    ($($(#[$doc:meta])* $name:ident $metric:ident $us:ident $imperial:ident;)*) => {
        /// What a figure is a measure of: the same kind of quantity is shown in other units on a film than on a shed.
        #[derive(Clone, Copy, PartialEq, Eq, Debug)]
        pub enum Measure { $($(#[$doc])* $name),* }

        impl Measure {
            /// All of them.
            pub const ALL: &[Measure] = &[$(Measure::$name),*];

            /// The unit it is asked for and shown in.
            ///
            /// ```
            /// use coatwalk::units::{MIL, MICROMETRE, Measure, UnitSet};
            /// assert_eq!(Measure::Film.unit(UnitSet::Us), MIL.def());
            /// assert_eq!(Measure::Film.unit(UnitSet::Imperial), MICROMETRE.def());
            /// ```
            pub fn unit(self, set: UnitSet) -> &'static Def {
                match (self, set) {
                    $((Measure::$name, UnitSet::Metric) => $metric.def(),
                    (Measure::$name, UnitSet::Us) => $us.def(),
                    (Measure::$name, UnitSet::Imperial) => $imperial.def(),)*
                }
            }
        }
    };
}

measures! {
    /// What goes into a bucket.
    Volume LITRE US_GALLON IMP_GALLON;
    /// What a measuring jug holds.
    Jug MILLILITRE US_FLUID_OUNCE IMP_FLUID_OUNCE;
    /// A shed, air.
    Room CUBIC_METRE CUBIC_FOOT CUBIC_METRE;
    /// A pail, a nozzle's distance, a section.
    Length MILLIMETRE INCH MILLIMETRE;
    /// A machine and its parts.
    Size METRE FOOT METRE;
    /// A film.
    Film MICROMETRE MIL MICROMETRE;
    /// What is to be coated.
    Area SQUARE_METRE SQUARE_FOOT SQUARE_METRE;
    /// Liquid on an area.
    PerArea LITRE_PER_SQUARE_METRE US_GALLON_PER_100_SQUARE_FEET LITRE_PER_SQUARE_METRE;
    /// Area from a liquid.
    Spread SQUARE_METRE_PER_LITRE SQUARE_FOOT_PER_US_GALLON SQUARE_METRE_PER_LITRE;
    /// On the thermometer.
    Temperature CELSIUS FAHRENHEIT CELSIUS;
    /// Between two thermometers.
    Warmer CELSIUS_DIFFERENCE FAHRENHEIT_DIFFERENCE CELSIUS_DIFFERENCE;
    /// Water from a washer.
    Flow LITRE_PER_MINUTE US_GPM LITRE_PER_MINUTE;
    /// Air through a shed.
    Airflow CUBIC_METRE_PER_HOUR CFM CUBIC_METRE_PER_HOUR;
    /// Water in a washer.
    Pressure BAR PSI BAR;
    /// A jet over steel.
    Speed METRE_PER_SECOND FPM METRE_PER_SECOND;
    /// A wrench.
    Torque NEWTON_METRE POUND_FORCE_FOOT NEWTON_METRE;
    /// A bolt's clamp.
    Clamp KILONEWTON POUND_FORCE KILONEWTON;
    /// A jet's push.
    Push NEWTON POUND_FORCE NEWTON;
    /// Weight.
    Mass KILOGRAM POUND KILOGRAM;
    /// A heater.
    Power KILOWATT BTU_PER_HOUR KILOWATT;
    /// Water in the air.
    Damp GRAM_PER_CUBIC_METRE GRAM_PER_CUBIC_METRE GRAM_PER_CUBIC_METRE;
    /// A liquid's weight.
    Density KILOGRAM_PER_LITRE POUND_PER_US_GALLON KILOGRAM_PER_LITRE;
    /// A molecule's weight.
    MolarMass GRAM_PER_MOLE GRAM_PER_MOLE GRAM_PER_MOLE;
    /// Heat from air to steel.
    HeatTransfer WATT_PER_SQUARE_METRE_KELVIN WATT_PER_SQUARE_METRE_KELVIN WATT_PER_SQUARE_METRE_KELVIN;
    /// Long times.
    Hours HOUR HOUR HOUR;
    /// Short times.
    Minutes MINUTE MINUTE MINUTE;
    /// A share.
    Percent PERCENT PERCENT PERCENT;
    /// Concentrate in liquid.
    Strength MILLILITRE_PER_LITRE US_FLUID_OUNCE_PER_US_GALLON MILLILITRE_PER_LITRE;
}
