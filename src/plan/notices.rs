//! What the maker should know before braiding by this plan.

use super::Plan;
use super::sections::SectionWeight;
use crate::bobbins::Bobbin;
use crate::design::Design;
use crate::design::settings::{Setting, TEETH};
use crate::layout::Ground;
use crate::layout::pins::DroppedPin;
use crate::layout::stops::Crowd;
use crate::stretch::Stretch;
use crate::takeoff::Wheels;
use crate::track::{Carrier, Interlacing};
use crate::units::{Angle, Length};

/// A thing to know, with the figures to say it.
#[derive(Clone, Debug, PartialEq)]
pub enum Notice {
    /// With this many threads some never pass over, or never under.
    Unsound {
        /// Thread count.
        threads: u32,
        /// Carriers of the threads that lie loose.
        carriers: Vec<Carrier>,
    },
    /// The drawing is thicker than all threads together can make it.
    TooThick {
        /// Standard threads the thickest place calls for.
        wanted: f64,
        /// Standard threads there are.
        most: f64,
        /// Thickest finished diameter they make.
        possible: Length,
    },
    /// The drawing is thinner than the fewest threads make it.
    TooThin {
        /// Standard threads the thinnest place calls for.
        wanted: f64,
        /// Fewest threads set.
        fewest: f64,
        /// Thinnest finished diameter they make.
        possible: Length,
    },
    /// The angle is outside the tolerance.
    AngleOff {
        /// How many parts of the line.
        parts: usize,
        /// How much of the line they are together.
        length: Length,
        /// Where the angle is worst.
        at: Length,
        /// The angle there.
        angle: Angle,
        /// Wheels, not all owned, that would come to rest within the tolerance there, and the angle they make.
        mended: Option<(Wheels, Angle)>,
        /// Whether what is fitted there comes to rest within the tolerance by itself: only the way to it is outside.
        passing: bool,
    },
    /// Threads touch although they are round: the braid jams.
    Jammed {
        /// Where the jammed part begins.
        from: Length,
        /// Where it ends.
        to: Length,
        /// The cover factor of round threads where it is largest; 1 and above means touching.
        cover_factor: f64,
    },
    /// The braid is more open than the maker wants.
    TooOpen {
        /// Where the open part begins.
        from: Length,
        /// Where it ends.
        to: Length,
        /// The least cover.
        cover: f64,
    },
    /// Stops follow each other faster than the angle comes to rest.
    Restless {
        /// How many stops.
        stops: usize,
        /// The first of them.
        at: Length,
        /// Length in which a step dies away to a twentieth: three lags.
        needed: Length,
    },
    /// Changes come closer than the maker can work.
    Crowded(Crowd),
    /// A section is more than a hundredth off the mass drawn.
    SectionOff(SectionWeight),
    /// Bobbins do not hold what their carriers give.
    BobbinTooSmall {
        /// How many.
        bobbins: usize,
        /// The one that is empty first.
        first: Bobbin,
        /// Where.
        at: Length,
    },
    /// A pin no longer makes sense.
    PinDropped(DroppedPin),
}

/// Half a thread: less than that is rounding, not a wish that cannot be met.
const ROUNDING: f64 = 0.5;

pub(super) fn of(
    design: &Design,
    ground: &Ground,
    plan: &Plan,
    (fewest, interlacings): (u32, &[Interlacing]),
) -> Vec<Notice> {
    let mut notices: Vec<Notice> = unsound(fewest, interlacings).collect();
    notices.extend(too_thick(ground));
    notices.extend(too_thin(ground));
    notices.extend(angle_off(design, ground, plan));
    notices.extend(jammed(design, plan));
    notices.extend(too_open(design, plan));
    notices.extend(bobbin_too_small(plan));
    let dropped = plan.layout.dropped_pins.iter().cloned();
    notices.extend(dropped.map(Notice::PinDropped));
    notices.extend(plan.layout.crowds.iter().copied().map(Notice::Crowded));
    notices.extend(restless(plan));
    let off = plan
        .sections
        .iter()
        .filter(|section| section.why_off.is_some());
    notices.extend(off.copied().map(Notice::SectionOff));
    notices
}

/// The states that fall apart; `interlacings` begin with that of the fewest threads.
fn unsound(fewest: u32, interlacings: &[Interlacing]) -> impl Iterator<Item = Notice> {
    let states = (fewest..)
        .zip(interlacings)
        .filter(|(_, found)| !found.is_sound());
    states.map(|(threads, found)| Notice::Unsound {
        threads,
        carriers: found.unsound.clone(),
    })
}

fn too_thick(ground: &Ground) -> Option<Notice> {
    let (staircase, most) = (&ground.staircase, ground.staircase.most());
    let wanted = staircase.wanted(ground.taper.thickest());
    (wanted > most + ROUNDING).then(|| Notice::TooThick {
        wanted,
        most,
        possible: staircase.diameter(most),
    })
}

fn too_thin(ground: &Ground) -> Option<Notice> {
    let (staircase, fewest) = (&ground.staircase, ground.staircase.least());
    let wanted = staircase.wanted(ground.taper.thinnest());
    (wanted < fewest - ROUNDING).then(|| Notice::TooThin {
        wanted,
        fewest,
        possible: staircase.diameter(fewest),
    })
}

fn angle_off(design: &Design, ground: &Ground, plan: &Plan) -> Option<Notice> {
    let (target, tolerance) = (design.target_angle(), design.angle_tolerance());
    let parts = plan.line.outside(target, tolerance);
    let worst = plan.worst_angle;
    let stretch = plan.line.stretch_at(worst.at);
    (!parts.is_empty()).then(|| Notice::AngleOff {
        parts: parts.len(),
        length: parts.iter().map(|&(from, to)| to - from).sum(),
        at: worst.at,
        angle: worst.angle,
        mended: wheels_to_get(design, ground, stretch),
        passing: (stretch.rest.angle - target).abs() <= tolerance,
    })
}

/// Wheels with at least one not owned that would bring the threads of this stretch within the tolerance.
fn wheels_to_get(design: &Design, ground: &Ground, stretch: &Stretch) -> Option<(Wheels, Angle)> {
    let (take_off, target) = (&ground.take_off, design.target_angle());
    let made = take_off.choices_with_one_more(TEETH.quanta(TEETH.low)..=TEETH.quanta(TEETH.high));
    let load = ground.loads[stretch.piece.level];
    let best = take_off.nearest(&made, &ground.making.braiding, load, target)?;
    let is_within = (best.braid.angle - target).abs() <= design.angle_tolerance();
    let is_owned = ground.choices.contains(&best.wheels);
    (is_within && !is_owned).then_some((best.wheels, best.braid.angle))
}

/// The first part of the line of which something holds, from its first to its last stretch in a row.
fn part(plan: &Plan, holds: impl Fn(&Stretch) -> bool) -> Option<&[Stretch]> {
    let stretches = plan.line.stretches();
    let first = stretches.iter().position(&holds)?;
    let count = stretches[first..]
        .iter()
        .take_while(|stretch| holds(stretch))
        .count();
    Some(&stretches[first..first + count])
}

/// A soft thread is as wide as its neighbours leave it room; the braid jams when there is none even for round threads.
fn jammed(design: &Design, plan: &Plan) -> Option<Notice> {
    let round = design.thread().round_diameter() / design.thread().width();
    let factor = |stretch: &Stretch| stretch.rest.cover_factor * round;
    let jammed = part(plan, |stretch| factor(stretch) >= 1.0)?;
    let factors = jammed.iter().map(factor);
    Some(Notice::Jammed {
        from: jammed[0].from(),
        to: jammed[jammed.len() - 1].to(),
        cover_factor: factors.fold(0.0, f64::max),
    })
}

fn too_open(design: &Design, plan: &Plan) -> Option<Notice> {
    let least = design.share(Setting::LeastCover);
    let open = part(plan, |stretch| stretch.rest.cover() < least)?;
    let covers = open.iter().map(|stretch| stretch.rest.cover());
    Some(Notice::TooOpen {
        from: open[0].from(),
        to: open[open.len() - 1].to(),
        cover: covers.fold(1.0, f64::min),
    })
}

/// Lags a step needs until a twentieth of it is left, e⁻³ = 0.050.
const LAGS: f64 = 3.0;

fn restless(plan: &Plan) -> Option<Notice> {
    let lag = |at: Length| plan.line.stretch_at(at).convergence.lag() * LAGS;
    // A change of wheels beside its stop was put there to steady the angle.
    let places: Vec<Length> = plan.layout.stops.iter().map(|stop| stop.at).collect();
    let is_close = |pair: &&[Length]| pair[1] - pair[0] < lag(pair[0]);
    let close: Vec<&[Length]> = places.windows(2).filter(is_close).collect();
    let first = close.first()?;
    Some(Notice::Restless {
        stops: close.len(),
        at: first[0],
        needed: lag(first[0]),
    })
}

fn bobbin_too_small(plan: &Plan) -> Option<Notice> {
    let small = || {
        plan.bobbins
            .iter()
            .filter_map(|bobbin| Some((*bobbin, bobbin.runs_out?)))
    };
    let (first, at) = small().min_by(|a, b| a.1.metres().total_cmp(&b.1.metres()))?;
    Some(Notice::BobbinTooSmall {
        bobbins: small().count(),
        first,
        at,
    })
}
