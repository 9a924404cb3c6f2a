//! Chance that comes out the same every time.

/// A generator of numbers that look random. Source: Steele, Lea, Flood 2014, "Fast splittable pseudorandom number
/// generators" (from memory).
pub(crate) struct Chance(u64);

impl Chance {
    pub(crate) fn of(seed: u64) -> Self {
        Self(seed)
    }

    fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// Between 0 and 1, never 0.
    pub(crate) fn uniform(&mut self) -> f64 {
        ((self.bits() >> 11) as f64 + 0.5) / (1_u64 << 53) as f64
    }

    /// Normal, of mean 0 and spread 1. Source: Box & Muller 1958.
    pub(crate) fn normal(&mut self) -> f64 {
        let (radius, turn) = (self.uniform(), self.uniform());
        (-2.0 * radius.ln()).sqrt() * (core::f64::consts::TAU * turn).cos()
    }
}

#[test]
fn chance_is_normal() {
    let mut chance = Chance::of(1);
    let drawn: Vec<f64> = (0..20_000).map(|_| chance.normal()).collect();
    let mean = drawn.iter().sum::<f64>() / 20_000.0;
    let variance = drawn.iter().map(|value| value * value).sum::<f64>() / 20_000.0;
    let within = drawn.iter().filter(|value| value.abs() < 1.96).count();
    assert!(
        mean.abs() < 0.03 && (variance - 1.0).abs() < 0.05,
        "{mean} {variance}"
    );
    assert!((18_850..19_150).contains(&within), "{within}");
}
