//! Every sum on its screen: one published row in metric and in US units, its picture, with no job open and with one.

use serde_json::json;

use crate::harness::*;

in_every_engine!(
    every_sum_gives_its_published_row_in_metric_and_us_units,
    a_sum_goes_into_the_record,
    a_sum_answers_while_one_types,
);

/// A sheet with what is typed into it, and the words that must stand in its answer.
struct Row {
    slug: &'static str,
    metric: &'static [(&'static str, &'static str)],
    says: &'static str,
    us: &'static [(&'static str, &'static str)],
    says_us: &'static str,
}

/// Choices are `(ask, =id)`, all else is typed. Row numbers are those of `tests/checks`.
const ROWS: [Row; 12] = [
    // dilution P029, "Dilution Charts and Conversion Tables" (essind.com): 1:4 is 20 %.
    Row {
        slug: "mix",
        metric: &[("water", "4"), ("concentrate", "1"), ("fill", "10")],
        says: "20 % by volume",
        us: &[("water", "4"), ("concentrate", "1"), ("fill", "2.5")],
        says_us: "20 % by volume",
    },
    // frustum P024, textbook exercise (esaral.com): 14 cm high, 16 and 12 cm across: 2.17067 L with pi = 22/7.
    Row {
        slug: "bucket",
        metric: &[
            ("how", "=volume"),
            ("pail", "=own"),
            ("top", "160"),
            ("bottom", "120"),
            ("height", "140"),
            ("level", "140"),
        ],
        says: "2.17 L",
        us: &[
            ("how", "=volume"),
            ("pail", "=own"),
            ("top", "6.2992"),
            ("bottom", "4.7244"),
            ("height", "5.5119"),
            ("level", "5.5118"),
        ],
        says_us: "0.57 US gal",
    },
    // film P042 (Transocean, "Coverage/ Spreading rate"): 8.7 m²/L; P029 (scribd.com 343849341): 208.52 ft²/US gal.
    Row {
        slug: "film",
        metric: &[("how", "=spread"), ("solids", "65"), ("dry", "75")],
        says: "8.7 m²/L with nothing lost",
        us: &[("how", "=spread"), ("solids", "65"), ("dry", "5")],
        says_us: "209 ft²/US gal with nothing lost",
    },
    // dew_point P048, information sheet 1650 (June 2013): 20 °C and 55 % give 10.7 °C.
    Row {
        slug: "air",
        metric: &[("how", "=dew"), ("air", "20"), ("rh", "55")],
        says: "Dew point 10.7 °C",
        us: &[("how", "=dew"), ("air", "68"), ("rh", "55")],
        says_us: "Dew point 51.2 °F",
    },
    // warmup P020, Incropera, example 5.1: 5.16 s.
    Row {
        slug: "warm-up",
        metric: &[("how", "=known"), ("tau", "1 s"), ("steel", "25"), ("air", "200"), ("target", "199")],
        says: "5.2 s",
        us: &[("how", "=known"), ("tau", "1 s"), ("steel", "77"), ("air", "392"), ("target", "390.2")],
        says_us: "5.2 s",
    },
    // purge P027, rEHS, documented example: 171.90 ppm.
    Row {
        slug: "vapour",
        metric: &[
            ("how", "=rate"),
            ("generation", "2.37863"),
            ("after", "11"),
            ("room", "2123.76"),
            ("flow", "4247.53"),
            ("mixing", "1"),
        ],
        says: "172 ppm",
        us: &[
            ("how", "=rate"),
            ("generation", "1.4"),
            ("after", "11"),
            ("room", "75000"),
            ("flow", "2500"),
            ("mixing", "1"),
        ],
        says_us: "172 ppm",
    },
    // equivalent_age P025, worked Q10 example: an hour at 55 °C counts 8 at 25 °C.
    Row {
        slug: "cure",
        metric: &[("h1", "1"), ("t1", "55"), ("reference", "25"), ("cap", "120")],
        says: "8 h count so far",
        us: &[("h1", "1"), ("t1", "131"), ("reference", "77"), ("cap", "248")],
        says_us: "8 h count so far",
    },
    // fasteners_metric P024 (EN ISO 898-1): M10 8.8 carries 33 700 N; fasteners_inch P019 (engineersedge.com): 4940 lbf.
    Row {
        slug: "thread",
        metric: &[("thread", "=M10"), ("strength", "=8.8")],
        says: "Proof load 33.6 kN",
        us: &[("thread", "=3/8-16 UNC"), ("strength", "=5")],
        says_us: "clamps 4940 lbf",
    },
    // nozzle P013, catalogue page 165: 60° at 12 in is 13.8 in.
    Row {
        slug: "nozzle",
        metric: &[("angle", "60"), ("distance", "304.8")],
        says: "352 mm wide",
        us: &[("angle", "60"), ("distance", "12")],
        says_us: "13 7/8 in wide",
    },
    // Worked example (esaral.com, surface of a cuboid): 80 × 40 × 20 cm is 11 200 cm².
    Row {
        slug: "area",
        metric: &[("length", "80 cm"), ("width", "40 cm"), ("height", "20 cm")],
        says: "1.12 m²",
        us: &[("length", "2.6247"), ("width", "1.3123"), ("height", "0.65617")],
        says_us: "12.1 ft²",
    },
    // No published row was found that is right; derived by hand: 6.5 from ones at 30 and fives at 110.
    Row {
        slug: "packs",
        metric: &[("need", "6.5"), ("s1", "1"), ("p1", "30"), ("s2", "5"), ("p2", "110")],
        says: "for 170",
        us: &[("need", "6.5"), ("s1", "1"), ("p1", "30"), ("s2", "5"), ("p2", "110")],
        says_us: "for 170",
    },
    // "Anodic Index Information" (eicac.co.uk): gold and silver are 0.15 V apart.
    Row {
        slug: "two-metals",
        metric: &[("a", "=gold"), ("b", "=silver")],
        says: "0.15 V apart",
        us: &[("a", "=gold"), ("b", "=silver")],
        says_us: "0.15 V apart",
    },
];

impl Phone {
    /// Answers one question of a sheet.
    async fn put(&self, ask: &str, text: &str) {
        let id = format!("ask-{ask}");
        match text.strip_prefix('=') {
            None => self.fill(&id, text).await,
            Some(option) => {
                let chosen = json!([format!("[data-id='{id}']"), option, format!("[data-id='{id}-{option}']")]);
                // The phone's own list cannot be tapped open without a screen: choose as it does, and say so.
                let script = r"
                    const [list, value, button] = arguments[0];
                    const select = document.querySelector(list);
                    if (!select) return document.querySelector(button).click();
                    select.value = value;
                    if (select.value !== value) throw new Error('no such option: ' + value);
                    select.dispatchEvent(new Event('change', { bubbles: true }));";
                self.script(script, vec![chosen]).await;
            }
        }
    }

    /// Everything a sheet says above its questions.
    async fn answer(&self) -> String {
        let script = "return ['answer', 'answer-more'].map(i => document.querySelector(`[data-id=${i}]`).innerText).join('\\n');";
        self.try_script(script, vec![]).await.and_then(|v| v.as_str().map(str::to_owned)).unwrap_or_default()
    }

    async fn sheet_says(&self, slug: &str, typed: &[(&str, &str)], says: &str) {
        self.go(&format!("#/sums/{slug}")).await;
        self.wait_for("answer").await;
        for (ask, text) in typed {
            self.put(ask, text).await;
        }
        self.until(&format!("{slug} says {says:?}"), || async { self.answer().await.contains(says) }).await;
        self.wait_for("picture").await;
        let drawn = "return document.querySelectorAll('[data-id=picture] path, [data-id=picture] text').length;";
        assert!(self.script(drawn, vec![]).await.as_u64().unwrap() >= 3, "{slug}: an empty picture");
        self.wait_for("cautions").await;
    }

    /// Words in the picture that stand over its edge or are too small to read.
    async fn crowded(&self) -> Vec<String> {
        let script = r"
            const svg = document.querySelector('[data-id=picture]');
            const frame = svg.getBoundingClientRect();
            return [...svg.querySelectorAll('text')]
                .map(t => [t, t.getBoundingClientRect()])
                .filter(([t, b]) => b.left < frame.left - 1 || b.right > frame.right + 1 || b.top < frame.top - 1
                    || b.bottom > frame.bottom + 1 || parseFloat(getComputedStyle(t).fontSize) * frame.width / 328 < 14.9)
                .map(([t]) => t.textContent);";
        serde_json::from_value(self.script(script, vec![]).await).unwrap()
    }
}

async fn start(engine: Engine, name: &str) -> (Folder, Phone, Host) {
    let profile = Folder::new(name);
    let host = Host::start(Serve::default());
    let phone = Phone::start(engine, profile.path()).await;
    phone.open(&host.url).await;
    // The banner that says so pushes the screen down: a tap on its way would land elsewhere.
    phone.wait_ready_offline().await;
    phone.click("ready-offline-ok").await;
    phone.wait_gone("ready-offline").await;
    phone.wait_for("start-job").await;
    (profile, phone, host)
}

async fn every_sum_gives_its_published_row_in_metric_and_us_units(engine: Engine) {
    let (_profile, phone, _host) = start(engine, "sums").await;
    phone.go("#/sums").await;
    let listed =
        phone.script("return [...document.querySelectorAll('[data-sum]')].map(a => a.dataset.sum);", vec![]).await;
    assert_eq!(listed, json!(ROWS.map(|r| r.slug)), "every sum of the list is tried here");
    for row in &ROWS {
        phone.sheet_says(row.slug, row.metric, row.says).await;
        assert_eq!(phone.crowded().await, Vec::<String>::new(), "{}", row.slug);
        assert!(!phone.has("sum-keep").await, "no job is open");
    }
    phone.go("#/settings").await;
    phone.click("[data-choice^='US']").await;
    for row in &ROWS {
        phone.sheet_says(row.slug, row.us, row.says_us).await;
        assert_eq!(phone.crowded().await, Vec::<String>::new(), "{} in US units", row.slug);
    }
}

async fn a_sum_goes_into_the_record(engine: Engine) {
    let (_profile, phone, _host) = start(engine, "sum-kept").await;
    phone.click("look-round").await;
    phone.wait_for("go").await;
    phone.sheet_says("mix", &[("fill", "8")], "6 L water").await;
    phone.click("sum-keep").await;
    phone.wait_for("saved").await;
    phone.go("#/record").await;
    phone.see("6 L water, 2 L concentrate").await;
    phone.see("fill the bucket to: 8 L").await;
}

async fn a_sum_answers_while_one_types(engine: Engine) {
    let (_profile, phone, _host) = start(engine, "sum-typed").await;
    phone.go("#/sums/mix").await;
    phone.fill("ask-fill", "5 gal").await;
    phone.see("Gal can be US or imperial").await;
    phone.click("gallon-us").await;
    phone.until("the answer comes", || async { phone.answer().await.contains("14.2 L water") }).await;
    // Asked once.
    phone.fill("ask-fill", "1 gal").await;
    phone.until("not asked again", || async { phone.answer().await.contains("2.84 L water") }).await;
    phone.fill("ask-fill", "mud").await;
    phone.see("Start with a number").await;
    phone.see("Put right what is marked below.").await;
    // The answer stays in view above the field one types in.
    phone.fill("ask-fill", "12").await;
    phone.script("document.querySelector('[data-id=ask-fill]').scrollIntoView({ block: 'center' });", vec![]).await;
    let top = "const b = document.querySelector('[data-id=answer]').getBoundingClientRect(); return b.top >= 0 && b.bottom < innerHeight / 2;";
    phone.until("the answer is in view", || async { phone.script(top, vec![]).await == json!(true) }).await;
    // A joint that gets no figure says why.
    phone.go("#/sums/thread").await;
    phone.put("joint", "=wheel").await;
    phone.see("the machine's manual only").await;
}
