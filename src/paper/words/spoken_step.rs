//! A step at the machine as it is said aloud: short sentences, numbers in words.

use crate::base::choice::Choice as _;
use crate::base::units::Length;
use crate::base::units::show::{Units, in_feet};
use crate::base::units::text::said;
use crate::braid::takeoff::Wheels;
use crate::braid::track::Carrier;
use crate::plan::{Action, Event};

/// Eighths of an inch as they are said.
const EIGHTHS: [&str; 8] = [
    "",
    "one eighth",
    "one quarter",
    "three eighths",
    "one half",
    "five eighths",
    "three quarters",
    "seven eighths",
];

/// All that is done at one place, and where: `Stop at nought point nine six six metres. Let the machine come to rest. Add counter-clockwise two.
/// Change gear twenty for twenty-two.` `mark` is how far from where the threads meet the maker measures. Nothing where there is no step.
pub fn spoken_step(step: &[Event], mark: Length, units: Units) -> String {
    let Some(first) = step.first() else {
        return "All steps are done.".to_owned();
    };
    let mut sentences = Vec::new();
    if let Action::Start(set) = &first.action {
        let count = u32::try_from(set.len()).unwrap_or(u32::MAX);
        sentences.push("Let the machine come to rest.".to_owned());
        sentences.push(format!("Thread {} carriers.", said(f64::from(count), 0)));
        sentences.push(format!("Fit gear {}.", wheels(first.wheels)));
        sentences.push("Braid the lead-in, then mark the tip.".to_owned());
    } else {
        sentences.push(place(first.at, mark, units));
        // Before anybody reaches in.
        sentences.push("Let the machine come to rest.".to_owned());
        sentences.extend(step.iter().map(operation));
    }
    sentences.join(" ")
}

/// Where to stop.
fn place(at: Length, mark: Length, units: Units) -> String {
    if mark == Length::ZERO {
        return format!("Stop at {}.", length(at, units));
    }
    let passed = at - mark;
    let long = length(passed.abs(), units);
    if passed > Length::ZERO {
        format!("Stop when {long} have passed your mark.")
    } else {
        format!("Stop when the tip is {long} short of your mark.")
    }
}

fn length(length: Length, units: Units) -> String {
    match units {
        Units::Metric => format!("{} metres", said(length.metres(), 3)),
        Units::Imperial => {
            let (feet, inches, eighths) = in_feet(length);
            let part = EIGHTHS.iter().zip(0_u32..);
            let part = part.clone().find(|(_, count)| f64::from(*count) == eighths);
            let inches = match part {
                Some((part, 1..)) if inches > 0.0 => {
                    format!("{} and {part} inches", said(inches, 0))
                }
                Some((part, 1..)) => format!("{part} of an inch"),
                _ => format!("{} inches", said(inches, 0)),
            };
            format!("{} feet {inches}", said(feet, 0))
        }
    }
}

/// A carrier as it is said aloud: `counter-clockwise two`.
fn carrier_said(carrier: Carrier) -> String {
    let way = carrier.direction.name().replace('\u{2011}', "-");
    format!("{way} {}", said(f64::from(carrier.number + 1), 0))
}

fn operation(event: &Event) -> String {
    match &event.action {
        Action::Start(_) => String::new(),
        Action::Add { carrier, .. } => format!("Add {}.", carrier_said(*carrier)),
        Action::Drop { carrier, .. } => format!("Drop {}.", carrier_said(*carrier)),
        Action::Swap { carrier, from, to } => format!(
            "On {}, change the thread of {} ends for one of {}.",
            carrier_said(*carrier),
            said(f64::from(*from), 0),
            said(f64::from(*to), 0)
        ),
        Action::Gear { from, to } => {
            format!("Change gear {} for {}.", wheels(*from), wheels(*to))
        }
        Action::End(_) => "The line is long enough. Cut it after this place.".to_owned(),
    }
}

/// What is fitted; of a pair both gears.
fn wheels(wheels: Wheels) -> String {
    let teeth = |teeth: u32| said(f64::from(teeth), 0);
    if wheels.train.is_pair() {
        format!("{} on {}", teeth(wheels.driver), teeth(wheels.driven))
    } else {
        teeth(wheels.teeth())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::demo::demo;
    use crate::plan::Plan;

    /// Every word is one that is said: no digit, no sign.
    fn is_said(words: &str) -> bool {
        let fits = |c: char| c.is_ascii_alphabetic() || " .,-".contains(c);
        words.chars().all(fits)
    }

    #[test]
    fn every_step_of_the_example_is_said_in_words() {
        let plan = Plan::of(&demo());
        for units in [Units::Metric, Units::Imperial] {
            for mark in [Length::ZERO, Length::from_metres(0.4)] {
                for step in plan.stops() {
                    let words = spoken_step(step, mark, units);
                    assert!(is_said(&words), "{words}");
                }
            }
        }
        assert_eq!(
            spoken_step(&[], Length::ZERO, Units::Metric),
            "All steps are done."
        );
    }

    #[test]
    fn a_stop_with_a_thread_and_a_gear_is_said_in_short_sentences() {
        let plan = Plan::of(&demo());
        let step: Vec<Event> = plan.events[1..]
            .iter()
            .map(|event| Event {
                at: Length::from_metres(0.966),
                ..event.clone()
            })
            .collect();
        let thread = step.iter().find(|event| event.action.is_of_threads());
        let gear = step
            .iter()
            .find(|event| matches!(event.action, Action::Gear { .. }));
        let both = [
            thread.expect("a thread is added").clone(),
            gear.expect("a gear is changed").clone(),
        ];
        let words = spoken_step(&both, Length::ZERO, Units::Metric);
        assert!(
            words.starts_with(
                "Stop at nought point nine six six metres. Let the machine come to rest. Add "
            ),
            "{words}"
        );
        assert!(words.contains(". Change gear "), "{words}");
        assert_eq!(words.matches('.').count(), 4, "{words}");
        let words = spoken_step(&both, Length::ZERO, Units::Imperial);
        // 0.966 m are 3.1693 ft: 3 ft and 2.03 in.
        assert!(
            words.starts_with("Stop at three feet two inches."),
            "{words}"
        );
    }
}
