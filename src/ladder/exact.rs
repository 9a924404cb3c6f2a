//! The best ladder of all, for at most eight carriers each way.
//!
//! How a thread lies hangs only on which carriers of the other direction are engaged. So a table of 256 sets for each
//! carrier tells all, and a state is judged by two looks. From the highest state down, each state then learns the best
//! that can follow it ([Bellman's principle]): first falls and floats, then, among states and steps that keep those
//! least, the gaps. The walk is settled last, in `walk.rs`, among the few ladders that are left.
//!
//! [Bellman's principle]: https://en.wikipedia.org/wiki/Bellman_equation

use super::course::Course;
use super::walk;
use crate::track::{Carrier, Direction, Engaged, Lay, Track};

/// The most carriers each way that are searched in full.
pub(super) const MOST_EACH_WAY: u32 = 8;

/// The best ladder of a balanced course.
pub(super) fn best(course: &Course) -> Vec<Carrier> {
    let mut search = Search::new(course);
    search.weigh();
    search.spread();
    walk::shortest(&search)
}

/// Falls first, then floats: how many states fall apart, and the longest float. Lower is better.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Merit {
    falls: u8,
    float: u8,
}

impl Merit {
    /// Nothing amiss.
    const CLEAN: Self = Self { falls: 0, float: 0 };
    /// Worse than any ladder: a state from which no ladder goes on.
    const NONE: Self = Self {
        falls: u8::MAX,
        float: u8::MAX,
    };

    fn followed_by(self, rest: Self) -> Self {
        Self {
            falls: self.falls.saturating_add(rest.falls),
            float: self.float.max(rest.float),
        }
    }
}

/// How every carrier lies against every set of the other direction.
struct Judge {
    /// Loose carriers of a direction, by the set of the other.
    loose: [Vec<u8>; 2],
    /// By longest float: carriers of a direction that float no longer, by the set of the other.
    within: Vec<[Vec<u8>; 2]>,
    /// Squared gaps of the sets of a direction.
    gaps: [Vec<u32>; 2],
}

impl Judge {
    fn new(track: Track) -> Self {
        let lays = Direction::BOTH.map(|direction| lays(track, direction));
        let pick = |fits: &dyn Fn((bool, u32)) -> bool| {
            [0, 1].map(|way: usize| lays[way].iter().map(|lays| picked(lays, fits)).collect())
        };
        // A loose thread floats over twice the others at most.
        let floats = 0..=2 * MOST_EACH_WAY;
        Self {
            loose: pick(&|(is_loose, _)| is_loose),
            within: floats
                .map(|float| pick(&|(_, longest)| longest <= float))
                .collect(),
            gaps: Direction::BOTH.map(|direction| {
                let sets = 0..1_u64 << track.mounted(direction);
                sets.map(|set| track.squared_gaps(direction, set)).collect()
            }),
        }
    }

    fn merit(&self, state: State) -> Merit {
        let [one, other] = state.0;
        let among = |table: &[Vec<u8>; 2]| {
            (
                table[0][other as usize] & one,
                table[1][one as usize] & other,
            )
        };
        let fits = |table: &[Vec<u8>; 2]| among(table) == (one, other);
        let longer = self.within.iter().take_while(|table| !fits(table)).count();
        Merit {
            falls: u8::from(among(&self.loose) != (0, 0)),
            float: u8::try_from(longer).unwrap_or(u8::MAX),
        }
    }

    fn gaps(&self, state: State) -> u32 {
        let [one, other] = state.0.map(usize::from);
        self.gaps[0][one] + self.gaps[1][other]
    }
}

/// For each set of the other direction: of each carrier of this one, whether it lies loose, and its longest float.
fn lays(track: Track, direction: Direction) -> Vec<Vec<(bool, u32)>> {
    let numbers = 0..track.mounted(direction);
    let overs: Vec<u64> = numbers
        .map(|number| track.overs(Carrier { direction, number }))
        .collect();
    let against = |met: u64| {
        let lay = |over: &u64| {
            let sides_change = track.sides_change();
            let over = over & met;
            let lay = Lay {
                over,
                met,
                sides_change,
            };
            (lay.is_loose(), lay.longest_float())
        };
        overs.iter().map(lay).collect()
    };
    (0..1 << track.mounted(direction.other()))
        .map(against)
        .collect()
}

/// The carriers whose lay is as asked.
fn picked(lays: &[(bool, u32)], fits: &dyn Fn((bool, u32)) -> bool) -> u8 {
    let numbers = (0_u32..).zip(lays).filter(|&(_, &lay)| fits(lay));
    numbers.fold(0, |set, (number, _)| set | 1 << number)
}

/// A set of each direction.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct State(pub(super) [u8; 2]);

impl State {
    /// Its place in a table of all states.
    pub(super) fn index(self) -> usize {
        usize::from(u16::from_be_bytes(self.0))
    }

    #[must_use]
    pub(super) fn with(mut self, carrier: Carrier) -> Self {
        self.0[carrier.direction as usize] |= 1 << carrier.number;
        self
    }

    pub(super) fn engaged(self) -> Engaged {
        Engaged::of_numbers(self.0.map(u64::from))
    }
}

/// States and what can follow them at best; tables by [`State::index`].
pub(super) struct Search<'a> {
    pub(super) course: &'a Course,
    judge: Judge,
    /// From the start up, the carriers that the next step may engage.
    may_add: Vec<[u64; 2]>,
    /// The best falls and floats from a state up.
    merits: Vec<Merit>,
    /// How many of those falls come above the state.
    falls_above: Vec<u8>,
    /// The least sum of squared gaps from a state up among those.
    gaps: Vec<u32>,
    /// The longest float that need be.
    float: u8,
}

impl<'a> Search<'a> {
    fn new(course: &'a Course) -> Self {
        let states = usize::from(u16::MAX) + 1;
        Self {
            course,
            judge: Judge::new(course.track),
            may_add: (course.start..=course.full)
                .map(|threads| course.may_add(threads))
                .collect(),
            merits: vec![Merit::NONE; states],
            falls_above: vec![u8::MAX; states],
            gaps: vec![u32::MAX; states],
            float: 0,
        }
    }

    /// Fills the table of falls and floats, from the top down.
    fn weigh(&mut self) {
        for threads in (self.course.start..=self.course.full).rev() {
            for state in self.states(threads) {
                let next = self.next(threads, state);
                let rest = next.map(|(_, next)| self.merits[next.index()]).min();
                let rest = rest.unwrap_or(self.nothing_follows(threads, Merit::CLEAN, Merit::NONE));
                self.falls_above[state.index()] = rest.falls;
                self.merits[state.index()] = self.judge.merit(state).followed_by(rest);
            }
        }
        let starts = self.states(self.course.start);
        let best = starts.map(|state| self.merits[state.index()]).min();
        self.float = best.unwrap_or(Merit::NONE).float;
    }

    /// Fills the table of gaps, from the top down, where falls and floats are as few as can be.
    fn spread(&mut self) {
        for threads in (self.course.start..=self.course.full).rev() {
            for state in self.states(threads) {
                let next = self.next(threads, state);
                let good = next.filter(|&(_, next)| self.keeps_merit(state, next));
                let rest = good.map(|(_, next)| self.gaps[next.index()]).min();
                let rest = rest.unwrap_or(self.nothing_follows(threads, 0, u32::MAX));
                self.gaps[state.index()] = self.judge.gaps(state).saturating_add(rest);
            }
        }
    }

    /// What stands for the rest of a ladder above a state that has no next: at the top nothing is missing.
    fn nothing_follows<T>(&self, threads: u32, at_the_top: T, below: T) -> T {
        if threads == self.course.full {
            at_the_top
        } else {
            below
        }
    }

    /// Whether the best merit from `state` can still be had by way of `next`.
    fn keeps_merit(&self, state: State, next: State) -> bool {
        let rest = self.merits[next.index()];
        rest.float <= self.float && rest.falls == self.falls_above[state.index()]
    }

    /// Whether a best ladder, but for its walk, that comes to `state` may go on to `next`.
    fn goes_on(&self, state: State, next: State) -> bool {
        let gaps = self
            .judge
            .gaps(state)
            .saturating_add(self.gaps[next.index()]);
        self.keeps_merit(state, next) && gaps == self.gaps[state.index()]
    }

    /// The start sets of the best ladders, but for their walk.
    pub(super) fn best_starts(&self) -> Vec<State> {
        let rank = |state: State| (self.merits[state.index()], self.gaps[state.index()]);
        let starts = self.states(self.course.start);
        let best = starts.clone().map(rank).min();
        starts.filter(|&state| Some(rank(state)) == best).collect()
    }

    /// The states one step up, each with the carrier added.
    fn next(&self, threads: u32, state: State) -> impl Iterator<Item = (Carrier, State)> {
        let may_add = self.may_add[(threads - self.course.start) as usize];
        let next = Course::next(state.engaged(), may_add);
        next.map(move |carrier| (carrier, state.with(carrier)))
    }

    /// The steps from a state that a best ladder may take, but for its walk.
    pub(super) fn steps(
        &self,
        threads: u32,
        state: State,
    ) -> impl Iterator<Item = (Carrier, State)> {
        let next = self.next(threads, state);
        next.filter(move |&(_, next)| self.goes_on(state, next))
    }

    /// Every state with so many threads that the course allows.
    fn states(&self, threads: u32) -> impl Iterator<Item = State> + Clone + use<> {
        let allowed = self.course.allowed(threads);
        let sets = move |way: usize, count: u32| -> Vec<u8> {
            let (must, may) = allowed[way];
            let sets = (0..=u8::MAX).filter(|set| set.count_ones() == count);
            sets.filter(|&set| u64::from(set) & must == must && u64::from(set) & !may == 0)
                .collect()
        };
        let pairs: Vec<State> = self
            .course
            .counts(threads)
            .flat_map(|[one, other]| {
                let others = sets(1, other);
                let pair = move |one: u8| {
                    others
                        .clone()
                        .into_iter()
                        .map(move |other| State([one, other]))
                };
                sets(0, one).into_iter().flat_map(pair)
            })
            .collect();
        pairs.into_iter()
    }
}
