//! The questions to a new maker stand in the order of how far their answers move or widen the weight of the head. It is calculated
//! here, for the example and for the same drawing in threads of the default number of ends. Ranges of what makers have stand beside
//! where they come from.

use taperwright::base::choice::Choice;
use taperwright::braid::recipe::ReadyRecipe;
use taperwright::braid::stretch::Piece;
use taperwright::braid::takeoff::Train;
use taperwright::braid::yarn::{Condition, Fibre};
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::design::machine::ReadyMade;
use taperwright::design::settings::Setting;
use taperwright::edit::Edit;
use taperwright::edit::first_answers::Question;
use taperwright::plan::Plan;

/// Denier of one end of raw silk as it is sold, from the finest to the heaviest usual size. Common practice, no source.
const LABELS: [(f64, f64); 4] = [(13.0, 15.0), (20.0, 22.0), (27.0, 29.0), (40.0, 44.0)];
/// Ends plied to a thread of such yarn for lines of 16 threads. Our own choice.
const ENDS: [f64; 5] = [8.0, 12.0, 16.0, 20.0, 24.0];
/// Teeth of the fixed gear, and of the one change gear of a machine that has no other. Our own choice.
const FIXED: [f64; 3] = [20.0, 40.0, 60.0];
const ALONE: [f64; 3] = [18.0, 20.0, 24.0];
/// Millimetres taken off in a circuit at 1:1. Our own choice.
const CONSTANTS: [f64; 6] = [2.0, 3.0, 4.0, 5.0, 6.0, 7.0];

/// What nobody knows before a swatch is measured or a place is chosen, and the range of each. Crimp and the fibre in a braid:
/// from memory, as their defaults are. Film and air, from the sea to some 2000 m: our own choice.
const NOT_ASKED: [(Setting, f64, f64); 4] = [
    (Setting::Crimp, 1.0, 4.0),
    (Setting::FibreFraction, 50.0, 60.0),
    (Setting::Film, 0.0, 30.0),
    (Setting::AirPressure, 800.0, 1_013.25),
];

/// What makers have: the answers there are.
fn answers(question: Question) -> Vec<Edit> {
    match question {
        Question::Label => LABELS.map(|(low, high)| Edit::Label { low, high }).into(),
        Question::Ends => set(Setting::EndsPerThread, &ENDS),
        Question::Machine => ReadyMade::ALL.iter().copied().map(Edit::Machine).collect(),
        Question::Dressing => ReadyRecipe::ALL.iter().copied().map(Edit::Recipe).collect(),
        Question::Fibre => Fibre::ALL.iter().copied().map(Edit::Fibre).collect(),
        Question::Gears => {
            let trains = Train::ALL.iter().copied().map(Edit::Train);
            let alone = ALONE.map(|teeth| Edit::Gears(vec![teeth]));
            let fixed = set(Setting::PartnerTeeth, &FIXED);
            trains.chain(alone).chain(fixed).collect()
        }
        Question::Condition => Condition::ALL
            .iter()
            .copied()
            .map(Edit::Condition)
            .collect(),
        Question::Constant => set(Setting::MachineConstant, &CONSTANTS),
    }
}

fn set(setting: Setting, values: &[f64]) -> Vec<Edit> {
    let one = |&value: &f64| Edit::Set(setting, value);
    values.iter().map(one).collect()
}

/// Between which grains 95 of 100 heads are.
fn range(design: &Design) -> (f64, f64) {
    let prediction = Plan::of(design).prediction.expect("the line has a head");
    let (mass, margin) = (prediction.mass.grains(), prediction.margin().grains());
    (mass - margin, mass + margin)
}

/// By how many grains the range of all these answers together is wider than that of the default.
fn widening(base: &Design, answers: &[Edit]) -> f64 {
    let own = range(base);
    let (low, high) = answers.iter().fold(own, |(low, high), answer| {
        let design = answer.clone().apply(base).expect("makers have it");
        let (lower, higher) = range(&design);
        (low.min(lower), high.max(higher))
    });
    (high - low) - (own.1 - own.0)
}

/// The mean over the example and the same drawing in threads of the default number of ends.
fn effect(answers: &[Edit]) -> f64 {
    let ends = Setting::EndsPerThread;
    let usual = Edit::Set(ends, ends.default_value()).apply(&demo());
    let bases = [demo(), usual.expect("the default is possible")];
    let sum: f64 = bases.iter().map(|base| widening(base, answers)).sum();
    sum / 2.0
}

#[test]
fn what_moves_the_weight_most_is_asked_first() {
    let effects: Vec<(Question, f64)> = Question::ALL
        .iter()
        .map(|&question| (question, effect(&answers(question))))
        .collect();
    println!("{effects:?}");
    assert!(Question::ALL.len() <= 8, "it is to be short");
    for pair in effects.windows(2) {
        assert!(pair[0].1 > pair[1].1, "{effects:?}");
    }
}

#[test]
fn what_is_not_asked_moves_the_weight_less_than_any_question() {
    let last = effect(&answers(Question::Constant));
    for (setting, low, high) in NOT_ASKED {
        let moved = effect(&set(setting, &[low, high]));
        println!("{setting:?}: {moved} of {last}");
        assert!(moved < last, "{setting:?}: {moved} of {last}");
    }
}

/// The head of the line that the plan of the default makes where the maker's answer would have been another: the same threads at the
/// same places, with the same change gears in the same train.
fn braided_unasked(base: &Design, answer: &Edit) -> f64 {
    let plan = Plan::of(base);
    let real = answer.clone().apply(base).expect("makers have it");
    let take_off = real.take_off();
    let fitted = |piece: Piece| {
        // The example's change gear drives the fixed gear.
        let teeth = f64::from(piece.wheels.driver);
        let lay = take_off.constant * (teeth / f64::from(take_off.partner));
        Piece { lay, ..piece }
    };
    let stretches = plan.line.stretches().iter();
    let pieces: Vec<Piece> = stretches.map(|stretch| fitted(stretch.piece)).collect();
    let line = real.process().braid(&pieces);
    line.mass(plan.head.from, plan.head.to).grains()
}

/// The page says of a question left open that the range of the plan covers no other answer.
#[test]
fn a_line_braided_with_a_question_left_open_can_leave_the_range_of_its_weight() {
    let base = demo();
    let (low, high) = range(&base);
    let planned = Plan::of(&base).head_mass.expect("a head").grains();
    let own = Edit::Fibre(base.draft().fibre);
    assert!((braided_unasked(&base, &own) - planned).abs() < 1e-6);
    // A plan for sixteen carriers is not braided on a machine without them: who has another machine sees it at once.
    let questions = Question::ALL
        .iter()
        .filter(|&&one| one != Question::Machine);
    for &question in questions {
        let heads = answers(question);
        let heads: Vec<f64> = heads
            .iter()
            .map(|one| braided_unasked(&base, one))
            .collect();
        println!("{question:?}: {heads:.0?}, planned {low:.0} to {high:.0}");
        let leaves = heads.iter().any(|head| !(low..=high).contains(head));
        assert!(leaves, "{question:?}: {heads:?}");
    }
}
