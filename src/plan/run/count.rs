//! Counting in: what a counter of circuits and a length say of the way to the next stop, and of each other.

use super::Run;
use crate::base::units::Length;
use crate::braid::takeoff::{TakeOff, Wheels};
use crate::plan::AdjustedPlan;

/// Count and length that differ by no more than this share agree. From the maker's side: a rule and a glance at a counter are as good.
pub const AGREE: f64 = 0.02;
/// A gear explains a difference where it comes as near as this share. Our own choice: neighbours of 20 teeth are 5 % apart.
const EXPLAINS: f64 = 0.01;

/// A length and a count of circuits that do not go together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CountDifference {
    /// Length really drawn in one circuit, over what the gears fitted should draw.
    pub drawn: f64,
    /// The likely cause. Common practice, no source.
    pub cause: CountCause,
}

/// Why a length and a count do not go together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CountCause {
    /// These wheels would draw as much as was drawn: they are fitted in the place of those planned.
    OtherGear(Wheels),
    /// Less was drawn: the line slips on the take-off.
    Slip,
    /// More was drawn: circuits were not counted.
    Uncounted,
}

impl Run {
    /// Circuits from where the machine is known to be to a length after it, with the threads and wheels that are on now.
    pub fn circuits_for(&self, adjusted: &AdjustedPlan, length: Length) -> f64 {
        let from = self.stands_at(adjusted);
        let stop = self
            .next(adjusted)
            .map_or(adjusted.line.length(), |next| next.at);
        let to = from + length.max(Length::ZERO);
        let within = to.min(stop).max(from);
        let way = if from < within {
            adjusted.line.circuits(from, within)
        } else {
            0.0
        };
        // Past the stop nothing has been changed yet.
        way + (to - within) / adjusted.line.station_before(stop).piece.lay
    }

    /// Length from where the machine is known to be that so many circuits make; no farther than the next stop.
    pub fn length_of(&self, adjusted: &AdjustedPlan, circuits: f64) -> Length {
        let from = self.stands_at(adjusted);
        let stop = self
            .next(adjusted)
            .map_or(adjusted.line.length(), |next| next.at);
        let whole = self.circuits_for(adjusted, stop - from);
        if whole > 0.0 {
            (stop - from) * (circuits / whole).clamp(0.0, 1.0)
        } else {
            Length::ZERO
        }
    }

    /// What is to be said where so many circuits made a length; nothing where they agree, or say too little.
    pub fn count_difference(
        &self,
        adjusted: &AdjustedPlan,
        take_off: &TakeOff,
        circuits: f64,
        length: Length,
    ) -> Option<CountDifference> {
        let drawn = self.circuits_for(adjusted, length) / circuits;
        if !(drawn.is_finite() && drawn > 0.0) || (drawn - 1.0).abs() <= AGREE {
            return None;
        }
        let stop = self
            .next(adjusted)
            .map_or(adjusted.line.length(), |next| next.at);
        let fitted = adjusted.line.station_before(stop).piece.wheels;
        let off = |wheels: &Wheels| (wheels.ratio() / fitted.ratio() / drawn - 1.0).abs();
        let choices = take_off.choices().into_iter();
        let nearest = choices
            .filter(|wheels| *wheels != fitted && off(wheels) <= EXPLAINS)
            .min_by(|one, other| off(one).total_cmp(&off(other)));
        let cause = match nearest {
            Some(wheels) => CountCause::OtherGear(wheels),
            None if drawn < 1.0 => CountCause::Slip,
            None => CountCause::Uncounted,
        };
        Some(CountDifference { drawn, cause })
    }
}
