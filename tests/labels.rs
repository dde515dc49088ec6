//! Labels: where they sit on the paper, what stands on them, and whether their codes can be read back.
#![cfg(not(target_arch = "wasm32"))]

mod raster;

use coatwalk::share::label::{Label, PageSvg, pages};
use coatwalk::share::sheet::{Paper, Place, SHEETS, Sheet};
use coatwalk::share::{bag_address, bag_of, scan};
use raster::{Rect, code, number, print, rect, view_width, windows};
use roxmltree::Document;
use uuid::Uuid;

const APP: &str = "https://coatwalk.example.invalid/app/";

fn bag(n: u32) -> Uuid {
    Uuid::from_u128(0x0199_a000_0000_7000_8000_0000_0000_0000 + u128::from(n) * 0x1_0003_0007)
}

fn label(n: u32) -> Label {
    Label {
        number: n.to_string(),
        part: "Side panel, left".into(),
        area: "Hood and engine bay".into(),
        fasteners: "4 × M10 × 30 mm, 2 × clip".into(),
        put: "Shelf 2, blue box".into(),
        address: bag_address(APP, bag(n)),
    }
}

fn labels(count: usize) -> Vec<Label> {
    (1..=count as u32).map(label).collect()
}

fn one(sheet: &Sheet, label: Label) -> PageSvg {
    let mut pages = pages(sheet, &[label], 0).unwrap();
    assert_eq!(pages.len(), 1);
    pages.remove(0)
}

fn lines(page: &PageSvg) -> Vec<String> {
    let doc = Document::parse(&page.svg).unwrap();
    let texts = doc.descendants().filter(|n| n.tag_name().name() == "text");
    texts.map(|n| n.text().unwrap_or_default().to_owned()).collect()
}

#[test]
fn every_label_lies_on_the_paper_and_on_no_other() {
    for named in SHEETS {
        let sheet = named.sheet;
        assert_eq!(sheet.fits(), Ok(()), "{}", named.name);
        let (paper_w, paper_h) = sheet.paper.size_mm();
        let places: Vec<Place> = (0..sheet.count()).map(|i| sheet.place(i)).collect();
        for (i, a) in places.iter().enumerate() {
            assert!(a.x >= 0.0 && a.y >= 0.0 && a.x + a.w <= paper_w + 1e-9 && a.y + a.h <= paper_h + 1e-9, "{a:?}");
            for b in &places[i + 1..] {
                let beside = a.x + a.w <= b.x + 1e-9 || b.x + b.w <= a.x + 1e-9;
                let under = a.y + a.h <= b.y + 1e-9 || b.y + b.h <= a.y + 1e-9;
                assert!(beside || under, "{}: {a:?} and {b:?}", named.name);
            }
        }
        // Equal margins left and right, top and bottom: a slip in one figure of the table would show here.
        let last = places.last().unwrap();
        let (right, bottom) = (paper_w - last.x - last.w, paper_h - last.y - last.h);
        assert!((right - sheet.margin_left_mm).abs() < 0.02, "{}: {right}", named.name);
        assert!((bottom - sheet.margin_top_mm).abs() < 0.02, "{}: {bottom}", named.name);
    }
}

#[test]
fn a_sheets_name_says_what_it_is() {
    for named in SHEETS {
        let s = named.sheet;
        let tenths = |mm: f64| format!("{}", (mm * 10.0).round() / 10.0);
        let is = format!(
            "{} × {} mm, {} on {}{}",
            tenths(s.label_w_mm),
            tenths(s.label_h_mm),
            s.count(),
            s.paper.name(),
            if s.cut_lines { ", to cut" } else { "" }
        );
        assert_eq!(named.name, is);
    }
}

#[test]
fn papers_have_their_size() {
    // ISO 216: A4 is 210 × 297 mm. ANSI/ASME Y14.1: size A is 8.5 × 11 in.
    assert_eq!(Paper::A4.size_mm(), (210.0, 297.0));
    let (w, h) = Paper::Letter.size_mm();
    assert!((w - 8.5 * 25.4).abs() < 1e-9 && (h - 11.0 * 25.4).abs() < 1e-9);
}

#[test]
fn a_page_is_drawn_to_the_millimetre() {
    for named in SHEETS {
        let sheet = named.sheet;
        let all = pages(&sheet, &labels(sheet.count()), 0).unwrap();
        assert_eq!(all.len(), 1, "{}", named.name);
        let doc = Document::parse(&all[0].svg).unwrap();
        let root = doc.root_element();
        let (w, h) = sheet.paper.size_mm();
        assert_eq!(root.attribute("width").unwrap(), format!("{w}mm"));
        assert_eq!(root.attribute("height").unwrap(), format!("{h}mm"));
        assert_eq!(root.attribute("viewBox").unwrap(), format!("0 0 {w} {h}"), "one unit is one millimetre");
        let drawn: Vec<Rect> = windows(root).into_iter().map(rect).collect();
        assert_eq!(drawn.len(), sheet.count());
        for (i, is) in drawn.iter().enumerate() {
            let at = sheet.place(i);
            for (is, should) in [(is.x, at.x), (is.y, at.y), (is.w, at.w), (is.h, at.h)] {
                assert!((is - should).abs() <= 0.0001, "{}, label {i}: {is} for {should}", named.name);
            }
        }
        let cut = doc.descendants().filter(|n| n.tag_name().name() == "rect").count();
        assert_eq!(cut, if sheet.cut_lines { sheet.count() } else { 0 });
    }
}

#[test]
fn a_code_keeps_its_quiet_zone() {
    for named in SHEETS {
        let page = one(&named.sheet, label(7));
        let doc = Document::parse(&page.svg).unwrap();
        let label = windows(doc.root_element())[0];
        let (window, runs) = code(label);
        let (at, view) = (rect(window), view_width(window));
        let module = at.w / view;
        assert_eq!(at.w, at.h);
        // ISO/IEC 18004: four modules free on each side; and a millimetre at least.
        for run in &runs {
            assert!(run.x >= 4.0 && run.y >= 4.0 && run.x + run.w <= view - 4.0 && run.y + 1.0 <= view - 4.0);
        }
        assert!(4.0 * module >= 1.0 && module >= 0.4, "{}: {module} mm a module", named.name);
        // The zone is the label's own, and the words end before it.
        assert!(at.x >= 0.0 && at.x + at.w <= number(label, "width") && at.y >= 0.0);
        let words = windows(label).into_iter().find(|w| *w != window).map(rect).unwrap();
        assert!(words.x >= 1.0 && words.x + words.w <= at.x, "{}", named.name);
    }
}

/// What the second reader finds; it shares no code with the app's.
fn read_otherwise(picture: &raster::Grey) -> Vec<String> {
    use zedbar::{DecoderConfig, Image, Scanner, config::QrCode};
    let mut image = Image::from_gray(&picture.px, picture.w as u32, picture.h as u32).unwrap();
    let mut scanner = Scanner::with_config(DecoderConfig::new().enable(QrCode));
    scanner.scan(&mut image).into_iter().filter_map(|s| s.data_string().map(str::to_owned)).collect()
}

#[test]
fn every_code_reads_back_with_two_readers() {
    const DPI: f64 = 300.0;
    for named in SHEETS {
        let sheet = named.sheet;
        let all = labels(sheet.count());
        let page = print(&pages(&sheet, &all, 0).unwrap()[0].svg, DPI);
        for (i, label) in all.iter().enumerate() {
            let (at, dots) = (sheet.place(i), |mm: f64| (mm * DPI / 25.4) as usize);
            let picture = page.cut(dots(at.x), dots(at.y), dots(at.w), dots(at.h));
            let read = scan::read_grey(picture.w, picture.h, &picture.px);
            assert_eq!(read.as_deref(), Some(label.address.as_str()), "{}, label {i}", named.name);
            assert_eq!(bag_of(&read.unwrap()), Some(bag(label.number.parse().unwrap())));
            assert_eq!(read_otherwise(&picture), [label.address.as_str()], "{}, label {i}", named.name);
        }
    }
}

#[test]
fn an_ordinary_label_has_room_for_all_its_words() {
    for named in SHEETS {
        let lines = lines(&one(&named.sheet, label(12)));
        assert_eq!(lines[0], "12");
        let rest = lines[1..].join(" ");
        for word in ["panel", "Hood", "M10", "Shelf"] {
            assert!(rest.contains(word), "{}: {lines:?}", named.name);
        }
    }
}

#[test]
fn long_words_are_cut_and_stay_in_their_window() {
    let long = [
        "W".repeat(300),
        "m ".repeat(150),
        "panel behind the left rear wheel ".repeat(10),
        "🚜".repeat(300),
        "i".repeat(300),
    ];
    for named in SHEETS {
        for words in &long {
            let page = one(
                &named.sheet,
                Label {
                    number: u32::MAX.to_string(),
                    part: words.clone(),
                    area: words.clone(),
                    fasteners: words.clone(),
                    put: words.clone(),
                    ..label(1)
                },
            );
            let doc = Document::parse(&page.svg).unwrap();
            let texts: Vec<_> = doc.descendants().filter(|n| n.tag_name().name() == "text").collect();
            assert!(texts.len() >= 4, "{}: {}", named.name, texts.len());
            assert!(texts.last().unwrap().text().unwrap().ends_with('…'));
            let mut above = 0.0;
            for text in texts {
                let window = text.parent().unwrap();
                assert_eq!(window.attribute("overflow"), Some("hidden"));
                let (size, y) = (number(text, "font-size"), number(text, "y"));
                assert!(y - above > 0.7 * size && y + 0.2 * size <= number(window, "height"), "{}", named.name);
                above = y;
                // Advance widths of common sans-serif fonts, in font sizes, from memory: W 0.94, m 0.83, a digit 0.56,
                // i 0.22, an average lower-case letter 0.5, an emoji 1.25.
                let letter = |c: char| match c {
                    'W' | '…' => 0.94,
                    'm' => 0.83,
                    '🚜' => 1.25,
                    'i' | ' ' => 0.22,
                    '0'..='9' => 0.56,
                    _ => 0.5,
                };
                let width: f64 = text.text().unwrap().chars().map(letter).sum::<f64>() * size;
                assert!(width <= number(window, "width"), "{}: {:?}", named.name, text.text());
            }
        }
    }
}

#[test]
fn twins_are_told_apart() {
    let page = one(&SHEETS[0].sheet, Label { number: "4b (Anna)".into(), ..label(4) });
    assert_eq!(lines(&page)[..3], ["4b", "(Anna)", "Side panel, left"]);
    let doc = Document::parse(&page.svg).unwrap();
    let size =
        |n: usize| number(doc.descendants().filter(|n| n.tag_name().name() == "text").nth(n).unwrap(), "font-size");
    assert!(size(0) > 2.0 * size(1), "the number is large");
}

#[test]
fn hostile_words_stay_words() {
    let hostile = "<b onclick=\"x()\"> & 'q' onload = 1 javascript:x";
    let wide = Sheet { columns: 1, rows: 1, label_w_mm: 200.0, label_h_mm: 120.0, ..SHEETS[0].sheet };
    let page = one(
        &wide,
        Label {
            part: hostile.into(),
            area: "</text></svg><script>x</script>".into(),
            fasteners: "a\u{0}b\u{7}\u{ffff}c".into(),
            put: "]]> &amp; \n two".into(),
            ..label(1)
        },
    );
    let lines = lines(&page).join(" ");
    for words in [hostile, "</text></svg><script>x</script>", "abc", "]]> &amp; two"] {
        assert!(lines.contains(words), "{lines}");
    }
    // What the page's policy and the start-up script's filter refuse: public/boot.js, index.html.
    let svg = page.svg.to_ascii_lowercase();
    for refused in ["<script", "javascript:", "style", "onclick=", "onload", "<b"] {
        let there = svg.contains(refused);
        assert!(!there || refused == "onload" && !svg.contains("onload ="), "{refused}");
    }
}

#[test]
fn a_sheet_begun_is_used_up_first() {
    let sheet = SHEETS[0].sheet;
    let all = pages(&sheet, &labels(20), 5).unwrap();
    assert_eq!(all.len(), 2);
    let places = |page: &PageSvg| {
        let doc = Document::parse(&page.svg).unwrap();
        windows(doc.root_element()).into_iter().map(rect).map(|r| (r.x, r.y)).collect::<Vec<_>>()
    };
    let (first, second) = (places(&all[0]), places(&all[1]));
    assert_eq!((first.len(), second.len()), (16, 4));
    let at = |is: (f64, f64), slot: usize| {
        let should = sheet.place(slot);
        assert!((is.0 - should.x).abs() < 1e-4 && (is.1 - should.y).abs() < 1e-4, "{is:?} for {should:?}");
    };
    at(first[0], 5);
    at(second[0], 0);
    // All gone is a new sheet.
    at(places(&pages(&sheet, &labels(1), sheet.count()).unwrap()[0])[0], 0);
    assert_eq!(pages(&sheet, &[], 3).unwrap(), []);
}

#[test]
fn what_cannot_be_printed_says_why() {
    let sheet = SHEETS[0].sheet;
    let no = |sheet: Sheet, label: Label| pages(&sheet, &[label], 0).unwrap_err();
    let small = Sheet { label_w_mm: 30.0, label_h_mm: 15.0, ..sheet };
    assert_eq!(no(small, label(1)), "The label is too small for its code. Take one of 40 × 19 mm or more.");
    assert!(pages(&Sheet { label_w_mm: 40.0, label_h_mm: 19.0, ..sheet }, &[label(1)], 0).is_ok());
    let endless = Label { address: format!("https://a.invalid/{}", "x".repeat(3000)), ..label(1) };
    assert_eq!(no(sheet, endless), "The address of bag 1 is too long for a code.");
    assert_eq!(
        no(Sheet { rows: 8, ..sheet }, label(1)),
        "The grid is 319.95 mm high with its top margin. A4 is 297 mm high."
    );
    for broken in [
        Sheet { columns: 0, ..sheet },
        Sheet { rows: u32::MAX, columns: u32::MAX, ..sheet },
        Sheet { label_w_mm: f64::NAN, ..sheet },
        Sheet { label_h_mm: 0.0, ..sheet },
        Sheet { gap_x_mm: -1.0, ..sheet },
        Sheet { margin_top_mm: f64::INFINITY, ..sheet },
        Sheet { label_w_mm: f64::MAX, ..sheet },
    ] {
        assert!(pages(&broken, &[label(1)], 0).is_err(), "{broken:?}");
    }
}

#[test]
fn an_address_names_its_bag_and_nothing_else_does() {
    let b = bag(3);
    for page in [
        "https://a.invalid/",
        "https://a.invalid/coat/index.html",
        "http://localhost:8080/#/record",
        "https://a.invalid/#",
    ] {
        let address = bag_address(page, b);
        assert_eq!(bag_of(&address), Some(b), "{address}");
        assert_eq!(address.matches('#').count(), 1);
    }
    let id = b.to_string();
    for other in [
        String::new(),
        id.clone(),
        format!("#/bags/{id}"),
        format!("https://#/bags/{id}"),
        format!("see https://a.invalid/#/bags/{id}"),
        format!("https://a.invalid/ #/bags/{id}"),
        format!("https://a.invalid/#/bags/{id} "),
        format!("https://a.invalid/#/bags/{id}/more"),
        format!("https://a.invalid/#/bags/#/bags/{id}"),
        format!("https://a.invalid/#/machine/{id}"),
        format!("https://a.invalid/#/bags/{}", b.simple()),
        format!("https://a.invalid/#/bags/{}", b.urn()),
        "https://a.invalid/#/bags/".into(),
        "https://a.invalid/#/bags/new".into(),
        format!("javascript://a.invalid/#/bags/{id}"),
    ] {
        assert_eq!(bag_of(&other), None, "{other}");
    }
}
