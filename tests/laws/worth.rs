//! What a measurement is worth, tried on workshops whose truth is known.
//!
//! Sources: none needed. Each workshop's truth is drawn from what is believed before measuring; instruments err and lines scatter as
//! the book says they do. The estimate sees only what was measured. That no measurement widens a spread is analytic.

use std::thread;

use taperwright::base::units::{Length, Mass};
use taperwright::design::Design;
use taperwright::design::parameters::Parameters;
use taperwright::design::settings::Setting;
use taperwright::keep::book::estimate::Estimate;
use taperwright::keep::book::next::{
    ENOUGH, NextMeasure, SwatchPart, THREAD_LENGTH, Worth, Worths,
};
use taperwright::keep::book::record::LineRecord;
use taperwright::keep::book::swatch::{Swatch, SwatchField};
use taperwright::keep::book::{Frozen, Workshop, errors};
use taperwright::plan::Plan;
use taperwright::plan::prediction::{NINETY_FIVE, prior};

use crate::chance::Chance;
use crate::designs::{draft, parsed};
use crate::learning::{Planned, light, predicted, read, record, truth};

const WORKSHOPS: u64 = 2_000;
/// The book's own lengths for a swatch and for counting crossings.
const SWATCH_METRES: f64 = 0.3;
const CROSSINGS_METRES: f64 = 0.05;

/// A workshop whose truth is known, with its book and the line it is for.
struct Simulated<'a> {
    planned: &'a Planned,
    plan: &'a Plan,
    truth: Parameters,
    /// The design as it comes out.
    made: Design,
    book: Workshop,
    chance: Chance,
}

impl<'a> Simulated<'a> {
    fn of(seed: u64, (planned, plan): (&'a Planned, &'a Plan)) -> Self {
        let mut chance = Chance::of(seed);
        let truth = truth(&planned.design, &mut chance);
        Self {
            made: planned.made(&truth).0,
            book: Workshop::new("simulated".to_owned(), &planned.design),
            planned,
            plan,
            truth,
            chance,
        }
    }

    fn worths(&self) -> Worths {
        let line = (&self.planned.design, self.plan);
        Worths::of(&self.book, &Estimate::of(&self.book), line).expect("it has a class")
    }

    /// A line of which nothing is written down yet.
    fn earlier_line(&self) -> LineRecord {
        LineRecord::new("a line".to_owned(), Frozen::of(&self.planned.design))
    }

    /// Measures, and writes it in the book.
    fn measure(&mut self, measure: NextMeasure) {
        match measure {
            NextMeasure::Line => {
                let index = self.book.records.len();
                let line = self.earlier_line();
                self.book.records.push(line);
                self.measure(NextMeasure::Finished(index));
            }
            NextMeasure::Finished(index) => {
                let all = record(self.planned, &self.truth, &mut self.chance).finished;
                let finished = &mut self.book.records[index].finished;
                (finished.mass_g, finished.head_mass_g) = (all.mass_g, all.head_mass_g);
            }
            NextMeasure::Thread => {
                self.swatch(&[SwatchField::ThreadLength, SwatchField::ThreadMass]);
            }
            NextMeasure::Swatch => self.swatch(&SwatchPart::WHOLE),
            NextMeasure::SwatchPart(part) => self.swatch(part.fields()),
            NextMeasure::Rest(index) => {
                let mut swatch = self.book.swatches[index].clone();
                for field in SwatchField::ALL {
                    if is_of_the_rest(field) && swatch.get(field).is_none() {
                        self.read(&mut swatch, field);
                    }
                }
                self.book.swatches[index] = swatch;
            }
            other => panic!("{other:?} is not simulated"),
        }
    }

    fn swatch(&mut self, fields: &[SwatchField]) {
        let mut swatch = Swatch::of_belly(&self.planned.design, self.plan);
        for &field in fields {
            self.read(&mut swatch, field);
        }
        self.book.swatches.push(swatch);
    }

    /// Reads a number off a swatch, with the error of its instrument.
    fn read(&mut self, swatch: &mut Swatch, field: SwatchField) {
        let piece = self.plan.belly.piece;
        let threads = piece.load.threads;
        let constant = Length::from_millimetres(self.made.setting(Setting::MachineConstant));
        let lay = constant * piece.wheels.ratio();
        let braid = self.made.braiding().at_lay(threads, lay);
        let thread = self.made.braiding().thread.linear_density();
        let [long, over] = [SWATCH_METRES, CROSSINGS_METRES].map(Length::from_metres);
        let length = |length: Length| (length.metres(), errors::of_length(length).metres());
        let mass = |mass: Mass| (mass.grams(), errors::of_mass(mass).grams());
        let (value, error) = match field {
            SwatchField::Length => length(long),
            SwatchField::Circuits => (long / lay, errors::CIRCUITS),
            SwatchField::CrossingsOver => length(over),
            SwatchField::Crossings => (0.5 * f64::from(threads) * (over / lay), errors::CROSSINGS),
            SwatchField::Mass => mass(long * braid.linear_density),
            SwatchField::Diameter => (braid.diameter.millimetres(), errors::DIAMETER.millimetres()),
            SwatchField::Angle => (braid.angle.degrees(), errors::ANGLE.degrees()),
            SwatchField::ThreadLength => length(THREAD_LENGTH),
            SwatchField::ThreadMass => mass(THREAD_LENGTH * thread),
            other => panic!("{other:?} is set up, not read off"),
        };
        swatch.set(field, Some(read(&mut self.chance, value, error)));
    }
}

/// Whether a number can be measured of a swatch that is braided already.
fn is_of_the_rest(field: SwatchField) -> bool {
    use SwatchField::{Circuits, ThreadLength, ThreadMass};
    !SwatchField::SETUP.contains(&field) && ![Circuits, ThreadLength, ThreadMass].contains(&field)
}

/// Something of each of so many workshops, by two threads.
fn all<T: Send>(count: u64, of: impl Fn(u64) -> T + Sync) -> Vec<T> {
    let half = |first: u64| (first..count).step_by(2).map(&of).collect::<Vec<_>>();
    thread::scope(|scope| {
        let other = scope.spawn(|| half(1));
        let mut all = half(0);
        all.extend(other.join().expect("the other half comes to an end"));
        all
    })
}

fn class_five() -> (Planned, Plan) {
    let design = light(1.06);
    let plan = Plan::of(&design);
    (Planned::of(design), plan)
}

/// A light line of class 3, whose band is wider for its weight: 94 to 106 grains.
fn class_three() -> (Planned, Plan) {
    let points = [(0.0, 0.83), (0.3, 0.83), (2.0, 0.898), (11.0, 0.898)];
    let settings = [
        (Setting::FewestThreads, 10.0),
        (Setting::GearChangePrice, 50.0),
    ];
    let mut light = draft(&settings, &points);
    for step in &mut light.recipe {
        if step.pressure().is_some() {
            step.mbar = 5.0;
        }
    }
    let design = parsed(light);
    let plan = Plan::of(&design);
    assert_eq!(plan.verdict.number(), Some(3), "{:?}", plan.head_mass);
    (Planned::of(design), plan)
}

/// How far the head of a next line was off after a book of so many weighed lines: as a share of what was predicted, and in the
/// spreads stated; with the spread stated as a share.
struct Off {
    share: f64,
    spreads: f64,
    stated: f64,
}

fn offs(seed: u64, lines: usize, (first, next): (&(Planned, Plan), &Planned)) -> Off {
    let mut one = Simulated::of(seed, (&first.0, &first.1));
    for _ in 0..lines {
        one.measure(NextMeasure::Line);
    }
    let predicted = predicted(next, &Estimate::of(&one.book));
    let made = next.made(&one.truth).1.mass(next.head.from, next.head.to);
    let mass = made * (1.0 + prior::SCATTER * one.chance.normal());
    Off {
        share: mass / predicted.mass - 1.0,
        spreads: (mass - predicted.mass) / predicted.spread,
        stated: predicted.spread / predicted.mass,
    }
}

/// Two thousand workshops for each size of book: how close a head really is, and whether the range stated holds as often as it
/// claims. One standard deviation of what it is off is at most 10 % before anything is weighed, 4 % after one line, 3 % after two
/// and 2.5 % after three.
#[test]
fn weighed_lines_bring_the_next_as_close_as_is_claimed() {
    let (first, next) = (class_five(), Planned::of(light(1.075)));
    for (lines, most) in [0.10, 0.04, 0.03, 0.025].into_iter().enumerate() {
        let all = all(WORKSHOPS, |seed| offs(seed, lines, (&first, &next)));
        let count = all.len() as f64;
        let deviation = (all.iter().map(|off| off.share * off.share).sum::<f64>() / count).sqrt();
        let stated = all.iter().map(|off| off.stated).sum::<f64>() / count;
        let held = |within: f64| {
            let held = all.iter().filter(|off| off.spreads.abs() <= within);
            held.count() as f64 / count
        };
        let (one, two) = (held(1.0), held(NINETY_FIVE));
        println!("{lines} lines: off {deviation:.4}, stated {stated:.4}, held {one:.3}, {two:.3}");
        assert!(deviation <= most, "{lines} lines: {deviation}");
        assert!(
            (one - 0.68).abs() <= 0.03,
            "{lines} lines: one spread holds in {one}"
        );
        assert!(
            (two - 0.95).abs() <= 0.02,
            "{lines} lines: two hold in {two}"
        );
    }
}

/// Spread of the head before a measurement, expected after it, and realised with the number simulated; as shares of the target.
type Gain = (f64, f64, f64);

/// What is expected of each kind of measurement against what it really brought, each taken from books of three sizes.
#[test]
fn what_is_expected_of_a_measurement_is_what_it_brings() {
    let line = class_five();
    let starts: [&[NextMeasure]; 3] = [
        &[],
        &[NextMeasure::Swatch],
        &[NextMeasure::SwatchPart(SwatchPart::Weigh)],
    ];
    let gains = all(600, |seed| {
        let start = starts[(seed % 3) as usize];
        let begun = || {
            let mut one = Simulated::of(seed, (&line.0, &line.1));
            let earlier = one.earlier_line();
            one.book.records.push(earlier);
            start.iter().for_each(|&measure| one.measure(measure));
            one
        };
        let before = begun().worths();
        let realised = |worth: &Worth| {
            let mut one = begun();
            one.measure(worth.measure);
            let after = one.worths().now;
            let gain = [before.now, worth.after, after].map(|sure| sure.spread.grains());
            (worth.measure.key(), (gain[0], gain[1], gain[2]))
        };
        before.worths.iter().map(realised).collect::<Vec<_>>()
    });
    let gains: Vec<(&str, Gain)> = gains.into_iter().flatten().collect();
    let mut keys: Vec<&str> = gains.iter().map(|gain| gain.0).collect();
    keys.sort_unstable();
    keys.dedup();
    for key in &keys {
        let of = gains
            .iter()
            .filter(|gain| gain.0 == *key)
            .map(|gain| gain.1);
        let sum = of
            .clone()
            .fold((0.0, 0.0), |sum, (before, expected, realised)| {
                (sum.0 + before - expected, sum.1 + before - realised)
            });
        let (count, ratio) = (of.count(), sum.1 / sum.0);
        println!("{key}: {count} times, realised {ratio:.3} of what was expected");
        assert!((ratio - 1.0).abs() <= 0.10, "{key}: {ratio}");
    }
    assert!(keys.len() >= 7, "{keys:?}");
}

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

/// Every order tried. None is the one that what is worth most makes of these lines.
fn orders(line: NextMeasure) -> Vec<Order> {
    use NextMeasure::{Swatch, Thread};
    let [count, weigh, angle] = SwatchPart::ALL.map(NextMeasure::SwatchPart);
    vec![
        Order(vec![line], vec![Swatch]),
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
    let (best, others) = all.split_first().expect("the rule is first");
    assert!(best.1 >= ENOUGH, "{best:?}");
    assert!(others.iter().all(|other| best.0 < other.0), "{all:?}");
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
    let (best, others) = all.split_first().expect("the rule is first");
    assert!(
        best.0 < 200.0 && others.iter().all(|other| best.0 < other.0),
        "{all:?}"
    );
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

/// Whatever was measured before: a measurement narrows what is known, or leaves it, and takes time.
#[test]
fn no_measurement_widens_a_spread() {
    let (five, three) = (class_five(), class_three());
    let mut count = 0;
    for seed in 0..200 {
        let line = if seed % 2 == 0 { &five } else { &three };
        let mut one = Simulated::of(seed, (&line.0, &line.1));
        for _ in 0..4 {
            let Worths { now, worths } = one.worths();
            for worth in &worths {
                assert!(worth.after.spread < now.spread, "{worth:?} from {now:?}");
                assert!(
                    worth.after.chance > now.chance && worth.minutes > 0.0,
                    "{worth:?}"
                );
            }
            count += worths.len();
            let Some(any) = worths.len().checked_sub(1) else {
                break;
            };
            let chosen = (one.chance.uniform() * any as f64).round();
            let chosen = worths.iter().nth(chosen as usize).expect("one of them");
            one.measure(chosen.measure);
        }
    }
    assert!(count > 2_000, "{count}");
}
