//! How many threads lie round the braid: the pattern's fundamental wave along the axis, followed round it.
//!
//! Along the axis, brightness repeats with every crossing of a rib. The amplitude and phase of that wave, `A(u)` at a place `u` round the braid,
//! turn one way where one family of threads lies on top and the other way where the other does, both by a full turn from a thread to
//! the next. So `A(u) = a e^{iku} + b e^{−iku}` with `a` and `b` that change slowly round the braid, and `k` is half the count of
//! threads for a pattern printed on the surface. Threads that bulge show it a little nearer to the axis than their crowns: then `k` is
//! larger. Analytic; how much larger was found on pictures whose truth is known (`tests/photo`).

use core::f64::consts::TAU;

use libm::{cos, exp, log, sin};

use super::profile::vertex;
use super::surface::Surface;

/// How far round the braid the wave is followed to each side, radians.
const SIDE: f64 = 0.85;
/// Half the count of threads that is looked for.
const SOUGHT: [f64; 2] = [2.6, 36.0];
/// Steps of the search.
const STEPS: u32 = 180;
/// Length of a piece of the line, in spacings.
const PIECE: f64 = 4.0;

/// The wave of one piece of the line round the braid: amplitude and phase as a complex number for each column.
struct Wave {
    parts: Vec<[f64; 2]>,
}

/// What is found of the threads round the braid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Round {
    /// Turns of the phase for one turn round the braid.
    pub(super) turns: f64,
    /// Share of the waves that the fit does not explain, 0 to 1.
    pub(super) rest: f64,
    /// Share of the weaker family in both, 0 to ½.
    pub(super) weaker: f64,
}

/// What two waves explain of others.
#[derive(Clone, Copy, Default)]
struct Explained {
    /// Weighted squares left.
    left: f64,
    /// Those there were.
    all: f64,
    /// Those of each of the two waves.
    each: [f64; 2],
}

impl Explained {
    fn add(&mut self, other: Self) {
        self.left += other.left;
        self.all += other.all;
        self.each = [self.each[0] + other.each[0], self.each[1] + other.each[1]];
    }

    fn rest(&self) -> f64 {
        if self.all > 0.0 {
            self.left / self.all
        } else {
            1.0
        }
    }
}

/// The threads round the braid, whose crossings are `spacing` samples apart along a rib.
pub(super) fn round(surface: &Surface, spacing: f64) -> Option<Round> {
    let waves = waves(surface, spacing);
    let step = (log(SOUGHT[1]) - log(SOUGHT[0])) / f64::from(STEPS);
    let turns_at = |index: u32| exp(f64::from(index).mul_add(step, log(SOUGHT[0])));
    let rests: Vec<f64> = (0..=STEPS)
        .map(|index| explained(surface, &waves, turns_at(index)).rest())
        .collect();
    let is_valley =
        |index: &usize| rests[*index] <= rests[index - 1] && rests[*index] <= rests[index + 1];
    let valleys = (1..rests.len() - 1).filter(is_valley);
    let best = valleys.min_by(|one, two| rests[*one].total_cmp(&rests[*two]))?;
    let shift = vertex([rests[best - 1], rests[best], rests[best + 1]]);
    let turns = exp((best as f64 + shift).mul_add(step, log(SOUGHT[0])));
    let [one, two] = explained(surface, &waves, turns).each;
    Some(Round {
        turns,
        rest: rests[best],
        weaker: one.min(two) / (one + two).max(f64::MIN_POSITIVE),
    })
}

/// How far the turns of one family exceed those of the other, halved, in each piece of the line.
pub(super) fn shifts(surface: &Surface, spacing: f64, turns: f64) -> Vec<f64> {
    let shifted = |wave: &Wave, shift: f64| {
        let middle = surface.relief.width / 2;
        let parts = wave.parts.iter().enumerate().map(|(column, [x, y])| {
            let round = shift * (column as f64 - middle as f64) / surface.radius;
            let (c, s) = (cos(round), -sin(round));
            [x * c - y * s, x * s + y * c]
        });
        Wave {
            parts: parts.collect(),
        }
    };
    let steps = 20_i32;
    let step = 0.15 * turns / f64::from(steps);
    waves(surface, spacing)
        .iter()
        .map(|wave| {
            let tried = (-steps..=steps).map(|index| f64::from(index) * step);
            let best = tried.map(|shift| {
                let shifted = [shifted(wave, shift)];
                (explained(surface, &shifted, turns).rest(), shift)
            });
            let best = best.min_by(|one, two| one.0.total_cmp(&two.0));
            best.map_or(0.0, |(_, shift)| shift)
        })
        .collect()
}

/// The waves of all pieces.
fn waves(surface: &Surface, spacing: f64) -> Vec<Wave> {
    let rows = surface.relief.height;
    let length = (PIECE * spacing).min(rows as f64);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "no more than the rows"
    )]
    let count = ((2.0 * rows as f64 / length) as usize)
        .saturating_sub(1)
        .max(1);
    let step = (rows as f64 - length) / (count.max(2) - 1) as f64;
    (0..count)
        .map(|index| wave(surface, spacing, index as f64 * step, length))
        .collect()
}

fn wave(surface: &Surface, spacing: f64, start: f64, length: f64) -> Wave {
    let mut parts = vec![[0.0; 2]; surface.relief.width];
    let rows = 0..surface.relief.height;
    for row in rows.filter(|row| (start..start + length).contains(&(*row as f64))) {
        let along = row as f64 - start;
        // A window without corners (Hann).
        let window = 0.5 - 0.5 * cos(TAU * (along + 0.5) / length);
        let phase = TAU * along / spacing;
        let (c, s) = (window * cos(phase), -window * sin(phase));
        for (part, value) in parts.iter_mut().zip(surface.relief.row(row)) {
            part[0] += c * f64::from(*value);
            part[1] += s * f64::from(*value);
        }
    }
    Wave { parts }
}

/// What two waves with so many turns round the braid explain of all, in the best of their amplitudes around each place.
fn explained(surface: &Surface, waves: &[Wave], turns: f64) -> Explained {
    let middle = surface.relief.width / 2;
    let columns = surface.columns(SIDE);
    let reach = 1.5_f64.min(TAU / turns * 2.0);
    let places = 5;
    let mut explained = Explained::default();
    for place in 0..places {
        let centre = (f64::from(place) / f64::from(places - 1) - 0.5) * 1.5;
        let samples: Vec<(usize, f64, f64)> = columns
            .clone()
            .filter_map(|column| {
                let round = (column as f64 - middle as f64) / surface.radius;
                let weight = 1.0 - ((round - centre) / reach).abs();
                (weight > 0.0).then(|| (column, round, weight * weight * cos(round)))
            })
            .collect();
        for wave in waves {
            explained.add(fit(wave, &samples, turns));
        }
    }
    explained
}

/// What is explained by the best `a e^{iku} + b e^{−iku}`.
fn fit(wave: &Wave, samples: &[(usize, f64, f64)], turns: f64) -> Explained {
    let (mut weights, mut both) = (0.0, [0.0; 2]);
    let (mut first, mut second) = ([0.0; 2], [0.0; 2]);
    let mut all = 0.0;
    for &(column, round, weight) in samples {
        let [x, y] = wave.parts[column];
        let (c, s) = (cos(turns * round), sin(turns * round));
        weights += weight;
        // The product of e^{iku} with itself: how far the two waves are not square to each other.
        both[0] += weight * (c * c - s * s);
        both[1] += weight * 2.0 * c * s;
        first[0] += weight * (x * c + y * s);
        first[1] += weight * (y * c - x * s);
        second[0] += weight * (x * c - y * s);
        second[1] += weight * (y * c + x * s);
        all += weight * (x * x + y * y);
    }
    // Normal equations [W, B*; B, W] with a little added to W, so that two waves alike share what they explain.
    let damped = weights * 1.001;
    let determinant = damped * damped - both[0] * both[0] - both[1] * both[1];
    if determinant <= 0.0 {
        return Explained {
            left: all,
            all,
            each: [0.0; 2],
        };
    }
    let square = |part: [f64; 2]| part[0] * part[0] + part[1] * part[1];
    // Re(conj(first) · conj(B) · second)
    let cross = (first[0] * second[0] + first[1] * second[1]) * both[0]
        + (first[0] * second[1] - first[1] * second[0]) * both[1];
    let explained = (damped * (square(first) + square(second)) - 2.0 * cross) / determinant;
    // Amplitudes: [damped · first − B* · second, damped · second − B · first] / determinant.
    let one = [
        damped * first[0] - both[0] * second[0] - both[1] * second[1],
        damped * first[1] - both[0] * second[1] + both[1] * second[0],
    ];
    let two = [
        damped * second[0] - both[0] * first[0] + both[1] * first[1],
        damped * second[1] - both[0] * first[1] - both[1] * first[0],
    ];
    let each = [one, two].map(|part| weights * square(part) / (determinant * determinant));
    Explained {
        left: (all - explained).max(0.0),
        all,
        each,
    }
}
