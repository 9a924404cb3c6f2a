//! A chain of point masses in the plane, joined by stiff links that weigh nothing: a second way to calculate a cast. It knows of no
//! loop and no leg; the line is laid out as the cast begins, and mechanics and air do the rest. It has no gravity, no stiffness, and no
//! friction of its own: without air its energy stays what it is.
//!
//! What moves are the directions of the links. Their tensions are what keeps the links as long as they are: one equation for each
//! link, in which only its neighbours appear.

use core::f64::consts::PI;

use taperwright::base::units::{Length, LinearDensity};
use taperwright::turnover::{Cast, FlyLine, LinePiece, Surroundings};

type Pair = [f64; 2];

fn dot(a: Pair, b: Pair) -> f64 {
    a[0] * b[0] + a[1] * b[1]
}

fn times(a: Pair, factor: f64) -> Pair {
    [a[0] * factor, a[1] * factor]
}

fn less(a: Pair, b: Pair) -> Pair {
    [a[0] - b[0], a[1] - b[1]]
}

/// What the core says of a cast, too.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Arrival {
    /// As the nose of the loop reaches the leader.
    pub(crate) seconds: f64,
    /// Of the fly.
    pub(crate) speed: f64,
    /// Joules of the whole chain, at the beginning and on arrival.
    pub(crate) energy: [f64; 2],
}

/// From the fly to the rod tip, which holds the last point.
pub(crate) struct Chain<'a> {
    /// Length of each link.
    link: f64,
    /// Diameter of each link.
    sizes: Vec<f64>,
    /// One over the mass of each point; nothing for the last one, which does not move.
    lightness: Vec<f64>,
    fly_area: f64,
    air: &'a Surroundings,
}

/// Direction of each link, towards the rod tip, and how fast it turns.
#[derive(Clone)]
struct Motion {
    angles: Vec<f64>,
    turning: Vec<f64>,
}

/// Where the points are, how fast they are, and the links between them as directions of length 1.
struct Points {
    places: Vec<Pair>,
    speeds: Vec<Pair>,
    links: Vec<Pair>,
}

/// Diameter and mass per length at a place.
fn at(pieces: &[LinePiece], place: f64) -> Pair {
    let mut left = place;
    for piece in pieces {
        let length = piece.length.metres();
        if left <= length {
            let between = |a: f64, b: f64| a + (b - a) * left / length;
            let [thin, thick] = piece.diameter.map(Length::metres);
            let [light, heavy] = piece.linear_density.map(LinearDensity::kilograms_per_metre);
            return [between(thin, thick), between(light, heavy)];
        }
        left -= length;
    }
    panic!("{place} is beyond the line")
}

/// The chain of a cast, followed until the nose of its loop reaches the leader. Its links are about so long.
pub(crate) fn arrival(line: &FlyLine, cast: &Cast, air: &Surroundings, link: f64) -> Arrival {
    let mut pieces = cast.leader();
    pieces.extend(line.front(cast.outside()));
    let length: f64 = pieces.iter().map(|piece| piece.length.metres()).sum();
    let chain = Chain::of(&pieces, (length / link).round(), cast, air);
    let mut motion = chain.start(cast);
    let start = chain.energy(&motion);
    let (mut seconds, leader) = (0.0, cast.leader_length().metres());
    while chain.nose(&motion) > leader {
        seconds += chain.step(&mut motion);
        assert!(seconds < 10.0, "the loop never reaches the leader");
    }
    let points = chain.points(&motion);
    Arrival {
        seconds,
        speed: dot(points.speeds[0], points.speeds[0]).sqrt(),
        energy: [start, chain.energy(&motion)],
    }
}

/// A step is this share of the time in which a point moves by a link, or a link turns by 1 rad.
const STEP: f64 = 0.4;

impl<'a> Chain<'a> {
    fn of(pieces: &[LinePiece], count: f64, cast: &Cast, air: &'a Surroundings) -> Self {
        let length: f64 = pieces.iter().map(|piece| piece.length.metres()).sum();
        let link = length / count;
        let mut masses = vec![cast.fly_mass().kilograms()];
        let mut sizes = Vec::new();
        while (sizes.len() as f64) < count {
            let [size, mass] = at(pieces, (sizes.len() as f64 + 0.5) * link);
            *masses.last_mut().expect("the fly") += mass * link / 2.0;
            masses.push(mass * link / 2.0);
            sizes.push(size);
        }
        let mut lightness: Vec<f64> = masses.iter().map(|mass| 1.0 / mass).collect();
        lightness[sizes.len()] = 0.0;
        let fly_area = cast.fly_drag_area().square_metres();
        Self {
            link,
            sizes,
            lightness,
            fly_area,
            air,
        }
    }

    /// A straight upper leg, a half circle that rolls, and no lower leg.
    fn start(&self, cast: &Cast) -> Motion {
        let (radius, speed) = (
            cast.loop_radius().metres(),
            cast.speed().metres_per_second(),
        );
        let count = self.sizes.len();
        let leg = count as f64 * self.link - PI * radius;
        let turned = |index: usize| ((index as f64 + 0.5) * self.link - leg).max(0.0) / radius;
        let turning = |index: usize| {
            if turned(index) > 0.0 {
                -speed / 2.0 / radius
            } else {
                0.0
            }
        };
        Motion {
            angles: (0..count).map(|index| -turned(index)).collect(),
            turning: (0..count).map(turning).collect(),
        }
    }

    fn points(&self, motion: &Motion) -> Points {
        let both = |&angle: &f64| [angle.cos(), angle.sin()];
        let links: Vec<Pair> = motion.angles.iter().map(both).collect();
        let mut places = vec![[0.0; 2]; links.len() + 1];
        let mut speeds = places.clone();
        for (index, (&link, turning)) in links.iter().zip(&motion.turning).enumerate().rev() {
            let (place, speed) = (places[index + 1], speeds[index + 1]);
            places[index] = less(place, times(link, self.link));
            let way = self.link * turning;
            speeds[index] = less(speed, [-way * link[1], way * link[0]]);
        }
        Points {
            places,
            speeds,
            links,
        }
    }

    fn energy(&self, motion: &Motion) -> f64 {
        let speeds = self.points(motion).speeds;
        let moving = speeds.iter().zip(&self.lightness);
        let energy = |(&speed, &light): (&Pair, &f64)| {
            if light > 0.0 {
                dot(speed, speed) / light / 2.0
            } else {
                0.0
            }
        };
        moving.map(energy).sum()
    }

    /// Length from the fly to where the line first points straight down.
    fn nose(&self, motion: &Motion) -> f64 {
        let down = |&angle: &f64| -angle - PI / 2.0;
        let angles = &motion.angles;
        let after = angles.iter().position(|angle| down(angle) > 0.0);
        let after = after.expect("a loop turns").max(1);
        let (before, beyond) = (down(&angles[after - 1]), down(&angles[after]));
        (after as f64 + 0.5 - beyond / (beyond - before)) * self.link
    }

    /// Force of the air for each square of the speed: across each link, and along it.
    fn drags(&self, points: &Points) -> Vec<Pair> {
        let air = self.air;
        let drag = |(index, &size): (usize, &f64)| {
            let (along, across) = points.split(index);
            let reynolds = |speed: f64| size * speed / air.viscosity;
            let across = air.across.at(reynolds(dot(across, across).sqrt()));
            let along = air.along.at(reynolds(along.abs()));
            let face = 0.5 * air.density.kilograms_per_cubic_metre() * size * self.link;
            [face * across, face * PI * along]
        };
        self.sizes.iter().enumerate().map(drag).collect()
    }

    /// Force of the air on each point: half of that on each link beside it.
    fn forces(&self, points: &Points, drags: &[Pair]) -> Vec<Pair> {
        let mut forces = vec![[0.0; 2]; points.places.len()];
        let density = self.air.density.kilograms_per_cubic_metre();
        let fly = points.speeds[0];
        forces[0] = times(fly, -0.5 * density * self.fly_area * dot(fly, fly).sqrt());
        for (index, &[normal, tangent]) in drags.iter().enumerate() {
            let (along, across) = points.split(index);
            let across = times(across, normal * dot(across, across).sqrt());
            let along = times(points.links[index], tangent * along.abs() * along);
            for end in [index, index + 1] {
                forces[end] = less(forces[end], times(across, 0.5));
                forces[end] = less(forces[end], times(along, 0.5));
            }
        }
        forces
    }

    /// Tension of each link, such that none gets longer or shorter. Source of the method for such systems: L. H. Thomas, 1949; from
    /// memory.
    fn tensions(&self, points: &Points, forces: &[Pair]) -> Vec<f64> {
        let (links, light) = (&points.links, &self.lightness);
        let mut rows: Vec<Pair> = Vec::with_capacity(links.len());
        for (index, &link) in links.iter().enumerate() {
            let [here, beyond] = [index, index + 1].map(|end| times(forces[end], light[end]));
            let turning = less(points.speeds[index + 1], points.speeds[index]);
            let wanted = -dot(turning, turning) / self.link - dot(link, less(beyond, here));
            let next = links.get(index + 1);
            let after = next.map_or(0.0, |&next| dot(next, link) * light[index + 1]);
            let (before, last) = match rows.last() {
                Some(&last) => (dot(links[index - 1], link) * light[index], last),
                None => (0.0, [0.0; 2]),
            };
            let own = -light[index] - light[index + 1] - before * last[0];
            rows.push([after / own, (wanted - before * last[1]) / own]);
        }
        let mut tensions = vec![0.0; links.len()];
        let mut beyond = 0.0;
        for (tension, [share, alone]) in tensions.iter_mut().zip(rows).rev() {
            *tension = alone - share * beyond;
            beyond = *tension;
        }
        tensions
    }

    /// How fast the turning of each link changes.
    fn gains(&self, motion: &Motion, drags: &[Pair]) -> Vec<f64> {
        let points = self.points(motion);
        let mut forces = self.forces(&points, drags);
        let tensions = self.tensions(&points, &forces);
        for (index, tension) in tensions.iter().enumerate() {
            let pull = times(points.links[index], *tension);
            forces[index] = less(forces[index], times(pull, -1.0));
            forces[index + 1] = less(forces[index + 1], pull);
        }
        let gain = |(index, &[cosine, sine]): (usize, &Pair)| {
            let [here, beyond] = [index, index + 1].map(|at| times(forces[at], self.lightness[at]));
            dot(less(beyond, here), [-sine, cosine]) / self.link
        };
        points.links.iter().enumerate().map(gain).collect()
    }

    /// A step by the classical formulas of Runge and Kutta; returns how long it was. Coefficients of drag are those of its beginning.
    fn step(&self, motion: &mut Motion) -> f64 {
        let points = self.points(motion);
        let drags = self.drags(&points);
        let fastest = points.speeds.iter().map(|&speed| dot(speed, speed).sqrt());
        let turning = motion.turning.iter().map(|turning| turning.abs());
        let often = fastest.fold(0.0, f64::max) / self.link;
        let time = STEP / turning.fold(often, f64::max);
        let mut sum = motion.clone();
        let mut seen = motion.clone();
        for (weight, next) in [(1.0, 0.5), (2.0, 0.5), (2.0, 1.0), (1.0, 0.0)] {
            let gains = self.gains(&seen, &drags);
            add(&mut sum.angles, &seen.turning, weight / 6.0 * time);
            add(&mut sum.turning, &gains, weight / 6.0 * time);
            let turning = seen.turning;
            seen = motion.clone();
            add(&mut seen.angles, &turning, next * time);
            add(&mut seen.turning, &gains, next * time);
        }
        *motion = sum;
        time
    }
}

impl Points {
    /// The speed of a link: along itself, and what is left of it.
    fn split(&self, index: usize) -> (f64, Pair) {
        let [here, beyond] = [self.speeds[index], self.speeds[index + 1]];
        let speed = [0, 1].map(|part| f64::midpoint(here[part], beyond[part]));
        let link = self.links[index];
        let along = dot(speed, link);
        (along, less(speed, times(link, along)))
    }
}

fn add(values: &mut [f64], slopes: &[f64], time: f64) {
    for (value, slope) in values.iter_mut().zip(slopes) {
        *value += slope * time;
    }
}
