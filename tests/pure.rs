//! The pure rooms stay pure: no clock, no random numbers, no browser in `units`, `sums`, `sheets`, `job` and `share`.
#![cfg(not(target_arch = "wasm32"))]

use std::path::{Path, PathBuf};

/// What would let the world in.
const FORBIDDEN: &[&str] = &[
    "Utc::now",
    "Local::now",
    "SystemTime",
    "Instant::",
    "std::time",
    "now_v7",
    "now_v1",
    "new_v4",
    "thread_rng",
    "rand::",
    "getrandom",
    "fastrand",
    "web_sys",
    "js_sys",
    "wasm_bindgen",
    "leptos",
    "gloo",
    "std::fs",
    "std::net",
    "std::env",
];

fn rust_files(dir: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(dir).into_iter().flatten().flatten() {
        let path = entry.path();
        if path.is_dir() {
            rust_files(&path, found);
        } else if path.extension().is_some_and(|e| e == "rs") {
            found.push(path);
        }
    }
}

/// Lines of code that break the rule; comments may speak of clocks.
fn breaches(text: &str) -> Vec<String> {
    text.lines()
        .filter(|l| !l.trim_start().starts_with("//"))
        .filter(|l| FORBIDDEN.iter().any(|f| l.contains(f)))
        .map(str::to_owned)
        .collect()
}

#[test]
fn pure_rooms_reach_for_nothing() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = vec![src.join("units.rs"), src.join("sheets.rs")];
    for room in ["units", "sums", "sheets", "job", "share"] {
        rust_files(&src.join(room), &mut files);
    }
    assert!(files.len() > 15, "only {} files found", files.len());
    for file in files {
        let text = std::fs::read_to_string(&file).unwrap();
        assert_eq!(breaches(&text), Vec::<String>::new(), "{}", file.display());
    }
}

#[test]
fn the_search_finds_what_it_looks_for() {
    assert_eq!(breaches("let t = Utc::now();\n// Utc::now is not for us\nlet x = 1;").len(), 1);
    assert_eq!(breaches("use web_sys::Window;").len(), 1);
}

/// A room below never names a room above.
#[test]
fn rooms_point_one_way() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let rules: &[(&str, &[&str])] = &[
        (
            "units",
            &[
                "crate::job",
                "crate::sums",
                "crate::sheets",
                "crate::app",
                "crate::store",
                "crate::device",
                "crate::share",
            ],
        ),
        ("sums", &["crate::job", "crate::sheets", "crate::app", "crate::store", "crate::device", "crate::share"]),
        ("sheets", &["crate::job", "crate::app", "crate::store", "crate::device", "crate::share"]),
        ("job", &["crate::sheets", "crate::app", "crate::store", "crate::device", "crate::share"]),
        ("share", &["crate::app", "crate::store", "crate::device"]),
        ("store", &["crate::app", "crate::device"]),
        ("device", &["crate::app", "crate::store", "crate::job"]),
    ];
    for (room, above) in rules {
        let mut files = vec![];
        rust_files(&src.join(room), &mut files);
        for file in files {
            let text = std::fs::read_to_string(&file).unwrap();
            for word in *above {
                assert!(!text.contains(word), "{} names {word}", file.display());
            }
        }
    }
}
