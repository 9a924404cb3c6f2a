//! Closed forms of a level line, written from the papers and by hand; nothing of the core is in them.

use core::f64::consts::PI;

/// The closed form of the older papers: a level upper leg of `start` metres that weighs no more at its end, and a loop that weighs
/// nothing and stays a half circle. Source: Spolek, Am. J. Phys. 54 (1986), 832, with our split of the drag; worked out by hand.
///
/// ```text
/// v = v₀ exp(−(2A/μ)(s₀ − s)) (s/s₀)^(2B/μ − ½)
/// ```
#[derive(Clone, Copy, Debug)]
pub(crate) struct Level {
    /// v₀, metres per second.
    pub(crate) speed: f64,
    /// s₀, metres.
    pub(crate) start: f64,
    /// A/μ: drag along the leg, for each metre.
    pub(crate) along: f64,
    /// B/μ: drag at its end.
    pub(crate) end: f64,
}

impl Level {
    /// Speed when so much of the upper leg is left.
    pub(crate) fn speed_at(&self, left: f64) -> f64 {
        let power = 2.0 * self.end - 0.5;
        let faded = (-2.0 * self.along * (self.start - left)).exp();
        self.speed * faded * (left / self.start).powf(power)
    }

    /// Time until so much of it is left, without drag: ∫ 2/v ds.
    pub(crate) fn seconds_to(&self, left: f64) -> f64 {
        let gone = self.start.powf(1.5) - left.powf(1.5);
        4.0 / (3.0 * self.speed) * gone / self.start.sqrt()
    }
}

/// A of a line: `½ ρ π C_t d`.
pub(crate) fn along(density: f64, size: f64, along: f64) -> f64 {
    0.5 * density * PI * along * size
}

/// B of a half circle: `ρ d R (C_n/12 + 5π²/32 C_t)`, from ∫ cos³φ dφ = 4/3 and ∫ (1 + cos ψ)³ dψ = 5π/2.
pub(crate) fn half_circle(density: f64, size: f64, radius: f64, [across, along]: [f64; 2]) -> f64 {
    density * size * radius * (across / 12.0 + 5.0 * PI * PI / 32.0 * along)
}

/// Mass of all that moves as the loop begins or ends, by many slices: fly, leg of this length, and the half circle, in which a place so
/// far round moves (1 + cos ψ)/2 of its mass. `mass_at` is mass per length.
pub(crate) fn moving_mass(fly: f64, leg: f64, radius: f64, mass_at: impl Fn(f64) -> f64) -> f64 {
    let straight = sum(leg, &mass_at);
    let round = |way: f64| mass_at(leg + way) * (1.0 + (way / radius).cos()) / 2.0;
    fly + straight + sum(PI * radius, round)
}

fn sum(length: f64, of: impl Fn(f64) -> f64) -> f64 {
    let slices = 20_000;
    let width = length / f64::from(slices);
    let middles = (0..slices).map(|slice| (f64::from(slice) + 0.5) * width);
    middles.map(of).sum::<f64>() * width
}
