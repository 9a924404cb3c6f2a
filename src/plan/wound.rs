//! Bobbins ticked as wound, and what of that still counts for the plan as it is now.
//!
//! A tick names the carrier, the ends of its thread and how much was wound. It counts as long as the bobbin needs no more than
//! that. What is only drawn otherwise and needs less stays wound: thread left over does no harm.

use crate::base::units::Length;
use crate::braid::track::{Carrier, MOST_CARRIERS};
use crate::plan::bobbins::Bobbin;

/// Most ticks of a line: a carrier that is swapped has two bobbins.
pub const MOST_TICKS: usize = 2 * MOST_CARRIERS as usize;

/// A bobbin that was ticked as wound.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct WoundBobbin {
    /// The carrier it sits on.
    pub carrier: Carrier,
    /// Ends plied to its thread.
    pub ends: u32,
    /// Thread wound on, in tenths of a metre: the step in which it is shown and measured.
    pub decimetres: u32,
}

/// The bobbins ticked as wound, in the order in which they were.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Wound(Vec<WoundBobbin>);

/// What there is to do about a bobbin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WoundState {
    /// It is to be wound.
    ToWind,
    /// It is wound.
    Wound,
    /// It was wound and now needs so much more thread.
    More(Length),
    /// Its carrier was wound with a thread of so many ends, which no bobbin of that carrier needs any more.
    OtherEnds(u32),
}

impl Wound {
    /// The ticks of a list: of several for one bobbin the last, and no more than [`MOST_TICKS`].
    pub fn of(ticks: impl IntoIterator<Item = WoundBobbin>) -> Self {
        let mut wound = Self::default();
        for tick in ticks.into_iter().take(MOST_TICKS) {
            wound.put(tick);
        }
        wound
    }

    /// The ticks.
    pub fn ticks(&self) -> &[WoundBobbin] {
        &self.0
    }

    /// Whether nothing is ticked.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// What there is to do about a bobbin, of all that are needed.
    pub fn state(&self, bobbin: &Bobbin, needed: &[Bobbin]) -> WoundState {
        let of_carrier = || self.0.iter().filter(|tick| tick.carrier == bobbin.carrier);
        if let Some(tick) = of_carrier().find(|tick| tick.ends == bobbin.ends) {
            let more = decimetres(bobbin.length).saturating_sub(tick.decimetres);
            return if more == 0 {
                WoundState::Wound
            } else {
                WoundState::More(Length::from_metres(f64::from(more) / 10.0))
            };
        }
        let is_needed = |tick: &&WoundBobbin| {
            needed
                .iter()
                .any(|other| (other.carrier, other.ends) == (tick.carrier, tick.ends))
        };
        of_carrier()
            .find(|tick| !is_needed(tick))
            .map_or(WoundState::ToWind, |tick| WoundState::OtherEnds(tick.ends))
    }

    /// How many of the bobbins needed are wound.
    pub fn count(&self, needed: &[Bobbin]) -> usize {
        let is_wound = |bobbin: &&Bobbin| self.state(bobbin, needed) == WoundState::Wound;
        needed.iter().filter(is_wound).count()
    }

    /// Ticks a bobbin as wound with what it needs now; where it is wound already, unticks it.
    pub fn toggle(&mut self, bobbin: &Bobbin, needed: &[Bobbin]) {
        let was = self.state(bobbin, needed);
        let is_needed = |ends| {
            needed
                .iter()
                .any(|other| (other.carrier, other.ends) == (bobbin.carrier, ends))
        };
        // A thread of other ends comes off the bobbin before it is wound again.
        self.0.retain(|tick| {
            tick.carrier != bobbin.carrier || (tick.ends != bobbin.ends && is_needed(tick.ends))
        });
        if was != WoundState::Wound {
            self.put(WoundBobbin {
                carrier: bobbin.carrier,
                ends: bobbin.ends,
                decimetres: decimetres(bobbin.length),
            });
        }
    }

    fn put(&mut self, tick: WoundBobbin) {
        self.0
            .retain(|other| (other.carrier, other.ends) != (tick.carrier, tick.ends));
        self.0.push(tick);
    }
}

/// A length in tenths of a metre, to the nearest.
// No line needs a length of thread near 2³² decimetres; the cast holds at the ends.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn decimetres(length: Length) -> u32 {
    (10.0 * length.metres()).round() as u32
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::units::Mass;
    use crate::braid::track::Direction;

    fn bobbin(number: u32, ends: u32, metres: f64) -> Bobbin {
        Bobbin {
            carrier: Carrier {
                direction: Direction::Clockwise,
                number,
            },
            ends,
            engagements: 1,
            enters: Length::ZERO,
            length: Length::from_metres(metres),
            mass: Mass::ZERO,
            runs_out: None,
        }
    }

    fn wound(bobbins: &[Bobbin]) -> Wound {
        let mut wound = Wound::default();
        for bobbin in bobbins {
            wound.toggle(bobbin, bobbins);
        }
        wound
    }

    #[test]
    fn a_tick_counts_while_no_more_is_needed() {
        let wound = wound(&[bobbin(0, 14, 37.5)]);
        for enough in [37.5, 37.54, 30.0] {
            let now = [bobbin(0, 14, enough)];
            assert_eq!(wound.state(&now[0], &now), WoundState::Wound, "{enough}");
            assert_eq!(wound.count(&now), 1);
        }
        let longer = [bobbin(0, 14, 40.0)];
        let WoundState::More(more) = wound.state(&longer[0], &longer) else {
            panic!("it needs more");
        };
        assert!((more.metres() - 2.5).abs() < 1e-9);
        assert_eq!(wound.count(&longer), 0);
    }

    #[test]
    fn a_carrier_wound_with_other_ends_is_to_be_wound_again_and_says_with_what_it_was() {
        let mut wound = wound(&[bobbin(0, 14, 37.5)]);
        let now = [bobbin(0, 18, 37.5)];
        assert_eq!(wound.state(&now[0], &now), WoundState::OtherEnds(14));
        wound.toggle(&now[0], &now);
        assert_eq!(wound.state(&now[0], &now), WoundState::Wound);
        let before = [bobbin(0, 14, 37.5)];
        assert_eq!(
            wound.state(&before[0], &before),
            WoundState::OtherEnds(18),
            "the first thread is off that bobbin"
        );
    }

    #[test]
    fn the_two_bobbins_of_a_carrier_are_ticked_by_themselves() {
        let both = [bobbin(0, 14, 20.0), bobbin(0, 18, 10.0)];
        let mut wound = Wound::default();
        wound.toggle(&both[0], &both);
        assert_eq!(wound.state(&both[0], &both), WoundState::Wound);
        assert_eq!(wound.state(&both[1], &both), WoundState::ToWind);
        wound.toggle(&both[1], &both);
        assert_eq!(wound.count(&both), 2);
        wound.toggle(&both[0], &both);
        assert_eq!(wound.state(&both[0], &both), WoundState::ToWind);
        assert_eq!(wound.state(&both[1], &both), WoundState::Wound);
    }

    #[test]
    fn another_carrier_is_not_wound_along() {
        let wound = wound(&[bobbin(0, 14, 37.5)]);
        let now = [bobbin(0, 14, 37.5), bobbin(1, 14, 37.5)];
        assert_eq!(wound.state(&now[1], &now), WoundState::ToWind);
        assert_eq!(wound.count(&now), 1);
    }
}
