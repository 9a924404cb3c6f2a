//! The parts of a line that were weighed, one within another or beside it, and the mass per volume that follows.

use super::spread::Spread;
use crate::base::units::{Density, Length, Mass, Volume};
use crate::braid::taper::Taper;

/// Least error of a scale …
const SCALE: Mass = Mass::from_grams(0.01);
/// … and its share, since a line takes up and gives off moisture with the weather. Both are our own choice, as for lines of one's
/// own.
const SCALE_SHARE: f64 = 0.005;
/// What pieces weigh over the whole may be so many errors of the scale.
const SLACK: f64 = 3.0;

/// What the maker weighed of a line.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Weighed {
    /// All of it.
    pub whole: Option<Mass>,
    /// Its first 30 ft, measured as the standard does.
    pub head: Option<Mass>,
    /// Pieces weighed by themselves: from, to, mass.
    pub cuts: Vec<(Length, Length, Mass)>,
}

/// A stretch of one mass per volume.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Zone {
    /// Where it begins.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
    /// Its mass per volume.
    pub density: Density,
}

/// Volume between two places of a taper: the section is quadratic in the diameter and that linear between points, so Simpson's
/// rule is exact on each piece.
pub fn volume(taper: &Taper, (from, to): (Length, Length)) -> Volume {
    let mut at = vec![from];
    let inner = taper.points().iter().map(|point| point.at);
    at.extend(inner.filter(|place| from < *place && *place < to));
    at.push(to.max(from));
    let litres = at.windows(2).map(|pair| {
        let ends = [pair[0], (pair[0] + pair[1]) / 2.0, pair[1]];
        let [a, middle, b] = ends.map(|at| taper.diameter_at(at).circle().square_metres());
        (pair[1] - pair[0]).metres() * (a + 4.0 * middle + b) / 6.0
    });
    Volume::from_millilitres(litres.sum::<f64>() * 1e6)
}

/// Something measured: how long it is, how large, and what it weighs.
#[derive(Clone, Copy)]
pub(super) struct Measured {
    length: Length,
    volume: Volume,
    pub(super) mass: Mass,
}

impl Measured {
    pub(super) fn of(taper: &Taper, ends: (Length, Length), mass: Mass) -> Self {
        Self {
            length: ends.1 - ends.0,
            volume: volume(taper, ends),
            mass,
        }
    }

    fn with(self, other: Self) -> Self {
        Self {
            length: self.length + other.length,
            volume: self.volume + other.volume,
            mass: self.mass + other.mass,
        }
    }

    fn without(self, other: Self) -> Self {
        Self {
            length: self.length - other.length,
            volume: self.volume - other.volume,
            mass: self.mass - other.mass,
        }
    }

    /// Diameter of a rod as long and as large, metres.
    pub(super) fn mean_diameter(self) -> f64 {
        let section = self.volume.millilitres() / 1e6 / self.length.metres();
        (4.0 * section / core::f64::consts::PI).sqrt()
    }

    /// Mass per volume, off by as much as scale and sizes are.
    pub(super) fn density(self, size_error: Length) -> Option<Spread<Density>> {
        let value = density(self.mass, self.volume)?;
        // The volume is quadratic in the size, so its share is twice that of the size. A soft line gives way everywhere alike.
        let of_size = 2.0 * size_error.metres() / self.mean_diameter();
        let share = of_size.hypot(of_scale(self.mass) / self.mass);
        Some(Spread {
            value,
            spread: value * share,
        })
    }
}

/// A stretch that was weighed, and what of it no smaller stretch within it has.
#[derive(Clone, Copy)]
struct Stretch {
    ends: (Length, Length),
    mass: Mass,
    /// Mass per volume of what is left of it.
    density: Density,
    /// Whether it stands within no other.
    is_outermost: bool,
}

/// What was weighed, the shortest first: each stretch within another or beside it.
pub(super) struct Stretches {
    all: Vec<Stretch>,
    pub(super) is_contradicted: bool,
}

impl Stretches {
    pub(super) fn of(taper: &Taper, weighed: &Weighed, head: Option<(Length, Length)>) -> Self {
        let end = taper.length();
        let head = head.zip(weighed.head);
        let whole = weighed.whole.map(|mass| ((Length::ZERO, end), mass));
        let cuts = weighed.cuts.iter();
        let mut given: Vec<((Length, Length), Mass)> =
            cuts.map(|&(from, to, mass)| ((from, to), mass)).collect();
        given.extend(head);
        given.extend(whole);
        let long = |one: &((Length, Length), Mass)| (one.0.1 - one.0.0).metres();
        given.sort_by(|a, b| long(a).total_cmp(&long(b)));
        let mut stretches = Self {
            all: Vec::new(),
            is_contradicted: false,
        };
        for (ends, mass) in given {
            if !stretches.add(taper, ends, mass) {
                stretches.is_contradicted = true;
            }
        }
        stretches
    }

    /// Adds a stretch no shorter than those before; whether it agrees with them and with the line.
    fn add(&mut self, taper: &Taper, ends: (Length, Length), mass: Mass) -> bool {
        let is_within = |one: &Stretch| ends.0 <= one.ends.0 && one.ends.1 <= ends.1;
        let is_beside = |one: &Stretch| one.ends.1 <= ends.0 || ends.1 <= one.ends.0;
        if ends.1 > taper.length() || !self.all.iter().all(|one| is_within(one) || is_beside(one)) {
            return false;
        }
        let own = Measured::of(taper, ends, mass);
        let within = self.all.iter();
        let within = within.filter(|one| one.is_outermost && is_within(one));
        let within = within.map(|one| Measured::of(taper, one.ends, one.mass));
        let within = within.reduce(Measured::with);
        let rest = within.map_or(own, |within| own.without(within));
        let slack = within.map_or(Mass::ZERO, |within| {
            (of_scale(mass) + of_scale(within.mass)) * SLACK
        });
        // Where nothing of it is left, the stretches within it say all.
        let is_filled = rest.length.metres() < 1e-6;
        let left = density(rest.mass, rest.volume).filter(|_| !is_filled);
        let agrees = if is_filled {
            rest.mass.abs() <= slack
        } else {
            left.is_some()
        };
        if agrees {
            for one in &mut self.all {
                one.is_outermost &= !is_within(one);
            }
            self.all.push(Stretch {
                ends,
                mass,
                density: left.unwrap_or_default(),
                is_outermost: true,
            });
        }
        agrees
    }

    /// All that was weighed, nothing of it twice; `None` where nothing was.
    pub(super) fn together(&self, taper: &Taper) -> Option<Measured> {
        let outermost = self.all.iter().filter(|one| one.is_outermost);
        let measured = outermost.map(|one| Measured::of(taper, one.ends, one.mass));
        measured.reduce(Measured::with)
    }

    /// The line in stretches of one mass per volume: that of the shortest stretch weighed there; what was not weighed has that of all
    /// together.
    pub(super) fn zones(&self, end: Length, together: Option<Density>) -> Vec<Zone> {
        let Some(together) = together else {
            return Vec::new();
        };
        let mut at = vec![Length::ZERO, end];
        at.extend(self.all.iter().flat_map(|one| [one.ends.0, one.ends.1]));
        at.sort_by(|a, b| a.metres().total_cmp(&b.metres()));
        at.dedup();
        let of = |from: Length, to: Length| {
            let is_there = |one: &&Stretch| one.ends.0 <= from && to <= one.ends.1;
            let shortest = self.all.iter().find(is_there);
            shortest.map_or(together, |one| one.density)
        };
        let mut zones: Vec<Zone> = Vec::new();
        for pair in at.windows(2) {
            let density = of(pair[0], pair[1]);
            match zones.last_mut().filter(|last| last.density == density) {
                Some(last) => last.to = pair[1],
                None => zones.push(Zone {
                    from: pair[0],
                    to: pair[1],
                    density,
                }),
            }
        }
        zones
    }
}

/// Mass per volume; `None` where there is no volume or no mass.
fn density(mass: Mass, volume: Volume) -> Option<Density> {
    let is_there = mass > Mass::ZERO && volume > Volume::ZERO;
    is_there.then(|| Density::from_grams_per_cubic_centimetre(mass.grams() / volume.millilitres()))
}

pub(super) fn of_scale(mass: Mass) -> Mass {
    SCALE.max(mass * SCALE_SHARE)
}
