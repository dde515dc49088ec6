//! Labels on paper and back: printed by the browser, measured, read with two readers; scanned from a photo and by a camera.

use std::path::{Path, PathBuf};
use std::process::Command;

use coatwalk::job::log::Log;
use coatwalk::share::label::{Label, pages};
use coatwalk::share::sheet::SHEETS;
use coatwalk::share::{bag_address, scan};
use roxmltree::Document;
use serde_json::json;
use uuid::Uuid;

use crate::harness::*;
use crate::raster::{self, Grey, code, rect, view_width, windows};

in_every_engine!(a_photo_of_a_label_opens_its_bag);

mod chromium_alone {
    use crate::harness::{Engine, run};

    #[test]
    fn labels_lie_on_paper_where_the_sheet_says() {
        run(Engine::Chromium, "labels_lie_on_paper", super::labels_lie_on_paper);
    }

    #[test]
    fn chromium_rounds_pages_by_our_rule() {
        run(Engine::Chromium, "chromium_rounds_pages", super::chromium_rounds_pages_by_our_rule);
    }

    #[test]
    fn the_camera_finds_a_label() {
        run(Engine::Chromium, "the_camera_finds_a_label", super::the_camera_finds_a_label);
    }
}

/// Opens the invented example and gives back its log.
async fn example(phone: &Phone, host: &Host) -> Log {
    phone.open(&host.url).await;
    phone.wait_ready_offline().await;
    phone.click("ready-offline-ok").await;
    phone.click("look-round").await;
    phone.wait_for("go").await;
    let lines = phone.stored("entries").await;
    let log = Log::from_lines(lines.as_array().unwrap().iter().map(|l| l.as_str().unwrap().to_owned()));
    assert!(log.job().bags.len() >= 3, "the example has {} bags", log.job().bags.len());
    log
}

/// What the second reader finds; it shares no code with the app's.
fn read_otherwise(picture: &Grey) -> Vec<String> {
    use zedbar::{DecoderConfig, Image, Scanner, config::QrCode};
    let mut image = Image::from_gray(&picture.px, picture.w as u32, picture.h as u32).unwrap();
    let mut scanner = Scanner::with_config(DecoderConfig::new().enable(QrCode));
    scanner.scan(&mut image).into_iter().filter_map(|s| s.data_string().map(str::to_owned)).collect()
}

// ---- On paper ------------------------------------------------------------------------------------------------------

/// Dots an inch of the picture that is made of the PDF, for what is read from it.
const DPI: f64 = 300.0;
/// Dots an inch of the pictures that are measured: a dot is 0.021 mm.
const FINE_DPI: f64 = 1200.0;
/// How far an edge may lie from where the sheet says, mm.
const OFF_MM: f64 = 0.05;
/// How far ink may stand over a label's edge, mm: a dot of the coarse picture, and what an edge may be off.
const OVER_MM: f64 = 25.4 / DPI + OFF_MM;
/// pdfinfo writes a page's size in points with six figures: half of the last one, and as much for the PDF's own rounding, mm.
const WRITTEN_MM: f64 = 0.01 * 25.4 / 72.0;

/// A side of a page as Chromium gives it out, mm: in whole points first, of those in whole 300ths of an inch. Measured with
/// Chromium 156 on the sizes of `chromium_rounds_pages_by_our_rule`, which measures them again with each Chromium.
fn page_side(mm: f64) -> f64 {
    let points = (mm / 25.4 * 72.0).round();
    (points / 72.0 * 300.0).round() / 300.0 * 25.4
}

async fn chromium_rounds_pages_by_our_rule(engine: Engine) {
    let folder = Folder::new("pages");
    let host = Host::start(Serve::default());
    let phone = Phone::start(engine, &folder.path().join("profile")).await;
    phone.open(&host.url).await;
    let sides = [(210.0, 297.0), (215.9, 279.4), (100.0, 101.0), (148.0, 105.0), (80.0, 120.05), (200.3, 199.7)];
    for (i, (w, h)) in sides.into_iter().enumerate() {
        // The page's policy refuses inline styles, not sheets made by script.
        let page = "const s = new CSSStyleSheet(); s.replaceSync(`@page { size: ${arguments[0]}mm ${arguments[1]}mm; margin: 0 }`);
            document.adoptedStyleSheets = [s];";
        phone.script(page, vec![json!(w), json!(h)]).await;
        let (_, sheets) = print(&phone, folder.path(), &format!("side-{i}")).await;
        let (is_w, is_h) = sheets[0].0;
        assert!(
            (is_w - page_side(w)).abs() < WRITTEN_MM && (is_h - page_side(h)).abs() < WRITTEN_MM,
            "{w} × {h} came out {is_w} × {is_h}"
        );
    }
}

async fn labels_lie_on_paper(engine: Engine) {
    let folder = Folder::new("labels");
    let host = Host::start(Serve::default());
    let phone = Phone::start(engine, &folder.path().join("profile")).await;
    let log = example(&phone, &host).await;
    let labels: Vec<Label> = log.job().bags.iter().map(|b| Label::of(log.job(), b, &host.url)).collect();
    phone.go("#/labels").await;
    phone.click(r#"[data-choice="All"]"#).await;
    for (i, named) in SHEETS.iter().enumerate() {
        let sheet = named.sheet;
        // Two labels are left on the first sheet: the rest goes onto a second one.
        let used = sheet.count() - 2;
        phone.click(&format!(r#"[data-sheet="{i}"]"#)).await;
        phone.click(&format!(r#"[data-cell="{used}"]"#)).await;
        let n = labels.len();
        let sheets = 1 + (n - 2).div_ceil(sheet.count());
        phone.see(&format!("{n} labels on {sheets} sheets")).await;
        let drawn = pages(&sheet, &labels, used).unwrap();
        let (file, sheets) = print(&phone, folder.path(), named.name).await;
        assert_eq!(sheets.len(), drawn.len(), "{}: sheets", named.name);
        let (mut slot, mut next) = (used, labels.iter());
        for (n, (page, ((w, h), picture))) in drawn.iter().zip(&sheets).enumerate() {
            let paper = sheet.paper.size_mm();
            assert!(
                (w - page_side(paper.0)).abs() < WRITTEN_MM && (h - page_side(paper.1)).abs() < WRITTEN_MM,
                "{}: paper is {w} × {h}",
                named.name
            );
            let doc = Document::parse(&page.svg).unwrap();
            let mut places = vec![];
            for label in windows(doc.root_element()) {
                let at = sheet.place(slot % sheet.count());
                let address = &next.next().unwrap().address;
                measure(named.name, label, at, |x, y, side| closely(&file, n + 1, x, y, side));
                let cut = picture.cut(dots(at.x), dots(at.y), dots(at.w), dots(at.h));
                assert_eq!(scan::read_grey(cut.w, cut.h, &cut.px).as_ref(), Some(address), "{} {slot}", named.name);
                assert_eq!(read_otherwise(&cut), [address.as_str()], "{} {slot}", named.name);
                places.push(at);
                slot += 1;
            }
            // Nothing but the labels is on the paper.
            let inside = |x: f64, y: f64| {
                places.iter().any(|p| {
                    x > p.x - OVER_MM && x < p.x + p.w + OVER_MM && y > p.y - OVER_MM && y < p.y + p.h + OVER_MM
                })
            };
            let stray =
                (0..picture.px.len()).find(|i| picture.px[*i] < 200 && !inside(mm(i % picture.w), mm(i / picture.w)));
            assert_eq!(stray.map(|i| (mm(i % picture.w), mm(i / picture.w))), None, "{}: ink beside", named.name);
        }
        assert!(next.next().is_none(), "{}: a label is missing", named.name);
    }
    // Marked as printed, they are not offered as new any more.
    phone.script("window.print = () => {};", vec![]).await;
    phone.click("labels-print").await;
    phone.click("labels-printed").await;
    phone.click(r#"[data-choice="Not printed yet"]"#).await;
    phone.see("0 labels on 0 sheets").await;
}

fn dots(mm: f64) -> usize {
    (mm * DPI / 25.4).round() as usize
}

fn mm(dots: usize) -> f64 {
    (dots as f64 + 0.5) * 25.4 / DPI
}

/// The code of a label lies where the sheet puts the label and the label its code.
fn measure(
    name: &str,
    label: roxmltree::Node,
    at: coatwalk::share::sheet::Place,
    closely: impl Fn(usize, usize, usize) -> Grey,
) {
    let (window, runs) = code(label);
    let (inner, view) = (rect(window), view_width(window));
    let module = inner.w / view;
    let (left, top) = (at.x + inner.x, at.y + inner.y);
    let ends = |low: f64, high: f64, all: &mut dyn Iterator<Item = (f64, f64)>| {
        all.fold((high, low), |e, (a, b)| (e.0.min(a), e.1.max(b)))
    };
    let across = ends(0.0, view, &mut runs.iter().map(|r| (r.x, r.x + r.w)));
    let down = ends(0.0, view, &mut runs.iter().map(|r| (r.y, r.y + 1.0)));
    let should = [left + across.0 * module, left + across.1 * module, top + down.0 * module, top + down.1 * module];
    let fine = |mm: f64| (mm * FINE_DPI / 25.4).round() as usize;
    let (x0, y0, side) = (fine(left), fine(top), fine(inner.w));
    let picture = closely(x0, y0, side);
    let dark = |x: usize, y: usize| picture.px[y * picture.w + x] < 128;
    let column = |x: &usize| (0..side).any(|y| dark(*x, y));
    let row = |y: &usize| (0..side).any(|x| dark(x, *y));
    let edge = |from: usize, found: Option<usize>, end: f64| {
        ((from + found.unwrap_or_else(|| panic!("{name}: no code"))) as f64 + end) * 25.4 / FINE_DPI
    };
    let is = [
        edge(x0, (0..side).find(column), 0.0),
        edge(x0, (0..side).rev().find(column), 1.0),
        edge(y0, (0..side).find(row), 0.0),
        edge(y0, (0..side).rev().find(row), 1.0),
    ];
    for (is, should) in is.into_iter().zip(should) {
        assert!((is - should).abs() <= OFF_MM, "{name}: an edge of the code is at {is:.2} mm, not {should:.2} mm");
    }
}

/// A square of a page, in fine dots from its upper left corner.
fn closely(file: &Path, page: usize, x: usize, y: usize, side: usize) -> Grey {
    let [page, x, y, side] = [page, x, y, side].map(|n| n.to_string());
    let fine = FINE_DPI.to_string();
    let wish = ["-gray", "-r", &fine, "-f", &page, "-l", &page, "-x", &x, "-y", &y, "-W", &side, "-H", &side];
    let picture = pgm(&said(Command::new("pdftoppm").args(wish).arg(file)));
    assert_eq!((picture.w.to_string(), picture.h.to_string()), (side.clone(), side), "the square leaves the page");
    picture
}

/// Prints what is on the screen: the PDF, and each sheet's size in mm and its picture.
async fn print(phone: &Phone, folder: &Path, name: &str) -> (PathBuf, Vec<((f64, f64), Grey)>) {
    let wish = json!({ "preferCSSPageSize": true, "printBackground": true, "displayHeaderFooter": false });
    let pdf = phone.session().cdp().send_raw("Page.printToPDF", wish).await.unwrap();
    let base: PathBuf = folder.join(name.replace(|c: char| !c.is_ascii_alphanumeric(), "-"));
    let (text, file) = (base.with_extension("b64"), base.with_extension("pdf"));
    std::fs::write(&text, pdf["data"].as_str().unwrap()).unwrap();
    std::fs::write(&file, said(Command::new("base64").arg("-d").arg(&text))).unwrap();
    let info = String::from_utf8(said(Command::new("pdfinfo").args(["-f", "1", "-l", "99"]).arg(&file))).unwrap();
    let sizes = info.lines().filter(|l| l.starts_with("Page ") && l.contains("size:")).map(|l| {
        let points: Vec<f64> = l.split_whitespace().filter_map(|w| w.parse().ok()).collect();
        // The number of the page stands first.
        (points[1] * 25.4 / 72.0, points[2] * 25.4 / 72.0)
    });
    said(Command::new("pdftoppm").args(["-gray", "-r", &DPI.to_string()]).arg(&file).arg(&base));
    let mut pictures: Vec<PathBuf> = std::fs::read_dir(folder)
        .unwrap()
        .map(|e| e.unwrap().path())
        .filter(|p| {
            p.extension().is_some_and(|e| e == "pgm") && p.to_str().unwrap().starts_with(base.to_str().unwrap())
        })
        .collect();
    pictures.sort();
    if let Ok(keep) = std::env::var("KEEP_SHEETS") {
        std::fs::copy(&file, Path::new(&keep).join(file.file_name().unwrap())).unwrap();
    }
    let all: Vec<_> = sizes.zip(pictures.iter().map(|p| pgm(&std::fs::read(p).unwrap()))).collect();
    assert_eq!(all.len(), pictures.len());
    (file, all)
}

/// What a command says; poppler-utils and coreutils are among the packages of `tools/setup.sh`.
fn said(command: &mut Command) -> Vec<u8> {
    let out = command.output().unwrap_or_else(|e| panic!("{command:?}: {e}; run tools/setup.sh"));
    assert!(out.status.success(), "{command:?}: {}", String::from_utf8_lossy(&out.stderr));
    out.stdout
}

/// A grey picture as pdftoppm writes it: "P5", width, height, 255, then the bytes.
fn pgm(bytes: &[u8]) -> Grey {
    let mut words = bytes.splitn(4, |b| b.is_ascii_whitespace());
    assert_eq!(words.next(), Some(&b"P5"[..]));
    let mut number = || std::str::from_utf8(words.next().unwrap()).unwrap().parse::<usize>().unwrap();
    let (w, h) = (number(), number());
    Grey { w, h, px: bytes[bytes.len() - w * h..].to_vec() }
}

// ---- Back into the app ---------------------------------------------------------------------------------------------

/// A label as a camera sees it: its code on white.
fn seen(address: &str) -> Grey {
    let label = Label {
        number: "1".into(),
        part: "Lamp".into(),
        area: "Front".into(),
        fasteners: "2 × M6".into(),
        put: String::new(),
        address: address.to_owned(),
    };
    let sheet = SHEETS[1].sheet;
    let page = raster::print(&pages(&sheet, &[label], 0).unwrap()[0].svg, 6.0 * 25.4);
    let (at, px) = (sheet.place(0), |mm: f64| (mm * 6.0) as usize);
    page.cut(px(at.x), px(at.y), px(at.w), px(at.h))
}

/// Any text as a code.
fn code_of(text: &str) -> Grey {
    let code = qrcode::QrCode::new(text).unwrap();
    let (dot, quiet) = (6, 4);
    let side = (code.width() + 2 * quiet) * dot;
    let mut px = vec![255; side * side];
    let dark = code.to_colors();
    for y in 0..code.width() * dot {
        for x in 0..code.width() * dot {
            px[(y + quiet * dot) * side + x + quiet * dot] = dark[y / dot * code.width() + x / dot].select(0, 255);
        }
    }
    Grey { w: side, h: side, px }
}

/// As a Windows bitmap of 24 bits, which every browser reads and nobody needs a library to write.
fn bmp(picture: &Grey, file: &Path) {
    let row = (picture.w * 3).div_ceil(4) * 4;
    let size = 54 + row * picture.h;
    let mut out = b"BM".to_vec();
    for n in [size as u32, 0, 54, 40, picture.w as u32, picture.h as u32, 1 | 24 << 16, 0, 0, 2835, 2835, 0, 0] {
        out.extend(n.to_le_bytes());
    }
    for line in picture.px.chunks(picture.w).rev() {
        let mut bytes: Vec<u8> = line.iter().flat_map(|p| [*p; 3]).collect();
        bytes.resize(row, 0);
        out.extend(bytes);
    }
    std::fs::write(file, out).unwrap();
}

async fn a_photo_of_a_label_opens_its_bag(engine: Engine) {
    let folder = Folder::new("scan");
    std::fs::create_dir(folder.path().join("profile")).unwrap();
    let host = Host::start(Serve::default());
    let phone = Phone::start(engine, &folder.path().join("profile")).await;
    let log = example(&phone, &host).await;
    let bag = log.job().bags[1].clone();
    let photo = folder.path().join("photo.bmp");
    phone.go("#/bags").await;
    phone.click("scan").await;
    // No camera here, in none of the engines: it says so, and the other way is open.
    phone.see("below").await;
    let nothing = Grey { w: 200, h: 200, px: vec![255; 200 * 200] };
    for (picture, answer) in [
        (nothing, "No code was found"),
        (code_of("see you at eight"), "not one of our labels. It says: see you at eight"),
        (seen(&bag_address(&host.url, Uuid::from_u128(7))), "in no job on this phone"),
    ] {
        bmp(&picture, &photo);
        phone.upload("scan-file", &photo).await;
        phone.see(answer).await;
    }
    std::fs::write(&photo, "no picture").unwrap();
    phone.upload("scan-file", &photo).await;
    phone.see("not a picture this phone can read").await;
    // Its host does not count: labels outlive a move of the app.
    bmp(&seen(&bag_address("https://elsewhere.invalid/", bag.id)), &photo);
    phone.upload("scan-file", &photo).await;
    phone.wait_for("bag-facts").await;
    assert!(phone.text("bag-number").await.contains(&bag.number.to_string()));
    assert_eq!(phone.text("#screen h1").await, bag.part);

    // Another job is open: it says whose bag it is, and opens that job.
    phone.go("#/jobs/new").await;
    phone.click("kind-trailer").await;
    phone.fill("job-name", "Grey trailer").await;
    phone.click("open-job").await;
    phone.wait_for("go").await;
    phone.go("#/scan").await;
    phone.see("below").await;
    phone.upload("scan-file", &photo).await;
    phone.see("This bag belongs to another job").await;
    phone.see(&log.job().name).await;
    phone.click("scan-open-job").await;
    phone.wait_for("bag-facts").await;
    assert_eq!(phone.text("#screen h1").await, bag.part);
}

/// A film of one picture in the middle of a grey field, as YUV4MPEG2 (its format from memory), for Chromium's camera.
fn film(picture: Option<&Grey>, file: &Path) {
    const W: usize = 640;
    const H: usize = 480;
    let mut luma = vec![128u8; W * H];
    if let Some(p) = picture {
        let (left, top) = ((W - p.w) / 2, (H - p.h) / 2);
        for (y, line) in p.px.chunks(p.w).enumerate() {
            luma[(top + y) * W + left..][..p.w].copy_from_slice(line);
        }
    }
    let mut out = format!("YUV4MPEG2 W{W} H{H} F20:1 Ip A0:0 C420jpeg\n").into_bytes();
    for _ in 0..4 {
        out.extend(b"FRAME\n");
        out.extend(&luma);
        out.extend(vec![128; W * H / 2]);
    }
    std::fs::write(file, out).unwrap();
}

async fn the_camera_finds_a_label(engine: Engine) {
    let folder = Folder::new("camera");
    let host = Host::start(Serve::default());
    let y4m = folder.path().join("film.y4m");
    film(None, &y4m);
    let more = [
        "--use-fake-device-for-media-stream".to_owned(),
        "--use-fake-ui-for-media-stream".to_owned(),
        format!("--use-file-for-fake-video-capture={}", y4m.display()),
    ];
    let phone = Phone::start_with(engine, &folder.path().join("profile"), more.to_vec()).await;
    let log = example(&phone, &host).await;
    let bag = log.job().bags[2].clone();

    // Nothing in view: it goes on looking. Left, the camera stops.
    phone.go("#/scan").await;
    phone.see("Hold the label").await;
    let track = "window.track = document.querySelector('video').srcObject.getTracks()[0]; return track.readyState;";
    assert_eq!(phone.script(track, vec![]).await, json!("live"));
    phone.go("#/bags").await;
    phone
        .until("the camera stops", || async {
            phone.script("return window.track.readyState;", vec![]).await == json!("ended")
        })
        .await;

    film(Some(&seen(&bag_address(&host.url, bag.id))), &y4m);
    phone.go("#/scan").await;
    phone.wait_for("bag-facts").await;
    assert_eq!(phone.text("#screen h1").await, bag.part);
    assert!(!phone.has("#stopped").await);

    // And another's code is told, with the camera still on.
    film(Some(&code_of("see you at eight")), &y4m);
    phone.go("#/scan").await;
    phone.see("not one of our labels").await;
    phone.go("#/bags").await;
}
