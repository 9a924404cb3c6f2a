//! All that follows from a design.
//!
//! [`Plan::of`] is total, deterministic and free of I/O, clock and browser. Views read it and compute nothing.

mod notices;
mod schedule;

use crate::bobbins::{self, Bobbin};
use crate::braid::Braiding;
use crate::design::Design;
use crate::dressing::{Dressed, Dressing};
use crate::ladder::Ladder;
use crate::takeoff::{Fit, TakeOff};
use crate::taper::{Part, Section, Taper};
use crate::threads::{Run, Staircase};
use crate::units::{Angle, Length, LinearDensity, Mass};
use crate::weight::{Head, Verdict};

pub use notices::Notice;
pub use schedule::{Action, Event};

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

/// A section with its weights.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SectionWeight {
    /// Which part, and where.
    pub section: Section,
    /// Mass as planned, in whole threads.
    pub mass: Mass,
    /// Mass the drawing asks for, at the target angle.
    pub drawn: Mass,
}

/// The angle where it is farthest from the target.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WorstAngle {
    /// The angle there.
    pub angle: Angle,
    /// How far from the target, either way.
    pub off: Angle,
    /// Where that stretch begins.
    pub from: Length,
}

/// Yarn for the whole line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct YarnTotal {
    /// Thread on all bobbins together.
    pub thread: Length,
    /// Filament ends in it: thread times ends per thread.
    pub ends: Length,
    /// Mass of it, as braided.
    pub mass: Mass,
    /// Mass to buy: the same before degumming, where the yarn is entered raw.
    pub bought: Mass,
}

/// All that follows from a design.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Whole length.
    pub length: Length,
    /// Finished diameters at whole levels, and the counts between.
    pub staircase: Staircase,
    /// Stretches, tip first, without gap.
    pub stretches: Vec<Stretch>,
    /// What to do, in order of length.
    pub events: Vec<Event>,
    /// The order of carriers.
    pub ladder: Ladder,
    /// Parts of the line with their weights.
    pub sections: Vec<SectionWeight>,
    /// The stretch that is weighed.
    pub head: Head,
    /// Its mass, when the line is long enough to have one.
    pub head_mass: Option<Mass>,
    /// Mass of that stretch as drawn.
    pub head_drawn: Option<Mass>,
    /// What class that makes.
    pub verdict: Verdict,
    /// Mass of the whole finished line.
    pub total_mass: Mass,
    /// Mass of the whole line before dressing.
    pub bare_mass: Mass,
    /// Finished diameter at the tip.
    pub tip_diameter: Length,
    /// Finished diameter in the middle of the belly.
    pub belly_diameter: Length,
    /// Where the angle is farthest from the target.
    pub worst_angle: WorstAngle,
    /// Bobbins in the order in which their carriers come in.
    pub bobbins: Vec<Bobbin>,
    /// Yarn for everything.
    pub yarn: YarnTotal,
    /// What the maker should know before braiding.
    pub notices: Vec<Notice>,
}

impl Plan {
    /// The plan of a design.
    pub fn of(design: &Design) -> Self {
        let ground = Ground::of(design);
        let runs = ground.staircase.runs(ground.taper.points());
        let levels = Levels::of(&ground, &runs);
        let stretches: Vec<Stretch> = runs.iter().map(|run| levels.stretch(run)).collect();
        let ladder = Ladder::new(design.track(), levels.fewest, levels.most());
        let sections = ground.weigh_sections(&stretches);
        let head = Head::of(&ground.taper.sections());
        let length = ground.taper.length();
        let missing = head.missing(length);
        let head_mass = missing
            .is_none()
            .then(|| mass_between(&stretches, head.from, head.to));
        let bobbins = bobbins::wind(
            &stretches,
            &ladder,
            ground.braiding.thread.linear_density(),
            design.thread_allowance(),
        );
        let mut plan = Self {
            length,
            staircase: ground.staircase,
            events: schedule::events(&stretches, &ladder),
            head_drawn: missing
                .is_none()
                .then(|| ground.drawn_between(head.from, head.to)),
            verdict: missing.map_or_else(
                || Verdict::of(head_mass.unwrap_or_default()),
                Verdict::Missing,
            ),
            total_mass: sections.iter().map(|section| section.mass).sum(),
            bare_mass: stretches
                .iter()
                .map(|s| (s.to - s.from) * s.fit.braid.linear_density)
                .sum(),
            tip_diameter: stretches[0].dressed.diameter,
            belly_diameter: diameter_at(&stretches, belly_middle(&ground.taper)),
            worst_angle: worst_angle(&stretches, ground.target),
            yarn: yarn_total(design, &bobbins),
            notices: Vec::new(),
            head,
            head_mass,
            sections,
            ladder,
            stretches,
            bobbins,
        };
        plan.notices = notices::of(design, &plan);
        plan
    }

    /// The stretch at a distance from the tip; where two meet, the later one.
    pub fn stretch_at(&self, at: Length) -> &Stretch {
        &self.stretches[index_at(&self.stretches, at)]
    }

    /// Mass of a part as planned; nothing where the line has no such part.
    pub fn mass_of(&self, parts: &[Part]) -> Mass {
        self.sections
            .iter()
            .filter(|weight| parts.contains(&weight.section.part))
            .map(|weight| weight.mass)
            .sum()
    }

    /// Fewest threads anywhere on the line.
    pub fn threads_min(&self) -> u32 {
        self.stretches
            .iter()
            .map(|stretch| stretch.threads)
            .min()
            .unwrap_or(0)
    }

    /// Most threads anywhere on the line.
    pub fn threads_max(&self) -> u32 {
        self.stretches
            .iter()
            .map(|stretch| stretch.threads)
            .max()
            .unwrap_or(0)
    }

    /// How often a gear is changed.
    pub fn gear_changes(&self) -> usize {
        self.events
            .iter()
            .filter(|event| matches!(event.action, Action::Gear { .. }))
            .count()
    }
}

/// The typed parts of a design that the plan is computed from.
struct Ground {
    taper: Taper,
    braiding: Braiding,
    take_off: TakeOff,
    dressing: Dressing,
    target: Angle,
    staircase: Staircase,
}

impl Ground {
    fn of(design: &Design) -> Self {
        let (braiding, dressing, target) =
            (design.braiding(), design.dressing(), design.target_angle());
        let one_metre = Length::from_metres(1.0);
        let staircase = Staircase {
            threads_per_diameter_squared: braiding.threads_for(one_metre, target),
            film: dressing.film,
            fewest: design.fewest_threads(),
            most: design.track().carriers(),
        };
        Self {
            taper: design.taper(),
            take_off: design.take_off(),
            braiding,
            dressing,
            target,
            staircase,
        }
    }

    fn weigh_sections(&self, stretches: &[Stretch]) -> Vec<SectionWeight> {
        let weigh = |section: Section| SectionWeight {
            section,
            mass: mass_between(stretches, section.from, section.to),
            drawn: self.drawn_between(section.from, section.to),
        };
        self.taper.sections().into_iter().map(weigh).collect()
    }

    /// Mass the drawing asks for between two places: the dressed mass per length is quadratic in the diameter and
    /// the diameter linear between control points, so Simpson's rule is exact on each piece.
    fn drawn_between(&self, from: Length, to: Length) -> Mass {
        let piece = |pair: &[crate::taper::Point]| {
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
        let one = self.braiding.at_angle(1, self.target);
        let braid = crate::braid::Braid {
            linear_density: one.linear_density * threads,
            diameter: one.diameter * threads.sqrt(),
            ..one
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

    fn most(&self) -> u32 {
        self.fits
            .last()
            .map_or(self.fewest, |(fit, _)| fit.braid.threads)
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

fn index_at(stretches: &[Stretch], at: Length) -> usize {
    stretches
        .partition_point(|stretch| stretch.to <= at)
        .min(stretches.len() - 1)
}

fn mass_between(stretches: &[Stretch], from: Length, to: Length) -> Mass {
    let piece = |stretch: &Stretch| {
        let (a, b) = (stretch.from.max(from), stretch.to.min(to));
        (a < b).then(|| (b - a) * stretch.dressed.linear_density)
    };
    stretches[index_at(stretches, from)..]
        .iter()
        .map_while(|stretch| (stretch.from < to).then(|| piece(stretch)))
        .flatten()
        .sum()
}

fn diameter_at(stretches: &[Stretch], at: Length) -> Length {
    stretches[index_at(stretches, at)].dressed.diameter
}

/// The middle of the belly, or the thickest place where the line has no level belly.
fn belly_middle(taper: &Taper) -> Length {
    let belly = taper
        .sections()
        .into_iter()
        .find(|section| section.part == Part::Belly);
    let thickest = || {
        taper
            .points()
            .iter()
            .max_by(|a, b| a.diameter.metres().total_cmp(&b.diameter.metres()))
    };
    belly.map_or_else(
        || thickest().map_or(Length::ZERO, |point| point.at),
        |belly| (belly.from + belly.to) / 2.0,
    )
}

fn worst_angle(stretches: &[Stretch], target: Angle) -> WorstAngle {
    let off = |stretch: &Stretch| (stretch.fit.braid.angle - target).abs();
    let first = WorstAngle {
        angle: stretches[0].fit.braid.angle,
        off: off(&stretches[0]),
        from: Length::ZERO,
    };
    stretches.iter().fold(first, |worst, stretch| {
        if off(stretch) > worst.off {
            WorstAngle {
                angle: stretch.fit.braid.angle,
                off: off(stretch),
                from: stretch.from,
            }
        } else {
            worst
        }
    })
}

fn yarn_total(design: &Design, bobbins: &[Bobbin]) -> YarnTotal {
    let thread: Length = bobbins.iter().map(|bobbin| bobbin.length).sum();
    let mass: Mass = bobbins.iter().map(|bobbin| bobbin.mass).sum();
    YarnTotal {
        thread,
        ends: thread * f64::from(design.thread().ends),
        mass,
        bought: mass / design.kept_in_degumming(),
    }
}
