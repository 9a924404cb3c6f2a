//! What a workshop notes of its machine besides settings: how the carriers pull, how bobbins are marked, how fast its winder is,
//! and what thread is left on bobbins.

use serde::{Deserialize, Serialize};

use super::measured;
use crate::base::bounded::bounded_list;
use crate::base::units::Length;
use crate::braid::track::MOST_CARRIERS;
use crate::design::Design;
use crate::plan::winder::{TimedBobbin, Winder};

/// Most characters in a note of the carriers' tension.
pub const TENSION_ROOM: usize = 80;
/// Most characters in the name of a marking.
pub const MARK_ROOM: usize = 24;
/// Most characters in the key of a carrier.
pub const CARRIER_ROOM: usize = 8;
/// Most bobbins with thread left: two for each carrier.
pub const MOST_LEFT_OVER: usize = 2 * MOST_CARRIERS as usize;

/// Notes of a machine. All of them may be missing.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MachineNotes {
    /// How the carriers pull, in the maker's own words: `blue spring, third notch`.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub tension: String,
    /// What marks the bobbins that begin: `red tape`.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub first_mark: String,
    /// What marks those that enter later.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub later_mark: String,
    /// How fast the maker winds.
    #[serde(default, skip_serializing_if = "WinderTiming::is_empty")]
    pub winder: WinderTiming,
    /// Thread left on bobbins.
    #[serde(
        default,
        skip_serializing_if = "Vec::is_empty",
        deserialize_with = "bounded_list::<_, _, MOST_LEFT_OVER>"
    )]
    pub left_over: Vec<LeftOver>,
}

/// One bobbin wound and timed: what the maker's winder does.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WinderTiming {
    /// Thread wound, metres.
    #[serde(with = "measured", default)]
    pub thread_m: Option<f64>,
    /// Ends plied to that thread; the standard thread where it is not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ends: Option<u32>,
    /// Minutes it took.
    #[serde(with = "measured", default)]
    pub minutes: Option<f64>,
    /// Turns of the bobbin, or of the crank, that were counted.
    #[serde(with = "measured", default)]
    pub turns: Option<f64>,
}

/// Thread left on a bobbin after a line.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeftOver {
    /// The key of the carrier it sits on: `cw0`.
    pub carrier: String,
    /// Ends plied to its thread.
    pub ends: u32,
    /// Thread left, metres.
    #[serde(with = "measured", default)]
    pub thread_m: Option<f64>,
}

impl WinderTiming {
    /// Whether nothing was timed.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// Notes a figure of a bobbin with so much thread of so many ends. Where another bobbin was timed before, its figures are over.
    pub fn note(
        &mut self,
        (thread, ends): (Length, u32),
        is_same_bobbin: bool,
        set: impl FnOnce(&mut Self),
    ) {
        if !is_same_bobbin {
            *self = Self::default();
        }
        self.thread_m = Some(thread.metres());
        self.ends = Some(ends);
        set(self);
        if self.minutes.or(self.turns).is_none() {
            *self = Self::default();
        }
    }

    /// What it teaches of the winder, for the thread and the bobbins of a design.
    pub fn winder(&self, design: &Design) -> Option<Winder> {
        let thread = design.thread();
        let timed = TimedBobbin {
            thread: Length::from_metres(self.thread_m?),
            linear_density: thread.end * f64::from(self.ends.unwrap_or(thread.ends)),
            minutes: self.minutes,
            turns: self.turns,
        };
        Winder::of(timed, design.bobbin(), thread.fibre_density)
    }
}

impl MachineNotes {
    /// Whether nothing is noted.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// The notes as a book keeps them: numbers with twelve digits.
    #[must_use]
    pub(super) fn kept(mut self) -> Self {
        let kept = |value: &mut Option<f64>| *value = value.map(measured::kept);
        let WinderTiming {
            thread_m,
            ends: _,
            minutes,
            turns,
        } = &mut self.winder;
        [thread_m, minutes, turns].into_iter().for_each(kept);
        self.left_over
            .iter_mut()
            .for_each(|left| kept(&mut left.thread_m));
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_of_two_bobbins_are_never_mixed() {
        let [first, second] = [37.5, 20.0].map(|metres| (Length::from_metres(metres), 14));
        let mut timing = WinderTiming::default();
        timing.note(first, false, |it| it.minutes = Some(6.0));
        timing.note(first, true, |it| it.turns = Some(820.0));
        assert_eq!((timing.minutes, timing.turns), (Some(6.0), Some(820.0)));
        timing.note(second, false, |it| it.turns = Some(400.0));
        assert_eq!((timing.minutes, timing.turns), (None, Some(400.0)));
        assert_eq!(timing.thread_m, Some(20.0));
        timing.note(second, true, |it| it.turns = None);
        assert!(timing.is_empty());
    }
}
