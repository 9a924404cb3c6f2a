//! What the plan is computed from: the typed parts of a design, and the levels its thread counts make.

use super::SectionWeight;
use crate::braid::{Braid, Braiding};
use crate::design::Design;
use crate::dressing::{Dressed, Dressing};
use crate::stretch::{Stretch, mass_between};
use crate::takeoff::{Fit, TakeOff};
use crate::taper::{Point, Section, Taper};
use crate::threads::{Run, Staircase};
use crate::units::{Angle, Length, LinearDensity, Mass};

/// The typed parts of a design that the plan is computed from.
pub(super) struct Ground {
    pub(super) taper: Taper,
    pub(super) sections: Vec<Section>,
    pub(super) braiding: Braiding,
    take_off: TakeOff,
    dressing: Dressing,
    pub(super) target: Angle,
    pub(super) staircase: Staircase,
    /// The braid a single thread would make at the target angle: mass grows with the count, diameter with its root.
    one_thread: Braid,
}

impl Ground {
    pub(super) fn of(design: &Design) -> Self {
        let (taper, braiding) = (design.taper(), design.braiding());
        let (dressing, target) = (design.dressing(), design.target_angle());
        let one_metre = Length::from_metres(1.0);
        let staircase = Staircase {
            threads_per_diameter_squared: braiding.threads_for(one_metre, target),
            film: dressing.film,
            fewest: design.fewest_threads(),
            most: design.track().carriers(),
        };
        Self {
            sections: taper.sections(),
            one_thread: braiding.at_angle(1, target),
            take_off: design.take_off(),
            taper,
            braiding,
            dressing,
            target,
            staircase,
        }
    }

    /// The stretches of the line, tip first, without gap.
    pub(super) fn stretches(&self) -> Vec<Stretch> {
        let runs = self.staircase.runs(self.taper.points());
        let levels = Levels::of(self, &runs);
        runs.iter().map(|run| levels.stretch(run)).collect()
    }

    pub(super) fn weigh_sections(&self, stretches: &[Stretch]) -> Vec<SectionWeight> {
        let weigh = |&section: &Section| {
            let ends = (section.from, section.to);
            SectionWeight {
                section,
                mass: mass_between(stretches, ends, Stretch::dressed_density),
                drawn: self.drawn_between(ends),
            }
        };
        self.sections.iter().map(weigh).collect()
    }

    /// The middle of the belly, or the thickest place where the line has no level belly.
    pub(super) fn belly_middle(&self) -> Length {
        let (first, last) = self.taper.belly();
        let at = |index: usize| self.taper.points()[index].at;
        (at(first) + at(last)) / 2.0
    }

    /// Mass the drawing asks for between two places: the dressed mass per length is quadratic in the diameter and
    /// the diameter linear between control points, so Simpson's rule is exact on each piece.
    pub(super) fn drawn_between(&self, (from, to): (Length, Length)) -> Mass {
        let piece = |pair: &[Point]| {
            let (a, b) = (pair[0].at.max(from), pair[1].at.min(to));
            (a < b).then(|| (b - a) * self.drawn_mean(a, b))
        };
        self.taper.points().windows(2).filter_map(piece).sum()
    }

    fn drawn_mean(&self, a: Length, b: Length) -> LinearDensity {
        (self.drawn_at(a) + self.drawn_at((a + b) / 2.0) * 4.0 + self.drawn_at(b)) / 6.0
    }

    /// Dressed mass per length of a braid that had exactly the drawn diameter at the target angle.
    fn drawn_at(&self, at: Length) -> LinearDensity {
        let threads = self.staircase.wanted(self.taper.diameter_at(at));
        let braid = Braid {
            linear_density: self.one_thread.linear_density * threads,
            diameter: self.one_thread.diameter * threads.sqrt(),
            ..self.one_thread
        };
        self.dressing
            .dress(&braid, self.braiding.fibre_fraction)
            .linear_density
    }
}

/// Gear, braid and dressing for every thread count the line uses.
struct Levels {
    fewest: u32,
    fits: Vec<(Fit, Dressed)>,
}

impl Levels {
    fn of(ground: &Ground, runs: &[Run]) -> Self {
        let fewest = runs.iter().map(|run| run.threads).min().unwrap_or(0);
        let most = runs.iter().map(|run| run.threads).max().unwrap_or(0);
        let fit = |threads| {
            let fit = ground
                .take_off
                .nearest(&ground.braiding, threads, ground.target);
            (
                fit,
                ground
                    .dressing
                    .dress(&fit.braid, ground.braiding.fibre_fraction),
            )
        };
        Self {
            fewest,
            fits: (fewest..=most).map(fit).collect(),
        }
    }

    fn stretch(&self, run: &Run) -> Stretch {
        let (fit, dressed) = self.fits[(run.threads - self.fewest) as usize];
        Stretch {
            from: run.from,
            to: run.to,
            threads: run.threads,
            fit,
            dressed,
        }
    }
}
