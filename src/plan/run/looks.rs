//! What happened between two looks at the clocks of the device, one that people set and one that only runs.
//!
//! Many devices stop the second clock while they sleep, so that the first then seems to have been set forward. The two cannot be told
//! apart, and while a device sleeps a machine may stop by itself: so the maker is asked.

/// Clocks that differ by no more than this agree, in milliseconds. Our own choice: browsers blur their clocks, and devices correct
/// theirs by a second or so.
const AGREE: f64 = 2_000.0;
/// A page that did not look for so long was away, in milliseconds. Our own choice: hidden pages may look once a minute only.
pub const AWAY: f64 = 90_000.0;

/// A look at both clocks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    /// Milliseconds since 1970, as the device is set.
    pub wall: f64,
    /// Milliseconds of a clock nobody sets; it may stand still while the device sleeps.
    pub steady: f64,
}

/// What happened between two looks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Between {
    /// Nothing to speak of.
    Nothing,
    /// The page did not look for so many seconds.
    Away(f64),
    /// The clock was set back, by so many seconds.
    SetBack(f64),
    /// The clock was set forward by so many seconds, or the device slept for as long.
    Doubtful(f64),
}

impl Look {
    /// What happened since the look before.
    pub fn since(&self, before: &Self) -> Between {
        let wall = self.wall - before.wall;
        let steady = (self.steady - before.steady).max(0.0);
        let ahead = wall - steady;
        if ahead < -AGREE {
            Between::SetBack(-ahead / 1000.0)
        } else if ahead > AGREE {
            Between::Doubtful(ahead / 1000.0)
        } else if wall > AWAY {
            Between::Away(wall / 1000.0)
        } else {
            Between::Nothing
        }
    }
}
