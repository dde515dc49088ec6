//! The app's reader of codes on pictures as a phone takes them: turned, leaning, blurred, dim, grainy.
#![cfg(not(target_arch = "wasm32"))]

mod raster;

use coatwalk::share::label::{Label, pages};
use coatwalk::share::scan::{read_grey, read_rgba};
use coatwalk::share::sheet::SHEETS;
use coatwalk::share::{bag_address, bag_of};
use proptest::prelude::*;
use raster::{Grey, print};
use uuid::Uuid;

const BAG: Uuid = Uuid::from_u128(0x0199_a1b2_c3d4_7e5f_8a6b_7c8d_9eaf_b0c1);

/// A label of 38.1 mm height, at so many dots a mm. Its code has modules of 0.64 mm: 5 dots at 8, 7.6 at 12, where a camera
/// of 1280 × 720 sees the label fill half its picture.
fn picture(dots: f64) -> Grey {
    let label = Label {
        number: "7".into(),
        part: "Side panel".into(),
        area: "Hood".into(),
        fasteners: "4 × M10".into(),
        put: "Shelf 2".into(),
        address: bag_address("https://coatwalk.example.invalid/app/", BAG),
    };
    let page = print(&pages(&SHEETS[0].sheet, &[label], 0).unwrap()[0].svg, dots * 25.4);
    let (at, px) = (SHEETS[0].sheet.place(0), |mm: f64| (mm * dots) as usize);
    page.cut(px(at.x), px(at.y), px(at.w), px(at.h))
}

fn reads(how: &str, p: &Grey) {
    assert_eq!(read_grey(p.w, p.h, &p.px).and_then(|t| bag_of(&t)), Some(BAG), "{how}");
}

#[test]
fn a_label_is_read_however_it_is_held() {
    let p = picture(8.0);
    reads("as printed", &p);
    for degrees in [7.0, 45.0, 90.0, 180.0, 270.0, 353.0] {
        reads(&format!("turned by {degrees} degrees"), &p.turned(degrees));
    }
    reads("leaning", &p.leaning(0.2));
    reads("leaning and turned", &p.leaning(0.15).turned(7.0));
}

#[test]
fn a_label_is_read_in_a_bad_picture() {
    let p = picture(12.0);
    for degrees in [0.0, 7.0, 90.0] {
        let p = p.turned(degrees);
        let how = |what| format!("{what}, turned by {degrees} degrees");
        reads(&how("blurred"), &p.blurred(1));
        reads(&how("dim and grainy"), &p.dim(25));
        reads(&how("blurred, dim and grainy"), &p.blurred(1).dim(25));
    }
    reads("leaning, turned, blurred, dim and grainy", &p.leaning(0.15).turned(7.0).blurred(1).dim(15));
}

#[test]
fn a_picture_can_be_too_bad() {
    // Else the tests above would prove nothing.
    let p = picture(8.0).blurred(5).dim(25);
    assert_eq!(read_grey(p.w, p.h, &p.px), None);
}

#[test]
fn a_bag_comes_before_another_code() {
    let other = qrcode::QrCode::new("https://example.invalid/offer").unwrap();
    let other_w = other.width() * 5;
    let dark = other.to_colors();
    let p = picture(8.0);
    let (w, h) = (other_w + 40 + p.w, p.h.max(other_w + 40));
    let mut px = vec![255; w * h];
    for y in 0..other_w {
        for x in 0..other_w {
            let module = dark[y / 5 * other.width() + x / 5];
            px[(y + 20) * w + x + 20] = module.select(0, 255);
        }
    }
    let only = Grey { w, h, px: px.clone() };
    assert_eq!(read_grey(only.w, only.h, &only.px).unwrap(), "https://example.invalid/offer");
    for y in 0..p.h {
        px[y * w + other_w + 40..][..p.w].copy_from_slice(&p.px[y * p.w..][..p.w]);
    }
    reads("beside another code", &Grey { w, h, px });
}

#[test]
fn noise_says_nothing() {
    for seed in 1..=20 {
        let p = Grey::noise(320, 240, seed);
        assert_eq!(read_grey(p.w, p.h, &p.px), None, "seed {seed}");
    }
    for flat in [0, 127, 255] {
        assert_eq!(read_grey(200, 200, &[flat; 200 * 200]), None);
    }
}

#[test]
fn colours_count_as_grey() {
    let p = picture(8.0);
    // Black on green paper, and yellow on blue.
    let coloured = |dark: [u8; 3], light: [u8; 3]| {
        let pixel = |p: &u8| if *p < 128 { dark } else { light };
        p.px.iter().flat_map(|p| pixel(p).into_iter().chain([255])).collect::<Vec<u8>>()
    };
    let read = |rgba: &[u8]| read_rgba(p.w, p.h, rgba).and_then(|t| bag_of(&t));
    assert_eq!(read(&coloured([0, 0, 0], [90, 200, 90])), Some(BAG));
    assert_eq!(read(&coloured([0, 0, 120], [240, 220, 0])), Some(BAG));
    assert_eq!(read(&coloured([0, 0, 0], [255, 255, 255])[1..]), None);
}

#[test]
fn sizes_that_do_not_fit_say_nothing() {
    let p = picture(8.0);
    for (w, h) in
        [(0, 0), (0, p.h), (p.w, 0), (p.w + 1, p.h), (p.h, p.w + 1), (usize::MAX, usize::MAX), (usize::MAX, 2)]
    {
        assert_eq!(read_grey(w, h, &p.px), None);
        assert_eq!(read_rgba(w, h, &p.px), None);
    }
    assert_eq!(read_grey(0, 0, &[]), None);
    assert_eq!(read_grey(1, 1, &[0]), None);
    assert_eq!(read_rgba(1, 1, &[0, 0, 0]), None);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Any size, any bytes: an answer, never a stop.
    #[test]
    fn any_bytes_are_answered(w in 0usize..90, h in 0usize..90, bytes in proptest::collection::vec(any::<u8>(), 0..9000)) {
        let _ = read_grey(w, h, &bytes);
        let _ = read_rgba(w, h, &bytes);
        let fits = bytes.iter().copied().cycle().take(w * h).collect::<Vec<_>>();
        if fits.len() == w * h {
            let _ = read_grey(w, h, &fits);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    /// A damaged code gives its own address or none, never another, and never a stop.
    #[test]
    fn a_damaged_code_never_lies(
        blots in proptest::collection::vec((0usize..480, 0usize..290, 1usize..60, 1usize..60, any::<u8>()), 0..8),
        degrees in 0.0..360.0f64,
    ) {
        let mut p = picture(8.0);
        for (x, y, w, h, tone) in blots {
            for row in y.min(p.h)..(y + h).min(p.h) {
                let (from, to) = (x.min(p.w), (x + w).min(p.w));
                p.px[row * p.w..][from..to].fill(tone);
            }
        }
        let p = p.turned(degrees);
        if let Some(text) = read_grey(p.w, p.h, &p.px) {
            prop_assert_eq!(bag_of(&text), Some(BAG));
        }
    }
}
