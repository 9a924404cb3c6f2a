//! What few numbers say of all, against libraries of statistics.
//!
//! `SciPy` 1.17.1: `t.isf((1 - within) / 2, degrees)`, `chi2.ppf(below, degrees)`; limits of a mean by `t.interval(0.95, 4,
//! loc=mean(x), scale=sem(x))`, of a standard deviation by `sqrt(4 * var(x, ddof=1) / chi2.ppf([0.975, 0.025], 4))`, two samples by
//! `ttest_ind(x[:5], x[5:])`. `statsmodels` 0.15.0: `proportion_confint(met, of, alpha=0.05, method="wilson")`. All numbers are
//! invented.

use taperwright::base::sample::{Sample, Step, chi_squared, share_limits, student};
use taperwright::plan::prediction::NINETY_FIVE;

use crate::row::agree;

/// Degrees of freedom, the share within, t.
const STUDENT: [(u32, f64, f64); 28] = [
    (1, 0.95, 12.706_204_736_174_694),
    (2, 0.95, 4.302_652_729_749_462),
    (3, 0.95, 3.182_446_305_283_707_8),
    (9, 0.95, 2.262_157_162_798_205),
    (10, 0.95, 2.228_138_851_986_274),
    (30, 0.95, 2.042_272_456_301_237_8),
    (499, 0.95, 1.964_729_390_987_688_6),
    (1, 0.99, 63.656_741_162_871_526),
    (2, 0.99, 9.924_843_200_918_287),
    (3, 0.99, 5.840_909_309_733_355),
    (9, 0.99, 3.249_835_541_592_126),
    (10, 0.99, 3.169_272_672_616_95),
    (30, 0.99, 2.749_995_653_567_225_4),
    (499, 0.99, 2.585_717_683_111_754),
    (1, 0.999_9, 6_366.197_671_316_637),
    (2, 0.999_9, 99.992_499_843_750_04),
    (3, 0.999_9, 28.000_130_010_950_002),
    (9, 0.999_9, 6.593_682_583_944_882),
    (10, 0.999_9, 6.211_050_891_290_746),
    (30, 0.999_9, 4.482_417_175_409_786),
    (499, 0.999_9, 3.922_273_050_944_078_4),
    (1, 0.999_999, 636_619.772_348_751_3),
    (2, 0.999_999, 999.999_249_985_465_9),
    (3, 0.999_999, 130.154_589_557_110_2),
    (9, 0.999_999, 11.636_782_027_289_474),
    (10, 0.999_999, 10.516_489_956_882_173),
    (30, 0.999_999, 6.119_075_620_373_899),
    (499, 0.999_999, 4.953_400_539_173_342),
];

/// Degrees of freedom, the share below, chi-squared.
const CHI_SQUARED: [(u32, f64, f64); 14] = [
    (1, 0.025, 0.000_982_069_117_175_255_5),
    (2, 0.025, 0.050_635_615_968_579_75),
    (3, 0.025, 0.215_795_282_623_897_85),
    (9, 0.025, 2.700_389_499_980_358_4),
    (10, 0.025, 3.246_972_780_236_841_3),
    (30, 0.025, 16.790_772_265_566_63),
    (499, 0.025, 438.998_022_422_740_23),
    (1, 0.975, 5.023_886_187_314_888),
    (2, 0.975, 7.377_758_908_227_871),
    (3, 0.975, 9.348_403_604_496_148),
    (9, 0.975, 19.022_767_798_641_63),
    (10, 0.975, 20.483_177_350_807_388),
    (30, 0.975, 46.979_242_243_671_15),
    (499, 0.975, 562.789_495_993_598_2),
];

/// How many of how many, and the limits of the share.
const SHARES: [(u32, u32, f64, f64); 8] = [
    (0, 1, 0.0, 0.793_450_685_622_762_7),
    (1, 1, 0.206_549_314_377_237_4, 1.0),
    (0, 3, 0.0, 0.561_497_031_755_045_5),
    (2, 3, 0.207_659_600_802_047_7, 0.938_508_055_279_603_7),
    (4, 4, 0.510_109_163_545_402_5, 1.0),
    (9, 10, 0.595_849_973_204_761_4, 0.982_123_786_904_927),
    (19, 20, 0.763_868_806_553_257_7, 0.991_118_551_199_204_4),
    (480, 500, 0.939_026_404_165_149_2, 0.973_959_202_610_222_7),
];

#[test]
fn limits_of_t_and_chi_squared_are_those_of_a_library() {
    for (degrees, within, wanted) in STUDENT {
        agree(student(degrees, within), wanted, 1e-9);
    }
    for (degrees, below, wanted) in CHI_SQUARED {
        agree(chi_squared(degrees, below), wanted, 1e-9);
    }
}

#[test]
fn limits_of_mean_and_deviation_are_those_of_a_library() {
    let sample = Sample::of(&[0.012, -0.031, 0.055, 0.004, 0.021]).expect("there are numbers");
    let (low, high) = sample.mean_limits().expect("there are five");
    agree(low, -0.026_285_575_423_748_667, 1e-9);
    agree(high, 0.050_685_575_423_748_67, 1e-9);
    let (low, high) = sample.deviation_limits().expect("there are five");
    agree(low, 0.018_570_23, 1e-6);
    agree(high, 0.089_066_32, 1e-6);
}

#[test]
fn limits_of_a_share_are_those_of_a_library() {
    for (met, of, low, high) in SHARES {
        let found = share_limits(met, of, NINETY_FIVE);
        let near = |found: f64, wanted: f64| (found - wanted).abs() <= 1e-9;
        assert!(
            near(found.0, low) && near(found.1, high),
            "{met} of {of}: {found:?}"
        );
    }
}

/// Of the four places the last is the likeliest; there t is 15.15, beyond the limit of 6.61 at a level of 0.2/(7 · 6) for four
/// places: `t.isf(0.2 / 42 / 4 / 2, 5)`.
#[test]
fn a_step_is_that_of_two_samples() {
    let row = [1.00, 1.01, 0.99, 1.00, 1.01, 1.10, 1.11];
    let step = Step::of(&row, 0.0).expect("it is beyond chance");
    assert_eq!(step.after, 2);
    agree(step.t, 15.153_614_573_164_852, 1e-9);
    agree(
        student(5, 1.0 - 0.2 / 42.0 / 4.0),
        6.611_896_201_756_013_4,
        1e-9,
    );
}
