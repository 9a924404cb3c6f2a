//! What is said where a count, a length and the clock do not agree. The causes are common practice, no source.

use crate::plan::run::{CountCause, CountDifference};

/// So many circuits are something else than the clock expected.
pub(super) fn by_clock(reading: f64, expected: f64) -> String {
    let share = 100.0 * (reading / expected - 1.0);
    let (much, why) = if share < 0.0 {
        ("less", "Perhaps the machine stood, or ran slower.")
    } else {
        (
            "more",
            "Perhaps the machine ran faster, or longer than marked.",
        )
    };
    format!(
        "{reading:.0} circuits are {:.0} % {much} than the clock expected. {why} The clock now follows what you typed.",
        share.abs()
    )
}

/// A length makes other circuits than were counted for it.
pub(super) fn by_length(difference: &CountDifference, counted: f64, by_plan: f64) -> String {
    let cause = match difference.cause {
        CountCause::OtherGear(wheels) => format!(
            "The gear {wheels} would draw as much. Stop the machine, then check which gear is fitted."
        ),
        CountCause::Slip => {
            "Perhaps the line slips on the take-off. Stop the machine, then check that and the braid angle."
                .to_owned()
        }
        CountCause::Uncounted => "Perhaps circuits were not counted.".to_owned(),
    };
    format!(
        "By the plan that length takes {by_plan:.0} circuits; you counted {counted:.0}. {cause} Which is right?"
    )
}
