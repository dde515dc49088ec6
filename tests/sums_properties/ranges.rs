//! Every sum against the table of ranges: inside, finite figures and no panic; outside, the error that names the
//! field; and no row of the table that no sum reads.

use std::cell::Cell;

use coatwalk::sums::Field::{self, *};
use coatwalk::sums::air::{self, Air, Conditions, Doubts, Limits, Low, Needs, Reading};
use coatwalk::sums::area::{self, Lies, Overall, Part, Shape};
use coatwalk::sums::band::Band;
use coatwalk::sums::bucket::{self, Mark, Vessel};
use coatwalk::sums::cure::{self, Credit, Law, Logged, Step};
use coatwalk::sums::dilution::{self, MixRatio, Per};
use coatwalk::sums::film::{self, Paint};
use coatwalk::sums::nozzle::{self, Jet, Target};
use coatwalk::sums::packs::{self, Pack};
use coatwalk::sums::range::RANGES;
use coatwalk::sums::thread::{self, Joint, ManualSays, Strength, Surface, Thread};
use coatwalk::sums::vapour::{self, Blended, Room, Spraying, Until};
use coatwalk::sums::warmup::{self, AirCourse, Fuel, Section, Shed};
use coatwalk::sums::{Answer, SumError};
use coatwalk::units::*;
use proptest::prelude::*;
use proptest::test_runner::TestRunner;

/// Values by field, in the table's own units, while one sum is called.
struct Given<'a> {
    fields: &'a [Field],
    values: &'a [f64],
}

impl Given<'_> {
    fn at(&self, field: Field, turn: usize) -> f64 {
        let mut places = (0..self.fields.len()).filter(|i| self.fields[*i] == field);
        self.values[places.nth(turn).unwrap_or_else(|| panic!("{field:?} is not among the probe's fields"))]
    }
    /// A bare number.
    fn n(&self, field: Field) -> f64 {
        self.at(field, 0)
    }
    /// A quantity.
    fn q<Q: Quantity>(&self, field: Field) -> Q {
        self.q2(field, 0)
    }
    /// A quantity of a field the sum takes more than once.
    fn q2<Q: Quantity>(&self, field: Field, turn: usize) -> Q {
        let unit = field.range().unit.expect("a unit");
        assert_eq!(unit.kind, Q::KIND, "{field:?}");
        Q::from_si(unit.to_si(self.at(field, turn)))
    }
}

type Call = fn(&Given) -> Answer<String>;
type Probe = (&'static str, &'static [Field], Call);

/// All figures of an answer, as its debug print: it shows every field, private ones too.
fn figures(answer: impl std::fmt::Debug) -> String {
    format!("{answer:?}")
}

fn finite(figures: &str) -> bool {
    !figures.contains("NaN") && !figures.contains("inf")
}

fn ratio() -> MixRatio {
    MixRatio::parts(3.0, 1.0).expect("a ratio")
}

const PROBES: &[Probe] = &[
    ("MixRatio::parts, to_fill", &[WaterParts, ConcentrateParts, FillVolume, BucketSize, ConcentrateVolume], |g| {
        let mix = dilution::to_fill(MixRatio::parts(g.n(WaterParts), g.n(ConcentrateParts))?, g.q(FillVolume))?;
        Ok(figures((mix, mix.in_buckets(g.q(BucketSize))?, mix.supply(g.q(ConcentrateVolume))?)))
    }),
    ("MixRatio::from_percent, from_concentrate", &[MixPercent, ConcentrateVolume], |g| {
        Ok(figures(dilution::from_concentrate(MixRatio::from_percent(g.n(MixPercent))?, g.q(ConcentrateVolume))?))
    }),
    ("MixRatio::from_strength", &[StrengthPerWater, StrengthPerMix], |g| {
        let water = MixRatio::from_strength(g.q(StrengthPerWater), Per::Water)?;
        Ok(figures((water, water.strength(Per::Water), MixRatio::from_strength(g.q(StrengthPerMix), Per::Mix)?)))
    }),
    ("MixRatio::in_bucket", &[WaterVolume, ConcentrateVolume], |g| {
        let r = MixRatio::in_bucket(g.q(WaterVolume), g.q(ConcentrateVolume))?;
        Ok(figures((r, r.percent(), r.water_per_concentrate(), r.ml_per_litre(Per::Water))))
    }),
    ("MixRatio::in_mix", &[FillVolume, ConcentrateVolume], |g| {
        let r = MixRatio::in_mix(g.q(FillVolume), g.q(ConcentrateVolume))?;
        Ok(figures((r, r.percent(), r.oz_per_us_gallon(Per::Mix))))
    }),
    ("for_area", &[Area, VolumePerArea], |g| {
        Ok(figures(dilution::for_area(ratio(), g.q(Area), g.q(VolumePerArea))?))
    }),
    ("blend", &[FillVolume, BucketPercent, BucketPercent, BucketPercent], |g| {
        let p = |i| g.at(BucketPercent, i);
        Ok(figures(dilution::blend(g.q(FillVolume), p(0), p(1), p(2))?))
    }),
    (
        "correct, after_adding",
        &[FillVolume, BucketPercent, BucketPercent, BucketPercent, BucketSize, AddedVolume],
        |g| {
            let p = |i| g.at(BucketPercent, i);
            let after = dilution::after_adding(g.q(FillVolume), p(0), g.q(AddedVolume), p(1))?;
            Ok(figures((after, dilution::correct(g.q(FillVolume), p(0), p(1), p(2), Some(g.q(BucketSize)))?)))
        },
    ),
    ("dew, frost, wet bulb, humidity", &[AirTemperature, RelativeHumidity, AirPressure], |g| {
        let air = Air::new(g.q(AirTemperature), g.n(RelativeHumidity));
        Ok(figures((
            air::dew_point(air)?,
            air::frost_point(air)?,
            air::absolute_humidity(air)?,
            air::wet_bulb(air, g.q(AirPressure))?,
        )))
    }),
    (
        "verdict",
        &[
            AirTemperature,
            RelativeHumidity,
            SteelTemperature,
            RhDoubt,
            TemperatureDoubt,
            GapNeeded,
            ProductTemperature,
        ],
        |g| {
            let doubts =
                Doubts { rh_percent: g.n(RhDoubt), air: g.q(TemperatureDoubt), steel: g.q(TemperatureDoubt) };
            let now = Conditions {
                air: Air::new(g.q(AirTemperature), g.n(RelativeHumidity)),
                steel: g.q(SteelTemperature),
                product: Some(g.q(ProductTemperature)),
            };
            let limits = Limits { gap: g.q(GapNeeded), ..Limits::default() };
            Ok(figures((air::verdict(now, &limits, doubts)?, air::coldest(&[now.steel])?)))
        },
    ),
    (
        "forecast",
        &[ReadingTime, AirTemperature, RelativeHumidity, SteelTemperature, AirTemperature, GapNeeded, Duration],
        |g| {
            let air = Air::new(g.q(AirTemperature), g.n(RelativeHumidity));
            let reading = Reading { at: g.q(ReadingTime), air, steel: g.q(SteelTemperature) };
            let later = HOUR.of((g.n(ReadingTime) + 9.0).min(ReadingTime.range().most));
            let needs = Needs { gap: g.q(GapNeeded), work: g.q(Duration), touch_dry: HOUR.of(4.0) };
            let low = Low { at: later, air: g.q2(AirTemperature, 1) };
            Ok(figures(air::forecast(&[reading, reading], low, &needs)?))
        },
    ),
    ("cure by Q10", &[Q10, CureTemperature, CureTemperature, Duration, EquivalentHours], |g| {
        let law = Law::Q10 { q10: g.n(Q10), reference: g.q(CureTemperature) };
        let at = g.q2(CureTemperature, 1);
        let step = Step { lasts: g.q(Duration), temperature: at };
        Ok(figures((
            cure::of_steps(law, Credit::FULL, &[step])?,
            cure::time_to_reach(law, Credit::FULL, g.q(EquivalentHours), at)?,
        )))
    }),
    ("cure by Arrhenius", &[ActivationQ, CureTemperature, ReadingTime, CureTemperature, EquivalentHours], |g| {
        let law = Law::Arrhenius { q_over_r_k: g.n(ActivationQ), reference: g.q(CureTemperature) };
        let at = g.q2(CureTemperature, 1);
        let log = [Logged { at: g.q(ReadingTime), temperature: at }];
        let now = HOUR.of((g.n(ReadingTime) + 30.0).min(ReadingTime.range().most));
        Ok(figures(cure::progress(law, Credit::default(), &log, now, g.q(EquivalentHours), at)?))
    }),
    ("pail", &[PailDiameter, PailDiameter, VesselHeight, Level], |g| {
        let pail = Vessel::Pail { top: g.q(PailDiameter), bottom: g.q2(PailDiameter, 1), height: g.q(VesselHeight) };
        Ok(figures((bucket::holds(&pail)?, bucket::volume_at(&pail, g.q(Level))?)))
    }),
    ("pail, by volume", &[PailDiameter, PailDiameter, VesselHeight, VesselVolume], |g| {
        let pail = Vessel::Pail { top: g.q(PailDiameter), bottom: g.q2(PailDiameter, 1), height: g.q(VesselHeight) };
        Ok(figures((bucket::level_for(&pail, g.q(VesselVolume))?, bucket::dipstick(&pail, &[g.q(VesselVolume)])?)))
    }),
    ("tank", &[TankSide, TankSide, VesselHeight, Level], |g| {
        let tank = Vessel::Tank { length: g.q(TankSide), width: g.q2(TankSide, 1), height: g.q(VesselHeight) };
        Ok(figures(bucket::volume_at(&tank, g.q(Level))?))
    }),
    ("marked", &[VesselVolume, Level], |g| {
        let vessel = Vessel::Marked(vec![Mark { volume: g.q(VesselVolume), level: g.q(Level) }]);
        Ok(figures((bucket::level_for(&vessel, g.q(VesselVolume))?, bucket::volume_at(&vessel, g.q(Level))?)))
    }),
    ("film", &[Solids, Thinner, DryFilm, Loss, Area], |g| {
        let paint = Paint { solids_percent: g.n(Solids), thinner_percent: g.n(Thinner) };
        Ok(figures(film::needed(g.q(Area), g.q(DryFilm), paint, g.n(Loss))?))
    }),
    ("film, wet", &[Solids, Thinner, WetFilm, Loss], |g| {
        let paint = Paint { solids_percent: g.n(Solids), thinner_percent: g.n(Thinner) };
        Ok(figures((film::dry_from_wet(g.q(WetFilm), paint)?, film::spread_wet(g.q(WetFilm), g.n(Loss))?)))
    }),
    ("film achieved", &[PaintVolume, Area, Solids, Loss], |g| {
        Ok(figures(film::achieved(g.q(PaintVolume), g.q(Area), g.n(Solids), g.n(Loss))?))
    }),
    ("film readings", &[DryFilm, FilmReading, WetFilm], |g| {
        let verdict = film::judge(g.q(DryFilm), Some(g.q(DryFilm)), &[g.q(FilmReading)])?;
        Ok(figures((verdict, film::solids_from(g.q(WetFilm), g.q(DryFilm))?)))
    }),
    ("time constant", &[Mass, SpecificHeat, WarmArea, FilmCoefficient], |g| {
        Ok(figures(warmup::time_constant(g.q(Mass), g.q(SpecificHeat), g.q(WarmArea), g.q(FilmCoefficient))?))
    }),
    (
        "steel over time",
        &[
            TimeConstant,
            BodyTemperature,
            BodyTemperature,
            SurroundingTemperature,
            Ramp,
            Field::Swing,
            SwingPeriod,
            WarmTime,
        ],
        |g| {
            let swing = warmup::Swing { by: g.q(Field::Swing), period: g.q(SwingPeriod) };
            let air = AirCourse { start: g.q(SurroundingTemperature), rise_per_hour: g.q(Ramp), swing: Some(swing) };
            let (tau, start) = (g.q(TimeConstant), g.q(BodyTemperature));
            let steel = warmup::steel_at(tau, start, &air, g.q(WarmTime))?;
            Ok(figures((steel, warmup::time_to(tau, start, &air, g.q2(BodyTemperature, 1))?)))
        },
    ),
    ("steel in steady air", &[TimeConstant, BodyTemperature, BodyTemperature, SurroundingTemperature], |g| {
        let air = AirCourse::steady(g.q(SurroundingTemperature));
        Ok(figures(warmup::time_to(g.q(TimeConstant), g.q(BodyTemperature), &air, g.q2(BodyTemperature, 1))?))
    }),
    ("section", &[Thickness, FilmCoefficient, ExtraHeat], |g| {
        let of = |both_faces| Section {
            thickness: g.q(Thickness),
            both_faces,
            film: g.q(FilmCoefficient),
            extra_percent: g.n(ExtraHeat),
        };
        Ok(figures((warmup::section(&of(true))?, warmup::section(&of(false))?)))
    }),
    (
        "heater",
        &[
            WarmArea,
            FilmCoefficient,
            ShedVolume,
            AirChanges,
            SurroundingTemperature,
            SurroundingTemperature,
            Mass,
            ExtraHeat,
            BodyTemperature,
            BodyTemperature,
            HeatTime,
        ],
        |g| {
            Ok(figures(warmup::heater(&Shed {
                shell: g.q(WarmArea),
                shell_loss: g.q(FilmCoefficient),
                volume: g.q(ShedVolume),
                air_changes_per_hour: g.n(AirChanges),
                outside: g.q(SurroundingTemperature),
                inside: g.q2(SurroundingTemperature, 1),
                steel: g.q(Mass),
                extra_percent: g.n(ExtraHeat),
                steel_start: g.q(BodyTemperature),
                steel_target: g.q2(BodyTemperature, 1),
                within: g.q(HeatTime),
            })?))
        },
    ),
    ("flame water", &[HeaterPower, WarmTime], |g| {
        Ok(figures(warmup::flame_water(g.q(HeaterPower), g.q(WarmTime), Fuel::Kerosene)?))
    }),
    ("vapour", &[LiquidDensity, Field::MolarMass, LiquidTemperature, AirPressure], |g| {
        Ok(figures(vapour::per_liquid(
            g.q(LiquidDensity),
            g.q(Field::MolarMass),
            g.q(LiquidTemperature),
            g.q(AirPressure),
        )?))
    }),
    ("air for vapour", &[VapourRatio, Lel, TargetOfLel, SprayVolume], |g| {
        let blend = Blended { vapour_per_liquid: g.n(VapourRatio), lel_percent: g.n(Lel) };
        Ok(figures((
            vapour::sprayed(g.q(SprayVolume), blend, g.n(TargetOfLel))?,
            vapour::air_per_liquid(g.n(VapourRatio), g.n(Lel), g.n(TargetOfLel))?,
        )))
    }),
    ("blend of solvents", &[BlendPart, BlendPart, LiquidTemperature, AirPressure], |g| {
        let share = vapour::Share { solvent: vapour::solvent("toluene").expect("a row"), parts: g.at(BlendPart, 1) };
        Ok(figures(vapour::blend(&[share], g.at(BlendPart, 0), g.q(LiquidTemperature), g.q(AirPressure))?))
    }),
    ("room", &[ShedVolume, Airflow, MixingFactor, Generation, VapourPercent, VapourPercent, Duration], |g| {
        let room = Room { volume: g.q(ShedVolume), flow: g.q(Airflow), mixing_factor: g.n(MixingFactor) };
        let [start, target] = [0, 1].map(|i| g.at(VapourPercent, i));
        let time = vapour::time_to(&room, g.q(Generation), start, target, Until::Rises);
        let fall = vapour::time_to(&room, g.q(Generation), start, target, Until::Falls);
        let flow = vapour::flow_needed(g.q(Generation), target, g.n(MixingFactor))?;
        let now = vapour::concentration(&room, g.q(Generation), start, g.q(Duration))?;
        Ok(figures((time, fall, now, flow, vapour::levels_off_at(&room, g.q(Generation))?)))
    }),
    ("removal", &[AirChanges, MixingFactor, Removal], |g| {
        Ok(figures(vapour::removal(g.n(AirChanges), g.n(MixingFactor), g.n(Removal))?))
    }),
    ("course", &[ShedVolume, Airflow, MixingFactor, SprayVolume, SprayTime, VapourRatio, Lel], |g| {
        Ok(figures(vapour::course(&Spraying {
            room: Room { volume: g.q(ShedVolume), flow: g.q(Airflow), mixing_factor: g.n(MixingFactor) },
            liquid: g.q(SprayVolume),
            over: g.q(SprayTime),
            blend: Blended { vapour_per_liquid: g.n(VapourRatio), lel_percent: g.n(Lel) },
        })?))
    }),
    ("metric thread", &[ThreadDiameter, Pitch, Preload], |g| {
        let thread = Thread::Metric { diameter: g.q(ThreadDiameter), pitch: g.q(Pitch) };
        Ok(figures(thread::tighten(Joint::Panel, thread, Strength::Class8_8, g.n(Preload), Surface::ZincDry)?))
    }),
    ("inch thread", &[ThreadDiameter, ThreadsPerInch], |g| {
        let thread = Thread::Inch { diameter: g.q(ThreadDiameter), per_inch: g.n(ThreadsPerInch) };
        Ok(figures(thread::stress_area(thread)?))
    }),
    ("torque", &[StressArea, ProofStress, Preload, KFactor, ClampForce, ThreadDiameter], |g| {
        let preload = thread::preload(g.q(StressArea), g.q(ProofStress), g.n(Preload))?;
        Ok(figures((preload, thread::torque(g.n(KFactor), g.q(ClampForce), g.q(ThreadDiameter))?)))
    }),
    ("manual", &[ManualTorque], |g| {
        Ok(figures(thread::manual(Joint::Panel, g.q(ManualTorque), ManualSays::Dry, Surface::Galvanised)?))
    }),
    ("jet", &[FanAngle, StandOff, WaterFlow, WaterPressure], |g| {
        Ok(figures(nozzle::on_steel(&Jet {
            angle_deg: g.n(FanAngle),
            distance: g.q(StandOff),
            flow: g.q(WaterFlow),
            pressure: g.q(WaterPressure),
            target: Target::TyreOrBearing,
        })?))
    }),
    ("force and flow", &[Orifice, WaterPressure, WaterPressure, WaterFlow, WaterDensity], |g| {
        Ok(figures((
            nozzle::force_of_bore(g.q(Orifice), g.q(WaterPressure))?,
            nozzle::flow_at(g.q(WaterFlow), g.q(WaterPressure), g.q2(WaterPressure, 1))?,
            nozzle::velocity(g.q(WaterPressure), g.q(WaterDensity))?,
        )))
    }),
    ("time to wash", &[Area, FanWidth, WashSpeed, Overlap], |g| {
        Ok(figures(nozzle::time_to_wash(g.q(Area), g.q(FanWidth), g.q(WashSpeed), g.n(Overlap))?))
    }),
    ("shapes", &[PartLength, PartLength, PartLength, Faces, Intricacy], |g| {
        let l = |i| g.q2::<Length>(PartLength, i);
        let shapes = [
            Shape::Box { length: l(0), width: l(1), height: l(2) },
            Shape::Plate { length: l(0), width: l(1) },
            Shape::Tube { diameter: l(0), length: l(1) },
            Shape::Wheel { diameter: l(0), width: l(1) },
            Shape::Rail { length: l(0), web: l(1), flange: l(2) },
        ];
        let parts = shapes.map(|shape| Part { shape, count: 3, faces: g.n(Faces), intricacy: g.n(Intricacy) });
        Ok(figures(area::of_parts(&parts)?))
    }),
    ("machine", &[MachineLength, MachineLength], |g| {
        let of = |i| {
            let l = g.q2(MachineLength, i);
            Overall { length: l, width: l, height: l }
        };
        let lies = [Lies::Side, Lies::Flat, Lies::Across, Lies::Round];
        let factors: Answer<Vec<f64>> = lies.into_iter().map(|lies| area::scale(of(0), of(1), lies)).collect();
        Ok(figures(factors?))
    }),
    ("packs", &[PackNeed, PackSize, PackPrice, PackSize, PackPrice], |g| {
        let shelf = [0, 1].map(|i| Pack { size: g.q2(PackSize, i), price: g.at(PackPrice, i) });
        Ok(figures(packs::cheapest(g.q(PackNeed), &shelf)?))
    }),
    ("what was used", &[UsedVolume, UsedArea, UsedLength, UsedCount, WorkedMinutes, CareDays, CareMonths], |g| {
        let fields = [UsedVolume, UsedArea, UsedLength, UsedCount, WorkedMinutes, CareDays, CareMonths];
        let bands: Answer<Vec<Band>> = fields.into_iter().map(|f| Band::sure(g.n(f)).within(f)).collect();
        Ok(figures(bands?))
    }),
    ("figures of a plan", FIGURES_OF_A_PLAN, |g| {
        let fields = FIGURES_OF_A_PLAN.iter().copied();
        let bands: Answer<Vec<Band>> = fields.map(|f| Band::sure(g.n(f)).within(f)).collect();
        Ok(figures(bands?))
    }),
];

const FIGURES_OF_A_PLAN: &[Field] =
    &[FlashPoint, CanSprays, WaitMinutes, ShelfCount, Hands, DayHours, SupplySize, SupplyStock];

/// Inside a range: its ends, evenly over it, and evenly over its powers of ten.
fn inside(field: Field) -> BoxedStrategy<f64> {
    let (least, most) = (field.range().least, field.range().most);
    let low = if least > 0.0 { least } else { most * 1e-9 };
    prop_oneof![
        1 => Just(least),
        1 => Just(most),
        4 => least..=most,
        4 => (low.ln()..=most.ln()).prop_map(move |x| x.exp().clamp(least, most)),
    ]
    .boxed()
}

const CASES: u32 = 500;

fn outside(field: Field) -> [f64; 6] {
    let (least, most) = (field.range().least, field.range().most);
    [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, least - 0.01 * least.abs().max(1e-4), most * 1.01 + 1e-4, -1e300]
}

#[test]
fn inside_the_ranges_every_figure_is_finite() {
    for (name, fields, call) in PROBES {
        let values: Vec<_> = fields.iter().map(|f| inside(*f)).collect();
        let mut runner =
            TestRunner::new(ProptestConfig { cases: CASES, failure_persistence: None, ..ProptestConfig::default() });
        let answered = Cell::new(0);
        runner
            .run(&values, |values| {
                match call(&Given { fields, values: &values }) {
                    Ok(figures) => {
                        answered.set(answered.get() + 1);
                        prop_assert!(finite(&figures), "{name} {values:?}: {figures}");
                    }
                    Err(SumError::NotPossible(why)) => prop_assert!(!why.to_string().is_empty()),
                    Err(SumError::Range(e)) => prop_assert!(false, "{name} {values:?}: {e}"),
                }
                Ok(())
            })
            .unwrap_or_else(|e| panic!("{name}: {e}"));
        // Inputs that do not go together have none; but too few answers would show little.
        println!("{name}: {} of {CASES} have an answer", answered.get());
        assert!(answered.get() > CASES / 50, "{name} hardly ever has an answer");
    }
}

#[test]
fn outside_a_range_the_error_names_the_field() {
    for (name, fields, call) in PROBES {
        let middle: Vec<f64> = fields
            .iter()
            .map(|f| {
                let (least, most) = (f.range().least, f.range().most);
                if least > 0.0 { (least * most).sqrt() } else { 0.5 * (least.max(0.0) + most) * 0.01 }
            })
            .collect();
        for (place, field) in fields.iter().enumerate() {
            for bad in outside(*field) {
                let mut values = middle.clone();
                values[place] = bad;
                match call(&Given { fields, values: &values }) {
                    Err(SumError::Range(e)) => {
                        assert_eq!(e.field, *field, "{name} {bad}");
                        let (range, words) = (field.range(), e.to_string());
                        assert!(words.starts_with(range.name) && words.contains("must be between"), "{words}");
                        assert!(words.contains(range.unit.map_or("", |u| u.symbol)), "{words}");
                    }
                    other => panic!("{name}, {field:?} = {bad}: {other:?}"),
                }
            }
        }
    }
}

#[test]
fn every_range_is_read_by_some_sum() {
    for (place, range) in RANGES.iter().enumerate() {
        assert_eq!(range.field as usize, place, "the table is in the order of the fields");
        assert!(range.least < range.most && !range.name.is_empty());
        // A count is a whole number by its type; only its top can be passed.
        let read = range.field == PartCount || PROBES.iter().any(|(_, fields, _)| fields.contains(&range.field));
        assert!(read, "no sum is held against {:?}", range.field);
    }
    let plate = Part {
        shape: Shape::Plate { length: METRE.of(1.0), width: METRE.of(1.0) },
        count: u32::MAX,
        faces: 1.0,
        intricacy: 1.0,
    };
    assert!(matches!(area::of_part(&plate), Err(SumError::Range(e)) if e.field == PartCount));
}
