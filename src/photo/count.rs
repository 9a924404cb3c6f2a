//! How many threads a braid has, from the turns of its wave round it.
//!
//! Printed on the surface, a braid of `N` threads has `N/2` turns. Threads that bulge show them nearer to the axis than their crowns,
//! where the same arc of the picture is more of a turn: then there are more, by some 1.6 at every count (found on pictures whose truth
//! is known, `tests/photo`).

use libm::exp;

use super::refusal::PhotoRefusal;

/// Fewest and most threads that are counted.
const THREADS: [u32; 2] = [6, 64];
/// More turns of a braid whose threads bulge: mean and deviation, of few threads and of more. From `tests/photo`.
const BULGING: [[f64; 2]; 2] = [[1.2, 0.55], [1.5, 0.47]];
/// Up to so many threads are few.
const FEW: u32 = 12;
/// More turns of a printed braid: mean and deviation. From `tests/photo`.
const PRINTED: [f64; 2] = [0.06, 0.08];
/// How likely a braid is printed whose outline is so even: up to which bulging, in half diameters times the threads, and the share. Shadows
/// at the edge of a printed braid look a little like bulges. From `tests/photo`.
const EVEN: [(f64, f64); 3] = [(0.09, 0.95), (0.17, 0.8), (0.25, 0.6)];
/// How likely it is with any other outline. Our own choice.
const UNEVEN: f64 = 0.08;
/// Carriers of usual machines. Common practice, no source.
const USUAL: [u32; 5] = [8, 12, 16, 24, 32];
/// How likely other counts of four are beside a usual one, and other even counts. Our own choice.
const OTHERS: [f64; 2] = [0.06, 0.02];
/// Doubt of a count that is certain enough.
const SURE: f64 = 0.1;
/// How far the turns of a stated count may be off: fewer as a share, more in deviations. Our own choice.
const STATED: [f64; 2] = [0.08, 3.5];

/// Threads counted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Counted {
    /// The likeliest count.
    pub(super) threads: u32,
    /// The next likely count.
    pub(super) other: u32,
    /// How likely it is not the first, 0 to 1.
    pub(super) doubt: f64,
}

impl Counted {
    /// Whether it is certain enough.
    pub(super) fn is_sure(&self) -> bool {
        self.doubt < SURE
    }

    /// Error of the diameter, as a share: the fewer the threads, the more they bulge, and the less the outline shows of the crowns.
    /// From `tests/photo`.
    pub(super) fn diameter_error(&self) -> f64 {
        0.004 + 0.16 / f64::from(self.threads)
    }
}

/// A count that the maker states.
///
/// # Errors
/// Where the picture shows clearly another one.
pub(super) fn known(threads: u32, turns: f64) -> Result<Counted, PhotoRefusal> {
    let half = 0.5 * f64::from(threads.max(1));
    let [more, deviation] = BULGING[usize::from(threads > FEW)];
    if turns < half * (1.0 - STATED[0]) || turns > half + more + STATED[1] * deviation {
        let seen = counted(turns, 1.0).threads;
        return Err(PhotoRefusal::OtherCount { threads, seen });
    }
    Ok(Counted {
        threads,
        other: threads,
        doubt: 0.0,
    })
}

/// The likeliest count. `bulging` is how far the outline goes in and out with the threads, in half diameters.
pub(super) fn counted(turns: f64, bulging: f64) -> Counted {
    let bulging = 2.0 * turns * bulging;
    let even = EVEN.iter().find(|(most, _)| bulging < *most);
    let is_printed = even.map_or(UNEVEN, |(_, share)| *share);
    let counts = (THREADS[0]..=THREADS[1]).step_by(2);
    let mut likely: Vec<(f64, u32)> = counts
        .map(|threads| (likelihood(threads, turns, is_printed), threads))
        .collect();
    likely.sort_by(|one, two| two.0.total_cmp(&one.0));
    let all: f64 = likely.iter().map(|(likelihood, _)| likelihood).sum();
    let [first, second] = [likely[0], likely[1]];
    Counted {
        threads: first.1,
        other: second.1,
        doubt: if all > 0.0 {
            (1.0 - first.0 / all).max(0.0)
        } else {
            1.0
        },
    }
}

fn likelihood(threads: u32, turns: f64, is_printed: f64) -> f64 {
    let half = 0.5 * f64::from(threads);
    // Both as densities of the turns.
    let bell =
        |off: f64, deviation: f64| exp(-0.5 * (off / deviation) * (off / deviation)) / deviation;
    let printed = bell(turns - half - PRINTED[0], PRINTED[1]);
    let [more, deviation] = BULGING[usize::from(threads > FEW)];
    let bulging = bell(turns - half - more, deviation);
    let usual = if USUAL.contains(&threads) {
        1.0
    } else if threads.is_multiple_of(4) {
        OTHERS[0]
    } else {
        OTHERS[1]
    };
    usual * (is_printed * printed + (1.0 - is_printed) * bulging) + 1e-12
}
