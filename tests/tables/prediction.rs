//! What a head will weigh, against tables and whole plans.

use taperwright::base::units::Mass;
use taperwright::design::Design;
use taperwright::design::parameters::{COUNT, DraftLearned, Parameter};
use taperwright::plan::Plan;
use taperwright::plan::layout::Ground;
use taperwright::plan::prediction::{Prediction, chance_percent, normal};

use crate::designs::{parsed, usual};
use crate::row::{agree, row};

/// Source: any table of the normal distribution, such as Abramowitz & Stegun, Table 26.1.
#[test]
fn the_normal_distribution() {
    row(normal(0.0), "0.5");
    row(normal(1.0), "0.8413447461");
    row(normal(-1.96), "0.0249978951");
    row(normal(3.0), "0.9986501020");
}

/// From the same table: class 5 is 134 to 146 gr. From 141 gr with a spread of 2 the ends are 3.5 below and 2.5 above, Φ of
/// which are 0.000233 and 0.993790.
#[test]
fn chances_of_classes() {
    let prediction = Prediction::new(Mass::from_grains(141.0), Mass::from_grains(2.0));
    row(prediction.chances[4], "0.993558");
    assert_eq!(prediction.words(), "141 ± 4 gr, 99 % chance of class 5");
    let wide = Prediction::new(Mass::from_grains(146.0), Mass::from_grains(6.0));
    let (verdict, chance) = wide.likeliest();
    assert_eq!(verdict.number(), Some(5));
    row(chance, "0.4772");
    // From 6 to 22 above 146, 1 to 3.667 spreads of 6.
    row(wide.chances[5], "0.1585");
    assert_eq!(wide.words(), "146 ± 12 gr, 48 % chance of class 5");
    let sure = Prediction::new(Mass::from_grains(140.0), Mass::ZERO);
    assert_eq!(sure.chances[4], 1.0);
    assert_eq!(chance_percent(1.0), "more than 99 %");
    assert_eq!(chance_percent(0.0), "less than 1 %");
}

/// From the same table of classes: 54 to 565 gr have classes, with gaps between their bands. What lies beyond, or in a gap, is
/// never called by the class next to it.
#[test]
fn what_has_no_class_is_called_none() {
    let words = |grains, spread| {
        Prediction::new(Mass::from_grains(grains), Mass::from_grains(spread)).words()
    };
    assert_eq!(
        words(2_561.0, 40.0),
        "2561 ± 78 gr, more than 99 % chance of a weight above class 15"
    );
    assert_eq!(
        words(40.0, 1.0),
        "40 ± 2 gr, more than 99 % chance of a weight below class 1"
    );
    // 146 to 152 gr is the gap: 3 of its spreads on either side of 149.
    assert_eq!(
        words(149.0, 1.0),
        "149 ± 2 gr, more than 99 % chance of a weight between classes 5 and 6"
    );
    // Half a spread over the end of the last class, Φ(0.5) of it beyond.
    assert_eq!(
        words(575.0, 20.0),
        "575 ± 39 gr, 69 % chance of a weight above class 15"
    );
}

/// What is predicted of a design's head.
pub(crate) fn predicted(design: &Design) -> Prediction {
    let ground = Ground::of(design);
    let layout = ground.lay_out(&design.pins());
    let (line, pieces) = (ground.braid(&layout), ground.pieces(&layout));
    let head = Plan::of(design).head;
    Prediction::of(design, &pieces, &line, (head.from, head.to))
}

/// The spread of one parameter alone, against the whole plan calculated again with that parameter half a spread either way:
/// threads, stops and wheels stay where that is as small as it is here.
#[test]
fn one_spread_moves_the_head_as_the_plan_does() {
    let spreads = [0.01, 0.1, 0.2, 0.2, 0.0, 1.0, 0.2];
    for parameter in Parameter::ALL {
        let index = parameter as usize;
        let mut only = [0.0; COUNT];
        only[index] = spreads[index];
        let mut draft = usual().draft().clone();
        draft.learned = Some(DraftLearned {
            spreads: only,
            correlations_percent: [0.0; 21],
            scatter_percent: 0.0,
            swatches: 1,
            lines: 1,
        });
        let found = predicted(&parsed(draft)).spread.grains();
        let head = |by: f64| {
            let value = usual().parameters().get(parameter) + by * spreads[index];
            let moved = usual().parameters().with(parameter, value);
            let design = usual().with_parameters(&moved).expect("in range");
            let ground = Ground::of(&usual());
            let layout = ground.lay_out(&[]);
            let head = Plan::of(&usual()).head;
            Ground::of(&design)
                .braid(&layout)
                .mass(head.from, head.to)
                .grains()
        };
        let wanted = 0.5 * (head(1.0) - head(-1.0)).abs();
        assert!(
            (found - wanted).abs() < 0.01 * wanted + 1e-6,
            "{parameter:?}: {found}, {wanted}"
        );
        assert!(
            index == Parameter::OilFill as usize || wanted > 1e-3,
            "{parameter:?}"
        );
    }
}

/// Analytic: with nothing known to be uncertain but the scatter, the spread is that of the scatter; independent parts add
/// as squares.
#[test]
fn scatter_and_parameters_add_as_squares() {
    let spread = |weighed: f64, scatter: f64| {
        let mut spreads = [0.0; COUNT];
        spreads[Parameter::Weighed as usize] = weighed;
        let mut draft = usual().draft().clone();
        draft.learned = Some(DraftLearned {
            spreads,
            correlations_percent: [0.0; 21],
            scatter_percent: scatter,
            swatches: 1,
            lines: 1,
        });
        let prediction = predicted(&parsed(draft));
        prediction.spread / prediction.mass
    };
    agree(spread(0.0, 1.5), 0.015, 1e-9);
    agree(spread(2.0, 0.0), 0.02, 1e-6);
    agree(spread(2.0, 1.5), 0.025, 1e-6);
}
