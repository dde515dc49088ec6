//! Is the shed warm, dry and airy enough: vapour while spraying, time to clear it, heater and warm-up, and the list for
//! the day before.
//!
//! No answer here calls a shed harmless. The figures are averages of a mixed room; at the gun and low down the vapour is
//! over its limit anyway, mist burns below the flash point, and flammability is not the health limit. Data sheets and
//! local fire rules go first.
//!
//! May use: [`crate::sums::vapour`], [`crate::sums::warmup`], serde. Must not: say more than an average.

mod words;

pub use words::{AIR_OVER_STEEL_C, Way, of_limit};

use serde::{Deserialize, Serialize};

use crate::sums::band::Band;
use crate::sums::range::{Field, check};
use crate::sums::vapour::{self, Blended, Course, MIXING_FACTOR, Room, Spraying};
use crate::sums::warmup::{self, AirCourse, FAN_W_M2_K, OIL_AND_TYRES_PERCENT, STILL_W_M2_K, Section};
use crate::sums::{Answer, SumError};
use crate::units::*;

/// Which doors stand open.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the names say it
pub enum Doors {
    Shut,
    OneOpen,
    #[default]
    BothEndsOpen,
}

impl Doors {
    /// Air changes in an hour: least, likely, most (common practice, no source; wind decides).
    pub fn changes_per_hour(self) -> Band {
        Band::of(match self {
            Doors::Shut => [0.2, 0.5, 1.5],
            Doors::OneOpen => [1.0, 3.0, 6.0],
            Doors::BothEndsOpen => [4.0, 10.0, 30.0],
        })
    }
}

/// What warms the shed.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Heating {
    /// Nothing.
    #[default]
    None,
    /// Warm water or ducted air from a heater outside.
    FromOutside,
    /// Glowing or hot elements, or a fan heater.
    Electric,
    /// Gas or oil with a flame in the shed.
    Flame,
}

impl Heating {
    /// Out and cold so long before a can is opened, min (common practice, no source).
    pub fn off_before_min(self) -> f64 {
        match self {
            Heating::None | Heating::FromOutside => 0.0,
            Heating::Electric => 30.0,
            Heating::Flame => 60.0,
        }
    }

    /// What to mind with it.
    pub fn caution(self) -> &'static str {
        match self {
            Heating::None => "",
            Heating::FromOutside => "Keep its intake away from the doors you open.",
            Heating::Electric => "Unplug it at the wall, outside the spray zone. It stays off until the purge ends.",
            Heating::Flame => {
                "A flame in the shed makes carbon monoxide and water. Out and cold before any can is opened, and out \
                 until the purge ends."
            }
        }
    }
}

/// The shed. This is also the stored shape.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
#[serde(default)]
pub struct Shed {
    /// Inside length.
    pub length_m: f64,
    /// Inside width.
    pub width_m: f64,
    /// Inside height, the middle of a pitched roof.
    pub height_m: f64,
    /// Doors while spraying and airing out.
    pub doors: Doors,
    /// A fan rated for it, m³/h.
    pub fan_m3_h: Option<f64>,
    /// What warms it.
    pub heating: Heating,
    /// How strong that is.
    pub heater_kw: Option<f64>,
    /// Heat through walls and roof, W/(m²·K): sheet metal about 5, boards 2.5, insulated 0.6 (from memory).
    pub shell_w_m2_k: f64,
}

impl Default for Shed {
    /// A machine shed of 12 × 8 × 4.5 m in sheet metal (common practice, no source).
    fn default() -> Shed {
        Shed {
            length_m: 12.0,
            width_m: 8.0,
            height_m: 4.5,
            doors: Doors::default(),
            fan_m3_h: None,
            heating: Heating::None,
            heater_kw: None,
            shell_w_m2_k: 5.0,
        }
    }
}

/// One pass as planned.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Spray {
    /// Liquid sprayed.
    pub litres: f64,
    /// From the first stroke to the last.
    pub over_min: f64,
    /// Vapour from one litre of it, L.
    pub vapour_l_per_l: f64,
    /// Its lower explosive limit, %.
    pub lel_pct: f64,
}

/// Said with every answer on vapour.
pub const VAPOUR_CAUTION: &str = "This is an average. At the gun and low down the vapour is over its limit anyway, and \
                                  mist burns below the flash point. Flames out, phone out, doors open, mask on. Data \
                                  sheet and local fire rules go first.";

/// The answer on vapour.
#[derive(Clone, PartialEq, Debug)]
pub struct Vapour {
    /// The likely course, for the picture.
    pub course: Course,
    /// The highest average, % of the lower explosive limit: more wind, likely, less wind and worse mixing.
    pub peak_pct_of_lel: Band,
    /// From the last stroke until the average is down to 10 % of the limit, on the likely course, min; none when
    /// nothing moves the air.
    pub purge_min: Option<f64>,
    /// Air that holds the average at 10 %, m³/h.
    pub air_for_10_m3_h: f64,
    /// Air that holds the average at 25 %, m³/h.
    pub air_for_25_m3_h: f64,
    /// Air that the doors and the fan move, m³/h.
    pub air_m3_h: f64,
    /// The answer in plain lines, the caution last.
    pub words: Vec<String>,
}

impl Shed {
    fn volume_m3(&self) -> Answer<f64> {
        let mut volume = 1.0;
        for side in [self.length_m, self.width_m, self.height_m] {
            volume *= check(Field::PartLength, side)?;
        }
        Ok(check(Field::ShedVolume, volume)?)
    }

    /// Air through it, m³/h: the doors or the fan, whichever moves more.
    fn air_m3_h(&self, changes: f64) -> Answer<f64> {
        let fan = check(Field::Airflow, self.fan_m3_h.unwrap_or(0.0))?;
        Ok(fan.max(changes * self.volume_m3()?))
    }

    /// How the shed fills and clears with one pass.
    ///
    /// # Errors
    /// A size, a rate or a limit outside its range; more vapour than the shed holds.
    ///
    /// # Example
    /// ```
    /// use coatwalk::job::shed::{Doors, Shed, Spray};
    /// let pass = Spray { litres: 5.0, over_min: 75.0, vapour_l_per_l: 81.0, lel_pct: 0.7 };
    /// let open = Shed::default().vapour(&pass)?;
    /// let shut = Shed { doors: Doors::Shut, ..Shed::default() }.vapour(&pass)?;
    /// assert!(shut.peak_pct_of_lel.likely > 1.5 * open.peak_pct_of_lel.likely);
    /// assert!(open.words.last().unwrap().contains("phone out"));
    /// # Ok::<(), coatwalk::sums::SumError>(())
    /// ```
    pub fn vapour(&self, pass: &Spray) -> Answer<Vapour> {
        let volume = self.volume_m3()?;
        let blend = Blended { vapour_per_liquid: pass.vapour_l_per_l, lel_percent: pass.lel_pct };
        let course = |changes: f64, mixing: f64| {
            let flow = CUBIC_METRE_PER_HOUR.of(self.air_m3_h(changes)?);
            vapour::course(&Spraying {
                room: Room { volume: CUBIC_METRE.of(volume), flow, mixing_factor: mixing },
                liquid: LITRE.of(pass.litres),
                over: MINUTE.of(pass.over_min),
                blend,
            })
        };
        let (changes, [good, usual, bad]) = (self.doors.changes_per_hour(), MIXING_FACTOR);
        let likely = course(changes.likely, usual)?;
        let peak_pct_of_lel = Band {
            low: course(changes.high, good)?.peak_percent_of_lel,
            likely: likely.peak_percent_of_lel,
            high: course(changes.low, bad)?.peak_percent_of_lel,
        };
        let vapour_m3_h = pass.litres / 1000.0 * pass.vapour_l_per_l / (pass.over_min / 60.0);
        let air_for = |of_lel: f64| {
            let needed =
                vapour::flow_needed(CUBIC_METRE_PER_HOUR.of(vapour_m3_h), of_lel / 100.0 * pass.lel_pct, usual)?;
            Ok::<f64, SumError>(CUBIC_METRE_PER_HOUR.get(needed))
        };
        let mut answer = Vapour {
            purge_min: likely.down_to_10.map(|t| MINUTE.get(t)),
            course: likely,
            peak_pct_of_lel,
            air_for_10_m3_h: air_for(10.0)?,
            air_for_25_m3_h: air_for(25.0)?,
            air_m3_h: self.air_m3_h(changes.likely)?,
            words: Vec::new(),
        };
        answer.words = answer.lines(self.doors, UnitSet::Metric);
        Ok(answer)
    }

    /// What would change the vapour: each way with the average it peaks at, % of the lower explosive limit. Ways that
    /// are taken already are left out.
    ///
    /// # Errors
    /// As [`Shed::vapour`].
    ///
    /// # Example
    /// ```
    /// use coatwalk::job::shed::{Doors, Shed, Spray};
    /// use coatwalk::units::UnitSet;
    /// let pass = Spray { litres: 5.0, over_min: 75.0, vapour_l_per_l: 81.0, lel_pct: 0.7 };
    /// let shut = Shed { doors: Doors::Shut, ..Shed::default() };
    /// let ways = shut.other_ways(&pass, UnitSet::Metric)?;
    /// assert!(ways[0].words.starts_with("Open both ends"));
    /// assert!(ways[0].peak_pct_of_lel < shut.vapour(&pass)?.peak_pct_of_lel.likely);
    /// # Ok::<(), coatwalk::sums::SumError>(())
    /// ```
    pub fn other_ways(&self, pass: &Spray, units: UnitSet) -> Answer<Vec<Way>> {
        let now = self.vapour(pass)?;
        let mut ways = Vec::new();
        let mut add = |words: String, shed: Shed, pass: Spray| {
            let peak_pct_of_lel = shed.vapour(&pass)?.peak_pct_of_lel.likely;
            if peak_pct_of_lel < 0.95 * now.peak_pct_of_lel.likely {
                ways.push(Way { words, peak_pct_of_lel });
            }
            Ok::<(), SumError>(())
        };
        if self.doors != Doors::BothEndsOpen {
            add("Open both ends".into(), Shed { doors: Doors::BothEndsOpen, ..self.clone() }, *pass)?;
        }
        let flow = Measure::Airflow.unit(units).print(CUBIC_METRE_PER_HOUR.of(now.air_for_10_m3_h).si());
        let fan = Shed { fan_m3_h: Some(now.air_for_10_m3_h), ..self.clone() };
        add(format!("A fan rated for it, {flow}"), fan, *pass)?;
        if check(Field::SprayTime, 2.0 * pass.over_min / 60.0).is_ok() {
            let slow = Spray { over_min: 2.0 * pass.over_min, ..*pass };
            add("Spray half as fast".into(), self.clone(), slow)?;
        }
        Ok(ways)
    }

    /// Heater and time to bring steel from one temperature to another, air held at `air_c`.
    ///
    /// The steel is taken as 20 mm thick, warmed from both faces; what is thinner follows sooner.
    ///
    /// # Errors
    /// An input outside its range; air too cold for the steel ever to get there.
    ///
    /// # Example
    /// ```
    /// use coatwalk::job::shed::{Shed, Warming};
    /// let plan = Shed::default().warm_up(&Warming { outside_c: 5.0, air_c: 18.0, steel_c: 5.0, steel_wanted_c: 13.0, steel_kg: 3600.0, fan: true })?;
    /// assert!(plan.time_min.low < plan.time_min.likely && plan.heater_kw > 10.0);
    /// # Ok::<(), coatwalk::sums::SumError>(())
    /// ```
    pub fn warm_up(&self, warming: &Warming) -> Answer<WarmUp> {
        let shell = 2.0
            * (self.length_m * self.width_m + self.length_m * self.height_m + self.width_m * self.height_m)
            - self.length_m * self.width_m;
        let volume = self.volume_m3()?;
        let extra = OIL_AND_TYRES_PERCENT;
        let film = if warming.fan { FAN_W_M2_K } else { STILL_W_M2_K };
        let time = |film: f64, extra: f64| {
            let section = Section {
                thickness: MILLIMETRE.of(20.0),
                both_faces: true,
                film: WATT_PER_SQUARE_METRE_KELVIN.of(film),
                extra_percent: extra,
            };
            let tau = warmup::section(&section)?.time_constant;
            let air = AirCourse::steady(CELSIUS.of(warming.air_c));
            warmup::time_to(tau, CELSIUS.of(warming.steel_c), &air, CELSIUS.of(warming.steel_wanted_c))
                .map(|t| MINUTE.get(t))
        };
        let time_min =
            Band { low: time(film[2], extra[0])?, likely: time(film[1], extra[1])?, high: time(film[0], extra[2])? };
        let heater = warmup::heater(&warmup::Shed {
            shell: SQUARE_METRE.of(shell),
            shell_loss: WATT_PER_SQUARE_METRE_KELVIN.of(self.shell_w_m2_k),
            volume: CUBIC_METRE.of(volume),
            // Warmed with the doors shut.
            air_changes_per_hour: Doors::Shut.changes_per_hour().likely,
            outside: CELSIUS.of(warming.outside_c),
            inside: CELSIUS.of(warming.air_c),
            steel: KILOGRAM.of(warming.steel_kg),
            extra_percent: extra[1],
            steel_start: CELSIUS.of(warming.steel_c),
            steel_target: CELSIUS.of(warming.steel_wanted_c),
            within: HOUR.of((time_min.likely / 60.0).max(0.5)),
        })?;
        let heater_kw = KILOWATT.get(heater.total);
        let off_before_min = self.heating.off_before_min();
        let mut up = WarmUp { time_min, heater_kw, off_before_min, words: Vec::new() };
        up.words = up.lines(self, warming, UnitSet::Metric);
        Ok(up)
    }
}

/// What is to be warmed.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Warming {
    /// Outdoors.
    pub outside_c: f64,
    /// The air in the shed, held.
    pub air_c: f64,
    /// The steel now, coldest of three spots.
    pub steel_c: f64,
    /// The steel wanted: 3 °C above the dew point and over the product's least.
    pub steel_wanted_c: f64,
    /// How much steel.
    pub steel_kg: f64,
    /// A fan blows on it.
    pub fan: bool,
}

/// The answer on warming up.
#[derive(Clone, PartialEq, Debug)]
pub struct WarmUp {
    /// Time, min.
    pub time_min: Band,
    /// Heater for it in the likely time.
    pub heater_kw: f64,
    /// Out and cold before the first can, min.
    pub off_before_min: f64,
    /// The answer in plain lines.
    pub words: Vec<String>,
}

/// A point of the list for the day before.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct DayBefore {
    /// Kebab case, for ticks. Kept in the log: never change it.
    pub id: &'static str,
    /// What to do.
    pub words: &'static str,
}

/// What is to be ready the day before (common practice, no source; NFPA 33 and 29 CFR 1910.107, from memory, for
/// ignition sources, extinguisher and earthing; the local fire code goes first).
pub const DAY_BEFORE: &[DayBefore] = &[
    DayBefore { id: "extinguisher", words: "Extinguisher within 10 m, full, its pin seen. You know the way out." },
    DayBefore { id: "earthing", words: "Earth clamps for the machine and the metal cans: tyres insulate." },
    DayBefore { id: "door-notice", words: "Notice on every door: spraying, no flame, no smoking." },
    DayBefore {
        id: "people-animals",
        words: "People next door told. Animals out, also from above and beside the shed.",
    },
    DayBefore { id: "hay", words: "Hay, straw and feed out or covered, away from the spray." },
    DayBefore {
        id: "ignition",
        words: "Heater, compressor, vacuum, chargers, lamps and fans not rated for it: out.",
    },
    DayBefore {
        id: "pits",
        words: "Pits and drains under and near the machine covered: vapour is heavy and runs in.",
    },
    DayBefore { id: "phone-place", words: "A place outside for the phone, 6 m from the spray. It never comes in." },
    DayBefore { id: "mask", words: "Mask fits on a shaved face, new cartridges, change time written down." },
    DayBefore { id: "eye-wash", words: "Eye-wash, water and soap at hand." },
    DayBefore { id: "rags-can", words: "Closed metal can with water for rags and masking: they can heat up alone." },
    DayBefore { id: "wash-water", words: "The wash water has a place to be caught, not the ditch." },
    DayBefore { id: "weather", words: "Night low and wind looked up for all days, written into the plan." },
    DayBefore { id: "product", words: "Product standing at 15 to 25 °C, dates and batch written down." },
];
