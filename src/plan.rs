//! All that follows from a design.
//!
//! [`Plan::of`] is total, deterministic and free of I/O, clock and browser. Views read it and compute nothing.

mod ground;
mod notices;
mod schedule;

use crate::bobbins::{self, Bobbin};
use crate::design::Design;
use crate::ladder::Ladder;
use crate::stretch::{self, Stretch, mass_between, thread_range};
use crate::taper::{Part, Section};
use crate::threads::Staircase;
use crate::units::{Angle, Length, Mass};
use crate::weight::{Head, Verdict};
use ground::Ground;

pub use notices::Notice;
pub use schedule::{Action, Event};

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
    /// Mass of the same stretch before dressing.
    pub head_bare_mass: Option<Mass>,
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
    /// The stretch in the middle of the belly.
    pub belly: Stretch,
    /// The most crossings in a row that any thread stays on one side, over all thread counts of the line.
    pub longest_float: u32,
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
        let stretches = ground.stretches();
        let (fewest, most) = thread_range(&stretches);
        let ladder = Ladder::new(design.track(), fewest, most);
        let interlacings: Vec<_> = (fewest..=most)
            .map(|count| ladder.interlacing(count))
            .collect();
        let floats = interlacings.iter().map(|found| found.longest_float);
        let sections = ground.weigh_sections(&stretches);
        let length = ground.taper.length();
        let head = Head::of(&ground.sections);
        let missing = head.missing(length);
        let weighed = missing.is_none().then_some((head.from, head.to));
        let head_mass =
            weighed.map(|ends| mass_between(&stretches, ends, Stretch::dressed_density));
        let thread = ground.braiding.thread.linear_density();
        let bobbins = bobbins::wind(&stretches, &ladder, thread, design.thread_allowance());
        let whole = (Length::ZERO, length);
        let mut plan = Self {
            length,
            staircase: ground.staircase,
            events: schedule::events(&stretches, &ladder),
            head,
            head_mass,
            head_bare_mass: weighed
                .map(|ends| mass_between(&stretches, ends, Stretch::bare_density)),
            head_drawn: weighed.map(|ends| ground.drawn_between(ends)),
            verdict: Verdict::on(head_mass, missing),
            total_mass: sections.iter().map(|section| section.mass).sum(),
            bare_mass: mass_between(&stretches, whole, Stretch::bare_density),
            tip_diameter: stretches[0].dressed.diameter,
            belly: *stretch::at(&stretches, ground.belly_middle()),
            worst_angle: worst_angle(&stretches, ground.target),
            yarn: yarn_total(design, &bobbins),
            longest_float: floats.max().unwrap_or(0),
            notices: Vec::new(),
            sections,
            ladder,
            stretches,
            bobbins,
        };
        plan.notices = notices::of(design, &plan, &interlacings);
        plan
    }

    /// The stretch at a distance from the tip; where two meet, the later one.
    pub fn stretch_at(&self, at: Length) -> &Stretch {
        stretch::at(&self.stretches, at)
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
        thread_range(&self.stretches).0
    }

    /// Most threads anywhere on the line.
    pub fn threads_max(&self) -> u32 {
        thread_range(&self.stretches).1
    }

    /// How much the head is over the target of its class, or under it where negative.
    pub fn off_target(&self) -> Option<Mass> {
        match self.verdict {
            Verdict::Within(class) => self
                .head_mass
                .map(|mass| mass - Mass::from_grains(class.target)),
            _ => None,
        }
    }

    /// The schedule by places: all that is done without running on stands together.
    pub fn stops(&self) -> impl Iterator<Item = &[Event]> + Clone {
        self.events.chunk_by(|a, b| a.at == b.at)
    }

    /// How often a gear is changed.
    pub fn gear_changes(&self) -> usize {
        self.events
            .iter()
            .filter(|event| matches!(event.action, Action::Gear { .. }))
            .count()
    }
}

/// The first of the stretches that are farthest from the target.
fn worst_angle(stretches: &[Stretch], target: Angle) -> WorstAngle {
    let worse = |worst, stretch| {
        if Stretch::off(stretch, target) > Stretch::off(worst, target) {
            stretch
        } else {
            worst
        }
    };
    let worst = stretches.iter().reduce(worse).unwrap_or(&stretches[0]);
    WorstAngle {
        angle: worst.fit.braid.angle,
        off: worst.off(target),
        from: worst.from,
    }
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
