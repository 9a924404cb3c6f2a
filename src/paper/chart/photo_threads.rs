//! The threads found in a photo, to be drawn over the picture.

use super::path::Path;
use crate::photo::{PhotoReading, Point};

/// Half the length of the stroke that shows a direction, as a share of the diameter.
const STROKE: f64 = 0.35;

/// The threads found, in pixels of the picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PhotoThreads {
    /// Two strokes for each window: how both families lie there.
    pub clear: String,
    /// The same of windows with a doubt.
    pub doubtful: String,
    /// Where windows with a doubt are, and their numbers from 1.
    pub signs: Vec<(Point, usize)>,
}

/// The threads found in a picture.
pub fn photo_threads(reading: &PhotoReading) -> PhotoThreads {
    let (mut clear, mut doubtful) = (Path::default(), Path::default());
    let mut signs = Vec::new();
    for (index, window) in reading.windows.iter().enumerate() {
        let is_odd = window.doubt.is_some();
        if is_odd {
            signs.push((window.middle, index + 1));
        }
        let path = if is_odd { &mut doubtful } else { &mut clear };
        for direction in window.directions.into_iter().flatten() {
            let half = STROKE * window.diameter;
            let ends = [-half, half].map(|half| window.middle.towards(direction, half));
            path.lift();
            for end in ends {
                path.to(end.x, end.y);
            }
        }
    }
    PhotoThreads {
        clear: clear.open(),
        doubtful: doubtful.open(),
        signs,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::photo::{Estimate, Line, PhotoWindow, WindowDoubt};

    fn window(direction: f64, doubt: Option<WindowDoubt>) -> PhotoWindow {
        PhotoWindow {
            middle: Point::new(100.0, 400.0),
            length: 100.0,
            diameter: 200.0,
            angle: None,
            directions: Some([direction, -direction]),
            doubt,
        }
    }

    /// A stroke at 45° is as wide as high: 0.35 · 200 · √½ = 49.5 pixels either way.
    #[test]
    fn strokes_show_both_families_and_doubts_are_numbered() {
        let steep = 45_f64.to_radians();
        let unclear = PhotoWindow {
            directions: None,
            ..window(steep, Some(WindowDoubt::Unclear))
        };
        let threads = photo_threads(&PhotoReading {
            edges: [Line::default(); 2],
            angle: Estimate::default(),
            skew: Estimate::default(),
            spacing: Estimate::default(),
            diameter: Estimate::default(),
            thread: 20.0,
            threads: 16,
            counted: Some(16),
            windows: vec![
                window(steep, None),
                window(steep, Some(WindowDoubt::Thicker)),
                unclear,
            ],
        });
        assert_eq!(
            threads.clear,
            "M50.5 350.5L149.5 449.5M50.5 449.5L149.5 350.5"
        );
        assert_eq!(threads.doubtful.matches('M').count(), 2);
        let numbers: Vec<usize> = threads.signs.iter().map(|sign| sign.1).collect();
        assert_eq!(numbers, [2, 3]);
    }
}
