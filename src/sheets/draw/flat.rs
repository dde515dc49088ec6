//! Films, fans, bars, shapes and cans.

use super::{Drawing, LINE, WIDTH};

/// Films side by side on the same steel: (figure, what it is, thickness, look).
pub fn films(all: &[(String, &str, f64, &'static str)]) -> Drawing {
    const TALL: f64 = 110.0;
    let told: Vec<String> = all.iter().map(|f| format!("{} {}", f.0, f.1)).collect();
    let mut d = Drawing::new(TALL + 78.0, format!("On steel: {}", told.join("; ")));
    let most = all.iter().map(|f| f.2).fold(1e-9, f64::max);
    let foot = TALL + 28.0;
    let wide = (WIDTH - 16.0) / all.len().max(1) as f64;
    d.face("metal", 4.0, foot, WIDTH - 8.0, 22.0);
    for (i, (figure, what, thick, look)) in all.iter().enumerate() {
        let (left, tall) = (8.0 + wide * i as f64, (TALL * thick / most).max(3.0));
        d.face(look, left + 4.0, foot - tall, wide - 8.0, tall);
        d.face("line", left + 4.0, foot - tall, wide - 8.0, tall);
        d.words("bold", "middle", left + wide / 2.0, foot - tall - 8.0, figure);
        d.words("say", "middle", left + wide / 2.0, foot + 22.0 + LINE, what);
    }
    d.line("line", (4.0, foot), (WIDTH - 4.0, foot));
    d.words("say", "middle", WIDTH / 2.0, foot + 16.0, "steel");
    d
}

/// A fan on a plate, its angle true.
pub fn fan(angle_deg: f64, width: &str, distance: &str, bad: bool) -> Drawing {
    let half = (angle_deg.min(150.0) / 2.0).to_radians().tan();
    let mut d = Drawing::new(214.0, format!("A fan {width} wide on a plate {distance} away"));
    let (middle, top) = (WIDTH / 2.0, 34.0);
    // True to the angle; a wide fan is drawn lower.
    let tall = if half > 0.0 { (110.0 / half).min(130.0) } else { 130.0 };
    let (foot, reach) = (top + tall, (tall * half).max(1.5));
    let look = if bad { "stop" } else { "wet" };
    d.path(look, format!("M{middle} {top}L{:.1} {foot:.1}H{:.1}Z", middle - reach, middle + reach));
    d.path("line", format!("M{:.1} 4v16l5 10h10l5 -10v-16", middle - 10.0));
    d.face("metal", 20.0, foot, WIDTH - 40.0, 12.0);
    d.line("line", (20.0, foot), (WIDTH - 20.0, foot));
    d.path(
        "line thin",
        format!("M{:.1} {:.1}v14M{:.1} {:.1}v14", middle - reach, foot + 12.0, middle + reach, foot + 12.0),
    );
    d.line("line thin", (middle - reach, foot + 19.0), (middle + reach, foot + 19.0));
    d.words("bold", "middle", middle, foot + 42.0, width);
    d.path("line thin", format!("M{:.1} {top}h14m-7 0V{foot:.1}m-7 0h14", WIDTH - 38.0));
    let beside = (top + foot) / 2.0 + 5.0;
    d.words("bold halo", "end", WIDTH - 36.0, beside.min(top + 30.0), distance);
    d.height = foot + 50.0;
    d
}

/// A bar.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// What it is, with its figure: stands over it.
    pub words: String,
    /// Where it begins.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// The likely value in it, marked.
    pub likely: Option<f64>,
    /// The look of its face.
    pub look: &'static str,
}

/// Bars under each other on one scale that starts at nothing.
pub fn bars(all: &[Bar]) -> Drawing {
    const STEP: f64 = 50.0;
    let told: Vec<&str> = all.iter().map(|b| b.words.as_str()).collect();
    let mut d = Drawing::new(STEP * all.len() as f64 + 8.0, told.join("; "));
    let most = all.iter().map(|b| b.to).fold(1e-9, f64::max);
    let x = |v: f64| 4.0 + (WIDTH - 8.0) * (v / most).clamp(0.0, 1.0);
    for (i, bar) in all.iter().enumerate() {
        let top = STEP * i as f64;
        d.words("say", "start", 10.0, top + LINE - 3.0, &bar.words);
        let (from, wide) = (x(bar.from), (x(bar.to) - x(bar.from)).max(2.5));
        d.face(bar.look, from, top + LINE + 4.0, wide, 20.0);
        d.face("line", from, top + LINE + 4.0, wide, 20.0);
        if let Some(likely) = bar.likely {
            d.line("line strong", (x(likely), top + LINE), (x(likely), top + LINE + 28.0));
        }
    }
    d.path("line thin", format!("M4 4V{:.1}", d.height - 4.0));
    d
}

/// A plain body to be covered.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Solid {
    /// A box.
    Box,
    /// A sheet.
    Plate,
    /// A tube.
    Tube,
    /// A wheel.
    Wheel,
    /// A channel.
    Rail,
}

/// The body with the words of its sides: along, up and into the depth.
pub fn solid(what: Solid, sides: [&str; 3]) -> Drawing {
    let [along, up, deep] = sides;
    let said: Vec<&str> = sides.into_iter().filter(|s| !s.is_empty()).collect();
    let mut d = Drawing::new(168.0, format!("A {what:?}: {}", said.join(", ")).to_ascii_lowercase());
    match what {
        Solid::Box => {
            d.path("paper", "M40 60h150v76h-150Z".into());
            d.path("metal", "M40 60l40 -34h150l-40 34ZM190 136v-76l40 -34v76Z".into());
            d.path("line", "M40 60h150v76h-150ZM40 60l40 -34h150l-40 34M230 26v76l-40 34".into());
        }
        Solid::Plate => {
            d.path("paper", "M40 136v-76l150 -34v76Z".into());
            d.path("line", "M40 136v-76l150 -34v76Z".into());
        }
        Solid::Tube => {
            d.path("paper", "M52 50h150a14 33 0 0 1 0 66h-150a14 33 0 0 1 0 -66Z".into());
            d.path("line", "M52 50h150a14 33 0 0 1 0 66h-150a14 33 0 0 1 0 -66a14 33 0 0 1 0 66".into());
        }
        Solid::Wheel => {
            d.path("paper", "M96 24h60a24 55 0 0 1 0 110h-60a24 55 0 0 1 0 -110Z".into());
            d.path("line", "M96 24h60a24 55 0 0 1 0 110h-60a24 55 0 0 1 0 -110a24 55 0 0 1 0 110M96 62a8 18 0 0 1 0 36a8 18 0 0 1 0 -36".into());
        }
        Solid::Rail => {
            d.path("metal", "M70 42h150v70h-150Z".into());
            d.path("paper", "M70 112l-26 18h150l26 -18ZM70 42l-26 18h150l26 -18Z".into());
            d.path("line", "M70 60v52M220 42v70M70 112l-26 18h150l26 -18ZM70 42l-26 18h150l26 -18Z".into());
        }
    }
    let (foot, side, edge) = match what {
        Solid::Box => ((115.0, 158.0), (240.0, 70.0), (34.0, 34.0)),
        Solid::Plate => ((130.0, 158.0), (200.0, 70.0), (34.0, 34.0)),
        Solid::Tube => ((127.0, 140.0), (226.0, 88.0), (34.0, 34.0)),
        Solid::Wheel => ((126.0, 158.0), (188.0, 84.0), (34.0, 34.0)),
        Solid::Rail => ((120.0, 154.0), (228.0, 82.0), (4.0, 52.0)),
    };
    d.words("bold", "middle", foot.0, foot.1, along);
    d.words("bold", "start", side.0, side.1, up);
    d.words("bold", "start", edge.0, edge.1 - 14.0, deep);
    d
}

/// Cans of one size.
#[derive(Clone, Debug, PartialEq)]
pub struct Can {
    /// How many.
    pub count: u32,
    /// Their volume, in any one unit.
    pub volume: f64,
    /// "2 × 5 L".
    pub words: String,
}

/// What to buy, each size in its own row; more than fit are told by their words alone.
pub fn cans(all: &[Can]) -> Drawing {
    const MOST: u32 = 9;
    const STEP: f64 = 78.0;
    let told: Vec<&str> = all.iter().map(|c| c.words.as_str()).collect();
    let mut d = Drawing::new((STEP * all.len().max(1) as f64).max(44.0), told.join("; "));
    let most = all.iter().map(|c| c.volume).fold(1e-9, f64::max);
    for (i, can) in all.iter().enumerate() {
        let top = STEP * i as f64;
        let foot = top + STEP - 6.0;
        let tall = (46.0 * (can.volume / most).cbrt()).max(14.0);
        let wide = 0.62 * tall;
        d.words("bold", "start", 4.0, top + LINE - 2.0, &can.words);
        for n in 0..can.count.min(MOST) {
            let left = 8.0 + f64::from(n) * 35.0;
            d.face("wet", left, foot - tall, wide, tall);
            d.face("line", left, foot - tall, wide, tall);
            d.line("line thin", (left, foot - tall + 5.0), (left + wide, foot - tall + 5.0));
        }
        d.line("line thin", (4.0, foot), (WIDTH - 4.0, foot));
    }
    d
}
