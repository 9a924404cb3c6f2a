//! How well a braid is read from a picture, on pictures whose truth is known.
//!
//! Source: the camera of these tests, which has its own geometry. What is compared is the angle on the surface at the crowns,
//! `tan α = π d / L`, with the diameter `d` over the crowns as jaws measure it. The limits are those the project sets itself.

#![allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "shares of small numbers are cut on purpose"
)]

use taperwright::photo::{Asked, PhotoReading, PhotoRefusal, Picture, read_braid};

use crate::render::{Photo, Scene, render, truth};

/// Brightness of a picture of the camera.
pub(crate) fn picture(photo: &Photo) -> Picture {
    let (width, height) = (photo.width as usize, photo.height as usize);
    Picture::from_rgba(width, height, &photo.rgba).expect("it has few enough pixels")
}

/// What is read of a scene.
pub(crate) fn read(scene: &Scene, asked: &Asked) -> Result<PhotoReading, PhotoRefusal> {
    read_braid(&picture(&render(scene)), asked)
}

/// A scene as a maker may take it, over all that can be met: blur to 3 px, noise, uneven light, JPEG, slant to 5°, every turn.
fn scene(seed: u64) -> Scene {
    let scene = Scene::random(seed);
    let part = |count: u64| (seed % count) as f64 / (count - 1) as f64;
    Scene {
        angle_deg: 30.0 + 30.0 * part(31),
        blur_px: 0.3 + 2.7 * part(28),
        noise_sd: 8.0 * part(9) as f32,
        slant_deg: 10.0 * part(11) - 5.0,
        gradient: 0.5 * part(7) as f32,
        jpeg_quality: [None, Some(50), Some(70), Some(90)][(seed % 4) as usize],
        ..scene
    }
}

/// What came of many pictures.
#[derive(Default)]
struct Tally {
    /// Distance from the true angle, degrees, and the error stated.
    angles: Vec<(f64, f64)>,
    /// Seeds of those that are far off.
    far_off: Vec<u64>,
    /// Distance of the crossings from the true ones, as a share.
    crossings: Vec<f64>,
    refused: Vec<(u64, PhotoRefusal)>,
}

impl Tally {
    fn of(seeds: core::ops::Range<u64>, is_stated: bool) -> Self {
        let mut tally = Self::default();
        for seed in seeds {
            let scene = scene(seed);
            let asked = Asked {
                threads: is_stated.then_some(scene.threads),
                ..Asked::default()
            };
            let truth = truth(&scene);
            match read(&scene, &asked) {
                Ok(reading) => {
                    let off = (reading.angle.value - truth.crown_angle).to_degrees().abs();
                    tally.angles.push((off, reading.angle.error.to_degrees()));
                    if off > 3.0 {
                        tally.far_off.push(seed);
                    }
                    let crossings = 1.0 / reading.spacing.value;
                    tally
                        .crossings
                        .push((crossings / truth.crossings_per_px - 1.0).abs());
                }
                Err(why) => tally.refused.push((seed, why)),
            }
        }
        tally
    }

    /// The value below which so large a share lies.
    fn below(values: impl Iterator<Item = f64>, share: f64) -> f64 {
        let mut values: Vec<f64> = values.collect();
        values.sort_by(f64::total_cmp);
        values[((values.len() - 1) as f64 * share).round() as usize]
    }

    fn off(&self, share: f64) -> f64 {
        Self::below(self.angles.iter().map(|(off, _)| *off), share)
    }

    /// Share of the angles that are as near as stated.
    fn within_stated(&self) -> f64 {
        let near = self.angles.iter().filter(|(off, error)| off <= error);
        near.count() as f64 / self.angles.len() as f64
    }
}

/// Where the maker, or the plan, says how many threads there are.
#[test]
fn with_the_count_of_threads_the_angle_is_right_to_half_a_degree() {
    let tally = Tally::of(0..120, true);
    let said = format!(
        "median {:.2}°, 95 % {:.2}°, within stated {:.2}, refused {:?}",
        tally.off(0.5),
        tally.off(0.95),
        tally.within_stated(),
        tally.refused
    );
    println!("{said}");
    assert!(tally.off(0.5) <= 0.5 && tally.off(0.95) <= 1.5, "{said}");
    assert!(Tally::below(tally.crossings.iter().copied(), 0.95) <= 0.03);
    // Honest: not smaller than what happens, and not so large that they say nothing.
    assert!(tally.within_stated() >= 0.68, "{said}");
    let stated = Tally::below(tally.angles.iter().map(|(_, error)| *error), 0.5);
    assert!(stated <= 0.7, "{stated}");
    assert!(tally.far_off.len() * 100 <= tally.angles.len(), "{said}");
    assert!(tally.refused.len() * 10 <= 120, "{said}");
}

/// Where nobody says so, threads are counted; pictures that do not show the count are not guessed at.
#[test]
fn without_the_count_few_answers_are_wrong() {
    let tally = Tally::of(1000..1120, false);
    let said = format!(
        "median {:.2}°, 95 % {:.2}°, within stated {:.2}, far off {:?}, read {}, refused {:?}",
        tally.off(0.5),
        tally.off(0.95),
        tally.within_stated(),
        tally.far_off,
        tally.angles.len(),
        tally.refused
    );
    println!("{said}");
    assert!(tally.off(0.5) <= 0.5 && tally.off(0.95) <= 1.5, "{said}");
    assert!(tally.within_stated() >= 0.68, "{said}");
    assert!(tally.far_off.len() * 100 <= tally.angles.len(), "{said}");
    assert!(tally.refused.len() * 3 <= 120, "{said}");
}
