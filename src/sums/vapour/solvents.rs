//! Solvents and propellants, as rows a user may change.
//!
//! Read: the LEL of toluene, n-heptane, n-nonane and acetone in the three tables named, and the molar mass and
//! density of toluene, xylenes, n-hexane, n-heptane, n-nonane, n-decane, acetone and isopropanol (package `chemicals`
//! 1.5.2). All other figures are from memory. The user's safety data sheet goes before any of them.

use std::borrow::Cow;

use crate::units::{GRAM_PER_MOLE, KILOGRAM_PER_CUBIC_METRE, MassDensity, MolarMass};

/// A solvent or propellant.
#[derive(Clone, Debug, PartialEq)]
pub struct Solvent {
    /// Its name.
    pub name: Cow<'static, str>,
    /// Its CAS number, empty for a mixture such as white spirit.
    pub cas: Cow<'static, str>,
    /// Molar mass.
    pub molar_mass: MolarMass,
    /// Density of the liquid at about 20 °C.
    pub density: MassDensity,
    /// Lower explosive limit, % by volume: the lowest printed, until the user's safety data sheet says.
    pub lel_percent: f64,
    /// Where the figures come from.
    pub source: Cow<'static, str>,
}

/// A table in which lower explosive limits are printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LelTable {
    /// IEC 60079-20-1 (2010).
    Iec60079,
    /// NFPA 497 (2008).
    Nfpa497,
    /// BS 5345 Part 1 (1976).
    Bs5345,
}

/// (name, CAS, g/mol, kg/m³ at 20 °C, LEL by IEC 60079-20-1, by NFPA 497, by BS 5345, in %)
type Row = (&'static str, &'static str, f64, f64, [Option<f64>; 3], bool);

const READ: bool = true;
const MEMORY: bool = false;

const ROWS: &[Row] = &[
    ("toluene", "108-88-3", 92.138, 868.47, [Some(1.0), Some(1.1), Some(1.2)], READ),
    ("m-xylene", "108-38-3", 106.165, 864.3, [Some(1.0), Some(1.1), Some(1.0)], MEMORY),
    ("o-xylene", "95-47-6", 106.165, 880.2, [Some(1.0), Some(0.9), Some(1.0)], MEMORY),
    ("p-xylene", "106-42-3", 106.165, 861.1, [Some(0.9), Some(1.1), Some(1.0)], MEMORY),
    ("ethylbenzene", "100-41-4", 106.165, 866.8, [Some(0.8), Some(0.8), Some(1.0)], MEMORY),
    ("n-hexane", "110-54-3", 86.175, 660.49, [Some(1.0), Some(1.1), Some(1.2)], MEMORY),
    ("n-heptane", "142-82-5", 100.202, 685.75, [Some(0.85), Some(1.0), Some(1.1)], READ),
    ("n-octane", "111-65-9", 114.229, 702.5, [Some(0.8), Some(1.0), Some(0.8)], MEMORY),
    ("n-nonane", "111-84-2", 128.255, 720.81, [Some(0.7), Some(0.8), Some(0.7)], READ),
    ("n-decane", "124-18-5", 142.282, 731.2, [Some(0.7), Some(0.8), Some(0.7)], MEMORY),
    ("n-undecane", "1120-21-4", 156.308, 740.2, [Some(0.6), Some(0.7), None], MEMORY),
    ("white spirit (as n-nonane)", "", 128.255, 720.81, [Some(0.7), Some(0.8), None], MEMORY),
    ("naphtha VM&P", "", 112.0, 750.0, [Some(0.7), Some(0.9), None], MEMORY),
    ("turpentine", "8006-64-2", 136.23, 862.0, [Some(0.8), Some(0.8), None], MEMORY),
    ("acetone", "67-64-1", 58.079, 792.24, [Some(2.5), Some(2.5), Some(2.15)], READ),
    ("methyl ethyl ketone", "78-93-3", 72.106, 805.0, [Some(1.5), Some(1.4), Some(1.8)], MEMORY),
    ("cyclohexanone", "108-94-1", 98.143, 947.0, [Some(1.3), Some(1.1), Some(1.4)], MEMORY),
    ("ethyl acetate", "141-78-6", 88.105, 900.6, [Some(2.0), Some(2.0), Some(2.1)], MEMORY),
    ("n-butyl acetate", "123-86-4", 116.158, 881.5, [Some(1.2), Some(1.7), Some(1.4)], MEMORY),
    ("1-methoxy-2-propanol", "107-98-2", 90.121, 922.0, [Some(1.8), Some(1.6), None], MEMORY),
    ("ethanol", "64-17-5", 46.068, 789.4, [Some(3.1), Some(3.3), Some(3.3)], MEMORY),
    ("isopropanol", "67-63-0", 60.095, 786.71, [Some(2.0), Some(2.0), Some(2.0)], MEMORY),
    ("methanol", "67-56-1", 32.042, 791.4, [Some(6.0), Some(6.0), Some(6.7)], MEMORY),
    ("propane (propellant)", "74-98-6", 44.096, 500.0, [Some(1.7), Some(2.1), Some(2.0)], MEMORY),
    ("n-butane (propellant)", "106-97-8", 58.122, 579.0, [Some(1.4), Some(1.9), Some(1.5)], MEMORY),
    ("isobutane (propellant)", "75-28-5", 58.122, 557.0, [Some(1.3), Some(1.8), Some(1.8)], MEMORY),
    ("dimethyl ether (propellant)", "115-10-6", 46.068, 668.0, [Some(2.7), Some(3.4), Some(3.7)], MEMORY),
];

fn of_row(row: &Row) -> Solvent {
    let lowest = row.4.iter().flatten().copied().fold(f64::INFINITY, f64::min);
    Solvent {
        name: row.0.into(),
        cas: row.1.into(),
        molar_mass: GRAM_PER_MOLE.of(row.2),
        density: KILOGRAM_PER_CUBIC_METRE.of(row.3),
        lel_percent: lowest,
        source: match row.5 {
            READ => "chemicals 1.5.2; lowest LEL of IEC 60079-20-1, NFPA 497, BS 5345".into(),
            MEMORY => "from memory: check against the safety data sheet".into(),
        },
    }
}

fn row(name_or_cas: &str) -> Option<&'static Row> {
    let wanted = name_or_cas.trim();
    ROWS.iter().find(|r| (!r.1.is_empty() && r.1 == wanted) || r.0.eq_ignore_ascii_case(wanted))
}

/// Every row, as the list a user starts from.
pub fn solvents() -> Vec<Solvent> {
    ROWS.iter().map(of_row).collect()
}

/// The row of that CAS number or name.
///
/// ```
/// use coatwalk::sums::vapour;
/// assert_eq!(vapour::solvent("acetone").unwrap().cas, "67-64-1");
/// ```
pub fn solvent(name_or_cas: &str) -> Option<Solvent> {
    row(name_or_cas).map(of_row)
}

/// The limit one table prints, % by volume.
///
/// ```
/// use coatwalk::sums::vapour::{LelTable, printed_lel};
/// assert_eq!(printed_lel("108-88-3", LelTable::Nfpa497), Some(1.1));
/// ```
pub fn printed_lel(name_or_cas: &str, table: LelTable) -> Option<f64> {
    row(name_or_cas)?.4[match table {
        LelTable::Iec60079 => 0,
        LelTable::Nfpa497 => 1,
        LelTable::Bs5345 => 2,
    }]
}
