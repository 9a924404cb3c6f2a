//! The camera shows what the scene says. All figures here are analytic.

use std::f64::consts::{PI, TAU};

use crate::render::{
    Background, Body, Family, Flaw, Pattern, Photo, Scene, Subject, render, truth,
};

/// Machines of every pattern at several angles.
const BRAIDS: [(u32, Pattern, f64); 7] = [
    (8, Pattern::Diamond, 30.0),
    (8, Pattern::Regular, 45.0),
    (16, Pattern::Diamond, 60.0),
    (16, Pattern::Regular, 35.0),
    (12, Pattern::Hercules, 45.0),
    (24, Pattern::Hercules, 55.0),
    (32, Pattern::Regular, 42.0),
];

/// A picture without any fault: no blur, no noise, a plain dark ground.
pub(crate) fn clean() -> Scene {
    Scene {
        blur_px: 0.0,
        noise_sd: 0.0,
        background: Background {
            colour: [0.0, 0.0, 0.0],
            mottle: 0.0,
            shadow: 0.0,
        },
        width: 400,
        height: 400,
        pixels_per_diameter: 120.0,
        turn: 0.0,
        shift: 0.0,
        ..Scene::default()
    }
}

pub(crate) fn braids() -> impl Iterator<Item = Scene> {
    BRAIDS
        .into_iter()
        .map(|(threads, pattern, angle_deg)| Scene {
            threads,
            pattern,
            angle_deg,
            ..clean()
        })
}

/// Brightness of a pixel.
pub(crate) fn tone(photo: &Photo, column: usize, row: usize) -> f64 {
    f64::from(photo.rgba[4 * (row * photo.width as usize + column) + 1])
}

/// Rising threads that lie on top, one after another, on the rib that faces the camera; over a length in diameters.
fn passing(body: &Body, length: f64) -> usize {
    let steps = 4000;
    let threads: Vec<u32> = (0..steps)
        .filter_map(|step| {
            body.describe(0.0, length * f64::from(step) / f64::from(steps))
                .thread
        })
        .filter(|thread| thread.family == Family::Rising)
        .map(|thread| thread.index)
        .collect();
    threads.windows(2).filter(|pair| pair[0] != pair[1]).count()
}

#[test]
fn crossings_on_a_rib_are_half_the_threads_a_lay() {
    for scene in braids() {
        let truth = truth(&scene);
        // On the rib that faces the camera one family is on top at every crossing: as many of its threads pass as there are crossings.
        let lays = 5.0;
        let length = lays * truth.lay_px / scene.pixels_per_diameter;
        let counted = passing(&Body::of(&scene), length) as f64;
        let expected = truth.crossings_per_px * lays * truth.lay_px;
        assert!(
            (counted - expected).abs() <= 1.0,
            "{scene:?}: {counted} {expected}"
        );
        let by_hand = f64::from(scene.threads) / (2.0 * truth.lay_px);
        assert!((truth.crossings_per_px / by_hand - 1.0).abs() < 1e-12);
        // Spacing round by spacing along is the tangent of the braid angle.
        let round = 2.0 * PI * truth.path_diameter_px / f64::from(scene.threads);
        assert!((round * truth.crossings_per_px - truth.angle.tan()).abs() < 1e-9);
    }
}

#[test]
fn a_thread_floats_as_its_pattern_says() {
    for scene in braids() {
        // Threads that touch: between others a thread below would show for a moment.
        let scene = Scene {
            cover: 1.04,
            ..scene
        };
        let body = Body::of(&scene);
        let lay = truth(&scene).lay_px / scene.pixels_per_diameter;
        let float = match scene.pattern {
            Pattern::Diamond => 1.0,
            Pattern::Regular => 2.0,
            Pattern::Hercules => 3.0,
        };
        for (family, way) in [(Family::Rising, 1.0), (Family::Falling, -1.0)] {
            // Along the path of thread 0 for one lay: as many crossings as there are threads.
            let steps = 2400;
            let is_on_top: Vec<bool> = (0..steps)
                .map(|step| {
                    let share = (f64::from(step) + 0.5) / f64::from(steps);
                    let place = body.describe(way * TAU * share, lay * share);
                    place
                        .thread
                        .is_some_and(|thread| thread.family == family && thread.index == 0)
                })
                .collect();
            let changes: Vec<usize> = (1..is_on_top.len())
                .filter(|at| is_on_top[*at] != is_on_top[at - 1])
                .collect();
            let crossing = f64::from(steps) / f64::from(scene.threads);
            for pair in changes.windows(2) {
                let floats = (pair[1] - pair[0]) as f64 / crossing;
                assert!(
                    (floats - float).abs() < 0.35,
                    "{scene:?} {family:?}: {floats}"
                );
            }
            let count = f64::from(scene.threads) / float;
            assert!(
                (changes.len() as f64 - count).abs() <= 1.0,
                "{scene:?}: {}",
                changes.len()
            );
        }
    }
}

#[test]
fn a_slant_brings_crossings_together_in_the_picture() {
    let level = truth(&clean());
    let tipped = truth(&Scene {
        slant_deg: 5.0,
        ..clean()
    });
    let expected = level.crossings_per_px / 5.0_f64.to_radians().cos();
    assert!((tipped.crossings_per_px / expected - 1.0).abs() < 1e-9);
    assert_eq!(tipped.diameter_px, level.diameter_px);
}

#[test]
fn a_missing_thread_leaves_the_core_and_a_loose_one_stands_out() {
    let flaw = Flaw {
        family: Family::Rising,
        index: 0,
        stretch: (-2.0, 2.0),
        stands_out: None,
    };
    let scene = clean();
    let crown = |scene: &Scene| {
        // The crossing of rising and falling thread 0: the rising one is on top.
        let place = Body::of(scene).describe(0.0, 0.0);
        (
            place.radius,
            place.thread.map(|thread| (thread.family, thread.index)),
        )
    };
    let rising = Some((Family::Rising, 0));
    let thickness = 0.5 * (1.0 - truth(&scene).path_diameter_px / truth(&scene).diameter_px);
    let (whole, on_top) = crown(&scene);
    assert!((whole - 0.5).abs() < 0.003 && on_top == rising, "{whole}");
    let (missing, on_top) = crown(&Scene {
        flaw: Some(flaw),
        ..scene.clone()
    });
    assert!((whole - missing - thickness).abs() < 0.01, "{missing}");
    assert_eq!(on_top, Some((Family::Falling, 0)));
    let loose = Flaw {
        stands_out: Some(0.8),
        ..flaw
    };
    let (out, on_top) = crown(&Scene {
        flaw: Some(loose),
        ..scene.clone()
    });
    assert!(
        (out - whole - 0.8 * thickness).abs() < 0.01 && on_top == rising,
        "{out}"
    );
}

#[test]
fn noise_and_blur_are_as_strong_as_the_scene_says() {
    let plain = Scene {
        subject: Subject::Plain,
        noise_sd: 5.0,
        background: Background {
            colour: [0.2, 0.2, 0.2],
            mottle: 0.0,
            shadow: 0.0,
        },
        ..clean()
    };
    let photo = render(&plain);
    let tones: Vec<f64> = photo
        .rgba
        .chunks_exact(4)
        .map(|pixel| f64::from(pixel[0]))
        .collect();
    let mean = tones.iter().sum::<f64>() / tones.len() as f64;
    let variance = tones.iter().map(|tone| (tone - mean).powi(2)).sum::<f64>() / tones.len() as f64;
    assert!((variance.sqrt() - 5.0).abs() < 0.1, "{}", variance.sqrt());
    // sRGB of 0.2 is 0.4845 (analytic).
    assert!((mean - 0.4845 * 255.0).abs() < 0.6, "{mean}");
    let sharp = render(&Scene {
        threads: 32,
        ..clean()
    });
    let soft = render(&Scene {
        threads: 32,
        blur_px: 3.0,
        ..clean()
    });
    let change = |photo: &Photo| -> f64 {
        (150..250)
            .map(|column| (tone(photo, column, 200) - tone(photo, column + 1, 200)).abs())
            .sum()
    };
    assert!(
        change(&soft) < 0.6 * change(&sharp),
        "{} {}",
        change(&soft),
        change(&sharp)
    );
}

#[test]
fn a_picture_survives_its_files() {
    let scene = Scene {
        blur_px: 1.0,
        ..clean()
    };
    let photo = render(&scene);
    let back = image::load_from_memory(&photo.png())
        .expect("a PNG file")
        .to_rgba8();
    assert_eq!(back.as_raw(), &photo.rgba);
    let worn = render(&Scene {
        jpeg_quality: Some(80),
        ..scene
    });
    assert_ne!(worn, photo);
    let change: f64 = photo
        .rgba
        .iter()
        .zip(&worn.rgba)
        .map(|(one, other)| f64::from(one.abs_diff(*other)))
        .sum();
    let mean = change / photo.rgba.len() as f64;
    assert!(mean < 3.0, "{mean}");
}
