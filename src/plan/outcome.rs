//! Angle, strength, yarn and work of a whole line.

use crate::base::units::{Angle, Force, Length, Mass};
use crate::braid::stretch::{BraidedLine, Stretch};
use crate::braid::threads::Level;
use crate::braid::track::Interlacing;
use crate::design::Design;
use crate::design::pin::Pin;
use crate::design::settings::Setting;
use crate::plan::bobbins::{Bobbin, Plying, Winding};
use crate::plan::layout::{Ground, Layout};

/// The angle where it is farthest from the target.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WorstAngle {
    /// The angle there.
    pub angle: Angle,
    /// How far from the target, either way.
    pub off: Angle,
    /// Where.
    pub at: Length,
}

/// Yarn for the whole line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct YarnTotal {
    /// Thread on all bobbins together.
    pub thread: Length,
    /// Filament end to take from the cones, allowance for plying included.
    pub ends: Length,
    /// Mass of the thread on the bobbins, as braided.
    pub mass: Mass,
    /// Mass to buy: with the allowance for plying, and before degumming where the yarn is entered raw.
    pub bought: Mass,
}

/// The breaking force of the bare braid where it is weakest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strength {
    /// Dry.
    pub dry: Force,
    /// Wet.
    pub wet: Force,
    /// Where.
    pub at: Length,
}

/// How the braid interlaces, over all levels of the line.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Interlacings {
    /// The most crossings in a row any thread stays on one side.
    pub longest_float: u32,
    /// The widest step between engaged neighbours of one direction, in places of the track.
    pub widest_gap: u32,
}

/// The work at the machine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Workload {
    /// Carrier circuits for the whole line, lead-in included.
    pub circuits: f64,
    /// Of these, circuits of the lead-in.
    pub lead_in: f64,
    /// Minutes the machine runs for them.
    pub minutes: f64,
    /// Turns of the handle in one circuit; 0 where a motor drives.
    pub handle_turns: f64,
    /// Circuits a minute.
    pub speed: f64,
}

/// The middle of the belly, or the thickest place where the line has no level belly.
pub(super) fn belly_middle(ground: &Ground) -> Length {
    let (first, last) = ground.taper.belly();
    let at = |index: usize| ground.taper.points()[index].at;
    (at(first) + at(last)) / 2.0
}

/// The pins of carriers that hold: the level before the step, upwards, and the pin's place in the list.
pub(super) fn carrier_pins(pins: &[Pin], layout: &Layout, most: u32) -> Vec<(Level, usize)> {
    let is_dropped = |index: usize| {
        layout
            .dropped_pins
            .iter()
            .any(|dropped| dropped.index == index)
    };
    let of_carrier = |(index, pin): (usize, &Pin)| {
        let level = match *pin {
            Pin::Carrier { threads, .. } => Level { threads, heavy: 0 },
            Pin::Swap { heavy, .. } => Level {
                threads: most,
                heavy,
            },
            Pin::Place { .. } | Pin::Wheels { .. } => return None,
        };
        (!is_dropped(index)).then_some((level, index))
    };
    pins.iter().enumerate().filter_map(of_carrier).collect()
}

pub(super) fn over_all(interlacings: &[Interlacing]) -> Interlacings {
    let wider = |all: Interlacings, one: &Interlacing| Interlacings {
        longest_float: all.longest_float.max(one.longest_float),
        widest_gap: all.widest_gap.max(one.widest_gap),
    };
    interlacings.iter().fold(Interlacings::default(), wider)
}

/// The first of the places that are farthest from the target. Within a stretch the angle only rises or only falls, so it is
/// farthest at one of its ends.
pub(super) fn worst_angle(line: &BraidedLine, target: Angle) -> WorstAngle {
    let judged = line.stretches().iter().flat_map(|stretch| {
        [stretch.from(), stretch.to()].map(|at| {
            let angle = stretch.angle_at(at);
            WorstAngle {
                angle,
                off: (angle - target).abs(),
                at,
            }
        })
    });
    let worst = judged.reduce(|worst, other| if other.off > worst.off { other } else { worst });
    worst.unwrap_or(WorstAngle {
        angle: target,
        off: Angle::ZERO,
        at: Length::ZERO,
    })
}

/// A pull no less than this share of another is the same.
const ALIKE: f64 = 1.0 - 1e-9;

/// What the threads can bear where they are fewest and steepest: efficiency · Σ(tenacity · T) · cos α; buried tails carry no load.
pub(super) fn strength(design: &Design, ground: &Ground, line: &BraidedLine) -> Strength {
    let thread = ground.process.braiding.thread.linear_density();
    let bears = |stretch: &Stretch, at: Length| {
        let pull = stretch.piece.load.yarn / stretch.secant_at(at);
        (pull, at)
    };
    let places = line
        .stretches()
        .iter()
        .flat_map(|stretch| [bears(stretch, stretch.from()), bears(stretch, stretch.to())]);
    // The first of several that are alike but for rounding.
    let weakest = places.reduce(|weakest, other| {
        if other.0 < weakest.0 * ALIKE {
            other
        } else {
            weakest
        }
    });
    let (pull, at) = weakest.unwrap_or((0.0, Length::ZERO));
    let dry = design.braid_tenacity() * thread.kilograms_per_metre() * pull;
    Strength {
        dry: Force::from_newtons(dry),
        wet: Force::from_newtons(dry * design.draft().fibre.wet_strength()),
        at,
    }
}

pub(super) fn winding<'a>(design: &Design, line: &'a BraidedLine) -> Winding<'a> {
    let thread = design.thread();
    Winding {
        line,
        supply: design.supply(),
        end: thread.end,
        density: thread.fibre_density,
        size: design.bobbin(),
        allowance: design.thread_allowance(),
        lead_in: design.lead_in(),
        tail: design.buried_tail(),
        plying: design.share(Setting::PlyingAllowance),
    }
}

pub(super) fn yarn_total(design: &Design, bobbins: &[Bobbin], plying: &[Plying]) -> YarnTotal {
    let plied: Mass = plying.iter().map(|kind| kind.mass).sum();
    YarnTotal {
        thread: bobbins.iter().map(|bobbin| bobbin.length).sum(),
        ends: plying.iter().map(|kind| kind.yarn).sum(),
        mass: bobbins.iter().map(|bobbin| bobbin.mass).sum(),
        bought: plied / design.kept_in_degumming(),
    }
}

pub(super) fn workload(design: &Design, line: &BraidedLine) -> Workload {
    let lead_in = design.lead_in() / line.stretches()[0].piece.lay;
    let circuits = lead_in + line.circuits(Length::ZERO, line.length());
    let speed = design.setting(Setting::CircuitSpeed);
    Workload {
        circuits,
        lead_in,
        minutes: circuits / speed,
        handle_turns: design.setting(Setting::HandleTurns),
        speed,
    }
}
