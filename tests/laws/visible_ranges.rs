//! Looking closer at a part of the line. Analytic: a place keeps its share of what is shown, unless an end is in the way.

use proptest::prelude::*;
use taperwright::base::units::Length;
use taperwright::paper::chart::visible_range::VisibleRange;

use crate::lines::cases;

fn metres(value: f64) -> Length {
    Length::from_metres(value)
}

/// What is shown beyond the line's end is little.
fn is_within(sight: VisibleRange, line: Length) -> bool {
    let hair = metres(1e-9);
    sight.from >= Length::ZERO
        && sight.from + sight.length <= VisibleRange::whole(line).length + hair
}

proptest! {
    #![proptest_config(cases(400))]

    #[test]
    fn looking_closer_shows_less_about_the_same_place(
        line in 1.0..100.0_f64, from in -10.0..100.0_f64, length in 0.1..150.0_f64,
        about in 0.0..1.0_f64, times in 1.01..8.0_f64,
    ) {
        let line = metres(line);
        let start = VisibleRange { from: metres(from), length: metres(length) }.within(line);
        prop_assert!(is_within(start, line));
        let about = start.from + start.length * about;
        let closer = start.zoomed(times, about, line);
        prop_assert!(is_within(closer, line));
        prop_assert!(!closer.is_whole(line) || start.length <= metres(0.25));
        let shortest = start.length / times < metres(0.25);
        prop_assert!(shortest || (closer.length / (start.length / times) - 1.0).abs() < 1e-9);
        let share = |sight: VisibleRange| (about - sight.from) / sight.length;
        let is_at_an_end = closer.from <= Length::ZERO
            || closer.from + closer.length >= VisibleRange::whole(line).length - metres(1e-9);
        prop_assert!(is_at_an_end || (share(closer) - share(start)).abs() < 1e-6);
        // And back again, as far as it goes.
        prop_assert!(is_within(closer.zoomed(1.0 / times, about, line), line));
        let wide = closer.zoomed(1e-3, about, line);
        prop_assert!(wide.is_whole(line));
    }

    /// Paper that shows more than the line, for another one compared with it, can be enlarged all the same.
    #[test]
    fn wide_paper_is_no_hindrance(line in 1.0..100.0_f64, spare in 1.0..4.0_f64) {
        let line = metres(line);
        let paper = VisibleRange { from: Length::ZERO, length: line * 1.03 * spare };
        prop_assert!(paper.is_whole(line));
        let closer = paper.zoomed(1.2, line * 0.5, line);
        prop_assert!(!closer.is_whole(line));
    }

    #[test]
    fn a_place_is_brought_into_sight(
        line in 2.0..100.0_f64, from in 0.0..1.0_f64, share in 0.05..0.9_f64, at in 0.0..1.0_f64,
    ) {
        let line = metres(line);
        let sight = VisibleRange { from: line * from, length: line * share }.within(line);
        let at = line * at;
        let showing = sight.showing(at, line);
        prop_assert!(is_within(showing, line));
        prop_assert!(showing.from <= at && at <= showing.from + showing.length);
        prop_assert!((showing.length / sight.length - 1.0).abs() < 1e-9);
    }
}
