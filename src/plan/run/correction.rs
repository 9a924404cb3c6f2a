//! What a check says of the take-off, and the gears that then suit the rest of the line.

use super::check::{CheckLevel, on_grid};
use super::check_kind::CheckKind;
use super::mishap::drawn_within;
use super::{Check, Mishap, MishapKind, NoMishap, Proposal, Regearing, Run};
use crate::base::units::Length;
use crate::design::Design;
use crate::plan::{AdjustedPlan, Plan};

/// Other gears are offered for a value that is fine where they bring the angle nearer by this on a stretch between two stops,
/// degrees. Our own choice: half of what a protractor shows.
const USEFUL: f64 = 0.5;

impl Run {
    /// The run when so much is drawn in one circuit over what the gears should, from the last stop on, and the gears of the rest are
    /// chosen again for it where the machine stands.
    ///
    /// # Errors
    /// [`NoMishap`] where the line is not begun, the machine cannot stand there, or there is no room.
    pub fn drawn_corrected(
        &self,
        adjusted: &AdjustedPlan,
        at: Length,
        drawn: f64,
    ) -> Result<Self, NoMishap> {
        let mut run = self.standing_at(adjusted, MishapKind::TakeOff, at)?;
        if let Some(correction) = run.mishaps.last_mut() {
            correction.drawn = on_grid(drawn_within(drawn));
        }
        Ok(run)
    }

    /// What the last check since the last step asks for: other gears for the rest, or only other circuits. `None` without a check
    /// of angle or crossings, and where a value is fine and no gear is worth it. `here` is where the machine is by now; `plan` is the
    /// plan of `design`.
    pub fn offered_correction(
        &self,
        adjusted: &AdjustedPlan,
        design: &Design,
        plan: &Plan,
        here: Length,
    ) -> Option<Proposal> {
        let mut checks = self.checks.iter().rev();
        let check = checks.find(|check| check.kind != CheckKind::Diameter)?;
        let is_now = check.done == self.done_of(adjusted) && check.done > 0;
        if !is_now || self.is_answered(check) {
            return None;
        }
        let at = Length::from_metres(check.at_m).max(self.stands_at(adjusted));
        let expected = self.expected(adjusted, design, at)?;
        let judged = expected.judge(check.measured()).ok()?;
        let run = self
            .drawn_corrected(adjusted, at.max(here), judged.drawn?)
            .ok()?;
        let proposal = Proposal::of_correction(run, adjusted, design, plan);
        let regearing = proposal.regearing.as_ref()?;
        let is_useful = regearing.gain.degrees() >= USEFUL;
        (is_useful || judged.level != CheckLevel::Fine).then_some(proposal)
    }

    /// Whether the gears were corrected at this place already.
    fn is_answered(&self, check: &Check) -> bool {
        let mut mishaps = self.mishaps.iter().rev();
        mishaps.any(|mishap| {
            let is_here = mishap.done == check.done && mishap.at_m >= check.at_m;
            is_here && mishap.kind == MishapKind::TakeOff
        })
    }
}

impl Proposal {
    /// What follows when the correction that a run ends with is taken. The head before is that with the gears as they were, drawing
    /// what they really do.
    fn of_correction(run: Run, now: &AdjustedPlan, design: &Design, plan: &Plan) -> Self {
        let correction = run.mishaps.last().cloned();
        let made = Self::of(run, now, design, plan);
        let Some(Mishap {
            done, at_m, drawn, ..
        }) = correction
        else {
            return made;
        };
        let after = made.run.adjusted(design, plan);
        let before = plan.drawing(design, now, done, drawn);
        let at = Length::from_metres(at_m);
        let regearing = Regearing::between(&before, &after, at, design.target_angle());
        Self {
            before: before.head_mass,
            regearing: Some(regearing),
            ..made
        }
    }
}
