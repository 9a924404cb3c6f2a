//! What a line is made of, from its size and its weight: mass per volume, whole or of each part that was weighed.

use super::material::Material;
use super::spread::Spread;
use crate::base::units::{Density, Length, LinearDensity, Mass, Volume};
use crate::braid::taper::Taper;
use crate::braid::weight::{Head, Verdict};

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

/// What size and weight say about a line.
#[derive(Clone, Debug, PartialEq)]
pub struct MadeOf {
    /// Volume of the whole line.
    pub volume: Volume,
    /// The stretch that decides the class.
    pub head: Head,
    /// What is missing of it, where the line is too short.
    pub missing: Option<Length>,
    /// Mass per volume of all that was weighed; `None` where nothing was.
    pub density: Option<Spread<Density>>,
    /// Mass per volume along the line, without gaps; empty where nothing was weighed.
    pub zones: Vec<Zone>,
    /// What the first 30 ft weigh: weighed, or calculated from what was.
    pub head_mass: Option<Spread<Mass>>,
    /// Whether the first 30 ft themselves were weighed.
    pub is_head_weighed: bool,
    /// The class that makes; `None` where nothing is known of the weight.
    pub verdict: Option<Verdict>,
    /// What it may be, from its mass per volume; several where their ranges overlap.
    pub materials: Vec<Material>,
    /// Whether weights contradict each other or the length of the line; then only those that do not are used.
    pub is_contradicted: bool,
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

/// What the sizes and weights of a line say: its taper, what was weighed, and one standard deviation by which all sizes are off alike.
pub fn made_of(taper: &Taper, weighed: &Weighed, size_error: Length) -> MadeOf {
    let end = taper.length();
    let head = Head::of(&taper.sections());
    let missing = head.missing(end);
    let head_ends = (head.from, head.to.min(end));
    let stretches = Stretches::of(taper, weighed, missing.is_none().then_some(head_ends));
    let together = stretches.together(taper);
    let density = together.and_then(|all| all.density(size_error));
    let zones = stretches.zones(end, density.map(|density| density.value));
    let head_mass = match (weighed.head, missing) {
        (_, Some(_)) => None,
        (Some(mass), None) => Some(Spread {
            value: mass,
            spread: of_scale(mass),
        }),
        (None, None) => together.filter(|_| !zones.is_empty()).map(|all| {
            let value = mass_between(taper, &zones, head_ends);
            // The error of the sizes is the same in what was weighed and in the head, but for their different thickness.
            let thickness = Measured::of(taper, head_ends, value).mean_diameter();
            let left =
                2.0 * size_error.metres() * (1.0 / thickness - 1.0 / all.mean_diameter()).abs();
            let share = (of_scale(all.mass) / all.mass).hypot(left);
            Spread {
                value,
                spread: value * share,
            }
        }),
    };
    MadeOf {
        volume: volume(taper, (Length::ZERO, end)),
        head,
        missing,
        materials: density.map(Material::all_of).unwrap_or_default(),
        density,
        is_head_weighed: weighed.head.is_some() && missing.is_none(),
        verdict: match (head_mass, missing) {
            (Some(mass), _) => Some(Verdict::of(mass.value)),
            (None, Some(missing)) => Some(Verdict::Missing(missing)),
            (None, None) => None,
        },
        head_mass,
        is_contradicted: stretches.is_contradicted || (weighed.head.is_some() && missing.is_some()),
        zones,
    }
}

impl MadeOf {
    /// Mass per length at a place of the line; `None` where nothing was weighed.
    pub fn linear_density(&self, taper: &Taper, at: Length) -> Option<LinearDensity> {
        let zone = self.zones.iter().find(|zone| at <= zone.to);
        let zone = zone.or_else(|| self.zones.last())?;
        Some(taper.diameter_at(at).circle() * zone.density)
    }
}

/// Mass of a stretch of a line with these zones.
fn mass_between(taper: &Taper, zones: &[Zone], (from, to): (Length, Length)) -> Mass {
    let of = |zone: &Zone| {
        let ends = (zone.from.max(from), zone.to.min(to));
        if ends.0 < ends.1 {
            volume(taper, ends) * zone.density
        } else {
            Mass::ZERO
        }
    };
    zones.iter().map(of).sum()
}

/// Something measured: how long it is, how large, and what it weighs.
#[derive(Clone, Copy)]
struct Measured {
    length: Length,
    volume: Volume,
    mass: Mass,
}

impl Measured {
    fn of(taper: &Taper, ends: (Length, Length), mass: Mass) -> Self {
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
    fn mean_diameter(self) -> f64 {
        let section = self.volume.millilitres() / 1e6 / self.length.metres();
        (4.0 * section / core::f64::consts::PI).sqrt()
    }

    /// Mass per volume, off by as much as scale and sizes are.
    fn density(self, size_error: Length) -> Option<Spread<Density>> {
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
struct Stretches {
    all: Vec<Stretch>,
    is_contradicted: bool,
}

impl Stretches {
    fn of(taper: &Taper, weighed: &Weighed, head: Option<(Length, Length)>) -> Self {
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
    fn together(&self, taper: &Taper) -> Option<Measured> {
        let outermost = self.all.iter().filter(|one| one.is_outermost);
        let measured = outermost.map(|one| Measured::of(taper, one.ends, one.mass));
        measured.reduce(Measured::with)
    }

    /// The line in stretches of one mass per volume: that of the shortest stretch weighed there; what was not weighed has that of all
    /// together.
    fn zones(&self, end: Length, together: Option<Density>) -> Vec<Zone> {
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

fn of_scale(mass: Mass) -> Mass {
    SCALE.max(mass * SCALE_SHARE)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::braid::taper::Point;

    fn taper(points: &[(f64, f64)]) -> Taper {
        let point = |&(metres, mm): &(f64, f64)| Point {
            at: Length::from_metres(metres),
            diameter: Length::from_millimetres(mm),
        };
        Taper::new(points.iter().map(point).collect()).expect("its points are in order")
    }

    /// Source: the volume of a truncated cone, π/12 · l (d₁² + d₁d₂ + d₂²): analytic.
    #[test]
    fn the_volume_is_that_of_cones() {
        let line = taper(&[(0.0, 0.6), (3.0, 1.0), (20.0, 1.0)]);
        let cone = core::f64::consts::PI / 12.0 * 3.0 * (0.36 + 0.6 + 1.0);
        let rod = core::f64::consts::PI / 4.0 * 17.0;
        let all = volume(&line, (Length::ZERO, line.length()));
        assert!((all.millilitres() - cone - rod).abs() < 1e-9);
        let half = (Length::ZERO, Length::from_metres(1.5));
        let smaller = core::f64::consts::PI / 12.0 * 1.5 * (0.36 + 0.48 + 0.64);
        assert!((volume(&line, half).millilitres() - smaller).abs() < 1e-9);
    }

    #[test]
    fn each_weight_gives_its_part_its_density() {
        let line = taper(&[(0.0, 1.0), (20.0, 1.0)]);
        let per_metre = core::f64::consts::FRAC_PI_4;
        let cut = (
            Length::from_metres(5.0),
            Length::from_metres(10.0),
            Mass::from_grams(5.0 * per_metre * 1.2),
        );
        let weighed = Weighed {
            whole: Some(Mass::from_grams(per_metre * (5.0 * 1.2 + 15.0 * 0.9))),
            head: None,
            cuts: vec![cut],
        };
        let made = made_of(&line, &weighed, Length::from_micrometres(15.0));
        let densities = made.zones.iter().map(|zone| zone.density);
        let densities: Vec<f64> = densities
            .map(|density| (density.grams_per_cubic_centimetre() * 1e6).round() / 1e6)
            .collect();
        assert_eq!(densities, [0.9, 1.2, 0.9]);
        assert!(!made.is_contradicted);
        // Its first 30 ft from the tip: 5 m of one, 4.144 m of the other.
        let head = per_metre * (5.0 * 0.9 + 4.144 * 1.2);
        let found = made.head_mass.expect("it is long enough").value.grams();
        assert!((found - head).abs() < 1e-9, "{found} {head}");
    }

    #[test]
    fn weights_that_contradict_each_other_are_said() {
        let line = taper(&[(0.0, 1.0), (20.0, 1.0)]);
        let cut = |from, to, grams| {
            (
                Length::from_metres(from),
                Length::from_metres(to),
                Mass::from_grams(grams),
            )
        };
        let of = |whole: Option<f64>, cuts: Vec<_>| {
            let weighed = Weighed {
                whole: whole.map(Mass::from_grams),
                head: None,
                cuts,
            };
            made_of(&line, &weighed, Length::from_micrometres(15.0))
        };
        assert!(of(None, vec![cut(0.0, 5.0, 4.0), cut(4.0, 8.0, 4.0)]).is_contradicted);
        assert!(of(Some(3.0), vec![cut(0.0, 5.0, 4.0)]).is_contradicted);
        // Pieces that are all of it may differ from the whole by what the scale is off.
        let halves = || vec![cut(0.0, 10.0, 8.0), cut(10.0, 20.0, 8.0)];
        assert!(!of(Some(15.99), halves()).is_contradicted);
        assert!(of(Some(15.0), halves()).is_contradicted);
        assert!(of(None, vec![cut(0.0, 25.0, 4.0)]).is_contradicted);
        assert!(!of(Some(14.0), vec![cut(0.0, 5.0, 4.0)]).is_contradicted);
        let nothing = of(None, Vec::new());
        assert_eq!((nothing.density, nothing.verdict), (None, None));
    }
}
