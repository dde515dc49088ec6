//! The setup in the log, and what other jobs teach.

use coatwalk::job::entry::Raw;
use coatwalk::job::entry::tidy;
use coatwalk::job::fold::Cell;
use coatwalk::job::hours::{self, How};
use coatwalk::job::machine::{Condition, Exposure, OwnArea};
use coatwalk::job::materials::{Supply, SupplySize};
use coatwalk::job::plan::{Past, Week, past};
use coatwalk::job::product::Figure;
use coatwalk::job::shed::{Doors, Heating, Shed};
use coatwalk::job::stage::Stage;
use coatwalk::job::surface::{Form, Material, Piece};
use proptest::prelude::*;

use super::*;

/// Everything before `stop` done on all areas, then these entries.
fn job_with(stop: Stage, entries: &[What]) -> Job {
    let done = Stage::ALL.into_iter().take_while(|s| *s < stop);
    let done = done.map(|stage| What::Done { stage, areas: all_areas() });
    job(&done.chain(entries.iter().cloned()).map(|w| (monday(), w)).collect::<Vec<_>>())
}

fn worked(stage: Stage, minutes: f64, hands: u32) -> What {
    What::Worked { stage, minutes, hands }
}

fn used(stage: Stage, item: Item, amount: f64) -> What {
    What::Used { stage, item: item.slug().into(), amount, product_id: None, note: String::new() }
}

fn close(got: &[f64], want: &[f64]) -> bool {
    got.len() == want.len() && got.iter().zip(want).all(|(g, w)| (g / w - 1.0).abs() < 1e-9)
}

#[test]
fn a_kept_setup_is_read_on_the_jobs_own_kind_of_machine() {
    let kept = Setup { machine: Machine { kind: "other".into(), ..loader() }, night_low_c: Some(2.5), ..setup() };
    let job = job(&[(monday(), setup().planned()), (monday(), kept.planned())]);
    let (read, faults) = Setup::of(&job);
    assert_eq!(faults, []);
    assert_eq!(read, Setup { machine: loader(), ..kept });
    assert_eq!(read.machine.kind, "compact-wheel-loader");
}

#[test]
fn a_setup_that_cant_be_read_becomes_the_usual_one_and_says_so() {
    for text in [r#"{"how":"quick"}"#, r#""mud""#, "[1]"] {
        let raw = Raw::from(serde_json::from_str::<serde_json::Value>(text).unwrap());
        let job = job(&[(monday(), What::Planned { setup: raw })]);
        let (read, faults) = Setup::of(&job);
        assert_eq!(faults.len(), 1, "{text}");
        assert!(faults[0].line().contains("the plan takes the usual settings"), "{}", faults[0].line());
        assert_eq!(read, Setup { machine: Machine::of_kind("compact-wheel-loader"), ..Setup::default() });
    }
}

#[test]
fn a_setup_of_few_words_is_filled_up() {
    let raw = Raw::from(serde_json::json!({"shed_c": 12.0, "from_tomorrow": {"x": 1}}));
    let (read, faults) = Setup::of(&job(&[(monday(), What::Planned { setup: raw })]));
    assert_eq!((read.shed_c, read.shed, faults.len()), (Some(12.0), Shed::default(), 0));
}

#[test]
fn hours_are_learnt_on_the_stages_that_have_them() {
    let plan = hours::work(&loader_figures(), &How::default(), &[], 1);
    let likely = |s: Stage| plan.of(s).minutes.likely;
    // Degrease took half as long again in two sittings, Neutralise exactly as long; Mask was worked on and is open.
    let degrease = likely(Stage::Degrease) * 1.5;
    let entries = [
        setup().planned(),
        worked(Stage::Degrease, degrease * 0.25, 1),
        worked(Stage::Degrease, degrease * 0.75, 1),
        worked(Stage::Neutralise, likely(Stage::Neutralise), 1),
        worked(Stage::Mask, 500.0, 1),
    ];
    let want = (degrease + likely(Stage::Neutralise)) / (likely(Stage::Degrease) + likely(Stage::Neutralise));
    let learnt = past(&[job_with(Stage::Mend, &entries)]);
    assert!(close(&learnt.hours, &[want]), "{learnt:?}, {want}");
    assert!(learnt.items.is_empty());
}

fn loader_figures() -> Figures {
    loader().figures(&machine::places_of_job(&job(&[])))
}

/// A second pair does 0.8 of the first (common practice, no source), and nothing at the gun.
#[test]
fn other_hands_than_planned_are_reckoned_with() {
    let plan = hours::work(&loader_figures(), &How::default(), &[], 1);
    let likely = |s: Stage| plan.of(s).minutes.likely;
    for (stage, power) in [(Stage::Degrease, 1.8), (Stage::SecondPass, 1.0)] {
        let done = job_with(Stage::AirOut, &[setup().planned(), worked(stage, likely(stage) / power, 2)]);
        assert!(close(&past(&[done]).hours, &[1.0]), "{stage:?}");
    }
}

#[test]
fn what_was_left_out_is_not_counted_as_quick_work() {
    let mut done = job_with(Stage::Dewax, &[setup().planned()]);
    let all = all_areas();
    let (left, rest) = all.split_at(2);
    let skip = What::Skipped { stage: Stage::Dewax, areas: left.to_vec(), reason: "clean".into() };
    let plan = hours::work(&loader_figures(), &How::default(), &[], 1);
    let dewax = plan.of(Stage::Dewax);
    let share: f64 = dewax.shares[2..].iter().sum();
    let whats = [
        skip,
        What::Done { stage: Stage::Dewax, areas: rest.to_vec() },
        worked(Stage::Dewax, dewax.minutes.likely * share, 1),
    ];
    for (n, what) in whats.into_iter().enumerate() {
        let id = Uuid::from_u128(5000 + n as u128);
        done.apply(&Entry { v: VERSION, id, job: Uuid::from_u128(7), at: monday(), by: String::new(), what });
    }
    assert!(matches!(done.area(left[0]).unwrap().cell(Stage::Dewax), Cell::Skipped(..)));
    assert!(share < 0.9 && close(&past(&[done]).hours, &[1.0]));
}

#[test]
fn materials_are_learnt_from_what_each_job_would_have_been_told() {
    let need =
        |products: &[Product], item| shop(&setup(), products, &[], Cover::High, 1).line(item).unwrap().need.likely;
    let mut thick = generic(Use::LiquidFilm);
    thick.id = Uuid::from_u128(77);
    thick.sheet.dry_um = Some(Figure::own(40.0));
    let (plain, own) = (need(&[], Item::FilmLiquid), need(&[thick.clone()], Item::FilmLiquid));
    assert!(own > 1.5 * plain);
    let second = Stage::SecondPass;
    let one = job_with(
        Stage::AirOut,
        &[setup().planned(), used(second, Item::FilmLiquid, plain), used(second, Item::FilmLiquid, 0.3 * plain)],
    );
    // The same litres of the thick film are less than it should have taken.
    let snapshot = Box::new(thick.tidied());
    let two = job_with(
        Stage::AirOut,
        &[setup().planned(), What::Product { snapshot }, used(second, Item::FilmLiquid, plain)],
    );
    let unfinished = job_with(Stage::Mask, &[setup().planned(), used(second, Item::FilmLiquid, plain)]);
    let tape = need(&[], Item::Tape);
    let three = job_with(Stage::AirOut, &[setup().planned(), used(Stage::Mask, Item::Tape, 2.0 * tape)]);
    let learnt = past(&[one, two, unfinished, three]);
    assert!(close(&learnt.items[&Item::FilmLiquid], &[1.3, plain / own]), "{learnt:?}");
    assert!(close(&learnt.items[&Item::Tape], &[2.0]), "{learnt:?}");
    assert_eq!((learnt.items.len(), learnt.hours.len()), (2, 0));
}

#[test]
fn the_example_and_an_unreadable_plan_teach_nothing() {
    let taught = job_with(Stage::Mask, &[setup().planned(), worked(Stage::Degrease, 100.0, 1)]);
    assert_eq!(past(std::slice::from_ref(&taught)).hours.len(), 1);
    let example = Job { demo: true, ..taught.clone() };
    let unreadable = Job { setup: Some(Raw::from(serde_json::json!(7))), ..taught };
    let nothing = job_with(Stage::Mask, &[setup().planned()]);
    assert_eq!(past(&[example, unreadable, nothing, Job::default()]), Past::default());
}

#[test]
fn slugs_are_those_of_the_store() {
    for item in Item::ALL {
        assert_eq!(serde_json::to_value(item).unwrap(), item.slug());
        assert_eq!(Item::of_slug(item.slug()), Some(item));
    }
    assert_eq!(Item::of_slug("mud"), None);
}

/// A number as it goes into a line: to six decimals, up to a million.
fn number() -> impl Strategy<Value = f64> + Clone {
    prop_oneof![(-1e6f64..1e6).prop_map(tidy), Just(0.0), Just(-0.0), Just(1e6), (-1000i32..1000).prop_map(f64::from)]
}

fn any_area() -> impl Strategy<Value = OwnArea> {
    let form = (0usize..5, number(), number(), number()).prop_map(|(n, a, b, c)| match n {
        0 => Form::Box { length_m: a, width_m: b, height_m: c },
        1 => Form::Plate { length_m: a, width_m: b },
        2 => Form::Tube { diameter_m: a, length_m: b },
        3 => Form::Wheel { diameter_m: a, width_m: b },
        _ => Form::Rail { length_m: a, web_m: b, flange_m: c },
    });
    let piece = (form, any::<u32>(), number(), number()).prop_map(|(form, count, faces, intricacy)| Piece {
        form,
        count,
        faces,
        intricacy,
    });
    let pieces = prop::collection::vec(piece, 0..3);
    (pieces, prop::option::of(number()), prop::option::of(0usize..6)).prop_map(|(pieces, area_m2, of)| OwnArea {
        pieces,
        area_m2,
        made_of: of.map(|n| Material::ALL[n]),
        exposure: Exposure::Manure,
        condition: Condition::Spots,
    })
}

prop_compose! {
    fn any_setup()(
        n in prop::array::uniform10(number()), some in prop::array::uniform6(prop::option::of(number())), hands: u32,
        areas in prop::collection::btree_map((1u128..9).prop_map(area), any_area(), 0..4),
        days: [bool; 7], flags: [bool; 4], from_min: u32, seed: u64, item in 0..Item::ALL.len(),
    ) -> Setup {
        let sizes = vec![SupplySize { amount: n[7], price: some[5] }];
        Setup {
            machine: Machine { kind: "trailer".into(), length_m: some[0], width_m: some[1], height_m: some[2], areas },
            how: How { hands, first_job: flags[0], filthy: flags[1], skip_wipe: flags[2], lamps_taped: hands / 2 },
            week: Week { from_min, hours: n[0], days },
            shed_c: some[3], warm_up_min: n[1], heater_off_min: n[2],
            supplies: vec![Supply { item: Item::ALL[item], sizes, on_shelf: n[8] }],
            cover: if flags[3] { Cover::Likely } else { Cover::High },
            shed: Shed { length_m: n[3], width_m: n[4], height_m: n[5], doors: Doors::OneOpen, fan_m3_h: some[4],
                heating: Heating::Flame, heater_kw: some[4], shell_w_m2_k: n[6] },
            night_low_c: Some(n[9]), begin: flags[0].then(today), seed,
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 2000, ..ProptestConfig::default() })]

    /// Every number of a setup comes back from the line as the very same number (`{:?}` tells -0.0 from 0.0).
    #[test]
    fn a_setup_goes_through_a_line_bit_for_bit(setup in any_setup()) {
        let entry = Entry { v: VERSION, id: Uuid::from_u128(1), job: Uuid::from_u128(7), at: monday(), by: String::new(),
            what: setup.planned() };
        let line = entry.line();
        let back = Entry::read(&line).unwrap();
        prop_assert_eq!(&back, &entry);
        prop_assert_eq!(back.line(), line);
        let What::Planned { setup: raw } = back.what else { panic!() };
        prop_assert_eq!(format!("{:?}", raw.read::<Setup>().unwrap()), format!("{setup:?}"));
    }

    /// So does every number of a product, and any number after [`Product::tidied`].
    #[test]
    fn a_product_goes_through_a_line_bit_for_bit(n in prop::array::uniform4(-1e6f64..1e6), own: bool) {
        let mut product = Product { batch: "B-17".into(), shelf_ml: n[0], expires: Some(today()), ..generic(Use::LiquidFilm) };
        product.sheet.refit_h = own.then(|| Figure { low: Some(n[1]), high: Some(n[2]), ..Figure::own(n[3]) });
        let product = product.tidied();
        let what = What::Product { snapshot: Box::new(product.clone()) };
        let entry = Entry { v: VERSION, id: Uuid::from_u128(1), job: Uuid::from_u128(7), at: monday(), by: String::new(), what };
        let back = Entry::read(&entry.line()).unwrap();
        prop_assert_eq!(&back, &entry);
        let What::Product { snapshot } = back.what else { panic!() };
        prop_assert_eq!(format!("{snapshot:?}"), format!("{product:?}"));
    }
}
