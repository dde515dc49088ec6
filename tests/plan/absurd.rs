//! Empty, absurd and contradictory inputs: each gets a clear answer, and the plan still shows what it can.

use coatwalk::job::hours::How;
use coatwalk::job::kinds::KINDS;
use coatwalk::job::machine::{Fault, OwnArea};
use coatwalk::job::materials::{Cover, Supply, SupplySize};
use coatwalk::job::plan::Week;
use coatwalk::job::product::{Figure, Product, Size};
use coatwalk::job::stage::Stage;
use coatwalk::job::surface::{Form, Piece};
use proptest::prelude::*;

use super::*;

/// Exactly one fault of that field, with these words in it; hands back its line.
fn fault(faults: &[Fault], field: &str, words: &str) -> String {
    let found: Vec<String> = faults.iter().filter(|f| f.field.contains(field)).map(Fault::line).collect();
    assert_eq!(found.len(), 1, "{field}: {faults:?}");
    assert!(found[0].contains(words), "{}", found[0]);
    println!("{}", found[0]);
    found[0].clone()
}

fn shows_what_it_can(plan: &Plan) {
    assert!(plan.coated.is_some() && plan.work_on(Stage::Mask).next().is_some());
    assert!(plan.blocks.iter().all(|b| b.start < b.end));
}

#[test]
fn a_machine_of_no_size_is_taken_as_a_typical_one() {
    let machine = loader().sized(0.0, f64::NAN, 900.0);
    let plan = fresh(&Setup { machine, ..setup() }, monday(), &Utc);
    fault(&plan.faults, "length", "must be between 0.1 and 100 m; got 0 m; the plan takes 5 m");
    fault(&plan.faults, "width", "got no number");
    fault(&plan.faults, "height", "the plan takes 2.5 m, typical for a compact wheel loader");
    shows_what_it_can(&plan);
    assert_eq!(plan.figures.m2, figures(&loader()).m2);
}

#[test]
fn an_unknown_kind_is_guessed_area_by_area() {
    let machine = Machine::of_kind("submarine");
    let setup = Setup { machine, ..setup() };
    let plan = plan(&setup, Some(&job(&[])), &generic(Use::LiquidFilm), &[], monday(), &Utc);
    fault(&plan.faults, "kind of machine", "no kind is called \"submarine\"");
    assert_eq!(plan.figures.m2.likely, 2.0 * all_areas().len() as f64);
    assert!(plan.coated.is_some());
}

#[test]
fn a_machine_without_areas_says_so() {
    let plan = fresh(&Setup { machine: Machine::default(), ..setup() }, monday(), &Utc);
    fault(&plan.faults, "areas", "add one");
    assert_eq!(plan.work.total().likely, 0.0);
    let nothing = plan_of_nothing();
    assert_eq!(nothing.blocks.iter().filter(|b| b.doing == coatwalk::job::plan::Doing::Work).count(), 0);
}

fn plan_of_nothing() -> Plan {
    plan(&setup(), Some(&Job::default()), &generic(Use::LiquidFilm), &[], monday(), &Utc)
}

#[test]
fn an_area_measured_as_nonsense_keeps_its_estimate() {
    let mut machine = loader();
    let piece =
        |m: f64| Piece { form: Form::Plate { length_m: m, width_m: 1.0 }, count: 1, faces: 1.0, intricacy: 1.0 };
    machine.areas.insert(area(1), OwnArea { area_m2: Some(-3.0), ..Default::default() });
    machine.areas.insert(area(2), OwnArea { pieces: vec![piece(f64::INFINITY)], ..Default::default() });
    machine.areas.insert(area(3), OwnArea { pieces: vec![piece(4.0)], ..Default::default() });
    let figures = machine.figures(&machine::places_of_job(&job(&[])));
    fault(&figures.faults, "Bucket", "the plan takes");
    fault(&figures.faults, "Loader arms", "length of a part must be between");
    assert!((figures.areas[2].m2.likely - 4.0).abs() < 1e-9 && figures.areas[0].m2.likely > 5.0);
}

#[test]
fn missing_cure_hours_are_taken_as_the_default_and_said_so() {
    let mut film = generic(Use::LiquidFilm);
    film.name = "Own film (invented)".into();
    film.sheet.refit_h = None;
    let (film, faults) = film.settled(today());
    let line = fault(&faults, "cure hours", "no cure hours given; the plan takes 48");
    assert!(line.contains("default, replace from your data sheet"), "{line}");
    let plan = plan(&setup(), None, &film, &[], monday(), &Utc);
    assert_eq!((plan.earliest_refit.unwrap() - plan.coated.unwrap()).num_hours(), 48);
}

#[test]
fn impossible_figures_of_a_product_fall_back_one_by_one() {
    let mut film = generic(Use::LiquidFilm);
    film.sheet.rh_most_pct = Some(Figure::own(140.0));
    film.sheet.solids_pct = Some(Figure::own(f64::NAN));
    film.sheet.dry_um = Some(Figure { low: Some(30.0), high: Some(10.0), ..Figure::own(20.0) });
    film.sheet.product_least_c = Some(Figure::own(40.0));
    film.sheet.touch_dry_h = Some(Figure::own(80.0));
    film.sheet.refit_h = Some(Figure::own(30.0));
    film.sheet.lel_pct = Some(Figure::own(0.0));
    film.opened = Some(today());
    film.expires = today().pred_opt();
    film.shelf_ml = -1.0;
    film.sizes = vec![Size { size_ml: 0.0, price: None }, Size { size_ml: 5000.0, price: Some(-4.0) }];
    let (settled, faults) = film.settled(today());
    fault(
        &faults,
        "relative humidity",
        "relative humidity must be between 5 and 100 %; got 140 %; the plan takes 85",
    );
    fault(&faults, "solids", "the plan takes 40");
    fault(&faults, "dry film", "must rise in this order; the plan takes 15");
    fault(&faults, "product temperature", "the lowest product temperature is over the highest");
    fault(&faults, "touch-dry", "touch-dry comes after the cure hours");
    fault(&faults, "explosive", "must be between 0.1 and 30 %");
    fault(&faults, "expiry", "it expired on 2026-10-04; buy fresh");
    fault(&faults, ": opened", "opened after it expired");
    fault(&faults, "on the shelf", "none on the shelf");
    assert_eq!(faults.iter().filter(|f| f.field.contains("sizes")).count(), 2);
    assert_eq!(settled.sheet.solids_pct, generic(Use::LiquidFilm).sheet.solids_pct);
    assert_eq!(settled.sheet.touch_dry_h.unwrap().likely, 30.0);
    // No sizes left: the bare amount stays on the list.
    let list = shop(&setup(), &[film], &[], Cover::High, 1);
    let line = list.line(Item::FilmLiquid).unwrap();
    assert!(line.missing > 0.0 && line.buy.is_empty() && line.cost.is_none());
    assert_eq!(list.lines.len(), Item::ALL.len());
}

#[test]
fn impossible_crews_weeks_and_waits_are_answered() {
    let how = How { hands: 0, ..How::default() };
    let week = Week { from_min: 5000, hours: 30.0, days: [false; 7] };
    let setup = Setup { how, week, warm_up_min: -5.0, heater_off_min: f64::NAN, shed_c: Some(-300.0), ..setup() };
    let plan = fresh(&setup, monday(), &Utc);
    fault(&plan.faults, "pairs of hands", "the plan takes one pair");
    fault(&plan.faults, "working hours", "must be between 0.5 and 24 h; got 30 h; the plan takes 8 h");
    fault(&plan.faults, "start of the day", "08:00");
    fault(&plan.faults, "working days", "choose at least one");
    fault(&plan.faults, "warm-up", "the plan takes none");
    fault(&plan.faults, "heater out", "the plan takes none");
    fault(&plan.faults, "temperature of the shed", "the plan takes 15 °C");
    shows_what_it_can(&plan);
    let crowd =
        fresh(&Setup { how: How { hands: 3_000_000_000, ..How::default() }, ..super::setup() }, monday(), &Utc);
    fault(&crowd.faults, "pairs of hands", "must be between 1 and 20");
}

#[test]
fn a_shed_too_cold_to_cure_leaves_the_refit_open() {
    let mut film = generic(Use::LiquidFilm);
    film.sheet.cure_least_c = Some(Figure::own(10.0));
    let plan = plan(&Setup { shed_c: Some(5.0), ..setup() }, None, &film, &[], monday(), &Utc);
    fault(&plan.faults, "air out", "at 5 °C nothing cures");
    shows_what_it_can(&plan);
    assert_eq!((plan.earliest_refit, plan.work_on(Stage::Refit).count()), (None, 0));
}

#[test]
fn absurd_supplies_leave_the_rest_of_the_list() {
    let bad = Supply {
        item: Item::Tape,
        sizes: vec![SupplySize { amount: 0.0, price: None }, SupplySize { amount: 50.0, price: Some(f64::NAN) }],
        on_shelf: f64::INFINITY,
    };
    let list = shop(&setup(), &[], &[bad], Cover::High, 1);
    let tape = list.line(Item::Tape).unwrap();
    assert!(!tape.buy.is_empty() && tape.on_shelf == 0.0);
    assert_eq!(list.faults.iter().filter(|f| f.field == Item::Tape.title()).count(), 2);
}

#[test]
fn a_slip_in_past_jobs_is_left_out() {
    let film = generic(Use::LiquidFilm);
    let plan = plan(&setup(), None, &film, &[1.2, 1e300], monday(), &Utc);
    fault(&plan.faults, "past jobs", "over 20 times");
    assert_eq!(plan.work.stages, fresh(&setup(), monday(), &Utc).work.stages);
}

fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        Just(0.0),
        Just(-1.0),
        Just(f64::NAN),
        Just(f64::INFINITY),
        Just(1e300),
        Just(140.0),
        0.1..100.0f64,
        -1e6..1e6f64,
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 300, ..ProptestConfig::default() })]

    /// Whatever is typed: no panic, no endless loop, no figure that is none, and every fault says something.
    #[test]
    fn nothing_typed_breaks_the_plan(
        kind in 0usize..9, size in prop::array::uniform3(any_number()), hands: u32, lamps_taped: u32, from_min: u32,
        hours in any_number(), days: [bool; 7], waits in prop::array::uniform2(any_number()),
        shed_c in any_number(), figures in prop::array::uniform6(any_number()), past in any_number(),
    ) {
        let id = KINDS.get(kind).map_or("submarine", |k| k.id);
        let setup = Setup {
            machine: Machine::of_kind(id).sized(size[0], size[1], size[2]),
            how: How { hands, lamps_taped, ..How::default() },
            week: Week { from_min, hours, days },
            shed_c: Some(shed_c), warm_up_min: waits[0], heater_off_min: waits[1], ..Setup::default()
        };
        let mut film = generic(Use::LiquidFilm);
        let own = |v: f64| Some(Figure::own(v));
        film.sheet.solids_pct = own(figures[0]);
        film.sheet.dry_um = own(figures[1]);
        film.sheet.loss_pct = own(figures[2]);
        film.sheet.refit_h = own(figures[3]);
        film.sheet.reference_c = own(figures[4]);
        film.sheet.flash_off_min = own(figures[5]);
        let (film, mut faults) = film.settled(today());
        let plan = plan(&setup, None, &film, &[past], monday(), &Utc);
        faults.extend(plan.faults.clone());
        prop_assert!(faults.iter().all(|f| !f.words.is_empty() && !f.field.is_empty()));
        prop_assert!(plan.blocks.iter().all(|b| b.start < b.end));
        prop_assert!(plan.work.total().is_ordered(), "{:?}", plan.work.total());
        let products: Vec<Product> = vec![film];
        let list = shop(&setup, &products, &[], Cover::High, 1);
        for line in &list.lines {
            prop_assert!(line.need.is_ordered() && line.missing.is_finite(), "{line:?}");
        }
        let written = format!("{list:?}");
        prop_assert!(!written.contains("NaN"), "{written}");
    }
}
