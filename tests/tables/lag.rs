//! How the braid angle follows a change of threads or gear, by integration, sharing no formula's code with anything else.
//!
//! With threads that run straight from a guide ring of radius R to a path of radius r, an axial distance h on, the braid
//! forms r·h/S for each radian wound, S = √(R² − r²), and the take-off draws L/(2π). So
//! dh/dx = L S/(2π r h) − 1 along the braid formed: the kinematic equation of Du and Popper, Journal of the Textile
//! Institute 85 (1994), 316–337, with the length formed in place of time. Analytic.

use core::f64::consts::PI;

use crate::braider::{Job, Operation, Ring, Seat, Yarn};
use crate::row::agree;

/// What the machine is set to.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Setting {
    /// Threads engaged.
    pub(crate) threads: u32,
    /// Ends of each.
    pub(crate) ends: u32,
    /// Drawn in one circuit, m.
    pub(crate) lay: f64,
}

/// The braid angle, rad, `along` metres of braid after a change from one setting, held for long, to another.
pub(crate) fn alpha_after_step(
    yarn: &Yarn,
    guide_radius: f64,
    (before, after): (Setting, Setting),
    along: f64,
) -> f64 {
    let slope_of = |setting: Setting| {
        move |h: f64| {
            let r = path_radius(yarn, guide_radius, setting, h);
            slope(setting.lay, guide_radius, r, h)
        }
    };
    // The slope falls as h grows and passes 0 where the braid is settled.
    let settled = halve((0.02 * guide_radius, 1e3 * guide_radius), slope_of(before));
    let h = runge_kutta(slope_of(after), settled, along);
    let r = path_radius(yarn, guide_radius, after, h);
    ((guide_radius * guide_radius - r * r).sqrt() / h).atan()
}

/// dh/dx = L S/(2π r h) − 1.
fn slope(lay: f64, guide_radius: f64, r: f64, h: f64) -> f64 {
    lay * (guide_radius * guide_radius - r * r).sqrt() / (2.0 * PI * r * h) - 1.0
}

/// Half of D = d − 2t with d = √(4 N T (1 + c)/(π ρ φ cos α)), at least t/2, by halving: a wider path would lie steeper
/// and take less thread. Analytic.
fn path_radius(yarn: &Yarn, guide_radius: f64, setting: Setting, h: f64) -> f64 {
    let thread = f64::from(setting.ends) * yarn.end;
    let round = thread / (PI / 4.0 * yarn.fibre_density * yarn.packing);
    let thickness = (round / yarn.flattening).sqrt();
    let section = f64::from(setting.threads) * thread / (yarn.fibre_density * yarn.fibre_fraction);
    let too_narrow = |r: f64| {
        let tangent = (guide_radius * guide_radius - r * r).sqrt() / h;
        let secant = (1.0 + tangent * tangent).sqrt();
        let outer = 2.0 * (section * (1.0 + yarn.crimp) * secant / PI).sqrt();
        (outer - 2.0 * thickness).max(thickness) / 2.0 - r
    };
    halve((0.0, guide_radius), too_narrow)
}

/// Where a falling function passes 0.
fn halve((mut low, mut high): (f64, f64), falling: impl Fn(f64) -> f64) -> f64 {
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if falling(middle) > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

/// The classical method of fourth order: h a length `along` on, in steps of a hundredth of h.
fn runge_kutta(slope: impl Fn(f64) -> f64, start: f64, along: f64) -> f64 {
    let (mut h, mut left) = (start, along);
    while left > 0.0 {
        let step = left.min(0.01 * h);
        let first = slope(h);
        let second = slope(h + 0.5 * step * first);
        let third = slope(h + 0.5 * step * second);
        let fourth = slope(h + step * third);
        h += step / 6.0 * (first + 2.0 * second + 2.0 * third + fourth);
        left -= step;
    }
    h
}

/// Analytic: at a held radius dh/dx = h∞/h − 1, whose solution is x = −(h − h₀) − h∞ ln((h∞ − h)/(h∞ − h₀)).
#[test]
fn at_a_held_radius_the_integration_is_exact() {
    let (guide_radius, r) = (0.03_f64, 0.0005_f64);
    for (from, to) in [(0.004, 0.003), (0.003, 0.004), (0.0015, 0.003)] {
        let settled =
            |lay: f64| lay * (guide_radius * guide_radius - r * r).sqrt() / (2.0 * PI * r);
        let (start, goal) = (settled(from), settled(to));
        for along in [0.001, 0.01, 0.05, 0.2] {
            let h = runge_kutta(|h| slope(to, guide_radius, r, h), start, along);
            let exact = -(h - start) - goal * ((goal - h) / (goal - start)).ln();
            agree(exact, along, 1e-6);
        }
    }
}

/// Silk of 20/22 denier, common practice, no source.
fn silk() -> Yarn {
    Yarn {
        end: 21.0 / 9e6,
        fibre_density: 1340.0,
        packing: 0.70,
        flattening: 1.5,
        crimp: 0.02,
        fibre_fraction: 0.55,
    }
}

/// By the stepped braider: sixteen threads and twelve, one gear and another.
#[test]
fn the_angle_follows_as_the_stepped_braider_has_it() {
    let setting = |threads, lay| Setting {
        threads,
        ends: 12,
        lay,
    };
    let (many, few) = (setting(16, 2.4e-3), setting(12, 1.8e-3));
    let same_threads = setting(16, 1.8e-3);
    for steps in [(many, few), (few, many), (many, same_threads)] {
        let record = stepped(steps).run();
        for along in [0.002, 0.01, 0.03, 0.1, 0.5] {
            let found = record.angle(CHANGE + along);
            agree(found, alpha_after_step(&silk(), 0.03, steps, along), 1e-5);
        }
    }
}

/// Where the stepped braider's change comes, m: at no meeting.
const CHANGE: f64 = 0.123_456;

/// The same change on a machine of sixteen places, whose places 0 and 4 each way come in or go out.
fn stepped((before, after): (Setting, Setting)) -> Job {
    let ring = Ring::every(1, 8, 4);
    let differ = [Seat::Forth(0), Seat::Back(0), Seat::Forth(4), Seat::Back(4)];
    let engaged = |setting: Setting| {
        let seats = ring.mounted.iter().copied();
        seats.filter(move |seat| setting.threads == 16 || !differ.contains(seat))
    };
    let ends = after.ends;
    let operations = differ.iter().filter_map(|&seat| {
        let operation = if after.threads > before.threads {
            Operation::Engage { seat, ends }
        } else {
            Operation::Drop { seat, tail: 0.0 }
        };
        (after.threads != before.threads).then_some((CHANGE, operation))
    });
    let ratio = after.lay / before.lay;
    Job {
        yarn: silk(),
        guide_radius: 0.03,
        held_radius: None,
        constant: before.lay,
        ratio: 1.0,
        engaged: engaged(before).map(|seat| (seat, before.ends)).collect(),
        events: operations
            .chain([(CHANGE, Operation::Fit { ratio })])
            .collect(),
        length: CHANGE + 0.6,
        ring,
    }
}

/// Analytic: the path of two threads is one thickness across, t = √(4 T/(πρψe)).
#[test]
fn two_threads_lie_one_thickness_apart() {
    let thickness = (4.0 * 28e-6 / (PI * 1340.0 * 0.70 * 1.5)).sqrt();
    let two = Setting {
        threads: 2,
        ends: 12,
        lay: 1.8e-3,
    };
    agree(
        path_radius(&silk(), 0.03, two, 0.05),
        thickness / 2.0,
        1e-12,
    );
}
