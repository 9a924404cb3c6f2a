//! The late angle in closed form, held against its equation integrated step by step.

use core::f64::consts::PI;

use taperwright::base::units::{Angle, Length};
use taperwright::braid::convergence::Convergence;
use taperwright::braid::geometry::{Braid, Braiding};

use crate::braider::Yarn;
use crate::designs::usual;
use crate::lag::{Setting, alpha_after_step};
use crate::row::{agree, row};

/// The usual yarn, silk of 12 ends of 20/22 denier, as the integration takes it.
fn yarn() -> Yarn {
    Yarn {
        end: 21.0 / 9e6,
        fibre_density: 1340.0,
        packing: 0.70,
        flattening: 1.5,
        crimp: 0.02,
        fibre_fraction: 0.55,
    }
}

/// Threads, and the lay drawn for them.
#[derive(Clone, Copy)]
struct Machine {
    threads: u32,
    lay: Length,
}

impl Machine {
    /// So many threads, on the lay that brings so many to rest at an angle, and a share more.
    fn at(threads: u32, (drawn_for, degrees): (u32, f64), more: f64) -> Self {
        let lay = usual()
            .braiding()
            .at_angle(drawn_for, Angle::from_degrees(degrees))
            .lay;
        Self {
            threads,
            lay: lay * (1.0 + more),
        }
    }

    fn rest(self, braiding: &Braiding) -> Braid {
        braiding.at_lay(self.threads, self.lay)
    }

    fn setting(self) -> Setting {
        Setting {
            threads: self.threads,
            ends: 12,
            lay: self.lay.metres(),
        }
    }
}

/// The way from one machine at rest to another, on a guide of so many mm.
fn way(guide: Length, before: Machine, after: Machine) -> Convergence {
    let braiding = usual().braiding();
    let way = |machine: Machine, start| {
        let rest = machine.rest(&braiding);
        Convergence::new(&braiding, machine.threads.into(), &rest, guide, start)
    };
    let start = way(before, None).distance(Length::ZERO);
    way(after, Some(start))
}

/// The most degrees between closed form and integration on the way to rest, of some loads at some angles, when so many
/// threads come in and the lay grows by a share.
fn most_apart(threads: i32, more: f64) -> f64 {
    let guide = Length::from_millimetres(25.0);
    let levels = [30.0, 45.0, 52.0].map(|degrees| [8_u32, 11, 16].map(|from| (from, degrees)));
    let apart = levels.into_iter().flatten().flat_map(|level| {
        let before = Machine::at(level.0, level, 0.0);
        let after = Machine::at(level.0.saturating_add_signed(threads), level, more);
        let way = way(guide, before, after);
        [0.0, 0.2, 0.5, 1.0, 2.0].map(|lags| {
            let along = way.lag() * lags;
            let steps = (before.setting(), after.setting());
            let stepped = alpha_after_step(&yarn(), guide.metres(), steps, along.metres());
            (way.angle(along).degrees() - stepped.to_degrees()).abs()
        })
    });
    apart.fold(0.0, f64::max)
}

/// Threads in or out, share by which the lay grows, and the limit in degrees; after each row the worst seen.
#[test]
fn usual_steps_follow_their_equation() {
    let rows = [
        (1, 0.0, 0.02),     // 0.006
        (-1, 0.0, 0.02),    // 0.013
        (0, 0.05, 0.002),   // 0.001
        (0, -0.05, 0.002),  // 0.001
        (1, 0.05, 0.002),   // 0.001
        (-1, -0.05, 0.005), // 0.002
        (1, -0.05, 0.05),   // 0.022
        (-1, 0.05, 0.05),   // 0.035
        (0, 0.10, 0.01),    // 0.006
        (0, -0.10, 0.01),   // 0.007
    ];
    for (threads, more, limit) in rows {
        let apart = most_apart(threads, more);
        assert!(
            apart < limit,
            "{threads} threads, {more} of lay: {apart}° apart"
        );
    }
}

/// A fifth of the lay at once turns the angle by some 10°; the closed form is then off by up to 0.07° on the way.
#[test]
fn large_steps_follow_their_equation_nearly() {
    for more in [0.20, -0.20] {
        let apart = most_apart(0, more);
        assert!(apart < 0.1, "{more} of lay: {apart}° apart");
    }
}

/// Analytic: of a small step 1/e is left after one lag and 1/e³ after three, so that 63 % and 95 % are done.
#[test]
fn a_small_step_dies_away_by_the_lag() {
    let guide = Length::from_millimetres(25.0);
    for level in [(8, 45.0), (16, 45.0), (12, 30.0)] {
        let (before, after) = (
            Machine::at(level.0, level, -1e-4),
            Machine::at(level.0, level, 0.0),
        );
        let way = way(guide, before, after);
        let rest = after.rest(&usual().braiding()).angle.radians();
        let steps = (before.setting(), after.setting());
        for (lags, done) in [(1.0, "63.2"), (3.0, "95.0")] {
            let along = way.lag() * lags;
            let stepped = |along: Length| alpha_after_step(&yarn(), 0.025, steps, along.metres());
            let planned = |along: Length| way.angle(along).radians();
            for angle in [&stepped as &dyn Fn(Length) -> f64, &planned] {
                let (start, now) = (angle(Length::ZERO), angle(along));
                row(100.0 * (start - now) / (start - rest), done);
            }
        }
    }
}

/// Analytic: where the path is held at one thickness it does not shrink, and the lag is the distance h∞ = L S/(2πr) at
/// which the threads meet, with r half a thickness, t = √(4 T/(πρψe)), and S = √(R² − r²).
#[test]
fn where_the_path_is_held_the_lag_is_the_distance() {
    let radius = 0.5 * (4.0 * 28e-6 / (PI * 1340.0 * 0.70 * 1.5)).sqrt();
    for (guide, lay) in [(25e-3_f64, 1e-3), (60e-3, 2e-3)] {
        let two = Machine {
            threads: 2,
            lay: Length::from_metres(lay),
        };
        let way = way(Length::from_metres(guide), two, two);
        let free = (guide * guide - radius * radius).sqrt();
        let distance = lay * free / (2.0 * PI * radius);
        agree(way.lag().metres(), distance, 1e-9);
        agree(way.distance(Length::ZERO).metres(), distance, 1e-9);
    }
}
