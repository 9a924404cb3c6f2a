//! States of a large track, judged one carrier after another.

use super::course::{Course, way_round};
use crate::track::{Carrier, Direction, Engaged, Lay, bits};

/// The course and, once for all, whom each carrier passes over.
pub(super) struct Ground<'a> {
    pub(super) course: &'a Course,
    overs: [Vec<u64>; 2],
}

/// How the threads of one direction lie.
#[derive(Clone, Copy, Debug, Default)]
struct Side {
    loose: u32,
    float: u32,
}

impl Side {
    fn and(self, lay: Lay) -> Self {
        Self {
            loose: self.loose + u32::from(lay.is_loose()),
            float: self.float.max(lay.longest_float()),
        }
    }
}

/// Engaged carriers and how they braid.
#[derive(Clone, Debug)]
pub(super) struct State {
    pub(super) set: Engaged,
    sides: [Side; 2],
    gaps: u32,
}

impl State {
    /// Threads that lie loose.
    pub(super) fn loose(&self) -> u32 {
        self.sides[0].loose + self.sides[1].loose
    }

    fn float(&self) -> u32 {
        self.sides[0].float.max(self.sides[1].float)
    }

    /// Lower is better: loose threads, the longest float, squared gaps.
    pub(super) fn rank(&self) -> (u32, u32, u32) {
        (self.loose(), self.float(), self.gaps)
    }
}

/// A ladder from the start up to some state.
#[derive(Clone, Debug)]
pub(super) struct Branch {
    start: Engaged,
    /// The carriers added to the start set.
    pub(super) added: Vec<Carrier>,
    /// The state reached.
    pub(super) top: State,
    falls: u32,
    float: u32,
    gaps: u32,
    walk: u32,
}

/// Lower is better: states that fall apart, loose threads at the top, the longest float, squared gaps, walk.
pub(super) type Rank = (u32, u32, u32, u32, u32);

impl From<State> for Branch {
    fn from(top: State) -> Self {
        Self {
            start: top.set,
            added: Vec::new(),
            falls: u32::from(top.loose() > 0),
            float: top.float(),
            gaps: top.gaps,
            walk: 0,
            top,
        }
    }
}

impl Branch {
    pub(super) fn rank(&self) -> Rank {
        (
            self.falls,
            self.top.loose(),
            self.float,
            self.gaps,
            self.walk,
        )
    }

    pub(super) fn listed(&self) -> Vec<Carrier> {
        Course::listed(self.start, &self.added)
    }
}

impl<'a> Ground<'a> {
    pub(super) fn new(course: &'a Course) -> Self {
        let overs = |direction| {
            let numbers = 0..course.track.mounted(direction);
            let carriers = numbers.map(|number| Carrier { direction, number });
            carriers
                .map(|carrier| course.track.overs(carrier))
                .collect()
        };
        Self {
            course,
            overs: Direction::BOTH.map(overs),
        }
    }

    /// The state of these carriers.
    pub(super) fn state(&self, set: Engaged) -> State {
        State {
            set,
            sides: Direction::BOTH.map(|direction| self.side(set, direction)),
            gaps: self.gaps(set),
        }
    }

    /// The branch with one carrier more.
    pub(super) fn grown(&self, branch: &Branch, carrier: Carrier) -> Branch {
        let top = self.with(&branch.top, carrier);
        let mut added = branch.added.clone();
        added.push(carrier);
        Branch {
            start: branch.start,
            added,
            falls: branch.falls + u32::from(top.loose() > 0),
            float: branch.float.max(top.float()),
            gaps: branch.gaps + top.gaps,
            walk: branch.walk + self.walk(branch.added.last().copied(), Some(carrier)),
            top,
        }
    }

    /// The state with one carrier more. Those of its own direction lie as before.
    fn with(&self, state: &State, carrier: Carrier) -> State {
        let (direction, set) = (carrier.direction, state.set.with(carrier));
        let other = direction.other();
        let mut sides = state.sides;
        sides[other as usize] = self.side(set, other);
        let own = &mut sides[direction as usize];
        *own = own.and(self.lay(carrier, set.of(other)));
        State {
            set,
            sides,
            gaps: self.gaps(set),
        }
    }

    /// Lower is better for the next step alone: loose threads, the longest float, the widest gap.
    pub(super) fn demerit(&self, state: &State) -> (u32, u32, u32) {
        (
            state.loose(),
            state.float(),
            self.course.track.widest_gap(&state.set),
        )
    }

    /// Places round the ring from one carrier to the next.
    pub(super) fn walk(&self, from: Option<Carrier>, to: Option<Carrier>) -> u32 {
        let track = self.course.track;
        let (Some(from), Some(to)) = (from, to) else {
            return 0;
        };
        way_round(track.places_each_way(), track.place(from), track.place(to))
    }

    fn gaps(&self, set: Engaged) -> u32 {
        let gaps =
            |direction: Direction| self.course.track.squared_gaps(direction, set.of(direction));
        Direction::BOTH.map(gaps).iter().sum()
    }

    fn side(&self, set: Engaged, direction: Direction) -> Side {
        let met = set.of(direction.other());
        let carriers = bits(set.of(direction)).map(|number| Carrier { direction, number });
        carriers.fold(Side::default(), |side, carrier| {
            side.and(self.lay(carrier, met))
        })
    }

    fn lay(&self, carrier: Carrier, met: u64) -> Lay {
        Lay {
            over: self.overs[carrier.direction as usize][carrier.number as usize] & met,
            met,
            sides_change: self.course.track.sides_change(),
        }
    }
}
