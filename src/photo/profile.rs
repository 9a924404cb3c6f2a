//! Numbers along a line: slopes, the place where they split in two, the straight line through them.

use libm::exp;

/// Slopes of a profile smoothed by a bell curve of so many samples, up to a factor.
pub(super) fn slopes(profile: &[f64], smooth: f64) -> Vec<f64> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "some samples"
    )]
    let reach = (3.0 * smooth).ceil().clamp(1.0, 60.0) as usize;
    let smooth = smooth.max(0.3);
    let bell: Vec<f64> = (0..=reach)
        .map(|offset| {
            let away = offset as f64 / smooth;
            exp(-0.5 * away * away) * away
        })
        .collect();
    let last = profile.len().saturating_sub(1);
    (0..profile.len())
        .map(|index| {
            let pairs = (1..=reach).map(|offset| {
                let after = profile[(index + offset).min(last)];
                let before = profile[index.saturating_sub(offset)];
                bell[offset] * (after - before)
            });
            pairs.sum()
        })
        .collect()
}

/// How far the top, or the bottom, of the parabola through three neighbours lies from the middle one: −½ to ½.
pub(super) fn vertex([before, middle, after]: [f64; 3]) -> f64 {
    let bend = before - 2.0 * middle + after;
    if bend == 0.0 {
        0.0
    } else {
        (0.5 * (before - after) / bend).clamp(-0.5, 0.5)
    }
}

/// Before which value profiles of the same length split into two levels that differ most: each counts by the share of its squares
/// that two levels explain, times its weight.
pub(super) fn split(profiles: &[(&[f64], f64)]) -> Option<f64> {
    let count = profiles.iter().map(|(profile, _)| profile.len()).min()?;
    let mut explained = vec![0.0; count];
    for (profile, weight) in profiles {
        let profile = &profile[..count];
        let all: f64 = profile.iter().sum();
        let mean = all / count as f64;
        let squares: f64 = profile
            .iter()
            .map(|value| (value - mean) * (value - mean))
            .sum();
        let mut sum = 0.0;
        for (index, value) in profile.iter().enumerate() {
            sum += value - mean;
            let (first, second) = ((index + 1) as f64, (count - index - 1) as f64);
            if index > 0 && second > 1.0 && squares > 0.0 {
                explained[index] += weight * sum * sum * (1.0 / first + 1.0 / second) / squares;
            }
        }
    }
    let best = (0..count).max_by(|one, two| explained[*one].total_cmp(&explained[*two]))?;
    (explained[best] > 0.0).then_some((best + 1) as f64)
}

/// Value at 0 and slope of the straight line through points; those far off count less, by Tukey's biweight on what they are off.
/// `least` is the distance that is never far. Where there are too few for a slope it is 0.
pub(super) fn robust_line(points: &[[f64; 2]], least: f64) -> Option<[f64; 2]> {
    let mut weights = vec![1.0; points.len()];
    let mut line = None;
    for _ in 0..12 {
        let fit = weighted_line(points, &weights)?;
        line = Some(fit);
        let off = |point: &[f64; 2]| (point[1] - fit[0] - fit[1] * point[0]).abs();
        let mut offs: Vec<f64> = points.iter().map(off).collect();
        offs.sort_by(f64::total_cmp);
        let middle = offs.get(offs.len() / 2).copied().unwrap_or_default();
        // 4.685 deviations, each 1.4826 medians. Source: Beaton and Tukey 1974, Technometrics 16, 147–185; constants from memory.
        let cut = 4.685 * 1.4826 * middle.max(least);
        for (weight, point) in weights.iter_mut().zip(points) {
            let share = off(point) / cut;
            let left = (1.0 - share * share).max(0.0);
            *weight = left * left;
        }
    }
    line
}

fn weighted_line(points: &[[f64; 2]], weights: &[f64]) -> Option<[f64; 2]> {
    let all: f64 = weights.iter().sum();
    if all <= 0.0 {
        return None;
    }
    let mean = |part: usize| {
        let terms = points.iter().zip(weights);
        terms
            .map(|(point, weight)| point[part] * weight)
            .sum::<f64>()
            / all
    };
    let (x, y) = (mean(0), mean(1));
    let (mut xx, mut xy) = (0.0, 0.0);
    for (point, weight) in points.iter().zip(weights) {
        xx += weight * (point[0] - x) * (point[0] - x);
        xy += weight * (point[0] - x) * (point[1] - y);
    }
    let slope = if points.len() >= 4 && xx > 0.0 {
        xy / xx
    } else {
        0.0
    };
    Some([y - slope * x, slope])
}
