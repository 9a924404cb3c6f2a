//! Edits of nonsense: every kind, with numbers that are none, places that are nowhere and lists without end. Each either
//! gives a design that would be let in again, with a plan, or is refused in words; none panics.

use proptest::prelude::*;
use taperwright::base::choice::Choice;
use taperwright::braid::takeoff::Train;
use taperwright::braid::threads::{Build, Supply};
use taperwright::braid::track::{Direction, Pattern};
use taperwright::braid::yarn::{Condition, Fibre};
use taperwright::design::machine::ReadyMade;
use taperwright::design::pin::DraftPin;
use taperwright::design::settings::Setting;
use taperwright::design::{Design, DraftPoint};
use taperwright::edit::{Along, Edit, LevelStretch, LineEnds, MoveOptions};
use taperwright::plan::Plan;

use crate::designs::usual;

/// Any number, none, or one that might do.
fn number() -> impl Strategy<Value = f64> {
    let odd = vec![
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        f64::MAX,
        f64::MIN_POSITIVE,
        -0.0,
        4_294_967_296.0,
        1e300,
        -1.0,
        0.5,
    ];
    prop_oneof![
        1 => proptest::sample::select(odd),
        1 => any::<f64>(),
        2 => (0_u32..=200).prop_map(f64::from),
    ]
}

/// Any count, the largest there are often.
fn count() -> impl Strategy<Value = u32> {
    prop_oneof![1 => Just(u32::MAX), 1 => any::<u32>(), 4 => 0_u32..=70]
}

fn index() -> impl Strategy<Value = usize> {
    prop_oneof![1 => Just(usize::MAX), 4 => 0_usize..8]
}

fn choice<C: Choice + core::fmt::Debug + 'static>() -> BoxedStrategy<C> {
    proptest::sample::select(C::ALL).boxed()
}

fn point() -> impl Strategy<Value = DraftPoint> {
    (number(), number()).prop_map(|(at_m, diameter_mm)| DraftPoint { at_m, diameter_mm })
}

fn pin() -> impl Strategy<Value = DraftPin> {
    let counts = (count(), count(), count(), count());
    let rest = (0_u32..4, number(), any::<bool>(), choice::<Direction>());
    (counts, rest).prop_map(
        |((threads, heavy, number, driven), (kind, at_m, rising, direction))| match kind {
            0 => DraftPin::Place {
                threads,
                heavy,
                rising,
                at_m,
            },
            1 => DraftPin::Carrier {
                threads,
                direction,
                number,
            },
            2 => DraftPin::Swap {
                heavy,
                direction,
                number,
            },
            _ => DraftPin::Wheels {
                threads,
                heavy,
                at_m,
                driver: number,
                driven,
            },
        },
    )
}

fn supply() -> impl Strategy<Value = Supply> {
    (choice::<Build>(), count(), count(), count(), count()).prop_map(
        |(build, fewest, most, light, heavy)| Supply {
            build,
            fewest,
            most,
            light,
            heavy,
        },
    )
}

/// Every way to move.
fn options() -> impl Strategy<Value = MoveOptions> {
    let level = prop_oneof![Just(LevelStretch::Stays), Just(LevelStretch::Bends)];
    let ends = prop_oneof![Just(LineEnds::Alike), Just(LineEnds::Apart)];
    let along = proptest::sample::select(Along::ALL.to_vec());
    (level, ends, along).prop_map(|(level, ends, along)| MoveOptions { level, ends, along })
}

/// Points moved, placed, added and removed, parts lengthened, all made thicker.
fn of_points() -> impl Strategy<Value = Edit> {
    prop_oneof![
        (index(), point(), options()).prop_map(|(index, wish, options)| Edit::Move {
            index,
            wish,
            options
        }),
        (index(), point(), options()).prop_map(|(index, point, options)| Edit::Place {
            index,
            point,
            options
        }),
        (number(), options()).prop_map(|(at_m, MoveOptions { ends, .. })| Edit::Add { at_m, ends }),
        (index(), options())
            .prop_map(|(index, MoveOptions { ends, .. })| Edit::Remove { index, ends }),
        (index(), index(), number(), options()).prop_map(|(first, last, length_m, options)| {
            Edit::Lengthen {
                first,
                last,
                length_m,
                ends: options.ends,
            }
        }),
        number().prop_map(Edit::ScaleSizes),
    ]
}

/// What is chosen, set or listed.
fn of_workshop() -> impl Strategy<Value = Edit> {
    let setting = proptest::sample::select(Setting::ALL.to_vec());
    let places = proptest::collection::vec(count(), 0..80);
    let gears = proptest::collection::vec(number(), 0..80);
    let choices = prop_oneof![
        choice::<Fibre>().prop_map(Edit::Fibre),
        choice::<Condition>().prop_map(Edit::Condition),
        choice::<Pattern>().prop_map(Edit::Pattern),
        choice::<ReadyMade>().prop_map(Edit::Machine),
        choice::<Build>().prop_map(Edit::Build),
        choice::<Train>().prop_map(Edit::Train),
    ];
    prop_oneof![
        choices.boxed(),
        (setting, number())
            .prop_map(|(setting, value)| Edit::Set(setting, value))
            .boxed(),
        (choice::<Direction>(), places)
            .prop_map(|(way, places)| Edit::Mount(way, places))
            .boxed(),
        supply().prop_map(Edit::Supply).boxed(),
        (number(), number())
            .prop_map(|(low, high)| Edit::Label { low, high })
            .boxed(),
        gears.prop_map(Edit::Gears).boxed(),
    ]
}

fn edit() -> impl Strategy<Value = Edit> {
    let replaces = proptest::option::of(index());
    let pins = prop_oneof![
        (pin(), replaces).prop_map(|(pin, replaces)| Edit::Pin { pin, replaces }),
        index().prop_map(Edit::Unpin),
    ];
    let texts = prop_oneof![
        "\\PC{0,90}".prop_map(Edit::Name),
        ".{0,410}".prop_map(Edit::Notes),
    ];
    prop_oneof![
        2 => of_points().boxed(),
        4 => of_workshop().boxed(),
        2 => pins.boxed(),
        1 => texts.boxed(),
    ]
}

/// The design after an edit, or unchanged where it is refused, which is said in a sentence; and whether it was.
#[track_caller]
fn after(design: Design, edit: Edit) -> (Design, bool) {
    match edit.apply(&design) {
        Ok(edited) => {
            assert_eq!(Design::parse(edited.draft().clone()).as_ref(), Ok(&edited));
            (edited, true)
        }
        Err(refusal) => {
            let words = refusal.to_string();
            assert!(words.ends_with('.') && words.len() > 20, "“{words}”");
            assert!(
                !words.contains("NaN") && !words.contains("inf"),
                "“{words}”"
            );
            (design, false)
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 300,
        failure_persistence: None,
        rng_seed: proptest::test_runner::RngSeed::Fixed(0x7A9E),
        ..ProptestConfig::default()
    })]

    /// Ten edits one after another, so that odd states meet odd edits.
    #[test]
    fn no_edit_of_nonsense_panics(edits in proptest::collection::vec(edit(), 10)) {
        let (mut design, mut taken) = (usual(), 0_u32);
        for edit in edits {
            let (edited, is_taken) = after(design, edit);
            design = edited;
            taken += u32::from(is_taken);
        }
        let plan = Plan::of(&design);
        prop_assert!(plan.total_mass.kilograms() > 0.0 && plan.total_mass.kilograms().is_finite());
        prop_assert!(taken <= 10);
    }
}

/// The edits above are worth nothing if all are refused, or all let in.
#[test]
fn nonsense_is_let_in_and_refused() {
    use proptest::strategy::ValueTree as _;
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let (mut taken, mut refused) = (0, 0);
    for _ in 0..300 {
        let tree = edit()
            .new_tree(&mut runner)
            .expect("the strategy never gives up");
        let (_, is_taken) = after(usual(), tree.current());
        (taken, refused) = (taken + u32::from(is_taken), refused + u32::from(!is_taken));
    }
    assert!(
        taken > 60 && refused > 60,
        "{taken} taken, {refused} refused"
    );
}
