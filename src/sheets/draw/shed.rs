//! A shed from above: its doors, the way the air takes through it, the machine in the middle.

use super::{Drawing, LINE, WIDTH};

/// What is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct FromAbove {
    /// Length over width.
    pub ratio: f64,
    /// Doors open, out of two ends.
    pub open: u8,
    /// A fan stands in the doorway.
    pub fan: bool,
    /// Words along and across.
    pub sides: (String, String),
    /// What the air does, in a few words.
    pub air: String,
}

/// The shed from above, air from the left.
pub fn from_above(shed: &FromAbove) -> Drawing {
    const ROOM: f64 = 190.0;
    let ratio = if shed.ratio.is_finite() { shed.ratio.clamp(0.6, 3.0) } else { 1.5 };
    let (wide, tall) = if ratio >= 1.5 { (ROOM, ROOM / ratio) } else { (126.0 * ratio, 126.0) };
    let (left, top) = ((WIDTH - wide) / 2.0 - 8.0, 30.0);
    let (right, foot, middle) = (left + wide, top + tall, top + tall / 2.0);
    let door = (tall * 0.5).min(48.0);
    let (above, below) = (middle - door / 2.0, middle + door / 2.0);
    let doors = match shed.open {
        0 => "doors shut",
        1 => "one door open",
        _ => "doors open at both ends",
    };
    let said = format!("The shed from above, {} by {}, {doors}. {}", shed.sides.0, shed.sides.1, shed.air);
    let mut d = Drawing::new(foot + LINE + 14.0, said);
    d.face("paper", left, top, wide, tall);
    // The machine, to no scale.
    let (body, high) = (wide * 0.36, (tall * 0.4).min(46.0));
    d.face("metal", left + (wide - body) / 2.0, middle - high / 2.0, body, high);
    d.face("line thin", left + (wide - body) / 2.0, middle - high / 2.0, body, high);
    // Walls with their doorways, the open leaves turned out, the shut ones across.
    d.path("line", format!("M{left:.1} {above:.1}V{top}H{right:.1}V{above:.1}"));
    d.path("line", format!("M{left:.1} {below:.1}V{foot:.1}H{right:.1}V{below:.1}"));
    for (place, x, out) in [(1, right, 1.0), (2, left, -1.0)] {
        match shed.open >= place {
            true => d.path(
                "line",
                format!("M{x:.1} {above:.1}l{:.1} -10M{x:.1} {below:.1}l{:.1} 10", 16.0 * out, 16.0 * out),
            ),
            false => d.path("line strong", format!("M{x:.1} {above:.1}V{below:.1}")),
        }
    }
    let arrow = |d: &mut Drawing, from: f64, to: f64, y: f64| {
        d.path("line", format!("M{from:.1} {y:.1}H{to:.1}m-8 -6l8 6l-8 6"));
    };
    match shed.open {
        0 => {}
        1 => {
            arrow(&mut d, right - 22.0, right + 30.0, middle - 9.0);
            d.path("line", format!("M{:.1} {:.1}H{:.1}m8 -6l-8 6l8 6", right + 30.0, middle + 9.0, right - 22.0));
        }
        _ => {
            arrow(&mut d, left - 38.0, left + 18.0, middle);
            arrow(&mut d, right - 18.0, right + 38.0, middle);
        }
    }
    if shed.fan {
        let (x, y) = (right - 2.0, below + 2.0);
        d.path("stick", format!("M{:.1} {y:.1}a11 11 0 0 1 22 0a11 11 0 0 1 -22 0Z", x - 11.0));
        d.path("line thin", format!("M{:.1} {y:.1}h16M{x:.1} {:.1}v16", x - 8.0, y - 8.0));
        d.words("say halo", "start", x + 14.0, y + 16.0, "fan");
    }
    d.words("bold", "middle", (left + right) / 2.0, top - 9.0, &shed.sides.0);
    d.words("bold", "start", left + 6.0, foot - 8.0, &shed.sides.1);
    d.words("say", "middle", WIDTH / 2.0, foot + LINE + 4.0, &shed.air);
    d
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheets::draw::Mark;

    #[test]
    fn any_shed_stays_in_the_strip_and_says_its_doors() {
        for ratio in [0.01, 0.7, 1.5, 4.0, f64::NAN, f64::INFINITY] {
            for open in 0..3 {
                let sides = ("12 m".to_owned(), "8 m".to_owned());
                let d = from_above(&FromAbove { ratio, open, fan: true, sides, air: "air moves".into() });
                assert!(d.height > 80.0 && d.height < 260.0, "{}", d.height);
                assert!(d.words.contains("door"));
                for mark in &d.marks {
                    if let Mark::Path(_, path) = mark {
                        assert!(!path.contains("NaN"), "{path}");
                        let x: f64 = path[1..].split(' ').next().unwrap().parse().unwrap();
                        assert!((0.0..=WIDTH).contains(&x), "{path}");
                    }
                }
            }
        }
    }
}
