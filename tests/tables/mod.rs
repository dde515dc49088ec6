//! From a row of a reference table to the public function that computes it. Shared by `tests/checks.rs` and
//! `examples/sums.rs`; native only, never on the phone.
//!
//! Each table says which columns it knows. An unknown table, column or result is an error, and so is a cell that
//! should hold a number and does not. No row is treated apart from the others.

mod air;
mod film;
mod fixings;
mod heat;
mod liquid;
mod vapour;

use std::collections::HashMap;
use std::path::Path;

/// What can go wrong, in words with the row's id.
pub type Failure = String;

/// A number or a word.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    Number(f64),
    Word(String),
}

impl std::fmt::Display for Value {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Value::Number(v) => write!(f, "{v}"),
            Value::Word(w) => f.write_str(w),
        }
    }
}

/// One expected answer and ours.
#[derive(Clone, Debug)]
pub struct Check {
    pub id: String,
    pub what: String,
    pub expected: Value,
    pub computed: Value,
    pub tol: f64,
}

impl Check {
    /// Error as a share of the tolerance: up to 1 is right. Words must be the same.
    pub fn error_per_tol(&self) -> f64 {
        match (&self.expected, &self.computed) {
            (Value::Number(e), Value::Number(c)) if c.is_finite() => {
                let error = (e - c).abs();
                if error == 0.0 { 0.0 } else { error / self.tol }
            }
            (Value::Word(e), Value::Word(c)) if e == c => 0.0,
            _ => f64::INFINITY,
        }
    }
}

/// A row by its column names.
pub struct Row {
    cells: HashMap<String, String>,
}

impl Row {
    /// The text of a cell, none when empty.
    pub fn text(&self, column: &str) -> Option<&str> {
        let text = self.cells.get(column)?.trim();
        (!text.is_empty()).then_some(text)
    }

    /// The number in a cell, none when empty.
    pub fn maybe(&self, column: &str) -> Result<Option<f64>, Failure> {
        self.text(column)
            .map(|t| t.parse().map_err(|_| format!("{}: {column} is not a number: {t}", self.id())))
            .transpose()
    }

    /// The number in a cell that must be there.
    pub fn number(&self, column: &str) -> Result<f64, Failure> {
        self.maybe(column)?.ok_or_else(|| format!("{}: {column} is empty", self.id()))
    }

    /// The text in a cell that must be there.
    pub fn word(&self, column: &str) -> Result<&str, Failure> {
        self.text(column).ok_or_else(|| format!("{}: {column} is empty", self.id()))
    }

    pub fn id(&self) -> &str {
        self.text("id").unwrap_or("a row without id")
    }
}

/// How one table is computed.
struct Table {
    name: &'static str,
    columns: &'static [&'static str],
    rows: Rows,
}

enum Rows {
    /// One `result` a row, with `expected` and `tol`.
    Long(fn(&Row, &str) -> Result<f64, Failure>),
    /// Answers in columns of their own.
    Wide(fn(&Row) -> Result<Vec<Check>, Failure>),
}

static TABLES: &[Table] = &[
    Table { name: "units", columns: liquid::UNITS, rows: Rows::Wide(liquid::units) },
    Table { name: "dilution", columns: liquid::DILUTION, rows: Rows::Long(liquid::dilution) },
    Table { name: "frustum", columns: liquid::FRUSTUM, rows: Rows::Long(liquid::frustum) },
    Table { name: "nozzle", columns: liquid::NOZZLE, rows: Rows::Long(liquid::nozzle) },
    Table { name: "dew_point", columns: air::DEW_POINT, rows: Rows::Wide(air::dew_point) },
    Table { name: "film", columns: film::FILM, rows: Rows::Long(film::film) },
    Table { name: "film_acceptance", columns: film::ACCEPTANCE, rows: Rows::Wide(film::acceptance) },
    Table { name: "fasteners_metric", columns: fixings::METRIC, rows: Rows::Long(fixings::metric) },
    Table { name: "fasteners_inch", columns: fixings::INCH_TABLE, rows: Rows::Long(fixings::inch) },
    Table { name: "warmup", columns: heat::WARMUP, rows: Rows::Long(heat::warmup) },
    Table { name: "equivalent_age", columns: heat::EQUIVALENT_AGE, rows: Rows::Long(heat::equivalent_age) },
    Table { name: "solvent_vapour", columns: vapour::SOLVENT, rows: Rows::Long(vapour::solvent) },
    Table { name: "purge", columns: vapour::PURGE, rows: Rows::Long(vapour::purge) },
];

/// Columns every table has beside its inputs.
const ABOUT: &[&str] = &["id", "source", "basis", "tol"];
const LONG: &[&str] = &["result", "expected"];

/// All checks of one CSV file, row by row: the id and either its checks or why it has none.
pub fn compute(path: &Path) -> Result<Vec<Result<Vec<Check>, Failure>>, Failure> {
    let name = path.file_stem().map(|s| s.to_string_lossy().into_owned()).unwrap_or_default();
    let table = TABLES.iter().find(|t| t.name == name).ok_or_else(|| format!("{name}: no such table is known"))?;
    let mut reader = csv::Reader::from_path(path).map_err(|e| format!("{name}: {e}"))?;
    let header: Vec<String> =
        reader.headers().map_err(|e| format!("{name}: {e}"))?.iter().map(|h| h.trim().to_owned()).collect();
    let long = matches!(table.rows, Rows::Long(_));
    for column in &header {
        let column = column.as_str();
        let known = table.columns.contains(&column) || ABOUT.contains(&column) || (long && LONG.contains(&column));
        if !known {
            return Err(format!("{name}: the column {column} is not known"));
        }
    }
    let mut rows = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|e| format!("{name}: {e}"))?;
        let cells = header.iter().cloned().zip(record.iter().map(str::to_owned)).collect();
        rows.push(checks(table, &Row { cells }).map_err(|e| format!("{name} {e}")));
    }
    Ok(rows)
}

fn checks(table: &Table, row: &Row) -> Result<Vec<Check>, Failure> {
    let checks = match table.rows {
        Rows::Wide(compute) => compute(row)?,
        Rows::Long(compute) => {
            let what = row.word("result")?;
            let computed = compute(row, what).map_err(|e| format!("{}: {e}", row.id()))?;
            vec![Check {
                id: row.id().to_owned(),
                what: what.to_owned(),
                expected: Value::Number(row.number("expected")?),
                computed: Value::Number(computed),
                tol: row.number("tol")?,
            }]
        }
    };
    if checks.is_empty() {
        return Err(format!("{}: nothing to check", row.id()));
    }
    Ok(checks)
}

/// A check of a number in a wide table, none when the cell is empty.
pub fn answer(row: &Row, what: &str, computed: f64, tol: &str) -> Result<Option<Check>, Failure> {
    let Some(expected) = row.maybe(what)? else { return Ok(None) };
    Ok(Some(Check {
        id: row.id().to_owned(),
        what: what.to_owned(),
        expected: Value::Number(expected),
        computed: Value::Number(computed),
        tol: row.number(tol)?,
    }))
}

/// Words of a sum's error.
pub fn words(e: coatwalk::sums::SumError) -> Failure {
    e.to_string()
}

/// The failure of a result no table function knows.
pub fn unknown(what: &str) -> Result<f64, Failure> {
    Err(format!("the result {what} is not known"))
}
