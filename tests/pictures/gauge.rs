//! The fan to hold a line against.

use taperwright::base::units::Angle;
use taperwright::paper::chart::gauge::{DASHED, SIZE, SOLID, fan};

use crate::near;

/// Analytic: a line at α to a level axis rises by tan α for each step along it.
#[test]
fn the_lines_of_the_fan_have_the_angle_and_the_length() {
    for degrees in [5.0, 30.0, 44.5, 45.0, 70.0, 89.0_f64] {
        for length in [SOLID, DASHED] {
            assert!(length >= 100.0, "too short to hold a line against");
            let [rising, falling] = fan(Angle::from_degrees(degrees), length);
            for (line, sign) in [(rising, -1.0), (falling, 1.0)] {
                let (across, down) = (line.to.0 - line.from.0, line.to.1 - line.from.1);
                near((down / across).atan().to_degrees(), sign * degrees, 1e-9);
                near(across.hypot(down), length, 1e-9);
                near(0.5 * (line.from.0 + line.to.0), 0.5 * SIZE.0, 1e-9);
                near(0.5 * (line.from.1 + line.to.1), 0.5 * SIZE.1, 1e-9);
                for (x, y) in [line.from, line.to] {
                    assert!((0.0..=SIZE.0).contains(&x) && (0.0..=SIZE.1).contains(&y));
                }
            }
        }
    }
}
