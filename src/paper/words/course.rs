//! Where the dressing of a line stands today, in words.

use crate::base::choice::Choice as _;
use crate::braid::recipe::StepKind;
use crate::plan::days::Day;
use crate::plan::days::dates::{DatedStep, StepStatus};

/// Where the work stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Course {
    /// The step now at hand: `Drying, day 3 of 7`.
    pub heading: String,
    /// What follows: `Ready to varnish on 27 December. Finished on 30 December.`
    pub ahead: String,
}

/// Where the steps of these kinds stand on a day; `None` without any.
pub fn course(steps: &[(StepKind, DatedStep)], today: Option<Day>) -> Option<Course> {
    let end = steps.iter().map(|(_, dated)| dated.last).max()?;
    let is_open = |step: &&(StepKind, DatedStep)| !is_done(&step.1);
    let Some(&(kind, dated)) = steps.iter().find(is_open) else {
        return Some(Course {
            heading: "Finished".to_owned(),
            ahead: format!("The last step was done on {}.", end.long()),
        });
    };
    let open = steps.iter().position(|step| !is_done(&step.1));
    let mut ahead = steps.iter().enumerate().skip(open.unwrap_or_default() + 1);
    let coat = ahead.find(|(_, (kind, dated))| is_coat(*kind) && !is_done(dated));
    let ready = coat.map(|(index, (kind, dated))| {
        let is_oiled = steps[..index].iter().any(|(kind, _)| kind.is_oil());
        let what = match (kind.is_oil(), is_oiled) {
            (true, true) => "oil again",
            (true, false) => "oil",
            (false, _) => "varnish",
        };
        if today == Some(dated.first) {
            format!("Ready to {what} today. ")
        } else {
            format!("Ready to {what} on {}. ", dated.first.long())
        }
    });
    Some(Course {
        heading: heading(kind, &dated, today),
        ahead: format!("{}Finished on {}.", ready.unwrap_or_default(), end.long()),
    })
}

/// How long steps take that have no days yet, the last day counted: `Dressing takes 32 days.`
pub fn course_length(steps: &[DatedStep]) -> Option<String> {
    let first = steps.iter().map(|step| step.first).min()?;
    let last = steps.iter().map(|step| step.last).max()?;
    Some(match last.since(first) + 1 {
        1 => "Dressing takes one day.".to_owned(),
        days => format!("Dressing takes {days} days."),
    })
}

fn heading(kind: StepKind, dated: &DatedStep, today: Option<Day>) -> String {
    let name = kind.name();
    let days = dated.last.since(dated.first) + 1;
    let day = today.map_or(0, |today| today.since(dated.first) + 1);
    match dated.status {
        StepStatus::Overdue(1) => format!("{name}: 1 day overdue"),
        StepStatus::Overdue(by) => format!("{name}: {by} days overdue"),
        _ if day < 1 => format!("{name}: begins on {}", dated.first.long()),
        _ if days == 1 => format!("Today: {name}"),
        _ if day >= days => format!("{}, last day", doing(kind)),
        _ if days == 2 => format!("{} until {}", doing(kind), dated.last.long()),
        // Seven days end on the day after the seventh: that one is the last.
        _ => format!("{}, day {day} of {}", doing(kind), days - 1),
    }
}

const fn is_done(dated: &DatedStep) -> bool {
    matches!(dated.status, StepStatus::Done { .. })
}

const fn is_coat(kind: StepKind) -> bool {
    kind.is_oil() || kind.is_varnish()
}

/// A step while it is done.
const fn doing(kind: StepKind) -> &'static str {
    match kind {
        StepKind::Inspect => "Inspecting",
        StepKind::OilVacuum | StepKind::Oil => "Oiling",
        StepKind::Drip => "Dripping",
        StepKind::Warm | StepKind::Air => "Drying",
        StepKind::Daylight => "Curing",
        StepKind::Test => "Testing",
        StepKind::Rub => "Rubbing down",
        StepKind::VarnishVacuum | StepKind::Varnish => "Varnishing",
        StepKind::Polish => "Polishing",
        StepKind::Grease => "Greasing",
        StepKind::Weigh => "Weighing",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::days::dates::{StepTime, dates};

    const STEPS: [(StepKind, f64); 4] = [
        (StepKind::Oil, 2.0),
        (StepKind::Warm, 168.0),
        (StepKind::Varnish, 1.0),
        (StepKind::Air, 72.0),
    ];

    /// Begun on 1 December at nine: oil until eleven, warm until the eighth at eleven, varnish until twelve, air until the
    /// eleventh at twelve.
    fn on(day: u8, done: usize) -> Course {
        let start = Day::new(2026, 12, 1).expect("a day");
        let today = Day::new(2026, 12, day);
        let times = STEPS.map(|(kind, hours)| StepTime {
            hours,
            hands: kind.takes_hands(),
        });
        let planned = dates(start, &times, &[], today);
        let ticks: Vec<_> = planned.iter().take(done).map(|it| Some(it.last)).collect();
        let dated = dates(start, &times, &ticks, today);
        let kinds = STEPS.map(|(kind, _)| kind);
        let steps: Vec<_> = kinds.into_iter().zip(dated).collect();
        course(&steps, today).expect("there are steps")
    }

    #[test]
    fn a_long_step_says_its_day_and_what_it_waits_for() {
        let course = on(3, 1);
        assert_eq!(course.heading, "Drying, day 3 of 7");
        assert_eq!(
            course.ahead,
            "Ready to varnish on 8 December. Finished on 11 December."
        );
    }

    #[test]
    fn a_long_step_ends_with_its_last_day() {
        assert_eq!(on(7, 1).heading, "Drying, day 7 of 7");
        assert_eq!(on(8, 1).heading, "Drying, last day");
    }

    #[test]
    fn a_step_of_today_one_to_come_and_one_overdue_are_told_apart() {
        assert_eq!(on(8, 2).heading, "Today: Varnish, wiped on");
        assert_eq!(on(7, 2).heading, "Varnish, wiped on: begins on 8 December");
        assert_eq!(on(9, 2).heading, "Varnish, wiped on: 1 day overdue");
        assert_eq!(on(9, 2).ahead, "Finished on 11 December.");
    }

    #[test]
    fn the_first_coat_is_not_one_more() {
        let day = Day::new(2026, 12, 1).expect("a day");
        let kinds = [
            StepKind::Inspect,
            StepKind::Oil,
            StepKind::Drip,
            StepKind::Oil,
        ];
        let times = kinds.map(|kind| StepTime {
            hours: 1.0,
            hands: kind.takes_hands(),
        });
        let said = |done: usize| {
            let dated = dates(day, &times, &vec![Some(day); done], Some(day));
            let steps: Vec<_> = kinds.into_iter().zip(dated).collect();
            course(&steps, Some(day)).expect("there are steps").ahead
        };
        let (first, second) = (said(0), said(1));
        assert!(first.starts_with("Ready to oil today."), "{first}");
        assert!(second.starts_with("Ready to oil again today."), "{second}");
    }

    #[test]
    fn when_all_is_done_it_is_finished() {
        let course = on(20, 4);
        assert_eq!(course.heading, "Finished");
        assert!(course.ahead.contains("11 December"), "{}", course.ahead);
    }
}
