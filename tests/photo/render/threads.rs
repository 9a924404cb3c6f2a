//! Which thread lies on top where, and how high.
//!
//! Rising thread i stands where A = i, falling thread j where B = j, with
//! A = (N/2)(θ/2π − v) and B = (N/2)(θ/2π + v); θ is the place round the axis, v that along it in lays (analytic). So they cross at
//! θ = 2π(i + j)/N and v = (j − i)/N. On one rib i + j is the same everywhere: whether the rising thread is on top is a matter of
//! the rib alone.
//!
//! Heights are shares of the band between the core and the outer radius, which is two threads thick.

use std::f64::consts::TAU;

use super::noise::ease;
use super::scene::{Family, Flaw, Scene, Subject};

/// Which thread is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Seen {
    /// What lies within the braid.
    Core,
    /// A thread of this family.
    Thread(Family),
}

/// A place on a thread.
#[derive(Clone, Copy, Debug)]
pub(crate) struct OnThread {
    /// The family of the thread.
    pub(crate) family: Family,
    /// Its number in the family.
    pub(crate) index: u32,
    /// Distance from its middle line across the family, in spacings.
    pub(crate) across: f64,
    /// Place along it, in crossings.
    pub(crate) along: f64,
}

impl OnThread {
    /// The place on the nearest engaged thread of a family, from a place round the axis (radians) and along it (lays).
    pub(crate) fn of(scene: &Scene, family: Family, round: f64, wound: f64) -> Self {
        let half = scene.threads / 2;
        let turns = f64::from(half) * round / TAU;
        let wound = f64::from(half) * wound;
        let (own, other) = match family {
            Family::Rising => (turns - wound, turns + wound),
            Family::Falling => (turns + wound, turns - wound),
        };
        let middle = own.round() as i64;
        let side = if own < middle as f64 { -1 } else { 1 };
        let index_of = |number: i64| number.rem_euclid(i64::from(half)) as u32;
        let is_engaged = |number: i64| {
            scene
                .engaged
                .as_ref()
                .is_none_or(|(rising, falling)| match family {
                    Family::Rising => rising.contains(&index_of(number)),
                    Family::Falling => falling.contains(&index_of(number)),
                })
        };
        let near = [middle, middle + side, middle - side, middle + 2 * side];
        let number = near
            .into_iter()
            .find(|number| is_engaged(*number))
            .unwrap_or(middle);
        Self {
            family,
            index: index_of(number),
            across: own - number as f64,
            along: other,
        }
    }
}

/// The threads of a weave.
pub(crate) struct Threads<'a> {
    half: i32,
    repeat: i32,
    half_width: f64,
    has_falling: bool,
    engaged: Option<&'a (Vec<u32>, Vec<u32>)>,
    flaw: Option<Flaw>,
}

impl<'a> Threads<'a> {
    /// The threads of the scene; with its flaw, or as if it had none.
    pub(crate) fn of(scene: &'a Scene, flaw: Option<Flaw>) -> Self {
        Self {
            half: (scene.threads / 2).max(1) as i32,
            repeat: scene.pattern.repeat() as i32,
            half_width: scene.cover / 2.0,
            has_falling: scene.subject != Subject::Rope,
            engaged: scene.engaged.as_ref(),
            flaw,
        }
    }

    /// Whether the thread of this number is there.
    fn is_there(&self, family: Family, number: i32) -> bool {
        let index = number.rem_euclid(self.half) as u32;
        let is_missing = self.flaw.is_some_and(|flaw| {
            flaw.family == family && flaw.index == index && flaw.stands_out.is_none()
        });
        let is_engaged = self.engaged.is_none_or(|(rising, falling)| match family {
            Family::Rising => rising.contains(&index),
            Family::Falling => falling.contains(&index),
        });
        is_engaged && !is_missing && (self.has_falling || family == Family::Rising)
    }

    /// 1 where the thread is on top at this crossing, −1 where it is below.
    pub(crate) fn side(&self, family: Family, number: i32, crossing: i32) -> f64 {
        if !self.has_falling {
            return 1.0;
        }
        let rising_is_over = (number + crossing).rem_euclid(self.repeat) < self.repeat / 2;
        if rising_is_over == (family == Family::Rising) {
            1.0
        } else {
            -1.0
        }
    }

    /// Height of the upper side of one thread at a distance across it and a place along it, both in spacings.
    fn height(&self, family: Family, number: i32, across: f64, along: f64) -> Option<f64> {
        let share = across / self.half_width;
        if share.abs() >= 1.0 || !self.is_there(family, number) {
            return None;
        }
        let round = 0.25 * (1.0 - share * share).sqrt();
        let index = number.rem_euclid(self.half) as u32;
        if let Some(flaw) = self
            .flaw
            .filter(|flaw| flaw.family == family && flaw.index == index)
        {
            // A loose thread lies on top of all others.
            return Some(0.75 + 0.5 * flaw.stands_out.unwrap_or(0.0) + round);
        }
        let crossing = along.floor();
        let before = self.side(family, number, crossing as i32);
        let behind = self.side(family, number, crossing as i32 + 1);
        let wave = before + (behind - before) * f64::from(ease((along - crossing) as f32));
        Some(0.5 + 0.25 * wave + round)
    }

    /// What is seen at a place, and its height; both places are counted in threads: A and B of the module's documentation.
    pub(crate) fn at(&self, rising: f64, falling: f64) -> (f64, Seen) {
        let mut highest = (0.0, Seen::Core);
        let reach = (self.half_width + 0.5).floor() as i32;
        for (family, across, along) in [
            (Family::Rising, rising, falling),
            (Family::Falling, falling, rising),
        ] {
            let middle = across.round() as i32;
            for number in middle - reach..=middle + reach {
                if let Some(height) = self.height(family, number, across - f64::from(number), along)
                    && height > highest.0
                {
                    highest = (height, Seen::Thread(family));
                }
            }
        }
        highest
    }

    /// Mean height of what is seen, over one repeat of the pattern.
    pub(crate) fn mean_height(&self) -> f64 {
        let fine = 24;
        let columns = self.repeat * fine;
        let mut sum = 0.0;
        for column in 0..columns {
            for row in 0..2 * fine {
                let (rib, step) = (
                    f64::from(column) / f64::from(fine),
                    f64::from(row) / f64::from(fine),
                );
                sum += self.at(0.5 * (rib - step), 0.5 * (rib + step)).0;
            }
        }
        sum / f64::from(columns * 2 * fine)
    }
}
