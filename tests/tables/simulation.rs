//! A maypole track stepped by hand, sharing nothing with the code under test.
//!
//! Horn gears stand in a ring; neighbours turn opposite ways and mesh. A carrier rides the rim of a gear for half a
//! turn, then the next gear takes it over where the two rims touch, and it goes on along the other side of the ring: the
//! outer half of one rim is followed by the inner half of the next. Two carriers that pass each other do so on opposite
//! sides of one gear, and the one outside lays its thread over. A machine may be stepped with carriers on some of its
//! places only.

/// Which way a carrier goes round the ring.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Way {
    Forth,
    Back,
}

/// Which half of a rim a carrier rides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Side {
    Outer,
    Inner,
}

impl Side {
    fn across(self) -> Self {
        match self {
            Self::Outer => Self::Inner,
            Self::Inner => Self::Outer,
        }
    }
}

#[derive(Clone, Copy, Debug)]
struct Rider {
    way: Way,
    number: usize,
    gear: usize,
    side: Side,
    /// Slots from the rim's meeting with the gear before, counted forth.
    slot: usize,
}

/// One passing, as one carrier sees it: whom it met and whether it was outside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Passing {
    pub(crate) met: usize,
    pub(crate) over: bool,
}

/// What every carrier saw in one circuit, in order.
pub(crate) struct Circuit {
    pub(crate) forth: Vec<Vec<Passing>>,
    pub(crate) back: Vec<Vec<Passing>>,
}

impl Circuit {
    /// Steps a track of so many gears with so many slots each through one circuit, with carriers mounted on these
    /// places forth and back, ascending. They are numbered as they are listed.
    pub(crate) fn run(gears: usize, slots: usize, forth: &[usize], back: &[usize]) -> Self {
        let half = slots / 2;
        let mut riders = load(gears, half, forth, back);
        let mut circuit = Self {
            forth: vec![Vec::new(); forth.len()],
            back: vec![Vec::new(); back.len()],
        };
        for _ in 0..gears * half {
            circuit.note_passings(&riders, half);
            for rider in &mut riders {
                rider.step(gears, half);
            }
            no_two_in_one_slot(&riders, gears, half);
        }
        circuit
    }

    /// Two carriers on opposite sides of one gear that swap places in the next step pass each other.
    fn note_passings(&mut self, riders: &[Rider], half: usize) {
        for a in riders.iter().filter(|rider| rider.way == Way::Forth) {
            for b in riders.iter().filter(|rider| rider.way == Way::Back) {
                if a.gear == b.gear && a.slot + 1 == b.slot && b.slot <= half {
                    assert_ne!(a.side, b.side, "two carriers collide");
                    self.forth[a.number].push(Passing {
                        met: b.number,
                        over: a.side == Side::Outer,
                    });
                    self.back[b.number].push(Passing {
                        met: a.number,
                        over: b.side == Side::Outer,
                    });
                }
            }
        }
    }

    /// How the threads of these carriers lie: the longest float of any, and those never over or never under.
    pub(crate) fn interlace(&self, forth: &[usize], back: &[usize]) -> (usize, Vec<(Way, usize)>) {
        let (mut longest, mut loose) = (0, Vec::new());
        let seen_forth = forth.iter().map(|&n| (Way::Forth, n, &self.forth[n], back));
        let seen_back = back.iter().map(|&n| (Way::Back, n, &self.back[n], forth));
        for (way, number, seen, others) in seen_forth.chain(seen_back) {
            let sides: Vec<bool> = seen
                .iter()
                .filter(|p| others.contains(&p.met))
                .map(|p| p.over)
                .collect();
            longest = longest.max(longest_float(&sides));
            if !(sides.contains(&true) && sides.contains(&false)) {
                loose.push((way, number));
            }
        }
        (longest, loose)
    }
}

/// Places are every other slot of either way, in track order, one going back just ahead of each going forth, so that the
/// first to pass each other are those of one place.
fn load(gears: usize, half: usize, forth: &[usize], back: &[usize]) -> Vec<Rider> {
    let forth = forth.iter().enumerate().map(|rider| (Way::Forth, rider));
    let back = back.iter().enumerate().map(|rider| (Way::Back, rider));
    let mounted = forth.chain(back).map(|(way, (number, &place))| {
        assert!(2 * place < gears * half, "no place {place}");
        mount(half, way, number, place)
    });
    mounted.collect()
}

fn mount(half: usize, way: Way, number: usize, place: usize) -> Rider {
    let start = 2 * place;
    let gear = start / half;
    // Even gears turn so that their outer rim runs forth.
    let outer_forth = gear.is_multiple_of(2);
    let outside = outer_forth == (way == Way::Forth);
    Rider {
        way,
        number,
        gear,
        side: if outside { Side::Outer } else { Side::Inner },
        // One slot ahead, which may be the last slot of the same rim.
        slot: start % half + usize::from(way == Way::Back),
    }
}

impl Rider {
    fn step(&mut self, gears: usize, half: usize) {
        match self.way {
            Way::Forth => {
                self.slot += 1;
                if self.slot == half {
                    (self.gear, self.slot) = ((self.gear + 1) % gears, 0);
                    self.side = self.side.across();
                }
            }
            Way::Back => {
                self.slot -= 1;
                if self.slot == 0 {
                    (self.gear, self.slot) = ((self.gear + gears - 1) % gears, half);
                    self.side = self.side.across();
                }
            }
        }
    }
}

/// The check on the simulation itself: no slot may hold two carriers, nor may a meeting of rims.
fn no_two_in_one_slot(riders: &[Rider], gears: usize, half: usize) {
    let mut held = std::collections::BTreeSet::new();
    for rider in riders {
        // The last slot of one rim and the first of the next are one place.
        let place = (rider.gear * half + rider.slot) % (gears * half);
        let at_a_meeting = place.is_multiple_of(half);
        let side = (!at_a_meeting).then_some(rider.side == Side::Outer);
        assert!(
            held.insert((place, side)),
            "two carriers in one slot: {rider:?}"
        );
    }
}

/// The longest run of one side, going round.
fn longest_float(sides: &[bool]) -> usize {
    let n = sides.len();
    let run = |start: usize| {
        (0..n)
            .take_while(|k| sides[(start + k) % n] == sides[start])
            .count()
    };
    (0..n).map(run).max().unwrap_or(0)
}
