//! The pace of the machine, learnt from stretches of which time and circuits are known.
//!
//! Seconds a circuit are estimated by a weighted mean in which stretches far from the rest count less and then not at all: the
//! biweight of Beaton and Tukey (Technometrics 16, 1974, 147–185) with the constant 4.685, which keeps 95 % of the precision of
//! the mean where errors are normal, and the scale from the median of the absolute deviations (Hampel 1974). A press that is late by a few
//! seconds matters less to a long stretch: it has more weight.

use super::{RunClock, Timed};

/// A press of the button is this far from the moment it is for, in seconds, one standard deviation. Our own choice.
const PRESS: f64 = 3.0;
/// A machine keeps its pace to this share, one standard deviation. Our own choice.
const STEADINESS: f64 = 0.01;
/// The biweight leaves out what is farther away than so many scales.
const REACH: f64 = 4.685;
/// Median of the absolute deviations of a normal distribution over its standard deviation: 0.6745, from tables of the normal.
const MEDIAN_DEVIATION: f64 = 0.674_489_75;
/// Rounds of weighing. Our own choice: it settles in fewer.
const ROUNDS: usize = 20;
/// From so many stretches on, a line speaks for itself. Our own choice: of three, one may be wrong.
const ENOUGH: usize = 3;
/// Slowest and fastest pace, in circuits a minute, that is believed. Our own choice.
pub const PACES: core::ops::RangeInclusive<f64> = 0.05..=2000.0;

/// How fast a machine runs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pace {
    /// Carrier circuits a minute.
    pub circuits_per_minute: f64,
    /// Where that is from.
    pub basis: PaceBasis,
    /// Its standard deviation as a share, where it is learnt from several stretches.
    pub spread: Option<f64>,
}

/// Where a pace is from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PaceBasis {
    /// The maker insists on it.
    Own,
    /// From so many stretches of this line.
    ThisLine(usize),
    /// From so many stretches, some or all of them of earlier lines of the workshop.
    EarlierLines(usize),
    /// The speed set in the workshop.
    Settings,
}

impl Pace {
    /// The pace of a machine: the maker's own, else what was timed, else the speed that is set, in circuits a minute.
    pub fn of(clock: &RunClock, earlier: &[Timed], set: f64) -> Self {
        let own = clock.own_pace.filter(|pace| PACES.contains(pace));
        let given = |circuits_per_minute, basis| Self {
            circuits_per_minute,
            basis,
            spread: None,
        };
        own.map(|own| given(own, PaceBasis::Own))
            .or_else(|| Self::timed(clock, earlier))
            .unwrap_or(given(set, PaceBasis::Settings))
    }

    /// The pace that was timed on this line; while it has few stretches, together with those of earlier lines. `None` where nothing was
    /// timed.
    pub fn timed(clock: &RunClock, earlier: &[Timed]) -> Option<Self> {
        let (here, before) = (clean(&clock.timed), clean(earlier));
        let all = [here.as_slice(), before.as_slice()].concat();
        let (timed, basis) = if here.len() >= ENOUGH || before.is_empty() {
            (&here, PaceBasis::ThisLine(here.len()))
        } else {
            (&all, PaceBasis::EarlierLines(all.len()))
        };
        if timed.is_empty() {
            return Self::fastest(&clock.timed, PaceBasis::ThisLine)
                .or_else(|| Self::fastest(earlier, PaceBasis::EarlierLines));
        }
        let (slowness, spread) = slowness(timed);
        Some(Self {
            circuits_per_minute: 60.0 / slowness,
            basis,
            spread,
        })
    }

    /// Circuits in some seconds.
    pub fn circuits_in(&self, seconds: f64) -> f64 {
        self.circuits_per_minute * seconds / 60.0
    }

    /// Seconds for some circuits.
    pub fn seconds_for(&self, circuits: f64) -> f64 {
        60.0 * circuits / self.circuits_per_minute
    }

    /// Where the machine was never said to be stopped, the time of each stretch holds the work at its stop, too: then the fastest comes
    /// nearest.
    fn fastest(timed: &[Timed], basis: fn(usize) -> PaceBasis) -> Option<Self> {
        let usable = || timed.iter().filter(|it| is_usable(it));
        let paces = usable().map(|it| 60.0 * it.circuits / it.seconds);
        Some(Self {
            circuits_per_minute: paces.reduce(f64::max)?,
            basis: basis(usable().count()),
            spread: None,
        })
    }
}

/// Whether a stretch says anything.
fn is_usable(timed: &Timed) -> bool {
    let pace = 60.0 * timed.circuits / timed.seconds;
    timed.seconds > 0.0 && PACES.contains(&pace)
}

/// The stretches whose time is all running.
fn clean(timed: &[Timed]) -> Vec<Timed> {
    let is_clean = |it: &&Timed| is_usable(it) && !it.with_stop;
    timed.iter().filter(is_clean).copied().collect()
}

/// One stretch: seconds a circuit, and by how much that is uncertain.
struct Reading {
    value: f64,
    spread: f64,
}

/// Seconds a circuit of some stretches, at least one, and its standard deviation as a share where there are several.
fn slowness(timed: &[Timed]) -> (f64, Option<f64>) {
    let mut values: Vec<f64> = timed.iter().map(|it| it.seconds / it.circuits).collect();
    let middle = median(&mut values);
    // By the time a stretch should take, not by the time it took: else long times would count less than short ones.
    let reading = |timed: &Timed| {
        let share = (PRESS / (middle * timed.circuits)).hypot(STEADINESS);
        Reading {
            value: timed.seconds / timed.circuits,
            spread: middle * share,
        }
    };
    let readings: Vec<Reading> = timed.iter().map(reading).collect();
    let mut centre = middle;
    let off = |reading: &Reading, centre: f64| (reading.value - centre) / reading.spread;
    // Errors as large as supposed at least: of two stretches that agree by chance nothing is concluded.
    let scale = {
        let mut off: Vec<f64> = readings.iter().map(|it| off(it, centre).abs()).collect();
        (median(&mut off) / MEDIAN_DEVIATION).max(1.0)
    };
    let weight = |reading: &Reading, centre: f64| {
        let off = off(reading, centre) / (REACH * scale);
        let kept = (1.0 - off * off).max(0.0);
        kept * kept / (reading.spread * reading.spread)
    };
    for _ in 0..ROUNDS {
        let (mut sum, mut weights) = (0.0, 0.0);
        for reading in &readings {
            let weight = weight(reading, centre);
            sum += weight * reading.value;
            weights += weight;
        }
        if weights > 0.0 {
            centre = sum / weights;
        }
    }
    let kept = readings.iter().filter(|it| weight(it, centre) > 0.0);
    let precision: f64 = kept.clone().map(|it| it.spread.powi(-2)).sum();
    let spread = (kept.count() > 1 && precision > 0.0).then(|| scale / precision.sqrt() / centre);
    (centre, spread)
}

/// The middle of some values, at least one.
fn median(values: &mut [f64]) -> f64 {
    values.sort_by(f64::total_cmp);
    let middle = values.len() / 2;
    if values.len().is_multiple_of(2) {
        f64::midpoint(values[middle - 1], values[middle])
    } else {
        values[middle]
    }
}
