//! Angles in pictures of braids, against a general library for pictures.
//!
//! scikit-image 0.26.0, `NumPy` 2.4.6: `structure_tensor` over the middle half of the surface laid flat, and the modes of the directions. The
//! script knows nothing of the scenes but where the braid lies. The figures are what `tests/against/photo.py` prints; the test here
//! writes what it reads.
//!
//! The library sees what streaks and edges show, so it is held against the angle at the mean radius of the surface. Where it was tried
//! and fails: with 8 threads the surface shows too few of them, and the round crowns of one over one
//! draw it outwards (32 threads at 50°: by 2.5°).

use std::fmt::Write;

use taperwright::photo::{Asked, read_braid};

use crate::accuracy::picture;
use crate::pictures::{folder, keep};
use crate::render::{Background, Pattern, Scene, render, truth};

/// Scenes by name, and half the angle the library sees between the families, in degrees.
const ANGLES: [(&str, f64); 12] = [
    ("library-01", 50.11),
    ("library-02", 47.67),
    ("library-03", 41.01),
    ("library-04", 59.60),
    ("library-05", 39.05),
    ("library-06", 36.82),
    ("library-07", 60.29),
    ("library-08", 43.09),
    ("library-09", 51.19),
    ("library-10", 30.31),
    ("library-11", 41.81),
    ("library-12", 53.91),
];

/// The scene of a picture: machines of all patterns, angles over all that is braided, several lights, some blur and noise.
fn scene(number: u32) -> Scene {
    let (threads, pattern, angle_deg) = [
        (18, Pattern::Hercules, 45.0),
        (16, Pattern::Diamond, 42.0),
        (16, Pattern::Regular, 35.0),
        (16, Pattern::Regular, 55.0),
        (24, Pattern::Diamond, 36.0),
        (24, Pattern::Regular, 33.0),
        (36, Pattern::Hercules, 58.0),
        (32, Pattern::Diamond, 40.0),
        (32, Pattern::Regular, 48.0),
        (32, Pattern::Regular, 28.0),
        (48, Pattern::Regular, 40.0),
        (48, Pattern::Hercules, 52.0),
    ][number as usize % 12];
    let step = f64::from(number);
    let is_bright = number % 3 != 2;
    let (thread, ground) = if is_bright { (0.6, 0.05) } else { (0.12, 0.55) };
    Scene {
        threads,
        pattern,
        angle_deg,
        turn: 0.7 * step,
        shift: 0.13 * step,
        light_deg: 53.0 * step,
        rotation_deg: 29.0 * step,
        offset_px: 5.0 * step - 25.0,
        pixels_per_diameter: 9.0 * f64::from(threads).clamp(24.0, 48.0),
        blur_px: 0.6 + 0.1 * f64::from(number % 4),
        noise_sd: 2.0,
        flatness: 2.0,
        fibre: 0.7,
        colour: [thread; 3],
        background: Background {
            colour: [ground; 3],
            mottle: 0.15,
            shadow: 0.3,
        },
        width: 800,
        height: 600,
        seed: 900 + u64::from(number),
        ..Scene::default()
    }
}

#[test]
fn a_general_library_sees_the_angles_of_the_scenes() {
    let mut where_it_lies = String::from("name,x,y,right,down,diameter,thread\n");
    for (number, (name, theirs)) in (0..).zip(ANGLES) {
        let scene = scene(number);
        let truth = truth(&scene);
        let ours = truth.surface_angle.to_degrees();
        assert!((ours - theirs).abs() < 1.5, "{name}: {ours} {theirs}");
        let photo = render(&scene);
        keep(name, &photo);
        // What is read is the angle at the crowns; at the mean radius of the surface it is smaller by what the truth says.
        let asked = Asked {
            threads: Some(scene.threads),
            ..Asked::default()
        };
        let reading = read_braid(&picture(&photo), &asked).expect("the scenes are clear");
        let lower = truth.surface_angle.tan() / truth.crown_angle.tan();
        let read = (reading.angle.value.tan() * lower).atan().to_degrees();
        assert!((read - theirs).abs() < 1.5, "{name}: {read} {theirs}");
        let ((x, y), (right, down)) = (truth.axis_point, truth.axis_direction);
        let (diameter, thread) = (truth.diameter_px, truth.thread_width_px);
        writeln!(
            where_it_lies,
            "{name},{x},{y},{right},{down},{diameter},{thread}"
        )
        .expect("a text takes all");
    }
    std::fs::write(folder().join("library.csv"), where_it_lies)
        .expect("the target folder can be written");
}
