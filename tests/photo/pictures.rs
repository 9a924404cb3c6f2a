//! Every kind of picture, written as a file to look at.

use std::path::{Path, PathBuf};

use crate::render::{Background, Family, Flaw, Pattern, Photo, Rule, Scene, Subject, render};

/// Where the pictures of a run are kept.
pub(crate) fn folder() -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).with_file_name("photo-pictures");
    std::fs::create_dir_all(&folder).expect("the target folder can be written");
    folder
}

/// Keeps a picture among those of the run.
pub(crate) fn keep(name: &str, photo: &Photo) {
    let file = folder().join(format!("{name}.png"));
    std::fs::write(file, photo.png()).expect("the target folder can be written");
}

/// One scene of every kind, by name.
#[allow(clippy::too_many_lines, reason = "one table")]
fn every_kind() -> Vec<(&'static str, Scene)> {
    let base = || Scene {
        width: 500,
        height: 300,
        pixels_per_diameter: 130.0,
        ..Scene::default()
    };
    let load = |step: u32, first: u32| {
        (0..16)
            .filter(|index| index % step != first)
            .collect::<Vec<u32>>()
    };
    let flaw = Flaw {
        family: Family::Rising,
        index: 0,
        stretch: (-1.0, 1.0),
        stands_out: None,
    };
    let red = [0.5, 0.03, 0.03];
    let mut kinds = vec![
        (
            "part-load",
            Scene {
                threads: 32,
                engaged: Some((load(4, 1), load(4, 2))),
                ..base()
            },
        ),
        (
            "half-load",
            Scene {
                threads: 32,
                cover: 1.8,
                engaged: Some((load(2, 1), load(2, 1))),
                ..base()
            },
        ),
        (
            "missing-thread",
            Scene {
                flaw: Some(flaw),
                ..base()
            },
        ),
        (
            "loose-thread",
            Scene {
                flaw: Some(Flaw {
                    stands_out: Some(0.8),
                    ..flaw
                }),
                ..base()
            },
        ),
        (
            "changing",
            Scene {
                angle_change_deg: 8.0,
                diameter_change: 0.08,
                slant_deg: 5.0,
                rotation_deg: 15.0,
                ..base()
            },
        ),
        (
            "tracers",
            Scene {
                tracers: vec![(Family::Rising, 1, red), (Family::Falling, 1, red)],
                background: Background {
                    colour: [0.6, 0.58, 0.5],
                    mottle: 0.2,
                    shadow: 0.6,
                },
                ..base()
            },
        ),
    ];
    let rule = Rule {
        px_per_mm: 20.0,
        edge_px: 80.0,
    };
    kinds.push((
        "rule",
        Scene {
            rule: Some(rule),
            ..base()
        },
    ));
    let none = |subject| Scene {
        subject,
        rotation_deg: 20.0,
        ..base()
    };
    kinds.extend([
        ("rope", none(Subject::Rope)),
        ("plain", none(Subject::Plain)),
        ("speckle", none(Subject::Speckle)),
        ("stripes", none(Subject::Stripes)),
        ("knit", none(Subject::Knit)),
        ("cloth", none(Subject::Cloth)),
    ]);
    for (name, threads, pattern, angle_deg) in [
        ("8-diamond-30", 8, Pattern::Diamond, 30.0),
        ("16-regular-45", 16, Pattern::Regular, 45.0),
        ("24-hercules-60", 24, Pattern::Hercules, 60.0),
        ("32-regular-45", 32, Pattern::Regular, 45.0),
    ] {
        kinds.push((
            name,
            Scene {
                threads,
                pattern,
                angle_deg,
                ..Scene::default()
            },
        ));
    }
    kinds
}

#[test]
fn no_two_kinds_of_picture_are_alike() {
    let mut seen: Vec<(&str, Photo)> = Vec::new();
    for (name, scene) in every_kind() {
        let photo = render(&scene);
        keep(name, &photo);
        let twin = seen.iter().find(|(_, other)| *other == photo);
        assert!(twin.is_none(), "{name} is {:?}", twin.map(|(name, _)| name));
        seen.push((name, photo));
    }
}

#[test]
fn a_scene_always_gives_the_same_picture() {
    for seed in 1..5 {
        let scene = Scene {
            width: 300,
            height: 200,
            ..Scene::random(seed)
        };
        let photo = render(&scene);
        assert_eq!(photo, render(&scene), "{seed}");
        assert_ne!(
            photo,
            render(&Scene {
                seed: seed + 100,
                ..scene
            }),
            "{seed}"
        );
        keep(&format!("random-{seed}"), &render(&Scene::random(seed)));
    }
}
