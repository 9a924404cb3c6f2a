//! The class of a line in words.

use core::cmp::Ordering;

use crate::base::units::show::{Units, grains};
use crate::braid::weight::two_handed::TwoHanded;
use crate::braid::weight::{CLASSES, Class, Verdict};
use crate::plan::Plan;
use crate::plan::prediction::Prediction;

/// The verdict in a few words, to stand large.
pub fn verdict_title(verdict: &Verdict) -> String {
    match verdict {
        Verdict::Within(class) => format!("Class {}", class.number),
        Verdict::Between(below, above) => format!("Between {} and {}", below.number, above.number),
        Verdict::UnderFirst(_) => format!("Lighter than class {}", CLASSES[0].number),
        Verdict::OverLast(_) => {
            format!("Heavier than class {}", CLASSES[CLASSES.len() - 1].number)
        }
        Verdict::Missing(_) => "No class yet".to_owned(),
    }
}

/// The verdict where there is room for a number only: `5`, `4–5`.
pub fn verdict_short(verdict: &Verdict) -> String {
    match verdict {
        Verdict::Within(class) => class.number.to_string(),
        Verdict::Between(below, above) => format!("{}–{}", below.number, above.number),
        Verdict::UnderFirst(_) => format!("<{}", CLASSES[0].number),
        Verdict::OverLast(_) => format!(">{}", CLASSES[CLASSES.len() - 1].number),
        Verdict::Missing(_) => "–".to_owned(),
    }
}

/// From this chance on a class counts as likely. Our own choice: rather this class than any other outcome.
const LIKELY: f64 = 0.5;

/// The chance of the class shown, 0 to 1, where there is one and the spread of the weight is known.
pub fn class_chance(plan: &Plan) -> Option<f64> {
    let Verdict::Within(class) = &plan.verdict else {
        return None;
    };
    let prediction = plan.prediction.as_ref()?;
    Some(prediction.chance_of(class))
}

/// Whether the finished line will rather be of the class shown than not.
pub fn is_class_likely(plan: &Plan) -> bool {
    class_chance(plan).is_some_and(|chance| chance >= LIKELY)
}

/// What there is to say of the class in two or three words: its chance, or what is wrong.
pub fn verdict_brief(plan: &Plan) -> String {
    match &plan.verdict {
        Verdict::Within(class) => match class_chance(plan).map(|chance| 100.0 * chance) {
            Some(percent) if percent < 0.5 => "<1 % chance".to_owned(),
            Some(percent) if percent >= 99.5 => ">99 % chance".to_owned(),
            Some(percent) => format!("{percent:.0} % chance"),
            None => format!("target {}", class.target),
        },
        Verdict::Between(..) => "between classes".to_owned(),
        Verdict::UnderFirst(_) => "too light".to_owned(),
        Verdict::OverLast(_) => "too heavy".to_owned(),
        Verdict::Missing(_) => "line too short".to_owned(),
    }
}

/// The verdict where nothing else stands beside it: beyond the table with the weight.
pub fn verdict_words(verdict: &Verdict) -> String {
    let title = verdict_title(verdict);
    match verdict {
        Verdict::UnderFirst(head) | Verdict::OverLast(head) => {
            format!("{title}, {}", grains(*head))
        }
        _ => title,
    }
}

/// The detail of the verdict: how far inside the band, or how far from the next.
pub fn verdict_detail(plan: &Plan, units: Units) -> String {
    let head = plan.head_mass.unwrap_or_default();
    let weight = grains(head);
    let grains = head.grains();
    match &plan.verdict {
        Verdict::Within(class) => within(grains, class),
        Verdict::Between(below, above) => format!(
            "{:.1} grains too heavy for class {}, {:.1} too light for class {}. There is a gap between the two classes.",
            grains - below.high,
            below.number,
            above.low - grains,
            above.number
        ),
        Verdict::UnderFirst(_) => {
            let Class { number, low, .. } = CLASSES[0];
            let short = low - grains;
            format!(
                "{weight}: {short:.1} grains too light for class {number}, which starts at {low}."
            )
        }
        Verdict::OverLast(_) => {
            let Class { number, high, .. } = CLASSES[CLASSES.len() - 1];
            let over = grains - high;
            format!(
                "{weight}: {over:.1} grains too heavy for class {number}, which ends at {high}."
            )
        }
        Verdict::Missing(length) => format!(
            "The line is {} too short to weigh the first 30 ft after the level tip.",
            units.show_position(*length)
        ),
    }
}

fn within(grains: f64, class: &Class) -> String {
    let Class {
        number,
        low,
        target,
        high,
    } = class;
    let off = grains - target;
    let side = if off < 0.0 { "below" } else { "above" };
    let off = off.abs();
    format!(
        "{off:.1} gr {side} the target of {target} gr. Class {number} allows {low} to {high} gr."
    )
}

/// The nearest class of a line for two hands: `8`; beyond the targets `lighter than class 6`.
pub fn two_handed_words(weighed: &TwoHanded) -> String {
    match weighed.beyond() {
        None => weighed.class.to_string(),
        Some(Ordering::Less) => format!("lighter than class {}", weighed.class),
        Some(_) => format!("heavier than class {}", weighed.class),
    }
}

/// How far the head may be off, and how likely its class is; `None` where the line is too short.
pub fn prediction_detail(plan: &Plan) -> Option<String> {
    plan.prediction.as_ref().map(Prediction::words)
}

/// What the range of the yarn's label makes of the class; `None` where the label is one number or the line too short.
pub fn range_detail(plan: &Plan) -> Option<String> {
    let range = plan.head_range.filter(|range| range.low < range.high)?;
    let (low, high) = (range.low.grains(), range.high.grains());
    let (fine, heavy) = (&range.verdicts.0, &range.verdicts.1);
    let [fine, heavy] = [fine, heavy].map(|verdict| verdict_title(verdict).to_lowercase());
    let classes = if fine == heavy {
        format!("{fine} over the whole range")
    } else {
        format!("{fine} with the finest, {heavy} with the heaviest")
    };
    Some(format!(
        "Yarn within the range of its label gives {low:.1} to {high:.1} grains: {classes}."
    ))
}
