//! What is said of the class a line makes.

use crate::plan::Plan;
use crate::units::show::{self, Units};
use crate::weight::{CLASSES, Class, Verdict};

/// The verdict in a few words, to stand large.
pub fn verdict_title(verdict: &Verdict) -> String {
    match verdict {
        Verdict::Within(class) => format!("Class {}", class.number),
        Verdict::Between(below, above) => format!("Between {} and {}", below.number, above.number),
        Verdict::UnderFirst => format!("Under class {}", CLASSES[0].number),
        Verdict::OverLast => format!("Over class {}", CLASSES[CLASSES.len() - 1].number),
        Verdict::Missing(_) => "No class yet".to_owned(),
    }
}

/// What stands behind the verdict: how far inside the band, or how far from the next.
pub fn verdict_detail(plan: &Plan, units: Units) -> String {
    let grains = plan.head_mass.unwrap_or_default().grains();
    match &plan.verdict {
        Verdict::Within(class) => format!(
            "{} gr from the target of {} gr; {:.1} gr inside the band {} to {} gr",
            show::signed(grains - class.target, 1),
            class.target,
            (grains - class.low).min(class.high - grains),
            class.low,
            class.high
        ),
        Verdict::Between(below, above) => format!(
            "{:.1} gr too heavy for class {}, {:.1} gr too light for class {}: the bands leave a gap",
            grains - below.high,
            below.number,
            above.low - grains,
            above.number
        ),
        Verdict::UnderFirst => {
            let Class { number, low, .. } = CLASSES[0];
            let short = low - grains;
            format!("{short:.1} gr too light for class {number}, which begins at {low} gr")
        }
        Verdict::OverLast => {
            let Class { number, high, .. } = CLASSES[CLASSES.len() - 1];
            let over = grains - high;
            format!("{over:.1} gr too heavy for class {number}, which ends at {high} gr")
        }
        Verdict::Missing(length) => {
            format!(
                "{} are missing to weigh the first 30 ft behind the level tip",
                units.show_position(*length)
            )
        }
    }
}
