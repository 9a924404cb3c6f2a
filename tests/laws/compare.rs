//! Comparing two lines: what must hold whatever the lines are.

use proptest::prelude::*;
use taperwright::base::choice::Choice as _;
use taperwright::base::units::Length;
use taperwright::base::units::show::Units;
use taperwright::design::Design;
use taperwright::paper::compare::{Compared, ComparedPlace, Comparison, MERGED_WITHIN};
use taperwright::plan::Plan;

use crate::likely::likely;
use crate::lines::{any_design, cases, usual_design};

/// A line with its plan.
type Line = (Design, Plan);

fn line() -> impl Strategy<Value = Line> {
    let design = prop_oneof![
        1 => any_design().boxed(),
        1 => likely().boxed(),
        2 => usual_design().boxed(),
    ];
    design.prop_map(|design| {
        let plan = Plan::of(&design);
        (design, plan)
    })
}

fn comparison(mine: &Line, other: &Line) -> Comparison {
    Comparison::of((&mine.0, &mine.1), (&other.0, &other.1))
}

/// Every row of both tables.
fn rows(comparison: &Comparison) -> Vec<Compared> {
    let stations = comparison.places.iter().flat_map(ComparedPlace::rows);
    comparison.figures.iter().copied().chain(stations).collect()
}

/// The difference with its sign turned round, as it is written.
fn turned(words: &str) -> String {
    let turn = |letter| match letter {
        '+' => '\u{2212}',
        '\u{2212}' => '+',
        other => other,
    };
    words.chars().map(turn).collect()
}

fn control_points((design, _): &Line) -> Vec<Length> {
    let points = design.draft().points.iter();
    points
        .map(|point| Length::from_metres(point.at_m))
        .collect()
}

proptest! {
    #![proptest_config(cases(80))]

    #[test]
    fn a_line_differs_from_itself_in_nothing(line in line()) {
        let same = comparison(&line, &line);
        prop_assert_eq!(same.figures.len(), 13);
        for row in rows(&same) {
            prop_assert_eq!(row.mine, row.other);
            prop_assert!(row.mine.is_none_or(|amount| amount.si().is_none_or(f64::is_finite)));
            prop_assert!(row.difference().is_none_or(|off| off == 0.0), "{:?}", row);
            for &units in Units::ALL {
                let said = row.words(units).difference;
                let wanted = if row.mine.is_some() { "same" } else { "–" };
                prop_assert_eq!(said, wanted);
            }
        }
        for station in &same.places {
            prop_assert!(station.mine.is_some() && station.mine == station.other);
        }
    }

    #[test]
    fn the_other_way_round_every_sign_is_the_other(a in line(), b in line()) {
        let (there, back) = (comparison(&a, &b), comparison(&b, &a));
        prop_assert_eq!(there.figures.len(), back.figures.len());
        prop_assert_eq!(there.places.len(), back.places.len());
        for (one, two) in rows(&there).iter().zip(rows(&back)) {
            prop_assert_eq!((one.key, one.mine, one.other), (two.key, two.other, two.mine));
            prop_assert_eq!(one.difference(), two.difference().map(|off| -off));
            for &units in Units::ALL {
                let (one, two) = (one.words(units), two.words(units));
                prop_assert_eq!(&one.mine, &two.other);
                prop_assert_eq!(one.difference, turned(&two.difference));
            }
        }
    }

    /// The sign in words is that of the difference, and nothing is called the same that reads otherwise.
    #[test]
    fn the_words_have_the_sign_of_the_difference(a in line(), b in line()) {
        for row in rows(&comparison(&a, &b)) {
            for &units in Units::ALL {
                let words = row.words(units);
                let off = row.difference().unwrap_or(0.0);
                prop_assert!(off > 0.0 || !words.difference.contains('+'), "{:?} {:?}", row, words);
                prop_assert!(off < 0.0 || !words.difference.contains('\u{2212}'), "{:?} {:?}", row, words);
                prop_assert_eq!(words.difference == "same", words.mine == words.other && row.mine.is_some());
            }
        }
    }

    #[test]
    fn every_station_is_a_control_point_and_none_is_far_from_one(a in line(), b in line()) {
        let stations = comparison(&a, &b).places;
        let points = [control_points(&a), control_points(&b)].concat();
        prop_assert!(stations.iter().all(|station| points.contains(&station.at)));
        prop_assert!(stations.windows(2).all(|pair| pair[1].at - pair[0].at >= MERGED_WITHIN));
        prop_assert!(stations.len() <= points.len());
        for &point in &points {
            let is_beside = |at: Length| at <= point && point - at < MERGED_WITHIN;
            prop_assert!(stations.iter().any(|station| is_beside(station.at)), "{:?}", point);
        }
    }

    #[test]
    fn a_side_is_empty_only_behind_the_end_of_its_line(a in line(), b in line()) {
        for station in comparison(&a, &b).places {
            for (place, (design, plan)) in [(station.mine, &a), (station.other, &b)] {
                prop_assert_eq!(place.is_some(), station.at <= plan.length);
                if let Some(place) = place {
                    prop_assert_eq!(place.drawn, design.taper().diameter_at(station.at));
                    prop_assert!((plan.threads_min()..=plan.threads_max()).contains(&place.threads));
                }
            }
        }
    }
}
