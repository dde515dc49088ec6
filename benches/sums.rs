//! All sums together for one keystroke: `cargo bench --bench sums`. The budget is 1 ms.
//!
//! Plain `Instant`: the figure wanted is a ceiling, not a trend.

use std::hint::black_box;
use std::time::{Duration, Instant};

use coatwalk::sums::air::{self, Air, Conditions, Doubts, Limits, Low, Needs, Reading};
use coatwalk::sums::area::{self, Part, Shape};
use coatwalk::sums::cure::{self, Credit, Law, Logged};
use coatwalk::sums::dilution::{self, MixRatio};
use coatwalk::sums::film::{self, Paint};
use coatwalk::sums::nozzle::{self, Jet, Target};
use coatwalk::sums::packs::{self, Pack};
use coatwalk::sums::thread::{self, Joint, Strength, Surface};
use coatwalk::sums::vapour::{self, Room, Share, Spraying};
use coatwalk::sums::warmup::{self, AirCourse, Section, Shed, Swing};
use coatwalk::sums::{Answer, bucket};
use coatwalk::units::{self, *};

const BUDGET: Duration = Duration::from_millis(1);
const ROUNDS: u32 = 300;

type Sum = (&'static str, Box<dyn Fn() -> Answer<()>>);

fn sum<T>(name: &'static str, f: impl Fn() -> Answer<T> + 'static) -> Sum {
    (name, Box::new(move || f().map(|answer| drop(black_box(answer)))))
}

fn sums() -> Vec<Sum> {
    vec![
        sum("units: parse and print", || {
            let typed = units::parse(black_box("5 1/2 us gal"), LITRE, None).expect("a quantity");
            Ok(LITRE.print(typed.quantity()))
        }),
        sum("dilution", || {
            let ratio = MixRatio::parts(black_box(3.0), 1.0)?;
            let mix = dilution::to_fill(ratio, LITRE.of(40.0))?;
            let fix = dilution::correct(LITRE.of(10.0), 2.0, 5.0, 100.0, Some(LITRE.of(10.0)))?;
            Ok((mix, mix.in_buckets(LITRE.of(12.0))?, fix))
        }),
        sum("bucket", || bucket::dipstick(&bucket::PAILS[2].vessel(), &[LITRE.of(black_box(12.0)), LITRE.of(4.0)])),
        sum("film", || {
            let paint = Paint { solids_percent: black_box(40.0), thinner_percent: 10.0 };
            let readings = [MICROMETRE.of(42.0); 40];
            Ok((
                film::needed(SQUARE_METRE.of(65.0), MICROMETRE.of(40.0), paint, 45.0)?,
                film::judge(MICROMETRE.of(40.0), None, &readings)?,
            ))
        }),
        sum("air: verdict", || {
            let now = Conditions {
                air: Air::new(CELSIUS.of(black_box(12.0)), 71.0),
                steel: CELSIUS.of(9.0),
                product: None,
            };
            Ok((
                air::verdict(now, &Limits::default(), Doubts::default())?,
                air::wet_bulb(now.air, air::standard_pressure())?,
            ))
        }),
        sum("air: forecast over 100 readings", || {
            let log: Vec<Reading> = (0..100)
                .map(|i| Reading {
                    at: HOUR.of(0.5 * f64::from(i)),
                    air: Air::new(CELSIUS.of(black_box(15.0)), 55.0),
                    steel: CELSIUS.of(14.0),
                })
                .collect();
            air::forecast(&log, Low { at: HOUR.of(62.0), air: CELSIUS.of(3.0) }, &Needs::default())
        }),
        sum("warm-up, steady air, and heater", || {
            let plate = Section {
                thickness: MILLIMETRE.of(black_box(20.0)),
                both_faces: true,
                film: WATT_PER_SQUARE_METRE_KELVIN.of(9.0),
                extra_percent: 30.0,
            };
            let follows = warmup::section(&plate)?;
            let air = AirCourse::steady(CELSIUS.of(15.0));
            let shed = Shed {
                shell: SQUARE_METRE.of(300.0),
                shell_loss: WATT_PER_SQUARE_METRE_KELVIN.of(2.0),
                volume: CUBIC_METRE.of(500.0),
                air_changes_per_hour: 1.0,
                outside: CELSIUS.of(5.0),
                inside: CELSIUS.of(15.0),
                steel: KILOGRAM.of(4000.0),
                extra_percent: 30.0,
                steel_start: CELSIUS.of(5.0),
                steel_target: CELSIUS.of(13.0),
                within: HOUR.of(6.0),
            };
            let time = warmup::time_to(follows.time_constant, CELSIUS.of(4.0), &air, CELSIUS.of(12.0))?;
            Ok((time, warmup::heater(&shed)?))
        }),
        sum("warm-up in air that swings", || {
            let swing = Swing { by: CELSIUS_DIFFERENCE.of(6.0), period: HOUR.of(24.0) };
            let air = AirCourse {
                start: CELSIUS.of(black_box(8.0)),
                rise_per_hour: CELSIUS_DIFFERENCE.of(0.1),
                swing: Some(swing),
            };
            warmup::time_to(HOUR.of(2.0), CELSIUS.of(4.0), &air, CELSIUS.of(12.0))
        }),
        sum("vapour: blend and a shed's course", || {
            let solvent = |name| vapour::solvent(name).expect("a row");
            let liquid = [
                Share { solvent: solvent("n-nonane"), parts: black_box(40.0) },
                Share { solvent: solvent("n-decane"), parts: 20.0 },
            ];
            let blend = vapour::blend(&liquid, 40.0, CELSIUS.of(20.0), air::standard_pressure())?;
            let room =
                Room { volume: CUBIC_METRE.of(500.0), flow: CUBIC_METRE_PER_HOUR.of(2000.0), mixing_factor: 3.0 };
            vapour::course(&Spraying { room, liquid: LITRE.of(4.0), over: HOUR.of(1.5), blend })
        }),
        sum("cure over 100 readings", || {
            let log: Vec<Logged> = (0..100)
                .map(|i| Logged { at: HOUR.of(0.5 * f64::from(i)), temperature: CELSIUS.of(black_box(12.0)) })
                .collect();
            cure::progress(Law::default(), Credit::default(), &log, HOUR.of(50.0), HOUR.of(48.0), CELSIUS.of(8.0))
        }),
        sum("thread", || {
            let m12 = thread::size(black_box("M12")).expect("a size");
            thread::tighten(Joint::Panel, m12, Strength::Class8_8, 75.0, Surface::FilmWetted)
        }),
        sum("nozzle", || {
            nozzle::on_steel(&Jet {
                angle_deg: black_box(25.0),
                distance: CENTIMETRE.of(30.0),
                flow: LITRE_PER_MINUTE.of(9.0),
                pressure: BAR.of(130.0),
                target: Target::Panel,
            })
        }),
        sum("area of 60 parts", || {
            let plate = Shape::Plate { length: METRE.of(black_box(1.2)), width: METRE.of(0.5) };
            area::of_parts(&[Part { shape: plate, count: 2, faces: 2.0, intricacy: 1.5 }; 60])
        }),
        sum("packs: 37 L from five sizes", || {
            let shelf = [(0.5, 19.0), (1.0, 33.0), (5.0, 130.0), (10.0, 240.0), (20.0, 430.0)]
                .map(|(size, price)| Pack { size: LITRE.of(size), price });
            packs::cheapest(LITRE.of(black_box(37.3)), &shelf)
        }),
    ]
}

fn main() {
    let sums = sums();
    println!("{:<36} {:>12} {:>12}", "sum", "middle, µs", "worst, µs");
    let mut together = Duration::ZERO;
    for (name, call) in &sums {
        call().unwrap_or_else(|e| panic!("{name}: {e}"));
        let mut times: Vec<Duration> = (0..ROUNDS)
            .map(|_| {
                let start = Instant::now();
                let _ = black_box(call());
                start.elapsed()
            })
            .collect();
        times.sort_unstable();
        let (middle, worst) = (times[times.len() / 2], times[times.len() - 1]);
        together += middle;
        println!("{name:<36} {:>12.2} {:>12.2}", middle.as_secs_f64() * 1e6, worst.as_secs_f64() * 1e6);
    }
    println!("{:<36} {:>12.2}   budget {} µs", "all together", together.as_secs_f64() * 1e6, BUDGET.as_micros());
    if together > BUDGET {
        eprintln!("all sums together take longer than {} µs", BUDGET.as_micros());
        std::process::exit(1);
    }
}
