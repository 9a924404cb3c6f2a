//! The rolling loop.

use core::f64::consts::PI;

use libm::{exp, sqrt};

use super::air::Surroundings;
use super::cast::Cast;
use super::line::FlyLine;
use super::loop_shape::{LoopShape, to_nose};
use super::moment::{Landing, Losses, Moment, Outcome, Turnover};
use super::moving::Moving;
use super::solver::{Steps, integrate};
use crate::base::units::{Energy, Length, Mass, Speed};

/// Greatest difference of a step, as a share.
const TOLERANCE: f64 = 1e-7;
/// A cast is never followed in fewer steps, so that it can be drawn.
const LEAST_STEPS: f64 = 48.0;
/// The front of a line that its landing is judged by, metres: what lies beside the leader on the water. Our own choice.
const FRONT: f64 = 1.0;
/// The fall is calculated for at least so much of the upper leg, metres.
const LEAST_FALLING: f64 = 0.1;
/// How often the steady fall is solved again: its coefficient hardly depends on it.
const FALL_ROUNDS: u32 = 24;

/// The speed across the line that stands for that of all places of the loop in its Reynolds number, as a share of the speed of the
/// loop, and the same along it: with them a half circle holds as much as with each place by itself, to 1 %.
const MEAN_SPEEDS: (f64, f64) = (0.85, 1.6);

/// The tension never counts as less than this share of what carries a bend as fast as the loop moves. A loop that the air holds so
/// hard leans at once, and is held less. Our own choice.
const LEAST_TENSION: f64 = 0.1;

/// Time passes as if no upper leg were slower than this, metres per second. The smallest loop collapses at twice the speed, so that what
/// comes after it is no cast; but its time stays finite, and its fall can be followed. Our own choice.
const LEAST_SPEED: f64 = 1.0;

/// What changes while the loop rolls.
#[derive(Clone, Copy, Debug)]
struct State {
    /// Logarithm of the energy left, as a share of that at the start.
    energy: f64,
    /// Seconds.
    time: f64,
    /// How far the loop leans.
    lean: f64,
    /// Energy lost along the leg, in the loop, and at the fly, as shares of that at the start.
    lost: [f64; 3],
    /// Speed of the fall, metres per second.
    fall: f64,
    /// Way of the fall, metres.
    drop: f64,
}

/// Numbers of a state.
const NUMBERS: usize = 8;

impl State {
    const START: [f64; NUMBERS] = [0.0; NUMBERS];

    fn of(&[energy, time, lean, leg, within_loop, fly, fall, drop]: &[f64; NUMBERS]) -> Self {
        Self {
            energy,
            time,
            lean,
            lost: [leg, within_loop, fly],
            fall,
            drop,
        }
    }

    fn numbers(self) -> [f64; NUMBERS] {
        let [leg, within_loop, fly] = self.lost;
        let Self {
            energy,
            time,
            lean,
            fall,
            drop,
            ..
        } = self;
        [energy, time, lean, leg, within_loop, fly, fall, drop]
    }
}

/// A cast of a line.
struct Roll<'a> {
    moving: Moving,
    shape: LoopShape,
    air: &'a Surroundings,
    radius: f64,
    /// Mass of the fly, kilograms, and the area by which it holds the air.
    fly: (f64, f64),
    /// Length of the upper leg at the start.
    leg: f64,
    /// Energy at the start, joules.
    energy: f64,
}

/// How a line turns over in a cast.
pub fn turn_over(line: &FlyLine, cast: &Cast, air: &Surroundings) -> Turnover {
    let mut pieces = cast.leader();
    pieces.extend(line.front(cast.outside()));
    let moving = Moving::of(&pieces, &air.along);
    let radius = cast.loop_radius().metres();
    let mut roll = Roll {
        shape: LoopShape::new(),
        fly: (
            cast.fly_mass().kilograms(),
            cast.fly_drag_area().square_metres(),
        ),
        leg: (moving.length() - PI * radius).max(0.0),
        moving,
        air,
        radius,
        energy: 0.0,
    };
    let speed = cast.speed().metres_per_second();
    roll.energy = 0.5 * roll.mass(roll.leg, 0.0) * speed * speed;
    let outside = cast.outside().min(line.length());
    roll.follow(cast.leader_length().metres(), line, outside)
}

impl Roll<'_> {
    fn follow(&self, leader: f64, line: &FlyLine, outside: Length) -> Turnover {
        let how = Steps {
            tolerance: TOLERANCE,
            longest: self.leg / LEAST_STEPS,
        };
        let mut moments = vec![self.moment(0.0, &State::START)];
        let mut note = |rolled: f64, state: &[f64; NUMBERS]| {
            moments.push(self.moment(rolled, state));
        };
        let slope = |rolled: f64, state: &[f64; NUMBERS]| self.slope(rolled, State::of(state));
        let before_leader = |rolled: f64, state: &[f64; NUMBERS]| {
            self.to_fly(self.leg - rolled, State::of(state).lean) - leader
        };
        let way = (0.0, self.leg);
        let (at, state) = integrate(slope, way, State::START, how, before_leader, &mut note);
        let at_leader = self.moment(at, &state);
        let way = (at, self.leg);
        let (at, state) = integrate(slope, way, state, how, |_, _| 1.0, &mut note);
        let slowest = 2.0 * sqrt(self.air.gravity * self.radius);
        let is_too_slow = |moment: &&Moment| moment.speed.metres_per_second() < slowest;
        let outcome = match moments.iter().find(is_too_slow) {
            Some(moment) => Outcome::Collapses(*moment),
            None => Outcome::TurnsOver,
        };
        let lost = State::of(&state).lost;
        let [leg, within_loop, fly] = lost.map(|share| Energy::from_joules(share * self.energy));
        Turnover {
            start: moments[0],
            at_leader,
            at_fly: self.moment(at, &state),
            moments,
            outcome,
            slowest: Speed::from_metres_per_second(slowest),
            losses: Losses {
                leg,
                within_loop,
                fly,
            },
            landing: self.landing(line),
            loop_radius: Length::from_metres(self.radius),
            outside,
        }
    }

    /// Mass of all that moves, as if it had the speed of the upper leg.
    fn mass(&self, left: f64, lean: f64) -> f64 {
        let leg = self.moving.sums(left).mass;
        let within = |way: f64| self.moving.sums(left + self.radius * way).mass - leg;
        self.fly.0 + leg + self.shape.moving_mass(lean, within)
    }

    /// Length from the fly to the nose of the loop.
    fn to_fly(&self, left: f64, lean: f64) -> f64 {
        left + self.radius * to_nose(lean)
    }

    /// What the state changes by for each metre that has rolled.
    ///
    /// The lower leg rests and does no work, so the energy of all that moves falls by drag alone: dE/dt = −P.
    fn slope(&self, rolled: f64, state: State) -> [f64; NUMBERS] {
        let left = (self.leg - rolled).max(0.0);
        let mass = self.mass(left, state.lean);
        let share = exp(state.energy);
        let speed = sqrt(2.0 * share * self.energy / mass);
        // Diameter and mass per length where the loop is sharpest, evenly to both sides of the nose.
        let nose = self
            .moving
            .means(left, left + 2.0 * self.radius * to_nose(state.lean));
        let holds = self.holds(left, speed, state.lean, nose.breadth);
        let tension = (1.0 - 4.0 * holds[1] / nose.mass).max(LEAST_TENSION);
        // Bends run along the line by this share of the speed of the loop.
        let run = sqrt(tension);
        let seconds = 2.0 / (speed.max(LEAST_SPEED) * run);
        let lost = holds.map(|hold| 4.0 * hold / (mass * run));
        let density = self.air.density.kilograms_per_cubic_metre();
        let across = self.across(nose.breadth, speed);
        State {
            energy: -lost.iter().sum::<f64>(),
            time: seconds,
            lean: density * across * nose.breadth / (4.0 * nose.mass * tension),
            lost: lost.map(|lost| lost * share),
            fall: seconds * self.fall(left, state.fall),
            drop: seconds * state.fall,
        }
        .numbers()
    }

    /// Coefficient across the line in a loop between legs of which the upper has this speed.
    fn across(&self, size: f64, speed: f64) -> f64 {
        let mean = MEAN_SPEEDS.0 * speed / 2.0;
        self.air.across.at(size * mean / self.air.viscosity)
    }

    /// What the air does, as power over the third power of the speed: along the leg, in the loop, at the fly.
    fn holds(&self, left: f64, speed: f64, lean: f64, size: f64) -> [f64; 3] {
        let (air, density) = (self.air, self.air.density.kilograms_per_cubic_metre());
        let sums = self.moving.sums(left);
        // The Reynolds number of a diameter of 1 m: the power of the real diameter is in the sum.
        let skin = air.along.varying(speed / air.viscosity) * sums.skin;
        let leg = 0.5 * density * PI * (air.along.constant * sums.breadth + skin);
        let hold = self.shape.hold(lean);
        let along = air
            .along
            .at(size * MEAN_SPEEDS.1 * speed / 2.0 / air.viscosity);
        let both = self.across(size, speed) * hold.across + PI * along * hold.along;
        let within_loop = 0.5 * density * size * self.radius / 8.0 * both;
        [leg, within_loop, 0.5 * density * self.fly.1]
    }

    /// How fast the fall of the upper leg gains, metres per second in each second: its weight less what the air across it holds.
    /// The last of it falls as the tippet does.
    fn fall(&self, left: f64, speed: f64) -> f64 {
        let left = left.max(LEAST_FALLING);
        let sums = self.moving.sums(left);
        let size = sums.breadth / left;
        let drag = self.air.across.at(size * speed.abs() / self.air.viscosity);
        let hold = 0.5 * self.air.density.kilograms_per_cubic_metre() * sums.breadth * drag;
        self.air.gravity - hold * speed * speed.abs() / (sums.mass + self.fly.0)
    }

    fn moment(&self, rolled: f64, state: &[f64; NUMBERS]) -> Moment {
        let state = State::of(state);
        let left = (self.leg - rolled).max(0.0);
        let mass = self.mass(left, state.lean);
        let energy = exp(state.energy) * self.energy;
        Moment {
            to_fly: Length::from_metres(self.to_fly(left, state.lean)),
            rolled: Length::from_metres(rolled),
            seconds: state.time,
            lean: state.lean,
            speed: Speed::from_metres_per_second(sqrt(2.0 * energy / mass)),
            energy: Energy::from_joules(energy),
            mass: Mass::from_kilograms(mass),
            drop: Length::from_metres(state.drop),
        }
    }

    /// The front of the line lies across the air as it falls, and soon falls steadily: its weight is what the air holds.
    fn landing(&self, line: &FlyLine) -> Landing {
        let front = line.front(Length::from_metres(FRONT));
        let length: Length = front.iter().map(|piece| piece.length).sum();
        let mass: Mass = front.iter().map(super::line::LinePiece::mass).sum();
        let breadth: f64 = front
            .iter()
            .map(|piece| {
                let [a, b] = piece.diameter;
                (piece.length * ((a + b) / 2.0)).square_metres()
            })
            .sum();
        let (per_metre, size) = (
            mass.kilograms() / length.metres(),
            breadth / length.metres(),
        );
        let density = self.air.density.kilograms_per_cubic_metre();
        let mut speed = 1.0;
        for _ in 0..FALL_ROUNDS {
            let drag = self.air.across.at(size * speed / self.air.viscosity);
            speed = sqrt(2.0 * per_metre * self.air.gravity / (density * drag * size));
        }
        Landing {
            speed: Speed::from_metres_per_second(speed),
            energy_per_metre: Energy::from_joules(0.5 * per_metre * speed * speed),
        }
    }
}
