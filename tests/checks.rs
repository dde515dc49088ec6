//! Every row of every reference table in `tests/checks/` (or in the folder `CHECKS_DIR`), computed through the public
//! functions. Sources stand on each row and in the folder's README.
#![cfg(not(target_arch = "wasm32"))]

mod tables;

use std::path::{Path, PathBuf};

fn folder() -> PathBuf {
    match std::env::var_os("CHECKS_DIR") {
        Some(folder) => folder.into(),
        None => Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/checks"),
    }
}

#[test]
fn every_row_of_every_table() {
    let folder = folder();
    let mut files: Vec<PathBuf> = std::fs::read_dir(&folder)
        .unwrap_or_else(|e| panic!("{}: {e}", folder.display()))
        .map(|entry| entry.expect("a readable folder").path())
        .filter(|path| path.extension().is_some_and(|e| e == "csv"))
        .collect();
    files.sort();
    assert!(!files.is_empty(), "no tables in {}", folder.display());

    let mut failures = Vec::new();
    for file in &files {
        let name = file.file_stem().unwrap_or_default().to_string_lossy();
        let rows = match tables::compute(file) {
            Ok(rows) => rows,
            Err(e) => {
                println!("{name}: not computed");
                failures.push(e);
                continue;
            }
        };
        if rows.is_empty() {
            failures.push(format!("{name}: has no rows"));
        }
        let (mut worst, mut at) = (0.0, String::new());
        for row in &rows {
            for check in row.as_ref().map_or(&[][..], Vec::as_slice) {
                let error = check.error_per_tol();
                if error >= worst {
                    (worst, at) = (error, format!("{} {}", check.id, check.what));
                }
                if error > 1.0 {
                    failures.push(format!(
                        "{name} {} {}: expected {}, computed {}, tolerance {}",
                        check.id, check.what, check.expected, check.computed, check.tol
                    ));
                }
            }
        }
        failures.extend(rows.iter().filter_map(|r| r.as_ref().err().cloned()));
        println!("{name}: {} rows, worst error / tol {worst:.3} ({at})", rows.len());
    }
    assert!(failures.is_empty(), "\n{}", failures.join("\n"));
}

/// The tables are read, not just counted: a wrong answer, an unknown table, column or result must each fail.
#[test]
fn a_wrong_table_fails() {
    let folder = std::env::temp_dir().join(format!("coatwalk-checks-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let look = |name: &str, text: &str| {
        let path = folder.join(name);
        std::fs::write(&path, text).expect("a file");
        tables::compute(&path)
    };
    let with_result = |row: &str| format!("id,spray_angle_deg,distance_mm,result,expected,tol\n{row}\n");

    let wrong = look("nozzle.csv", &with_result("X1,15,300,fan_width_mm,90,0.1")).expect("a known table");
    let check = &wrong[0].as_ref().expect("a known result")[0];
    assert!(check.error_per_tol() > 1.0);

    let right = look("nozzle.csv", &with_result("X1,15,300,fan_width_mm,79,0.1")).expect("a known table");
    assert!(right[0].as_ref().expect("a known result")[0].error_per_tol() < 1.0);

    let unknown_result = look("nozzle.csv", &with_result("X1,15,300,fan_height,90,0.1")).expect("a known table");
    assert!(unknown_result[0].is_err());
    assert!(look("nozzle.csv", "id,colour\nX1,red\n").is_err());
    assert!(look("horses.csv", &with_result("X1,15,300,fan_width_mm,79,0.1")).is_err());
    std::fs::remove_dir_all(&folder).expect("the folder goes away again");
}
