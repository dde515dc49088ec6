//! Labels for the parts that came off, as pages to print: SVG in millimetres.
//!
//! May use: the job's bags, [`super::sheet`], the `qrcode` crate. Must not: know the browser.
//!
//! The page that shows them refuses inline styles, so everything is a presentation attribute. Ink is black on white, dark
//! theme or not: it is paper.

use qrcode::{Color, EcLevel, QrCode};

use super::bag_address;
use super::sheet::{Paper, Place, Sheet};
use crate::job::fold::{Bag, Job};
use crate::job::tell;

/// What stands on one label.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Label {
    /// The bag's number as [`Job::bag_label`] shows it: large, and small behind a blank whose bag it is when two phones gave
    /// out the same one.
    pub number: String,
    /// The part that came off.
    pub part: String,
    /// The area it belongs to.
    pub area: String,
    /// What is in the bag, in words.
    pub fasteners: String,
    /// Where the part was put.
    pub put: String,
    /// What the code says: see [`bag_address`].
    pub address: String,
}

/// One page.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PageSvg {
    pub paper: Paper,
    /// An `svg` element as wide and high as the paper, in mm; words in it are escaped, it may go into a page as it is.
    pub svg: String,
}

/// A module of the code is not printed finer: common practice for phones at arm's length, no source.
const LEAST_MODULE_MM: f64 = 0.4;
/// Free modules round a code (ISO/IEC 18004, from memory).
const QUIET_MODULES: usize = 4;
/// Between a label's edge and its words.
const PAD_MM: f64 = 1.5;
/// Between a label's edge and its code's quiet zone.
const EDGE_MM: f64 = 0.5;
/// A code takes no more of a label's width.
const CODE_SHARE: f64 = 0.45;
/// Letters are between 5 and 13 points.
const LETTER_MM: (f64, f64) = (1.8, 4.5);
/// A label is at least so many letters high, its words so many wide, as far as the letters may shrink.
const LINES_HIGH: f64 = 9.5;
const LETTERS_WIDE: f64 = 13.0;
/// The number's size and the distance of lines, in letters.
const NUMBER_LETTERS: f64 = 3.2;
const LINE_LETTERS: f64 = 1.25;

impl Label {
    /// The label of a bag. The page is the app's own address.
    pub fn of(job: &Job, bag: &Bag, page: &str) -> Label {
        Label {
            number: job.bag_label(bag),
            part: bag.part.clone(),
            area: job.area_name(bag.area).to_owned(),
            fasteners: tell::list(&bag.fasteners),
            put: bag.put.clone(),
            address: bag_address(page, bag.id),
        }
    }
}

/// The labels on as many pages as they need. The first page has `used` labels gone already, counted row by row.
///
/// # Errors
/// In words to show: the grid does not fit on its paper ([`Sheet::fits`]), an address is too long for a code, or the label
/// is too small for it.
///
/// ```
/// use coatwalk::share::{label::{Label, pages}, sheet::SHEETS};
/// let label = Label {
///     number: "7".into(),
///     part: "Side panel".into(),
///     area: "Hood".into(),
///     fasteners: "4 × M10 × 30 mm".into(),
///     put: "Shelf 2".into(),
///     address: "https://app.invalid/#/bags/00000000-0000-0000-0000-000000000007".into(),
/// };
/// let pages = pages(&SHEETS[0].sheet, &[label], 0).unwrap();
/// assert_eq!(pages.len(), 1);
/// assert!(pages[0].svg.contains("Side panel"));
/// ```
pub fn pages(sheet: &Sheet, labels: &[Label], used: usize) -> Result<Vec<PageSvg>, String> {
    sheet.fits()?;
    let drawn = labels.iter().map(|l| draw(sheet, l)).collect::<Result<Vec<_>, _>>()?;
    let (count, (w, h)) = (sheet.count(), sheet.paper.size_mm());
    let used = used % count;
    let mut pages: Vec<PageSvg> = Vec::new();
    for (i, label) in drawn.iter().enumerate() {
        let slot = (used + i) % count;
        if i == 0 || slot == 0 {
            let svg = format!(
                "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{1}mm\" viewBox=\"0 0 {0} {1}\" \
                 font-family=\"sans-serif\" fill=\"#000\"><path fill=\"#fff\" d=\"M0 0H{0}V{1}H0z\"/>",
                mm(w),
                mm(h)
            );
            pages.push(PageSvg { paper: sheet.paper, svg });
        }
        if let Some(page) = pages.last_mut() {
            page.svg += &window(sheet.place(slot), (sheet.label_w_mm, sheet.label_h_mm), label);
        }
    }
    for page in &mut pages {
        page.svg += "</svg>";
    }
    Ok(pages)
}

/// What is drawn stays inside: a nested `svg` shows nothing beyond its edges.
fn window(at: Place, view: (f64, f64), inside: &str) -> String {
    format!(
        "<svg x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" viewBox=\"0 0 {} {}\" overflow=\"hidden\">{inside}</svg>",
        mm(at.x),
        mm(at.y),
        mm(at.w),
        mm(at.h),
        mm(view.0),
        mm(view.1)
    )
}

fn draw(sheet: &Sheet, label: &Label) -> Result<String, String> {
    let (w, h) = (sheet.label_w_mm, sheet.label_h_mm);
    let code = QrCode::with_error_correction_level(&label.address, EcLevel::M)
        .map_err(|_| format!("The address of bag {} is too long for a code.", label.number))?;
    let modules = code.width() + 2 * QUIET_MODULES;
    let side = (h - 2.0 * EDGE_MM).min(w * CODE_SHARE);
    if side < modules as f64 * LEAST_MODULE_MM {
        let least = modules as f64 * LEAST_MODULE_MM;
        let (w, h) = ((least / CODE_SHARE).ceil(), (least + 2.0 * EDGE_MM).ceil());
        return Err(format!("The label is too small for its code. Take one of {w} × {h} mm or more."));
    }
    let at = Place { x: w - EDGE_MM - side, y: (h - side) / 2.0, w: side, h: side };
    let mut out = window(at, (modules as f64, modules as f64), &squares(&code));
    let room = Place { x: PAD_MM, y: PAD_MM, w: at.x - PAD_MM, h: h - 2.0 * PAD_MM };
    out += &window(room, (room.w, room.h), &words(label, room.w, room.h));
    if sheet.cut_lines {
        out += &format!(
            "<rect width=\"{}\" height=\"{}\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.2\" \
             stroke-dasharray=\"1 2\"/>",
            mm(w),
            mm(h)
        );
    }
    Ok(out)
}

/// The dark modules as one path, a run of a row each.
fn squares(code: &QrCode) -> String {
    let mut path = String::from("<path shape-rendering=\"crispEdges\" d=\"");
    for (y, row) in code.to_colors().chunks(code.width()).enumerate() {
        let mut x = 0;
        for run in row.chunk_by(|a, b| a == b) {
            if run[0] == Color::Dark {
                path += &format!("M{} {}h{n}v1h-{n}z", x + QUIET_MODULES, y + QUIET_MODULES, n = run.len());
            }
            x += run.len();
        }
    }
    path + "\"/>"
}

/// Number and lines. The fasteners take the lines that the rest leaves.
fn words(label: &Label, w: f64, h: f64) -> String {
    let letter = (h / LINES_HIGH).min(w / LETTERS_WIDE).clamp(LETTER_MM.0, LETTER_MM.1);
    let step = letter * LINE_LETTERS;
    let (number, whose) = label.number.split_once(' ').unwrap_or((&label.number, ""));
    let number_size = (h / LINES_HIGH).min(LETTER_MM.1) * NUMBER_LETTERS;
    let number_size = number_size.min(w / width(number, true));
    let base = number_size * 0.8;
    let lines = ((h - base - letter * 0.25) / step).max(0.0) as usize;
    let room = w / letter;
    let part = wrap(&label.part, room, true, if lines >= 7 { 2 } else { 1 });
    let whose = wrap(whose, room, true, 1);
    let below = wrap(&label.area, room, false, 1).into_iter();
    let last = wrap(&label.put, room, false, 1);
    let left = lines.saturating_sub(whose.len() + part.len() + below.len() + last.len());
    let below = below.chain(wrap(&label.fasteners, room, false, left)).chain(last);

    let mut out = text(number, base, number_size, true);
    let all = whose.into_iter().chain(part).map(|l| (l, true)).chain(below.map(|l| (l, false)));
    for (i, (line, bold)) in all.take(lines).enumerate() {
        out += &text(&line, base + step * (i + 1) as f64, letter, bold);
    }
    out
}

fn text(line: &str, y: f64, size: f64, bold: bool) -> String {
    let weight = if bold { " font-weight=\"bold\"" } else { "" };
    format!("<text y=\"{}\" font-size=\"{}\"{weight}>{}</text>", mm(y), mm(size), escaped(line))
}

/// Words in as many lines as they need, at most `most`; what does not fit ends in "…".
fn wrap(words: &str, room: f64, bold: bool, most: usize) -> Vec<String> {
    let all = words.split_whitespace().collect::<Vec<_>>().join(" ");
    let (mut rest, mut lines) = (all.as_str(), Vec::new());
    while !rest.is_empty() && lines.len() < most {
        let fits = fitting(rest, room, bold);
        if fits == rest.len() {
            lines.push(rest.to_owned());
            break;
        }
        if lines.len() + 1 == most {
            let cut = fitting(rest, room - width("…", bold), bold);
            lines.push(format!("{}…", rest[..cut].trim_end()));
            break;
        }
        let at_blank = if rest[fits..].starts_with(' ') { Some(fits) } else { rest[..fits].rfind(' ') };
        // A line holds one character at least, else this would never end.
        let first = rest.chars().next().map_or(0, char::len_utf8);
        let (line, later) = rest.split_at(at_blank.filter(|i| *i > 0).unwrap_or(fits).max(first));
        lines.push(line.to_owned());
        rest = later.trim_start();
    }
    lines
}

/// How many bytes of the text fit.
fn fitting(text: &str, room: f64, bold: bool) -> usize {
    let mut left = room;
    let past = text.char_indices().find(|(_, c)| {
        left -= letter_width(*c, bold);
        left < 0.0
    });
    past.map_or(text.len(), |(i, _)| i)
}

fn width(text: &str, bold: bool) -> f64 {
    text.chars().map(|c| letter_width(c, bold)).sum()
}

/// How wide a letter is, in font sizes: as in the widest of the common sans-serif fonts, measured by eye. The window
/// round the words holds what a still wider font does.
fn letter_width(c: char, bold: bool) -> f64 {
    let as_bold = match c {
        'i' | 'l' | 'j' | 't' | 'f' | 'r' | 'I' | ' ' | '.' | ',' | ':' | ';' | '\'' | '|' | '!' | '(' | ')'
        | '/' | '-' => 0.5,
        'm' | 'w' | 'M' | 'W' | '@' | '%' | '…' => 1.1,
        'A'..='Z' | '&' | '#' | '+' | '<' | '=' | '>' | '~' | '^' | '×' => 0.9,
        '\0'..='\u{7f}' => 0.72,
        '\u{80}'..='\u{24f}' => 0.9,
        '\u{250}'..='\u{10ff}' => 1.1,
        _ => 1.4,
    };
    if bold { as_bold } else { as_bold * 0.9 }
}

/// Words that markup cannot take for its own. `=` and `:` too: the start-up script's filter looks for event handlers and
/// script addresses in what goes into the page, and would stop at words that look like one.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' | '<' | '>' | '"' | '\'' | '=' | ':' => out += &format!("&#{};", c as u32),
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => {}
            c => out.push(c),
        }
    }
    out
}

/// Millimetres to a ten-thousandth, without idle zeros.
fn mm(x: f64) -> f64 {
    (x * 10_000.0).round() / 10_000.0
}
