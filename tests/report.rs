//! The report: every chapter stands in it, typed words stay words, nothing is claimed that was not logged. Read back with
//! an XML reader that had no part in writing it.
#![cfg(not(target_arch = "wasm32"))]

use chrono::{DateTime, Utc};
use coatwalk::job::airlog;
use coatwalk::job::log::Log;
use coatwalk::share::report::html::{Piece, body, file};
use coatwalk::share::report::{About, Chosen, Report, aftercare, air_plot};
use coatwalk::units::UnitSet;
use uuid::Uuid;

/// Markup, an event handler, a script's address, a photo's mark, marks that turn the writing, an end of the style.
const HOSTILE: &str = "<img src=x onerror=alert(1)> \" data-photo=\"</style><script>javascript:alert(1)</script> ]]> &amp; '\u{202e}\u{0}";

fn sample() -> String {
    std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/samples/v1.jsonl")).unwrap()
}

fn when(at: DateTime<Utc>) -> String {
    at.format("%Y-%m-%d %H:%M").to_string()
}

fn report(log: &Log, photos: &[Chosen]) -> Report {
    let now = "2026-10-09T12:00:00Z".parse().unwrap();
    let about = About {
        units: UnitSet::Metric,
        today: "2026-10-09".parse().unwrap(),
        when: &when,
        plot: airlog::curve(log.job(), None, now).map(|l| air_plot(&l, UnitSet::Metric, &Utc).draw()),
        photos,
        aftercare: aftercare(log.job(), &|at| at.format("%Y-%m-%d").to_string()),
    };
    Report::of(log, &about)
}

/// The file as one text, with a photo of one pixel's length in place of each.
fn whole(report: &Report) -> String {
    let one = |p: Piece| match p {
        Piece::Text(text) => text,
        Piece::Photo(_) => "data:image/jpeg;base64,/9j/".into(),
    };
    file(report, "a4").into_iter().map(one).collect()
}

/// Reads the file as XML; `<!doctype html>` is HTML's own and stays outside.
fn read(html: &str) -> roxmltree::Document<'_> {
    roxmltree::Document::parse(html.strip_prefix("<!doctype html>\n").unwrap()).unwrap()
}

fn all_words(doc: &roxmltree::Document) -> String {
    doc.descendants().filter(|n| n.is_text()).filter_map(|n| n.text()).collect::<Vec<_>>().join("\n")
}

#[test]
fn every_chapter_stands_in_it() {
    let photo = Uuid::from_u128(0x019a_0000_00f1_7000_8000_0000_0000_00f1);
    let log = Log::from_lines(sample().lines());
    let html = whole(&report(&log, &[Chosen { photo, words: "Frame, Survey".into() }]));
    let doc = read(&html);
    let ids: Vec<&str> =
        doc.descendants().filter(|n| n.has_tag_name("section")).filter_map(|n| n.attribute("id")).collect();
    let wanted = [
        "what",
        "machine",
        "products",
        "conditions",
        "film",
        "stages",
        "gone-past",
        "found",
        "made-safe",
        "work",
        "photos",
        "aftercare",
        "cautions",
    ];
    assert_eq!(ids, wanted.map(|w| format!("report-{w}")));
    assert!(doc.descendants().any(|n| n.has_tag_name("svg")), "the readings are not drawn");
    let photos: Vec<_> = doc.descendants().filter(|n| n.has_tag_name("img")).collect();
    assert_eq!(photos.len(), 1);
    assert!(photos[0].attribute("src").unwrap().starts_with("data:image/jpeg;base64,"));
    let words = all_words(&doc);
    for needed in ["It certifies nothing", "common practice, no source", log.job().name.as_str()] {
        assert!(words.contains(needed), "{needed} is missing");
    }
    // Shape and word, for each area and stage.
    let cells = doc.descendants().filter(|n| {
        n.has_tag_name("td")
            && n.text().is_some_and(|t| {
                t.contains('\u{25cb}') || t.contains('\u{25cf}') || t.contains('\u{2715}') || t.contains('\u{25d0}')
            })
    });
    assert_eq!(cells.count(), log.job().areas().count() * 15);
}

#[test]
fn typed_words_stay_words() {
    let log = Log::from_lines(sample().lines());
    // Every text that somebody typed becomes a hostile one, one after the other and all at once.
    let lines: Vec<serde_json::Value> = sample().lines().map(|l| serde_json::from_str(l).unwrap()).collect();
    let typed =
        ["name", "reason", "because", "text", "how", "batch", "inputs", "result", "sum", "by", "note", "part", "put"];
    fn soil(value: &mut serde_json::Value, typed: &[&str], hit: &mut usize) {
        match value {
            serde_json::Value::Object(fields) => {
                for (name, v) in fields.iter_mut() {
                    if typed.contains(&name.as_str()) && v.is_string() {
                        *v = HOSTILE.into();
                        *hit += 1;
                    } else {
                        soil(v, typed, hit);
                    }
                }
            }
            serde_json::Value::Array(all) => all.iter_mut().for_each(|v| soil(v, typed, hit)),
            _ => {}
        }
    }
    let mut hit = 0;
    let soiled: Vec<String> = lines
        .into_iter()
        .map(|mut l| {
            soil(&mut l, &typed, &mut hit);
            l.to_string()
        })
        .collect();
    assert!(hit > 10, "only {hit} texts");
    let hostile = Log::from_lines(&soiled);
    assert_eq!(hostile.len(), log.len());
    let photo = [Chosen { photo: Uuid::from_u128(7), words: HOSTILE.into() }];
    let made = report(&hostile, &photo);
    let html = whole(&made);
    let doc = read(&html);
    assert_eq!(doc.descendants().filter(|n| n.has_tag_name("img")).count(), 1);
    for n in doc.descendants().filter(|n| n.is_element()) {
        let tag = n.tag_name().name();
        assert!(!["script", "iframe", "object", "embed", "link", "form", "base"].contains(&tag), "{tag}");
        for a in n.attributes() {
            assert!(!a.name().starts_with("on"), "{tag} has {}", a.name());
            assert!(a.name() != "style" && a.name() != "href", "{tag} has {}", a.name());
        }
    }
    assert!(all_words(&doc).contains("<img src=x onerror=alert(1)>"), "the words themselves are lost");
    assert!(!html.contains('\u{202e}') && !html.contains('\u{0}'));
    // What the page's own filter (public/boot.js) would take for active HTML.
    let inside = body(&made).to_lowercase();
    for active in ["<script", "javascript:", "onerror=", "<iframe", "<link", "<form"] {
        assert!(!inside.contains(active), "{active}");
    }
}

#[test]
fn it_claims_nothing_and_asks_nobody() {
    for lines in [sample(), String::new()] {
        let made = report(&Log::from_lines(lines.lines()), &[]);
        let html = whole(&made);
        let words = all_words(&read(&html)).to_lowercase();
        for claim in ["verified", "approved", "passed", "guarantee"] {
            assert!(!words.contains(claim), "it says {claim}");
        }
        for (at, _) in words.match_indices("safe") {
            let before = &words[..at];
            let made_safe = before.ends_with("made ") || before.ends_with("make ");
            assert!(made_safe || words[at..].starts_with("safety"), "…{}", &words[at.saturating_sub(20)..at + 4]);
        }
        assert!(
            !html.contains("http") && !html.contains("url(") && !html.contains("@import"),
            "it asks for something outside"
        );
        assert!(!html.contains("<script"));
    }
}

#[test]
fn aftercare_counts_from_the_last_second_pass() {
    let area = "019a0000-0001-7000-8000-000000000001";
    let line = |n: u32, at: &str, rest: &str| {
        format!(
            r#"{{"v":1,"id":"019a0000-{n:04x}-7000-8000-000000000000","job":"019a0000-0000-7000-8000-000000000000","at":"{at}",{rest}}}"#
        )
    };
    let log = Log::from_lines([
        line(
            1,
            "2026-10-01T08:00:00.000Z",
            &format!(
                r#""kind":"opened","name":"n","machine":"trailer","seeds":[{{"id":"{area}","of":"","name":"a"}}]"#
            ),
        ),
        line(2, "2026-10-03T08:00:00.000Z", &format!(r#""kind":"done","stage":"second_pass","areas":["{area}"]"#)),
    ]);
    let lines = aftercare(log.job(), &|at| at.format("%Y-%m-%d").to_string());
    // 7 days and 4 weeks: the guide's own figures, from memory.
    assert!(lines[0].contains("2026-10-10") && lines[1].contains("2026-10-31"), "{lines:?}");
    assert!(aftercare(&Default::default(), &|_| String::new())[0].contains("no dates"));
}
