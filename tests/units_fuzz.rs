//! A hundred thousand random strings into the quantity parser: no panic, and what it takes prints back to itself.
#![cfg(not(target_arch = "wasm32"))]

use coatwalk::units::*;

/// A small generator of its own (splitmix64), so that a failing string comes again.
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn below(&mut self, n: usize) -> usize {
        (self.next() % n as u64) as usize
    }

    fn pick<'a>(&mut self, from: &[&'a str]) -> &'a str {
        from[self.below(from.len())]
    }
}

const BITS: &[&str] = &[
    "0",
    "1",
    "2",
    "5",
    "7",
    "9",
    "12",
    "100",
    "999999999",
    ".",
    ",",
    "/",
    " ",
    "  ",
    "-",
    "+",
    "−",
    "½",
    "¼",
    "¾",
    "⅛",
    "5 1/2",
    "1/3",
    "3,5",
    "1,250",
    "0,125",
    "1e9",
    "NaN",
    "inf",
    "∞",
    "٣",
    "%",
    "é",
    "🜁",
    "\u{0}",
    "\t",
    "L",
    "mL",
    "ml",
    "gal",
    "US gal",
    "imp gal",
    "fl oz",
    "oz",
    "qt",
    "in",
    "\"",
    "'",
    "mm",
    "µm",
    "μm",
    "mil",
    "°C",
    "F",
    "C",
    "h",
    "min",
    "psi",
    "bar",
    "ft·lbf",
    "lbf·ft",
    "N·m",
    "m²",
    "ft2",
    "kg",
    "İ",
    "ß",
];

/// What is taken, as (number, unit id), after printing and reading it `again`.
fn round<Q: Quantity>(text: &str, default: Unit<Q>, gallons: Option<Gallons>) -> bool {
    let Ok(typed) = parse(text, default, gallons) else { return false };
    assert!(typed.value.is_finite(), "{text:?}");
    let printed = typed.to_string();
    // The unit is printed, so neither the default nor the gallon matters any more.
    let again = parse(&printed, Unit::<Q>::all().next().expect("a unit"), None);
    assert_eq!(again.as_ref(), Ok(&typed), "{text:?} printed as {printed:?}");
    assert!(!default.print(typed.quantity()).is_empty());
    true
}

#[test]
fn random_strings() {
    let mut dice = Dice(20_260_101);
    let mut taken = 0;
    for i in 0..100_000 {
        let text: String = match i % 3 {
            // Any characters at all.
            0 => (0..dice.below(12)).filter_map(|_| char::from_u32((dice.next() % 0x3000) as u32)).collect(),
            // Bits of what people type, in any order.
            1 => (0..dice.below(6)).map(|_| dice.pick(BITS)).collect(),
            // A number, perhaps a space, a unit.
            _ => {
                let number = format!("{}{}{}", dice.below(1000), dice.pick(&["", ".", ",", "/"]), dice.below(100));
                format!("{number}{}{}", dice.pick(&["", " "]), dice.pick(BITS))
            }
        };
        let gallons = [None, Some(Gallons::Us), Some(Gallons::Imperial)][dice.below(3)];
        taken += usize::from(round(&text, LITRE, gallons));
        taken += usize::from(round(&text, MILLIMETRE, gallons));
        taken += usize::from(round(&text, FAHRENHEIT, gallons));
        taken += usize::from(round(&text, POUND_FORCE_FOOT, gallons));
    }
    println!("100000 strings in four fields each, {taken} taken");
    assert!(taken > 20_000, "the strings hardly reach the parser: {taken}");
}

/// What each unit prints, each unit reads: the symbol, every spelling, in any case.
#[test]
fn every_spelling() {
    fn all<Q: Quantity>() {
        for unit in Unit::<Q>::all() {
            let names = unit.def().spellings.iter().copied().chain([unit.symbol()]);
            for name in names {
                for text in [format!("2.5 {name}"), format!("2.5{}", name.to_uppercase())] {
                    let typed = parse(&text, unit, None).unwrap_or_else(|e| panic!("{text}: {e}"));
                    // Names shared by two units of a kind would be a mistake in the table.
                    assert_eq!((typed.value, typed.unit), (2.5, unit), "{text}");
                }
            }
            assert_eq!(Unit::by_id(unit.id()), Some(unit));
        }
    }
    all::<Volume>();
    all::<Length>();
    all::<Area>();
    all::<Temperature>();
    all::<TemperatureInterval>();
    all::<Torque>();
    all::<Pressure>();
    all::<VolumeRate>();
    all::<Velocity>();
    all::<Mass>();
    all::<Force>();
    all::<Power>();
    all::<MassDensity>();
    all::<Spread>();
    all::<Time>();
    all::<Ratio>();
    all::<HeatTransfer>();
    all::<SpecificHeatCapacity>();
    all::<MolarMass>();
}

#[test]
fn what_people_type() {
    let litres = |text: &str| parse(text, LITRE, None).map(|t| (t.value, t.unit));
    assert_eq!(litres("3,5"), Ok((3.5, LITRE)));
    assert_eq!(litres(" 3.5 l "), Ok((3.5, LITRE)));
    assert_eq!(litres("1/2"), Ok((0.5, LITRE)));
    assert_eq!(litres("5 1/2 US gal"), Ok((5.5, US_GALLON)));
    assert_eq!(litres("5-1/2 us gal."), Ok((5.5, US_GALLON)));
    assert_eq!(litres("5½"), Ok((5.5, LITRE)));
    assert_eq!(litres(".5"), Ok((0.5, LITRE)));
    assert_eq!(litres("0,125"), Ok((0.125, LITRE)));
    assert_eq!(litres("1,250"), Err(ParseError::Thousands));
    assert_eq!(litres("1.250,5"), Err(ParseError::Thousands));
    assert_eq!(litres(""), Err(ParseError::Empty));
    assert_eq!(litres("five"), Err(ParseError::NotANumber));
    assert_eq!(litres("1/0"), Err(ParseError::ZeroBelow));
    assert_eq!(litres("99999999999999999"), Err(ParseError::OutOfReach));
    assert_eq!(litres("5 mm"), Err(ParseError::WrongKind { typed: "mm", want: "L" }));
    assert_eq!(litres("5 cups"), Err(ParseError::UnknownUnit("cups".into())));
    for (text, us, imperial) in [
        ("5 gal", "us_gal", "imp_gal"),
        ("5 Gallons", "us_gal", "imp_gal"),
        ("2 qt", "us_qt", "imp_qt"),
        ("6 oz", "us_fl_oz", "imp_fl_oz"),
    ] {
        assert!(
            matches!(litres(text), Err(ParseError::Ambiguous { us: u, imperial: i, .. }) if u == us && i == imperial)
        );
        let id = |g| parse(text, LITRE, Some(g)).map(|t| t.unit.id());
        assert_eq!((id(Gallons::Us), id(Gallons::Imperial)), (Ok(us), Ok(imperial)));
    }
    // A minus belongs to thermometers; fields refuse it by their range.
    assert_eq!(parse("−4 °F", CELSIUS, None).map(|t| (t.value, t.unit)), Ok((-4.0, FAHRENHEIT)));
}

#[test]
fn rounding_fits_the_tool() {
    assert_eq!(MILLILITRE.print(MILLILITRE.of(909.09)), "910 mL");
    assert_eq!(LITRE.print(MILLILITRE.of(9090.9)), "9.09 L");
    assert_eq!(MILLIMETRE.print_to(MILLIMETRE.of(213.0), Step::DIPSTICK_MM), "215 mm");
    assert_eq!(INCH.print_to(MILLIMETRE.of(213.0), Step::DIPSTICK_IN), "8 3/8 in");
    assert_eq!(INCH.print_to(INCH.of(7.99), Step::DIPSTICK_IN), "8 in");
    assert_eq!(CELSIUS.print(CELSIUS.of(-0.01)), "0 °C");
    assert_eq!(FAHRENHEIT.print(CELSIUS.of(20.0)), "68 °F");
    assert_eq!(with_comma("3.5 L"), "3,5 L");
}
