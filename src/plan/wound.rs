//! Bobbins ticked as wound, and what of that still counts for the plan as it is now.
//!
//! A tick names the carrier, the ends of its thread and how much was wound. It counts as long as the bobbin needs no more than
//! that. What is only drawn otherwise and needs less stays wound: thread left over does no harm. Where the thread on a bobbin was
//! weighed, the weight says how much was wound.

use crate::base::units::{Length, Mass};
use crate::braid::track::{Carrier, MOST_CARRIERS};
use crate::plan::bobbins::Bobbin;
use crate::plan::weighed_bobbin::{WeighedBobbin, WeighedVerdict};

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
    /// The thread on it, weighed, without the bobbin, in milligrams.
    pub weighed_mg: Option<u32>,
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

    /// The tick of a bobbin.
    pub fn tick_of(&self, bobbin: &Bobbin) -> Option<&WoundBobbin> {
        self.0
            .iter()
            .find(|tick| (tick.carrier, tick.ends) == (bobbin.carrier, bobbin.ends))
    }

    /// The thread on a bobbin: by its weight where it was weighed.
    pub fn thread_on(&self, bobbin: &Bobbin) -> Option<Length> {
        let tick = self.tick_of(bobbin)?;
        let by_weight = tick.mass().and_then(|mass| bobbin.length_of(mass));
        Some(by_weight.unwrap_or_else(|| tick.length()))
    }

    /// The weight of a bobbin compared with the plan; `None` where it was not weighed.
    pub fn weighed(&self, bobbin: &Bobbin) -> Option<WeighedBobbin> {
        WeighedBobbin::of(bobbin, self.tick_of(bobbin)?.mass()?)
    }

    /// What there is to do about a bobbin, of all that are needed.
    pub fn state(&self, bobbin: &Bobbin, needed: &[Bobbin]) -> WoundState {
        let of_carrier = || self.0.iter().filter(|tick| tick.carrier == bobbin.carrier);
        if let Some(weighed) = self.weighed(bobbin) {
            return match weighed.verdict {
                WeighedVerdict::TooShort(more) => WoundState::More(more),
                WeighedVerdict::AsPlanned | WeighedVerdict::More => WoundState::Wound,
            };
        }
        if let Some(tick) = self.tick_of(bobbin) {
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
        self.take_off(bobbin, needed);
        if was != WoundState::Wound {
            self.put(WoundBobbin::holding(bobbin, bobbin.length));
        }
    }

    /// Notes what the thread on a bobbin weighs, in milligrams. With `None` it counts as not weighed, and as wound as it was ticked.
    pub fn weigh(&mut self, bobbin: &Bobbin, needed: &[Bobbin], weighed_mg: Option<u32>) {
        let mass = weighed_mg.map(milligrams);
        let by_weight = mass.and_then(|mass| bobbin.length_of(mass));
        let ticked = self.tick_of(bobbin).copied();
        let now = ticked.or_else(|| Some(WoundBobbin::holding(bobbin, by_weight?)));
        if let Some(now) = now {
            self.take_off(bobbin, needed);
            self.put(WoundBobbin { weighed_mg, ..now });
        }
    }

    /// Notes that a bobbin has thread on it from before.
    pub fn put_thread(&mut self, bobbin: &Bobbin, thread: Length) {
        self.put(WoundBobbin::holding(bobbin, thread));
    }

    /// Takes the tick of a bobbin away, and with it a thread of other ends that no bobbin of its carrier needs: that comes off
    /// before it is wound again.
    fn take_off(&mut self, bobbin: &Bobbin, needed: &[Bobbin]) {
        let is_needed = |ends| {
            needed
                .iter()
                .any(|other| (other.carrier, other.ends) == (bobbin.carrier, ends))
        };
        self.0.retain(|tick| {
            tick.carrier != bobbin.carrier || (tick.ends != bobbin.ends && is_needed(tick.ends))
        });
    }

    fn put(&mut self, tick: WoundBobbin) {
        self.0
            .retain(|other| (other.carrier, other.ends) != (tick.carrier, tick.ends));
        self.0.push(tick);
    }
}

impl WoundBobbin {
    /// The tick of a bobbin with so much thread on it.
    fn holding(bobbin: &Bobbin, thread: Length) -> Self {
        Self {
            carrier: bobbin.carrier,
            ends: bobbin.ends,
            decimetres: decimetres(thread),
            weighed_mg: None,
        }
    }

    /// The thread wound on.
    pub fn length(&self) -> Length {
        Length::from_metres(f64::from(self.decimetres) / 10.0)
    }

    /// What it weighs, where it was weighed.
    pub fn mass(&self) -> Option<Mass> {
        self.weighed_mg.map(milligrams)
    }
}

/// A weight of thread in milligrams, the step in which it is noted. `None` unless it is above zero and at most 10 kg: no bobbin holds
/// more. Our own limit.
// The cast is within the limits just checked.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
pub fn weight_in_milligrams(mass: Mass) -> Option<u32> {
    let mg = (mass.grams() * 1e3).round();
    (1.0..=1e7).contains(&mg).then_some(mg as u32)
}

fn milligrams(mg: u32) -> Mass {
    Mass::from_grams(f64::from(mg) / 1e3)
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
            allowance: Length::from_metres(0.5),
            // 28 tex.
            mass: Mass::from_grams(0.028 * metres),
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

    #[test]
    fn a_weighed_bobbin_is_wound_by_its_weight() {
        let now = [bobbin(0, 14, 37.5)];
        let mut wound = Wound::default();
        // 37.5 m of 28 tex are 1050 mg.
        wound.weigh(&now[0], &now, Some(1050));
        assert_eq!(wound.state(&now[0], &now), WoundState::Wound);
        wound.weigh(&now[0], &now, Some(1400));
        assert_eq!(wound.state(&now[0], &now), WoundState::Wound, "50 m");
        assert_eq!(
            wound.thread_on(&now[0]).map(|it| it.metres().round()),
            Some(50.0)
        );
        wound.weigh(&now[0], &now, Some(980));
        let WoundState::More(more) = wound.state(&now[0], &now) else {
            panic!("35 m are too few");
        };
        assert!((more.metres() - 2.5).abs() < 1e-9);
        // Wound on, it is ticked as any other.
        wound.toggle(&now[0], &now);
        assert_eq!(wound.state(&now[0], &now), WoundState::Wound);
        assert_eq!(wound.weighed(&now[0]), None);
    }

    #[test]
    fn a_weight_taken_away_leaves_the_tick_as_it_was() {
        let now = [bobbin(0, 14, 37.5)];
        let mut wound = wound(&now);
        wound.weigh(&now[0], &now, Some(500));
        assert_ne!(wound.state(&now[0], &now), WoundState::Wound);
        wound.weigh(&now[0], &now, None);
        assert_eq!(wound.state(&now[0], &now), WoundState::Wound);
        let mut nothing = Wound::default();
        nothing.weigh(&now[0], &now, None);
        assert!(nothing.is_empty());
    }
}
