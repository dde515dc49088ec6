//! Reads what a person types.

use serde::{Deserialize, Serialize};

use super::{Def, Quantity, UNITS, Unit};

/// Which gallon, quart, pint and fluid ounce a user means when he does not say.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Gallons {
    /// 3.785 L.
    Us,
    /// 4.546 L.
    Imperial,
}

/// A number as typed, with the unit typed or, when none was, the field's own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Typed<Q: Quantity> {
    /// The number in [`Typed::unit`], untouched by any conversion.
    pub value: f64,
    /// Its unit.
    pub unit: Unit<Q>,
}

impl<Q: Quantity> Typed<Q> {
    /// The quantity itself.
    pub fn quantity(self) -> Q {
        self.unit.of(self.value)
    }
}

impl<Q: Quantity> std::fmt::Display for Typed<Q> {
    /// Every digit, so that it reads back as the same number.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} {}", self.value, self.unit.symbol())
    }
}

/// Why a text is not taken. The words say what would be right.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ParseError {
    /// Nothing typed yet: no cause for an error on screen.
    Empty,
    /// No number at the start.
    NotANumber,
    /// "1,250" or "1.250,5": a thousands mark or a decimal mark? A thousandfold mistake if guessed.
    Thousands,
    /// The lower part of the fraction is zero.
    ZeroBelow,
    /// Too big or too small to be a quantity of this trade.
    OutOfReach,
    /// "gal", "qt", "oz" with no country: ask which, then pass [`Gallons`].
    Ambiguous {
        /// What was typed.
        typed: String,
        /// The id of the US unit it may mean.
        us: &'static str,
        /// The id of the imperial unit it may mean.
        imperial: &'static str,
    },
    /// A unit nobody here knows.
    UnknownUnit(String),
    /// A unit of another kind, such as mm in a field for litres.
    WrongKind {
        /// The unit typed.
        typed: &'static str,
        /// A unit that would fit.
        want: &'static str,
    },
}

impl std::fmt::Display for ParseError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            ParseError::Empty => f.write_str("type a number"),
            ParseError::NotANumber => f.write_str("start with a number, like 5, 3.5 or 5 1/2"),
            ParseError::Thousands => f.write_str("leave out the thousands mark: write 1250, or 1.25"),
            ParseError::ZeroBelow => f.write_str("a fraction cannot have 0 below the line"),
            ParseError::OutOfReach => f.write_str("that number is too big or too small"),
            ParseError::Ambiguous { typed, .. } => {
                write!(f, "{typed} can be US or imperial: say which")
            }
            ParseError::UnknownUnit(unit) => write!(f, "the unit {unit} is not known here"),
            ParseError::WrongKind { typed, want } => {
                write!(f, "{typed} does not fit here: use {want}")
            }
        }
    }
}
impl std::error::Error for ParseError {}

/// Names that mean two things: (spellings, US id, imperial id).
const AMBIGUOUS: &[(&[&str], &str, &str)] = &[
    (&["gal", "gals", "gallon", "gallons"], "us_gal", "imp_gal"),
    (&["qt", "qts", "quart", "quarts"], "us_qt", "imp_qt"),
    (&["pt", "pts", "pint", "pints"], "us_pt", "imp_pt"),
    (
        &["fl oz", "floz", "fl. oz", "fl.oz", "oz", "ounce", "ounces", "fluid ounce", "fluid ounces"],
        "us_fl_oz",
        "imp_fl_oz",
    ),
];

/// Reads a quantity: "3,5", "3.5", "1/2", "5 1/2", "5½", with or without a unit. Without one, `default` holds.
///
/// The number stays as typed; nothing is rounded. A comma is a decimal mark, except where it may mark thousands.
///
/// # Errors
/// See [`ParseError`]; the text of each says what would be right.
///
/// # Example
/// ```
/// use coatwalk::units::{self, INCH, CELSIUS, MILLIMETRE, ParseError};
/// assert_eq!(units::parse("5 1/2", INCH, None).unwrap().value, 5.5);
/// assert_eq!(units::parse("-3,5", CELSIUS, None).unwrap().value, -3.5);
/// let typed = units::parse("3/8 in", MILLIMETRE, None).unwrap();
/// assert!((MILLIMETRE.get(typed.quantity()) - 9.525).abs() < 1e-9);
/// assert_eq!(units::parse("1,250", MILLIMETRE, None), Err(ParseError::Thousands));
/// ```
pub fn parse<Q: Quantity>(text: &str, default: Unit<Q>, gallons: Option<Gallons>) -> Result<Typed<Q>, ParseError> {
    let (value, unit) = parse_as(text, default.def(), gallons)?;
    Ok(Typed { value, unit: Unit::new(unit) })
}

/// The same where the kind is known only while the app runs: the number as typed, and its unit, which is of the kind
/// of `default`.
///
/// # Errors
/// As [`parse`].
///
/// ```
/// use coatwalk::units::{LITRE, MILLILITRE, parse_as};
/// assert_eq!(parse_as("250 ml", LITRE.def(), None), Ok((250.0, MILLILITRE.def())));
/// ```
pub fn parse_as(
    text: &str,
    default: &'static Def,
    gallons: Option<Gallons>,
) -> Result<(f64, &'static Def), ParseError> {
    let text = text.trim();
    if text.is_empty() {
        return Err(ParseError::Empty);
    }
    let (value, rest) = number(text)?;
    if value != 0.0 && !(1e-9..=1e12).contains(&value.abs()) {
        return Err(ParseError::OutOfReach);
    }
    let unit = match rest.trim() {
        "" => default,
        typed => unit(typed, gallons, default)?,
    };
    Ok((value, unit))
}

fn unit(typed: &str, gallons: Option<Gallons>, default: &'static Def) -> Result<&'static Def, ParseError> {
    let words: Vec<String> = typed.split_whitespace().map(|w| w.to_ascii_lowercase().replace('Μ', "μ")).collect();
    let plain = words.join(" ");
    let plain = plain.strip_suffix('.').unwrap_or(&plain);
    let alike = |fits: &dyn Fn(&Def) -> bool| UNITS.iter().copied().find(|d| d.kind == default.kind && fits(d));
    if let Some(unit) = alike(&|d| d.spellings.contains(&plain)) {
        return Ok(unit);
    }
    if let Some((_, us, imperial)) = AMBIGUOUS.iter().find(|(names, ..)| names.contains(&plain))
        && alike(&|d| d.id == *us).is_some()
    {
        let id = match gallons {
            Some(Gallons::Us) => us,
            Some(Gallons::Imperial) => imperial,
            None => {
                return Err(ParseError::Ambiguous { typed: typed.to_owned(), us, imperial });
            }
        };
        return alike(&|d| d.id == *id).ok_or_else(|| ParseError::UnknownUnit(typed.to_owned()));
    }
    match UNITS.iter().find(|d| d.spellings.contains(&plain)) {
        Some(other) => Err(ParseError::WrongKind { typed: other.symbol, want: default.symbol }),
        None => Err(ParseError::UnknownUnit(typed.to_owned())),
    }
}

/// The number at the start of `text`, and what follows it.
fn number(text: &str) -> Result<(f64, &str), ParseError> {
    let (sign, text) = match text.chars().next() {
        Some(c @ ('-' | '−')) => (-1.0, text[c.len_utf8()..].trim_start()),
        Some('+') => (1.0, text[1..].trim_start()),
        _ => (1.0, text),
    };
    let (value, rest) = unsigned(text)?;
    Ok((sign * value, rest))
}

fn unsigned(text: &str) -> Result<(f64, &str), ParseError> {
    if let Some((part, rest)) = vulgar(text) {
        return Ok((part, rest));
    }
    let end = text.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ',')).unwrap_or(text.len());
    let (first, rest) = text.split_at(end);
    let whole = first.bytes().all(|b| b.is_ascii_digit()) && !first.is_empty();
    let first = decimal(first)?;
    if !whole {
        return Ok((first, rest));
    }
    // "1/2"
    if let Some(below) = rest.trim_start().strip_prefix('/')
        && let Some((below, rest)) = digits(below.trim_start())
    {
        return Ok((divide(first, below)?, rest));
    }
    // "5½" or "5 ½"
    if let Some((part, rest)) = vulgar(rest.trim_start()) {
        return Ok((mixed(first, part)?, rest));
    }
    // "5 1/2" or "5-1/2"
    let joined = rest.trim_start();
    let joined = joined.strip_prefix('-').unwrap_or(joined);
    if joined.len() != rest.len()
        && let Some((above, tail)) = digits(joined)
        && let Some(below) = tail.trim_start().strip_prefix('/')
        && let Some((below, tail)) = digits(below.trim_start())
    {
        return Ok((mixed(first, divide(above, below)?)?, tail));
    }
    Ok((first, rest))
}

/// "5 1/2": whole and fraction.
fn mixed(whole: f64, part: f64) -> Result<f64, ParseError> {
    if whole < MOST_FRACTION { Ok(((whole + part) * 1e9).round() / 1e9) } else { Err(ParseError::OutOfReach) }
}

fn divide(above: f64, below: f64) -> Result<f64, ParseError> {
    if below == 0.0 {
        return Err(ParseError::ZeroBelow);
    }
    // To nine places: a third has no end, and a number kept must read back as itself.
    let value = (above / below * 1e9).round() / 1e9;
    if value < MOST_FRACTION { Ok(value) } else { Err(ParseError::OutOfReach) }
}

/// Nobody writes more than this as a fraction, and nine places behind it still fit [`MOST_DIGITS`].
const MOST_FRACTION: f64 = 100_000.0;

/// Whole digits at the start.
fn digits(text: &str) -> Option<(f64, &str)> {
    let end = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    let value = scaled(text[..end].bytes(), 0).filter(|_| end > 0)?;
    Some((value, &text[end..]))
}

/// A fraction written as one sign at the start.
fn vulgar(text: &str) -> Option<(f64, &str)> {
    let sign = text.chars().next()?;
    let value = match sign {
        '½' => 1.0 / 2.0,
        '⅓' => 0.333_333_333,
        '⅔' => 0.666_666_667,
        '¼' => 1.0 / 4.0,
        '¾' => 3.0 / 4.0,
        '⅛' => 1.0 / 8.0,
        '⅜' => 3.0 / 8.0,
        '⅝' => 5.0 / 8.0,
        '⅞' => 7.0 / 8.0,
        _ => return None,
    };
    Some((value, &text[sign.len_utf8()..]))
}

/// Digits with one decimal mark, comma or point.
fn decimal(text: &str) -> Result<f64, ParseError> {
    let marks = text.bytes().filter(|b| !b.is_ascii_digit()).count();
    if marks == text.len() {
        return Err(ParseError::NotANumber);
    }
    if marks > 1 {
        return Err(ParseError::Thousands);
    }
    if let Some((whole, part)) = text.split_once(',')
        && part.len() == 3
        && (1..=3).contains(&whole.len())
        && !whole.starts_with('0')
    {
        return Err(ParseError::Thousands);
    }
    let (whole, part) = text.split_once([',', '.']).unwrap_or((text, ""));
    scaled(whole.bytes().chain(part.bytes()), part.len()).ok_or(ParseError::OutOfReach)
}

/// Most digits a typed number may have, leading zeros aside: with these, and the powers of ten below, both sides of the
/// one division are exact, and the result is the number nearest to what was typed.
const MOST_DIGITS: u64 = 1_000_000_000_000_000;
const MOST_PLACES: usize = 22;

/// Digits with the last `places` of them behind the mark. None when there are too many.
///
/// By hand, because the tables of the standard reader are 9 kB of a phone's download.
fn scaled(digits: impl Iterator<Item = u8>, places: usize) -> Option<f64> {
    let mut all = 0u64;
    for digit in digits {
        all = all * 10 + u64::from(digit - b'0');
        if all >= MOST_DIGITS {
            return None;
        }
    }
    (places <= MOST_PLACES).then(|| (0..places).fold(1.0, |power, _| power * 10.0)).map(|power| all as f64 / power)
}
