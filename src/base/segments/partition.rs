//! The best cut of numbers into pieces, each with a straight line of its own.

use super::sums::Sums;

/// A cut into pieces.
#[derive(Clone, Debug, PartialEq)]
pub struct Partition {
    /// For each piece how many numbers come before its end; the last is the count of all.
    pub ends: Vec<usize>,
    /// Weighted squares that all lines leave, and the penalty for every piece after the first.
    pub cost: f64,
}

/// The cut of least cost among all: weighted squares left by a straight line for each piece, and `penalty`, 0 at least, for every
/// piece after the first. A piece of one number or two costs no squares.
///
/// Exact, by dynamic programming over the end of the last piece. Source: Jackson et al. 2005, "An algorithm for optimal
/// partitioning of data on an interval", IEEE Signal Processing Letters 12. A beginning is dropped for good once the cost up to it
/// and of a piece from it exceeds the best cost up to here: a piece cut in two never leaves more squares. Source: Killick,
/// Fearnhead & Eckley 2012, "Optimal detection of changepoints with a linear computational cost", JASA 107, theorem 3.1
/// (both from memory).
pub fn partition(sums: &Sums, penalty: f64) -> Partition {
    let count = sums.count();
    if count == 0 {
        return Partition {
            ends: Vec::new(),
            cost: 0.0,
        };
    }
    let mut best = vec![-penalty; count + 1];
    let mut from = vec![0; count + 1];
    let mut open: Vec<usize> = Vec::new();
    let mut costs: Vec<f64> = Vec::new();
    for end in 1..=count {
        open.push(end - 1);
        costs.clear();
        let (mut least, mut begin) = (f64::INFINITY, 0);
        for &first in &open {
            let cost = best[first] + sums.squares(first, end);
            costs.push(cost);
            if cost < least {
                (least, begin) = (cost, first);
            }
        }
        (best[end], from[end]) = (least + penalty, begin);
        let limit = best[end];
        let mut each = costs.iter();
        open.retain(|_| each.next().is_some_and(|&cost| cost <= limit));
    }
    let mut ends: Vec<usize> =
        core::iter::successors(Some(count), |&end| (from[end] > 0).then(|| from[end])).collect();
    ends.reverse();
    Partition {
        ends,
        cost: best[count],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Analytic: two lines without error and a jump of 10 between them cost one penalty.
    #[test]
    fn a_jump_is_cut() {
        let places: Vec<f64> = (0..8).map(f64::from).collect();
        let value = |at: &f64| if *at < 5.0 { *at } else { 10.0 };
        let values: Vec<f64> = places.iter().map(value).collect();
        let sums = Sums::of(&places, &values, &[1.0; 8]);
        let cut = partition(&sums, 0.5);
        assert_eq!(cut.ends, [5, 8]);
        assert!((cut.cost - 0.5).abs() < 1e-9);
        assert_eq!(partition(&sums, 1e9).ends, [8]);
        assert!(partition(&Sums::of(&[], &[], &[]), 1.0).ends.is_empty());
    }
}
