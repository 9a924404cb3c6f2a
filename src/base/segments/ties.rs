//! Which numbers of a broken line are one and the same parameter.

use super::broken::Broken;

/// The parameters of a broken line: values and inner places of its knots, some of them tied to each other.
#[derive(Clone, Debug, PartialEq)]
pub struct Ties {
    /// For each knot the parameter that is its value.
    values: Vec<usize>,
    /// For each knot the parameter of its place; none where it is fixed.
    places: Vec<Option<TiedPlace>>,
    count: usize,
}

/// A place that follows a parameter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct TiedPlace {
    /// The parameter.
    pub(super) index: usize,
    /// 1, or −1 for the place mirrored.
    pub(super) sign: f64,
}

impl Ties {
    /// Those of a line of two knots at least, with `is_level` for each piece: both its ends have one value. Mirrored means the
    /// same from either end. First and last place are fixed, and so is a knot in the middle of a mirrored line.
    pub fn of(is_level: &[bool], is_mirrored: bool) -> Self {
        let knots = is_level.len() + 1;
        let other = |knot: usize| knots - 1 - knot;
        // Every knot takes the lowest name among those it is tied to, until none changes.
        let mut names: Vec<usize> = (0..knots).collect();
        loop {
            let before = names.clone();
            for knot in 0..knots {
                let level = is_level.get(knot).is_some_and(|&level| level);
                let partners = [level.then_some(knot + 1), is_mirrored.then(|| other(knot))];
                for partner in partners.into_iter().flatten() {
                    let name = names[knot].min(names[partner]);
                    (names[knot], names[partner]) = (name, name);
                }
            }
            if names == before {
                break;
            }
        }
        let mut count = 0;
        let mut values = vec![0; knots];
        for knot in 0..knots {
            let name = names[knot];
            values[knot] = if name == knot { count } else { values[name] };
            count += usize::from(name == knot);
        }
        let mut places: Vec<Option<TiedPlace>> = vec![None; knots];
        for knot in 1..knots - 1 {
            let mirrored = other(knot);
            if is_mirrored && mirrored < knot {
                let first = places[mirrored];
                places[knot] = first.map(|tied| TiedPlace { sign: -1.0, ..tied });
            } else if !is_mirrored || mirrored > knot {
                places[knot] = Some(TiedPlace {
                    index: count,
                    sign: 1.0,
                });
                count += 1;
            }
        }
        Self {
            values,
            places,
            count,
        }
    }

    /// All values and inner places are free.
    pub fn free(knots: usize) -> Self {
        Self::of(&vec![false; knots.max(2) - 1], false)
    }

    /// How many parameters there are.
    pub fn count(&self) -> usize {
        self.count
    }

    /// The parameter that is a knot's value.
    pub fn value(&self, knot: usize) -> usize {
        self.values[knot]
    }

    /// The parameter that a knot's place follows.
    pub fn place(&self, knot: usize) -> Option<usize> {
        self.places[knot].map(|tied| tied.index)
    }

    /// A line with its tied values at the mean of what they were. Its places must be mirrored where these ties are.
    #[must_use]
    pub fn evened(&self, line: &Broken) -> Broken {
        let mut sums = vec![(0.0, 0.0); self.count];
        for (&value, &index) in line.values.iter().zip(&self.values) {
            sums[index].0 += value;
            sums[index].1 += 1.0;
        }
        let mean = |&index: &usize| sums[index].0 / sums[index].1;
        Broken {
            places: line.places.clone(),
            values: self.values.iter().map(mean).collect(),
        }
    }

    pub(super) fn tied_place(&self, knot: usize) -> Option<TiedPlace> {
        self.places[knot]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Analytic: of six knots there are six values and four inner places; mirrored three and two; with three level pieces less.
    #[test]
    fn parameters_are_counted() {
        assert_eq!(Ties::free(6).count(), 10);
        assert_eq!(Ties::of(&[false; 5], true).count(), 5);
        let level = [true, false, true, false, true];
        assert_eq!(Ties::of(&level, false).count(), 7);
        assert_eq!(Ties::of(&level, true).count(), 4);
        assert_eq!(Ties::free(2).count(), 2);
        // The knot in the middle of five does not move.
        assert_eq!(Ties::of(&[false; 4], true).place(2), None);
    }
}
