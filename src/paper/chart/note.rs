//! Words written into the chart: where they stand, and the room they take.

/// Pixels one character of these words takes at most.
pub(super) const CHARACTER: f64 = 8.0;
/// Height of a line of them above its foot, in pixels.
pub(super) const ASCENT: f64 = 12.0;
/// Pixels between two of them at least.
const APART: f64 = 8.0;
/// Which end of words stands at their place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// They begin there.
    Start,
    /// Their middle is there.
    Middle,
    /// They end there.
    End,
}

/// What words are about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Subject {
    /// The part that is weighed for the class.
    Head,
    /// The length of a level stretch drawn short.
    Level,
    /// The core that is not drawn.
    Core,
    /// A row of cells, the angle strip, or the unit of diameters.
    Row,
}

/// Words on the chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Note {
    /// What they are about.
    pub subject: Subject,
    /// Where they stand, in pixels from the left.
    pub x: f64,
    /// Their foot, in pixels from the top.
    pub y: f64,
    /// Which end of them stands there.
    pub anchor: Anchor,
    /// The words.
    pub words: String,
}

impl Note {
    /// From where to where they run at most, in pixels from the left.
    pub fn span(&self) -> (f64, f64) {
        let width = self.words.chars().count() as f64 * CHARACTER;
        let left = match self.anchor {
            Anchor::Start => self.x,
            Anchor::Middle => self.x - width / 2.0,
            Anchor::End => self.x - width,
        };
        (left, left + width)
    }

    /// Whether other words would run into these.
    pub(super) fn meets(&self, other: &Self) -> bool {
        let (one, two) = (self.span(), other.span());
        (self.y - other.y).abs() < ASCENT + 2.0 && one.0 < two.1 + APART && two.0 < one.1 + APART
    }
}
