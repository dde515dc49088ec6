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
        let own = self.field.range().unit;
        match own {
            Some(own) if own.kind == Q::KIND => self.words(unit.symbol(), |v| unit.def().from_si(own.to_si(v))),
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
