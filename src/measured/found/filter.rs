//! Readings that contradict both sides are set aside before a line is sought: it would bend to reach them.

use super::data::Data;
use super::places::Places;
use super::scatter::{median, scatter};
use crate::base::segments::Sums;

/// A place that differs by more scatters than this is suspicious. Our own choice.
const SUSPICIOUS: f64 = 5.0;
/// It must differ from each line by so many standard deviations of the difference, too.
const SURE: f64 = 3.5;
/// Places on either side through which a line is laid.
const BESIDE: usize = 3;
/// Most neighbouring places that are suspected together.
const TOGETHER: usize = 2;
/// Rounds after which patience ends: one for each size of error that hides a smaller one beside it.
const MOST_ROUNDS: usize = 6;
/// From so many readings on, the median of a place decides.
const SEVERAL: usize = 3;

/// Which usable readings to leave out at first.
///
/// A place is suspicious where it contradicts the line through the places before, the line through those after, and the one
/// through both, all to the same side. At a corner of the taper one of the first two lines holds, and at a peak they err to
/// the other side than the third.
pub(super) fn filtered(data: &Data) -> Vec<bool> {
    let mut left_out = by_median(data);
    for _ in 0..MOST_ROUNDS {
        let places = Places::of(&data.usable, &left_out);
        let spread = scatter(&places, data.error);
        let scores = scores(&places, spread);
        let mut any = false;
        for (place, &score) in scores.iter().enumerate() {
            // The worst of its neighbourhood only: it may be what makes the others suspicious.
            let near = place.saturating_sub(BESIDE)..(place + BESIDE + 1).min(scores.len());
            let is_worst = scores[near].iter().all(|&other| other <= score);
            if score > 0.0 && is_worst {
                let (begin, end) = places.readings[place];
                left_out[begin..end].fill(true);
                any = true;
            }
        }
        if !any {
            break;
        }
    }
    left_out
}

/// Readings far from the median of three or more of one place.
fn by_median(data: &Data) -> Vec<bool> {
    let mut left_out = vec![false; data.usable.len()];
    let spread = scatter(&Places::of(&data.usable, &left_out), data.error);
    let mut end = 0;
    for alike in data.usable.chunk_by(|one, other| one.at == other.at) {
        let begin = end;
        end += alike.len();
        if alike.len() < SEVERAL {
            continue;
        }
        let mut diameters: Vec<f64> = alike.iter().map(|one| one.diameter).collect();
        let middle = median(&mut diameters);
        for (one, left_out) in alike.iter().zip(&mut left_out[begin..end]) {
            *left_out = !one.is_sure && (one.diameter - middle).abs() > SUSPICIOUS * spread;
        }
    }
    left_out
}

/// How suspicious each place is; 0 where it is not.
fn scores(places: &Places, spread: f64) -> Vec<f64> {
    let sums = places.sums();
    let mut scores = vec![0.0_f64; places.len()];
    for together in 1..=TOGETHER {
        for first in 2..places.len().saturating_sub(together + 1) {
            let run = first..first + together;
            if places.is_sure[run.clone()].contains(&true) {
                continue;
            }
            let score = contradiction(places, &sums, &run, spread);
            for place in run {
                scores[place] = scores[place].max(score);
            }
        }
    }
    scores
}

/// How much neighbouring places contradict what is on both sides of them: the least of all differences, in standard
/// deviations; 0 where one of them is in order.
fn contradiction(places: &Places, sums: &Sums, run: &core::ops::Range<usize>, spread: f64) -> f64 {
    let before = (run.start.saturating_sub(BESIDE), run.start);
    let after = (run.end, (run.end + BESIDE).min(places.len()));
    let nearest = [run.start - 1, run.end];
    let mut least = f64::INFINITY;
    for place in run.clone() {
        let (at, diameter) = (places.at[place], places.diameter[place]);
        let own = 1.0 / places.count[place];
        let side = |(begin, end): (usize, usize)| {
            let line = sums.straight(begin, end)?;
            // The variance of the line at the place: 1/n + (x − x̄)²/Sxx (analytic; any text on linear regression).
            let range = begin..end;
            let count: f64 = places.count[range.clone()].iter().sum();
            let far = |one: usize| {
                places.count[one] * (places.at[one] - line.at) * (places.at[one] - line.at)
            };
            let squares: f64 = range.map(far).sum();
            let off = at - line.at;
            let variance = own + 1.0 / count + off * off / squares.max(f64::MIN_POSITIVE);
            Some((diameter - line.value_at(at), variance))
        };
        let [one, other] =
            nearest.map(|near| (places.at[near], places.diameter[near], places.count[near]));
        let share = (at - one.0) / (other.0 - one.0);
        let between = (
            diameter - one.1 * (1.0 - share) - other.1 * share,
            own + (1.0 - share) * (1.0 - share) / one.2 + share * share / other.2,
        );
        let (Some(before), Some(after)) = (side(before), side(after)) else {
            return 0.0;
        };
        let differences = [before, after, between];
        let sign = between.0.signum();
        for (difference, variance) in differences {
            let sizes = difference * sign / spread;
            let score = sizes / variance.sqrt();
            if sizes <= SUSPICIOUS || score <= SURE {
                return 0.0;
            }
            least = least.min(score);
        }
    }
    least
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::units::Length;
    use crate::measured::found::taper::Asked;
    use crate::measured::reading::{Reading, Trust};

    /// Places left out of a line that rises by 0.1 mm in a place up to the tenth, and is level then, some of it changed.
    fn left_out(changed: &[(usize, f64)], trust: Trust) -> Vec<usize> {
        let reading = |place: u32| Reading {
            at: Length::from_metres(f64::from(place)),
            diameter: Length::from_millimetres(1.0 + 0.1 * f64::from(place.min(10))),
            trust,
        };
        let mut readings: Vec<Reading> = (0..24).map(reading).collect();
        for &(place, millimetres) in changed {
            readings[place].diameter += Length::from_millimetres(millimetres);
        }
        let asked = Asked {
            error: Length::from_micrometres(5.0),
            length: None,
            closeness: 0,
        };
        let data = Data::of(&readings, &asked, 0.01).expect("24 places");
        let left_out = filtered(&data);
        (0..24).filter(|&place| left_out[place]).collect()
    }

    #[test]
    fn a_corner_is_no_error() {
        assert!(left_out(&[], Trust::Judged).is_empty());
    }

    #[test]
    fn wrong_readings_are_set_aside_on_a_slope_and_side_by_side() {
        assert_eq!(left_out(&[(5, 0.06)], Trust::Judged), [5]);
        assert_eq!(left_out(&[(5, -0.3)], Trust::Judged), [5]);
        assert_eq!(left_out(&[(15, 0.2), (16, 0.25)], Trust::Judged), [15, 16]);
        assert!(left_out(&[(5, 0.06)], Trust::Used).is_empty());
    }
}
