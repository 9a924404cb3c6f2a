//! Least squares with prior knowledge against certified and independently solved problems.
//!
//! Solved: `SciPy` 1.17.1, `scipy.optimize.least_squares(residuals, start, method="lm", jac="3-point", x_scale="jac",
//! xtol=1e-15, ftol=1e-15, gtol=1e-15)`, begun again three times from its own answer. The residuals are those of the
//! measured numbers over their errors, then those of the unknowns over their spreads: `(f(q) - y)/e`, `(q - mean)/spread`. The
//! covariance is `inv(r.jac.T @ r.jac)`. Where errors are shared, the residuals have one unknown more, `z`, of mean 0 and
//! spread 1: `(f(q) + z*u - y)/e`. With ranges: `method="trf", bounds=(low, high)`.

use taperwright::base::estimate::{BEND, Fit, Group, Unknown, expect, fit};

use crate::row::agree;

/// An unknown that could be anything finite.
fn free(mean: f64, spread: f64) -> Unknown {
    Unknown {
        mean,
        spread,
        low: f64::MIN,
        high: f64::MAX,
    }
}

fn group(measured: &[f64], errors: &[f64], shared: &[f64]) -> Group {
    Group {
        measured: measured.to_vec(),
        errors: errors.to_vec(),
        shared: shared.to_vec(),
        bends: vec![f64::INFINITY; measured.len()],
    }
}

/// `b₁ (1 − exp(−b₂ x))`.
fn rising(places: &[f64]) -> impl Fn(&[f64]) -> Vec<f64> + '_ {
    move |b| {
        let at = |x: &f64| b[0] * (1.0 - (-b[1] * x).exp());
        places.iter().map(at).collect()
    }
}

#[track_caller]
fn spreads(fit: &Fit, wanted: &[f64], share: f64) {
    for (index, &wanted) in wanted.iter().enumerate() {
        agree(fit.covariance[(index, index)].sqrt(), wanted, share);
    }
}

const MISRA_X: [f64; 14] = [
    77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0,
];
const MISRA_Y: [f64; 14] = [
    10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47,
    81.78,
];
/// Certified residual standard deviation.
const MISRA_ERROR: f64 = 1.018_787_633_0e-1;

/// Source: NIST Statistical Reference Datasets, nonlinear regression, Misra1a: data, certified values, certified standard
/// deviations. From the farther of its two starting points; the prior is a hundred times as wide as that is large.
#[test]
fn misra_1a_is_certified() {
    let unknowns = [free(500.0, 5e4), free(1e-4, 1e-2)];
    let data = group(&MISRA_Y, &[MISRA_ERROR; 14], &[0.0; 14]);
    let found = fit(&unknowns, &[data], rising(&MISRA_X));
    assert!(found.settled);
    agree(found.values[0], 2.389_421_291_8e2, 1e-6);
    agree(found.values[1], 5.501_564_318_1e-4, 1e-6);
    spreads(&found, &[2.707_007_524_1, 7.266_868_843_6e-6], 1e-6);
}

/// Source: the same, `BoxBOD`, of higher difficulty, from the nearer starting point.
#[test]
fn box_bod_is_certified() {
    let unknowns = [free(100.0, 1e6), free(0.75, 1e4)];
    let measured = [109.0, 149.0, 149.0, 191.0, 213.0, 224.0];
    let data = group(&measured, &[1.708_807_242_3e1; 6], &[0.0; 6]);
    let found = fit(&unknowns, &[data], rising(&[1.0, 2.0, 3.0, 5.0, 7.0, 10.0]));
    assert!(found.settled);
    agree(found.values[0], 2.138_094_088_9e2, 1e-6);
    agree(found.values[1], 5.472_374_854_2e-1, 1e-6);
    spreads(&found, &[1.235_451_517_6e1, 1.045_599_323_7e-1], 1e-6);
}

/// Solved independently, see above: Misra1a with beliefs of 250 ± 3 and (5 ± 0.1)·10⁻⁴.
#[test]
fn what_was_believed_pulls() {
    let unknowns = [free(250.0, 3.0), free(5e-4, 1e-5)];
    let data = group(&MISRA_Y, &[MISRA_ERROR; 14], &[0.0; 14]);
    let found = fit(&unknowns, &[data], rising(&MISRA_X));
    agree(found.values[0], 247.281_059_212_881_25, 1e-6);
    agree(found.values[1], 5.286_383_925_217_877e-4, 1e-6);
    agree(found.covariance[(0, 0)], 3.456_999_591_014_367, 1e-6);
    agree(found.covariance[(0, 1)], -8.546_119_226_042_1e-6, 1e-6);
    agree(found.covariance[(1, 1)], 2.124_475_851_178_893_7e-11, 1e-6);
}

const PLACES: [f64; 5] = [0.5, 1.0, 2.0, 3.0, 4.0];

/// `a (1 − exp(−k t)) + d t/(1 + t)` at five places, then at the last four of them again.
fn growing(q: &[f64]) -> Vec<f64> {
    let at = |t: &f64| q[0] * (1.0 - (-q[1] * t).exp()) + q[2] * t / (1.0 + t);
    PLACES.iter().chain(&PLACES[1..]).map(at).collect()
}

/// Nine numbers in two groups, invented; the first three of the second share an error of 0.3.
fn nine_numbers() -> [Group; 2] {
    [
        group(
            &[2.31, 3.92, 6.05, 7.21, 7.74],
            &[0.1, 0.1, 0.15, 0.15, 0.2],
            &[0.0; 5],
        ),
        group(&[4.45, 6.70, 7.95, 8.60], &[0.08; 4], &[0.3, 0.3, 0.3, 0.0]),
    ]
}

fn three_unknowns() -> [Unknown; 3] {
    [free(8.0, 1.5), free(0.7, 0.2), free(0.0, 0.3)]
}

/// Solved independently, see above.
#[test]
fn errors_may_be_shared() {
    let found = fit(&three_unknowns(), &nine_numbers(), growing);
    let values = [
        9.357_548_343_656_749,
        0.532_937_778_338_364_5,
        0.145_199_852_668_489_1,
    ];
    let covariance = [
        (0, 0, 0.062_977_479_918_087_62),
        (0, 1, -0.000_500_686_349_294_420_8),
        (0, 2, -0.058_689_609_025_924_565),
        (1, 1, 0.000_576_162_969_413_219_8),
        (1, 2, -0.003_390_791_245_343_474),
        (2, 2, 0.085_296_750_396_480_06),
    ];
    for (found, wanted) in found.values.iter().zip(values) {
        agree(*found, wanted, 1e-6);
    }
    for (row, column, wanted) in covariance {
        agree(found.covariance[(row, column)], wanted, 1e-6);
        agree(found.covariance[(column, row)], wanted, 1e-6);
    }
}

/// Solved independently, see above: each number in turn was left out, what is expected of it solved for from the others,
/// and its distance taken in spreads of that expectation, its own error included. The model is not linear: to 3 %.
#[test]
fn a_number_is_judged_by_all_the_others() {
    let found = fit(&three_unknowns(), &nine_numbers(), growing);
    let left_out = [
        0.8291, -0.2486, -1.347, -2.6131, -3.2939, 1.1631, 0.422, -1.1371, 4.946,
    ];
    for (found, wanted) in found.standardised.iter().zip(left_out) {
        assert!(
            (found - wanted).abs() <= 0.03 * wanted.abs() + 0.01,
            "{found} is not {wanted}"
        );
    }
}

/// Solved independently, see above: without the second group, two of the three unknowns end at the end of their range.
#[test]
fn ranges_are_kept() {
    let mut unknowns = three_unknowns();
    for (unknown, (low, high)) in unknowns
        .iter_mut()
        .zip([(0.0, 8.05), (0.0, 2.0), (-0.1, 0.1)])
    {
        (unknown.low, unknown.high) = (low, high);
    }
    let [first, _] = nine_numbers();
    let found = fit(&unknowns, &[first], |q| growing(q)[..5].to_vec());
    assert!(found.settled);
    assert_eq!((found.values[0], found.values[2]), (8.05, 0.1));
    agree(found.values[1], 0.672_909_831_170_396_2, 1e-6);
}

/// Analytic: where nothing was measured, all is as it was believed.
#[test]
fn nothing_measured_is_nothing_learnt() {
    for groups in [vec![], vec![Group::default()]] {
        let found = fit(&three_unknowns(), &groups, |_| Vec::new());
        assert_eq!(found.values, [8.0, 0.7, 0.0]);
        spreads(&found, &[1.5, 0.2, 0.3], 1e-12);
    }
}

/// A model that has nothing to say but near the mean is left where it still has.
#[test]
fn a_model_may_be_undefined_elsewhere() {
    let data = group(&[-3.0], &[0.1], &[0.0]);
    let found = fit(&[free(1.0, 10.0)], &[data], |q| vec![q[0].ln()]);
    agree(found.values[0], (-3.0_f64).exp(), 1e-3);
}

/// A group in which no number pulls harder than one 1.345 of its errors off.
fn bent(measured: &[f64], shared: f64) -> Group {
    let count = measured.len();
    Group {
        bends: vec![BEND; count],
        ..group(measured, &vec![1.0; count], &vec![shared; count])
    }
}

fn the_same(count: usize) -> impl Fn(&[f64]) -> Vec<f64> {
    move |q| vec![q[0]; count]
}

/// By hand: of 1, 1.2, 0.8 and 10, each to 1, three pull by their distance and the last by 1.345: with a belief of 0 ± 2,
/// `3 − 3θ + 1.345 − θ/4 = 0`. Its weight is 1.345 over its distance; three full ones, it and the belief make the spread.
/// Left out, the others and the belief make one expect 3/3.25 ± √(1 + 1/3.25) of it.
#[test]
fn a_number_far_off_pulls_no_harder_than_one_at_the_bend() {
    let measured = [1.0, 1.2, 0.8, 10.0];
    let found = fit(&[free(0.0, 2.0)], &[bent(&measured, 0.0)], the_same(4));
    assert!(found.settled);
    let theta = 4.345 / 3.25;
    agree(found.values[0], theta, 1e-7);
    let weight = 1.345 / (10.0 - theta);
    assert_eq!(found.weights[..3], [1.0; 3]);
    agree(found.weights[3], weight, 1e-6);
    agree(found.covariance[(0, 0)], 1.0 / (3.25 + weight), 1e-6);
    let off = (10.0 - 3.0 / 3.25) / (1.0 + 1.0 / 3.25_f64).sqrt();
    agree(found.standardised[3], off, 1e-6);
    // However far it is, it moves the estimate no farther.
    let farther = [1.0, 1.2, 0.8, 1e9];
    let farther = fit(&[free(0.0, 2.0)], &[bent(&farther, 0.0)], the_same(4));
    agree(farther.values[0], theta, 1e-6);
}

/// By hand: numbers that share an error `ε` of spread 1 beside their own of 1. With `θ` believed to be 0 ± 1, both are
/// pulled alike, `θ = ε`, and of 1, 1.2 and 8 `(1 − 2θ) + (1.2 − 2θ) + 1.345 = θ`.
#[test]
fn a_shared_error_is_told_from_a_number_far_off() {
    let found = fit(
        &[free(0.0, 1.0)],
        &[bent(&[1.0, 1.2, 8.0], 1.0)],
        the_same(3),
    );
    assert!(found.settled);
    agree(found.values[0], 3.545 / 5.0, 1e-7);
    agree(found.weights[2], 1.345 / (8.0 - 2.0 * 0.709), 1e-6);
}

/// By hand: numbers all nearer than the bend are estimated as by plain least squares.
#[test]
fn numbers_near_each_other_are_weighed_in_full() {
    let measured = [0.6, 1.3, -0.4, 0.9];
    let plain = group(&measured, &[1.0; 4], &[0.3; 4]);
    let plain = fit(&[free(0.0, 1.5)], &[plain], the_same(4));
    let robust = fit(&[free(0.0, 1.5)], &[bent(&measured, 0.3)], the_same(4));
    assert_eq!(robust, plain);
}

/// Analytic: of beliefs of 2 ± 0.5 and 1 ± 0.2, three times the one less the other is 5 ± √(1.5² + 0.2²).
#[test]
fn what_is_expected_has_the_spread_of_all_it_comes_from() {
    let unknowns = [free(2.0, 0.5), free(1.0, 0.2)];
    let known = fit(&unknowns, &[], |_| Vec::new());
    let found = expect(&unknowns, &known, |q| vec![3.0 * q[0] - q[1]]);
    agree(found[0].value, 5.0, 1e-12);
    agree(found[0].spread, (2.25_f64 + 0.04).sqrt(), 1e-9);
}
