//! How even the line is, and what is odd about it.

use super::degrees::degrees;
use crate::photo::{PhotoReading, WindowDoubt};

/// Every doubt, in the order in which they are said.
const DOUBTS: [WindowDoubt; 4] = [
    WindowDoubt::Thicker,
    WindowDoubt::Thinner,
    WindowDoubt::Angle,
    WindowDoubt::Unclear,
];

/// What is odd along the line, a sentence for each kind: `At 3 of 9 the line is thicker: look for a loose thread.`
pub fn doubts(reading: &PhotoReading) -> Vec<String> {
    let count = reading.windows.len();
    let sentence = |doubt: WindowDoubt| {
        let places = places_of(reading, doubt);
        let what = match doubt {
            WindowDoubt::Thicker => "the line is thicker: look for a loose thread.",
            WindowDoubt::Thinner => "the line is thinner: look for a missing or a tight thread.",
            WindowDoubt::Angle => {
                "the angle differs from the rest: look for a thread that slipped."
            }
            WindowDoubt::Unclear => {
                "the threads are not clear: look for dirt, or for a missing thread."
            }
        };
        (!places.is_empty()).then(|| format!("At {places} of {count} {what}"))
    };
    DOUBTS.into_iter().filter_map(sentence).collect()
}

/// The windows with a doubt, counted from 1: `3`, `3 and 5`, `3, 4 and 5`.
fn places_of(reading: &PhotoReading, doubt: WindowDoubt) -> String {
    let windows = reading.windows.iter().enumerate();
    let odd = windows.filter(|(_, window)| window.doubt == Some(doubt));
    let places: Vec<String> = odd.map(|(index, _)| (index + 1).to_string()).collect();
    match places.split_last() {
        Some((last, before)) if !before.is_empty() => format!("{} and {last}", before.join(", ")),
        _ => places.concat(),
    }
}

/// How even the line is: `Along the line the angle on the surface is 44.9 to 46.3°. The diameter is 98 to 103 % of its mean.`
pub fn evenness(reading: &PhotoReading) -> String {
    if reading.windows.len() < 2 {
        return "The picture shows too little of the line to tell.".to_owned();
    }
    let angles = reading.windows.iter().filter_map(|window| window.angle);
    let angles = range(angles.map(|angle| angle.value)).map(|(low, high)| {
        format!(
            "Along the line the angle on the surface is {} to {}°.",
            degrees(low),
            degrees(high)
        )
    });
    let shares = reading
        .windows
        .iter()
        .map(|window| window.diameter / reading.diameter.value);
    let shares = range(shares).map(|(low, high)| {
        format!(
            "The diameter is {:.0} to {:.0} % of its mean.",
            low * 100.0,
            high * 100.0
        )
    });
    let sentences: Vec<String> = angles.into_iter().chain(shares).collect();
    sentences.join(" ")
}

fn range(values: impl Iterator<Item = f64>) -> Option<(f64, f64)> {
    let wider = |(low, high): (f64, f64), (value, _): (f64, f64)| (low.min(value), high.max(value));
    values.map(|value| (value, value)).reduce(wider)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::photo::{Estimate, Line, PhotoWindow, Point};

    fn estimate(value: f64, error: f64) -> Estimate {
        Estimate { value, error }
    }

    fn in_degrees(value: f64, error: f64) -> Estimate {
        estimate(value.to_radians(), error.to_radians())
    }

    fn window(angle: Option<f64>, diameter: f64, doubt: Option<WindowDoubt>) -> PhotoWindow {
        PhotoWindow {
            middle: Point::default(),
            length: 100.0,
            diameter,
            angle: angle.map(|angle| in_degrees(angle, 0.5)),
            directions: None,
            doubt,
        }
    }

    fn reading(windows: Vec<PhotoWindow>) -> PhotoReading {
        PhotoReading {
            edges: [Line::default(); 2],
            angle: in_degrees(45.8, 0.6),
            skew: Estimate::default(),
            spacing: Estimate::default(),
            diameter: estimate(200.0, 2.0),
            thread: 20.0,
            threads: 16,
            counted: Some(16),
            windows,
        }
    }

    #[test]
    fn doubts_of_one_kind_are_one_sentence() {
        let odd = [
            None,
            Some(WindowDoubt::Unclear),
            Some(WindowDoubt::Thicker),
            Some(WindowDoubt::Thicker),
            Some(WindowDoubt::Thicker),
        ];
        let windows = odd.map(|doubt| window(Some(45.0), 200.0, doubt));
        let said = doubts(&reading(windows.to_vec()));
        assert_eq!(
            said,
            [
                "At 3, 4 and 5 of 5 the line is thicker: look for a loose thread.",
                "At 2 of 5 the threads are not clear: look for dirt, or for a missing thread.",
            ]
        );
        assert_eq!(doubts(&reading(Vec::new())), Vec::<String>::new());
    }

    #[test]
    fn evenness_is_a_range_of_angles_and_of_shares() {
        let windows = vec![
            window(Some(44.9), 196.0, None),
            window(None, 206.0, Some(WindowDoubt::Unclear)),
            window(Some(46.3), 200.0, None),
        ];
        assert_eq!(
            evenness(&reading(windows)),
            "Along the line the angle on the surface is 44.9 to 46.3°. The diameter is 98 to 103 % of its mean."
        );
        let one = vec![window(Some(44.9), 196.0, None)];
        assert!(evenness(&reading(one)).contains("too little"));
    }
}
