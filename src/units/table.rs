//! The units, each with its exact factor.
//!
//! Sources: the definitions that NIST SP 811 uses (1 in = 25.4 mm, 1 lb = 0.45359237 kg, 1 g = 9.80665 m/s²,
//! US gal = 231 in³, imperial gal = 4.54609 L, IT Btu = 1055.05585262 J); numbers from memory, checked against
//! `tests/checks/units.csv`. How finely each is shown is common practice, no source.

use super::*;

const INCH_M: f64 = 0.0254;
const FOOT_M: f64 = 0.3048;
const US_GALLON_M3: f64 = 231.0 * INCH_M * INCH_M * INCH_M;
const IMP_GALLON_M3: f64 = 4.54609e-3;
const POUND_KG: f64 = 0.453_592_37;
const POUND_FORCE_N: f64 = POUND_KG * 9.80665;
const PSI_PA: f64 = POUND_FORCE_N / (INCH_M * INCH_M);
const BTU_J: f64 = 1_055.055_852_62;
const FOOT3_M3: f64 = FOOT_M * FOOT_M * FOOT_M;

const fn d(size: f64, places: usize) -> Step {
    Step::Decimal { size, places }
}

macro_rules! units {
    ($($quantity:ident $kind:ident {
        $($(#[$doc:meta])* $name:ident $id:literal $symbol:literal = $factor:expr $(, zero $zero:expr)? ;
            $step:expr ; [$($spelling:literal),*])*
    })*) => {
        $($(
            $(#[$doc])*
            pub const $name: Unit<$quantity> = Unit::new(&Def {
                id: $id, symbol: $symbol, kind: Kind::$kind, si_per_unit: $factor,
                si_at_zero: 0.0 $(+ $zero)?, step: $step, spellings: &[$($spelling),*],
            });
        )*)*
        /// Every unit Coatwalk knows.
        pub static UNITS: &[&Def] = &[$($($name.def),*),*];
    };
}

units! {
    Volume Volume {
        /// Litre.
        LITRE "l" "L" = 1e-3; d(0.01, 2); ["l", "liter", "liters", "litre", "litres", "ltr", "lt"]
        /// Millilitre.
        MILLILITRE "ml" "mL" = 1e-6; d(10.0, 0); ["ml", "milliliter", "milliliters", "millilitre", "millilitres", "cc", "cm3", "cm³"]
        /// US liquid gallon.
        US_GALLON "us_gal" "US gal" = US_GALLON_M3; d(0.01, 2); ["us gal", "us gallon", "us gallons", "usgal", "gal us", "gal (us)"]
        /// Imperial gallon.
        IMP_GALLON "imp_gal" "imp gal" = IMP_GALLON_M3; d(0.01, 2); ["imp gal", "imp gallon", "imp gallons", "imperial gallon", "imperial gallons", "uk gal", "gal uk", "gal (uk)"]
        /// US liquid quart.
        US_QUART "us_qt" "US qt" = US_GALLON_M3 / 4.0; d(0.05, 2); ["us qt", "us quart", "us quarts"]
        /// Imperial quart.
        IMP_QUART "imp_qt" "imp qt" = IMP_GALLON_M3 / 4.0; d(0.05, 2); ["imp qt", "imp quart", "imp quarts", "uk qt"]
        /// US liquid pint.
        US_PINT "us_pt" "US pt" = US_GALLON_M3 / 8.0; d(0.05, 2); ["us pt", "us pint", "us pints"]
        /// Imperial pint.
        IMP_PINT "imp_pt" "imp pt" = IMP_GALLON_M3 / 8.0; d(0.05, 2); ["imp pt", "imp pint", "imp pints", "uk pt"]
        /// US fluid ounce.
        US_FLUID_OUNCE "us_fl_oz" "US fl oz" = US_GALLON_M3 / 128.0; d(0.5, 1); ["us fl oz", "us floz", "us oz", "us fluid ounce", "us fluid ounces"]
        /// Imperial fluid ounce.
        IMP_FLUID_OUNCE "imp_fl_oz" "imp fl oz" = IMP_GALLON_M3 / 160.0; d(0.5, 1); ["imp fl oz", "imp floz", "imp oz", "imperial fluid ounce", "imperial fluid ounces", "uk fl oz"]
        /// Cubic metre.
        CUBIC_METRE "m3" "m³" = 1.0; d(0.1, 1); ["m3", "m³", "cubic metre", "cubic metres", "cubic meter", "cubic meters", "cbm"]
        /// Cubic foot.
        CUBIC_FOOT "ft3" "ft³" = FOOT3_M3; d(1.0, 0); ["ft3", "ft³", "cu ft", "cubic foot", "cubic feet"]
    }
    Length Length {
        /// Millimetre.
        MILLIMETRE "mm" "mm" = 1e-3; d(1.0, 0); ["mm", "millimetre", "millimetres", "millimeter", "millimeters"]
        /// Centimetre.
        CENTIMETRE "cm" "cm" = 1e-2; d(0.5, 1); ["cm", "centimetre", "centimetres", "centimeter", "centimeters"]
        /// Metre.
        METRE "m" "m" = 1.0; d(0.01, 2); ["m", "metre", "metres", "meter", "meters"]
        /// Inch.
        INCH "in" "in" = INCH_M; Step::Fraction { of: 8 }; ["in", "inch", "inches", "\"", "″", "”"]
        /// Foot.
        FOOT "ft" "ft" = FOOT_M; d(0.1, 1); ["ft", "foot", "feet", "'", "′", "’"]
        /// Micrometre, of film.
        MICROMETRE "um" "µm" = 1e-6; d(1.0, 0); ["um", "µm", "μm", "micron", "microns", "micrometre", "micrometres", "micrometer", "micrometers"]
        /// Litre on a square metre: as thick as a millimetre.
        LITRE_PER_SQUARE_METRE "l_per_m2" "L/m²" = 1e-3; d(0.05, 2); ["l/m2", "l/m²"]
        /// US gallon on a hundred square feet.
        US_GALLON_PER_100_SQUARE_FEET "us_gal_per_100_ft2" "US gal/100 ft²" = US_GALLON_M3 / (100.0 * FOOT_M * FOOT_M); d(0.1, 1); ["us gal/100 ft2", "us gal/100 ft²"]
        /// A thousandth of an inch, of film.
        MIL "mil" "mil" = INCH_M / 1000.0; d(0.1, 1); ["mil", "mils", "thou"]
    }
    Area Area {
        /// Square metre.
        SQUARE_METRE "m2" "m²" = 1.0; d(0.1, 1); ["m2", "m²", "sqm", "sq m", "square metre", "square metres", "square meter", "square meters"]
        /// Square foot.
        SQUARE_FOOT "ft2" "ft²" = FOOT_M * FOOT_M; d(1.0, 0); ["ft2", "ft²", "sqft", "sq ft", "square foot", "square feet"]
        /// Square millimetre, of a bolt's section.
        SQUARE_MILLIMETRE "mm2" "mm²" = 1e-6; d(0.1, 1); ["mm2", "mm²", "sq mm"]
        /// Square inch, of a bolt's section.
        SQUARE_INCH "in2" "in²" = INCH_M * INCH_M; d(0.001, 3); ["in2", "in²", "sq in"]
    }
    Temperature Temperature {
        /// Degree Celsius, on the thermometer.
        CELSIUS "degc" "°C" = 1.0, zero 273.15; d(0.1, 1); ["c", "°c", "degc", "deg c", "celsius"]
        /// Degree Fahrenheit, on the thermometer.
        FAHRENHEIT "degf" "°F" = 5.0 / 9.0, zero 459.67 * 5.0 / 9.0; d(0.1, 1); ["f", "°f", "degf", "deg f", "fahrenheit"]
    }
    TemperatureInterval TemperatureDifference {
        /// A difference in degrees Celsius: no offset.
        CELSIUS_DIFFERENCE "delta_degc" "°C" = 1.0; d(0.1, 1); ["c", "°c", "k", "degc", "deg c"]
        /// A difference in degrees Fahrenheit: no offset of 32.
        FAHRENHEIT_DIFFERENCE "delta_degf" "°F" = 5.0 / 9.0; d(0.1, 1); ["f", "°f", "degf", "deg f"]
    }
    Torque Torque {
        /// Newton metre.
        NEWTON_METRE "n_m" "N·m" = 1.0; d(1.0, 0); ["nm", "n·m", "n m", "n*m", "n-m", "newton metre", "newton metres"]
        /// Pound-force foot.
        POUND_FORCE_FOOT "lbf_ft" "lbf·ft" = POUND_FORCE_N * FOOT_M; d(1.0, 0); ["lbf·ft", "lbf ft", "ft lbf", "ft·lbf", "lb ft", "ft lb", "ft-lb", "lb-ft", "ftlb", "lbft", "ft-lbs", "ft lbs", "foot pounds"]
        /// Pound-force inch.
        POUND_FORCE_INCH "lbf_in" "lbf·in" = POUND_FORCE_N * INCH_M; d(1.0, 0); ["lbf·in", "lbf in", "in lbf", "in·lbf", "lb in", "in lb", "in-lb", "in-lbs", "in lbs"]
    }
    Pressure Pressure {
        /// Bar.
        BAR "bar" "bar" = 1e5; d(0.1, 1); ["bar", "bars"]
        /// Pound-force per square inch.
        PSI "psi" "psi" = PSI_PA; d(1.0, 0); ["psi", "lbf/in2", "lbf/in²", "lb/in2"]
        /// Kilopascal.
        KILOPASCAL "kpa" "kPa" = 1e3; d(1.0, 0); ["kpa"]
        /// Megapascal.
        MEGAPASCAL "mpa" "MPa" = 1e6; d(0.1, 1); ["mpa", "n/mm2", "n/mm²"]
        /// Pascal.
        PASCAL "pa" "Pa" = 1.0; d(1.0, 0); ["pa"]
    }
    VolumeRate Flow {
        /// Litre per minute.
        LITRE_PER_MINUTE "l_per_min" "L/min" = 1e-3 / 60.0; d(0.1, 1); ["l/min", "lpm", "litres per minute", "liters per minute"]
        /// US gallon per minute. Bare "gpm" on a washer's plate means this one.
        US_GPM "us_gpm" "US gpm" = US_GALLON_M3 / 60.0; d(0.1, 1); ["us gpm", "gpm", "us gal/min"]
        /// Cubic metre per hour.
        CUBIC_METRE_PER_HOUR "m3_per_h" "m³/h" = 1.0 / 3600.0; d(10.0, 0); ["m3/h", "m³/h", "cmh"]
        /// Cubic foot per minute.
        CFM "cfm" "cfm" = FOOT3_M3 / 60.0; d(10.0, 0); ["cfm", "ft3/min", "ft³/min"]
        /// Litre per second.
        LITRE_PER_SECOND "l_per_s" "L/s" = 1e-3; d(1.0, 0); ["l/s"]
    }
    Velocity Speed {
        /// Metre per second.
        METRE_PER_SECOND "m_per_s" "m/s" = 1.0; d(0.1, 1); ["m/s", "mps"]
        /// Foot per minute.
        FPM "fpm" "ft/min" = FOOT_M / 60.0; d(10.0, 0); ["ft/min", "fpm"]
    }
    Mass Mass {
        /// Kilogram.
        KILOGRAM "kg" "kg" = 1.0; d(1.0, 0); ["kg", "kilo", "kilos", "kilogram", "kilograms"]
        /// Pound.
        POUND "lb" "lb" = POUND_KG; d(1.0, 0); ["lb", "lbs", "pound", "pounds"]
        /// Tonne.
        TONNE "t" "t" = 1000.0; d(0.1, 1); ["t", "tonne", "tonnes"]
        /// Gram.
        GRAM "g" "g" = 1e-3; d(1.0, 0); ["g", "gram", "grams"]
    }
    Force Force {
        /// Newton.
        NEWTON "n" "N" = 1.0; d(1.0, 0); ["n", "newton", "newtons"]
        /// Kilonewton.
        KILONEWTON "kn" "kN" = 1e3; d(0.1, 1); ["kn"]
        /// Pound-force.
        POUND_FORCE "lbf" "lbf" = POUND_FORCE_N; d(1.0, 0); ["lbf", "lb", "lbs"]
    }
    Power Power {
        /// Watt.
        WATT "w" "W" = 1.0; d(100.0, 0); ["w", "watt", "watts"]
        /// Kilowatt.
        KILOWATT "kw" "kW" = 1e3; d(0.1, 1); ["kw"]
        /// British thermal unit (international table) per hour.
        BTU_PER_HOUR "btu_per_h" "Btu/h" = BTU_J / 3600.0; d(1000.0, 0); ["btu/h", "btu/hr", "btuh"]
    }
    MassDensity Density {
        /// Kilogram per cubic metre.
        KILOGRAM_PER_CUBIC_METRE "kg_per_m3" "kg/m³" = 1.0; d(1.0, 0); ["kg/m3", "kg/m³"]
        /// Gram per litre.
        GRAM_PER_LITRE "g_per_l" "g/L" = 1.0; d(1.0, 0); ["g/l"]
        /// Gram per cubic metre: water in air.
        GRAM_PER_CUBIC_METRE "g_per_m3" "g/m³" = 1e-3; d(0.1, 1); ["g/m3", "g/m³"]
        /// Kilogram per litre.
        KILOGRAM_PER_LITRE "kg_per_l" "kg/L" = 1e3; d(0.01, 2); ["kg/l", "g/cm3", "g/cm³", "g/ml"]
        /// Pound per US gallon.
        POUND_PER_US_GALLON "lb_per_us_gal" "lb/US gal" = POUND_KG / US_GALLON_M3; d(0.1, 1); ["lb/us gal", "lb/gal", "ppg"]
    }
    ReciprocalLength Spread {
        /// Square metre per litre.
        SQUARE_METRE_PER_LITRE "m2_per_l" "m²/L" = 1e3; d(0.1, 1); ["m2/l", "m²/l"]
        /// Square foot per US gallon.
        SQUARE_FOOT_PER_US_GALLON "ft2_per_us_gal" "ft²/US gal" = FOOT_M * FOOT_M / US_GALLON_M3; d(1.0, 0); ["ft2/us gal", "ft²/us gal", "ft2/gal", "ft²/gal"]
    }
    Time Time {
        /// Second.
        SECOND "s" "s" = 1.0; d(1.0, 0); ["s", "sec", "secs", "second", "seconds"]
        /// Minute.
        MINUTE "min" "min" = 60.0; d(1.0, 0); ["min", "mins", "minute", "minutes"]
        /// Hour.
        HOUR "h" "h" = 3600.0; d(0.1, 1); ["h", "hr", "hrs", "hour", "hours"]
        /// Day of 24 hours.
        DAY "d" "d" = 86400.0; d(0.1, 1); ["d", "day", "days"]
    }
    Ratio Share {
        /// Percent.
        PERCENT "pct" "%" = 0.01; d(0.1, 1); ["%", "pct", "percent", "per cent"]
        /// Millilitre per litre.
        MILLILITRE_PER_LITRE "ml_per_l" "mL/L" = 1e-3; d(1.0, 0); ["ml/l"]
        /// US fluid ounce per US gallon.
        US_FLUID_OUNCE_PER_US_GALLON "us_fl_oz_per_us_gal" "US fl oz/US gal" = 1.0 / 128.0; d(0.1, 1); ["us fl oz/us gal", "oz/gal", "fl oz/gal"]
        /// Parts per million by volume.
        PPM "ppm" "ppm" = 1e-6; d(1.0, 0); ["ppm"]
    }
    HeatTransfer HeatTransfer {
        /// Watt per square metre and kelvin.
        WATT_PER_SQUARE_METRE_KELVIN "w_per_m2_k" "W/(m²·K)" = 1.0; d(0.1, 1); ["w/m2k", "w/(m²·k)", "w/m²k"]
    }
    SpecificHeatCapacity SpecificHeat {
        /// Joule per kilogram and kelvin.
        JOULE_PER_KILOGRAM_KELVIN "j_per_kg_k" "J/(kg·K)" = 1.0; d(1.0, 0); ["j/kgk", "j/(kg·k)"]
    }
    MolarMass MolarMass {
        /// Gram per mole.
        GRAM_PER_MOLE "g_per_mol" "g/mol" = 1e-3; d(0.1, 1); ["g/mol"]
    }
}
