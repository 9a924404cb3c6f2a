//! All that follows from a design.
//!
//! [`Plan::of`] is total, deterministic and free of I/O, clock and browser. Views read it and compute nothing.

pub mod bobbins;
mod course;
pub mod days;
mod drawn;
mod dressing;
pub mod event;
mod heads;
pub mod layout;
mod notices;
mod outcome;
pub mod prediction;
pub mod run;
mod schedule;
mod sections;
mod treads;

use crate::base::units::{Density, Length, Mass};
use crate::braid::ladder::Ladder;
use crate::braid::stretch::{BraidedLine, Station};
use crate::braid::taper::Part;
use crate::braid::threads::{Staircase, Supply};
use crate::braid::track::Carrier;
use crate::braid::weight::two_handed::TwoHanded;
use crate::braid::weight::{Head, Verdict};
use crate::design::Design;
use crate::plan::bobbins::{Bobbin, Plying};
use crate::plan::layout::{Ground, Layout, pins};
use crate::plan::prediction::Prediction;
use drawn::Drawn;
use schedule::Schedule;

pub use course::Course;
pub use dressing::{CoatReport, Mixture, Portion, StepReport, StepWarning};
pub use event::{Action, Event, Set};
pub use heads::{HeadRange, RearHead};
pub use notices::{Mend, Notice};
pub use outcome::{Interlacings, Strength, Work, WorstAngle, YarnTotal};
pub use sections::{SectionWeight, WhyOff};
pub use treads::Tread;

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
    /// The line that the wheels would make which do best were they never changed.
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
    /// The same over the range of the yarn's label.
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
    /// What it bears.
    pub strength: Strength,
    /// Bobbins in the order in which they enter.
    pub bobbins: Vec<Bobbin>,
    /// What to ply.
    pub plying: Vec<Plying>,
    /// Yarn for everything.
    pub yarn: YarnTotal,
    /// The work at the machine.
    pub work: Work,
    /// Dressing it, step by step.
    pub dressing: Vec<StepReport>,
    /// What the maker should know before braiding.
    pub notices: Vec<Notice>,
}

impl Plan {
    /// The plan of a design.
    pub fn of(design: &Design) -> Self {
        let ground = Ground::of(design);
        let pinned = design.pins();
        let mut layout = ground.lay_out(&pinned);
        let pieces = ground.pieces(&layout);
        let line = ground.braid_pieces(&pieces);
        let (low, high) = layout.level_range();
        let (fewest, most) = (ground.levels[low].threads, ground.levels[high].threads);
        let ladder = Ladder::new(design.track(), fewest, most, &pins::of_carriers(&pinned));
        layout
            .dropped_pins
            .extend(pins::given_up(ladder.given_up(), &pinned));
        let heavier = match ground.levels[high].heavy {
            0 => Vec::new(),
            _ => ladder.heavier_order(most, &pins::of_swaps(&pinned)),
        };
        let swapped = &heavier[..ground.levels[high].heavy as usize];
        let engaged = ladder.engaged(most);
        layout
            .dropped_pins
            .extend(pins::swaps_given_up(&pinned, swapped, engaged));
        let schedule = Schedule {
            ground: &ground,
            layout: &layout,
            line: &line,
            ladder: &ladder,
            heavier: &heavier,
            carrier_pins: &outcome::carrier_pins(&pinned, &layout, most),
            pins: &pinned,
        };
        let events = schedule.events();
        let winding = outcome::winding(design, &line);
        let bobbins = winding.bobbins(&events);
        let plying = winding.plying(&bobbins);
        let drawn = Drawn::of(&ground);
        let length = ground.taper.length();
        let parts = ground.taper.sections();
        let head = Head::of(&parts);
        let missing = head.missing(length);
        let ends = missing.is_none().then_some((head.from, head.to));
        let head_mass = ends.map(|(from, to)| line.mass(from, to));
        // What lies behind the head cannot change it.
        let of_head = &pieces[..pieces.partition_point(|piece| piece.from < head.to)];
        let sections = sections::weigh(&ground, &drawn, &layout, &line, &parts);
        let mut plan = Self {
            length,
            supply: ground.supply,
            one_gear: ground.braid_with_one(&layout),
            head,
            head_mass,
            head_bare_mass: ends.map(|(from, to)| line.bare_mass(from, to)),
            head_drawn: ends.map(|ends| drawn.mass_between(ends)),
            verdict: Verdict::on(head_mass, missing),
            head_range: ends.map(|ends| heads::range(design, &ground, of_head, ends)),
            prediction: ends.map(|ends| Prediction::of(design, of_head, &line, ends)),
            two_handed: TwoHanded::all(&head, &line),
            rear_head: heads::rear(&ground.taper, &line),
            total_mass: line.mass(Length::ZERO, length),
            bare_mass: line.bare_mass(Length::ZERO, length),
            tip_diameter: line.station(Length::ZERO).dressed.diameter,
            belly: line.station(outcome::belly_middle(&ground)),
            diameter_error: sections::diameter_error(&ground, &line),
            interlacings: outcome::over_all(ladder.interlacings()),
            worst_angle: outcome::worst_angle(&line, ground.making.target),
            strength: outcome::strength(design, &ground, &line),
            yarn: outcome::yarn_total(design, &bobbins, &plying),
            work: outcome::work(design, &line),
            staircase: ground.staircase.clone(),
            dressing: Vec::new(),
            notices: Vec::new(),
            layout,
            events,
            ladder,
            heavier,
            sections,
            bobbins,
            plying,
            line,
        };
        plan.dressing = dressing::of(design, &plan);
        plan.notices = notices::of(design, &ground, &plan);
        plan
    }

    /// The line at a distance from the tip; where two stretches meet, the later one.
    pub fn station(&self, at: Length) -> Station {
        self.line.station(at)
    }

    /// Carriers engaged at a place, with the ends of their threads.
    pub fn set_at(&self, at: Length) -> Set {
        engaged(self.events.iter().take_while(|event| event.at <= at))
    }

    /// The next change of threads behind a place.
    pub fn next_change(&self, at: Length) -> Option<&Event> {
        let mut behind = self.events.iter().filter(|event| event.at > at);
        behind.find(|event| event.action.is_of_threads())
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

    /// How much the head is over the target of its class, or under it where negative.
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

    /// The schedule by places: all that is done without running on stands together.
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

/// The carriers that are on once these events are done.
fn engaged<'a>(events: impl Iterator<Item = &'a Event>) -> Set {
    let mut set = Set::new();
    for event in events {
        match &event.action {
            Action::Start(start) => set.clone_from(start),
            Action::Add { carrier, ends } => set.push((*carrier, *ends)),
            Action::Drop { carrier, .. } => set.retain(|(other, _)| other != carrier),
            Action::Swap { carrier, to, .. } => {
                set.iter_mut()
                    .filter(|(other, _)| other == carrier)
                    .for_each(|(_, ends)| *ends = *to);
            }
            Action::Gear { .. } | Action::End(_) => {}
        }
    }
    set
}
