//! What is no braid, what is too poor, and what nobody would call a picture.
//!
//! Sources: none needed. Each follows from what the words mean.

#![allow(
    clippy::cast_possible_truncation,
    reason = "brightness is cut on purpose"
)]

use taperwright::photo::{
    Asked, Line, MOST_PIXELS, PhotoRefusal, Picture, Point, WindowDoubt, read_braid,
};

use crate::accuracy::{picture, read};
use crate::render::{Family, Flaw, Pattern, Scene, Subject, render, truth};

fn usual() -> Scene {
    Scene {
        pixels_per_diameter: 160.0,
        width: 1200,
        height: 400,
        ..Scene::default()
    }
}

#[test]
fn what_is_no_braid_is_refused() {
    for subject in [
        Subject::Rope,
        Subject::Plain,
        Subject::Speckle,
        Subject::Stripes,
        Subject::Knit,
        Subject::Cloth,
    ] {
        for seed in 0..4_u32 {
            let scene = Scene {
                subject,
                rotation_deg: 37.0 * f64::from(seed),
                seed: seed.into(),
                ..usual()
            };
            let reading = read(&scene, &Asked::default());
            assert!(reading.is_err(), "{subject:?} {seed}: {reading:?}");
        }
    }
}

#[test]
fn a_poor_picture_is_refused_with_its_reason() {
    let refused = |scene: Scene| read(&scene, &Asked::default()).expect_err("it is too poor");
    let thin = refused(Scene {
        pixels_per_diameter: 20.0,
        ..usual()
    });
    assert!(
        matches!(thin, PhotoRefusal::TooThin { diameter, needed } if diameter < needed),
        "{thin:?}"
    );
    let short = refused(Scene {
        pixels_per_diameter: 400.0,
        width: 280,
        height: 700,
        ..usual()
    });
    assert!(matches!(short, PhotoRefusal::TooShort { .. }), "{short:?}");
    let blurred = refused(Scene {
        blur_px: 30.0,
        ..usual()
    });
    assert!(
        matches!(
            blurred,
            PhotoRefusal::NoBand | PhotoRefusal::Blurred | PhotoRefusal::NotTwoFamilies
        ),
        "{blurred:?}"
    );
}

/// A wrong count gives a wrong angle, so a count that the picture contradicts is not taken.
#[test]
fn a_count_that_the_picture_contradicts_is_not_taken() {
    for threads in [6, 8, 12, 24, 32] {
        let asked = Asked {
            threads: Some(threads),
            ..Asked::default()
        };
        let reading = read(&usual(), &asked);
        let is_said = matches!(reading, Err(PhotoRefusal::OtherCount { threads: said, .. }) if said == threads);
        assert!(is_said, "{threads}: {reading:?}");
    }
}

/// The edges set by hand are only where it begins to look.
#[test]
fn edges_set_roughly_by_hand_give_the_same_angle() {
    let scene = Scene {
        rotation_deg: 12.0,
        ..usual()
    };
    let photo = picture(&render(&scene));
    let found = read_braid(&photo, &Asked::default()).expect("it is a good picture");
    let moved = |by: f64| {
        found.edges.map(|edge| {
            let to = |place: Point, by: f64| Point::new(place.x, place.y + by);
            Line::new(to(edge.from, by), to(edge.to, -by))
        })
    };
    for by in [-8.0, 8.0] {
        let asked = Asked {
            edges: Some(moved(by)),
            ..Asked::default()
        };
        let reading = read_braid(&photo, &asked).expect("the edges are nearly right");
        let off = (reading.angle.value - found.angle.value).abs();
        assert!(off < found.angle.error, "{by}: {off} {:?}", found.angle);
    }
}

/// A line drawn in at one end has another angle there: that of the whole lies between, and the pieces follow it.
#[test]
fn pieces_follow_a_change_of_the_angle() {
    let scene = Scene {
        angle_change_deg: 1.5,
        ..usual()
    };
    let asked = Asked {
        threads: Some(16),
        ..Asked::default()
    };
    let reading = read(&scene, &asked).expect("it is a good picture");
    let angles: Vec<f64> = reading
        .windows
        .iter()
        .filter_map(|window| window.angle.map(|angle| angle.value.to_degrees()))
        .collect();
    let [first, last] = [angles[0], angles[angles.len() - 1]];
    // Seven diameters of the line are seen; the pieces at the ends are half a diameter within.
    assert!((last - first).abs() > 4.0, "{angles:?}");
    let truth = truth(&scene).crown_angle.to_degrees();
    assert!(
        first.min(last) < truth && truth < first.max(last),
        "{angles:?}"
    );
}

#[test]
fn a_loose_and_a_missing_thread_stand_out() {
    for stands_out in [Some(1.4), None] {
        let scene = Scene {
            flaw: Some(Flaw {
                family: Family::Rising,
                index: 2,
                stretch: (-1.2, 1.2),
                stands_out,
            }),
            ..usual()
        };
        let reading = read(
            &scene,
            &Asked {
                threads: Some(16),
                ..Asked::default()
            },
        );
        let reading = reading.expect("most of it is good");
        let odd = reading
            .windows
            .iter()
            .filter(|window| window.doubt.is_some());
        assert!(odd.count() >= 1, "{stands_out:?}: {:?}", reading.windows);
    }
    let even = read(&usual(), &Asked::default()).expect("it is a good picture");
    let doubts: Vec<Option<WindowDoubt>> = even.windows.iter().map(|window| window.doubt).collect();
    assert!(doubts.iter().all(Option::is_none), "{doubts:?}");
}

/// Every kind of pattern, both ways round, light on dark and dark on light.
#[test]
fn a_picture_turned_round_or_mirrored_says_the_same() {
    for pattern in [Pattern::Diamond, Pattern::Regular] {
        let mut angles = Vec::new();
        for rotation_deg in [0.0, 90.0, 180.0, 213.0] {
            let scene = Scene {
                pattern,
                rotation_deg,
                width: 800,
                height: 800,
                ..usual()
            };
            let asked = Asked {
                threads: Some(16),
                ..Asked::default()
            };
            let reading = read(&scene, &asked).expect("it is a good picture");
            angles.push(reading.angle.value.to_degrees());
        }
        let [low, high] =
            [f64::min, f64::max].map(|of| angles.iter().copied().reduce(of).unwrap_or_default());
        assert!(high - low < 0.5, "{pattern:?}: {angles:?}");
    }
}

#[test]
fn bytes_that_are_no_picture_are_none() {
    assert!(Picture::from_rgba(2, 2, &[0; 15]).is_none());
    assert!(Picture::from_rgba(usize::MAX, 2, &[0; 16]).is_none());
    assert!(Picture::from_rgba(MOST_PIXELS + 1, 1, &[]).is_none());
}

/// Whatever is asked of whatever picture, there is an answer, and its numbers are numbers.
#[test]
fn any_picture_and_any_edges_have_an_answer() {
    let sizes = [
        (0, 0),
        (1, 1),
        (1, 2000),
        (47, 300),
        (48, 48),
        (60, 3000),
        (300, 200),
    ];
    let far = [f64::NAN, f64::INFINITY, -1e9, 1e9, 0.0, 31.5, 250.0];
    let mut state = 7_u32;
    let mut chance = move || {
        // That of `rand` in the C standard's example (from memory).
        state = state.wrapping_mul(1_103_515_245).wrapping_add(12_345);
        state >> 16
    };
    for (width, height) in sizes {
        for kind in 0..3 {
            let bytes: Vec<u8> = (0..width * height * 4)
                .map(|index| match kind {
                    0 => 128,
                    1 => (chance() & 255) as u8,
                    // Bands of 40 rows with a pattern across.
                    _ => {
                        (60 * u8::from(index / (4 * width.max(1)) / 40 % 2 == 0))
                            + ((index / 4 % 9) * 9) as u8
                    }
                })
                .collect();
            let picture = Picture::from_rgba(width, height, &bytes).expect("it is small");
            for turn in 0..20 {
                let mut place = |_| {
                    let [x, y] = [0, 1].map(|_| far[chance() as usize % far.len()]);
                    Point::new(x, y)
                };
                let edges = [0, 1].map(|_| Line::new(place(0), place(1)));
                let asked = Asked {
                    edges: (turn > 0).then_some(edges),
                    threads: [None, Some(0), Some(16), Some(u32::MAX)][turn % 4],
                };
                if let Ok(reading) = read_braid(&picture, &asked) {
                    let numbers = [
                        reading.angle,
                        reading.skew,
                        reading.spacing,
                        reading.diameter,
                    ];
                    let are_numbers = numbers
                        .iter()
                        .all(|it| it.value.is_finite() && it.error >= 0.0);
                    assert!(are_numbers, "{width} {height} {asked:?}: {reading:?}");
                }
            }
        }
    }
}

/// The pictures of the browser's tests.
#[test]
fn small_counts_are_read_where_they_are_stated() {
    for threads in [8, 10, 14, 16] {
        let scene = Scene {
            threads,
            pattern: Pattern::Diamond,
            ..Scene::default()
        };
        let asked = Asked {
            threads: Some(threads),
            ..Asked::default()
        };
        let reading = read(&scene, &asked).expect("it is a good picture");
        let off = reading.angle.value - truth(&scene).crown_angle;
        assert!(
            off.abs() < 3.0 * reading.angle.error,
            "{threads}: {reading:?}"
        );
    }
}
