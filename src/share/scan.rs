//! Reads a code from a picture.
//!
//! May use: the `rqrr` crate. Must not: know where the picture comes from. Only the part `scan` carries this.

use rqrr::PreparedImage;

use super::bag_of;

/// Nothing smaller holds a code: the smallest has 21 modules a side.
const LEAST_SIDE: usize = 21;
/// Larger pictures are not looked at: 64 megapixels.
const MOST_PIXELS: usize = 64 << 20;

/// What a code in a grey picture says, row by row from the top; the code of a bag before any other. None when there is no
/// code, or when the bytes are not `width` × `height`.
///
/// Looks twice: as it is, then smoothed, as the grain of a dim shed hides modules from the first look.
pub fn read_grey(width: usize, height: usize, grey: &[u8]) -> Option<String> {
    let pixels = width.checked_mul(height)?;
    if width < LEAST_SIDE || height < LEAST_SIDE || pixels > MOST_PIXELS || pixels != grey.len() {
        return None;
    }
    look(width, height, grey).or_else(|| look(width, height, &smooth(width, grey)))
}

fn look(width: usize, height: usize, grey: &[u8]) -> Option<String> {
    let mut picture = PreparedImage::prepare_from_greyscale(width, height, |x, y| grey[y * width + x]);
    let found: Vec<String> = picture.detect_grids().iter().filter_map(|g| Some(g.decode().ok()?.1)).collect();
    found.iter().find(|t| bag_of(t).is_some()).or(found.first()).cloned()
}

/// Each pixel the mean of the nine round it; those at the edge stay.
fn smooth(width: usize, grey: &[u8]) -> Vec<u8> {
    let mut out = grey.to_vec();
    let rows: Vec<&[u8]> = grey.chunks(width).collect();
    for (y, three) in rows.windows(3).enumerate() {
        for x in 1..width - 1 {
            let sum: u32 = three.iter().flat_map(|row| &row[x - 1..=x + 1]).map(|p| u32::from(*p)).sum();
            out[(y + 1) * width + x] = (sum / 9) as u8;
        }
    }
    out
}

/// The same from four bytes a pixel, as a canvas gives them.
///
/// ```
/// assert_eq!(coatwalk::share::scan::read_rgba(64, 64, &[255; 64 * 64 * 4]), None);
/// ```
pub fn read_rgba(width: usize, height: usize, rgba: &[u8]) -> Option<String> {
    let (pixels, rest) = rgba.as_chunks::<4>();
    let grey: Vec<u8> = pixels.iter().map(|[r, g, b, _]| luma(*r, *g, *b)).collect();
    rest.is_empty().then(|| read_grey(width, height, &grey)).flatten()
}

/// Weights of ITU-R BT.601, in 256ths.
fn luma(r: u8, g: u8, b: u8) -> u8 {
    ((77 * u32::from(r) + 150 * u32::from(g) + 29 * u32::from(b)) >> 8) as u8
}
