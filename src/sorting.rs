//! Sorting that is compiled once. The library's own is made anew for every kind of thing and every way to compare, five
//! thousand bytes each time, which the visitor loads; the lists of a line are short. Where many are sorted in a search, the
//! library's is the right one.

use std::cmp::Ordering;

/// Puts things in order; what compares equal stays as it came.
pub fn sort_by<T>(things: &mut [T], mut compare: impl FnMut(&T, &T) -> Ordering) {
    let order = order(things.len(), &mut |one, other| {
        compare(&things[one], &things[other])
    });
    arrange(things, &order);
}

/// Puts things in their own order.
pub fn sort<T: Ord>(things: &mut [T]) {
    sort_by(things, T::cmp);
}

/// The places of so many things in order, by merging runs of growing length.
fn order(count: usize, compare: &mut dyn FnMut(usize, usize) -> Ordering) -> Vec<usize> {
    let mut places: Vec<usize> = (0..count).collect();
    let mut run = 1;
    while run < count {
        let mut merged = Vec::with_capacity(count);
        for pair in places.chunks(2 * run) {
            let (first, second) = pair.split_at(run.min(pair.len()));
            merge(first, second, &mut merged, compare);
        }
        places = merged;
        run *= 2;
    }
    places
}

fn merge(
    mut first: &[usize],
    mut second: &[usize],
    merged: &mut Vec<usize>,
    compare: &mut dyn FnMut(usize, usize) -> Ordering,
) {
    while let ([one, ones @ ..], [other, others @ ..]) = (first, second) {
        if compare(*other, *one) == Ordering::Less {
            merged.push(*other);
            second = others;
        } else {
            merged.push(*one);
            first = ones;
        }
    }
    merged.extend_from_slice(first);
    merged.extend_from_slice(second);
}

/// Puts at every place what stood at the place named there.
fn arrange<T>(things: &mut [T], order: &[usize]) {
    for place in 0..things.len() {
        let mut from = order[place];
        // What stood at a place already filled has been swapped away, to where that place's own came from.
        while from < place {
            from = order[from];
        }
        things.swap(place, from);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Against the standard library's sort, which is stable too.
        #[test]
        fn things_come_as_the_standard_library_sorts_them(mut things: Vec<(u8, u16)>) {
            let mut expected = things.clone();
            expected.sort_by_key(|thing| thing.0 / 16);
            sort_by(&mut things, |one, other| (one.0 / 16).cmp(&(other.0 / 16)));
            prop_assert_eq!(&things, &expected);
            expected.sort();
            sort(&mut things);
            prop_assert_eq!(things, expected);
        }
    }
}
