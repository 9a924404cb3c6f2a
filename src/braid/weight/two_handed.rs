//! Weights of lines for two-handed rods: by the length of their heads, with targets but no bands.

use core::cmp::Ordering;

use super::Head;
use crate::base::units::{Length, Mass};
use crate::braid::stretch::BraidedLine;

/// A kind of head, by the length it is weighed to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeadKind {
    /// What it is called.
    pub name: &'static str,
    /// Length weighed, in feet.
    pub feet: f64,
}

/// The kinds of head. Source: AFFTA fly line weight standard, two-handed lines.
pub const KINDS: [HeadKind; 4] = [
    HeadKind {
        name: "shooting head",
        feet: 40.0,
    },
    HeadKind {
        name: "short belly",
        feet: 55.0,
    },
    HeadKind {
        name: "mid belly",
        feet: 65.0,
    },
    HeadKind {
        name: "long belly",
        feet: 80.0,
    },
];

/// Classes with their targets, in grains, for each kind of head. Same source; no bands were found with it.
pub const TARGETS: [(u8, [f64; 4]); 7] = [
    (6, [250.0, 420.0, 460.0, 600.0]),
    (7, [300.0, 470.0, 510.0, 650.0]),
    (8, [360.0, 530.0, 570.0, 710.0]),
    (9, [430.0, 600.0, 640.0, 780.0]),
    (10, [510.0, 680.0, 720.0, 860.0]),
    (11, [600.0, 770.0, 810.0, 950.0]),
    (12, [700.0, 870.0, 910.0, 1050.0]),
];

/// A line weighed as one for two hands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TwoHanded {
    /// To what length.
    pub kind: HeadKind,
    /// What that weighs.
    pub mass: Mass,
    /// The class whose target is nearest, as a share of it.
    pub class: u8,
    /// Its target.
    pub target: Mass,
}

impl TwoHanded {
    /// How far the mass is from the target, as a share of it.
    pub fn off(&self) -> f64 {
        self.mass / self.target - 1.0
    }

    /// Whether the mass lies beyond the targets, by more than half a step of the last two: then the class is only the nearest
    /// end of the table. `Less` and `Greater` say on which side. Our own choice: the standard has no bands.
    pub fn beyond(&self) -> Option<Ordering> {
        let kind = KINDS.iter().position(|kind| *kind == self.kind)?;
        let [first, second] = [0, 1].map(|row| TARGETS[row].1[kind]);
        let [last, before] = [1, 2].map(|back| TARGETS[TARGETS.len() - back].1[kind]);
        let grains = self.mass.grains();
        if grains < first - 0.5 * (second - first) {
            Some(Ordering::Less)
        } else if grains > last + 0.5 * (last - before) {
            Some(Ordering::Greater)
        } else {
            None
        }
    }

    /// A mass among the targets of a kind of head, by its place in [`KINDS`].
    fn of(kind: usize, mass: Mass) -> Self {
        let of = |&(class, targets): &(u8, [f64; 4])| Self {
            kind: KINDS[kind],
            mass,
            class,
            target: Mass::from_grains(targets[kind]),
        };
        let nearer = |one: Self, other: Self| {
            if other.off().abs() < one.off().abs() {
                other
            } else {
                one
            }
        };
        let first = of(&TARGETS[0]);
        TARGETS.iter().map(of).fold(first, nearer)
    }

    /// A line weighed to every length it has; as for the class of one hand, a level tip of up to 6 in is left out.
    pub fn all(head: &Head, line: &BraidedLine) -> Vec<Self> {
        let of = |(kind, one): (usize, &HeadKind)| {
            let to = head.from + Length::from_feet(one.feet);
            (to <= line.length()).then(|| Self::of(kind, line.mass(head.from, to)))
        };
        KINDS.iter().enumerate().filter_map(of).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_target_gives_the_class() {
        let class = |kind, grains| TwoHanded::of(kind, Mass::from_grains(grains)).class;
        assert_eq!((class(0, 100.0), class(0, 275.0)), (6, 7));
        assert_eq!((class(3, 740.0), class(3, 2_000.0)), (8, 12));
    }
}
