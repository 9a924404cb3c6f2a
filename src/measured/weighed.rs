//! What a line is made of, from its size and its weight: mass per volume, whole or of each part that was weighed.

use super::material::Material;
use super::spread::Spread;
use super::stretches::{Measured, Stretches, Weighed, Zone, of_scale, volume};
use crate::base::units::{Density, Length, LinearDensity, Mass, Volume};
use crate::braid::taper::Taper;
use crate::braid::weight::{Head, Verdict};

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
