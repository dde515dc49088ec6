use super::*;
use crate::job::guide;
use std::collections::HashSet;

fn areas() -> impl Iterator<Item = (&'static Kind, &'static KindArea)> {
    KINDS.iter().flat_map(|k| k.areas.iter().map(move |a| (k, a)))
}

fn is_kebab(id: &str) -> bool {
    !id.is_empty() && id.split('-').all(|w| !w.is_empty() && w.chars().all(|c| c.is_ascii_lowercase()))
}

#[test]
fn kinds_and_areas_have_ids_of_their_own() {
    assert_eq!(KINDS.len(), 8);
    let ids: HashSet<_> = KINDS.iter().map(|k| k.id).collect();
    assert_eq!(ids.len(), KINDS.len());
    for k in KINDS {
        assert!(is_kebab(k.id), "{}", k.id);
        assert_eq!(kind(k.id), Some(k));
        for unique in [|a: &KindArea| a.id, |a: &KindArea| a.name] {
            let seen: HashSet<_> = k.areas.iter().map(unique).collect();
            assert_eq!(seen.len(), k.areas.len(), "{} names an area twice", k.name);
        }
    }
    for (k, a) in areas() {
        assert!(is_kebab(a.id), "{}: {}", k.id, a.id);
        assert_eq!(k.area(a.id), Some(a));
    }
}

#[test]
fn every_kind_has_its_areas_hazards_and_a_place_for_loose_panels() {
    for k in KINDS {
        assert!((8..=14).contains(&k.areas.len()), "{}: {} areas", k.name, k.areas.len());
        assert_eq!(k.areas.last().map(|a| a.id), Some("loose-panels"), "{}", k.name);
        assert!(!k.hazards.is_empty());
        // Metres, not feet or centimetres: farm machines on their own wheels, longer than wide.
        assert!((3.0..8.0).contains(&k.length_m) && (1.5..2.6).contains(&k.width_m), "{}", k.name);
        assert!((1.2..3.2).contains(&k.height_m) && k.width_m < k.length_m, "{}", k.name);
    }
    for (k, a) in areas() {
        assert!(!a.bare.is_empty(), "{}: {}", k.id, a.id);
        assert!(!a.parts.is_empty() || a.id == "loose-panels", "{}: {}", k.id, a.id);
    }
}

#[test]
fn every_text_fits_a_phone_and_promises_nothing() {
    let mut texts: Vec<(&str, usize)> = vec![(SIZE_NOTE, 60)];
    for k in KINDS {
        texts.push((k.name, 30));
        texts.extend(k.hazards.iter().flat_map(|c| [(c.words, 140), (c.basis.words(), 80)]));
    }
    for (_, a) in areas() {
        texts.push((a.name, 34));
        texts.extend(a.parts.iter().map(|p| (*p, 40)));
        texts.extend(a.bare.iter().map(|b| (*b, 60)));
    }
    for (t, most) in texts {
        let n = t.chars().count();
        assert!(n > 0 && n <= most, "{n} of {most}: {t}");
        assert!(t == t.trim() && !t.contains('!'), "{t}");
        assert!(!guide::tests::promises(t), "{t}");
    }
}

#[test]
fn what_a_machine_carried_is_warned_of() {
    let warns = |id: &str, word: &str| kind(id).unwrap().hazards.iter().any(|c| c.words.contains(word));
    assert!(warns("slurry-tanker", "Never enter a slurry tank") && warns("slurry-tanker", "H₂S"));
    for word in ["Ammonium nitrate", "Quicklime", "Pesticide", "hopper"] {
        assert!(warns("spreader", word), "{word}");
    }
    assert!(warns("farm-tractor", "Pesticide"));
    for id in ["trailer", "pickup-chassis", "compact-wheel-loader", "telehandler", "farm-tractor", "slurry-tanker"] {
        assert!(warns(id, "asbestos"), "{id}");
    }
    for id in ["trailer", "pickup-chassis", "compact-wheel-loader", "telehandler", "skid-steer"] {
        assert!(warns(id, "quicklime"), "{id}");
    }
}

fn outlines() -> impl Iterator<Item = (&'static Kind, &'static Drawn)> {
    KINDS.iter().flat_map(|k| k.drawn().iter().map(move |d| (k, d)))
}

#[test]
fn the_drawn_areas_are_those_of_the_kind() {
    for k in KINDS {
        let ids: Vec<_> = k.drawn().iter().map(|d| d.area.id).collect();
        assert_eq!(ids, k.areas.iter().map(|a| a.id).collect::<Vec<_>>(), "{}", k.id);
    }
}

#[test]
fn shapes_lie_on_the_sheet_and_are_big_enough_to_tap() {
    for (k, a) in outlines() {
        let (left, top, right, bottom) = a.bounds();
        let d = k.drawing();
        assert!(left >= 0.0 && top >= 0.0 && right <= d.width && bottom <= d.height, "{}: {}", k.id, a.area.id);
        assert!(right - left >= 30.0 && bottom - top >= 24.0, "{}: {} is small", k.id, a.area.id);
        assert!(a.is_boxed(d) || bottom <= d.ground, "{}: {} is in the ground", k.id, a.area.id);
        assert!(a.shape.iter().any(|s| !matches!(s, Shape::Line(_))), "{}: {} can't be tapped", k.id, a.area.id);
    }
    for k in KINDS {
        let (left, top, right, bottom) = shape::bounds(k.drawing().detail);
        assert!(left >= 0.0 && top >= 0.0 && right <= k.drawing().width && bottom <= k.drawing().ground, "{}", k.id);
    }
}

#[test]
fn top_views_lie_on_the_sheet_over_the_boxes_and_match_the_side_views() {
    for k in KINDS {
        let d = k.drawing();
        // All that is drawn in place, in either view.
        let whole = |view| {
            let placed = k.painted(view).into_iter().filter(|(_, s)| bounds(s).1 < d.ground);
            let (l, t, r, b) = bounds(&placed.flat_map(|(_, s)| s.to_vec()).collect::<Vec<_>>());
            assert!(l >= 0.0 && t >= 0.0 && r <= d.width && b <= d.ground, "{} {view:?}", k.id);
            (l, t, r, b)
        };
        let (side, top) = (whole(View::Side), whole(View::Top));
        assert!((side.0 - top.0).abs() <= 3.0 && (side.2 - top.2).abs() <= 3.0, "{}: {side:?} {top:?}", k.id);
        // The centre line is in the middle, and the outline is as wide for its length as the machine is.
        assert!((top.1 + top.3 - 2.0 * shape::MIDDLE).abs() <= 2.0, "{}: {top:?}", k.id);
        let (drawn, true_to_size) = (f64::from((top.3 - top.1) / (top.2 - top.0)), k.width_m / k.length_m);
        assert!((drawn / true_to_size - 1.0).abs() <= 0.1, "{}: {drawn:.3} for {true_to_size:.3}", k.id);
        let (l, t, r, b) = bounds(d.top_detail);
        assert!(l >= top.0 && t >= top.1 && r <= top.2 && b <= top.3, "{}", k.id);
    }
    for (k, a) in outlines() {
        // From above an area lies where it lies in the side view, or it has a box there.
        let ((l, _, r, _), (from, _, to, _)) = (a.bounds(), bounds(a.top));
        assert!(a.top.is_empty() || a.is_boxed(k.drawing()) || (from < r && l < to), "{}: {}", k.id, a.area.id);
        assert!(a.top.is_empty() || a.area.id != "loose-panels");
    }
}

/// Sampled every unit: what of an area, or of one of its shapes, is on top, and how much there is of it.
struct Seen {
    on_top: usize,
    all: usize,
    /// Width and height of the box round what is on top.
    size: (i32, i32),
}

fn seen(k: &Kind, view: View, a: &KindArea, of: &[Shape]) -> Seen {
    let painted = k.painted(view);
    let mut found = Seen { on_top: 0, all: 0, size: (0, 0) };
    let (mut l, mut t, mut r, mut b) = (i32::MAX, i32::MAX, 0, 0);
    for y in 0..k.drawing().height as i32 {
        for x in 0..k.drawing().width as i32 {
            let holds = |of: &[Shape]| of.iter().any(|s| s.holds(x as f32 + 0.5, y as f32 + 0.5));
            if holds(of) {
                found.all += 1;
                if painted.iter().rev().find(|(_, s)| holds(s)).is_some_and(|(top, _)| top.id == a.id) {
                    found.on_top += 1;
                    (l, t, r, b) = (l.min(x), t.min(y), r.max(x + 1), b.max(y + 1));
                    found.size = (r - l, b - t);
                }
            }
        }
    }
    found
}

#[test]
fn every_area_shows_a_piece_to_tap_in_one_of_the_views() {
    let mut small = Vec::new();
    for (k, a) in outlines() {
        // One shape at a time: the box round two wheels would be large however small they are.
        let pieces = |v| a.in_view(v, k.drawing()).iter().map(move |s| seen(k, v, &a.area, &[*s]).size);
        if !pieces(View::Side).chain(pieces(View::Top)).any(|(w, h)| w >= 24 && h >= 24) {
            small.push((k.id, a.area.id));
        }
        // A top view is there to show something.
        let shown = seen(k, View::Top, &a.area, a.top).on_top;
        assert!(a.top.is_empty() || shown >= 150, "{}: {} shows {shown} from above", k.id, a.area.id);
    }
    assert!(small.is_empty(), "{small:?}");
}

#[test]
fn a_sign_stands_on_its_own_area() {
    for k in KINDS {
        for view in [View::Side, View::Top] {
            let (painted, sights) = (k.painted(view), k.in_sight(view));
            assert_eq!(sights.len(), painted.len(), "{} {view:?}", k.id);
            for s in sights {
                let holds = |x: f32, y: f32, of: &[Shape]| of.iter().any(|o| o.holds(x, y));
                // The square it stands in is the area's own all over, not only in the middle.
                let out = s.side / 2.0 - 1.0;
                for (dx, dy) in [(0.0, 0.0), (-out, -out), (out, -out), (-out, out), (out, out)] {
                    let top = painted.iter().rev().find(|(_, of)| holds(s.at.0 + dx, s.at.1 + dy, of));
                    assert_eq!(top.map(|(a, _)| a.id), Some(s.area.id), "{} {view:?} {:?}", k.id, s.at);
                }
            }
        }
    }
}

#[test]
fn areas_hide_little_of_each_other() {
    for (k, a) in outlines() {
        let Seen { on_top, all, .. } = seen(k, View::Side, &a.area, a.shape);
        assert!(2 * on_top >= all, "{}: {} shows {on_top} of {all}", k.id, a.area.id);
        assert!(on_top >= 500, "{}: {} shows only {on_top}", k.id, a.area.id);
    }
}

#[test]
fn a_shape_holds_its_inside_only() {
    let l_shape = Shape::Poly(&[(0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (2.0, 2.0), (2.0, 4.0), (0.0, 4.0)]);
    assert!(l_shape.holds(1.0, 3.0) && l_shape.holds(3.0, 1.0) && !l_shape.holds(3.0, 3.0));
    assert_eq!(l_shape.bounds(), (0.0, 0.0, 4.0, 4.0));
    assert!(!Shape::Line(&[(0.0, 0.0), (4.0, 4.0)]).holds(1.0, 1.0));
}
