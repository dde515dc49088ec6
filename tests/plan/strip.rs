//! The timeline drawn to scale, and the plan in words.

use chrono::TimeDelta;
use chrono_tz::Tz;
use coatwalk::job::hours::How;
use coatwalk::job::materials::Show;
use coatwalk::job::plan::{Doing, Mark, Strip, Week, answer, choices, strip, text};
use coatwalk::job::stage::Stage;
use coatwalk::units::UnitSet;
use proptest::prelude::*;

use super::*;

/// Every strip: inside its frame, to scale, nothing over another in its lane, words apart.
fn holds(plan: &Plan, strip: &Strip, start: DateTime<Utc>) {
    let near = |a: f64, b: f64| (a - b).abs() < 1e-6 * (1.0 + b.abs());
    for bar in &strip.bars {
        assert!(bar.top >= 0.0 && bar.bottom <= strip.height + 1e-9 && bar.top <= bar.bottom, "{bar:?}");
        assert!(bar.lane <= strip.waits);
        assert_eq!(bar.lane == 0, bar.block.doing == Doing::Work);
        let hours = (bar.block.end - bar.block.start).num_seconds() as f64 / 3600.0;
        if bar.cut {
            assert!(bar.top == 0.0 && bar.bottom <= hours * strip.hour_px + 1e-6, "{bar:?}");
        } else {
            assert!(near(bar.bottom - bar.top, hours * strip.hour_px), "{bar:?}");
            let place = (bar.block.start - start).num_seconds() as f64 / 3600.0 * strip.hour_px;
            assert!(near(bar.top, place), "{bar:?} {place}");
        }
    }
    for (i, a) in strip.bars.iter().enumerate() {
        for b in &strip.bars[i + 1..] {
            let apart = a.bottom <= b.top + 1e-6 || b.bottom <= a.top + 1e-6;
            assert!(a.lane != b.lane || apart, "{a:?} {b:?}");
        }
    }
    let work = plan.blocks.iter().filter(|b| b.doing == Doing::Work).count();
    assert_eq!(strip.bars.iter().filter(|b| b.lane == 0).count(), work, "all work is on it");
    for pair in strip.notes.windows(2) {
        assert!(pair[1].y - pair[0].y >= 19.0 - 1e-6 && pair[0].at <= pair[1].at, "{pair:?}");
    }
    for note in &strip.notes {
        assert!(note.words.chars().count() <= 19, "room for {}", note.words);
        assert!(note.y >= 9.5 - 1e-6 && note.y <= strip.height - 9.5 + 1e-6, "{note:?} of {}", strip.height);
    }
    for pair in strip.days.windows(2) {
        assert!(near(pair[0].2, pair[1].1) && pair[0].0.succ_opt() == Some(pair[1].0), "{pair:?}");
    }
    // Work lies in working hours.
    for bar in strip.bars.iter().filter(|b| b.lane == 0) {
        let inside = |o: &&(f64, f64, String)| o.0 <= bar.top + 1e-6 && bar.bottom <= o.1 + 1e-6;
        assert!(strip.open.iter().any(|o| inside(&o)), "{bar:?} in {:?}", strip.open);
    }
}

#[test]
fn a_plan_from_monday_morning_is_drawn_from_four_hours_before() {
    let plan = fresh(&setup(), monday(), &Utc);
    let strip = strip(&plan, &setup(), monday(), monday(), &Utc).unwrap();
    holds(&plan, &strip, monday() - TimeDelta::hours(4));
    let words: Vec<_> = strip.notes.iter().map(|n| n.words.as_str()).collect();
    println!("{} px, {} px an hour: {words:#?}", strip.height, strip.hour_px);
    assert!(words.contains(&"08:00 Survey") && words.contains(&"Test patch, 24 h") && words.contains(&"Now 08:00"));
    assert_eq!(strip.open[0].2, "08:00");
    assert!(strip.notes.iter().any(|n| n.mark == Mark::Moment && n.words.starts_with("Refit from ")));
}

#[test]
fn a_job_half_done_shows_what_is_done_and_what_runs() {
    let done = |n: i64, stage| (monday() + TimeDelta::hours(n), What::Done { stage, areas: all_areas() });
    let job = job(&Stage::ALL[..5].iter().enumerate().map(|(n, s)| done(n as i64, *s)).collect::<Vec<_>>());
    let now = monday() + TimeDelta::hours(6);
    let plan = plan(&setup(), Some(&job), &generic(Use::LiquidFilm), &[], now, &Utc);
    let strip = strip(&plan, &setup(), now, now, &Utc).unwrap();
    holds(&plan, &strip, now - TimeDelta::hours(4));
    let done = strip.notes.iter().filter(|n| matches!(n.mark, Mark::Done(_))).count();
    assert_eq!(done, 3, "of five, those of the last four hours stand on the strip");
    assert!(strip.bars.iter().any(|b| b.cut), "the test patch began before");
}

#[test]
fn nothing_left_is_no_strip() {
    let nothing = Job::default();
    let setup = Setup { machine: Machine::of_kind(""), ..setup() };
    let plan = plan(&setup, Some(&nothing), &generic(Use::LiquidFilm), &[], monday(), &Utc);
    assert_eq!(strip(&plan, &setup, monday(), monday(), &Utc), None);
    let list = shop(&super::setup(), &[], &[], Cover::High, 1);
    assert_eq!(answer(&plan, &list, &Show::METRIC, monday(), &Utc).work, "none left");
}

#[test]
fn the_text_has_the_figures_of_the_screen() {
    let plan = fresh(&setup(), monday(), &Utc);
    let list = shop(&setup(), &[], &[], Cover::High, 1);
    for set in UnitSet::ALL {
        let show = Show::of(set);
        let told = answer(&plan, &list, &show, monday(), &Utc);
        let text = text("Grey loader", &plan, &list, &show, monday(), &Utc);
        println!("{text}\n");
        for words in [&told.dates, &told.work, told.film.as_ref().unwrap(), told.cans.as_ref().unwrap()] {
            assert!(text.contains(words.as_str()), "{words}");
        }
        assert!(text.contains("Mon 5 Oct\n- 08:00 Survey, 25 min"), "{text}");
        let unit = show.volume.symbol();
        assert!(told.film.unwrap().ends_with(unit), "{unit}");
    }
}

#[test]
fn dates_are_plain_and_never_too_early() {
    let plan = fresh(&setup(), monday(), &Utc);
    let list = shop(&setup(), &[], &[], Cover::High, 1);
    let told = answer(&plan, &list, &Show::METRIC, monday(), &Utc);
    println!("{told:?}");
    assert!(told.dates.starts_with("Coated about Tue ") && told.dates.contains("refit from Thu "), "{}", told.dates);
    // A week off the weekday alone is not plain.
    let early = monday() - TimeDelta::days(10);
    assert!(answer(&plan, &list, &Show::METRIC, early, &Utc).dates.contains("Tue 6 Oct, "));
}

#[test]
fn a_choice_says_its_price() {
    let film = generic(Use::LiquidFilm);
    let plan = fresh(&setup(), monday(), &Utc);
    let offered = choices(&plan, &setup(), None, &film, &[], monday(), &Utc);
    let price = |id: &str| offered.iter().find(|c| c.id == id).unwrap().price();
    println!("{:#?}", offered.iter().map(|c| (c.id, c.price())).collect::<Vec<_>>());
    // The hour more still fits before the night that it dries in.
    assert!(price("skip-wipe").starts_with("about 1 h more washing; about 48 min more work in all; coated "));
    assert!(
        price("second-hands").contains("less work in all; coated ") && price("second-hands").ends_with("earlier")
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn every_plan_fits_on_its_strip(
        from_min in 0u32..1440,
        hours in 0.5f64..24.0,
        days in prop::array::uniform7(any::<bool>()),
        begin in 0i64..40_000,
        shed_c in -10.0f64..35.0,
        hands in 1u32..5,
        filthy: bool,
        warm_up_min in 0.0f64..600.0,
        done in 0usize..12,
        zone in prop::sample::select(vec![Tz::Europe__Vienna, Tz::America__Chicago, Tz::Australia__Lord_Howe]),
    ) {
        let how = How { hands, filthy, ..How::default() };
        let week = Week { from_min, hours, days };
        let setup = Setup { how, week, shed_c: Some(shed_c), warm_up_min, heater_off_min: 30.0, ..setup() };
        let now = monday() + TimeDelta::minutes(begin);
        let stages = Stage::ALL.into_iter().take(done);
        let job = job(&stages.map(|stage| (now - TimeDelta::hours(2), What::Done { stage, areas: all_areas() })).collect::<Vec<_>>());
        let plan = plan(&setup, Some(&job), &generic(Use::LiquidFilm), &[], now, &zone);
        let drawn = strip(&plan, &setup, now, now, &zone).unwrap();
        let first = plan.blocks.iter().map(|b| b.start).min().unwrap().max(now);
        let date = first.with_timezone(&zone).date_naive();
        let midnight = date.and_hms_opt(0, 0, 0).and_then(|t| zone.from_local_datetime(&t).earliest()).unwrap();
        holds(&plan, &drawn, (first - TimeDelta::hours(4)).max(midnight.with_timezone(&Utc)));
    }
}
