//! What to buy: the trade's rules of thumb (common practice, no source, unless a test says otherwise).

use coatwalk::job::hours::How;
use coatwalk::job::materials::{Cover, Item, Measure, Show, Supply, SupplySize, how, note, text};
use coatwalk::job::plan::Setup;
use coatwalk::job::product::{Figure, Product, Size, Use};
use coatwalk::sums::film::{self, Paint};
use coatwalk::units::{LITRE, METRE, MICROMETRE, SQUARE_FOOT, SQUARE_METRE, US_GALLON, UnitSet};

use super::*;

/// "About one US gallon of thin film" for a compact wheel loader of 5.0 × 1.75 × 2.5 m.
#[test]
fn a_compact_loader_takes_about_a_gallon_of_thin_film() {
    let list = shop(&setup(), &[], &[], Cover::High, 1);
    let film = list.line(Item::FilmLiquid).unwrap().need;
    println!("film {film:?}");
    assert!(film.low < 3.8 && 3.8 < film.high, "{film:?}");
    assert!((3.0..=5.0).contains(&film.likely), "{film:?}");
}

/// Four cans, two to seven.
#[test]
fn a_compact_loader_takes_about_four_cans() {
    let cans = shop(&setup(), &[], &[], Cover::High, 1).line(Item::FilmCans).unwrap().need;
    println!("cans {cans:?}");
    assert!((3.5..=4.5).contains(&cans.likely), "{cans:?}");
    assert!((1.7..=2.5).contains(&cans.low) && (6.2..=7.5).contains(&cans.high), "{cans:?}");
}

/// A film without doubt is what the film sum says, which is held against published figures elsewhere.
#[test]
fn without_doubt_the_list_says_what_the_film_sum_says() {
    let mut own = generic(Use::LiquidFilm);
    own.sheet.solids_pct = Some(Figure::own(38.0));
    own.sheet.dry_um = Some(Figure::own(12.0));
    own.sheet.loss_pct = Some(Figure::own(40.0));
    let mut machine = loader();
    let places = machine::places_of_job(&job(&[]));
    for id in all_areas() {
        machine.areas.insert(id, machine::OwnArea { area_m2: Some(3.0), ..Default::default() });
    }
    let figures = machine.figures(&places);
    assert!((figures.m2.likely - 42.0).abs() < 1e-9);
    let setup = setup();
    let work = coatwalk::job::hours::work(&figures, &setup.how, &[], 1);
    let list = list(&Inputs {
        figures: &figures,
        work: &work,
        how: &setup.how,
        day_hours: 8.0,
        products: &[own],
        supplies: &[],
        past: &BTreeMap::new(),
        cover: Cover::Likely,
        today: today(),
        seed: 3,
    });
    let sum = film::needed(SQUARE_METRE.of(42.0), MICROMETRE.of(12.0), Paint::neat(38.0), 40.0).unwrap();
    let need = list.line(Item::FilmLiquid).unwrap().need;
    // Only the measured area's few per cent are left.
    assert!((need.likely / LITRE.get(sum.paint) - 1.0).abs() < 1e-3, "{need:?}");
    assert!((need.high / need.low - 1.05 / 0.95).abs() < 2e-3, "{need:?}");
}

#[test]
fn every_material_is_on_the_list_and_every_end_is_in_order() {
    let list = shop(&setup(), &[], &[], Cover::High, 1);
    let items: Vec<Item> = list.lines.iter().map(|l| l.item).collect();
    assert_eq!(items, Item::ALL);
    for line in &list.lines {
        println!("{:?}: {:?}", line.item, line.need);
        assert!(line.need.is_ordered() && line.need.low > 0.0, "{line:?}");
        if line.item.measure() == Measure::Pieces {
            assert_eq!(line.missing, line.missing.round());
        }
        let bought: f64 = line.buy.iter().map(|b| f64::from(b.count) * b.amount).sum();
        assert!(line.item == Item::Water || bought >= line.missing - 1e-9, "{line:?}");
    }
    assert_eq!(shop(&setup(), &[], &[], Cover::High, 1), list, "same seed, same list");
}

#[test]
fn the_shelf_is_taken_off_and_the_rest_is_packed_at_least_cost() {
    let mut film = generic(Use::LiquidFilm);
    film.name = "Own film (invented)".into();
    film.sizes = vec![Size { size_ml: 1000.0, price: Some(30.0) }, Size { size_ml: 5000.0, price: Some(110.0) }];
    let with = |shelf_ml: f64| {
        let film = Product { shelf_ml, ..film.clone() };
        shop(&setup(), &[film], &[], Cover::Likely, 1).line(Item::FilmLiquid).unwrap().clone()
    };
    let none = with(0.0);
    // Every way to cover about four litres with these two: five singles never beat the big one.
    let need = none.missing;
    let by_hand = (0..=9)
        .flat_map(|small| (0..=2).map(move |big| (small, big)))
        .filter(|(small, big)| f64::from(*small) + 5.0 * f64::from(*big) >= need)
        .map(|(small, big)| 30.0 * f64::from(small) + 110.0 * f64::from(big))
        .fold(f64::INFINITY, f64::min);
    assert_eq!(none.cost, Some(by_hand));
    let some = with(3000.0);
    assert!((some.missing - (need - 3.0)).abs() < 1e-9);
    assert!(some.cost < none.cost);
    let enough = with(20_000.0);
    assert_eq!((enough.missing, enough.buy.len(), enough.cost), (0.0, 0, Some(0.0)));
}

#[test]
fn missing_prices_leave_the_amounts_and_say_so() {
    let rags =
        Supply { item: Item::Rags, sizes: vec![SupplySize { amount: 25.0, price: Some(9.5) }], on_shelf: 10.0 };
    let list = shop(&setup(), &[], &[rags], Cover::High, 1);
    assert!(list.line(Item::Rags).unwrap().cost.is_some());
    assert!(list.unpriced.contains(&Item::FilmLiquid) && !list.unpriced.contains(&Item::Rags));
    assert_eq!(list.cost, list.line(Item::Rags).unwrap().cost);
    let words = text(&list, &Show::METRIC);
    assert!(words.contains("No price yet: Film, liquid"), "{words}");
    let film = list.line(Item::FilmLiquid).unwrap();
    assert!(!film.buy.is_empty());
}

#[test]
fn past_jobs_shift_the_list_and_say_that_they_do() {
    let plan = fresh(&setup(), monday(), &Utc);
    let of = |past: &BTreeMap<Item, Vec<f64>>| {
        list(&Inputs {
            figures: &plan.figures,
            work: &plan.work,
            how: &How::default(),
            day_hours: 8.0,
            products: &[],
            supplies: &[],
            past,
            cover: Cover::High,
            today: today(),
            seed: 1,
        })
        .line(Item::FilmLiquid)
        .unwrap()
        .clone()
    };
    let before = of(&BTreeMap::new());
    let after = of(&[(Item::FilmLiquid, vec![1.4, 1.3])].into());
    assert!(after.need.likely > 1.2 * before.need.likely && after.need.likely < 1.4 * before.need.likely);
    assert!(after.need.high / after.need.low < 0.6 * before.need.high / before.need.low);
    assert!(after.from.starts_with("from your 2 jobs"), "{}", after.from);
}

#[test]
fn the_shared_text_is_plain_lines_in_the_users_units() {
    let list = shop(&setup(), &[], &[], Cover::High, 1);
    let metric = text(&list, &Show::METRIC);
    assert!(metric.starts_with("Shopping list\n- Film, liquid: likely "), "{metric}");
    assert!(metric.contains(" L, ") && metric.contains("m²") && !metric.contains("gal"));
    let us = text(&list, &Show { volume: US_GALLON, area: SQUARE_FOOT, length: METRE });
    assert!(us.contains("US gal") && us.contains("ft²") && !us.contains(" L"), "{us}");
    for line in &list.lines {
        assert!(metric.contains(&line.words(&Show::METRIC)), "{}", line.item.title());
        assert!(metric.contains(&line.basket(&Show::METRIC)), "{}", line.item.title());
    }
    println!("{metric}");
    for word in ["safe", "passed", "verified", "approved", "!"] {
        assert!(!metric.contains(word), "{word}");
    }
}

#[test]
fn a_product_is_read_back_as_it_was_written() {
    for used_as in Use::ALL {
        let product = Product { batch: "B-17".into(), expires: Some(today()), ..generic(used_as) };
        let line = serde_json::to_string(&product).unwrap();
        assert_eq!(serde_json::from_str::<Product>(&line).unwrap(), product);
        for unit in ["_pct", "_ml", "_c\"", "_h\""] {
            let named = line.contains(unit);
            assert!(named || !matches!(used_as, Use::LiquidFilm), "{unit} in {line}");
        }
    }
    // A product of few figures, as a user begins, is read; the rest is missing, not nothing.
    let bare = r#"{"v":1,"id":"00000000-0000-0000-0000-000000000000","used_as":"liquid_film","name":"Mine"}"#;
    let product: Product = serde_json::from_str(bare).unwrap();
    assert_eq!(product.sheet.refit_h, None);
    let setup: Setup = serde_json::from_str(&serde_json::to_string(&super::setup()).unwrap()).unwrap();
    assert_eq!(setup, super::setup());
}

#[test]
fn a_bigger_machine_takes_more_of_everything_that_grows() {
    let small = shop(&setup(), &[], &[], Cover::High, 1);
    let big = Setup { machine: loader().sized(7.5, 2.5, 3.3), ..setup() };
    let big = shop(&big, &[], &[], Cover::High, 1);
    for item in [Item::FilmLiquid, Item::FilmCans, Item::Degreaser, Item::Neutraliser, Item::Water, Item::Paper] {
        assert!(big.line(item).unwrap().need.likely > 1.5 * small.line(item).unwrap().need.likely, "{item:?}");
    }
}

#[test]
fn what_is_shared_is_what_the_screen_shows_line_by_line() {
    let mut film = Product { name: "Own film (invented)".into(), expires: Some(today()), ..generic(Use::LiquidFilm) };
    film.sizes = vec![Size { size_ml: 5000.0, price: Some(110.0) }];
    film.shelf_ml = 500.0;
    let odd = Supply { item: Item::Rags, sizes: vec![SupplySize { amount: -3.0, price: None }], on_shelf: 0.0 };
    let list = shop(&setup(), &[film], &[odd], Cover::High, 1);
    for show in [Show::METRIC, Show::of(UnitSet::Us)] {
        let words = text(&list, &show);
        let mut shared = words.lines().skip(1);
        for line in list.taken() {
            let first = shared.next().unwrap();
            for part in [line.title(), line.need_words(&show), line.basket_words(&show)] {
                assert!(first.contains(&part), "{part} in {first}");
            }
            assert_eq!(line.shelf_words(&show).is_some(), first.contains("on the shelf"), "{first}");
            for fault in list.faults_of(line) {
                assert_eq!(shared.next().unwrap().trim(), note(fault));
            }
        }
        let rest: Vec<&str> = shared.collect();
        let foot: Vec<String> =
            list.foot(&show).into_iter().chain(list.other_faults().into_iter().map(note)).collect();
        assert_eq!(rest, foot);
    }
    let film = list.line(Item::FilmLiquid).unwrap();
    assert_eq!(film.title(), "Film, liquid (Own film (invented))");
    assert!(
        film.basket_words(&Show::METRIC).ends_with(", 110.00") || film.basket_words(&Show::METRIC).contains("220.00")
    );
    let need = film.need_words(&Show::METRIC);
    assert_eq!(need.matches(" L").count(), 2, "one unit for the likely figure, one for both ends: {need}");
    // Every fault has one place, and no more.
    let placed: usize = list.taken().map(|l| list.faults_of(l).len()).sum();
    assert_eq!(placed + list.other_faults().len(), list.faults.len());
    let rags = list.line(Item::Rags).unwrap();
    assert_eq!(list.faults_of(rags).len(), 1, "a size of less than nothing is named at its line");
    assert_eq!(list.faults_of(list.line(Item::FilmCans).unwrap()).len(), 1, "no cans are chosen");
}

#[test]
fn the_cost_of_an_area_is_for_the_users_own_measure() {
    let rags =
        Supply { item: Item::Rags, sizes: vec![SupplySize { amount: 20.0, price: Some(10.0) }], on_shelf: 0.0 };
    let list = shop(&setup(), &[], &[rags], Cover::High, 1);
    let per_m2 = list.cost_per_m2.unwrap();
    let figure = |show: Show| list.foot(&show)[1].split_once(' ').unwrap().0.parse::<f64>().unwrap();
    assert!((figure(Show::METRIC) - per_m2).abs() < 0.006);
    // 1 ft² is 0.09290304 m² (NIST SP 811).
    assert!((figure(Show::of(UnitSet::Us)) - per_m2 * 0.092_903_04).abs() < 0.006);
    assert!(list.foot(&Show::METRIC)[0].contains("so far"), "some have no price yet");
}

#[test]
fn every_line_says_how_it_is_reckoned_with_the_figures_that_were_taken() {
    let plan = fresh(&setup(), monday(), &Utc);
    let mut film = generic(Use::LiquidFilm);
    film.sheet.solids_pct = Some(Figure::own(31.0));
    let said = |item: Item, set: UnitSet| {
        let inputs = Inputs {
            figures: &plan.figures,
            work: &plan.work,
            how: &How::default(),
            day_hours: 8.0,
            products: std::slice::from_ref(&film),
            supplies: &[],
            past: &BTreeMap::new(),
            cover: Cover::High,
            today: today(),
            seed: 1,
        };
        how(item, &inputs, set)
    };
    for item in Item::ALL {
        for set in UnitSet::ALL {
            let words = said(item, set);
            println!("{words}");
            assert!(words.ends_with('.') && !words.contains("NaN") && !words.contains(".."), "{words}");
        }
        assert!(!said(item, UnitSet::Us).contains(" m²"), "{}", said(item, UnitSet::Us));
    }
    assert!(said(Item::FilmLiquid, UnitSet::Metric).contains("31 % solids"));
    assert!(said(Item::Degreaser, UnitSet::Metric).contains("3 water to 1 concentrate"));
    // The words hold the rate: 0.6 rags a m² are 6 for ten.
    assert!(said(Item::Rags, UnitSet::Metric).starts_with("6 (3 to 12) for each 10 m²"));
}

#[test]
fn own_sizes_take_the_place_of_the_usual_ones() {
    let mut all = Vec::new();
    assert_eq!(Supply::sizes(&all, Item::Paper).iter().map(|s| s.amount).collect::<Vec<_>>(), [15.0, 45.0]);
    Supply::of(&mut all, Item::Paper).sizes.push(SupplySize { amount: 30.0, price: Some(9.0) });
    Supply::of(&mut all, Item::Paper).on_shelf = 4.0;
    assert_eq!(all.len(), 1);
    assert_eq!(Supply::sizes(&all, Item::Paper).len(), 1);
    assert_eq!(Supply::sizes(&all, Item::Foil).len(), 2);
}
