//! How much readings scatter, before any line is known.

use super::places::Places;

/// Fewer differences than this show no scatter.
const FEWEST: usize = 6;
/// The median of |x| of normal numbers times this is their standard deviation: 1 over the normal quantile of 3/4. Source: any text
/// on robust statistics, such as Huber 1981 (from memory).
pub(super) const OF_MEDIAN: f64 = 1.4826;

/// The scatter of one reading: no smaller than the micrometer's `error`. Each place differs from the straight line between
/// its neighbours, and readings of one place from each other; of either kind it is the median that counts, so that corners and
/// wrong readings move it little.
///
/// With shares `a` and `b` of the neighbours, the difference of single readings has a variance of `1 + a² + b²` of theirs
/// (analytic; for even spacing that of Gasser, Sroka & Jennen-Steinmetz 1986, "Residual variance and residual pattern in nonlinear
/// regression", Biometrika 73, from memory).
pub(super) fn scatter(places: &Places, error: f64) -> f64 {
    let difference = |middle: usize| {
        let (before, after) = (middle - 1, middle + 1);
        let share =
            (places.at[middle] - places.at[before]) / (places.at[after] - places.at[before]);
        let line = places.diameter[before] * (1.0 - share) + places.diameter[after] * share;
        let variance = 1.0 / places.count[middle]
            + (1.0 - share) * (1.0 - share) / places.count[before]
            + share * share / places.count[after];
        ((places.diameter[middle] - line) / variance.sqrt()).abs()
    };
    let along = (1..places.len().saturating_sub(1)).map(difference);
    // Of several readings at a place, the root of the mean square about their mean, with n − 1 below.
    let several = places.within.iter().zip(&places.count);
    let within = several
        .filter(|(_, count)| **count > 1.0)
        .map(|(squares, count)| (squares / (count - 1.0)).sqrt());
    let along = of_median(along.collect()).unwrap_or(0.0);
    let within = of_median(within.collect()).unwrap_or(0.0);
    error.max(along).max(within)
}

/// The standard deviation that so many sizes of normal numbers show.
pub(super) fn of_median(mut sizes: Vec<f64>) -> Option<f64> {
    (sizes.len() >= FEWEST).then(|| OF_MEDIAN * median(&mut sizes))
}

/// The median of some numbers, one at least.
pub(super) fn median(numbers: &mut [f64]) -> f64 {
    numbers.sort_by(f64::total_cmp);
    let half = numbers.len() / 2;
    if numbers.len() % 2 == 1 {
        numbers[half]
    } else {
        f64::midpoint(numbers[half - 1], numbers[half])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_median_is_the_middle() {
        assert_eq!(median(&mut [3.0, 1.0, 2.0]), 2.0);
        assert_eq!(median(&mut [4.0, 1.0, 2.0, 3.0]), 2.5);
        assert_eq!(of_median(vec![1.0; 3]), None);
    }

    /// Analytic: up and down by 1 about a slope differs from its neighbours by 2, whose spread is √1.5 of a reading's.
    #[test]
    fn a_slope_is_no_scatter() {
        let count = 20_u32;
        let places = |zigzag: f64| Places {
            at: (0..count).map(f64::from).collect(),
            diameter: (0..count)
                .map(|at| 0.5 * f64::from(at) + if at % 2 == 0 { zigzag } else { -zigzag })
                .collect(),
            count: vec![1.0; 20],
            within: vec![0.0; 20],
            readings: vec![(0, 0); 20],
            is_sure: vec![false; 20],
        };
        assert_eq!(scatter(&places(0.0), 0.1), 0.1);
        let found = scatter(&places(1.0), 0.1);
        assert!((found - 1.4826 * 2.0 / 1.5_f64.sqrt()).abs() < 1e-9);
    }
}
