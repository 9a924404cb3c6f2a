//! A system of differential equations, step by step: the pair of formulas of order 5 and 4 of Dormand and Prince (J. Comput. Appl.
//! Math. 6 (1980), 19), whose difference decides on the length of the next step. A whole library for this would weigh more than the
//! rest of the calculation; that it is right is checked against `SciPy` (`tests/turnover`).

/// Where a step of the method looks, and how it weighs what it saw there.
const STAGES: [(f64, [f64; 6]); 7] = [
    (0.0, [0.0; 6]),
    (0.2, [0.2, 0.0, 0.0, 0.0, 0.0, 0.0]),
    (0.3, [3.0 / 40.0, 9.0 / 40.0, 0.0, 0.0, 0.0, 0.0]),
    (0.8, [44.0 / 45.0, -56.0 / 15.0, 32.0 / 9.0, 0.0, 0.0, 0.0]),
    (
        8.0 / 9.0,
        [
            19372.0 / 6561.0,
            -25360.0 / 2187.0,
            64448.0 / 6561.0,
            -212.0 / 729.0,
            0.0,
            0.0,
        ],
    ),
    (
        1.0,
        [
            9017.0 / 3168.0,
            -355.0 / 33.0,
            46732.0 / 5247.0,
            49.0 / 176.0,
            -5103.0 / 18656.0,
            0.0,
        ],
    ),
    (
        1.0,
        [
            35.0 / 384.0,
            0.0,
            500.0 / 1113.0,
            125.0 / 192.0,
            -2187.0 / 6784.0,
            11.0 / 84.0,
        ],
    ),
];
/// The formula of order 5 less that of order 4.
const DIFFERENCE: [f64; 7] = [
    71.0 / 57600.0,
    0.0,
    -71.0 / 16695.0,
    71.0 / 1920.0,
    -17253.0 / 339_200.0,
    22.0 / 525.0,
    -1.0 / 40.0,
];
/// How much of the step that the difference allows is taken, and by how much a step may shrink or grow at once.
const CAUTION: f64 = 0.9;
const SHRINK_AND_GROW: (f64, f64) = (0.2, 5.0);
/// A step is never shorter than this share of the whole way: at a kink the difference does not get smaller for ever.
const SHORTEST: f64 = 1e-7;

/// How an integration is carried out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Steps {
    /// Greatest difference of a step, absolute and as a share of each value.
    pub(super) tolerance: f64,
    /// Longest step.
    pub(super) longest: f64,
}

/// Follows a state from one place to another, `from` below `to`, or to where `left` falls to zero. `slope` gives what the state
/// changes by, `step` sees each state on the way, the last one among them. Returns the place and the state there.
pub(super) fn integrate<const N: usize>(
    slope: impl Fn(f64, &[f64; N]) -> [f64; N],
    (from, to): (f64, f64),
    start: [f64; N],
    how: Steps,
    left: impl Fn(f64, &[f64; N]) -> f64,
    mut step: impl FnMut(f64, &[f64; N]),
) -> (f64, [f64; N]) {
    let whole = to - from;
    let shortest = SHORTEST * whole;
    let (mut at, mut state, mut length) = (from, start, how.longest.min(whole));
    while at < to && left(at, &state) > 0.0 {
        // The end is met exactly, never by a sliver.
        let is_last = at + length * (1.0 + 1e-9) >= to;
        let mut taken = if is_last { to - at } else { length };
        let (mut next, error) = tried(&slope, at, &state, taken, how.tolerance);
        if error <= 1.0 || taken <= shortest {
            let mut place = if is_last { to } else { at + taken };
            if left(place, &next) < 0.0 {
                let end = |length: f64| tried(&slope, at, &state, length, how.tolerance).0;
                taken = crossing(taken, |length| left(at + length, &end(length)));
                (place, next) = (at + taken, end(taken));
                step(place, &next);
                return (place, next);
            }
            (at, state) = (place, next);
            step(at, &state);
        }
        let wish = CAUTION * libm::pow(error.max(1e-12), -0.2);
        length =
            (taken * wish.clamp(SHRINK_AND_GROW.0, SHRINK_AND_GROW.1)).clamp(shortest, how.longest);
    }
    (at, state)
}

/// Rounds in which the place is found where something falls to zero, and how near to zero is near enough.
const ROUNDS: u32 = 30;
const NEAR: f64 = 1e-12;

/// Where within a step something that is above zero at its beginning and below at its end is zero: by the rule of false position,
/// the end that stays being trusted half as much each time (Dowell and Jarratt, BIT 11 (1971), 168).
fn crossing(step: f64, left: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = ((0.0, left(0.0)), (step, left(step)));
    for _ in 0..ROUNDS {
        let place = low.0 + (high.0 - low.0) * low.1 / (low.1 - high.1);
        let value = left(place);
        if value.abs() < NEAR {
            return place;
        }
        if value > 0.0 {
            (low, high.1) = ((place, value), high.1 / 2.0);
        } else {
            (high, low.1) = ((place, value), low.1 / 2.0);
        }
    }
    high.0
}

/// The state after a step, and its error as a share of what is tolerated.
fn tried<const N: usize>(
    slope: &impl Fn(f64, &[f64; N]) -> [f64; N],
    at: f64,
    state: &[f64; N],
    length: f64,
    tolerance: f64,
) -> ([f64; N], f64) {
    let mut slopes = [[0.0; N]; 7];
    let mut next = *state;
    for (stage, (share, weights)) in STAGES.iter().enumerate() {
        next = *state;
        for (weight, seen) in weights.iter().zip(&slopes) {
            for (value, slope) in next.iter_mut().zip(seen) {
                *value += length * weight * slope;
            }
        }
        slopes[stage] = slope(at + share * length, &next);
    }
    let mut worst: f64 = 0.0;
    for (index, (before, after)) in state.iter().zip(&next).enumerate() {
        let seen = slopes.iter().zip(DIFFERENCE);
        let error: f64 = seen.map(|(slope, weight)| slope[index] * weight).sum();
        let allowed = tolerance * (1.0 + before.abs().max(after.abs()));
        worst = worst.max((length * error / allowed).abs());
    }
    (next, worst)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A swinging point, x″ = −x, is back where it began after 2π.
    #[test]
    fn a_swing_comes_back() {
        let how = Steps {
            tolerance: 1e-10,
            longest: 1.0,
        };
        let mut seen = 0;
        let end = integrate(
            |_, &[place, speed]| [speed, -place],
            (0.0, 2.0 * core::f64::consts::PI),
            [1.0, 0.0],
            how,
            |_, _| 1.0,
            |_, _| seen += 1,
        );
        let end = end.1;
        assert!(
            (end[0] - 1.0).abs() < 1e-8 && end[1].abs() < 1e-8,
            "{end:?}"
        );
        assert!(seen < 200, "{seen} steps");
    }

    /// The slope jumps at 1: the integral is 1 + 3.
    #[test]
    fn a_kink_is_passed() {
        let how = Steps {
            tolerance: 1e-9,
            longest: 2.0,
        };
        let slope = |at: f64, _: &[f64; 1]| [if at < 1.0 { 1.0 } else { 3.0 }];
        let end = integrate(slope, (0.0, 2.0), [0.0], how, |_, _| 1.0, |_, _| {});
        assert!((end.1[0] - 4.0).abs() < 1e-6, "{end:?}");
    }

    #[test]
    fn what_is_no_number_ends_all_the_same() {
        let how = Steps {
            tolerance: 1e-9,
            longest: 0.5,
        };
        let slope = |_: f64, _: &[f64; 1]| [f64::NAN];
        let end = integrate(slope, (0.0, 1.0), [0.0], how, |_, _| 1.0, |_, _| {});
        assert!(end.1[0].is_nan());
    }

    /// exp(−x) falls to a half at ln 2.
    #[test]
    fn it_ends_where_what_is_left_is_gone() {
        let how = Steps {
            tolerance: 1e-10,
            longest: 1.0,
        };
        let slope = |_: f64, state: &[f64; 1]| [-state[0]];
        let left = |_: f64, state: &[f64; 1]| state[0] - 0.5;
        let (at, _) = integrate(slope, (0.0, 5.0), [1.0], how, left, |_, _| {});
        assert!((at - core::f64::consts::LN_2).abs() < 1e-9, "{at}");
    }
}
