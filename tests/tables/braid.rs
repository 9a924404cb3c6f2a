//! The braid at one station: mass, diameter, lay, crossings and cover.

use taperwright::base::units::{Angle, Length, LinearDensity};
use taperwright::braid::geometry::{
    Braiding, Load, angle_of, cover, cover_factor, crossings_per_metre, lay,
};
use taperwright::braid::threads::{Build, Level, Supply};
use taperwright::braid::yarn::{Fibre, Thread, round_diameter};

use crate::row::{agree, row};

fn silk(tex: f64, crimp: f64, fibre_fraction: f64) -> Braiding {
    Braiding {
        thread: Thread {
            fibre_density: Fibre::Silk.density(),
            end: LinearDensity::from_tex(tex),
            ends: 1,
            packing: 0.70,
            flattening: 1.5,
        },
        crimp,
        fibre_fraction,
    }
}

fn degrees(degrees: f64) -> Angle {
    Angle::from_degrees(degrees)
}

fn mm(millimetres: f64) -> Length {
    Length::from_millimetres(millimetres)
}

/// Analytic: 1/cos α, from any table of secants.
#[test]
fn thread_lies_longer_than_the_line_by_the_secant() {
    let rows = [
        (20.0, "1.0642"),
        (25.0, "1.1034"),
        (30.0, "1.1547"),
        (35.0, "1.2208"),
        (40.0, "1.3054"),
        (45.0, "1.4142"),
        (50.0, "1.5557"),
    ];
    for (angle, secant) in rows {
        row(
            silk(50.0, 0.0, 0.55).at_angle(16, degrees(angle)).take_up,
            secant,
        );
    }
}

/// Analytic: N T (1 + c)/cos α, by hand. The first three rows were worked out with the rounded size of 46.7 tex, the
/// last three are the same for 46.667.
#[test]
fn braids_have_their_mass_per_length() {
    let rows = [
        (46.7, 16, 25.0, "849.2"),
        (46.7, 16, 30.0, "888.7"),
        (46.7, 8, 30.0, "444.3"),
        (46.667, 16, 25.0, "848.6"),
        (46.667, 16, 30.0, "888.0"),
        (46.667, 8, 30.0, "444.0"),
    ];
    for (tex, threads, angle, braid) in rows {
        row(
            silk(tex, 0.03, 0.55)
                .at_angle(threads, degrees(angle))
                .linear_density
                .tex(),
            braid,
        );
    }
}

/// Analytic: d = √(4 T/(πρφ)) for a braid of 849.2 tex of silk, by hand; then the same through a whole braid.
#[test]
fn braids_have_their_outer_diameter() {
    for (fraction, millimetres) in [(0.50, "1.270"), (0.55, "1.211"), (0.60, "1.160")] {
        let braid = LinearDensity::from_tex(849.2);
        row(
            round_diameter(braid, Fibre::Silk.density(), fraction).millimetres(),
            millimetres,
        );
        row(
            silk(46.7, 0.03, fraction)
                .at_angle(16, degrees(25.0))
                .diameter
                .millimetres(),
            millimetres,
        );
    }
}

/// Analytic: tan α = πD/L and P = N/(2L), by hand.
#[test]
fn lay_angle_and_crossings_belong_together() {
    let rows = [
        (1.00, 4.000, 16, "38.146", "20.000"),
        (0.80, 4.350, 16, "30.018", "18.391"),
        (0.60, 3.260, 8, "30.037", "12.270"),
        (25.0, 78.540, 32, "45.000", "2.037"),
    ];
    for (path, drawn, threads, angle, per_centimetre) in rows {
        let found = angle_of(mm(path), mm(drawn));
        row(found.degrees(), angle);
        row(
            crossings_per_metre(threads, mm(drawn)) / 100.0,
            per_centimetre,
        );
        agree(lay(mm(path), found).millimetres(), drawn, 1e-12);
    }
}

/// Analytic: F = N w/(2πD cos α) and K = 2F − F² for N 16, D 0.9 mm, w 0.15 mm, by hand.
#[test]
fn cover_follows_the_angle() {
    let rows = [
        (20.0, "0.4517", "0.6993"),
        (30.0, "0.4901", "0.7400"),
        (40.0, "0.5540", "0.8011"),
        (45.0, "0.6002", "0.8402"),
        (55.0, "0.7399", "0.9324"),
        (60.0, "0.8488", "0.9771"),
    ];
    for (angle, factor, share) in rows {
        let found = cover_factor(16, mm(0.15), mm(0.9), degrees(angle));
        row(found, factor);
        row(cover(found), share);
    }
}

/// The shielding formula of braided cable screens, K = 2F − F² with F = N P d/sin α and tan α = 2π(D + 2d)P/C, from
/// memory: C 16 carriers of N 5 ends of d 0.0063 in over a core of D 0.116 in at P 8 picks per inch. Its path
/// diameter is D + 2d, its thread five ends wide, and 8 picks per inch of 16 carriers are a lay of one inch.
#[test]
fn cover_is_that_of_a_cable_screen() {
    let path = Length::from_inches(0.116 + 2.0 * 0.0063);
    let picks_per_metre = crossings_per_metre(16, Length::from_inches(1.0));
    agree(picks_per_metre * 0.0254, 8.0, 1e-12);
    let angle = angle_of(path, Length::from_inches(1.0));
    row(angle.degrees(), "21.999");
    let factor = cover_factor(16, Length::from_inches(5.0 * 0.0063), path, angle);
    row(factor, "0.6727");
    row(100.0 * cover(factor), "89.29");
}

/// Analytic: threads touch where cos α = N w/(2πD); there F is 1, and cover stays whole beyond.
#[test]
fn threads_touch_at_the_jamming_angle() {
    for (ratio, angle) in [(0.5, 60.0), (0.6, 53.1301), (0.7, 45.5730), (0.8, 36.8699)] {
        let path = mm(1.0);
        let width = path * (ratio * 2.0 * core::f64::consts::PI / 16.0);
        agree(cover_factor(16, width, path, degrees(angle)), 1.0, 1e-5);
    }
    assert_eq!(cover(1.0), 1.0);
    assert_eq!(cover(1.5), 1.0);
    assert!(cover(0.999) < 1.0);
}

/// Analytic: a sleeve of constant thread length pulled from 45° to 30° grows 22.47 % longer.
#[test]
fn a_sleeve_stretches_as_its_angle_closes() {
    let take_up = |angle| silk(46.7, 0.02, 0.55).at_angle(16, degrees(angle)).take_up;
    row(100.0 * (take_up(45.0) / take_up(30.0) - 1.0), "22.47");
}

/// Analytic, by a second route: the angle is found here by walking down from 90° in small steps until the thread's
/// circuit closes, with d, D and α worked out again at every step.
#[test]
fn diameter_angle_and_lay_are_solved_together() {
    let braiding = silk(28.0, 0.02, 0.55);
    let thickness = (4.0 * 28e-6 / (core::f64::consts::PI * 1340.0 * 0.70)).sqrt() / 1.5_f64.sqrt();
    for threads in [8_u32, 12, 16] {
        for drawn_mm in [1.2_f64, 1.8, 2.4] {
            let closes = |angle: f64| {
                let mass = f64::from(threads) * 28e-6 * 1.02 / angle.cos();
                let outer = (4.0 * mass / (core::f64::consts::PI * 1340.0 * 0.55)).sqrt();
                core::f64::consts::PI * (outer - 2.0 * thickness) / angle.tan() >= drawn_mm / 1e3
            };
            let step = 1e-6;
            let angle = (0..1_570_000)
                .map(|k| 1.57 - step * f64::from(k))
                .find(|&angle| closes(angle));
            let found = braiding.at_lay(threads, mm(drawn_mm));
            agree(
                found.angle.radians(),
                angle.expect("some angle closes"),
                2e-6,
            );
            agree(found.lay.millimetres(), drawn_mm, 1e-9);
        }
    }
}

/// Eight threads of 12 ends and eight of 18, and the tails of two threads of 12, at an angle. Analytic, by hand: tails
/// lie straight and only add their own mass; the mean thread makes the wall; widths go with the root of the size.
#[test]
fn mixed_threads_and_tails_make_one_braid() {
    let pi = core::f64::consts::PI;
    let (braiding, thread) = (silk(28.0, 0.02, 0.55), 28e-6_f64);
    let mixed = Supply {
        build: Build::Both,
        fewest: 8,
        most: 16,
        light: 12,
        heavy: 18,
    };
    let level = Level {
        threads: 16,
        heavy: 8,
    };
    let load = mixed.load(level).burying(2.0);
    for angle in [30.0_f64, 45.0, 52.0] {
        let found = braiding.at_angle(load, degrees(angle));
        let cosine = angle.to_radians().cos();
        let mass = thread * ((8.0 + 8.0 * 1.5) * 1.02 / cosine + 2.0);
        let outer = (4.0 * mass / (pi * 1340.0 * 0.55)).sqrt();
        let solid = |size: f64| 4.0 * thread * size / (pi * 1340.0 * 0.70);
        let path = outer - 2.0 * (solid(20.0 / 16.0) / 1.5).sqrt();
        let widths = 8.0 * (solid(1.0) * 1.5).sqrt() + 8.0 * (solid(1.5) * 1.5).sqrt();
        agree(found.linear_density.kilograms_per_metre(), mass, 1e-12);
        agree(found.diameter.metres(), outer, 1e-12);
        agree(found.path_diameter.metres(), path, 1e-12);
        let lay = pi * path / angle.to_radians().tan();
        agree(found.lay.metres(), lay, 1e-12);
        agree(
            found.cover_factor,
            widths / (2.0 * pi * path * cosine),
            1e-12,
        );
        agree(found.take_up, 1.02 / cosine, 1e-12);
        agree(found.crossings_per_metre(), 16.0 / (2.0 * lay), 1e-12);
        let drawn = braiding.at_lay(load, Length::from_metres(lay));
        agree(drawn.angle.degrees(), angle, 1e-9);
    }
}

/// Analytic: a tail adds its own mass at any angle, and nothing to what the threads need.
#[test]
fn a_tail_adds_its_own_mass_and_no_more() {
    let braiding = silk(28.0, 0.02, 0.55);
    for angle in [20.0, 45.0, 65.0] {
        let bare = braiding.at_angle(12, degrees(angle));
        let with = braiding.at_angle(Load::from(12).burying(1.5), degrees(angle));
        let more = with.linear_density - bare.linear_density;
        agree(more.tex(), 42.0, 1e-12);
        assert_eq!((with.take_up, with.threads), (bare.take_up, bare.threads));
        let areas = with.diameter.metres().powi(2) - bare.diameter.metres().powi(2);
        agree(
            areas,
            4.0 * 42e-6 / (core::f64::consts::PI * 1340.0 * 0.55),
            1e-9,
        );
    }
}

/// Analytic: the lay of the braid found is the lay asked for, to the rounding of f64, wherever the search is begun from.
#[test]
fn the_lay_asked_for_is_met_to_the_last_digit() {
    for step in 0..2_000_u32 {
        let braiding = silk(28.0, 0.02 + 1e-6 * f64::from(step), 0.55);
        for (threads, millimetres) in [(8, 1.6), (9, 1.9), (13, 2.2), (16, 2.32)] {
            let found = braiding.at_lay(threads, mm(millimetres)).lay;
            agree(found.millimetres(), millimetres, 1e-14);
        }
    }
}
