//! What goes into the shed's sums from the plan and the readings, and their answers in plain lines.
//!
//! May use: the plan's list and hours, readings. Must not: say more than an average.

use super::{Doors, Shed, Spray, VAPOUR_CAUTION, Vapour, WarmUp, Warming};
use crate::job::air::judge;
use crate::job::airlog::whole;
use crate::job::fold::Reading;
use crate::job::hours::Work;
use crate::job::materials::{Item, List};
use crate::job::product::Product;
use crate::job::stage::Stage;
use crate::sums::air::Limits;
use crate::units::*;

impl WarmUp {
    /// The answer in plain lines, in the user's units.
    pub fn lines(&self, shed: &Shed, warming: &Warming, units: UnitSet) -> Vec<String> {
        let power = |kw: f64| match units {
            UnitSet::Us => Measure::Power.unit(units).print(KILOWATT.of(kw).si()),
            _ if kw < 9.95 && (kw - kw.round()).abs() > 0.05 => format!("{kw:.1} kW"),
            _ => format!("{kw:.0} kW"),
        };
        let time = self.time_min;
        let mut words = vec![format!(
            "The steel needs about {} ({} to {}) in air at {}, with about {}.",
            whole(time.likely.ceil() as i64),
            whole(time.low.ceil() as i64),
            whole(time.high.ceil() as i64),
            Measure::Temperature.unit(units).print(CELSIUS.of(warming.air_c).si()),
            power(self.heater_kw),
        )];
        if let Some(kw) = shed.heater_kw.filter(|kw| *kw < self.heater_kw) {
            words.push(format!("Your heater has {}: it takes longer, or the shed stays colder.", power(kw)));
        }
        if self.off_before_min > 0.0 {
            words.push(format!("Heater out and cold {:.0} min before the first can is opened.", self.off_before_min));
        }
        if !shed.heating.caution().is_empty() {
            words.push(shed.heating.caution().into());
        }
        words
    }

    /// The waits for the plan: warm-up and heater out and cold, min, each up to five minutes.
    pub fn waits_min(&self) -> (f64, f64) {
        let up = |min: f64| (min / 5.0 - 1e-9).ceil().max(0.0) * 5.0;
        (up(self.time_min.likely), up(self.off_before_min))
    }
}

impl Warming {
    /// The least that the steel must come to: the gap above the dew point of the reading, and what the film's sheet
    /// asks, °C. None when the reading lacks humidity or steel.
    ///
    /// Warming dry does not move the dew point; a flame in the shed does.
    pub fn wanted_c(reading: &Reading, limits: &Limits) -> Option<f64> {
        let margin = judge(reading)?.margin;
        let by_gap = CELSIUS.get(margin.against) + CELSIUS_DIFFERENCE.get(limits.gap);
        let least = by_gap.max(CELSIUS.get(limits.steel_least));
        Some((least * 10.0 - 1e-9).ceil() / 10.0)
    }
}

/// Air the shed is held at unless one types another: so much warmer than the steel is to become, K (common practice, no
/// source: less and the last degrees take for ever).
pub const AIR_OVER_STEEL_C: f64 = 6.0;

impl Spray {
    /// The second pass as planned: the list's film, the plan's minutes, the vapour figures of the film's sheet. None
    /// when there is nothing to spray or a figure is missing.
    ///
    /// `film` has its figures settled ([`Product::settled`]).
    pub fn planned(list: &List, work: &Work, film: &Product) -> Option<Spray> {
        let pass = Spray {
            litres: list.line(Item::FilmLiquid)?.need.likely,
            over_min: work.of(Stage::SecondPass).minutes.likely,
            vapour_l_per_l: film.sheet.vapour_l_per_l.as_ref()?.likely,
            lel_pct: film.sheet.lel_pct.as_ref()?.likely,
        };
        (pass.litres > 0.0 && pass.over_min > 0.0).then_some(pass)
    }
}

/// A way to change the vapour.
#[derive(Clone, PartialEq, Debug)]
pub struct Way {
    /// What to do.
    pub words: String,
    /// The likely highest average then, % of the lower explosive limit.
    pub peak_pct_of_lel: f64,
}

/// A share of the limit, as short as it makes sense.
pub fn of_limit(pct: f64) -> String {
    if pct < 10.0 { format!("{pct:.1} %") } else { format!("{pct:.0} %") }
}

impl Vapour {
    /// The answer in plain lines, in the user's units, the caution last.
    pub fn lines(&self, doors: Doors, units: UnitSet) -> Vec<String> {
        let peak = self.peak_pct_of_lel;
        let percent = of_limit;
        let flow = |v: f64| Measure::Airflow.unit(units).print(CUBIC_METRE_PER_HOUR.of(v).si());
        let mut words = vec![format!(
            "On average the vapour comes to about {} of its lower explosive limit ({} to {}, by wind and mixing).",
            percent(peak.likely),
            percent(peak.low),
            percent(peak.high),
        )];
        if doors != Doors::BothEndsOpen {
            words.push(
                "Do not spray like this: doors stand open at both ends, or the vapour lies low and stays.".into(),
            );
        }
        words.push(match peak.likely {
            p if p >= 25.0 => "That is over 25 %, the limit of most rules: do not spray like this.".into(),
            p if p >= 10.0 => "That is over 10 %, where alarms are set: bring in more air or spray slower.".into(),
            _ if peak.high >= 10.0 => "With little wind it may come over 10 %, where alarms are set.".into(),
            _ => "As an average only, it stays under 10 %, where alarms are set.".to_owned(),
        });
        words.push(match self.purge_min {
            Some(0.0) if doors == Doors::Shut => {
                "Open the doors for the whole air-out all the same: the film goes on giving off vapour.".into()
            }
            Some(0.0) => {
                "Leave the doors open for the whole air-out all the same: the film goes on giving off vapour.".into()
            }
            Some(min) => {
                format!("After the last stroke it takes about {} to come down to 10 %.", whole(min.ceil() as i64))
            }
            None => "Nothing moves the air: it does not clear.".into(),
        });
        let change = match doors {
            Doors::BothEndsOpen => "A fan rated for it changes that: ",
            Doors::Shut | Doors::OneOpen => "Doors open at both ends, or a fan rated for it, changes that: ",
        };
        words.push(format!(
            "{}{} hold the average at 10 %, {} at 25 %; now it is about {}.",
            if self.air_m3_h < self.air_for_10_m3_h { change } else { "" },
            flow(self.air_for_10_m3_h),
            flow(self.air_for_25_m3_h),
            flow(self.air_m3_h),
        ));
        words.push(VAPOUR_CAUTION.into());
        words
    }
}
