//! Where the braid lies in the picture, and that a turned picture shows the same braid. All figures here are analytic.

use crate::camera::{braids, clean, tone};
use crate::render::{Photo, Scene, render, truth, truth_at};

/// First and last bright pixel of a column, with the share of the pixels at its ends.
fn band(photo: &Photo, column: usize) -> Option<(f64, f64)> {
    let bright: Vec<usize> = (0..photo.height as usize)
        .filter(|row| tone(photo, column, *row) > 24.0)
        .collect();
    Some((*bright.first()? as f64, *bright.last()? as f64 + 1.0))
}

#[test]
fn the_outline_is_as_broad_as_the_diameter() {
    for scene in braids() {
        let lit = Scene {
            ambient: 1.0,
            occlusion: 0.0,
            offset_px: 17.0,
            ..scene
        };
        let photo = render(&lit);
        let (mut top, mut foot) = (f64::MAX, 0.0_f64);
        for (first, last) in (0..photo.width as usize).filter_map(|column| band(&photo, column)) {
            (top, foot) = (top.min(first), foot.max(last));
        }
        let truth = truth(&lit);
        assert!(
            (foot - top - truth.diameter_px).abs() <= 2.0,
            "{} {}",
            foot - top,
            truth.diameter_px
        );
        assert!((0.5 * (foot + top) - truth.axis_point.1).abs() <= 1.0);
        assert_eq!(truth.axis_direction, (1.0, 0.0));
    }
}

#[test]
fn a_braid_that_grows_is_as_broad_as_its_truth_everywhere() {
    let scene = Scene {
        diameter_change: 0.12,
        ambient: 1.0,
        occlusion: 0.0,
        threads: 32,
        ..clean()
    };
    let photo = render(&scene);
    for part in [60_usize, 200, 340] {
        let around = (part - 12..part + 12).filter_map(|column| band(&photo, column));
        let breadth = around.fold(0.0_f64, |most, (first, last)| most.max(last - first));
        let truth = truth_at(&scene, part as f64 - 200.0);
        assert!(
            (breadth - truth.diameter_px).abs() <= 3.5,
            "{breadth} {}",
            truth.diameter_px
        );
        assert!((truth.axis_point.0 - part as f64).abs() < 1e-9);
    }
}

#[test]
fn a_turned_picture_is_the_same_picture_turned() {
    let level = clean();
    let photo = render(&level);
    let quarter = render(&Scene {
        rotation_deg: 90.0,
        light_deg: level.light_deg + 90.0,
        ..level.clone()
    });
    let size = photo.width as usize;
    let differs = |(column, row): &(usize, usize)| {
        let there = tone(&quarter, size - 1 - row, *column);
        (tone(&photo, *column, *row) - there).abs() > 2.0
    };
    let different = (0..size)
        .flat_map(|row| (0..size).map(move |column| (column, row)))
        .filter(differs)
        .count();
    // Rounding may put a point of a border on the other side of it.
    assert!(different < 30, "{different}");
}

/// Brightness between pixels, from the four around; places count from the corner of the picture.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn tone_between(photo: &Photo, x: f64, y: f64) -> f64 {
    let (x, y) = (x - 0.5, y - 0.5);
    let (left, above) = (x as usize, y as usize);
    let (across, below) = (x - left as f64, y - above as f64);
    let line =
        |row: usize| tone(photo, left, row) * (1.0 - across) + tone(photo, left + 1, row) * across;
    line(above) * (1.0 - below) + line(above + 1) * below
}

#[test]
fn a_picture_turned_by_any_angle_shows_the_same_braid() {
    // Most turns fall between pixels, so blurred pictures are compared, and on the whole.
    let soft = Scene {
        blur_px: 1.5,
        ..clean()
    };
    let photo = render(&soft);
    for turned_by in [37.0_f64, 161.0, 285.0] {
        let turned = render(&Scene {
            rotation_deg: turned_by,
            light_deg: soft.light_deg + turned_by,
            ..soft.clone()
        });
        let (sine, cosine) = turned_by.to_radians().sin_cos();
        let difference = |column: usize, row: usize| {
            let (right, down) = (column as f64 - 199.5, row as f64 - 199.5);
            let there = tone_between(
                &turned,
                200.0 + right * cosine - down * sine,
                200.0 + right * sine + down * cosine,
            );
            (there - tone(&photo, column, row)).abs()
        };
        let sum: f64 = (100..300)
            .flat_map(|row| (100..300).map(move |column| (column, row)))
            .map(|(column, row)| difference(column, row))
            .sum();
        assert!(sum / 40_000.0 < 1.5, "{turned_by}: {}", sum / 40_000.0);
    }
}
