//! How long the maker's own winder takes for a bobbin, and how often it turns, learnt from one bobbin that was timed or counted.
//!
//! Turns: one turn at a diameter D takes π·D of thread. A length L takes up the area A of the winding's section, so that
//! π·width·(D² − d²)/4 = A·L from the barrel d on, and the sum of all turns is ∫ dL/(π·D) = width·(D − d)/(2·A), which is
//! L/(π·(D + d)/2): the length over the girth halfway between first and last. Analytic. What the winder really counts (the
//! bobbin, a crank with a gear) differs from that by one factor, which the bobbin that was counted gives.
//!
//! Minutes are in proportion to the length. Our own choice: a hand that winds slows down and speeds up so that the thread runs evenly.

use core::f64::consts::PI;

use crate::base::units::{Density, Length, LinearDensity};
use crate::braid::bobbin::BobbinSize;
use crate::plan::bobbins::Bobbin;
use crate::plan::wound::{Wound, WoundState};

/// One bobbin that was wound and timed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TimedBobbin {
    /// Thread wound on.
    pub thread: Length,
    /// Mass per length of that thread.
    pub linear_density: LinearDensity,
    /// Minutes it took.
    pub minutes: Option<f64>,
    /// Turns counted.
    pub turns: Option<f64>,
}

/// The maker's own winder.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Winder {
    timed: TimedBobbin,
    size: BobbinSize,
    density: Density,
    /// Turns counted for each turn of a bobbin.
    turns_per_turn: Option<f64>,
}

/// What it takes to wind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WindingWork {
    /// Minutes, where those of one bobbin are known.
    pub minutes: Option<f64>,
    /// Turns, where those of one bobbin are known.
    pub turns: Option<f64>,
}

impl Winder {
    /// The winder that wound this bobbin of some size, with a fibre of some density. `None` where that teaches nothing: no thread,
    /// or neither minutes nor turns above zero.
    pub fn of(timed: TimedBobbin, size: BobbinSize, density: Density) -> Option<Self> {
        let known = |value: Option<f64>| value.filter(|value| is_positive(*value));
        let timed = TimedBobbin {
            minutes: known(timed.minutes),
            turns: known(timed.turns),
            ..timed
        };
        let is_wound = is_positive(timed.thread.metres())
            && is_positive(timed.linear_density.kilograms_per_metre());
        if !is_wound || timed.minutes.or(timed.turns).is_none() {
            return None;
        }
        let calculated = turns(size, density, timed.linear_density, timed.thread);
        let turns_per_turn = timed.turns.zip(calculated).map(|(a, b)| a / b);
        Some(Self {
            timed,
            size,
            density,
            turns_per_turn,
        })
    }

    /// What it takes to wind a thread from one length on the bobbin to another, longer one.
    pub fn work(&self, thread: LinearDensity, from: Length, to: Length) -> Option<WindingWork> {
        let is_more = from >= Length::ZERO && to > from && to.is_finite();
        let known = |value: f64| Some(value).filter(|value| is_positive(*value));
        let turns = |length| {
            if length > Length::ZERO {
                turns(self.size, self.density, thread, length)
            } else {
                Some(0.0)
            }
        };
        let minutes = self
            .timed
            .minutes
            .and_then(|minutes| known(minutes * ((to - from) / self.timed.thread)));
        let counted = self
            .turns_per_turn
            .zip(turns(from).zip(turns(to)))
            .and_then(|(factor, (before, after))| known(factor * (after - before)));
        (is_more && minutes.or(counted).is_some()).then_some(WindingWork {
            minutes,
            turns: counted,
        })
    }

    /// What it takes to wind what a bobbin still needs, of all that are needed; of one that is wound, what the whole of it takes.
    pub fn work_of(
        &self,
        bobbin: &Bobbin,
        needed: &[Bobbin],
        wound: &Wound,
    ) -> Option<WindingWork> {
        let is_begun = matches!(wound.state(bobbin, needed), WoundState::More(_));
        let on = wound.thread_on(bobbin).filter(|_| is_begun);
        let from = on.unwrap_or(Length::ZERO);
        self.work(bobbin.linear_density(), from, bobbin.length)
    }

    /// Minutes for all the bobbins still to be wound; `None` where there are none, or where no minutes are known.
    pub fn minutes_left(&self, needed: &[Bobbin], wound: &Wound) -> Option<f64> {
        let is_open = |bobbin: &&Bobbin| wound.state(bobbin, needed) != WoundState::Wound;
        let minutes = |bobbin| self.work_of(bobbin, needed, wound)?.minutes;
        let all: f64 = needed.iter().filter(is_open).filter_map(minutes).sum();
        is_positive(all).then_some(all)
    }
}

/// Turns of the bobbin itself from the empty barrel on: L/(π·(D + d)/2).
fn turns(size: BobbinSize, density: Density, thread: LinearDensity, length: Length) -> Option<f64> {
    let full = size.wound(length * thread, density);
    let middle = (full + size.barrel) / 2.0;
    let turns = length.metres() / (PI * middle.metres());
    is_positive(turns).then_some(turns)
}

/// Whether a number is one, finite, and above zero.
fn is_positive(value: f64) -> bool {
    value.is_finite() && value > 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIZE: BobbinSize = BobbinSize {
        full: Length::from_millimetres(32.0),
        barrel: Length::from_millimetres(10.0),
        width: Length::from_millimetres(25.0),
        packing: 0.55,
    };
    const DENSITY: Density = Density::from_grams_per_cubic_centimetre(1.34);
    const THREAD: LinearDensity = LinearDensity::from_tex(34.0);

    fn timed(minutes: Option<f64>, turns: Option<f64>) -> TimedBobbin {
        TimedBobbin {
            thread: Length::from_metres(37.5),
            linear_density: THREAD,
            minutes,
            turns,
        }
    }

    fn winder(minutes: Option<f64>, turns: Option<f64>) -> Winder {
        Winder::of(timed(minutes, turns), SIZE, DENSITY).expect("it teaches")
    }

    fn work(winder: &Winder, metres: f64) -> WindingWork {
        winder
            .work(THREAD, Length::ZERO, Length::from_metres(metres))
            .expect("it can be wound")
    }

    /// By walking along the thread in steps of a millimetre, each at the diameter that the volume below it gives. Midpoint rule.
    #[test]
    fn turns_are_the_sum_of_the_thread_over_its_girth() {
        let area = 0.034e-3 / (1.34e3 * 0.55);
        let mut sum = 0.0;
        for step in 0..37_500 {
            let on = 1e-3 * (f64::from(step) + 0.5);
            let diameter = (0.01_f64.powi(2) + 4.0 * area * on / (PI * 0.025)).sqrt();
            sum += 1e-3 / (PI * diameter);
        }
        let by_formula = turns(SIZE, DENSITY, THREAD, Length::from_metres(37.5)).expect("some");
        assert!((by_formula / sum - 1.0).abs() < 1e-8, "{by_formula}, {sum}");
        // The same from the diameters: width·(D − d)/(2·A).
        let full = SIZE.wound(Length::from_metres(37.5) * THREAD, DENSITY);
        let by_width = 0.025 * (full - SIZE.barrel).metres() / (2.0 * area);
        assert!((by_formula / by_width - 1.0).abs() < 1e-9);
    }

    #[test]
    fn the_bobbin_that_was_timed_gives_back_its_own_figures() {
        let of_it = work(&winder(Some(6.0), Some(412.0)), 37.5);
        assert_eq!(of_it.minutes, Some(6.0));
        let turns = of_it.turns.expect("turns were counted");
        assert!((turns - 412.0).abs() < 1e-9, "{turns}");
    }

    #[test]
    fn twice_the_thread_takes_twice_the_time_and_less_than_twice_the_turns() {
        let winder = winder(Some(6.0), Some(820.0));
        let [once, twice] = [37.5, 75.0].map(|metres| work(&winder, metres));
        assert_eq!(twice.minutes, Some(12.0));
        let ratio = twice.turns.unwrap_or_default() / once.turns.unwrap_or_default();
        assert!(1.0 < ratio && ratio < 2.0, "{ratio}");
    }

    #[test]
    fn two_parts_take_what_the_whole_takes() {
        let winder = winder(Some(6.0), Some(820.0));
        let [some, all] = [12.0, 50.0].map(Length::from_metres);
        let parts = [(Length::ZERO, some), (some, all)]
            .map(|(from, to)| winder.work(THREAD, from, to).expect("it can be wound"));
        let whole = work(&winder, 50.0);
        let sum = |of: fn(&WindingWork) -> Option<f64>| {
            parts.iter().filter_map(of).sum::<f64>() - of(&whole).unwrap_or_default()
        };
        assert!(sum(|work| work.minutes).abs() < 1e-9);
        assert!(sum(|work| work.turns).abs() < 1e-6);
    }

    #[test]
    fn what_was_not_timed_is_not_guessed_and_nonsense_teaches_nothing() {
        assert_eq!(work(&winder(Some(6.0), None), 10.0).turns, None);
        assert_eq!(work(&winder(None, Some(820.0)), 10.0).minutes, None);
        let none = |timed| Winder::of(timed, SIZE, DENSITY).is_none();
        for nonsense in [
            None,
            Some(0.0),
            Some(-6.0),
            Some(f64::NAN),
            Some(f64::INFINITY),
        ] {
            assert!(none(timed(nonsense, nonsense)), "{nonsense:?}");
        }
        for metres in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            let thread = Length::from_metres(metres);
            assert!(none(TimedBobbin {
                thread,
                ..timed(Some(6.0), None)
            }));
            let winder = winder(Some(6.0), Some(820.0));
            assert_eq!(winder.work(THREAD, Length::ZERO, thread), None, "{metres}");
        }
    }
}
