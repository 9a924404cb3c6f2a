//! States of a large track, judged one carrier after another.

use super::constraints::{Constraints, way_round};
use crate::braid::track::{Carrier, Direction, Engaged, Lay};

/// The constraints and, once for all, whom each carrier passes over and where it stands.
pub(super) struct Evaluator<'a> {
    pub(super) constraints: &'a Constraints,
    /// Carriers that lie alike: whom they pass over, and who they are.
    alike: [Vec<(u64, u64)>; 2],
    places: [Vec<u32>; 2],
}

/// How the threads of one direction lie.
#[derive(Clone, Copy, Debug, Default)]
struct Side {
    loose: u32,
    float: u32,
}

impl Side {
    /// With so many carriers more, which all lie so.
    fn and(self, lay: Lay, carriers: u32) -> Self {
        Self {
            loose: self.loose + if lay.is_loose() { carriers } else { 0 },
            float: self.float.max(lay.longest_float()),
        }
    }
}

/// Engaged carriers and how they braid.
#[derive(Clone, Copy, Debug)]
pub(super) struct RatedState {
    pub(super) set: Engaged,
    places: [u64; 2],
    sides: [Side; 2],
    /// Squared gaps of each direction.
    gaps: [u32; 2],
}

impl RatedState {
    /// Threads that lie loose.
    pub(super) fn loose(&self) -> u32 {
        self.sides[0].loose + self.sides[1].loose
    }

    fn float(&self) -> u32 {
        self.sides[0].float.max(self.sides[1].float)
    }

    fn gaps(&self) -> u32 {
        self.gaps[0] + self.gaps[1]
    }

    /// Lower is better: loose threads, the longest float, squared gaps.
    pub(super) fn rank(&self) -> (u32, u32, u32) {
        (self.loose(), self.float(), self.gaps())
    }
}

/// A ladder from the start up to some state.
#[derive(Clone, Debug)]
pub(super) struct Branch {
    start: Engaged,
    /// The carriers added to the start set.
    pub(super) added: Vec<Carrier>,
    /// The state reached.
    pub(super) top: RatedState,
    falls: u32,
    float: u32,
    gaps: u32,
    walk: u32,
}

/// Lower is better: states that fall apart, loose threads at the top, the longest float, squared gaps, walk.
pub(super) type Rank = (u32, u32, u32, u32, u32);

impl From<RatedState> for Branch {
    fn from(top: RatedState) -> Self {
        Self {
            start: top.set,
            added: Vec::new(),
            falls: u32::from(top.loose() > 0),
            float: top.float(),
            gaps: top.gaps(),
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
        Constraints::listed(self.start, &self.added)
    }
}

/// A branch with one carrier more, weighed but not yet grown.
pub(super) struct Bud<'b> {
    branch: &'b Branch,
    carrier: Carrier,
    top: RatedState,
    walk: u32,
}

impl Bud<'_> {
    /// The state it leads to.
    pub(super) fn set(&self) -> Engaged {
        self.top.set
    }

    fn falls(&self) -> u32 {
        self.branch.falls + u32::from(self.top.loose() > 0)
    }

    fn float(&self) -> u32 {
        self.branch.float.max(self.top.float())
    }

    pub(super) fn rank(&self) -> Rank {
        let gaps = self.branch.gaps + self.top.gaps();
        (
            self.falls(),
            self.top.loose(),
            self.float(),
            gaps,
            self.walk,
        )
    }

    pub(super) fn grown(&self) -> Branch {
        let mut added = self.branch.added.clone();
        added.push(self.carrier);
        Branch {
            start: self.branch.start,
            added,
            falls: self.falls(),
            float: self.float(),
            gaps: self.branch.gaps + self.top.gaps(),
            walk: self.walk,
            top: self.top,
        }
    }
}

impl<'a> Evaluator<'a> {
    pub(super) fn new(constraints: &'a Constraints) -> Self {
        let track = constraints.track;
        let places = |direction| {
            let numbers = 0..track.mounted(direction);
            let carriers = numbers.map(|number| Carrier { direction, number });
            carriers.map(|carrier| track.place(carrier)).collect()
        };
        Self {
            constraints,
            alike: Direction::BOTH.map(|direction| track.alike(direction)),
            places: Direction::BOTH.map(places),
        }
    }

    /// The state of these carriers.
    pub(super) fn state(&self, set: Engaged) -> RatedState {
        let track = self.constraints.track;
        let places = Direction::BOTH.map(|direction| track.places_of(direction, set.of(direction)));
        RatedState {
            set,
            places,
            sides: Direction::BOTH.map(|direction| self.side(set, direction)),
            gaps: places.map(|places| track.squared_steps(places)),
        }
    }

    /// What a branch would be with one carrier more.
    pub(super) fn bud<'b>(&self, branch: &'b Branch, carrier: Carrier) -> Bud<'b> {
        Bud {
            branch,
            carrier,
            top: self.with(&branch.top, carrier),
            walk: branch.walk + self.walk(branch.added.last().copied(), Some(carrier)),
        }
    }

    /// The state with one carrier more. Those of its own direction lie as before.
    fn with(&self, state: &RatedState, carrier: Carrier) -> RatedState {
        let (direction, set) = (carrier.direction, state.set.with(carrier));
        let (way, other) = (direction as usize, direction.other());
        let mut with = RatedState { set, ..*state };
        with.sides[other as usize] = self.side(set, other);
        let mut alike = self.alike[way].iter();
        let over = alike.find(|(_, carriers)| carriers >> carrier.number & 1 == 1);
        let over = over.map_or(0, |&(over, _)| over);
        with.sides[way] = with.sides[way].and(self.lay(over, set.of(other)), 1);
        with.places[way] |= 1 << self.places[way][carrier.number as usize];
        with.gaps[way] = self.constraints.track.squared_steps(with.places[way]);
        with
    }

    /// Lower is better for the next step alone: loose threads, the longest float, the widest gap.
    pub(super) fn demerit(&self, state: &RatedState) -> (u32, u32, u32) {
        (
            state.loose(),
            state.float(),
            self.constraints.track.widest_gap(&state.set),
        )
    }

    /// Places round the ring from one carrier to the next.
    pub(super) fn walk(&self, from: Option<Carrier>, to: Option<Carrier>) -> u32 {
        let (Some(from), Some(to)) = (from, to) else {
            return 0;
        };
        let ring = self.constraints.track.places_each_way();
        way_round(ring, self.place(from), self.place(to))
    }

    fn place(&self, carrier: Carrier) -> u32 {
        self.places[carrier.direction as usize][carrier.number as usize]
    }

    fn side(&self, set: Engaged, direction: Direction) -> Side {
        let (own, met) = (set.of(direction), set.of(direction.other()));
        let mut side = Side::default();
        for (over, carriers) in &self.alike[direction as usize] {
            let engaged = (carriers & own).count_ones();
            if engaged > 0 {
                side = side.and(self.lay(*over, met), engaged);
            }
        }
        side
    }

    fn lay(&self, over: u64, met: u64) -> Lay {
        Lay {
            over: over & met,
            met,
            sides_change: self.constraints.track.sides_change(),
        }
    }
}
