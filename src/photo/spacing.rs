//! How far it is from one crossing to the next along a rib: the surface compared with itself, moved along the axis.
//!
//! Moved by the spacing, the pattern falls on itself, whatever its kind: along a rib each crossing is as the next. The first such
//! place of the autocorrelation gives the spacing; a place many spacings on gives it more exactly.

use core::ops::Range;

use super::grid::Grid;
use super::profile::vertex;

/// Spacings looked for, in half diameters: 4π/(N tan α) is 0.11 for sixty-four threads at 60°, and 3.4 for eight at 25°. Analytic.
const SPACINGS: [f64; 2] = [0.1, 3.6];
/// A place counts where it is at least so high as the highest. Our own choice.
const AS_HIGH: f64 = 0.72;
/// Least autocorrelation at the spacing. Our own choice.
const LEAST: f64 = 0.12;

/// A spacing in samples, and how alike the surface is one spacing on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Spacing {
    pub(super) samples: f64,
    pub(super) alike: f64,
}

/// The spacing on a part of the surface; `None` where nothing repeats.
pub(super) fn of(
    relief: &Grid,
    columns: &Range<usize>,
    rows: &Range<usize>,
    radius: f64,
) -> Option<Spacing> {
    let height = rows.len();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "both are held within the rows"
    )]
    let [first, last] = SPACINGS.map(|half| (half * radius).round().max(3.0) as usize);
    // Seen fewer than three times, it may be chance.
    let last = last.min(height / 3);
    if last < first + 2 {
        return None;
    }
    let alike = alikeness(relief, columns, rows, (height * 3 / 4).max(last + 1));
    let peaks: Vec<usize> = (first..last)
        .filter(|&lag| {
            let at = |lag: usize| alike.get(lag).copied().unwrap_or(-1.0);
            at(lag) >= LEAST && at(lag) >= at(lag - 1) && at(lag) > at(lag + 1)
        })
        .collect();
    let highest = peaks.iter().map(|lag| alike[*lag]).fold(0.0, f64::max);
    let lag = *peaks.iter().find(|lag| alike[**lag] >= AS_HIGH * highest)?;
    let mut samples = top(&alike, lag);
    // Each further peak is looked for where those before it say it must be.
    for times in 2_u32..200 {
        let expected = samples * f64::from(times);
        let near = (0.12 * samples).max(1.5);
        let Some(lag) = peak_near(&alike, expected, near) else {
            break;
        };
        if alike[lag] < 0.35 * alike_at(&alike, samples) {
            break;
        }
        samples = top(&alike, lag) / f64::from(times);
    }
    Some(Spacing {
        samples,
        alike: alike[lag],
    })
}

/// The spacing on a piece where it must be near a known one, and how alike the piece is one spacing on.
pub(super) fn near(
    relief: &Grid,
    columns: &Range<usize>,
    rows: &Range<usize>,
    expected: f64,
) -> Option<(f64, f64)> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "no more than the rows"
    )]
    let most = ((2.4 * expected) as usize + 3).min(rows.len());
    let alike = alikeness(relief, columns, rows, most);
    let lag = peak_near(&alike, expected, (0.25 * expected).max(2.0))?;
    let once = top(&alike, lag);
    // Two spacings give one more exactly, where the piece is long enough.
    let samples = peak_near(&alike, 2.0 * once, (0.1 * expected).max(1.5))
        .filter(|_| rows.len() as f64 > 2.9 * expected)
        .map_or(once, |lag| 0.5 * top(&alike, lag));
    Some((samples, alike[lag]))
}

fn alike_at(alike: &[f64], lag: f64) -> f64 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "within the lags"
    )]
    let lag = lag.round().max(0.0) as usize;
    alike.get(lag).copied().unwrap_or(0.0)
}

fn peak_near(alike: &[f64], expected: f64, near: f64) -> Option<usize> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "within the lags"
    )]
    let [from, to] = [expected - near, expected + near].map(|lag| lag.round().max(1.0) as usize);
    if to + 1 >= alike.len() {
        return None;
    }
    let best = (from..=to).max_by(|one, two| alike[*one].total_cmp(&alike[*two]))?;
    (alike[best] >= alike[best - 1] && alike[best] >= alike[best + 1]).then_some(best)
}

/// The top of the parabola through three neighbours.
fn top(alike: &[f64], lag: usize) -> f64 {
    let at = |lag: usize| alike.get(lag).copied().unwrap_or(0.0);
    lag as f64 + vertex([at(lag - 1), at(lag), at(lag + 1)])
}

/// How alike the surface is to itself moved along by 0, 1, 2 … samples: 1 where it is the same.
fn alikeness(relief: &Grid, columns: &Range<usize>, rows: &Range<usize>, most: usize) -> Vec<f64> {
    let part = |row: usize| relief.row(row).get(columns.clone()).unwrap_or_default();
    let most = most.min(rows.len());
    (0..most)
        .map(|lag| {
            let (mut product, mut one, mut two) = (0.0_f32, 0.0_f32, 0.0_f32);
            for row in rows.start..rows.end - lag {
                for (a, b) in part(row).iter().zip(part(row + lag)) {
                    product += a * b;
                    one += a * a;
                    two += b * b;
                }
            }
            let size = libm::sqrtf(one * two);
            if size > 0.0 {
                f64::from(product / size)
            } else {
                0.0
            }
        })
        .collect()
}
