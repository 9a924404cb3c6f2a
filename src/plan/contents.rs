//! What a plan holds, and plain questions to it.

use super::bobbins::{Bobbin, Plying};
use super::event::{Action, Event, Set, engaged};
use super::head_range::{HeadRange, RearHead};
use super::layout::Layout;
use super::notice::Notice;
use super::outcome::{Interlacings, Strength, Workload, WorstAngle, YarnTotal};
use super::prediction::Prediction;
use super::sections::SectionWeight;
use super::step_report::StepReport;
use crate::base::units::{Density, Length, Mass};
use crate::braid::ladder::Ladder;
use crate::braid::stretch::{BraidedLine, Station};
use crate::braid::taper::Part;
use crate::braid::threads::{Staircase, Supply};
use crate::braid::track::Carrier;
use crate::braid::weight::two_handed::TwoHanded;
use crate::braid::weight::{Head, Verdict};

/// All that follows from a design.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Whole length.
    pub length: Length,
    /// What threads there are.
    pub supply: Supply,
    /// Finished diameters at whole levels, and the levels between.
    pub staircase: Staircase,
    /// Where threads and wheels are changed.
    pub layout: Layout,
    /// The line braided.
    pub line: BraidedLine,
    /// The line with the one choice of wheels that does best throughout.
    pub one_gear: BraidedLine,
    /// What to do, in order of length.
    pub events: Vec<Event>,
    /// The order of carriers.
    pub ladder: Ladder,
    /// The order in which carriers get heavier threads.
    pub heavier: Vec<Carrier>,
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
    /// Head mass and class over the range of the yarn's label.
    pub head_range: Option<HeadRange>,
    /// What the head will weigh and how likely that is, from how well machine, yarn and hand are known.
    pub prediction: Option<Prediction>,
    /// The head at the other end, where the line ends in a tip.
    pub rear_head: Option<RearHead>,
    /// The line weighed as one for two hands, to every length it has.
    pub two_handed: Vec<TwoHanded>,
    /// Mass of the whole finished line.
    pub total_mass: Mass,
    /// Mass of the whole line before dressing.
    pub bare_mass: Mass,
    /// Finished diameter at the tip.
    pub tip_diameter: Length,
    /// The middle of the belly.
    pub belly: Station,
    /// Root of the mean square error of the finished diameter along the line, as a share.
    pub diameter_error: f64,
    /// How the braid interlaces.
    pub interlacings: Interlacings,
    /// Where the angle is farthest from the target.
    pub worst_angle: WorstAngle,
    /// What it can bear.
    pub strength: Strength,
    /// Bobbins in the order in which they enter.
    pub bobbins: Vec<Bobbin>,
    /// What to ply.
    pub plying: Vec<Plying>,
    /// Yarn for everything.
    pub yarn: YarnTotal,
    /// The work at the machine.
    pub workload: Workload,
    /// Dressing it, step by step.
    pub dressing: Vec<StepReport>,
    /// What the maker should know before braiding.
    pub notices: Vec<Notice>,
}

impl Plan {
    /// The line at a distance from the tip; where two stretches meet, the later one.
    pub fn station(&self, at: Length) -> Station {
        self.line.station(at)
    }

    /// Carriers engaged at a place, with the ends of their threads.
    pub fn set_at(&self, at: Length) -> Set {
        engaged(self.events.iter().take_while(|event| event.at <= at))
    }

    /// The next change of threads after a place.
    pub fn next_change(&self, at: Length) -> Option<&Event> {
        let mut later = self.events.iter().filter(|event| event.at > at);
        later.find(|event| event.action.is_of_threads())
    }

    /// Mass of some parts as planned; 0 where the line has no such part.
    pub fn mass_of(&self, parts: &[Part]) -> Mass {
        self.sections
            .iter()
            .filter(|weight| parts.contains(&weight.section.part))
            .map(|weight| weight.mass)
            .sum()
    }

    /// Fewest threads anywhere on the line.
    pub fn threads_min(&self) -> u32 {
        self.line
            .stretches()
            .iter()
            .map(|stretch| stretch.piece.load.threads)
            .min()
            .unwrap_or(0)
    }

    /// Most threads anywhere on the line.
    pub fn threads_max(&self) -> u32 {
        self.line
            .stretches()
            .iter()
            .map(|stretch| stretch.piece.load.threads)
            .max()
            .unwrap_or(0)
    }

    /// Head mass less the target of its class; negative where it is lighter. `None` without a class.
    pub fn off_target(&self) -> Option<Mass> {
        match self.verdict {
            Verdict::Within(class) => self
                .head_mass
                .map(|mass| mass - Mass::from_grains(class.target)),
            _ => None,
        }
    }

    /// Mass per volume of the finished line in the middle of its belly.
    pub fn bulk_density(&self) -> Density {
        self.belly.dressed.linear_density / self.belly.dressed.diameter.circle()
    }

    /// The schedule grouped by place.
    pub fn stops(&self) -> impl Iterator<Item = &[Event]> + Clone {
        self.events.chunk_by(|a, b| a.at == b.at)
    }

    /// How often a thread is added, dropped or swapped.
    pub fn thread_changes(&self) -> usize {
        self.events
            .iter()
            .filter(|event| event.action.is_of_threads())
            .count()
    }

    /// How often wheels are changed.
    pub fn gear_changes(&self) -> usize {
        self.events
            .iter()
            .filter(|event| matches!(event.action, Action::Gear { .. }))
            .count()
    }
}
