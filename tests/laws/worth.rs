//! What a measurement is worth, tried on workshops whose truth is known.
//!
//! Sources: none needed. The estimate sees only what was measured. That no measurement widens a spread is analytic.

use taperwright::keep::book::Workshop;
use taperwright::keep::book::estimate::Estimate;
use taperwright::keep::book::next::{NextMeasure, SwatchPart, Worth, Worths};
use taperwright::plan::Plan;
use taperwright::plan::prediction::{NINETY_FIVE, prior};

use crate::learning::{Planned, light, predicted};
use crate::likely::unpinned;
use crate::lines::some_of;
use crate::simulated::{Simulated, all, class_five, class_three};

const WORKSHOPS: u64 = 2_000;

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
            for &measure in start {
                one.measure(measure);
            }
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

/// Whatever the line is: with an empty book what is known now is what its plan says, and measurements narrow it.
#[test]
fn every_likely_line_has_measurements_worth_taking() {
    let (mut classes, mut named, mut alike) = (0, 0, 0);
    for design in some_of(&unpinned(), 600) {
        let plan = Plan::of(&design);
        let book = Workshop::new("any".to_owned(), &design);
        let Some(Worths { now, worths }) =
            Worths::of(&book, &Estimate::of(&book), (&design, &plan))
        else {
            assert_eq!(plan.head_mass, None, "{design:?}");
            continue;
        };
        let predicted = plan.prediction.expect("it has a head");
        let share = now.spread.grains() / now.class.target;
        let stated = predicted.spread / predicted.mass;
        alike += usize::from((share - stated).abs() < 0.05 * stated);
        for worth in &worths {
            assert!(worth.after.spread < now.spread, "{worth:?} from {now:?}");
            assert!(worth.after.chance > now.chance, "{worth:?} from {now:?}");
        }
        (classes, named) = (classes + 1, named + worths.len());
    }
    println!("{classes} lines, {alike} as the plan says, {named} measurements");
    // The plan takes slopes upwards only, which differs where a slope changes abruptly.
    assert!(alike * 100 >= 95 * classes, "{alike} of {classes}");
    assert!(classes > 100 && named > 300, "{classes}, {named}");
}

/// Whatever was measured before: a measurement narrows what is known, or leaves it, and takes time.
#[test]
fn no_measurement_widens_a_spread() {
    let (five, three) = (class_five(), class_three());
    let mut count = 0;
    for seed in 0..200_usize {
        let line = if seed % 2 == 0 { &five } else { &three };
        let mut one = Simulated::of(seed as u64, (&line.0, &line.1));
        for step in 0..4 {
            let Worths { now, worths } = one.worths();
            for worth in &worths {
                assert!(worth.after.spread < now.spread, "{worth:?} from {now:?}");
                assert!(
                    worth.after.chance > now.chance && worth.minutes > 0.0,
                    "{worth:?}"
                );
            }
            count += worths.len();
            if worths.is_empty() {
                break;
            }
            let chosen = worths[(seed + step) % worths.len()];
            one.measure(chosen.measure);
        }
    }
    assert!(count > 2_000, "{count}");
}
