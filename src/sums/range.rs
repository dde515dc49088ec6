//! The one table of ranges: what each input may be. Checks, screens and test generators all read it.
//!
//! The limits keep a sum where its formula holds and where the trade can be; they are common practice, no source,
//! except where a sum's own page names one.

use crate::units::*;

/// One row of the table.
#[derive(Debug)]
pub struct Range {
    /// The input.
    pub field: Field,
    /// Its name, as error words use it.
    pub name: &'static str,
    /// Its unit, none for a bare number.
    pub unit: Option<&'static Def>,
    /// Smallest value taken, in that unit.
    pub least: f64,
    /// Largest value taken, in that unit.
    pub most: f64,
}

macro_rules! ranges {
    ($($field:ident $name:literal $unit:expr, $least:expr, $most:expr;)*) => {
        /// An input of some sum.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        #[allow(missing_docs)] // the table names each
        pub enum Field { $($field),* }
        /// Every range, in the order of [`Field`].
        pub static RANGES: &[Range] = &[$(Range {
            field: Field::$field, name: $name, unit: $unit, least: $least, most: $most,
        }),*];
    };
}

const fn of<Q: Quantity>(unit: Unit<Q>) -> Option<&'static Def> {
    Some(unit.def())
}

ranges! {
    WaterParts "parts of water" None, 0.0, 10_000.0;
    ConcentrateParts "parts of concentrate" None, 0.001, 1_000.0;
    MixPercent "strength of the mix" of(PERCENT), 0.001, 100.0;
    StrengthPerWater "concentrate per water" of(MILLILITRE_PER_LITRE), 0.01, 100_000.0;
    StrengthPerMix "concentrate per finished mix" of(MILLILITRE_PER_LITRE), 0.01, 1_000.0;
    BucketPercent "strength of the liquid" of(PERCENT), 0.0, 100.0;
    FillVolume "volume to fill" of(LITRE), 0.000_1, 100_000.0;
    ConcentrateVolume "concentrate at hand" of(LITRE), 0.000_001, 100_000.0;
    WaterVolume "volume of water" of(LITRE), 0.0, 100_000.0;
    AddedVolume "volume added" of(LITRE), 0.0, 100_000.0;
    BucketSize "size of the bucket" of(LITRE), 0.01, 10_000.0;
    Area "area" of(SQUARE_METRE), 0.001, 10_000.0;
    VolumePerArea "liquid per area" of(LITRE_PER_SQUARE_METRE), 0.001, 100.0;

    AirTemperature "air temperature" of(CELSIUS), -30.0, 60.0;
    RelativeHumidity "relative humidity" of(PERCENT), 5.0, 100.0;
    SteelTemperature "steel temperature" of(CELSIUS), -40.0, 90.0;
    ProductTemperature "product temperature" of(CELSIUS), -40.0, 90.0;
    AirPressure "air pressure" of(KILOPASCAL), 50.0, 110.0;
    GapNeeded "gap to the dew point" of(CELSIUS_DIFFERENCE), 0.0, 20.0;
    RhDoubt "doubt of the humidity meter" of(PERCENT), 0.0, 20.0;
    TemperatureDoubt "doubt of the thermometer" of(CELSIUS_DIFFERENCE), 0.0, 10.0;
    ReadingTime "time of a reading" of(HOUR), -1_000_000.0, 10_000_000.0;
    Duration "duration" of(HOUR), 0.0, 100_000.0;

    CureTemperature "curing temperature" of(CELSIUS), -40.0, 120.0;
    Q10 "speed-up for 10 °C" None, 1.0, 6.0;
    ActivationQ "activation temperature" None, 100.0, 20_000.0;
    EquivalentHours "equivalent hours" of(HOUR), 0.0, 100_000.0;

    PailDiameter "inside diameter" of(MILLIMETRE), 0.0, 5_000.0;
    TankSide "inside length or width" of(MILLIMETRE), 1.0, 20_000.0;
    VesselHeight "inside height" of(MILLIMETRE), 1.0, 10_000.0;
    Level "level" of(MILLIMETRE), 0.0, 10_000.0;
    VesselVolume "volume in the vessel" of(LITRE), 0.0, 1_000_000.0;

    Solids "solids by volume" of(PERCENT), 0.5, 100.0;
    Thinner "thinner added to the paint" of(PERCENT), 0.0, 1_000.0;
    Loss "share lost" of(PERCENT), 0.0, 99.0;
    DryFilm "dry film" of(MICROMETRE), 0.1, 20_000.0;
    WetFilm "wet film" of(MICROMETRE), 0.1, 50_000.0;
    FilmReading "film reading" of(MICROMETRE), 0.0, 50_000.0;
    PaintVolume "volume of paint" of(LITRE), 0.000_1, 10_000.0;

    Mass "mass" of(KILOGRAM), 0.000_001, 1_000_000.0;
    SpecificHeat "specific heat" of(JOULE_PER_KILOGRAM_KELVIN), 50.0, 10_000.0;
    WarmArea "warmed area" of(SQUARE_METRE), 0.000_001, 100_000.0;
    FilmCoefficient "heat transfer" of(WATT_PER_SQUARE_METRE_KELVIN), 0.05, 100_000.0;
    Thickness "thickness" of(MILLIMETRE), 0.1, 2_000.0;
    ExtraHeat "extra heat held by oil and tyres" of(PERCENT), 0.0, 500.0;
    TimeConstant "time constant" of(SECOND), 0.001, 100_000_000.0;
    BodyTemperature "temperature of a body being warmed" of(CELSIUS), -100.0, 2_000.0;
    SurroundingTemperature "temperature around it" of(CELSIUS), -100.0, 2_000.0;
    Ramp "rise of the air in an hour" of(CELSIUS_DIFFERENCE), -2_000.0, 2_000.0;
    Swing "swing of the air" of(CELSIUS_DIFFERENCE), 0.0, 200.0;
    SwingPeriod "period of the swing" of(HOUR), 0.01, 10_000.0;
    WarmTime "warming time" of(HOUR), 0.0, 100_000.0;
    HeatTime "time to warm up in" of(HOUR), 0.1, 1_000.0;
    AirChanges "air changes in an hour" None, 0.0, 1_000.0;
    ShedVolume "volume of the shed" of(CUBIC_METRE), 0.1, 1_000_000.0;
    HeaterPower "heater" of(KILOWATT), 0.0, 10_000.0;

    MolarMass "molar mass" of(GRAM_PER_MOLE), 2.0, 1_000.0;
    LiquidDensity "density of the liquid" of(KILOGRAM_PER_CUBIC_METRE), 300.0, 3_000.0;
    LiquidTemperature "temperature of the vapour" of(CELSIUS), -40.0, 80.0;
    Lel "lower explosive limit" of(PERCENT), 0.1, 30.0;
    TargetOfLel "share of the lower explosive limit" of(PERCENT), 0.1, 100.0;
    VapourRatio "vapour per liquid" None, 0.000_001, 5_000.0;
    BlendPart "part of a blend" None, 0.0, 1_000_000.0;
    VapourPercent "vapour in the air" of(PERCENT), 0.0, 100.0;
    Airflow "air flow" of(CUBIC_METRE_PER_HOUR), 0.0, 10_000_000.0;
    Generation "vapour set free" of(CUBIC_METRE_PER_HOUR), 0.0, 10_000_000.0;
    MixingFactor "mixing factor" None, 1.0, 20.0;
    Removal "share removed" of(PERCENT), 0.0, 99.999_999;
    SprayTime "time of spraying" of(HOUR), 0.01, 1_000.0;
    SprayVolume "liquid sprayed" of(LITRE), 0.0, 10_000.0;

    ThreadDiameter "thread diameter" of(MILLIMETRE), 1.0, 160.0;
    Pitch "thread pitch" of(MILLIMETRE), 0.2, 8.0;
    ThreadsPerInch "threads per inch" None, 2.0, 80.0;
    StressArea "stress area" of(SQUARE_MILLIMETRE), 0.05, 25_000.0;
    ProofStress "proof stress" of(MEGAPASCAL), 50.0, 2_000.0;
    Preload "preload of proof" of(PERCENT), 1.0, 100.0;
    ClampForce "clamp force" of(NEWTON), 0.01, 100_000_000.0;
    KFactor "torque factor K" None, 0.02, 1.0;
    ManualTorque "torque in the manual" of(NEWTON_METRE), 0.01, 100_000.0;

    FanAngle "fan angle in degrees" None, 0.0, 150.0;
    StandOff "distance to the nozzle" of(MILLIMETRE), 1.0, 20_000.0;
    WaterFlow "water flow" of(LITRE_PER_MINUTE), 0.001, 10_000.0;
    WaterPressure "water pressure" of(BAR), 0.01, 5_000.0;
    Orifice "nozzle bore" of(MILLIMETRE), 0.05, 500.0;
    WaterDensity "density of the water" of(KILOGRAM_PER_CUBIC_METRE), 700.0, 1_500.0;
    FanWidth "width of the fan" of(MILLIMETRE), 1.0, 20_000.0;
    WashSpeed "speed of the jet over the steel" of(METRE_PER_SECOND), 0.01, 10.0;
    Overlap "overlap" of(PERCENT), 0.0, 95.0;

    PartLength "length of a part" of(METRE), 0.0, 100.0;
    PartCount "number of parts" None, 0.0, 100_000.0;
    Faces "faces" None, 0.0, 12.0;
    Intricacy "intricacy" None, 0.1, 10.0;
    MachineLength "overall size of a machine" of(METRE), 0.1, 100.0;

    PackSize "size of a pack" of(LITRE), 0.001, 10_000.0;
    PackPrice "price of a pack" None, 0.0, 1_000_000.0;
    PackNeed "quantity to cover" of(LITRE), 0.0, 100_000.0;
    SupplySize "size of a pack" None, 0.001, 10_000.0;
    SupplyStock "amount on the shelf" None, 0.0, 100_000.0;

    FlashPoint "flash point" of(CELSIUS), -120.0, 300.0;
    CanSprays "share of a can that comes out" of(PERCENT), 5.0, 100.0;
    WaitMinutes "wait in minutes" None, 0.0, 100_000.0;
    ShelfCount "number on the shelf" None, 0.0, 10_000.0;
    Hands "pairs of hands" None, 1.0, 20.0;
    DayHours "working hours in a day" of(HOUR), 0.5, 24.0;
    UsedVolume "amount used" of(LITRE), 0.001, 100_000.0;
    UsedArea "amount used" of(SQUARE_METRE), 0.01, 100_000.0;
    UsedLength "amount used" of(METRE), 0.01, 100_000.0;
    UsedCount "number used" None, 0.1, 100_000.0;
    WorkedMinutes "minutes worked" None, 1.0, 10_000.0;
    CareDays "days" None, 0.0, 365.0;
    CareMonths "months" None, 1.0, 120.0;
}

impl Field {
    /// The row of the table.
    pub fn range(self) -> &'static Range {
        &RANGES[self as usize]
    }

    /// Checks a quantity and hands it back in the table's own unit.
    ///
    /// # Errors
    /// [`OutOfRange`], also for NaN and infinity.
    ///
    /// ```
    /// use coatwalk::{sums::Field, units::US_GALLON};
    /// assert!(Field::FillVolume.take(US_GALLON.of(5.0)).is_ok());
    /// assert!(Field::FillVolume.take(US_GALLON.of(f64::NAN)).is_err());
    /// ```
    pub fn take<Q: Quantity>(self, quantity: Q) -> Result<f64, OutOfRange> {
        let unit = self.range().unit;
        debug_assert!(unit.is_none_or(|u| u.kind == Q::KIND), "{self:?}");
        let si = quantity.si();
        check(self, unit.map_or(si, |u| u.from_si(si)))
    }
}

/// Checks a value given in the table's own unit and hands it back.
///
/// A value a rounding error outside is taken; nothing is clamped.
///
/// # Errors
/// [`OutOfRange`], also for NaN and infinity.
///
/// ```
/// use coatwalk::sums::{Field, range::check};
/// assert_eq!(check(Field::RelativeHumidity, 55.0), Ok(55.0));
/// assert_eq!(
///     check(Field::RelativeHumidity, 140.0).unwrap_err().to_string(),
///     "relative humidity must be between 5 and 100 %; got 140 %",
/// );
/// ```
pub fn check(field: Field, value: f64) -> Result<f64, OutOfRange> {
    let range = field.range();
    let slack = |edge: f64| 1e-9 * edge.abs() + if range.least < 0.0 { 1e-9 } else { 0.0 };
    if value >= range.least - slack(range.least) && value <= range.most + slack(range.most) {
        Ok(value)
    } else {
        Err(OutOfRange { field, got: value })
    }
}

/// An input outside its range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OutOfRange {
    /// Which input.
    pub field: Field,
    /// What came, in the table's own unit.
    pub got: f64,
}

impl OutOfRange {
    /// The words in a unit of the user's.
    ///
    /// ```
    /// use coatwalk::{sums::{Field, range::check}, units::FAHRENHEIT};
    /// let e = check(Field::AirTemperature, 99.0).unwrap_err();
    /// assert_eq!(e.words_in(FAHRENHEIT), "air temperature must be between -22 and 140 °F; got 210.2 °F");
    /// ```
    pub fn words_in<Q: Quantity>(&self, unit: Unit<Q>) -> String {
        self.words_as(unit.def())
    }

    /// The same where the kind is known only while the app runs; a unit of another kind gives the table's own words.
    pub fn words_as(&self, unit: &Def) -> String {
        let own = self.field.range().unit;
        match own {
            Some(own) if own.kind == unit.kind => self.words(unit.symbol, |v| unit.from_si(own.to_si(v))),
            _ => self.to_string(),
        }
    }

    fn words(&self, symbol: &str, shown: impl Fn(f64) -> f64) -> String {
        let range = self.field.range();
        let unit = if symbol.is_empty() { "" } else { " " };
        let got = if self.got.is_nan() {
            "no number".to_owned()
        } else {
            format!("{}{unit}{symbol}", short(shown(self.got)))
        };
        format!(
            "{} must be between {} and {}{unit}{symbol}; got {got}",
            range.name,
            short(shown(range.least)),
            short(shown(range.most)),
        )
    }
}

/// Six significant digits, as short as they go.
fn short(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return format!("{value}");
    }
    let places = (5 - value.abs().log10().floor() as i32).clamp(0, 12) as usize;
    let text = format!("{value:.places$}");
    match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.').to_owned(),
        false => text,
    }
}

impl std::fmt::Display for OutOfRange {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let symbol = self.field.range().unit.map_or("", |u| u.symbol);
        f.write_str(&self.words(symbol, |v| v))
    }
}
impl std::error::Error for OutOfRange {}
