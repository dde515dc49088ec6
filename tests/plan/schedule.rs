//! Hours and days: the trade's rules of thumb (common practice, no source), and what must hold for every schedule.

use chrono::{TimeDelta, Timelike};
use coatwalk::job::hours::{self, How};
use coatwalk::job::machine::{Condition, OwnArea};
use coatwalk::job::plan::{Block, DRYING_H, Doing, TEST_PATCH_H, Wait, Week, choices};
use coatwalk::job::stage::Stage;
use proptest::prelude::*;

use super::*;

#[test]
fn a_compact_loader_is_about_ten_hours_for_one_practised_person() {
    let plan = fresh(&setup(), monday(), &Utc);
    let hours = plan.work.total().times(1.0 / 60.0);
    println!("work {hours:?} h, glass {:?} min", plan.work.glass);
    assert!((8.5..=11.5).contains(&hours.likely), "{hours:?}");
    assert!((85.0..=95.0).contains(&plan.work.glass.likely));
}

#[test]
fn begun_at_eight_it_is_coated_on_day_two_about_midday() {
    let plan = fresh(&setup(), monday(), &Utc);
    for b in &plan.blocks {
        println!("{} - {}  {} {:?}", b.start.format("%a %H:%M"), b.end.format("%a %H:%M"), b.stage.title(), b.doing);
    }
    let coated = plan.coated.unwrap();
    assert_eq!(coated.date_naive(), monday().date_naive().succ_opt().unwrap());
    assert!((11..14).contains(&coated.hour()), "{coated}");
}

#[test]
fn refit_comes_48_hours_after_at_20_degrees_and_96_at_10() {
    for (shed_c, hours) in [(20.0, 48), (10.0, 96)] {
        let plan = fresh(&Setup { shed_c: Some(shed_c), ..setup() }, monday(), &Utc);
        assert_eq!(plan.earliest_refit.unwrap() - plan.coated.unwrap(), TimeDelta::hours(hours));
        assert!(plan.work_on(Stage::Refit).next().unwrap().start >= plan.earliest_refit.unwrap());
        // Touch-dry after 4 h at 20 °C, 8 h at 10 °C.
        assert_eq!(plan.paper_off.unwrap() - plan.coated.unwrap(), TimeDelta::hours(hours / 12));
    }
}

#[test]
fn choices_have_their_price_in_time() {
    let (setup, film) = (setup(), generic(Use::LiquidFilm));
    let plan = fresh(&setup, monday(), &Utc);
    let offered = choices(&plan, &setup, None, &film, &[], monday(), &Utc);
    for c in &offered {
        println!("{}: wash {:+}, work {:+}, coated {:+?} min", c.id, c.wash_min, c.work_min, c.coated_later_min);
    }
    let find = |id: &str| offered.iter().find(|c| c.id == id).unwrap();
    assert!((50..=70).contains(&find("skip-wipe").wash_min), "about an hour more washing");
    assert!(find("skip-wipe").work_min > 30);
    assert!(find("tape-lamp").work_min < 0);
    assert!(find("second-hands").work_min < -120);
    assert!(find("second-hands").coated_later_min.unwrap() < 0);
    assert!(offered.iter().all(|c| !c.caution.is_empty()));
}

#[test]
fn first_jobs_and_filthy_machines_take_longer() {
    let work = |how: How| hours::work(&figures(&loader()), &how, &[], 1);
    let plain = work(How::default());
    let first = work(How { first_job: true, ..How::default() }).total();
    let ratio = first.likely / plain.total().likely;
    assert!((1.5..1.7).contains(&ratio), "{ratio}");
    let filthy = work(How { filthy: true, ..How::default() });
    for stage in [Stage::Wipe, Stage::Dewax, Stage::Degrease, Stage::Neutralise] {
        let ratio = filthy.of(stage).minutes.likely / plain.of(stage).minutes.likely;
        assert!((1.9..2.2).contains(&ratio), "{stage:?} {ratio}");
    }
    assert_eq!(filthy.of(Stage::Mask).minutes, plain.of(Stage::Mask).minutes);
    // What past jobs took moves it.
    let slow = hours::work(&figures(&loader()), &How::default(), &[1.5, 1.5, 1.5], 1);
    assert!(slow.total().likely > 1.15 * plain.total().likely && slow.learnt.jobs == 3);
}

#[test]
fn more_hands_shorten_all_but_the_passes() {
    let work = |hands: u32| hours::work(&figures(&loader()), &How { hands, ..How::default() }, &[], 1);
    let (one, two) = (work(1), work(2));
    for stage in Stage::ALL.into_iter().filter(|s| one.of(*s).minutes.likely > 0.0) {
        let ratio = two.of(stage).minutes.likely / one.of(stage).minutes.likely;
        let want = if matches!(stage, Stage::FirstPass | Stage::SecondPass) { 1.0 } else { 1.0 / 1.8 };
        assert!((ratio - want).abs() < 1e-9, "{stage:?} {ratio}");
    }
}

#[test]
fn mending_counts_by_what_the_survey_found() {
    let mut setup = setup();
    setup.machine.areas.insert(area(1), OwnArea { condition: Condition::Loose, ..Default::default() });
    let job = job(&[]);
    let plan = plan(&setup, Some(&job), &generic(Use::LiquidFilm), &[], monday(), &Utc);
    let mend = plan.work.of(Stage::Mend);
    assert!(mend.minutes.likely > 60.0 && (mend.shares[0] - 1.0).abs() < 1e-9, "{mend:?}");
    assert!(plan.work_on(Stage::Mend).next().is_some());
    assert!(fresh(&super::setup(), monday(), &Utc).work_on(Stage::Mend).next().is_none());
}

#[test]
fn what_is_finished_is_not_planned_again_and_the_rest_moves_up() {
    use Stage::*;
    let washed = [Survey, TakeOff, Cover, Wipe, Dewax, Degrease, Neutralise];
    let at_noon = at("2026-10-05T12:00:00Z");
    let done = |stage: Stage| (at_noon, What::Done { stage, areas: all_areas() });
    let entries: Vec<_> = washed.into_iter().map(done).collect();
    let job = job(&entries);
    let now = at("2026-10-06T09:00:00Z");
    let film = generic(Use::LiquidFilm);
    let plan = plan(&setup(), Some(&job), &film, &[], now, &Utc);
    assert!(plan.blocks.iter().all(|b| !washed.contains(&b.stage) || b.doing != Doing::Work));
    assert_eq!(plan.finished.len(), washed.len());
    // It dried over night; the test patch, set at noon, still holds the first pass up.
    assert!(plan.wait(Wait::Drying).is_none(), "{:?}", plan.wait(Wait::Drying));
    assert_eq!(plan.wait(Wait::TestPatch).unwrap().end, at_noon + TimeDelta::hours(TEST_PATCH_H));
    assert!(plan.work_on(FirstPass).next().unwrap().start >= at("2026-10-06T12:00:00Z"));
    // The same evening the drying still runs.
    let evening = super::plan(&setup(), Some(&job), &film, &[], at("2026-10-05T18:00:00Z"), &Utc);
    assert_eq!(evening.wait(Wait::Drying).unwrap().end, at_noon + TimeDelta::hours(DRYING_H));
    // Skipped counts as settled; half of an area's work leaves half the time.
    let mut half = entries.clone();
    half.push((now, What::Done { stage: Mask, areas: vec![area(7)] }));
    let less = super::plan(&setup(), Some(&super::job(&half)), &film, &[], now, &Utc);
    let minutes = |p: &Plan| p.work_on(Mask).map(|b| (b.end - b.start).num_minutes()).sum::<i64>();
    assert!(minutes(&less) < 30 && minutes(&plan) > 100, "the cab's glass is most of it");
}

#[test]
fn coated_steel_waits_by_its_own_readings() {
    let coated_at = at("2026-10-06T12:00:00Z");
    let mut entries: Vec<_> =
        Stage::ALL.into_iter().take(12).map(|stage| (coated_at, What::Done { stage, areas: all_areas() })).collect();
    let reading = |air_c: f64| What::Reading { air_c, rh_pct: None, steel_c: None, product_c: None };
    entries.push((coated_at, reading(20.0)));
    let film = generic(Use::LiquidFilm);
    let now = at("2026-10-07T12:00:00Z");
    let warm = plan(&setup(), Some(&job(&entries)), &film, &[], now, &Utc);
    assert_eq!(warm.coated, Some(coated_at));
    assert_eq!(warm.earliest_refit, Some(coated_at + TimeDelta::hours(48)));
    assert_eq!(warm.paper_off, Some(coated_at + TimeDelta::hours(4)));
    assert_eq!(warm.wait(Wait::AirOut).unwrap().start, coated_at);
    // Read at 10 °C an hour later: about twice the wait.
    entries.push((coated_at + TimeDelta::hours(1), reading(10.0)));
    let cold = plan(&setup(), Some(&job(&entries)), &film, &[], now, &Utc);
    let wait = cold.earliest_refit.unwrap() - coated_at;
    assert!(wait > TimeDelta::hours(90) && wait < TimeDelta::hours(96), "{wait}");
}

#[test]
fn warm_up_and_a_cold_heater_come_before_the_first_can() {
    let setup = Setup { warm_up_min: 180.0, heater_off_min: 60.0, ..setup() };
    let plan = fresh(&setup, monday(), &Utc);
    let (warm, off) = (plan.wait(Wait::WarmUp).unwrap(), plan.wait(Wait::HeaterOff).unwrap());
    assert_eq!((warm.end - warm.start, off.end - off.start), (TimeDelta::hours(3), TimeDelta::hours(1)));
    assert_eq!(warm.end, off.start);
    assert!(plan.work_on(Stage::FirstPass).next().unwrap().start >= off.end);
    // Warming runs while one masks.
    assert!(warm.start <= plan.work_on(Stage::Mask).next().unwrap().start);
}

#[test]
fn a_plan_that_passes_midnight_holds_together() {
    let week = Week { from_min: 20 * 60, hours: 8.0, ..Week::default() };
    let plan = fresh(&Setup { week, ..setup() }, at("2026-10-05T20:00:00Z"), &Utc);
    holds(&plan, &week, at("2026-10-05T20:00:00Z"));
    assert!(plan.blocks.iter().any(|b| b.doing == Doing::Work && b.start.hour() < 4), "work after midnight");
}

/// Everything that must hold for a plan drawn at UTC.
fn holds(plan: &Plan, week: &Week, from: DateTime<Utc>) {
    let work: Vec<&Block> = plan.blocks.iter().filter(|b| b.doing == Doing::Work).collect();
    for b in &plan.blocks {
        assert!(b.start < b.end, "{b:?}");
    }
    for b in &work {
        assert!(b.start >= from, "{b:?} before the plan begins");
        // Inside the hours of the day on which it begins, or of the evening before.
        let inside = [0, 1].into_iter().any(|back| {
            let date = b.start.date_naive() - TimeDelta::days(back);
            let open = date.and_hms_opt(0, 0, 0).unwrap().and_utc() + TimeDelta::minutes(i64::from(week.from_min));
            let shut = open + TimeDelta::minutes((week.hours * 60.0).round() as i64);
            let day = chrono::Datelike::weekday(&date).num_days_from_monday() as usize;
            week.days[day] && b.start >= open && b.end <= shut
        });
        assert!(inside, "{b:?} outside working hours");
    }
    for pair in work.windows(2) {
        assert!(pair[0].end <= pair[1].start, "two works at once: {pair:?}");
        assert!(pair[0].stage <= pair[1].stage, "out of order: {pair:?}");
    }
    for wait in plan.blocks.iter().filter(|b| matches!(b.doing, Doing::Wait(w) if w != Wait::TouchDry)) {
        for b in work.iter().filter(|b| b.stage >= wait.stage) {
            assert!(b.start >= wait.end, "{b:?} does not wait for {wait:?}");
        }
        let same = plan.blocks.iter().filter(|b| b.doing == wait.doing).count();
        assert_eq!(same, 1, "{wait:?} twice");
    }
    // A pass is done in one go, on one day, unless no day holds it.
    for pass in [Stage::FirstPass, Stage::SecondPass] {
        let blocks: Vec<&Block> = plan.work_on(pass).collect();
        let all: TimeDelta = blocks.iter().map(|b| b.end - b.start).sum();
        assert!(blocks.len() < 2 || all.num_minutes() as f64 > 60.0 * week.hours, "{pass:?} is torn: {blocks:?}");
    }
    let first_off = plan.wait(Wait::WarmUp).zip(plan.wait(Wait::HeaterOff));
    assert!(first_off.is_none_or(|(warm, off)| warm.end <= off.start), "the heater is on and off at once");
    if let (Some(flash), Some(second)) = (plan.wait(Wait::FlashOff), plan.work_on(Stage::SecondPass).next()) {
        let end = plan.work_on(Stage::FirstPass).last().map(|b| b.end);
        assert!(end.is_none_or(|e| e == flash.start) && second.start >= flash.end);
    }
}

fn any_week() -> impl Strategy<Value = Week> {
    (0u32..24, 1u32..=24, prop::array::uniform7(prop::bool::weighted(0.8))).prop_map(|(from, hours, days)| Week {
        from_min: 60 * from,
        hours: f64::from(hours),
        days: if days == [false; 7] { [true; 7] } else { days },
    })
}

fn any_how() -> impl Strategy<Value = How> {
    (1u32..4, any::<bool>(), any::<bool>(), any::<bool>(), 0u32..6).prop_map(
        |(hands, first_job, filthy, skip_wipe, lamps_taped)| How { hands, first_job, filthy, skip_wipe, lamps_taped },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 150, ..ProptestConfig::default() })]

    #[test]
    fn every_schedule_holds_together(
        week in any_week(), how in any_how(), shed_c in -5.0..35.0f64, start in 0i64..20_000,
        warm in 0u32..400, done in prop::collection::vec((0usize..15, 0usize..14), 0..80),
    ) {
        let from = monday() + TimeDelta::minutes(start);
        let entries: Vec<_> = done
            .iter()
            .map(|(stage, a)| {
                let what = What::Done { stage: Stage::ALL[*stage], areas: vec![area(*a as u128 + 1)] };
                (from - TimeDelta::hours(1), what)
            })
            .collect();
        let job = job(&entries);
        let setup = Setup {
            machine: loader(), how, week, shed_c: Some(shed_c), warm_up_min: f64::from(warm),
            heater_off_min: f64::from(warm / 5), seed: 9, ..setup()
        };
        let film = generic(Use::LiquidFilm);
        let plan = plan(&setup, Some(&job), &film, &[], from, &Utc);
        holds(&plan, &week, from);
        // Finished work is never planned again, and open work always is.
        for stage in Stage::ALL {
            let planned = plan.work_on(stage).count() > 0;
            let open = job.count(stage).open > 0;
            prop_assert!(open || !planned, "{stage:?} is finished and planned");
            let work = plan.work.of(stage);
            let share: f64 = job.areas().zip(&work.shares).filter(|(a, _)| !a.cell(stage).settled()).map(|(_, s)| s).sum();
            let refit_known = stage != Stage::Refit || plan.earliest_refit.is_some();
            prop_assert!(planned || work.minutes.likely * share < 1e-3 || !refit_known, "{stage:?} is open, not planned");
        }
        // One more pair of hands never finishes later.
        let mut more = setup.clone();
        more.how.hands += 1;
        let quicker = super::plan(&more, Some(&job), &film, &[], from, &Utc);
        prop_assert!(quicker.coated <= plan.coated && quicker.ends <= plan.ends, "{:?} {:?}", quicker.ends, plan.ends);
        prop_assert!(quicker.earliest_refit <= plan.earliest_refit);
        // Drawn twice, it is the same.
        prop_assert_eq!(super::plan(&setup, Some(&job), &film, &[], from, &Utc), plan);
    }
}
