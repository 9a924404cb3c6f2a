//! How to look after a finished line: a short note for the person who fishes it.
//!
//! All of it is common practice, no source; the page says so.

use crate::braid::recipe::StepKind;
use crate::design::Design;
use crate::edit::ends_are_alike;
use crate::plan::Plan;

/// The sentences on caring for a line, in the order in which they are needed: only what fits its drawing and its dressing. `plan` is
/// the plan of `design`.
pub fn care(design: &Design, plan: &Plan) -> Vec<&'static str> {
    let steps = &design.draft().recipe;
    let has = |is_it: fn(StepKind) -> bool| steps.iter().any(|step| is_it(step.kind));
    let is_greased = has(|kind| kind == StepKind::Grease);
    let is_oiled = has(StepKind::is_oil);
    let can_be_turned = plan.rear_head.is_some() && ends_are_alike(design);
    let sentences = [
        (
            true,
            "After fishing, pull the line off the reel and let it dry in air.",
        ),
        (true, "Wipe off dirt with a damp cloth."),
        (
            is_greased,
            "When it floats low, rub in a little line grease and wipe it off again.",
        ),
        (
            can_be_turned,
            "Both ends are alike: when one end is worn, turn the line end for end.",
        ),
        (
            true,
            "Keep it away from solvents, insect repellent and the heat of a parked car.",
        ),
        (
            true,
            "In winter, store it off the reel, in loose coils, dry and dark.",
        ),
        (
            is_oiled,
            "If it turns sticky, hang it in air until dry, then dust it with talc. Do not breathe the dust.",
        ),
    ];
    let fits = sentences.into_iter().filter(|(fits, _)| *fits);
    fits.map(|(_, sentence)| sentence).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::choice::Choice as _;
    use crate::braid::recipe::{DraftStep, ReadyRecipe};
    use crate::design::demo::demo;
    use crate::design::{Draft, DraftPoint};

    fn said(draft: Draft) -> String {
        let design = Design::parse(draft).expect("it is a design");
        care(&design, &Plan::of(&design)).join(" ")
    }

    fn drawn(points: &[(f64, f64)]) -> Draft {
        let point = |&(at_m, diameter_mm): &(f64, f64)| DraftPoint { at_m, diameter_mm };
        Draft {
            points: points.iter().map(point).collect(),
            pins: Vec::new(),
            ..demo().draft().clone()
        }
    }

    const DOUBLE_TAPER: [(f64, f64); 4] = [(0.0, 0.76), (2.5, 1.08), (22.5, 1.08), (25.0, 0.76)];

    #[test]
    fn a_double_taper_is_turned_and_a_weight_forward_line_is_not() {
        assert!(said(drawn(&DOUBLE_TAPER)).contains("end for end"));
        let weight_forward = [
            (0.0, 0.76),
            (2.5, 1.08),
            (10.0, 1.08),
            (12.0, 0.76),
            (25.0, 0.76),
        ];
        assert!(!said(drawn(&weight_forward)).contains("end for end"));
        // A long rear taper ends in a tip too, but not in the same one.
        let unlike = [(0.0, 0.76), (2.5, 1.08), (17.5, 1.08), (25.0, 0.76)];
        assert!(!said(drawn(&unlike)).contains("end for end"));
    }

    #[test]
    fn grease_and_stickiness_are_named_only_where_the_dressing_has_them() {
        let with = |recipe| {
            said(Draft {
                recipe,
                ..drawn(&DOUBLE_TAPER)
            })
        };
        let bare = with(Vec::new());
        assert!(
            !bare.contains("grease") && !bare.contains("sticky"),
            "{bare}"
        );
        let greased = with(vec![DraftStep::usual(StepKind::Grease)]);
        assert!(greased.contains("grease") && !greased.contains("sticky"));
        let oiled = with(vec![
            DraftStep::usual(StepKind::Oil),
            DraftStep::usual(StepKind::Air),
        ]);
        assert!(!oiled.contains("grease") && oiled.contains("sticky"));
    }

    #[test]
    fn the_note_is_short_whatever_the_line() {
        for &recipe in ReadyRecipe::ALL {
            let recipe = recipe.steps();
            let design = Design::parse(Draft {
                recipe,
                ..drawn(&DOUBLE_TAPER)
            });
            let design = design.expect("it is a design");
            let count = care(&design, &Plan::of(&design)).len();
            assert!((4..=7).contains(&count), "{count} sentences");
        }
    }
}
