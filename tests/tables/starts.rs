//! Ready drawings keep the class they claim, in the example's workshop and in others.

use taperwright::base::choice::Choice;
use taperwright::base::units::Length;
use taperwright::braid::threads::Build;
use taperwright::braid::track::Direction;
use taperwright::braid::yarn::{Condition, Fibre};
use taperwright::design::demo::demo;
use taperwright::design::machine::ReadyMade;
use taperwright::design::pin::DraftPin;
use taperwright::design::settings::Setting;
use taperwright::design::{Design, Draft};
use taperwright::edit::Edit;
use taperwright::edit::starts::{NoStart, Start};
use taperwright::plan::{Notice, Plan};

use crate::designs::parsed;

/// What each claims: the number of its class with its least, its target and its greatest grains. Source of the grains:
/// AFFTA fly line weight standard.
const CLAIMED: [(Start, u8, [f64; 3]); 5] = [
    (Start::Level, 4, [114.0, 120.0, 126.0]),
    (Start::DoubleTaper, 5, [134.0, 140.0, 146.0]),
    (Start::WeightForward, 6, [152.0, 160.0, 168.0]),
    (Start::SingleTaper, 7, [177.0, 185.0, 193.0]),
    (Start::LongTwoHanded, 8, [202.0, 210.0, 218.0]),
];
/// How near to the target a drawing made for its workshop comes, in grains: a quarter of the narrowest half band.
const NEAR: f64 = 1.5;
/// Common practice, no source: stops are 30 mm apart at least, and the angle is 45°; a tooth of thirty turns it by 1.5°.
const APART: f64 = 0.03;
const ANGLE: (f64, f64) = (45.0, 1.5);

fn grains(plan: &Plan) -> f64 {
    plan.head_mass.expect("every start holds a head").grains()
}

#[track_caller]
fn keeps_its_class(plan: &Plan, start: Start) {
    let (_, number, [low, _, high]) = claimed(start);
    let head = grains(plan);
    assert!((low..=high).contains(&head), "{start:?}: {head} gr");
    assert_eq!(plan.verdict.number(), Some(number), "{start:?}");
}

fn claimed(start: Start) -> (Start, u8, [f64; 3]) {
    let found = CLAIMED.into_iter().find(|claim| claim.0 == start);
    found.unwrap_or_else(|| panic!("{start:?} claims nothing here"))
}

/// The gaps between neighbours among tip, stops and end, in metres.
fn gaps(plan: &Plan) -> Vec<f64> {
    let stops = plan.stops().map(|stop| stop[0].at.metres());
    let places: Vec<f64> = stops.collect();
    places.windows(2).map(|pair| pair[1] - pair[0]).collect()
}

#[test]
fn every_start_is_there_with_the_class_it_claims() {
    assert_eq!(Start::ALL, CLAIMED.map(|claim| claim.0));
    for (start, number, [low, target, high]) in CLAIMED {
        let class = start.class();
        assert_eq!(
            (class.number, class.low, class.target, class.high),
            (number, low, target, high),
            "{start:?}"
        );
        let title = start.design().title().to_owned();
        assert!(title.contains(&format!("class {number}")), "{title}");
        assert!(start.design().draft().notes.contains("invented"));
    }
}

#[test]
fn in_the_examples_workshop_each_is_of_its_class_and_nothing_warns() {
    for (start, _, [_, target, _]) in CLAIMED {
        let plan = Plan::of(&start.design());
        keeps_its_class(&plan, start);
        let off = grains(&plan) - target;
        assert!(off.abs() <= NEAR, "{start:?} is {off} gr off");
        assert_eq!(plan.notices, [], "{start:?}");
    }
}

#[test]
fn stops_can_be_made_and_the_angle_is_held() {
    for &start in Start::ALL {
        let plan = Plan::of(&start.design());
        let near = gaps(&plan).into_iter().find(|&gap| gap < APART - 1e-9);
        assert_eq!(near, None, "{start:?} has two stops so close");
        let off = plan.worst_angle.angle.degrees() - ANGLE.0;
        assert!(off.abs() <= ANGLE.1, "{start:?}: {off}° off");
    }
}

/// A level line is of one size and has no stop on the way. A line for two hands is longer than the 25 to 30 m of lines for
/// one hand, common practice, no source.
#[test]
fn the_level_line_is_level_and_the_long_one_long() {
    let plan = Plan::of(&Start::Level.design());
    assert_eq!((plan.thread_changes(), plan.gear_changes()), (0, 0));
    assert_eq!(gaps(&plan).len(), 1);
    let long = Start::LongTwoHanded.design();
    assert!(Plan::of(&long).length > Length::from_metres(30.0));
    assert_eq!(long.track().carriers(), 16);
}

/// A workshop like the example's, but for this.
fn workshop(change: impl FnOnce(&mut Draft)) -> Design {
    let mut draft = demo().draft().clone();
    change(&mut draft);
    parsed(draft)
}

fn machine(ready_made: ReadyMade) -> Design {
    let changed = Edit::Machine(ready_made).apply(&demo());
    changed.expect("a ready-made machine fits the example")
}

fn workshops() -> Vec<(&'static str, Design)> {
    vec![
        ("the example", demo()),
        ("nylon", workshop(|draft| draft.fibre = Fibre::Nylon)),
        ("flax", workshop(|draft| draft.fibre = Fibre::Flax)),
        ("raw", workshop(|draft| draft.condition = Condition::Raw)),
        (
            "undressed, open braid",
            workshop(|draft| {
                for bare in [Setting::OilFill, Setting::VarnishFill, Setting::Film] {
                    draft.settings.set(bare, 0.0);
                }
                draft.settings.set(Setting::FibreFraction, 50.0);
            }),
        ),
        (
            "three gears",
            workshop(|draft| draft.gears = vec![18.0, 24.0, 30.0]),
        ),
        (
            "a film of 50 µm",
            workshop(|draft| draft.settings.set(Setting::Film, 50.0)),
        ),
        ("eight carriers", machine(ReadyMade::EightDiamond)),
        ("32 carriers", machine(ReadyMade::ThirtyTwoRegular)),
    ]
}

/// What a line of any of these makes unfit to be braided, whatever its class.
fn is_trouble(notice: &Notice) -> bool {
    matches!(
        notice,
        Notice::Unsound { .. }
            | Notice::TooThick { .. }
            | Notice::TooThin { .. }
            | Notice::Jammed { .. }
    )
}

#[test]
fn on_other_machines_with_other_yarn_each_is_of_its_class_too() {
    for (what, workshop) in workshops() {
        for &start in Start::ALL {
            let line = start
                .on(&workshop, start.class())
                .unwrap_or_else(|why| panic!("{start:?} on {what}: {why}"));
            let plan = Plan::of(&line);
            keeps_its_class(&plan, start);
            let trouble = plan.notices.iter().find(|notice| is_trouble(notice));
            assert_eq!(trouble, None, "{start:?} on {what}");
            let length = Plan::of(&start.design()).length;
            assert_eq!(plan.length, length, "{start:?} on {what}");
            keeps_what_is_the_makers_own(&line, &workshop);
        }
    }
}

#[track_caller]
fn keeps_what_is_the_makers_own(line: &Design, workshop: &Design) {
    let (own, mut draft) = (workshop.draft(), line.draft().clone());
    draft.points.clone_from(&own.points);
    draft.name.clone_from(&own.name);
    draft.notes.clone_from(&own.notes);
    draft.build = own.build;
    for threads in [
        Setting::FewestThreads,
        Setting::MostThreads,
        Setting::EndsPerThread,
        Setting::HeavierEnds,
    ] {
        draft.settings.set(threads, workshop.setting(threads));
    }
    assert_eq!(draft, *own, "more was changed than drawing and threads");
}

/// A pin is about a place of the line it was set on.
#[test]
fn pins_of_the_line_before_are_left_behind() {
    let pin = DraftPin::Carrier {
        threads: 9,
        direction: Direction::Clockwise,
        number: 5,
    };
    let pinned = workshop(|draft| draft.pins.push(pin));
    let line = Start::DoubleTaper
        .on(&pinned, Start::DoubleTaper.class())
        .unwrap_or_else(|why| panic!("{why}"));
    assert_eq!(line.draft().pins, []);
    assert_eq!(
        Start::DoubleTaper.on(&demo(), Start::DoubleTaper.class()),
        Ok(line)
    );
}

/// Half the carriers at the thinnest and all of them at most are common practice, no source. Where nothing speaks against
/// it a maker gets no plan of a few thick threads.
#[test]
fn on_the_examples_machine_threads_are_as_usual() {
    for &start in Start::ALL {
        let line = start
            .on(&demo(), start.class())
            .unwrap_or_else(|why| panic!("{why}"));
        let (own, drawn) = (line.supply(), start.design().supply());
        assert_eq!(own.build, Build::MoreThreads, "{start:?}");
        assert_eq!((own.fewest, own.most), (8, 16), "{start:?}");
        assert!(
            [demo().supply().light, drawn.light].contains(&own.light),
            "{start:?}: {own:?}"
        );
    }
}

/// Mass goes by density, so a lighter fibre makes the same mass only of a thicker line. Densities: Morton & Hearle,
/// Physical Properties of Textile Fibres, 4th ed. 2008, Tables 5.1–5.2: silk 1.34, nylon 1.14 g/cm³. With no dressing
/// diameters go by the root of that ratio (analytic); dressing only brings them closer.
#[test]
fn a_lighter_fibre_is_drawn_thicker() {
    let bare = |fibre| {
        workshop(|draft| {
            draft.fibre = fibre;
            for none in [
                Setting::OilFill,
                Setting::VarnishFill,
                Setting::Film,
                Setting::Grease,
            ] {
                draft.settings.set(none, 0.0);
            }
        })
    };
    for &start in Start::ALL {
        let size = |fibre| {
            let line = start
                .on(&bare(fibre), start.class())
                .expect("either fibre makes it");
            line.taper().thickest().millimetres()
        };
        let ratio = size(Fibre::Nylon) / size(Fibre::Silk);
        let wanted = (1.34_f64 / 1.14).sqrt();
        assert!((ratio - wanted).abs() < 3e-3, "{start:?}: {ratio}");
    }
}

#[track_caller]
fn says_what_to_do(why: &NoStart, start: Start) {
    let said = why.to_string();
    let class = format!("class {}", claimed(start).1);
    for words in [
        class.as_str(),
        "Choose another class",
        "in the workshop first",
    ] {
        assert!(said.contains(words), "“{said}” does not say {words}");
    }
}

/// One end of 3,000 denier on each of four carriers, the fewest that hold, weighs 1.33 g a metre even when it lies straight
/// (1 denier is 1 g in 9,000 m, by definition): 188 grains in 30 ft, beyond class 6.
#[test]
fn yarn_that_is_too_coarse_is_said_so_and_what_to_do() {
    let coarse = workshop(|draft| {
        draft.settings.set(Setting::LabelLow, 3000.0);
        draft.settings.set(Setting::LabelHigh, 3000.0);
    });
    for start in [Start::Level, Start::DoubleTaper, Start::WeightForward] {
        let why = start
            .on(&coarse, start.class())
            .expect_err("four ends are too heavy");
        assert_eq!(why, NoStart::NotBraided(start.class()));
        says_what_to_do(&why, start);
    }
}

/// With one gear that draws 16.25 mm of line a circuit, four to five times the lay at 45° (a line of 1 mm goes round
/// 3.1 mm a circuit, and as far along), threads lie almost along the line: a braid of the same threads is far lighter. Where
/// more of them make up for it, the angle is none to braid at.
#[test]
fn a_gear_that_draws_far_too_long_a_lay_is_said_so_with_the_nearest_weight_or_the_angle() {
    let stretched = workshop(|draft| draft.gears = vec![200.0]);
    for (start, _, [low, ..]) in CLAIMED {
        let why = start
            .on(&stretched, start.class())
            .expect_err("the lay is too long");
        match why {
            NoStart::OffClass { nearest, .. } => {
                assert!(nearest.grains() < low, "{start:?}: {nearest:?}");
            }
            NoStart::AngleFar { angle, .. } => {
                assert!(angle.degrees() < 30.0, "{start:?}: {angle:?}");
            }
            _ => panic!("{start:?}: {why:?}"),
        }
        says_what_to_do(&why, start);
    }
}
