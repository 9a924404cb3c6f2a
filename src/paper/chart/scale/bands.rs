//! The horizontal strips of a chart: profile, threads, gears and braid angle, from above. Low charts give up strips from below, and
//! narrow ones the angle strip: there the profile has the room.

/// Room above the profile for the bracket of what is weighed, in pixels.
const TOP: f64 = 44.0;
/// Room below for the figures of the axis of length, in pixels.
const BOTTOM: f64 = 28.0;
/// Below this height, in pixels, the profile is alone.
const LONE_BELOW: f64 = 260.0;
/// The angle strip is drawn from this height on; on a chart narrower than [`NARROW`] from the second one on. In pixels.
const ANGLES_FROM: f64 = 400.0;
const ANGLES_FROM_IF_NARROW: f64 = 600.0;
/// A chart narrower than this, in pixels, is a telephone's: it has fewer figures.
pub const NARROW: f64 = 480.0;
/// Share of the room beside the rows of cells that the angle strip takes.
const ANGLES_SHARE: f64 = 0.26;
/// Between the row of threads and that of gears, in pixels.
const ROWS_APART: f64 = 6.0;
/// Height of the lowest cell, in pixels: its figure must fit.
const CELL: f64 = 19.0;

/// A horizontal strip of the chart, in pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Its upper edge.
    pub top: f64,
    /// Its height.
    pub height: f64,
}

impl Band {
    /// Its lower edge.
    pub fn bottom(&self) -> f64 {
        self.top + self.height
    }

    /// Halfway down.
    pub fn middle(&self) -> f64 {
        self.top + self.height / 2.0
    }
}

/// The bands of a chart, from above. Those beyond `count` are not drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bands {
    /// Profile, threads, gears, angle.
    all: [Band; 4],
    /// How many are drawn: 1, 3 or 4.
    count: usize,
    /// Height of the lowest bar, in pixels.
    pub(super) cell: f64,
}

impl Bands {
    /// The bands of a chart on a screen, by its width and height in pixels.
    pub fn on_screen((width, height): (f64, f64)) -> Self {
        let is_lone = height < LONE_BELOW;
        let [threads, gears, apart, above] = if is_lone {
            [0.0; 4]
        } else {
            let share = |share: f64, (least, most): (f64, f64)| (height * share).clamp(least, most);
            let (threads, gears) = (share(0.072, (28.0, 54.0)), share(0.045, (24.0, 32.0)));
            [threads, gears, ROWS_APART, share(0.035, (14.0, 36.0))]
        };
        let from = if width < NARROW {
            ANGLES_FROM_IF_NARROW
        } else {
            ANGLES_FROM
        };
        let has_angles = height >= from;
        let room = height - TOP - BOTTOM - threads - gears - apart - above;
        let angles = if has_angles {
            (room - above) * ANGLES_SHARE
        } else {
            0.0
        };
        let between = if has_angles { above } else { 0.0 };
        let profile = (room - angles - between).max(40.0);
        let heights = [profile, threads, gears, angles];
        let count = match (is_lone, has_angles) {
            (true, _) => 1,
            (false, false) => 3,
            (false, true) => 4,
        };
        Self::stacked(heights, [above, apart, between], count, CELL)
    }

    /// The bands of the picture on a card, by its height in pixels: the profile, with dimension lines below it, and the staircase
    /// of threads. The row of gears is drawn by the card.
    pub fn on_card(height: f64) -> Self {
        /// Room above the profile, between the bands, and below.
        const ROOMS: (f64, f64, f64) = (42.0, 72.0, 42.0);
        /// Share of the bands' height that the profile takes.
        const PROFILE: f64 = 0.72;
        let room = (height - ROOMS.0 - ROOMS.1 - ROOMS.2).max(40.0);
        let heights = [room * PROFILE, room * (1.0 - PROFILE), 0.0, 0.0];
        let mut bands = Self::stacked(heights, [ROOMS.1, 0.0, 0.0], 2, 0.0);
        for band in &mut bands.all {
            band.top += ROOMS.0 - TOP;
        }
        bands
    }

    fn stacked(heights: [f64; 4], between: [f64; 3], count: usize, cell: f64) -> Self {
        let mut top = TOP;
        let mut all = [Band { top, height: 0.0 }; 4];
        for (index, band) in all.iter_mut().enumerate() {
            *band = Band {
                top,
                height: heights[index],
            };
            top = band.bottom() + between.get(index).copied().unwrap_or_default();
        }
        Self { all, count, cell }
    }

    /// All of them, from above.
    pub fn all(&self) -> [Band; 4] {
        self.all
    }

    /// Those that are drawn, from above.
    pub fn drawn(&self) -> &[Band] {
        &self.all[..self.count]
    }
}
