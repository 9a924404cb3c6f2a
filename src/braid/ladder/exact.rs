//! The best ladder of all, for at most eight carriers each way.
//!
//! How a thread lies hangs only on which carriers of the other direction are engaged. So a table of 256 sets for each
//! carrier tells all, and a state is judged by two looks. No ladder can be better than the best state of each count of
//! threads: ladders of such states alone are looked for first, with floats as short as can be, then longer ones. From the
//! highest state down, each state learns the best that can follow it ([Bellman's principle]). The walk is settled last, in
//! `walk.rs`, among the few ladders that are left.
//!
//! [Bellman's principle]: https://en.wikipedia.org/wiki/Bellman_equation

use super::constraints::Constraints;
use crate::braid::track::{Carrier, Direction, Engaged, Lay, Track};

/// The most carriers each way that are searched in full.
pub(super) const MOST_EACH_WAY: u32 = 8;

/// Falls first, then floats: how many states fall apart, and the longest float, side by side in one number. Lower is better.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Merit(u16);

impl Merit {
    /// Nothing amiss.
    const CLEAN: Self = Self(0);
    /// Worse than any ladder: a state from which no ladder goes on.
    const NONE: Self = Self(u16::MAX);

    const fn new(falls: u8, float: u8) -> Self {
        Self(u16::from_be_bytes([falls, float]))
    }

    const fn falls(self) -> u8 {
        self.0.to_be_bytes()[0]
    }

    const fn float(self) -> u8 {
        self.0.to_be_bytes()[1]
    }

    /// Whether neither falls nor float are more than so much.
    const fn is_within(self, most: Self) -> bool {
        self.falls() <= most.falls() && self.float() <= most.float()
    }

    fn followed_by(self, rest: Self) -> Self {
        Self::new(
            self.falls().saturating_add(rest.falls()),
            self.float().max(rest.float()),
        )
    }
}

/// How every carrier lies against every set of the other direction. Tables by the other direction's set.
struct Judge {
    /// Loose carriers of a direction.
    loose: [Vec<u8>; 2],
    /// By longest float: carriers of a direction that float no longer.
    within: [Vec<[u8; FLOATS]>; 2],
    /// Squared gaps of the sets of a direction.
    gaps: [Vec<u32>; 2],
}

/// Longest floats there are, with none: a loose thread floats over twice the others at most.
const FLOATS: usize = 2 * MOST_EACH_WAY as usize + 1;

impl Judge {
    fn new(track: Track) -> Self {
        let lays = Direction::BOTH.map(|direction| lays(track, direction));
        let [(loose, within), (other_loose, other_within)] = lays;
        Self {
            loose: [loose, other_loose],
            within: [within, other_within],
            gaps: Direction::BOTH.map(|direction| {
                let sets = 0..1_u64 << track.mounted(direction);
                sets.map(|set| track.squared_gaps(direction, set)).collect()
            }),
        }
    }

    fn merit(&self, SetPair([one, other]): SetPair) -> Merit {
        let of_one = &self.within[0][usize::from(other)];
        let of_other = &self.within[1][usize::from(one)];
        let mut float = 0;
        while (of_one[float] & one, of_other[float] & other) != (one, other) {
            float += 1;
        }
        let loose = [
            self.loose[0][usize::from(other)] & one,
            self.loose[1][usize::from(one)] & other,
        ];
        Merit::new(
            u8::from(loose != [0, 0]),
            u8::try_from(float).unwrap_or(u8::MAX),
        )
    }

    fn gaps(&self, state: SetPair) -> u32 {
        let [one, other] = state.0.map(usize::from);
        self.gaps[0][one] + self.gaps[1][other]
    }
}

/// For each set of the other direction, the carriers of this one that lie loose, and by longest float those that float no
/// longer.
fn lays(track: Track, direction: Direction) -> (Vec<u8>, Vec<[u8; FLOATS]>) {
    let alike = track.alike(direction);
    let sets = 0..1_u64 << track.mounted(direction.other());
    let against = |met: u64| {
        let (mut loose, mut within) = (0, [0; FLOATS]);
        for &(over, carriers) in &alike {
            let carriers = low_byte(carriers);
            let lay = Lay {
                over: over & met,
                met,
                sides_change: track.sides_change(),
            };
            loose |= if lay.is_loose() { carriers } else { 0 };
            within[lay.longest_float() as usize] |= carriers;
        }
        for float in 1..FLOATS {
            within[float] |= within[float - 1];
        }
        (loose, within)
    };
    sets.map(against).unzip()
}

/// A set of each direction.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct SetPair(pub(super) [u8; 2]);

impl SetPair {
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

/// States and what can follow them at best; tables by [`SetPair::index`].
pub(super) struct Search<'a> {
    pub(super) constraints: &'a Constraints,
    judge: Judge,
    /// From the start up, what the constraints allows with so many threads.
    floors: Vec<Floor>,
    /// Whether a state falls apart, and its longest float.
    own: Vec<Merit>,
    /// The best that a ladder from a state up can be, its floats no longer than they need be.
    best: Vec<Rank>,
}

/// How many states fall apart, and the sum of squared gaps, side by side in one number. Lower is better.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Rank(u32);

impl Rank {
    /// Where no ladder goes on.
    const NONE: Self = Self(u32::MAX);
    /// All the gaps of a ladder, squared, are far from this: seventeen states of 2 · 64² at most.
    const FALL: u32 = 1 << 24;

    fn followed_by(self, rest: Self) -> Self {
        Self(self.0.saturating_add(rest.0))
    }
}

/// What a constraints allows with some count of threads.
struct Floor {
    /// The carriers each way that the next step may engage.
    may_add: [u8; 2],
    /// The sets of either direction that stand together.
    pairs: Vec<[Vec<u8>; 2]>,
}

impl Floor {
    fn of(constraints: &Constraints, threads: u32) -> Self {
        let allowed = constraints.allowed(threads);
        let sets = |way: usize, count: u32| -> Vec<u8> {
            let (must, may) = (low_byte(allowed[way].0), low_byte(allowed[way].1));
            let is_allowed =
                |set: &u8| set.count_ones() == count && set & must == must && set & !may == 0;
            (0..=u8::MAX).filter(is_allowed).collect()
        };
        let counts = constraints.counts(threads);
        Self {
            may_add: constraints.may_add(threads).map(low_byte),
            pairs: counts
                .map(|[one, other]| [sets(0, one), sets(1, other)])
                .collect(),
        }
    }

    /// Every state the constraints allows.
    fn states(&self) -> impl Iterator<Item = SetPair> {
        self.pairs.iter().flat_map(|[ones, others]| {
            ones.iter()
                .flat_map(|&one| others.iter().map(move |&other| SetPair([one, other])))
        })
    }

    /// The carriers that may be engaged next on a state, clockwise and counter-clockwise: only of a direction that is not
    /// ahead.
    fn next(&self, SetPair(sets): SetPair) -> [u8; 2] {
        let [ones, others] = sets.map(u8::count_ones);
        let may = |way: usize, is_behind: bool| {
            if is_behind {
                self.may_add[way] & !sets[way]
            } else {
                0
            }
        };
        [may(0, ones <= others), may(1, others <= ones)]
    }
}

/// The numbers of at most [`MOST_EACH_WAY`] carriers.
const fn low_byte(numbers: u64) -> u8 {
    numbers.to_le_bytes()[0]
}

/// Each state that has one more of these carriers.
fn each_next(state: SetPair, next: [u8; 2], mut then: impl FnMut(SetPair)) {
    for (way, mut numbers) in next.into_iter().enumerate() {
        while numbers != 0 {
            let mut above = state;
            above.0[way] |= numbers & numbers.wrapping_neg();
            numbers &= numbers - 1;
            then(above);
        }
    }
}

impl<'a> Search<'a> {
    /// All states of a balanced constraints, each with the best that can follow it.
    pub(super) fn ranked(constraints: &'a Constraints) -> Self {
        let mut search = Self::new(constraints);
        search.rank();
        search
    }

    fn new(constraints: &'a Constraints) -> Self {
        let states = usize::from(u16::MAX) + 1;
        Self {
            constraints,
            judge: Judge::new(constraints.track),
            floors: (constraints.start..=constraints.full)
                .map(|threads| Floor::of(constraints, threads))
                .collect(),
            own: vec![Merit::NONE; states],
            best: vec![Rank::NONE; states],
        }
    }

    /// Fills the table of ranks.
    fn rank(&mut self) {
        let least: Vec<Merit> = (0..self.floors.len()).map(|at| self.judged(at)).collect();
        let float = least.iter().map(|least| least.float()).max();
        for float in usize::from(float.unwrap_or(0))..FLOATS {
            let float = u8::try_from(float).unwrap_or(u8::MAX);
            let most: Vec<Merit> = least
                .iter()
                .map(|least| Merit::new(least.falls(), float))
                .collect();
            if self.spread(&most) {
                return;
            }
        }
        // What holds best with one count of threads does not lead to what holds best with the next.
        let most = Merit::new(1, self.least_float());
        self.spread(&vec![most; self.floors.len()]);
    }

    /// Judges the states of a floor; the best of them, falls first.
    fn judged(&mut self, floor: usize) -> Merit {
        let mut least = Merit::NONE;
        for [ones, others] in &self.floors[floor].pairs {
            for &one in ones {
                for &other in others {
                    let state = SetPair([one, other]);
                    let merit = self.judge.merit(state);
                    self.own[state.index()] = merit;
                    least = least.min(merit);
                }
            }
        }
        least
    }

    /// Fills the table of ranks from the top down, with states that neither fall apart nor float more than is said of their
    /// floor; whether any ladder is left.
    fn spread(&mut self, most: &[Merit]) -> bool {
        let mut nothing_follows = Rank(0);
        for (floor, most) in self.floors.iter().zip(most).rev() {
            let mut is_left = false;
            for [ones, others] in &floor.pairs {
                for &one in ones {
                    for &other in others {
                        let state = SetPair([one, other]);
                        let mut rest = nothing_follows;
                        if self.own[state.index()].is_within(*most) {
                            each_next(state, floor.next(state), |next| {
                                rest = rest.min(self.best[next.index()]);
                            });
                        } else {
                            rest = Rank::NONE;
                        }
                        if rest != Rank::NONE {
                            rest = self.rank_of(state).followed_by(rest);
                            is_left = true;
                        }
                        self.best[state.index()] = rest;
                    }
                }
            }
            if !is_left {
                return false;
            }
            nothing_follows = Rank::NONE;
        }
        true
    }

    /// The shortest longest float of all ladders with the fewest falls.
    fn least_float(&self) -> u8 {
        let mut merits = vec![Merit::NONE; self.own.len()];
        let mut nothing_follows = Merit::CLEAN;
        for floor in self.floors.iter().rev() {
            for state in floor.states() {
                let mut rest = nothing_follows;
                each_next(state, floor.next(state), |next| {
                    rest = rest.min(merits[next.index()]);
                });
                merits[state.index()] = self.own[state.index()].followed_by(rest);
            }
            nothing_follows = Merit::NONE;
        }
        let starts = self.floors[0].states();
        let best = starts.map(|state| merits[state.index()]).min();
        best.unwrap_or(Merit::NONE).float()
    }

    /// What a state adds to a ladder's rank.
    fn rank_of(&self, state: SetPair) -> Rank {
        let falls = u32::from(self.own[state.index()].falls());
        Rank(falls * Rank::FALL + self.judge.gaps(state))
    }

    /// Whether a best ladder, but for its walk, that comes to `state` may go on to `next`.
    fn goes_on(&self, state: SetPair, next: SetPair) -> bool {
        let rest = self.best[next.index()];
        rest != Rank::NONE && self.rank_of(state).followed_by(rest) == self.best[state.index()]
    }

    /// The start sets of the best ladders, but for their walk.
    pub(super) fn best_starts(&self) -> Vec<SetPair> {
        let rank = |state: SetPair| self.best[state.index()];
        let best = self.floors[0].states().map(rank).min();
        let starts = self.floors[0].states();
        starts.filter(|&state| Some(rank(state)) == best).collect()
    }

    /// The steps from a state that a best ladder may take, but for its walk: the carrier added, clockwise ones first, by
    /// number, and the state it makes.
    pub(super) fn steps(
        &self,
        threads: u32,
        state: SetPair,
    ) -> impl Iterator<Item = (Carrier, SetPair)> {
        let floor = &self.floors[(threads - self.constraints.start) as usize];
        let next = Engaged::of_numbers(floor.next(state).map(u64::from));
        next.carriers()
            .map(move |carrier| (carrier, state.with(carrier)))
            .filter(move |&(_, next)| self.goes_on(state, next))
    }
}
