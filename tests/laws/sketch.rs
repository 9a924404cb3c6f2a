//! Whatever is done to a design in whatever order, it stays one; a gesture broken off leaves no trace; undo and redo are
//! each other's opposite. Analytic: a history is a list with a place in it, which the model here is.

use proptest::prelude::*;
use taperwright::design::settings::Setting;
use taperwright::design::{Design, DraftPoint};
use taperwright::edit::sketch::{MOST_STEPS, Sketch};
use taperwright::edit::{Along, Edit, LevelStretch, LineEnds, MoveOptions};
use taperwright::keep::share::steps;

use crate::designs::{point, usual};
use crate::lines::{cases, usual_design};

/// Something done to a design on the page.
#[derive(Clone, Debug)]
enum Operation {
    /// A point dragged through these wishes, and let go.
    Drag(Vec<Edit>),
    /// The same, but broken off.
    BrokenOff(Vec<Edit>),
    /// A value typed, or a button pressed.
    Field(Edit),
    Undo,
    Redo,
}

fn options() -> impl Strategy<Value = MoveOptions> {
    let level = prop_oneof![Just(LevelStretch::Stays), Just(LevelStretch::Bends)];
    let ends = prop_oneof![Just(LineEnds::Alike), Just(LineEnds::Apart)];
    let along = proptest::sample::select(vec![Along::Alone, Along::Stretch, Along::AllAfter]);
    (level, ends, along).prop_map(|(level, ends, along)| MoveOptions { level, ends, along })
}

fn wish() -> impl Strategy<Value = DraftPoint> {
    (-5.0..110.0, -0.5..3.0).prop_map(|(at, size)| point(at, size))
}

fn drag() -> impl Strategy<Value = Vec<Edit>> {
    (
        0_usize..9,
        options(),
        proptest::collection::vec(wish(), 1..5),
    )
        .prop_map(|(index, options, wishes)| {
            let wish = |wish| Edit::Move {
                index,
                wish,
                options,
            };
            wishes.into_iter().map(wish).collect()
        })
}

fn field() -> impl Strategy<Value = Edit> {
    let ends = || prop_oneof![Just(LineEnds::Alike), Just(LineEnds::Apart)];
    prop_oneof![
        (0_usize..9, wish(), options()).prop_map(|(index, point, options)| Edit::Place {
            index,
            point,
            options
        }),
        (-1.0..40.0, ends()).prop_map(|(at_m, ends)| Edit::Add { at_m, ends }),
        (0_usize..9, ends()).prop_map(|(index, ends)| Edit::Remove { index, ends }),
        (0_usize..7, 1_usize..9, -1.0..60.0, ends()).prop_map(|(first, last, length_m, ends)| {
            Edit::Lengthen {
                first,
                last,
                length_m,
                ends,
            }
        }),
        (0.5..1.5).prop_map(Edit::ScaleSizes),
        (0.0..40.0).prop_map(|ends| Edit::Set(Setting::EndsPerThread, f64::round(ends))),
        "[a-z]{0,4}".prop_map(Edit::Name),
    ]
}

fn operation() -> impl Strategy<Value = Operation> {
    prop_oneof![
        3 => drag().prop_map(Operation::Drag),
        2 => drag().prop_map(Operation::BrokenOff),
        3 => field().prop_map(Operation::Field),
        3 => Just(Operation::Undo),
        2 => Just(Operation::Redo),
    ]
}

/// What a history is: designs in order, and which of them it is now.
struct Model {
    designs: Vec<Design>,
    now: usize,
}

impl Model {
    fn settle(&mut self, design: &Design) {
        if *design != self.designs[self.now] {
            self.designs.truncate(self.now + 1);
            self.designs.push(design.clone());
            self.now += 1;
        }
    }
}

fn do_it(sketch: &mut Sketch, model: &mut Model, operation: Operation) {
    match operation {
        Operation::Drag(wishes) => {
            for wish in wishes {
                sketch
                    .try_out(wish)
                    .expect("a move is held back, never refused");
            }
            model.settle(&sketch.now().clone());
            sketch.settle();
        }
        Operation::BrokenOff(wishes) => {
            for wish in wishes {
                sketch
                    .try_out(wish)
                    .expect("a move is held back, never refused");
            }
            sketch.abort();
        }
        Operation::Field(edit) => {
            let done = sketch.try_out(edit.clone());
            assert_eq!(done.is_ok(), edit.apply(&model.designs[model.now]).is_ok());
            model.settle(&sketch.now().clone());
            sketch.settle();
        }
        Operation::Undo => {
            assert_eq!(sketch.undo(), model.now > 0);
            model.now = model.now.saturating_sub(1);
        }
        Operation::Redo => {
            let is_something = model.now + 1 < model.designs.len();
            assert_eq!(sketch.redo(), is_something);
            model.now += usize::from(is_something);
        }
    }
}

proptest! {
    #![proptest_config(cases(120))]

    #[test]
    fn a_sketch_is_a_list_of_designs_with_a_place_in_it(
        first in usual_design(),
        operations in proptest::collection::vec(operation(), 1..25),
    ) {
        let mut sketch = Sketch::new(first.clone());
        let mut model = Model { designs: vec![first], now: 0 };
        for operation in operations {
            do_it(&mut sketch, &mut model, operation);
            let now = &model.designs[model.now];
            prop_assert_eq!(sketch.now(), now);
            prop_assert_eq!(sketch.settled(), now);
            prop_assert_eq!(Design::parse(now.draft().clone()), Ok(now.clone()));
            prop_assert_eq!(sketch.past(), &model.designs[..model.now]);
            let undone: Vec<_> = model.designs[model.now + 1..].iter().rev().cloned().collect();
            prop_assert_eq!(sketch.future(), &undone[..]);
        }
        let before = sketch.clone();
        if sketch.undo() {
            prop_assert!(sketch.redo());
            prop_assert_eq!(&sketch, &before);
        }
        if sketch.redo() {
            prop_assert!(sketch.undo());
            prop_assert_eq!(&sketch, &before);
        }
        // What is kept is what there is: these are fewer than are kept.
        let read = steps::read(&steps::write(&sketch), sketch.settled().clone());
        prop_assert_eq!(&read, &sketch);
    }
}

#[test]
fn the_oldest_steps_are_let_go() {
    let mut sketch = Sketch::new(usual());
    for k in 0..MOST_STEPS + 10 {
        sketch
            .try_out(Edit::Name(format!("line {k}")))
            .expect("a name");
        sketch.settle();
    }
    assert_eq!(sketch.past().len(), MOST_STEPS);
    assert_eq!(sketch.past()[0].draft().name, "line 9");
}

/// Steps of another design, of a damaged text or of none are no steps at all.
#[test]
fn steps_belong_to_their_design_or_to_none() {
    let mut sketch = Sketch::new(usual());
    for name in ["a", "b"] {
        sketch.try_out(Edit::Name(name.to_owned())).expect("a name");
        sketch.settle();
    }
    sketch.undo();
    let text = steps::write(&sketch);
    let now = sketch.settled().clone();
    assert_eq!(steps::read(&text, now.clone()), sketch);
    let damaged = [
        String::new(),
        text.replace("steps 1", "steps 2"),
        text.replace('>', "?"),
        text.replacen('z', "", 1),
        text[..text.len() - 5].to_owned(),
    ];
    for text in damaged {
        assert_eq!(
            steps::read(&text, now.clone()),
            Sketch::new(now.clone()),
            "{text}"
        );
    }
    assert_eq!(steps::read(&text, usual()), Sketch::new(usual()));
}
