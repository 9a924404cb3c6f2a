//! Ready drawings small: where a point is drawn follows from proportion alone (analytic).

use taperwright::base::units::Length;
use taperwright::braid::taper::{Point, Taper};
use taperwright::paper::chart::outline::{Frame, outline};

use crate::near;
use crate::outline::{holds, pieces};

/// Rounding of path data: a tenth of a pixel.
const ROUNDING: f64 = 0.051;

fn taper(points: &[(f64, f64)]) -> Taper {
    let point = |&(at, size): &(f64, f64)| Point {
        at: Length::from_metres(at),
        diameter: Length::from_millimetres(size),
    };
    Taper::new(points.iter().map(point).collect()).expect("the points are in order")
}

#[test]
fn lines_in_one_frame_keep_their_proportions() {
    let (short, long) = (
        taper(&[(0.0, 0.8), (3.0, 1.6), (10.0, 1.6)]),
        taper(&[(0.0, 0.5), (40.0, 0.5)]),
    );
    let frame = Frame::around(&[short.clone(), long.clone()], (400.0, 32.0));
    let drawn = pieces(&outline(&short, &frame));
    let [piece] = drawn.as_slice() else {
        panic!("{drawn:?}: not one closed piece");
    };
    // 10 m are 100 pixels; 1.6 mm are all 32, so the tip of 0.8 mm lies 8 above and 8 below the middle.
    let wanted = [
        (0.0, 8.0),
        (30.0, 0.0),
        (100.0, 0.0),
        (100.0, 32.0),
        (30.0, 32.0),
        (0.0, 24.0),
    ];
    assert_eq!(piece.len(), wanted.len());
    for (found, wanted) in piece.iter().zip(wanted) {
        near(found.0, wanted.0, ROUNDING);
        near(found.1, wanted.1, ROUNDING);
    }
    assert!(holds(piece, (5.0, 16.0)) && !holds(piece, (5.0, 2.0)));
    let thin = pieces(&outline(&long, &frame)).concat();
    // 0.5 of 1.6 mm are 10 of 32 pixels, and the longest is as wide as the frame.
    assert!(thin.iter().all(|&(_, y)| (y - 16.0).abs() - 5.0 < ROUNDING));
    near(thin[1].0, 400.0, ROUNDING);
}
