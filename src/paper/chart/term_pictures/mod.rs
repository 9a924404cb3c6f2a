//! Small drawings of words of the trade, as path data of straight pieces. They are not to scale: only the proportions within
//! one drawing are right.

mod lattice;
mod layer;
mod machine;
mod pen;
mod profile;
mod threads;

pub use layer::{Ink, SIZE, TermLayer};

/// A drawing of a word of the trade.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TermPicture {
    /// One end among those that make a thread.
    End,
    /// The thread they make.
    Thread,
    /// A thread and its angle to the line.
    Angle,
    /// One turn of a thread around the line.
    Lay,
    /// A thread that stays above three others.
    Float,
    /// One crossing of the braid.
    Crossing,
    /// A row of crossings.
    Rib,
    /// Threads and the hollow between them.
    Cover,
    /// Two wheels that hand carriers on.
    HornGear,
    /// The carriers on them.
    Carrier,
    /// A ring on which two places are idle.
    Gap,
    /// Threads that meet, and the roller that draws the braid away.
    TakeOff,
    /// The angle after a change.
    Lag,
    /// The level tip of a line.
    Level,
    /// Both tapers of it.
    Taper,
    /// Its belly.
    Belly,
    /// Its running line.
    RunningLine,
}

impl TermPicture {
    /// The layers, the lowest first.
    pub fn layers(self) -> Vec<TermLayer> {
        match self {
            Self::End => threads::plied(true),
            Self::Thread => threads::plied(false),
            Self::Angle => threads::angle(),
            Self::Lay => threads::lay(),
            Self::Float => threads::float(),
            Self::Crossing => lattice::crossing(),
            Self::Rib => lattice::rib(),
            Self::Cover => lattice::cover(),
            Self::HornGear => machine::wheels(true),
            Self::Carrier => machine::wheels(false),
            Self::Gap => machine::gap(),
            Self::TakeOff => machine::take_off(),
            Self::Lag => machine::lag(),
            Self::Level => profile::with_meant(&[0]),
            Self::Taper => profile::with_meant(&[1, 3]),
            Self::Belly => profile::with_meant(&[2]),
            Self::RunningLine => profile::with_meant(&[4]),
        }
    }
}
