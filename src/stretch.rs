//! Stretches of constant threads and gear, and what is found in them.

use crate::dressing::Dressed;
use crate::takeoff::Fit;
use crate::units::{Angle, Length, LinearDensity, Mass};

/// A stretch of line over which threads and gear do not change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// Where it begins.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
    /// Threads engaged.
    pub threads: u32,
    /// Gear and bare braid.
    pub fit: Fit,
    /// The braid dressed.
    pub dressed: Dressed,
}

impl Stretch {
    /// Its length.
    pub fn length(&self) -> Length {
        self.to - self.from
    }

    /// The part of it between two places, if any lies there.
    #[must_use]
    pub fn between(&self, from: Length, to: Length) -> Option<Self> {
        let (from, to) = (self.from.max(from), self.to.min(to));
        (from < to).then_some(Self { from, to, ..*self })
    }

    /// How far its braid angle is from the target.
    pub fn off(&self, target: Angle) -> Angle {
        (self.fit.braid.angle - target).abs()
    }

    /// Mass per length, dressed.
    pub(crate) fn dressed_density(&self) -> LinearDensity {
        self.dressed.linear_density
    }

    /// Mass per length, bare.
    pub(crate) fn bare_density(&self) -> LinearDensity {
        self.fit.braid.linear_density
    }
}

/// The stretch at a distance from the tip; where two meet, the later one.
pub(crate) fn at(stretches: &[Stretch], place: Length) -> &Stretch {
    &stretches[index_at(stretches, place)]
}

/// Mass between two places, of what `density` counts.
pub(crate) fn mass_between(
    stretches: &[Stretch],
    (from, to): (Length, Length),
    density: fn(&Stretch) -> LinearDensity,
) -> Mass {
    stretches[index_at(stretches, from)..]
        .iter()
        .map_while(|stretch| stretch.between(from, to))
        .map(|part| part.length() * density(&part))
        .sum()
}

/// Fewest and most threads of any stretch; a line has at least one.
pub(crate) fn thread_range(stretches: &[Stretch]) -> (u32, u32) {
    let counts = stretches.iter().map(|stretch| stretch.threads);
    counts.fold((u32::MAX, 0), |(fewest, most), count| {
        (fewest.min(count), most.max(count))
    })
}

fn index_at(stretches: &[Stretch], place: Length) -> usize {
    stretches
        .partition_point(|stretch| stretch.to <= place)
        .min(stretches.len() - 1)
}
