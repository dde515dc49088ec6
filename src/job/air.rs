//! What a reading of air and steel means for the work.
//!
//! May use: [`crate::sums::air`], readings, the products in use. Must not: reach for a clock; `now` is an argument.

use chrono::{DateTime, TimeDelta, Utc};

use super::fold::{Job, Reading};
use super::product::{Figure, PRODUCT_C, Product, Sheet, Use, origin, sane};
use super::stage::Stage;
use crate::sums::air::{self, Air, Conditions, Doubts, Limits, Of, Reason, Verdict};
use crate::sums::range::{Field, check};
use crate::units::{CELSIUS, CELSIUS_DIFFERENCE, MINUTE};

/// Least air and steel temperature for washing, °C (common practice, no source).
pub const WASH_LEAST_C: f64 = 5.0;

/// What a pass asks of air, steel and product, and which of it the product's own sheet says.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Asked {
    /// The figures.
    pub limits: Limits,
    own_rh: bool,
    own_steel: bool,
    own_product: [bool; 2],
}

impl Asked {
    /// By a film's sheet; what it does not say, or no film at all, is the default. The 3 °C above the dew point stay.
    pub fn of(film: Option<&Product>) -> Asked {
        let mut limits = film.map(Product::limits).unwrap_or_default();
        let own = |pick: fn(&Sheet) -> &Option<Figure>, field: Field| {
            film.and_then(|f| sane(pick(&f.sheet), field)).is_some_and(|f| !f.default)
        };
        let own_steel = own(|s| &s.steel_least_c, Field::SteelTemperature);
        // The default says nothing of the air.
        limits.air_least = limits.air_least.filter(|_| own_steel);
        let mut own_product = [
            own(|s| &s.product_least_c, Field::ProductTemperature),
            own(|s| &s.product_most_c, Field::ProductTemperature),
        ];
        if limits.product_least.is_none() && limits.product_most.is_none() {
            let [least, most] = PRODUCT_C.map(|c| Some(CELSIUS.of(c)));
            (limits.product_least, limits.product_most, own_product) = (least, most, [false; 2]);
        }
        Asked { limits, own_rh: own(|s| &s.rh_most_pct, Field::RelativeHumidity), own_steel, own_product }
    }

    /// Whose figure the reason speaks of.
    fn origin(&self, reason: &Reason) -> &'static str {
        origin(match reason {
            Reason::GapTooSmall { .. } => false,
            Reason::TooDamp { .. } => self.own_rh,
            Reason::TooCold { of: Of::Product, .. } => self.own_product[0],
            Reason::TooHot { of: Of::Product, .. } => self.own_product[1],
            Reason::TooCold { .. } | Reason::TooHot { .. } => self.own_steel,
        })
    }
}

/// Steel against dew point, when the reading has all three figures and they are in their ranges.
pub fn judge(reading: &Reading) -> Option<Verdict> {
    weigh(reading, reading.rh_pct, None, &Limits::default())
}

/// The same by a product's own limits, the product's temperature with it.
pub fn judge_by(reading: &Reading, limits: &Limits) -> Option<Verdict> {
    weigh(reading, reading.rh_pct, reading.product_c, limits)
}

fn weigh(reading: &Reading, rh_pct: Option<f64>, product_c: Option<f64>, limits: &Limits) -> Option<Verdict> {
    let now = Conditions {
        air: Air::new(CELSIUS.of(reading.air_c), rh_pct?),
        steel: CELSIUS.of(reading.steel_c?),
        product: product_c.filter(|c| check(Field::ProductTemperature, *c).is_ok()).map(|c| CELSIUS.of(c)),
    };
    air::verdict(now, limits, Doubts::default()).ok()
}

/// Steel at or under the dew point: what is coated or dry there gets wet.
pub fn steel_is_wet(reading: &Reading) -> bool {
    judge(reading).is_some_and(|v| CELSIUS_DIFFERENCE.get(v.margin.gap) <= 0.0)
}

/// Until when the reading counts (common practice, no source: half an hour while the gap is small, else two).
pub fn good_until(reading: &Reading) -> DateTime<Utc> {
    let minutes = judge(reading).map_or(30.0, |v| MINUTE.get(air::reading_good_for(v.margin.gap, false)));
    reading.stamp.at + TimeDelta::minutes(minutes as i64)
}

/// What the last reading says against washing; it reads on after "because".
pub fn against_washing(reading: &Reading, now: DateTime<Utc>) -> Option<String> {
    if now > good_until(reading) {
        return None;
    }
    let read = [("air", Some(reading.air_c)), ("steel", reading.steel_c)];
    let cold: Vec<String> = read
        .into_iter()
        .filter_map(|(what, c)| Some((what, c.filter(|c| *c < WASH_LEAST_C)?)))
        .map(|(what, c)| format!("{what} at {c} °C is under the {WASH_LEAST_C} °C that washing wants"))
        .collect();
    (!cold.is_empty())
        .then(|| format!("{}; it must come to {WASH_LEAST_C} °C: warm the shed, or wait", cold.join(", and ")))
}

/// What the last reading, or its want, says against coating now, by the film of the next pass that is open; it reads
/// on after "because".
pub fn against_film(job: &Job, now: DateTime<Utc>) -> Option<String> {
    let first = job.count(Stage::FirstPass).open > 0;
    against_pass(job, if first { Use::AerosolFilm } else { Use::LiquidFilm }, now)
}

/// The same for the pass with this film.
pub fn against_pass(job: &Job, film: Use, now: DateTime<Utc>) -> Option<String> {
    let Some(reading) = job.last_reading() else {
        return Some("no reading of air and steel has been taken".into());
    };
    let asked = Asked::of(job.product(film));
    let Some(verdict) = judge_by(reading, &asked.limits) else {
        return Some("the last reading lacks humidity or steel".into());
    };
    if now > good_until(reading) {
        let age = (now - reading.stamp.at).num_minutes();
        return Some(format!("the last reading is {} old; take a new one", minutes(age)));
    }
    if verdict.go() {
        return None;
    }
    let against: Vec<_> = verdict.against.iter().map(|r| words(r, &verdict, &asked)).collect();
    let fixes = would_fix(reading, &asked.limits).join(", and ");
    Some(format!("{}; {fixes}: warm it without a flame, or wait", against.join(", and ")))
}

/// What would open the gate, reckoned from the reading with all else as it was read: each line is needed.
///
/// Warming dry does not move the dew point, so the steel's line holds while the shed warms up without a flame.
pub fn would_fix(reading: &Reading, limits: &Limits) -> Vec<String> {
    let Some(verdict) = judge_by(reading, limits) else { return Vec::new() };
    let gap = verdict.against.iter().any(|r| matches!(r, Reason::GapTooSmall { .. }));
    let mut fixes = Vec::new();
    for reason in &verdict.against {
        fixes.push(match reason {
            Reason::GapTooSmall { needed, .. } => {
                let by_gap = CELSIUS.get(verdict.margin.against) + CELSIUS_DIFFERENCE.get(*needed);
                let steel = tenth_up(by_gap.max(CELSIUS.get(limits.steel_least)));
                let drier = drier(reading, limits).map(|rh| format!(", or the air down to {rh} % RH"));
                format!("steel must come to {steel:.1} °C{}", drier.unwrap_or_default())
            }
            // The line of the gap has said it.
            Reason::TooCold { of: Of::Steel, .. } if gap => continue,
            Reason::TooDamp { most_percent, .. } => format!("the air must come down to {most_percent} % RH"),
            Reason::TooCold { of, least, .. } => {
                format!("{} must come to {:.1} °C", name(*of), tenth_up(CELSIUS.get(*least)))
            }
            Reason::TooHot { of, most, .. } => {
                format!("{} must cool to {:.1} °C", name(*of), -tenth_up(-CELSIUS.get(*most)))
            }
        });
    }
    fixes
}

/// The highest humidity, in whole %, at which neither gap nor damp speaks against the steel as it is.
fn drier(reading: &Reading, limits: &Limits) -> Option<u32> {
    let opens = |rh: &u32| {
        weigh(reading, Some(f64::from(*rh)), None, limits).is_some_and(|v| {
            let holds = |r: &Reason| {
                matches!(
                    r,
                    Reason::GapTooSmall { .. } | Reason::TooDamp { .. } | Reason::TooCold { of: Of::Steel, .. }
                )
            };
            !v.against.iter().any(holds)
        })
    };
    (5..=reading.rh_pct? as u32).rev().find(opens)
}

/// To tenths, upwards: what is said must be enough.
fn tenth_up(c: f64) -> f64 {
    (c * 10.0 - 1e-9).ceil() / 10.0
}

/// One reason in words with its figures.
fn words(reason: &Reason, verdict: &Verdict, asked: &Asked) -> String {
    let from = asked.origin(reason);
    let c = |t| format!("{:.1} °C", CELSIUS.get(t));
    match reason {
        Reason::GapTooSmall { gap, needed } => {
            let (gap, needed) = (CELSIUS_DIFFERENCE.get(*gap), CELSIUS_DIFFERENCE.get(*needed));
            let doubt = CELSIUS_DIFFERENCE.get(verdict.margin.doubt);
            let side = if gap < 0.0 { "under" } else { "above" };
            format!(
                "steel is {:.1} °C {side} the dew point (give or take {doubt:.1}); {needed:.0} °C above is needed",
                gap.abs()
            )
        }
        Reason::TooDamp { rh_percent, most_percent } => {
            format!("the air is at {rh_percent} % RH; {most_percent} % RH at most ({from})")
        }
        Reason::TooCold { of, is, least } => format!("{} at {} is under {} ({from})", name(*of), c(*is), c(*least)),
        Reason::TooHot { of, is, most } => format!("{} at {} is over {} ({from})", name(*of), c(*is), c(*most)),
    }
}

fn name(of: Of) -> &'static str {
    match of {
        Of::Steel => "steel",
        Of::Air => "air",
        Of::Product => "product",
    }
}

/// Minutes in words.
pub fn minutes(n: i64) -> String {
    match n {
        n if n < 60 => format!("{n} min"),
        n if n < 100 * 60 => format!("{} h {} min", n / 60, n % 60),
        n => format!("{} days", n / 1440),
    }
}
