//! The report as HTML: for the screen and the printer, and as one file of its own.
//!
//! May use: [`Report`]. Must not: let a typed word be anything but words.

use uuid::Uuid;

use super::{Part, Report};
use crate::sheets::{Drawing, Mark};

/// The looks, on the screen and in the file.
const LOOKS: &str = include_str!("../../../style/report.css");
/// Those of pictures, which the screen has already.
const PICTURES: &str = include_str!("../../../style/picture.css");
/// The colours of the file; on the screen they are the app's.
const COLOURS: &str = ":root{--ink:#000;--ink-soft:#222;--line:#555;--ground:#fff;--ground-raised:#fff;--stop-fill:#f6d4cd;--wet-fill:#a9cfe0;--wait-fill:#f2d9a4;--stop:#7d0f0f;--metal-fill:#e4e2dc}\
    body{margin:0 auto;padding:16px;max-width:52rem;background:var(--ground);color:var(--ink);\
    font:16px/1.4 system-ui,sans-serif}@media print{body{padding:0;max-width:none}}";
/// How a photo is marked. No typed word can hold it: its `=` would be escaped.
const MARK: &str = " data-photo=\"";

/// The looks on this paper, "a4" or "letter": CSS knows both by these names. A page of its own name (`page:`) would begin on
/// a new sheet.
pub fn looks(paper: &str) -> String {
    format!("{LOOKS}@page{{size:{paper};margin:14mm}}")
}

/// A piece of the file.
#[derive(Clone, PartialEq, Debug)]
pub enum Piece {
    /// HTML.
    Text(String),
    /// Here goes the photo as a `data:` address.
    Photo(Uuid),
}

/// The inside of the report. Photos are `img` elements with the id in `data-photo` and no address yet.
pub fn body(report: &Report) -> String {
    let mut out = format!("<h1>{}</h1>", escaped(&report.title));
    for section in &report.sections {
        out += &format!("<section id=\"report-{}\"><h2>{}</h2>", section.id, escaped(section.title));
        section.parts.iter().for_each(|p| part(&mut out, p));
        out += "</section>";
    }
    out
}

/// The whole file, in pieces: photos are large, so nobody needs to hold all of it. `paper` is "a4" or "letter".
pub fn file(report: &Report, paper: &str) -> Vec<Piece> {
    let body = body(report);
    let mut parts = body.split(MARK);
    let start = format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n<meta name=\"viewport\" \
         content=\"width=device-width, initial-scale=1\"/>\n<title>{}</title>\n<style>{COLOURS}{PICTURES}{}</style>\n</head>\n\
         <body>\n<article class=\"report\">{}",
        escaped(&report.title),
        looks(paper),
        parts.next().unwrap_or_default()
    );
    let mut pieces = vec![Piece::Text(start)];
    for after in parts {
        let (id, rest) = after.split_once('"').unwrap_or((after, ""));
        pieces.push(Piece::Text(" src=\"".into()));
        pieces.push(Piece::Photo(Uuid::parse_str(id).unwrap_or_default()));
        pieces.push(Piece::Text(format!("\"{rest}")));
    }
    pieces.push(Piece::Text("</article>\n</body>\n</html>\n".into()));
    pieces
}

fn part(out: &mut String, part: &Part) {
    match part {
        Part::Words(words) => *out += &format!("<p>{}</p>", escaped(words)),
        Part::List(lines) => {
            *out += "<ul>";
            lines.iter().for_each(|l| *out += &format!("<li>{}</li>", escaped(l)));
            *out += "</ul>";
        }
        Part::Table(head, rows) => table(out, "", head, rows),
        Part::Grid(head, rows) => table(out, " class=\"grid\"", head, rows),
        Part::Drawing(d) => drawing(out, d),
        Part::Photo(p) => {
            *out += &format!(
                "<figure><img{MARK}{}\" alt=\"{}\"/><figcaption>{1}</figcaption></figure>",
                p.photo,
                escaped(&p.words)
            );
        }
    }
}

fn table(out: &mut String, class: &str, head: &[String], rows: &[Vec<String>]) {
    // On a phone it scrolls sideways, by finger and by key.
    *out +=
        &format!("<div class=\"wide\" role=\"region\" aria-label=\"Table\" tabindex=\"0\"><table{class}><thead><tr>");
    head.iter().for_each(|h| *out += &format!("<th scope=\"col\">{}</th>", escaped(h)));
    *out += "</tr></thead><tbody>";
    for row in rows {
        *out += "<tr>";
        for (i, cell) in row.iter().enumerate() {
            *out += &match i {
                0 => format!("<th scope=\"row\">{}</th>", escaped(cell)),
                _ => format!("<td>{}</td>", escaped(cell)),
            };
        }
        *out += "</tr>";
    }
    *out += "</tbody></table></div>";
}

fn drawing(out: &mut String, d: &Drawing) {
    *out += &format!(
        "<svg class=\"picture\" viewBox=\"0 0 328 {}\" role=\"img\" aria-label=\"{}\">",
        d.height,
        escaped(&d.words)
    );
    for mark in &d.marks {
        *out += &match mark {
            Mark::Path(look, d) => format!("<path class=\"{look}\" d=\"{}\"/>", escaped(d)),
            Mark::Words(look, hang, x, y, words) => {
                format!("<text class=\"{look}\" text-anchor=\"{hang}\" x=\"{x}\" y=\"{y}\">{}</text>", escaped(words))
            }
        };
    }
    *out += "</svg>";
}

/// Words as words. `=` and `:` too: the app's page has a filter that would take "one = 4" for an event handler, and
/// nothing typed can look like a photo's mark. What neither HTML nor XML may hold is left out.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' | '<' | '>' | '"' | '\'' | '=' | ':' | '`' => out += &format!("&#{};", c as u32),
            '\n' | '\t' => out.push(c),
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => {}
            // Marks that turn the direction of writing would make a line read as another.
            '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => {}
            c => out.push(c),
        }
    }
    out
}
