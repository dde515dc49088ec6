//! Lines that are out in the world stay readable: one sample log for each version of the stored lines, with every kind.
#![cfg(not(target_arch = "wasm32"))]

use std::collections::BTreeSet;
use std::path::Path;

use coatwalk::job::entry::{Entry, VERSION};
use coatwalk::job::log::Log;
use serde_json::Value;

fn sample(version: u32) -> Vec<String> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/samples/v{version}.jsonl"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    text.lines().map(str::to_owned).collect()
}

/// The kinds named in the table of `job/stored.rs`.
fn kinds() -> BTreeSet<String> {
    let code = include_str!("../src/job/stored.rs");
    let table = &code[code.rfind("kinds! {").unwrap()..];
    table.lines().filter_map(|l| l.trim().strip_prefix('"')?.split('"').next().map(str::to_owned)).collect()
}

#[test]
fn every_version_has_a_sample_that_opens_without_a_problem() {
    for version in 1..=VERSION {
        let lines = sample(version);
        let log = Log::from_lines(&lines);
        assert_eq!(log.unread(), [], "version {version}");
        assert_eq!(log.job().problems, [], "version {version}");
        assert_eq!(log.len(), lines.len());
    }
}

#[test]
fn the_newest_sample_has_every_kind_and_is_written_back_as_it_came() {
    let lines = sample(VERSION);
    let seen: BTreeSet<String> = lines
        .iter()
        .map(|l| serde_json::from_str::<Value>(l).unwrap()["kind"].as_str().unwrap().to_owned())
        .collect();
    assert_eq!(seen, kinds(), "a kind without a line in tests/samples/v{VERSION}.jsonl");
    for line in &lines {
        let back = Entry::read(line).unwrap().line();
        let fields = |l: &str| serde_json::from_str::<Value>(l).unwrap();
        assert_eq!(fields(&back), fields(line));
    }
}

#[test]
fn a_line_that_lacks_what_its_kind_needs_is_kept_and_named() {
    let line = sample(VERSION).into_iter().find(|l| l.contains("\"went_on\"")).unwrap();
    let mut value: Value = serde_json::from_str(&line).unwrap();
    value.as_object_mut().unwrap().remove("reason");
    let unread = Entry::read(&value.to_string()).unwrap_err();
    assert_eq!(unread.why, "a went_on without reason");
    value["kind"] = "from_tomorrow".into();
    assert_eq!(Entry::read(&value.to_string()).unwrap_err().why, "an entry of an unknown kind, \"from_tomorrow\"");
}
