//! Days never run backward, and no text is lost in a calendar file.

use proptest::prelude::*;
use taperwright::keep::share::calendar::{CalendarEvent, write};
use taperwright::plan::days::Day;
use taperwright::plan::days::dates::{StepTime, dates};

use crate::lines::cases;

fn leg() -> impl Strategy<Value = StepTime> {
    (0.0_f64..=2000.0, any::<bool>()).prop_map(|(hours, hands)| StepTime { hours, hands })
}

fn day() -> impl Strategy<Value = Day> {
    (-100_i64..=73_000).prop_map(|by| Day::new(2000, 1, 1).expect("a day").plus(by))
}

/// Lines unfolded, and the values of a property, unescaped.
fn values(text: &str, property: &str) -> Vec<String> {
    let unfolded = text.replace("\r\n ", "");
    let lines = unfolded.split("\r\n");
    let of = lines.filter_map(|line| {
        line.strip_prefix(&format!("{property}:"))
            .map(str::to_owned)
    });
    of.map(|value| {
        let mut out = String::new();
        let mut escaped = false;
        for c in value.chars() {
            match (escaped, c) {
                (false, '\\') => escaped = true,
                (true, 'n') => {
                    out.push('\n');
                    escaped = false;
                }
                (_, c) => {
                    out.push(c);
                    escaped = false;
                }
            }
        }
        out
    })
    .collect()
}

proptest! {
    #![proptest_config(cases(300))]

    /// Without ticks each step begins no earlier than the one before ended, and whatever is ticked none ends before it begins.
    #[test]
    fn days_run_forward(start in day(), steps in proptest::collection::vec(leg(), 0..20), ticks in proptest::collection::vec(proptest::option::of(day()), 0..25), today in proptest::option::of(day())) {
        let planned = dates(start, &steps, &[], today);
        prop_assert_eq!(planned.len(), steps.len());
        for pair in planned.windows(2) {
            prop_assert!(pair[0].last <= pair[1].first);
        }
        for (dated, planned) in dates(start, &steps, &ticks, today).iter().zip(&planned) {
            prop_assert!(dated.first <= dated.last);
            prop_assert_eq!(dated.planned, planned.last);
        }
    }

    /// Another start day moves every day alike.
    #[test]
    fn another_start_moves_all(by in 0_i64..=1000, steps in proptest::collection::vec(leg(), 1..20)) {
        let start = Day::new(2030, 1, 1).expect("a day");
        let one = dates(start, &steps, &[], None);
        let other = dates(start.plus(by), &steps, &[], None);
        for (one, other) in one.iter().zip(&other) {
            prop_assert_eq!((other.first.since(one.first), other.last.since(one.last)), (by, by));
        }
    }

    #[test]
    fn no_text_is_lost(title in "\\PC{0,120}", text in "[\\PC\n]{0,300}") {
        let start = Day::new(2030, 1, 1).expect("a day");
        let entry = CalendarEvent { uid: "1".to_owned(), first: start, last: start, title: title.clone(), text: text.clone() };
        let written = write(&[entry], "20261125T090000Z");
        prop_assert!(written.split("\r\n").all(|line| line.len() <= 75));
        prop_assert_eq!(values(&written, "SUMMARY"), [title]);
        prop_assert_eq!(values(&written, "DESCRIPTION"), [text]);
    }
}
