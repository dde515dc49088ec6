//! Computes the rows of a reference table of your own: `cargo run --example sums -- TABLE.csv …`
//!
//! The file's name says which table it is (`dilution.csv`, `film.csv`, …); its columns are those of the table of that
//! name in `tests/checks/`. Prints id, what was asked, expected and computed value, and error / tolerance.

#[cfg(not(target_arch = "wasm32"))]
#[path = "../tests/tables/mod.rs"]
mod tables;

#[cfg(not(target_arch = "wasm32"))]
fn main() -> std::process::ExitCode {
    let files: Vec<std::path::PathBuf> = std::env::args_os().skip(1).map(Into::into).collect();
    if files.is_empty() {
        eprintln!("usage: cargo run --example sums -- TABLE.csv ...");
        return std::process::ExitCode::from(2);
    }
    let mut right = true;
    for file in &files {
        match tables::compute(file) {
            Err(e) => {
                eprintln!("{e}");
                right = false;
            }
            Ok(rows) => {
                println!("id\tresult\texpected\tcomputed\terror / tol");
                for row in rows {
                    right &= print(row);
                }
            }
        }
    }
    std::process::ExitCode::from(u8::from(!right))
}

#[cfg(not(target_arch = "wasm32"))]
fn print(row: Result<Vec<tables::Check>, tables::Failure>) -> bool {
    match row {
        Err(e) => {
            println!("{e}");
            false
        }
        Ok(checks) => checks.iter().fold(true, |right, check| {
            let error = check.error_per_tol();
            println!("{}\t{}\t{}\t{}\t{error:.3}", check.id, check.what, check.expected, check.computed);
            right && error <= 1.0
        }),
    }
}

#[cfg(target_arch = "wasm32")]
fn main() {}
