//! From a picture to a reading.

use libm::{atan, sin, sqrt};
use serde::{Deserialize, Serialize};

use super::axis::Axis;
use super::band::{self, Band};
use super::count::{self, Counted};
use super::edges;
use super::found::Found;
use super::picture::Picture;
use super::place::Line;
use super::pyramid::Pyramid;
use super::reading::{Estimate, PhotoReading};
use super::refusal::PhotoRefusal;
use super::spacing::{self, Spacing};
use super::surface::Surface;
use super::waves::{self, Round};
use super::windows;

/// Fewest pixels from side to side.
const LEAST_SIDE: usize = 48;
/// Least share of what differs across the picture that the braid explains. Our own choice, from pictures without a braid.
const LEAST_CLEAR: f64 = 0.35;
/// Fewest pixels of a diameter.
const LEAST_DIAMETER: f64 = 36.0;
/// Least length over diameter.
const LEAST_LENGTH: f64 = 0.8;
/// Length over diameter that shows three crossings of a rib for eight threads at 45°: 3 · 4π/(2 N tan α). Analytic.
const ENOUGH_LENGTH: f64 = 2.4;
/// Fewest pixels from one thread to the next.
const LEAST_THREAD: f64 = 5.0;
/// Mean brightness of a braid that is too dark, and of one that is too bright, when its threads hardly show.
const LIGHT: [f64; 2] = [0.04, 0.96];
/// Deviation of brightness below which threads hardly show.
const LEAST_CONTRAST: f64 = 0.008;
/// How alike the braid must be one crossing on, 0 to 1.
const LEAST_ALIKE: f64 = 0.25;
/// Most of the waves round the braid that may stay unexplained, 0 to 1.
const MOST_REST: f64 = 0.5;
/// Least share of the weaker family of threads in what is seen of both.
const LEAST_FAMILY: f64 = 0.15;
/// Largest error of a reading, radians: 1.7°. Our own choice: a worse one would send the maker the wrong way.
const MOST_ERROR: f64 = 0.03;
/// Most by which one family may lie steeper than the other, halved, radians: 5°. Our own choice: a line twisted so far is not braided
/// so, but cut off or laid between wrong edges.
const MOST_SKEW: f64 = 0.09;

/// What is asked of a picture.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Asked {
    /// The two edges of the braid, where the maker has set them; otherwise it is looked for.
    pub edges: Option<[Line; 2]>,
    /// Threads in the braid, where they are known; otherwise they are counted from the picture.
    pub threads: Option<u32>,
}

/// Reads the braid in a picture.
///
/// # Errors
/// [`PhotoRefusal`] says what the picture lacks.
pub fn read_braid(picture: &Picture, asked: &Asked) -> Result<PhotoReading, PhotoRefusal> {
    if picture.width().min(picture.height()) < LEAST_SIDE {
        return Err(PhotoRefusal::TooSmall);
    }
    let band = match asked.edges {
        Some(edges) => Band::between(edges).ok_or(PhotoRefusal::BadEdges)?,
        None => band::find(&picture.light)
            .filter(|band| band.clear >= LEAST_CLEAR)
            .ok_or(PhotoRefusal::NoBand)?,
    };
    let pyramid = Pyramid::of(&picture.light);
    let axis = Axis::of(&band, &picture.light).ok_or(PhotoRefusal::BadEdges)?;
    let axis = edges::by_texture(&pyramid, axis);
    fits(&axis)?;
    let first = Surface::of(&pyramid, &axis);
    let spacing = spaced(&first)?;
    let (axis, pairs) = edges::by_crowns(&pyramid, axis, spacing.samples * first.step);
    fits(&axis)?;
    let surface = Surface::of(&pyramid, &axis);
    let spacing = spaced(&surface)?;
    Found {
        axis,
        pairs,
        surface,
        spacing,
    }
    .read(asked)
}

/// Whether the braid is large enough in the picture.
fn fits(axis: &Axis) -> Result<(), PhotoRefusal> {
    let diameter = 2.0 * axis.radius;
    if diameter < LEAST_DIAMETER {
        return Err(PhotoRefusal::TooThin {
            diameter,
            needed: LEAST_DIAMETER,
        });
    }
    let diameters = axis.length() / diameter;
    if diameters < LEAST_LENGTH {
        return Err(PhotoRefusal::TooShort {
            diameters,
            needed: LEAST_LENGTH,
        });
    }
    Ok(())
}

/// The spacing of crossings, where there is one.
fn spaced(surface: &Surface) -> Result<Spacing, PhotoRefusal> {
    if surface.contrast < LEAST_CONTRAST {
        if surface.light < LIGHT[0] {
            return Err(PhotoRefusal::TooDark);
        }
        if surface.light > LIGHT[1] {
            return Err(PhotoRefusal::TooBright);
        }
    }
    let rows = 0..surface.relief.height;
    let found = spacing::of(
        &surface.relief,
        &surface.columns(0.5),
        &rows,
        surface.radius,
    );
    let is_short = surface.relief.height as f64 / (2.0 * surface.radius) < ENOUGH_LENGTH;
    found.filter(|found| found.alike >= LEAST_ALIKE).ok_or({
        // Three crossings of a rib must be seen; what shows none may only be too short.
        if is_short {
            PhotoRefusal::TooShort {
                diameters: surface.relief.height as f64 / (2.0 * surface.radius),
                needed: ENOUGH_LENGTH,
            }
        } else {
            PhotoRefusal::Blurred
        }
    })
}

impl Found {
    fn read(self, asked: &Asked) -> Result<PhotoReading, PhotoRefusal> {
        let round = waves::round(&self.surface, self.spacing.samples)
            .filter(|round| round.rest <= MOST_REST && round.weaker >= LEAST_FAMILY)
            .ok_or(PhotoRefusal::NotTwoFamilies)?;
        let thread = self.thread(&round);
        if thread < LEAST_THREAD {
            return Err(PhotoRefusal::ThreadsTooSmall {
                thread,
                needed: LEAST_THREAD,
            });
        }
        let bulging = edges::bulging(&self.pairs) / self.axis.radius;
        let seen = count::counted(round.turns, bulging);
        let counted = match asked.threads {
            Some(threads) => count::known(threads, round.turns)?,
            None => seen,
        };
        let windows = windows::of(&self, &counted, &round);
        let angle = self.angle(&counted, windows.spacing_error);
        if angle.error > MOST_ERROR {
            return Err(if counted.is_sure() {
                PhotoRefusal::Unsure { error: angle.error }
            } else {
                PhotoRefusal::CountUnsure {
                    threads: counted.threads,
                    other: counted.other,
                }
            });
        }
        if windows.skew.value.abs() > MOST_SKEW {
            return Err(PhotoRefusal::Askew);
        }
        let step = self.surface.step;
        Ok(PhotoReading {
            edges: self.axis.edges(),
            angle,
            skew: windows.skew,
            spacing: Estimate {
                value: self.spacing.samples * step,
                error: self.spacing.samples * step * windows.spacing_error,
            },
            diameter: Estimate {
                value: 2.0 * self.axis.radius,
                error: 2.0 * self.axis.radius * counted.diameter_error(),
            },
            thread,
            threads: counted.threads,
            counted: seen.is_sure().then_some(seen.threads),
            windows: windows.all,
        })
    }

    /// Pixels from one thread to the next of its family, square to it: the spacing along the axis by the sine of the angle.
    fn thread(&self, round: &Round) -> f64 {
        let angle = atan(self.steepness(round.turns));
        self.spacing.samples * self.surface.step * sin(angle)
    }

    /// The angle on the surface: `tan α = π d / L`, and the lay `L` is half the threads times the spacing.
    fn angle(&self, counted: &Counted, spacing_error: f64) -> Estimate {
        let steep = self.steepness(0.5 * f64::from(counted.threads));
        let angle = atan(steep);
        let other = atan(self.steepness(0.5 * f64::from(counted.other)));
        // dα = ½ sin 2α · d(tan α)/tan α.
        let share = sqrt(
            counted.diameter_error() * counted.diameter_error() + spacing_error * spacing_error,
        );
        let by_size = 0.5 * sin(2.0 * angle) * share;
        let by_count = sqrt(counted.doubt) * (other - angle);
        Estimate {
            value: angle,
            error: sqrt(by_size * by_size + by_count * by_count),
        }
    }
}
