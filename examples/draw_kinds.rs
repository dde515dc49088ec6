//! Writes the side view and the top view of every kind of machine to SVG files, to be looked at: `draw_kinds FOLDER`.

use coatwalk::job::kinds::{KINDS, Kind, Shape, View, bounds};
use std::{env, fs, io, path::Path};

fn main() -> io::Result<()> {
    let folder = env::args().nth(1).ok_or_else(|| io::Error::other("name the folder to write to"))?;
    fs::create_dir_all(&folder)?;
    for kind in KINDS {
        for (view, word) in [(View::Side, "side"), (View::Top, "top")] {
            let file = Path::new(&folder).join(format!("{}-{word}.svg", kind.id));
            fs::write(&file, svg(kind, view))?;
            println!("{}", file.display());
        }
    }
    Ok(())
}

fn svg(kind: &Kind, view: View) -> String {
    let d = kind.drawing();
    let mut out = format!(
        r##"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {w} {h}" stroke="#221d18" stroke-width="2.5" stroke-linecap="square" font-family="sans-serif" font-size="10"><rect width="{w}" height="{h}" fill="#f4ecdc" stroke="none"/>"##,
        w = d.width,
        h = d.height
    );
    for (area, shapes) in kind.painted(view) {
        for s in shapes {
            out += &shape(s, if area.id.contains("axle") { "#8b8375" } else { "#d9c9a3" });
        }
    }
    for s in d.detail_in(view) {
        out += &shape(s, if matches!(s, Shape::Circle { .. }) { "#d9c9a3" } else { "#f4ecdc" });
    }
    if view == View::Side {
        out += &format!(r#"<path d="M0 {g}H{w}" fill="none"/>"#, g = d.ground, w = d.width);
    }
    for (area, shapes) in kind.painted(view) {
        let (left, top, right, _) = bounds(shapes);
        if top < d.ground {
            continue;
        }
        // Two lines at most, split at the blank nearest the middle.
        let half = area.name.len() / 2;
        let cut = area.name.match_indices(' ').map(|(i, _)| i).min_by_key(|i| i.abs_diff(half));
        let lines = cut.map_or(vec![area.name], |i| vec![&area.name[..i], &area.name[i + 1..]]);
        for (n, line) in lines.iter().enumerate() {
            let (x, y) = ((left + right) / 2.0, top + 15.0 + 13.0 * n as f32);
            let line = line.replace('&', "&amp;");
            out += &format!(
                r##"<text x="{x}" y="{y}" text-anchor="middle" stroke="none" fill="#221d18">{line}</text>"##
            );
        }
    }
    out + "</svg>\n"
}

fn shape(s: &Shape, fill: &str) -> String {
    let points = |p: &[(f32, f32)]| p.iter().map(|(x, y)| format!("{x},{y}")).collect::<Vec<_>>().join(" ");
    match *s {
        Shape::Rect { x, y, w, h, r } => {
            format!(r#"<rect x="{x}" y="{y}" width="{w}" height="{h}" rx="{r}" fill="{fill}"/>"#)
        }
        Shape::Circle { cx, cy, r } => format!(r#"<circle cx="{cx}" cy="{cy}" r="{r}" fill="{fill}"/>"#),
        Shape::Poly(p) => format!(r#"<polygon points="{}" fill="{fill}"/>"#, points(p)),
        Shape::Line(p) => format!(r#"<polyline points="{}" fill="none"/>"#, points(p)),
    }
}
