//! What is worth most against orders fixed beforehand, in workshops whose truth is known.
//!
//! Sources: none needed. Minutes are added up, and chances are those the book states; the law of its ranges is tried beside this.

use taperwright::keep::book::next::{ENOUGH, NextMeasure, SwatchPart, Worths};
use taperwright::plan::Plan;

use crate::learning::Planned;
use crate::simulated::{Simulated, all, class_five, class_three};

/// What to measure at each step, by what each is worth then and by minutes noted in the beginning.
type Rule<'a> = &'a (dyn Fn(usize, &Worths) -> Option<(NextMeasure, f64)> + Sync);

/// Minutes until the class has this chance, or until a rule has nothing more; and the chance then.
fn minutes_to(goal: f64, mut one: Simulated<'_>, rule: Rule<'_>) -> (f64, f64) {
    let mut minutes = 0.0;
    for step in 0..MOST_STEPS {
        let worths = one.worths();
        let next = rule(step, &worths).filter(|_| worths.now.chance < goal);
        let Some((measure, takes)) = next else {
            return (minutes, worths.now.chance);
        };
        one.measure(measure);
        minutes += takes;
    }
    (f64::INFINITY, one.worths().now.chance)
}

/// Steps after which an order that has not reached its goal never will.
const MOST_STEPS: usize = 12;
/// Workshops in which orders are compared.
const COMPARED: u64 = 16;

/// An order that is fixed before anything is known: some measurements first, then others again and again.
struct Order(Vec<NextMeasure>, Vec<NextMeasure>);

/// Every order tried: first the one that makes or weighs a line at once, then swatches alone.
fn orders(line: NextMeasure) -> Vec<Order> {
    use NextMeasure::{Swatch, Thread};
    let [count, weigh, angle] = SwatchPart::ALL.map(NextMeasure::SwatchPart);
    vec![
        Order(vec![line], vec![Swatch]),
        Order(vec![], vec![Swatch]),
        Order(vec![Thread], vec![Swatch]),
        Order(vec![count], vec![Swatch]),
        Order(vec![weigh], vec![Swatch]),
        Order(vec![angle], vec![Swatch]),
        Order(vec![], vec![count, weigh, angle]),
        Order(vec![], vec![weigh, angle]),
        Order(vec![], vec![angle]),
        Order(vec![], vec![Swatch, Thread]),
        Order(vec![], vec![Swatch, angle]),
    ]
}

impl Order {
    fn step(&self, step: usize) -> NextMeasure {
        let Self(first, again) = self;
        let later = || again[(step - first.len()) % again.len()];
        first.get(step).copied().unwrap_or_else(later)
    }
}

/// Mean minutes, and mean chance reached, of the rule by worth and of every order, over some workshops. A measurement that the rule
/// is not to take is named.
fn compared(
    line: &(Planned, Plan),
    (goal, has_earlier_line): (f64, bool),
    left_out: Option<NextMeasure>,
) -> Vec<(f64, f64)> {
    let begun = |seed| {
        let mut one = Simulated::of(seed, (&line.0, &line.1));
        if has_earlier_line {
            let earlier = one.earlier_line();
            one.book.records.push(earlier);
        }
        one
    };
    let first = begun(0).worths();
    let minutes = |measure: NextMeasure| {
        let mut all = first.worths.iter();
        let worth = all.find(|worth| worth.measure == measure);
        worth.expect("all are worth something at first").minutes
    };
    let best = |_: usize, worths: &Worths| {
        let mut worths = worths.worths.iter();
        let best = worths.find(|worth| Some(worth.measure) != left_out)?;
        Some((best.measure, best.minutes))
    };
    let of = |rule: Rule<'_>| {
        let all = all(COMPARED, |seed| minutes_to(goal, begun(seed), rule));
        let mean = |of: fn(&(f64, f64)) -> f64| all.iter().map(of).sum::<f64>() / all.len() as f64;
        (mean(|it| it.0), mean(|it| it.1))
    };
    let line = if has_earlier_line {
        NextMeasure::Finished(0)
    } else {
        NextMeasure::Line
    };
    let orders = orders(line).into_iter().map(|order| {
        let fixed = |step: usize, _: &Worths| {
            let measure = order.step(step);
            Some((measure, minutes(measure)))
        };
        of(&fixed)
    });
    core::iter::once(of(&best)).chain(orders).collect()
}

/// The band of class 3 is wide for its weight: swatches alone reach a chance of 90 %, and what is worth most reaches it first.
#[test]
fn what_is_worth_most_reaches_ninety_percent_before_every_fixed_order() {
    let all = compared(&class_three(), (ENOUGH, false), None);
    println!("class 3: {all:.2?}");
    assert!(all[0].1 >= ENOUGH, "{all:?}");
    is_first(&all);
}

/// Asserts that the rule takes fewer minutes than every order; than swatches alone no more, which is what it may come down to.
#[track_caller]
fn is_first(all: &[(f64, f64)]) {
    let (best, others) = (all[0].0, [&all[1..2], &all[3..]].concat());
    assert!(best <= all[2].0, "{all:?}");
    assert!(others.iter().all(|other| best < other.0), "{all:?}");
}

/// With a line at hand that was made before and never weighed, class 5 needs nothing else: the order that begins with that one is the
/// same, every other one never gets so far.
#[test]
fn an_earlier_line_is_weighed_before_anything_is_braided() {
    let all = compared(&class_five(), (ENOUGH, true), None);
    println!("class 5 with an earlier line: {all:.2?}");
    let (best, others) = all.split_first().expect("the rule is first");
    assert!(best.1 >= ENOUGH, "{best:?}");
    assert!(best.0 <= others[0].0 && others[1..].iter().all(|other| other.0 == f64::INFINITY));
}

/// Class 5 has a band so narrow that swatches cannot reach a chance of 90 %: lines scatter, and are dressed. Without a line what is
/// worth most still gets as far as it can before every fixed order does.
#[test]
fn without_a_line_the_most_that_can_be_is_reached_first() {
    let line = class_five();
    let most = compared(&line, (1.0, false), Some(NextMeasure::Line))[0].1;
    assert!((0.75..ENOUGH).contains(&most), "{most}");
    // Each workshop ends a little below or above the mean of all.
    let all = compared(&line, (most - 0.01, false), Some(NextMeasure::Line));
    println!("class 5 without a line, to {most:.3}: {all:.2?}");
    assert!(all[0].0 < 200.0, "{all:?}");
    is_first(&all);
}

/// What the rule does not do: where a line has to be made after all, making it at once takes fewer minutes than braiding swatches
/// first. But that line is then made with the chance there is without any, which is a third; after the swatches it is three quarters.
#[test]
fn swatches_first_are_for_the_line_that_is_made() {
    let line = class_five();
    let all = compared(&line, (ENOUGH, false), None);
    println!("class 5: {all:.2?}");
    let (best, at_once) = (all[0], all[1]);
    assert!(best.1 >= ENOUGH && at_once.1 >= ENOUGH, "{all:?}");
    assert!(at_once.0 < best.0 && best.0 < 1.4 * at_once.0, "{all:?}");
    assert!(
        all[2..].iter().all(|other| other.0 == f64::INFINITY),
        "{all:?}"
    );
    let first = Simulated::of(0, (&line.0, &line.1)).worths();
    assert!(first.now.chance < 0.4 && first.worths[0].after.chance > 0.7);
}
