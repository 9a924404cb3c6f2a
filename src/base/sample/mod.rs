//! What a few numbers of one kind say of all such numbers: their mean and spread, each with the limits that so few allow; a share
//! counted; and whether the last of them depart from the earlier ones ([`Step`]).
//!
//! All of it takes the numbers as independent and normal, with one mean and one spread. This room knows nothing of lines.

mod quantiles;
mod step;

pub use quantiles::{chi_squared, student};
pub use step::{LEVEL, Step};

/// The share of cases in which a limit holds.
pub const HELD: f64 = 0.95;

/// Some numbers of one kind, one at least.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sample {
    /// How many; 900 at most, which is more than any book has.
    pub count: u32,
    /// Their mean, in their own unit.
    pub mean: f64,
    /// Their standard deviation, in their own unit, with n − 1 below the squares; `None` of one number, which shows no spread.
    pub deviation: Option<f64>,
}

impl Sample {
    /// That of these numbers; `None` without any, or where there are more than any book has.
    pub fn of(numbers: &[f64]) -> Option<Self> {
        let count = u32::try_from(numbers.len()).ok()?;
        if count == 0 || count > quantiles::MOST_DEGREES {
            return None;
        }
        let mean = numbers.iter().sum::<f64>() / f64::from(count);
        let squares: f64 = numbers.iter().map(|x| (x - mean) * (x - mean)).sum();
        Some(Self {
            count,
            mean,
            deviation: (count > 1).then(|| (squares / f64::from(count - 1)).sqrt()),
        })
    }

    /// Limits of the mean of all such numbers, which hold in [`HELD`] of all cases: `x̄ ± t s/√n`. Source: Student 1908, "The
    /// probable error of a mean"; today in any text of statistics (from memory).
    pub fn mean_limits(&self) -> Option<(f64, f64)> {
        let deviation = self.deviation?;
        let margin = student(self.count - 1, HELD) * deviation / f64::from(self.count).sqrt();
        Some((self.mean - margin, self.mean + margin))
    }

    /// Limits of the standard deviation of all such numbers, which hold in [`HELD`] of all cases: `s √((n − 1)/χ²)` with the
    /// chi-squared that as many exceed at either end. Source: any text of statistics (from memory).
    pub fn deviation_limits(&self) -> Option<(f64, f64)> {
        let (deviation, degrees) = (self.deviation?, self.count - 1);
        let limit = |below| deviation * (f64::from(degrees) / chi_squared(degrees, below)).sqrt();
        let left_out = 0.5 * (1.0 - HELD);
        Some((limit(1.0 - left_out), limit(left_out)))
    }
}

/// Limits of a share that was met in some of so many cases, one at least, where all that lies within `z` spreads is to be held:
/// `(p + z²/2n ± z √(p(1 − p)/n + z²/4n²)) / (1 + z²/n)`. Source: Wilson 1927, "Probable inference, the law of succession, and
/// statistical inference"; advised for few cases by Brown, Cai and others 2001 (both from memory).
pub fn share_limits(met: u32, of: u32, z: f64) -> (f64, f64) {
    let (count, square) = (f64::from(of), z * z);
    let share = f64::from(met) / count;
    let middle = share + square / (2.0 * count);
    let variance = share * (1.0 - share) / count + square / (4.0 * count * count);
    let limit = |side: f64| (middle + side * z * variance.sqrt()) / (1.0 + square / count);
    // Rounding must not lead beyond none and all.
    (limit(-1.0).max(0.0), limit(1.0).min(1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Of 1, 2 and 3 the mean is 2 and the standard deviation 1.
    #[test]
    fn mean_and_spread_are_those_of_the_sample() {
        let sample = Sample::of(&[1.0, 2.0, 3.0]).expect("there are numbers");
        assert_eq!((sample.mean, sample.deviation), (2.0, Some(1.0)));
        let (low, high) = sample.mean_limits().expect("three have limits");
        assert!(
            (low + high - 4.0).abs() < 1e-12,
            "the mean is in the middle"
        );
    }

    #[test]
    fn one_number_shows_no_spread_and_none_nothing() {
        let one = Sample::of(&[4.0]).expect("there is one");
        assert_eq!((one.mean, one.deviation), (4.0, None));
        assert_eq!((one.mean_limits(), one.deviation_limits()), (None, None));
        assert_eq!(Sample::of(&[]), None);
    }

    /// Numbers that are all alike have no spread, and limits without a width.
    #[test]
    fn equal_numbers_have_no_width() {
        let alike = Sample::of(&[0.5; 4]).expect("there are numbers");
        assert_eq!(alike.mean_limits(), Some((0.5, 0.5)));
        assert_eq!(alike.deviation_limits(), Some((0.0, 0.0)));
    }
}
