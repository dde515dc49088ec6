//! The table of gates in DEVELOPERS.md is the table in the code. `UPDATE=1 cargo test --test gates_doc` writes it anew.
#![cfg(not(target_arch = "wasm32"))]

use coatwalk::job::gate::{BAG_GATES, GATES};
use coatwalk::job::guide::guide;
use coatwalk::job::stage::Stage;

const BEGIN: &str = "<!-- gates: written by tests/gates_doc.rs -->\n";
const END: &str = "<!-- end of gates -->";

/// Every quality gate, then the safety points of each stage.
fn table() -> String {
    let mut out = String::from("| gate | before | it holds that | basis |\n|---|---|---|---|\n");
    for g in GATES {
        let before = match g.stages.len() {
            14 => "every stage after Survey".to_string(),
            _ => g.stages.iter().map(|s| s.title()).collect::<Vec<_>>().join(", "),
        };
        out += &format!("| `{}` | {before} | {} | {} |\n", g.id, g.rule, g.basis.words());
    }
    for g in BAG_GATES {
        out += &format!("| `{}` | each bag | {} | {} |\n", g.id, g.rule, g.basis.words());
    }
    out += "\nSafety points, answered \"made safe\" before the stage, never gone past:\n\n";
    for s in Stage::ALL {
        let points: Vec<_> = guide(s).safety.iter().map(|p| p.words).collect();
        if !points.is_empty() {
            out += &format!("* **{}**: {}.\n", s.title(), points.join("; "));
        }
    }
    out += "* **Moving the arms**: no foil is on a rod and no cover on an opening (`arms-locked`).\n";
    out
}

#[test]
fn the_contributors_guide_lists_the_gates_as_they_are() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/DEVELOPERS.md");
    let text = std::fs::read_to_string(path).unwrap();
    let from = text.find(BEGIN).expect("the mark before the table") + BEGIN.len();
    let to = text.find(END).expect("the mark after the table");
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(path, format!("{}{}{}", &text[..from], table(), &text[to..])).unwrap();
        return;
    }
    assert_eq!(&text[from..to], table(), "run UPDATE=1 cargo test --test gates_doc");
}
