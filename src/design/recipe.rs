//! What makes a list of dressing steps a valid recipe.

use super::refusal::{Place, Refusal, admit};
use crate::braid::recipe::{DraftStep, Heat, MOST_STEPS, StepValue};

/// The steps, every number on its step and within its range.
///
/// # Errors
/// [`Refusal`] naming the step: too many steps, a number out of range, a pressure above that of the air around.
pub(crate) fn admitted(steps: &[DraftStep], air_mbar: f64) -> Result<Vec<DraftStep>, Refusal> {
    if steps.len() > MOST_STEPS {
        return Err(Refusal::StepCount(steps.len()));
    }
    let admit = |(index, step): (usize, &DraftStep)| {
        let step = admitted_step(*step, Place::Step(index))?;
        if step.pressure().is_some() && step.mbar > air_mbar {
            return Err(Refusal::AboveAir {
                index,
                mbar: step.mbar,
                air_mbar,
            });
        }
        Ok(step)
    };
    steps.iter().enumerate().map(admit).collect()
}

/// The step with every number on its step and within its range; what its kind does not take is set to zero.
fn admitted_step(mut step: DraftStep, place: Place) -> Result<DraftStep, Refusal> {
    for value in StepValue::ALL {
        let is_taken = step.kind.takes().contains(&value);
        let number = if is_taken {
            admit(value.rule(), step.get(value), place)?
        } else {
            0.0
        };
        step.set(value, number);
    }
    if !step.kind.is_warm() {
        step.heat = Heat::default();
    }
    Ok(step)
}
