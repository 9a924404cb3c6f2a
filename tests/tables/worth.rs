//! What a measurement is worth, against libraries of statistics.
//!
//! Covariances: `statsmodels` 0.15.0 with `NumPy` 2.4.6. What is believed is written as four more measurements, one of each unknown,
//! with the covariance believed as that of their errors: `GLS(zeros(7), vstack([eye(4), J]), sigma=block_diag(C, V)).fit()
//! .normalized_cov_params`. All matrices are invented. Chances: `SciPy` 1.17.1,
//! `norm.cdf(high, target, spread) - norm.cdf(low, target, spread)`.

use nalgebra::DMatrix;
use taperwright::base::estimate::{Group, narrowed};
use taperwright::braid::weight::Class;
use taperwright::keep::book::next::Sureness;

use crate::row::{agree, row};

const BELIEVED: [f64; 16] = [
    4.0, 0.6, -1.0, 0.2, 0.6, 2.34, 0.15, -0.57, -1.0, 0.15, 0.93, 0.35, 0.2, -0.57, 0.35, 0.5325,
];
const SLOPES: [f64; 12] = [
    1.0, 0.5, -2.0, 3.0, 0.2, -1.0, 0.0, 40.0, 0.0, 0.7, 1.5, -10.0,
];
const LEFT: [f64; 16] = [
    0.073_430_184_722_052_23,
    0.049_589_171_263_804_07,
    0.000_912_325_778_563_674,
    0.000_990_648_800_774_798_3,
    0.049_589_171_263_804_07,
    0.114_340_991_034_308_27,
    0.037_810_943_277_302_77,
    0.003_645_505_317_234_878,
    0.000_912_325_778_563_674,
    0.037_810_943_277_302_77,
    0.022_282_720_482_868_75,
    0.002_401_115_960_454_432_2,
    0.000_990_648_800_774_798_3,
    0.003_645_505_317_234_878,
    0.002_401_115_960_454_432_2,
    0.000_839_214_185_780_388_5,
];

/// Solved independently, see above: three numbers with errors of 0.4, 0.9 and 0.25, of which the last two share one of 0.6 and −0.3.
#[test]
fn what_is_left_is_that_of_generalised_least_squares() {
    let mut group = Group::default();
    for (error, shared) in [(0.4, 0.0), (0.9, 0.6), (0.25, -0.3)] {
        group.push(0.0, error, shared);
    }
    let believed = DMatrix::from_row_slice(4, 4, &BELIEVED);
    let slopes = DMatrix::from_row_slice(3, 4, &SLOPES);
    let left = narrowed(&believed, &slopes, &group);
    for (index, wanted) in LEFT.into_iter().enumerate() {
        agree(left[(index / 4, index % 4)], wanted, 1e-9);
    }
}

/// Calculated independently, see above.
#[test]
fn the_chance_of_a_class_is_that_of_its_band() {
    for (number, share, printed) in [
        (1, 0.01, "1.0000000000"),
        (1, 0.1, "0.6826894921"),
        (3, 0.025, "0.9836049282"),
        (3, 0.05, "0.7698606596"),
        (5, 0.01, "0.9999817847"),
        (5, 0.025, "0.9135237345"),
        (5, 0.05, "0.6086340617"),
        (5, 0.1, "0.3317648582"),
        (9, 0.025, "0.9044192955"),
        (15, 0.1, "0.2149371315"),
    ] {
        let class = Class::of_number(number).expect("it is in the table");
        row(Sureness::of(class, share).chance, printed);
    }
}

/// Analytic: in a band around its middle, a narrower distribution has always more.
#[test]
fn the_chance_grows_as_the_spread_shrinks() {
    for class in taperwright::braid::weight::CLASSES {
        let chances =
            (1..200).map(|thousandths| Sureness::of(class, 0.001 * f64::from(thousandths)).chance);
        let chances: Vec<f64> = chances.collect();
        assert!(
            chances.windows(2).all(|pair| pair[0] >= pair[1]),
            "class {}",
            class.number
        );
        assert!(
            chances[0] > 0.99 && chances[198] < 0.5,
            "class {}",
            class.number
        );
    }
}
