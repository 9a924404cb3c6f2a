//! Cuts into straight pieces, and broken lines, against general libraries.
//!
//! Cuts: `ruptures` 1.1.10, `Dynp(model="linear", min_size=2, jump=1)` for each count of pieces up to 13, the best of them by
//! squares and penalty. Lines: `NumPy` 2.4.6, `numpy.linalg.lstsq`, and `SciPy` 1.17.1, `scipy.optimize.minimize(method="Nelder-Mead")`. The figures
//! are what `tests/against/segments.py` prints; it needs nothing of the core.

use taperwright::base::segments::{Bounds, Broken, Sums, Ties, covariance, partition, polish};

use crate::row::agree;

/// The generator of whole numbers, as in the script: that of `rand` in the C standard's example, modulo 2³¹ (from memory).
struct Whole(u64);

impl Whole {
    fn next(&mut self, below: u64) -> f64 {
        self.0 = (1_103_515_245 * self.0 + 12_345) % (1 << 31);
        ((self.0 >> 8) % below) as f64
    }
}

/// The numbers of the script.
fn numbers(seed: u64, count: u32) -> (Vec<f64>, Vec<f64>) {
    let mut whole = Whole(seed);
    let size = f64::from(count);
    let mut at = 0.0;
    let one = |_| {
        let step = 0.5 + whole.next(1000) / 1000.0;
        let noise = (whole.next(2001) - 1000.0) / 2000.0;
        at += step;
        let share = at / size;
        let line = if share < 0.3 {
            2.0
        } else if share < 0.55 {
            2.0 + 0.4 * (at - 0.3 * size)
        } else if share < 0.8 {
            1.0 + 0.1 * size
        } else {
            1.0 + 0.1 * size - 0.3 * (at - 0.8 * size)
        };
        (at, line + noise)
    };
    (0..count).map(one).unzip()
}

fn sums(places: &[f64], values: &[f64]) -> Sums {
    Sums::of(places, values, &vec![1.0; places.len()])
}

/// Source: `ruptures`, see above: seed, count, penalty, cost, ends.
#[test]
fn cuts_are_those_of_ruptures() {
    let rows: [(u64, u32, f64, f64, &[usize]); 9] = [
        (1, 40, 0.5, 3.991_787_955_117_738_7, &[9, 13, 21, 31, 40]),
        (1, 40, 2.0, 8.648_315_540_071_252, &[13, 21, 31, 40]),
        (1, 40, 10.0, 22.655_687_819_705_495, &[30, 40]),
        (2, 60, 0.5, 5.210_114_728_791_872, &[10, 20, 36, 49, 60]),
        (2, 60, 2.0, 9.768_505_941_123_482, &[20, 36, 49, 60]),
        (2, 60, 10.0, 29.227_899_965_123_214, &[20, 36, 60]),
        (3, 90, 0.5, 8.377_614_287_218_4, &[25, 27, 52, 70, 90]),
        (3, 90, 2.0, 12.881_471_787_873_222, &[30, 52, 70, 90]),
        (3, 90, 10.0, 36.881_471_787_873_224, &[30, 52, 70, 90]),
    ];
    for (seed, count, penalty, cost, ends) in rows {
        let (places, values) = numbers(seed, count);
        let cut = partition(&sums(&places, &values), penalty);
        assert_eq!(cut.ends, ends, "{seed} {count} {penalty}");
        agree(cut.cost, cost, 1e-10);
    }
}

/// What a straight line leaves, by solving the normal equations of the numbers themselves (analytic).
fn left_by_a_line(places: &[f64], values: &[f64], weights: &[f64]) -> f64 {
    let whole: f64 = weights.iter().sum();
    let mean = |of: &[f64]| of.iter().zip(weights).map(|(one, w)| one * w).sum::<f64>() / whole;
    let (x, y) = (mean(places), mean(values));
    let products =
        |f: &dyn Fn(usize) -> f64| (0..places.len()).map(|i| weights[i] * f(i)).sum::<f64>();
    let xx = products(&|i| (places[i] - x).powi(2));
    let xy = products(&|i| (places[i] - x) * (values[i] - y));
    let slope = if xx > 0.0 { xy / xx } else { 0.0 };
    products(&|i| (values[i] - y - slope * (places[i] - x)).powi(2))
}

/// Source: none needed. Every cut of up to ten numbers is tried, 400 times with other numbers and weights.
#[test]
fn no_cut_is_better() {
    let mut whole = Whole(99);
    for case in 0..400 {
        let count = 1 + case % 10;
        let (places, values) = numbers(1000 + case, u32::try_from(count).expect("ten at most"));
        let count = places.len();
        let weights: Vec<f64> = (0..count).map(|_| 1.0 + whole.next(4)).collect();
        let penalty = (1.0 + whole.next(50)) / 20.0;
        let cost = |cuts: u32| {
            let ends = (1..=count).filter(|&end| end == count || cuts >> (end - 1) & 1 == 1);
            let (mut begin, mut cost) = (0, -penalty);
            for end in ends {
                let range = begin..end;
                let (x, y) = (&places[range.clone()], &values[range.clone()]);
                cost += penalty + left_by_a_line(x, y, &weights[range]);
                begin = end;
            }
            cost
        };
        let least = (0..1 << (count - 1))
            .map(cost)
            .fold(f64::INFINITY, f64::min);
        let cut = partition(&Sums::of(&places, &values, &weights), penalty);
        assert!(
            (cut.cost - least).abs() < 1e-9,
            "{case}: {} not {least}",
            cut.cost
        );
        let of_ends = cut.ends.iter().fold(0, |cuts, end| cuts | 1 << (end - 1));
        assert!(
            (cost(of_ends) - least).abs() < 1e-9,
            "{case}: {:?}",
            cut.ends
        );
    }
}

const KNOTS: [f64; 5] = [0.0, 20.0, 47.0, 61.0, 85.0];

fn bounds() -> Bounds {
    Bounds {
        first: KNOTS[0],
        last: KNOTS[4],
        gap: 0.01,
        low: -100.0,
        high: 100.0,
    }
}

/// Source: `numpy.linalg.lstsq`, see above.
#[test]
fn values_at_knots_are_those_of_numpy() {
    let (places, values) = numbers(4, 80);
    let line = Broken::along(
        &sums(&places, &values),
        KNOTS[1..4].iter().copied(),
        &bounds(),
    );
    let wanted = [
        2.111_210_321_087_612_8,
        1.654_282_138_648_277_6,
        9.653_665_095_425_64,
        9.353_290_605_746_595,
        3.189_359_127_845_471_6,
    ];
    for (found, wanted) in line.values.into_iter().zip(wanted) {
        agree(found, wanted, 1e-7);
    }
}

/// Source: `scipy.optimize.minimize` for the places and `numpy.linalg.lstsq` for the values, see above; spreads by `numpy.linalg.inv`
/// from the slopes. One knot settles at the place of a number, where slopes change.
#[test]
fn knots_move_to_where_scipy_moves_them() {
    let (places, values) = numbers(4, 80);
    let sums = sums(&places, &values);
    let start = Broken::along(&sums, KNOTS[1..4].iter().copied(), &bounds());
    let ties = Ties::free(5);
    let found = polish(&sums, start, &ties, &bounds());
    agree(found.squares, 7.459_902_746_406_636, 1e-8);
    let wanted = [
        23.403_999_999_999_4,
        43.290_820_572_323_895,
        65.609_222_152_098_68,
    ];
    for (found, wanted) in found.line.places[1..4].iter().zip(wanted) {
        agree(*found, wanted, 1e-6);
    }
    let wanted = [
        1.934_230_992_757_527_2,
        2.022_796_971_776_182_7,
        9.295_426_913_619_615,
        8.865_966_362_493_957,
        2.355_923_196_554_381_4,
    ];
    for (found, wanted) in found.line.values.iter().zip(wanted) {
        agree(*found, wanted, 1e-6);
    }
    let spreads = [
        0.435_760_033_012_398_74,
        0.458_381_767_945_747_9,
        0.435_729_933_614_108_17,
        0.423_205_435_580_216_3,
        0.738_384_877_418_963_5,
        1.673_868_673_131_971_4,
        1.625_281_657_822_405,
        2.083_556_287_119_732_6,
    ];
    // Nothing is believed of the places.
    let covariance =
        covariance(&sums, &found.line, &ties, (1.0, &[1e9; 5])).expect("it has a root");
    for (index, wanted) in spreads.into_iter().enumerate() {
        agree(covariance[(index, index)].sqrt(), wanted, 1e-5);
    }
}
