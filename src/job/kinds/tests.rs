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

#[test]
fn shapes_lie_on_the_sheet_and_are_big_enough_to_tap() {
    for (k, a) in areas() {
        let (left, top, right, bottom) = a.bounds();
        let d = &k.drawing;
        assert!(left >= 0.0 && top >= 0.0 && right <= d.width && bottom <= d.height, "{}: {}", k.id, a.id);
        assert!(right - left >= 30.0 && bottom - top >= 24.0, "{}: {} is small", k.id, a.id);
        assert!(a.is_boxed(d) || bottom <= d.ground, "{}: {} is in the ground", k.id, a.id);
        assert!(a.shape.iter().any(|s| !matches!(s, Shape::Line(_))), "{}: {} can't be tapped", k.id, a.id);
    }
    for k in KINDS {
        let (left, top, right, bottom) = shape::bounds(k.drawing.detail);
        assert!(left >= 0.0 && top >= 0.0 && right <= k.drawing.width && bottom <= k.drawing.ground, "{}", k.id);
    }
}

/// Sampled every unit: how much of the area is on top, and how much there is of it.
fn seen(k: &Kind, a: &KindArea) -> (usize, usize) {
    let painted = k.back_to_front();
    let mut on_top = 0;
    let mut all = 0;
    for y in 0..k.drawing.height as i32 {
        for x in 0..k.drawing.width as i32 {
            let holds = |b: &KindArea| b.shape.iter().any(|s| s.holds(x as f32 + 0.5, y as f32 + 0.5));
            if holds(a) {
                all += 1;
                on_top += usize::from(painted.iter().rev().find(|b| holds(b)).is_some_and(|b| b.id == a.id));
            }
        }
    }
    (on_top, all)
}

#[test]
fn areas_hide_little_of_each_other() {
    for (k, a) in areas() {
        let (on_top, all) = seen(k, a);
        assert!(2 * on_top >= all, "{}: {} shows {on_top} of {all}", k.id, a.id);
        assert!(on_top >= 500, "{}: {} shows only {on_top}", k.id, a.id);
    }
}

#[test]
fn a_shape_holds_its_inside_only() {
    let l_shape = Shape::Poly(&[(0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (2.0, 2.0), (2.0, 4.0), (0.0, 4.0)]);
    assert!(l_shape.holds(1.0, 3.0) && l_shape.holds(3.0, 1.0) && !l_shape.holds(3.0, 3.0));
    assert_eq!(l_shape.bounds(), (0.0, 0.0, 4.0, 4.0));
    assert!(!Shape::Line(&[(0.0, 0.0), (4.0, 4.0)]).holds(1.0, 1.0));
}
