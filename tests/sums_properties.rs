//! What must hold for any input. `ranges.rs` holds every sum against the table of ranges.
#![cfg(not(target_arch = "wasm32"))]

#[path = "sums_properties/ranges.rs"]
mod ranges;

use coatwalk::sums::air::{self, Air, Doubts};
use coatwalk::sums::bucket::{self, Mark, Vessel};
use coatwalk::sums::cure::{self, Credit, Law, Logged, Step};
use coatwalk::sums::dilution::{self, MixRatio};
use coatwalk::sums::film::{self, Paint};
use coatwalk::sums::packs::{self, Pack};
use coatwalk::sums::thread::{self, Joint, Strength, Surface, Thread};
use coatwalk::sums::vapour::{self, Room, Until};
use coatwalk::sums::warmup::{self, AirCourse};
use coatwalk::sums::{Field, NotPossible, SumError};
use coatwalk::units::{self, *};
use proptest::prelude::*;

fn near(a: f64, b: f64, share: f64) -> bool {
    (a - b).abs() <= share * a.abs().max(b.abs()).max(1e-9)
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn level_of_volume_is_the_level(
        top in 0.0..800.0f64, bottom in 0.0..800.0f64, height in 10.0..1500.0f64, part in 0.0..1.0f64,
    ) {
        prop_assume!(top.max(bottom) > 20.0);
        let (top, bottom) = (MILLIMETRE.of(top), MILLIMETRE.of(bottom));
        let tank = Vessel::Tank { length: MILLIMETRE.of(500.0), width: MILLIMETRE.of(300.0), height: MILLIMETRE.of(height) };
        let cylinder = Vessel::Pail { top: MILLIMETRE.of(300.0), bottom: MILLIMETRE.of(300.0), height: MILLIMETRE.of(height) };
        let marked = Vessel::Marked(vec![
            Mark { volume: LITRE.of(4.0), level: MILLIMETRE.of(0.4 * height) },
            Mark { volume: LITRE.of(12.0), level: MILLIMETRE.of(height) },
        ]);
        for vessel in [Vessel::Pail { top, bottom, height: MILLIMETRE.of(height) }, tank, cylinder, marked] {
            let level = part * height;
            let volume = bucket::volume_at(&vessel, MILLIMETRE.of(level)).unwrap();
            let again = MILLIMETRE.get(bucket::level_for(&vessel, volume).unwrap());
            // Where a cone closes to a point, a level hardly changes the volume: compare volumes there.
            let volume_again = bucket::volume_at(&vessel, MILLIMETRE.of(again.min(height))).unwrap();
            prop_assert!(near(LITRE.get(volume), LITRE.get(volume_again), 1e-9));
            let slack = if top.value.min(bottom.value) < 0.01 { 0.01 * height } else { 1e-6 * height };
            prop_assert!((again - level).abs() < slack, "{level} {again}");
        }
    }

    #[test]
    fn a_dipstick_rises(first in 0.1..9.0f64, second in 0.1..9.0f64) {
        let stick = bucket::dipstick(&bucket::PAILS[2].vessel(), &[LITRE.of(first), LITRE.of(second)]).unwrap();
        prop_assert!(stick.marks[0].level < stick.marks[1].level && stick.marks[1].level <= stick.rim);
        prop_assert!(near(LITRE.get(stick.marks[1].volume), first + second, 1e-12));
    }

    #[test]
    fn dilution_adds_up_and_scales(water in 0.0..200.0f64, concentrate in 0.01..50.0f64, litres in 0.01..500.0f64, times in 0.1..20.0f64) {
        let ratio = MixRatio::parts(water, concentrate).unwrap();
        let mix = dilution::to_fill(ratio, LITRE.of(litres)).unwrap();
        prop_assert!(near(LITRE.get(mix.water) + LITRE.get(mix.concentrate), litres, 1e-12));
        let more = dilution::to_fill(ratio, LITRE.of(litres * times)).unwrap();
        prop_assert!(near(LITRE.get(more.concentrate), times * LITRE.get(mix.concentrate), 1e-12));
        let back = dilution::from_concentrate(ratio, mix.concentrate).unwrap();
        prop_assert!(near(LITRE.get(back.total), litres, 1e-12));
        let found = MixRatio::in_mix(mix.total, mix.concentrate).unwrap();
        prop_assert!(near(found.percent(), ratio.percent(), 1e-9));
        prop_assert!(near(MixRatio::from_percent(ratio.percent()).unwrap().percent(), ratio.percent(), 1e-12));
        let buckets = mix.in_buckets(LITRE.of(10.0)).unwrap();
        let last = buckets.last.map_or(0.0, |m| LITRE.get(m.total));
        prop_assert!(near(buckets.full as f64 * 10.0 + last, litres, 1e-9));
    }

    #[test]
    fn a_corrected_bucket_is_right(
        litres in 0.1..20.0f64, is in 0.0..60.0f64, wanted in 0.5..60.0f64, concentrate in 61.0..100.0f64, room in 1.0..2.0f64,
    ) {
        let size = litres * room;
        let fix = dilution::correct(LITRE.of(litres), is, wanted, concentrate, Some(LITRE.of(size))).unwrap();
        let added = if wanted > is { concentrate } else { 0.0 };
        let after = dilution::after_adding(LITRE.of(litres), is, fix.amount, added).unwrap();
        prop_assert!(near(after, wanted, 1e-9));
        let by_hand = |drawn: f64, then: f64| ((litres - drawn) * is + then * added) / (litres - drawn + then);
        let level = LITRE.get(fix.same_level);
        prop_assert!(near(by_hand(level, level), wanted, 1e-9));
        match fix.no_room {
            None => prop_assert!(LITRE.get(fix.total) <= size * (1.0 + 1e-9)),
            Some(draw) => {
                let (first, then) = (LITRE.get(draw.first), LITRE.get(draw.then_add));
                prop_assert!(LITRE.get(fix.total) > size && (0.0..=litres).contains(&first));
                prop_assert!(near(litres - first + then, size, 1e-9));
                prop_assert!(near(by_hand(first, then), wanted, 1e-9));
            }
        }
    }

    #[test]
    fn dew_point_stays_under_the_air_and_rises_with_humidity(t in -30.0..60.0f64, rh in 5.0..99.0f64, more in 0.1..1.0f64) {
        let (dry, damp) = (Air::new(CELSIUS.of(t), rh), Air::new(CELSIUS.of(t), rh + more));
        let dew = |a| CELSIUS.get(air::dew_point(a).unwrap());
        prop_assert!(dew(dry) < dew(damp) && dew(damp) <= t + 1e-9);
        let frost = CELSIUS.get(air::frost_point(dry).unwrap());
        prop_assert!(frost >= dew(dry) - 1e-9);
        prop_assert!(air::absolute_humidity(dry).unwrap() < air::absolute_humidity(damp).unwrap());
        let bulb = CELSIUS.get(air::wet_bulb(dry, air::standard_pressure()).unwrap());
        prop_assert!(bulb <= t + 1e-9 && bulb >= frost.min(t) - 1e-9);
        let margin = air::margin(dry, CELSIUS.of(t), Doubts::default()).unwrap();
        prop_assert!(near(CELSIUS_DIFFERENCE.get(margin.gap), t - frost, 1e-9));
        prop_assert!(CELSIUS_DIFFERENCE.get(margin.doubt) >= 0.5);
    }

    #[test]
    fn the_forecast_closes_where_its_curve_does(rh in 30.0..90.0f64, low in -5.0..20.0f64, steel in 10.0..20.0f64) {
        let reading = air::Reading { at: HOUR.of(100.0), air: Air::new(CELSIUS.of(18.0), rh), steel: CELSIUS.of(steel) };
        let needs = air::Needs::default();
        let night = air::Low { at: HOUR.of(112.0), air: CELSIUS.of(low) };
        let forecast = air::forecast(&[reading], night, &needs).unwrap();
        let gaps: Vec<f64> = forecast.ahead.iter().map(|p| CELSIUS_DIFFERENCE.get(p.gap)).collect();
        let closed = |h: f64| forecast.ahead.iter().filter(|p| HOUR.get(p.at) < h - 1e-6).all(|p| CELSIUS_DIFFERENCE.get(p.gap) >= 3.0 - 1e-9);
        match forecast.outlook {
            air::Outlook::ClosedNow => prop_assert!(gaps[0] < 3.0),
            air::Outlook::HoldsToLow { smallest } => {
                prop_assert!(CELSIUS_DIFFERENCE.get(smallest) >= 3.0);
                prop_assert!(gaps.iter().all(|g| *g >= 3.0));
            }
            air::Outlook::TooLate { closes } => prop_assert!(closed(HOUR.get(closes)) && HOUR.get(closes) < 106.25),
            air::Outlook::StartBy { start_by, closes } => {
                prop_assert!(closed(HOUR.get(closes)));
                prop_assert!(near(HOUR.get(closes) - HOUR.get(start_by), 6.25, 1e-9));
            }
        }
    }

    #[test]
    fn warm_up_is_monotone(start in -10.0..10.0f64, air in 12.0..40.0f64, tau in 60.0..50_000.0f64, t in 60.0..50_000.0f64) {
        let course = AirCourse::steady(CELSIUS.of(air));
        let at = |tau: f64, t: f64| CELSIUS.get(warmup::steel_at(SECOND.of(tau), CELSIUS.of(start), &course, SECOND.of(t)).unwrap());
        prop_assert!(at(tau, t) <= at(tau, 1.1 * t) && at(tau, t) <= air + 1e-9 && at(tau, t) >= start);
        prop_assert!(at(1.1 * tau, t) <= at(tau, t) + 1e-12);
        let target = start + 0.7 * (air - start);
        let time = warmup::time_to(SECOND.of(tau), CELSIUS.of(start), &course, CELSIUS.of(target)).unwrap();
        prop_assert!(near(at(tau, SECOND.get(time)), target, 1e-9));
        // The same by the way that looks for it: a rise too small to matter.
        let rising = AirCourse { rise_per_hour: CELSIUS_DIFFERENCE.of(1e-9), ..course };
        let looked = warmup::time_to(SECOND.of(tau), CELSIUS.of(start), &rising, CELSIUS.of(target)).unwrap();
        prop_assert!(near(SECOND.get(looked), SECOND.get(time), 1e-6));
    }

    #[test]
    fn torque_is_linear_in_k(k in 0.05..0.25f64, times in 1.0..3.0f64, mm in 4.0..36.0f64, kilonewton in 1.0..400.0f64) {
        let torque = |k| NEWTON_METRE.get(thread::torque(k, KILONEWTON.of(kilonewton), MILLIMETRE.of(mm)).unwrap());
        prop_assert!(near(torque(k * times), times * torque(k), 1e-12));
    }

    #[test]
    fn packs_cover_at_no_more_than_a_single_size(
        need in 0.0..60.0f64,
        shelf in prop::collection::vec((prop::sample::select(vec![0.5, 0.946352946, 1.0, 2.5, 3.785411784, 5.0, 10.0, 20.0]), 1.0..200.0f64), 1..6),
    ) {
        let packs: Vec<Pack> = shelf.iter().map(|(size, price)| Pack { size: LITRE.of(*size), price: *price }).collect();
        let buy = packs::cheapest(LITRE.of(need), &packs).unwrap();
        prop_assert!(LITRE.get(buy.total) >= need * (1.0 - 1e-9));
        let bill: f64 = buy.counts.iter().zip(&shelf).map(|(n, s)| f64::from(*n) * s.1).sum();
        let litres: f64 = buy.counts.iter().zip(&shelf).map(|(n, s)| f64::from(*n) * s.0).sum();
        prop_assert!(near(bill, buy.cost, 1e-9) && near(litres, LITRE.get(buy.total), 1e-9));
        for (size, price) in &shelf {
            prop_assert!(buy.cost <= (need / size - 1e-9).ceil().max(0.0) * price * (1.0 + 1e-9));
        }
    }

    /// Every set of up to three sizes, counted out.
    #[test]
    fn packs_are_exact(need in 0.1..12.0f64, prices in prop::array::uniform3(1.0..60.0f64)) {
        let sizes = [1.0, 2.5, 4.0];
        let packs: Vec<Pack> = sizes.iter().zip(prices).map(|(s, price)| Pack { size: LITRE.of(*s), price }).collect();
        let buy = packs::cheapest(LITRE.of(need), &packs).unwrap();
        let mut least = f64::INFINITY;
        for a in 0..=12 { for b in 0..=5 { for c in 0..=3 {
            let (a, b, c) = (f64::from(a), f64::from(b), f64::from(c));
            if a * sizes[0] + b * sizes[1] + c * sizes[2] >= need {
                least = least.min(a * prices[0] + b * prices[1] + c * prices[2]);
            }
        }}}
        prop_assert!(near(buy.cost, least, 1e-9), "{} {least}", buy.cost);
    }

    #[test]
    fn cure_goes_both_ways(hours in 0.1..500.0f64, t in -5.0..40.0f64, q10 in 1.2..4.0f64) {
        let law = Law::Q10 { q10, reference: CELSIUS.of(20.0) };
        let step = Step { lasts: HOUR.of(hours), temperature: CELSIUS.of(t) };
        let done = cure::of_steps(law, Credit::default(), &[step]).unwrap();
        let again = cure::time_to_reach(law, Credit::default(), done, CELSIUS.of(t)).unwrap();
        prop_assert!(near(HOUR.get(again), hours, 1e-9));
        let log = [Logged { at: HOUR.of(5.0), temperature: CELSIUS.of(t) }];
        let film = cure::progress(law, Credit::default(), &log, HOUR.of(5.0 + hours), done, CELSIUS.of(0.0)).unwrap();
        prop_assert!(near(film.percent, 100.0, 1e-6));
        prop_assert!(near(HOUR.get(film.finish.unwrap()), 5.0 + hours, 1e-3));
        let warmer = cure::rate(law, Credit::FULL, CELSIUS.of(t + 1.0)).unwrap();
        prop_assert!(warmer > cure::rate(law, Credit::FULL, CELSIUS.of(t)).unwrap());
    }

    #[test]
    fn a_shed_reaches_its_target_when_it_says(volume in 50.0..3000.0f64, flow in 0.0..9000.0f64, source in 0.01..5.0f64, k in 1.0..10.0f64) {
        let room = Room { volume: CUBIC_METRE.of(volume), flow: CUBIC_METRE_PER_HOUR.of(flow), mixing_factor: k };
        let (source, none) = (CUBIC_METRE_PER_HOUR.of(source), CUBIC_METRE_PER_HOUR.of(0.0));
        match vapour::time_to(&room, source, 0.0, 0.2, Until::Rises) {
            Ok(time) if HOUR.get(time) < 9e4 => {
                prop_assert!(near(vapour::concentration(&room, source, 0.0, time).unwrap(), 0.2, 1e-6));
            }
            Ok(_) => {}
            Err(e) => {
                let levels_off = matches!(e, SumError::NotPossible(NotPossible::NeverReaches { .. }));
                prop_assert!(levels_off, "{e}");
                prop_assert!(vapour::levels_off_at(&room, source).unwrap() <= 0.2 * (1.0 + 1e-9));
            }
        }
        if flow > 1.0 {
            let time = vapour::time_to(&room, none, 0.9, 0.1, Until::Falls).unwrap();
            prop_assert!(near(vapour::concentration(&room, none, 0.9, time).unwrap(), 0.1, 1e-9));
        }
    }

    #[test]
    fn film_goes_both_ways(um in 1.0..500.0f64, solids in 5.0..100.0f64, thinner in 0.0..100.0f64, loss in 0.0..80.0f64, area in 0.1..500.0f64) {
        let paint = Paint { solids_percent: solids, thinner_percent: thinner };
        let wet = film::wet_for_dry(MICROMETRE.of(um), paint).unwrap();
        prop_assert!(near(MICROMETRE.get(film::dry_from_wet(wet, paint).unwrap()), um, 1e-12));
        let needed = film::needed(SQUARE_METRE.of(area), MICROMETRE.of(um), paint, loss).unwrap();
        // A thick film on a large area can need more paint than anyone uses: then the way back says which figure is too big.
        match film::achieved(needed.paint, SQUARE_METRE.of(area), solids, loss) {
            Ok(dry) => prop_assert!(near(MICROMETRE.get(dry), um, 1e-9)),
            Err(SumError::Range(e)) => {
                prop_assert_eq!(e.field, Field::PaintVolume);
                prop_assert!(LITRE.get(needed.paint) > Field::PaintVolume.range().most);
            }
            Err(e) => prop_assert!(false, "{e}"),
        }
        prop_assert!(near(LITRE.get(needed.paint) + LITRE.get(needed.thinner), LITRE.get(needed.mixed), 1e-12));
    }

    #[test]
    fn rounded_parts_add_up(parts in prop::collection::vec(0.0..5000.0f64, 1..6)) {
        use units::Step;
        for step in [Step::JUG_ML, Step::DIPSTICK_MM, Step::DIPSTICK_IN] {
            let rounded = round_parts(&parts, step);
            let sum: f64 = rounded.iter().sum();
            prop_assert!(near(sum, step.round(parts.iter().sum()), 1e-12));
            for (part, round) in parts.iter().zip(&rounded) {
                prop_assert!((part - round).abs() <= step.size() * (1.0 + 1e-9));
            }
        }
    }

    /// What is shown, typed in again, shows the same; what is typed comes back to the last digit.
    #[test]
    fn units_round_trip(value in 0.0..100_000.0f64) {
        fn all<Q: Quantity>(value: f64) {
            for unit in Unit::<Q>::all() {
                let shown = unit.print(unit.of(value));
                let typed = parse(&shown, unit, None).unwrap_or_else(|e| panic!("{shown}: {e}"));
                assert_eq!(unit.print(typed.quantity()), shown);
                assert_eq!(parse(&typed.to_string(), unit, None), Ok(typed));
                let back = unit.get(unit.of(value));
                assert!(near(back, value, 1e-13) || (back - value).abs() < 1e-9 * unit.def().si_at_zero.abs());
                for other in Unit::<Q>::all() {
                    let there = convert(value, unit.id(), other.id()).unwrap();
                    let again = convert(there, other.id(), unit.id()).unwrap();
                    assert!((again - value).abs() <= 1e-9 * value.max(1.0), "{unit:?} {other:?}");
                }
            }
        }
        all::<Volume>(value);
        all::<Length>(value);
        all::<Area>(value);
        all::<Temperature>(value);
        all::<TemperatureInterval>(value);
        all::<Torque>(value);
        all::<Pressure>(value);
        all::<VolumeRate>(value);
        all::<Velocity>(value);
        all::<Mass>(value);
        all::<Spread>(value);
        all::<Time>(value);
        all::<Ratio>(value);
    }
}

/// Proof and tensile stress by class are ours; the metric table gives them as inputs, so they are compared here.
#[test]
fn classes_as_in_the_tables() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/checks/fasteners_metric.csv");
    let mut reader = csv::Reader::from_path(path).expect("the table");
    let header = reader.headers().expect("a header").clone();
    let mut compared = 0;
    for record in reader.records() {
        let record = record.expect("a row");
        let cell = |name: &str| {
            let at = header.iter().position(|h| h == name).expect("the column");
            Some(record[at].to_owned()).filter(|c| !c.is_empty())
        };
        let Some(mark) = cell("property_class") else { continue };
        let strength = Strength::from_mark(&mark).expect("a class");
        let diameter = MILLIMETRE.of(cell("d_mm").expect("a diameter").parse().expect("a number"));
        for (column, ours) in [
            ("proof_stress_mpa", thread::proof_stress(strength, diameter)),
            ("tensile_strength_mpa", thread::tensile_strength(strength, diameter)),
        ] {
            let Some(theirs) = cell(column) else { continue };
            let theirs: f64 = theirs.parse().expect("a number");
            assert!(near(MEGAPASCAL.get(ours.expect("a stress")), theirs, 1e-9), "{mark} {column}");
            compared += 1;
        }
        let named = thread::size(&cell("thread").expect("a name")).expect("a size we know");
        let Thread::Metric { diameter: d, pitch } = named else { panic!("a metric size") };
        assert!(near(MILLIMETRE.get(d), MILLIMETRE.get(diameter), 1e-9));
        assert!(near(MILLIMETRE.get(pitch), cell("pitch_mm").expect("a pitch").parse().expect("a number"), 1e-9));
    }
    assert!(compared > 40);
}

/// No figure for any joint of the list, whatever is asked.
#[test]
fn refused_joints_get_no_figure() {
    let m10 = thread::size("M10").expect("a size");
    let mut refused = 0;
    for joint in Joint::ALL {
        let dry = thread::tighten(joint, m10, Strength::Class8_8, 75.0, Surface::AsReceived);
        let manual = thread::manual(joint, NEWTON_METRE.of(50.0), thread::ManualSays::Dry, Surface::AsReceived);
        match joint.refusal() {
            None => assert!(dry.is_ok() && manual.is_ok()),
            Some(refusal) => {
                refused += 1;
                let expected = SumError::NotPossible(NotPossible::Refused(refusal));
                assert_eq!((dry.unwrap_err(), manual.unwrap_err()), (expected.clone(), expected));
                assert!(!refusal.words().is_empty());
            }
        }
    }
    assert_eq!(refused, 13);
}
