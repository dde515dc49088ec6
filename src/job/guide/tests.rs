use super::*;
use std::collections::HashSet;

/// Every text of a guide, with the most characters it may have on a phone 360 px wide.
fn texts(g: &'static Guide) -> Vec<(&'static str, usize)> {
    let mut all = vec![(g.aim, 70), (g.goes_wrong, 80)];
    all.extend(g.steps.iter().map(|s| (*s, 90)));
    all.extend(g.at_hand.iter().map(|s| (*s, 60)));
    for c in g.cautions {
        all.extend([(c.words, 140), (c.basis.words(), 80)]);
    }
    for c in g.checks {
        all.extend([(c.words, 90), (c.basis.words(), 80)]);
    }
    for p in g.safety {
        all.extend([(p.words, 90), (p.how, 120), (p.basis.words(), 80)]);
    }
    all
}

fn guides() -> impl Iterator<Item = (Stage, &'static Guide)> {
    Stage::ALL.into_iter().map(|s| (s, guide(s)))
}

/// All that a stage warns of, in lower case: cautions and safety points with their remedies.
fn warnings(stage: Stage) -> String {
    let g = guide(stage);
    let cautions = g.cautions.iter().map(|c| c.words);
    let points = g.safety.iter().flat_map(|p| [p.words, p.how]);
    cautions.chain(points).collect::<Vec<_>>().join("\n").to_lowercase()
}

#[track_caller]
fn warn_of(stages: &[Stage], words: &[&str]) {
    for &s in stages {
        let all = warnings(s);
        for w in words {
            assert!(all.contains(&w.to_lowercase()), "{} does not warn of: {w}", s.title());
        }
    }
}

#[test]
fn no_list_is_empty_and_steps_are_three_to_six() {
    for (s, g) in guides() {
        assert!((3..=6).contains(&g.steps.len()), "{}: {} steps", s.title(), g.steps.len());
        for (list, n) in [
            ("at hand", g.at_hand.len()),
            ("cautions", g.cautions.len()),
            ("checks", g.checks.len()),
            ("safety", g.safety.len()),
        ] {
            assert!(n > 0, "{}: no {list}", s.title());
        }
        let said: HashSet<_> = g.cautions.iter().map(|c| c.words).collect();
        assert_eq!(said.len(), g.cautions.len(), "{} says a caution twice", s.title());
    }
}

#[test]
fn every_text_fits_a_phone_and_is_plain() {
    for (s, g) in guides() {
        for (t, most) in texts(g) {
            let n = t.chars().count();
            assert!(n > 0 && n <= most, "{}: {n} of {most} characters: {t}", s.title());
            assert_eq!(t, t.trim());
            assert!(!t.contains('!'), "no exclamation marks: {t}");
        }
    }
}

#[test]
fn ids_are_unique_kebab_and_carry_their_stage() {
    let mut seen = HashSet::new();
    for (s, g) in guides() {
        for id in g.checks.iter().map(|c| c.id).chain(g.safety.iter().map(|p| p.id)) {
            assert!(seen.insert(id), "{id} twice");
            assert!(id.strip_prefix(s.slug()).is_some_and(|rest| rest.starts_with('-')), "{id} in {}", s.title());
            assert!(id.chars().all(|c| c.is_ascii_lowercase() || c == '-'), "{id}");
        }
    }
}

/// The app advises; it judges nothing.
#[test]
fn no_text_promises_anything() {
    let lists = KEEP_BARE.iter().chain(MOVING).copied().chain([KEEP_BARE_NOTE]);
    for t in guides().flat_map(|(_, g)| texts(g)).map(|(t, _)| t).chain(lists) {
        assert!(!promises(t), "{t}");
    }
}

/// Does the text hold a word that the app never says?
pub(crate) fn promises(text: &str) -> bool {
    let t = text.to_lowercase();
    let words = t.split(|c: char| !c.is_alphabetic());
    let mut words = words.filter(|w| ["safe", "safely", "passed", "verified", "approved", "certified"].contains(w));
    words.next().is_some()
}

#[test]
fn a_promise_is_noticed() {
    assert!(promises("It is safe to go in") && promises("Test passed.") && promises("APPROVED"));
    assert!(!promises("The app certifies nothing") && !promises("Never bypassed"));
}

#[test]
fn every_stage_says_that_its_figures_are_defaults() {
    for (s, g) in guides() {
        assert_eq!(g.cautions.last(), Some(&shared::SHEETS_WIN), "{}", s.title());
    }
    for word in ["SDS", "TDS", "manual", "local rules"] {
        assert!(shared::SHEETS_WIN.words.contains(word));
    }
    assert!(guide(Stage::Degrease).steps[0].contains("default, your product's sheet wins"));
}

use Stage::*;

#[test]
fn the_phone_and_flame_cautions_stand_from_the_first_can_to_the_purge() {
    warn_of(&[FirstPass, SecondPass, AirOut], &["phone", "6 m", "lamps", "fans", "chargers", "purge"]);
    warn_of(
        &[FirstPass, SecondPass, AirOut],
        &["compressor", "vacuum", "flame", "smoking", "heaters", "flash point"],
    );
    warn_of(&[FirstPass, SecondPass, AirOut], &["propellant", "drains", "pits", "extinguisher", "notice"]);
    warn_of(
        &[FirstPass, SecondPass],
        &["cold", "earthed", "tyres insulate", "next door", "hay", "animals", "both sides"],
    );
    warn_of(&[AirOut], &["until the purge ends", "relay"]);
    warn_of(&[Mend], &["sparks", "lead", "extinguisher"]);
    for s in [FirstPass, SecondPass] {
        assert!(guide(s).steps[0].contains("outside the spray zone"));
        assert!(guide(s).steps[0].contains("Leave the phone"));
    }
}

#[test]
fn battery_and_lock_out_stand_from_cover_until_power_is_back() {
    let from_cover = &Stage::ALL[Cover.index()..=AirOut.index()];
    warn_of(from_cover, &["battery", "locked out"]);
    let points = |s: Stage, word: &str| guide(s).safety.iter().any(|p| p.words.to_lowercase().contains(word));
    for &s in from_cover {
        assert!(points(s, "battery"), "{}", s.title());
        assert!(s == AirOut || points(s, "lock"), "{}", s.title());
    }
    warn_of(&[Refit], &["before the engine starts", "purged"]);
}

#[test]
fn lungs_hands_and_eyes() {
    warn_of(
        &[FirstPass, SecondPass, AirOut],
        &["respirator", "cartridge", "pre-filter", "clean-shaven", "change time"],
    );
    warn_of(&[Degrease, Neutralise, Mend, FirstPass, SecondPass, AirOut], &["eye-wash", "gloves", "goggles", "sds"]);
    warn_of(
        &[Survey, TakeOff, Wipe, Degrease, Neutralise, FirstPass, SecondPass, AirOut],
        &["never go inside a tank"],
    );
    warn_of(&[Wipe, Dewax, Degrease, Neutralise, Dry, Mend, Refit], &["carbon monoxide"]);
}

#[test]
fn arms_jets_and_injection() {
    warn_of(
        &[
            Survey, TakeOff, Wipe, Dewax, Degrease, Neutralise, Dry, Mend, Mask, FirstPass, SecondPass, Refit,
            Aftercare,
        ],
        &["mechanical lock", "jack is not a stand"],
    );
    warn_of(&[TakeOff], &["key", "chocked", "pressure", "stands", "injects"]);
    warn_of(
        &[Wipe, Dewax, Degrease, Neutralise, Aftercare],
        &["cuts and injects", "0° tip", "30 cm", "50 cm", "decals"],
    );
    warn_of(&[Dewax], &["scald"]);
    warn_of(&[FirstPass, SecondPass, TakeOff, Refit], &["hospital"]);
    warn_of(&[Dry], &["30 psi", "asbestos"]);
    warn_of(&[TakeOff], &["asbestos"]);
    warn_of(&[Mask], &["position A", "rods"]);
}

#[test]
fn rags_wash_water_falls_and_acid() {
    warn_of(&[Wipe, Mend, FirstPass, SecondPass, AirOut, Refit, Aftercare], &["rags", "metal can of water"]);
    warn_of(&[Wipe, Dewax, Degrease, Neutralise], &["ditch", "three points of contact"]);
    warn_of(&[FirstPass, SecondPass, AirOut, Refit, Aftercare], &["do not climb"]);
    warn_of(&[Neutralise], &["chlorine", "zinc", "10.9"]);
    warn_of(&[Survey, FirstPass, SecondPass, AirOut, Refit], &["certifies nothing"]);
    warn_of(&[Wipe, Dewax, Degrease, Neutralise], &["5 °C", "frost"]);
    warn_of(&[Dry, FirstPass, SecondPass], &["dew point", "touch-dry"]);
}
