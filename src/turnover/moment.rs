//! What a cast comes to.

use crate::base::units::{Energy, Length, Mass, Speed};

/// The cast at one moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// Length of line and leader from the fly to the nose of the loop: what has yet to turn over.
    pub to_fly: Length,
    /// Length of the upper leg that has run into the loop.
    pub rolled: Length,
    /// Time since the loop began to roll, seconds.
    pub seconds: f64,
    /// How far the loop leans: 0 for the half circle it begins with, more the sharper it turns below the upper leg.
    pub lean: f64,
    /// Speed of the upper leg. The loop moves about half as fast.
    pub speed: Speed,
    /// Energy of all that moves.
    pub energy: Energy,
    /// What moves, as the mass that would have this energy at the speed of the upper leg: leg, fly, and its part of the loop.
    pub mass: Mass,
    /// How far the upper leg has fallen.
    pub drop: Length,
}

impl Moment {
    /// A moment between two, at a share of the way from this one to the other.
    #[must_use]
    pub fn towards(&self, other: &Self, share: f64) -> Self {
        Self {
            to_fly: self.to_fly + (other.to_fly - self.to_fly) * share,
            rolled: self.rolled + (other.rolled - self.rolled) * share,
            seconds: self.seconds + (other.seconds - self.seconds) * share,
            lean: self.lean + (other.lean - self.lean) * share,
            speed: self.speed + (other.speed - self.speed) * share,
            energy: self.energy + (other.energy - self.energy) * share,
            mass: self.mass + (other.mass - self.mass) * share,
            drop: self.drop + (other.drop - self.drop) * share,
        }
    }
}

/// Where the energy went.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Losses {
    /// To the air along the upper leg.
    pub leg: Energy,
    /// To the air round the loop.
    pub within_loop: Energy,
    /// To the air at the fly.
    pub fly: Energy,
}

/// Whether the loop rolls out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Outcome {
    /// It rolls to the fly.
    TurnsOver,
    /// It becomes too slow to stay round: from this moment on its weight pulls it down faster than it turns.
    Collapses(Moment),
}

/// How the front of the line comes down on the water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Landing {
    /// Steady speed of its fall.
    pub speed: Speed,
    /// Energy of each metre of it at that speed.
    pub energy_per_metre: Energy,
}

/// How a line turns over.
#[derive(Clone, Debug, PartialEq)]
pub struct Turnover {
    /// As the loop begins to roll.
    pub start: Moment,
    /// As the nose of the loop reaches the leader.
    pub at_leader: Moment,
    /// As nothing of the upper leg is left.
    pub at_fly: Moment,
    /// All of it in the order of time, first and last moment among them.
    pub moments: Vec<Moment>,
    /// Whether the loop rolls out.
    pub outcome: Outcome,
    /// Speed of the upper leg below which a loop of this size collapses.
    pub slowest: Speed,
    /// Where the energy went until nothing of the upper leg was left.
    pub losses: Losses,
    /// How the front comes down.
    pub landing: Landing,
    /// Half the height of the loop.
    pub loop_radius: Length,
    /// Length of line that was cast: what the cast asks for, or all of a shorter line.
    pub outside: Length,
}

impl Turnover {
    /// Share of the energy at the start that reaches the leader, 0 to 1.
    pub fn energy_left(&self) -> f64 {
        self.at_leader.energy / self.start.energy
    }

    /// The last moment of a loop: at the fly, or where it collapses.
    pub fn end(&self) -> Moment {
        match self.outcome {
            Outcome::TurnsOver => self.at_fly,
            Outcome::Collapses(moment) => moment,
        }
    }

    /// The cast at a time since the loop began to roll; held at both ends.
    pub fn at_time(&self, seconds: f64) -> Moment {
        let after = self
            .moments
            .partition_point(|moment| moment.seconds <= seconds);
        match (after.checked_sub(1), self.moments.get(after)) {
            (None, _) => self.start,
            (Some(before), None) => self.moments[before],
            (Some(before), Some(next)) => {
                let before = &self.moments[before];
                let share = (seconds - before.seconds) / (next.seconds - before.seconds);
                before.towards(next, share)
            }
        }
    }
}
