//! What winding takes, what a weighed bobbin means, and what thread is left, in words.

use super::carrier;
use crate::base::units::Length;
use crate::base::units::show::{self, Units};
use crate::plan::left_over::{LEAST_LEFT, LeftThread};
use crate::plan::weighed_bobbin::{WeighedBobbin, WeighedVerdict};
use crate::plan::winder::WindingWork;

/// More different lengths than this are given as from the shortest to the longest.
const MOST_KINDS: usize = 3;

/// What it takes to wind a bobbin: `about 6 min · 820 turns`.
pub fn winding_work(work: &WindingWork) -> String {
    format!("about {}", figures(work.minutes, work.turns, " · "))
}

/// The bobbin that was timed: `37.5 m took 6 min and 820 turns.`
pub fn timed(
    thread: Length,
    minutes: Option<f64>,
    turns: Option<f64>,
    units: Units,
) -> Option<String> {
    minutes.or(turns)?;
    let thread = units.show_yarn(thread, 1);
    Some(format!(
        "{thread} took {}.",
        figures(minutes, turns, " and ")
    ))
}

fn figures(minutes: Option<f64>, turns: Option<f64>, between: &str) -> String {
    let turns = turns.map(|turns| match turns.round() {
        1.0 => "1 turn".to_owned(),
        turns => format!("{turns} turns"),
    });
    let all: Vec<String> = minutes
        .map(show::minutes)
        .into_iter()
        .chain(turns)
        .collect();
    all.join(between)
}

/// What is still to wind: `About 45 min to wind the rest.`
pub fn minutes_left(minutes: f64) -> String {
    format!("About {} to wind the rest.", show::minutes(minutes))
}

/// A weighed bobbin compared with the plan; `runs_out` is where it is empty, if it is too short.
pub fn weighed(weighed: &WeighedBobbin, runs_out: Option<Length>, units: Units) -> String {
    let meaning = match weighed.verdict {
        WeighedVerdict::AsPlanned => "as planned.".to_owned(),
        WeighedVerdict::More => {
            "more thread than needed, or the yarn is heavier than its label.".to_owned()
        }
        WeighedVerdict::TooShort(short) => {
            let short = format!("too short by {}.", units.show_yarn(short, 1));
            match runs_out {
                Some(at) => format!("{short} It runs out at {}.", units.show_position(at)),
                None => short,
            }
        }
    };
    format!(
        "By weight {}, {}: {meaning}",
        units.show_yarn(weighed.by_weight, 1),
        show::deviation(weighed.over)
    )
}

/// The thread left after a line: `Thread left: about 1.2 m on each of 8 bobbins, 12.0 m on clockwise 3.` `None` where none is left.
pub fn thread_left(left: &[LeftThread], units: Units) -> Option<String> {
    let mut kinds: Vec<(String, Vec<&LeftThread>)> = Vec::new();
    for one in left.iter().filter(|one| one.left >= LEAST_LEFT) {
        let length = units.show_yarn(one.left, 1);
        match kinds.iter_mut().find(|(other, _)| *other == length) {
            Some((_, of_it)) => of_it.push(one),
            None => kinds.push((length, vec![one])),
        }
    }
    let of_kind = |(length, of_it): &(String, Vec<&LeftThread>)| match of_it[..] {
        [one] => format!("{length} on {}", carrier(one.carrier)),
        _ => format!("{length} on each of {} bobbins", of_it.len()),
    };
    kinds.sort_by_key(|(_, of_it)| core::cmp::Reverse(of_it.len()));
    let words = match kinds.len() {
        0 => return None,
        1..=MOST_KINDS => kinds.iter().map(of_kind).collect::<Vec<_>>().join(", "),
        _ => {
            let lengths = || kinds.iter().flat_map(|(_, of_it)| of_it).map(|it| it.left);
            let longest = lengths().fold(Length::ZERO, Length::max);
            let shortest = lengths().fold(longest, Length::min);
            let [from, to] = [shortest, longest].map(|length| units.show_yarn(length, 1));
            format!("{from} to {to} on {}", bobbin_count(lengths().count()))
        }
    };
    Some(format!("Thread left: about {words}."))
}

/// Thread that waits for this line: `Thread is left from the line before: 8 bobbins.`
pub fn left_from_before(count: usize) -> String {
    format!(
        "Thread is left from the line before: {}.",
        bobbin_count(count)
    )
}

/// A number of bobbins: `8 bobbins`.
pub fn bobbin_count(count: usize) -> String {
    match count {
        1 => "1 bobbin".to_owned(),
        count => format!("{count} bobbins"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::braid::track::{Carrier, Direction};

    fn left(number: u32, metres: f64) -> LeftThread {
        let left = Length::from_metres(metres);
        LeftThread {
            carrier: Carrier {
                direction: Direction::Clockwise,
                number,
            },
            ends: 14,
            wound: left,
            used: Length::ZERO,
            left,
        }
    }

    #[test]
    fn bobbins_with_as_much_left_are_named_together() {
        let of = |all: &[f64]| {
            let all: Vec<LeftThread> = (0..).zip(all).map(|(at, &it)| left(at, it)).collect();
            thread_left(&all, Units::Metric).map(|said| said.replace('\u{202f}', " "))
        };
        assert_eq!(of(&[]), None);
        assert_eq!(of(&[0.0, 0.04]), None, "waste");
        assert_eq!(
            of(&[1.2, 1.21, 12.0, 1.18]).as_deref(),
            Some("Thread left: about 1.2 m on each of 3 bobbins, 12.0 m on clockwise 3.")
        );
        assert_eq!(
            of(&[1.0, 1.4, 0.6, 2.4, 1.4]).as_deref(),
            Some("Thread left: about 0.6 m to 2.4 m on 5 bobbins.")
        );
    }

    #[test]
    fn what_winding_takes_names_only_what_is_known() {
        let of = |minutes, turns| winding_work(&WindingWork { minutes, turns });
        assert_eq!(of(Some(6.0), Some(820.3)), "about 6\u{202f}min · 820 turns");
        assert_eq!(of(None, Some(820.3)), "about 820 turns");
        assert_eq!(of(Some(6.0), None), "about 6\u{202f}min");
        assert_eq!(timed(Length::ZERO, None, None, Units::Metric), None);
    }

    #[test]
    fn a_weighed_bobbin_says_what_to_think_of_it() {
        let of = |over: f64, verdict| {
            let by_weight = Length::from_metres(37.5 * (1.0 + over));
            let it = WeighedBobbin {
                by_weight,
                over,
                verdict,
            };
            weighed(&it, Some(Length::from_metres(23.4)), Units::Metric).replace('\u{202f}', " ")
        };
        let as_planned = of(0.004, WeighedVerdict::AsPlanned);
        assert_eq!(as_planned, "By weight 37.6 m, +0.4 %: as planned.");
        let short = of(-0.032, WeighedVerdict::TooShort(Length::from_metres(1.2)));
        assert_eq!(
            short,
            "By weight 36.3 m, \u{2212}3.2 %: too short by 1.2 m. It runs out at 23.400 m."
        );
        assert!(of(0.07, WeighedVerdict::More).contains("heavier than its label"));
    }
}
