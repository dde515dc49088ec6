//! Spread: the seeded run against methods that have nothing in common with it.

use coatwalk::sums::band::{self, Band, JOB_SCATTER_LN, Z_ONE_IN_TEN, by, over};
use proptest::prelude::*;

/// Even-sided in the logarithm: `likely` over and under by the same factor.
fn even(likely: f64, factor: f64) -> Band {
    Band::of([likely / factor, likely, likely * factor])
}

fn within(got: f64, want: f64, percent: f64) -> bool {
    (got / want - 1.0).abs() <= percent / 100.0
}

/// Closed form: the logarithms' variances add up.
#[test]
fn even_sided_inputs_agree_with_the_closed_form() {
    let factors = [by(even(50.0, 1.2)), by(even(15.0, 1.6)), over(even(0.4, 1.5)), over(even(0.55, 1.4))];
    let sd = [1.2f64, 1.6, 1.5, 1.4].iter().map(|f| (f.ln() / Z_ONE_IN_TEN).powi(2)).sum::<f64>().sqrt();
    let middle = 50.0 * 15.0 / 0.4 / 0.55;
    for seed in 0..50 {
        let got = band::product(&factors, seed).unwrap();
        let want = [(-Z_ONE_IN_TEN * sd).exp() * middle, middle, (Z_ONE_IN_TEN * sd).exp() * middle];
        for (got, want) in [got.low, got.likely, got.high].into_iter().zip(want) {
            assert!(within(got, want, 2.0), "seed {seed}: {got} for {want}");
        }
    }
}

/// The share of a two-piece bell curve under `x`, by adding up its density: no formula of the run is used.
fn strips(band: Band, power: f64, step: f64) -> Vec<(i64, f64)> {
    let side = |a: f64, b: f64| (a / b).ln() / Z_ONE_IN_TEN;
    let (down, up) = (side(band.likely, band.low), side(band.high, band.likely));
    let reach = 6.0 * down.max(up).max(1e-9);
    let mut all: Vec<(i64, f64)> = Vec::new();
    let n = (reach / step).ceil() as i64;
    for i in -n..=n {
        // Fine steps inside a cell, so that the kink in the middle does no harm.
        for part in 0..20 {
            let x = (i as f64 - 0.5 + (part as f64 + 0.5) / 20.0) * step;
            let sd = if x < 0.0 { down } else { up };
            if sd > 0.0 {
                // Half of the chance lies on each side.
                let density = (-0.5 * (x / sd).powi(2)).exp() / sd;
                all.push((if power > 0.0 { i } else { -i }, density));
            }
        }
    }
    let sum: f64 = all.iter().map(|c| c.1).sum();
    all.into_iter().map(|(i, d)| (i, d / sum)).collect()
}

/// Brute force: every cell of one input met with every cell of the others, on a fine grid of logarithms.
fn grid(factors: &[(Band, f64)]) -> Band {
    const STEP: f64 = 0.01;
    let mut sum: std::collections::BTreeMap<i64, f64> = [(0, 1.0)].into();
    for (band, power) in factors {
        let mut next = std::collections::BTreeMap::new();
        let mut cells: std::collections::BTreeMap<i64, f64> = Default::default();
        for (i, p) in strips(*band, *power, STEP) {
            *cells.entry(i).or_default() += p;
        }
        for (a, p) in &sum {
            for (b, q) in &cells {
                *next.entry(a + b).or_default() += p * q;
            }
        }
        sum = next;
    }
    let middle: f64 = factors.iter().map(|(b, power)| power * b.likely.ln()).sum();
    let at = |share: f64| {
        let mut under = 0.0;
        for (i, p) in &sum {
            if under + p >= share {
                // The cell reaches half a step to each side.
                return (middle + (*i as f64 - 0.5 + (share - under) / p) * STEP).exp();
            }
            under += p;
        }
        f64::NAN
    };
    Band { low: at(0.1), likely: at(0.5), high: at(0.9) }
}

#[test]
fn lopsided_inputs_agree_with_a_brute_force_grid() {
    // Film on 50 m² by the trade's defaults: dry film 8, 15, 25 µm; solids 20, 40, 55 %; 35, 55, 70 % land.
    let area = Band::of([40.0, 50.0, 62.5]);
    let (dry, solids, lands) = (Band::of([8.0, 15.0, 25.0]), Band::of([0.2, 0.4, 0.55]), Band::of([0.35, 0.55, 0.7]));
    let want = grid(&[(area, 1.0), (dry, 1.0), (solids, -1.0), (lands, -1.0)]);
    let mut worst: f64 = 0.0;
    for seed in 0..50 {
        let got = band::product(&[by(area), by(dry), over(solids), over(lands)], seed).unwrap();
        for (got, want) in [(got.low, want.low), (got.likely, want.likely), (got.high, want.high)] {
            worst = worst.max((got / want - 1.0).abs());
            assert!(within(got, want, 2.0), "seed {seed}: {got} for {want}");
        }
    }
    println!("worst of 50 seeds: {:.2} % off the grid", 100.0 * worst);
    // The grid would notice a wrong model: adding the sides as squares misses the middle by over 10 %.
    assert!(!within(want.likely, 50.0 * 15.0 / 0.4 / 0.55, 10.0));
}

/// Bayes by brute force over the unknown ratio, as the independent method.
#[test]
fn past_jobs_move_the_estimate_as_bayes_says() {
    let estimate = even(4.0, 2.0);
    let past = [1.3, 1.6, 1.1];
    let all = 2.0f64.ln() / Z_ONE_IN_TEN;
    let rest = (all * all - JOB_SCATTER_LN * JOB_SCATTER_LN).sqrt();
    let (mut weight, mut mean, mut square) = (0.0, 0.0, 0.0);
    for i in -40_000..=40_000 {
        let m = f64::from(i) * 1e-4;
        let seen: f64 = past.iter().map(|r: &f64| ((r.ln() - m) / JOB_SCATTER_LN).powi(2)).sum();
        let p = (-0.5 * ((m / rest).powi(2) + seen)).exp();
        weight += p;
        mean += p * m;
        square += p * m * m;
    }
    let mean = mean / weight;
    let sd = (square / weight - mean * mean + JOB_SCATTER_LN.powi(2)).sqrt();
    let now = band::learn(estimate, &past, JOB_SCATTER_LN).unwrap();
    assert!(within(now.band.likely, 4.0 * mean.exp(), 0.1), "{now:?}");
    assert!(within(now.band.high, 4.0 * (mean + Z_ONE_IN_TEN * sd).exp(), 0.1), "{now:?}");
    assert!(within(now.band.low, 4.0 * (mean - Z_ONE_IN_TEN * sd).exp(), 0.1), "{now:?}");
    assert_eq!(now.jobs, 3);
    assert!(now.words().starts_with("from your 3 jobs, which count for 9"), "{}", now.words());
}

#[test]
fn nonsense_has_a_clear_answer() {
    assert!(band::product(&[], 1).is_err());
    assert!(band::product(&[by(Band::of([2.0, 1.0, 3.0]))], 1).unwrap_err().to_string().contains("must rise"));
    assert!(band::product(&[by(Band::of([0.0, 1.0, 3.0]))], 1).is_err());
    assert!(band::product(&[by(Band::of([f64::NAN, 1.0, 3.0]))], 1).is_err());
    assert_eq!(band::product(&[by(Band::sure(0.0)), by(even(1.0, 2.0))], 1).unwrap(), Band::sure(0.0));
    assert!(band::learn(even(1.0, 2.0), &[0.0], 0.2).is_err());
    assert_eq!(band::learn(even(1.0, 2.0), &[], 0.2).unwrap().band, even(1.0, 2.0));
}

fn bands() -> impl Strategy<Value = Band> {
    (0.01..100.0f64, 1.0..3.0f64, 1.0..3.0f64).prop_map(|(l, down, up)| Band::of([l / down, l, l * up]))
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn same_seed_same_result_and_the_ends_in_order(inputs in prop::collection::vec(bands(), 1..5), seed: u64) {
        let factors: Vec<_> = inputs.iter().map(|b| by(*b)).collect();
        let got = band::product(&factors, seed).unwrap();
        prop_assert_eq!(got, band::product(&factors, seed).unwrap());
        prop_assert!(got.is_ordered() && got.low > 0.0);
        if inputs.len() == 1 {
            // One input comes back as it went in, whatever the seed.
            prop_assert!(within(got.low, inputs[0].low, 0.1) && within(got.high, inputs[0].high, 0.1));
        }
    }

    #[test]
    fn learning_pulls_towards_what_was_seen(estimate in bands(), ratio in 0.3..3.0f64, jobs in 1usize..6) {
        let now = band::learn(estimate, &vec![ratio; jobs], JOB_SCATTER_LN).unwrap();
        let moved = now.band.likely / estimate.likely;
        prop_assert!((moved - 1.0) * (ratio - 1.0) >= -1e-9, "towards it");
        prop_assert!((moved.ln()).abs() <= ratio.ln().abs() + 1e-9, "never past it");
        prop_assert!(now.band.high / now.band.low <= estimate.high / estimate.low + 1e-9, "never less sure");
    }
}
