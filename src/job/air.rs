//! What a reading of air and steel means for the work.
//!
//! May use: [`crate::sums::air`], readings. Must not: reach for a clock; `now` is an argument.

use chrono::{DateTime, TimeDelta, Utc};

use super::fold::Reading;
use crate::sums::air::{self, Air, Conditions, Doubts, Limits, Of, Reason, Verdict};
use crate::units::{CELSIUS, CELSIUS_DIFFERENCE, MINUTE};

/// Least air and steel temperature for washing, °C (common practice, no source).
pub const WASH_LEAST_C: f64 = 5.0;

/// Steel against dew point, when the reading has all three figures and they are in their ranges.
pub fn judge(reading: &Reading) -> Option<Verdict> {
    let now = Conditions {
        air: Air::new(CELSIUS.of(reading.air_c), reading.rh_pct?),
        steel: CELSIUS.of(reading.steel_c?),
        product: None,
    };
    air::verdict(now, &Limits::default(), Doubts::default()).ok()
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
    let cold = |what: &str, c: f64| {
        (c < WASH_LEAST_C).then(|| format!("{what} at {c} °C is under the {WASH_LEAST_C} °C that washing wants"))
    };
    cold("air", reading.air_c).or_else(|| reading.steel_c.and_then(|c| cold("steel", c)))
}

/// What the last reading, or its want, says against coating; it reads on after "because".
pub fn against_film(reading: Option<&Reading>, now: DateTime<Utc>) -> Option<String> {
    let Some(reading) = reading else {
        return Some("no reading of air and steel has been taken".into());
    };
    let Some(verdict) = judge(reading) else {
        return Some("the last reading lacks humidity or steel".into());
    };
    if now > good_until(reading) {
        let age = (now - reading.stamp.at).num_minutes();
        return Some(format!("the last reading is {} old; take a new one", minutes(age)));
    }
    (!verdict.go()).then(|| verdict.against.iter().map(|r| words(r, &verdict)).collect::<Vec<_>>().join(", and "))
}

/// One reason in words with its figures.
pub fn words(reason: &Reason, verdict: &Verdict) -> String {
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
            format!("the air is at {rh_percent:.0} % RH; {most_percent:.0} % is the most")
        }
        Reason::TooCold { of, is, least } => format!("{} at {} is under {}", name(*of), c(*is), c(*least)),
        Reason::TooHot { of, is, most } => format!("{} at {} is over {}", name(*of), c(*is), c(*most)),
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
