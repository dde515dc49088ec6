//! Nozzle: how wide a fan is, how hard it pushes, how long an area takes.

use super::draw::fan;
use super::words::time;
use super::{Ask, Filled, Outcome, Sheet, Stop};
use crate::sums::nozzle::{self, Jet, JetWarning, Target};
use crate::sums::range::Field;
use crate::units::{Area, Length, Measure, Pressure, VolumeRate};

pub static SHEET: Sheet = Sheet {
    slug: "nozzle",
    name: "Nozzle",
    what: "How wide the fan is, how hard it pushes, how long it takes",
    asks: &[
        Ask::choice("target", "Aimed at", |_| vec![("panel", "Paint and steel"), ("tyre", "Tyre or bearing")]),
        Ask::number("angle", "Fan angle, in degrees", Field::FanAngle)
            .start("25", "25")
            .hint("Stands on the tip: 25 or 40. Flow and pressure stand on the washer's plate."),
        Ask::amount("distance", "From tip to steel", Measure::Length, Field::StandOff)
            .start("300", "12")
            .hint("At least 300 mm (12 in), 500 mm (20 in) for tyres and bearings"),
        Ask::amount("flow", "Flow", Measure::Flow, Field::WaterFlow).kept().half().start("10", "2.6"),
        Ask::amount("pressure", "Pressure", Measure::Pressure, Field::WaterPressure)
            .kept()
            .half()
            .start("130", "1900"),
        Ask::amount("new", "Turned down to", Measure::Pressure, Field::WaterPressure).optional(),
        Ask::amount("area", "Area to wash", Measure::Area, Field::Area).start("1.5", "16").optional(),
        Ask::amount("speed", "Lance moves at", Measure::Speed, Field::WashSpeed).start("0.3", "60").optional(),
        Ask::amount("overlap", "Overlap", Measure::Percent, Field::Overlap).start("50", "50").optional(),
    ],
    answer,
    formula: "Width = 2 × distance × tan(angle ÷ 2). Push = density × flow × √(2 × pressure ÷ density), in US units 0.0526 × gpm × \
              √psi lbf. Flow goes with the square root of pressure.",
    source: "Geometry and momentum, no losses: an upper bound. The fan's thin side of 5° is from memory.",
    cautions: &[
        "A jet cuts and injects: never on skin, never a 0° tip. A pinhole wound is a hospital case within the hour.",
        "Keep off seals, fins, decals, bearings and plugs. Hot water scalds. Goggles, boots.",
        "A petrol washer or engine indoors makes carbon monoxide. Wash water goes where local rules say.",
    ],
};

fn answer(f: &Filled) -> Result<Outcome, Stop> {
    let angle_deg = f.number("angle")?;
    let distance = f.get::<Length>("distance")?;
    let (flow, pressure) = (f.get::<VolumeRate>("flow")?, f.get::<Pressure>("pressure")?);
    let target = if f.choice("target") == "tyre" { Target::TyreOrBearing } else { Target::Panel };
    let jet = nozzle::on_steel(&Jet { angle_deg, distance, flow, pressure, target })?;
    let say = |l: Length| f.say(Measure::Length, l);
    let mut out =
        Outcome::of([format!("{} wide", say(jet.width)), format!("pushes {}", f.say(Measure::Push, jet.force))]);
    for warning in &jet.warnings {
        out = out.warn(match warning {
            JetWarning::ZeroDegrees => "A needle jet: it cuts and injects. Never.".to_owned(),
            JetWarning::TooClose { least, .. } => format!("Too close: at least {}.", say(*least)),
        });
    }
    out = out.small(format!(
        "About {} on the steel, spread over the strip it wets: an estimate.",
        f.say(Measure::Pressure, jet.on_steel)
    ));
    if let Some(new) = f.opt::<Pressure>("new")? {
        let down = nozzle::flow_at(flow, pressure, new)?;
        out = out.small(format!("At {} it passes {}.", f.say(Measure::Pressure, new), f.say(Measure::Flow, down)));
    }
    if let (Some(area), Some(speed), Some(overlap)) =
        (f.opt::<Area>("area")?, f.opt("speed")?, f.opt_number("overlap")?)
        // A needle has no width to wash with; its warning is the answer then.
        && let Ok(takes) = nozzle::time_to_wash(area, jet.width, speed, overlap)
    {
        out = out.small(format!("{} for {}, once over.", time(takes), f.say(Measure::Area, area)));
    }
    let picture = fan(angle_deg, &say(jet.width), &say(distance), !jet.warnings.is_empty());
    Ok(out.picture(picture))
}
