//! Small drawings of words of the trade, as path data of straight pieces. They show what is meant and measure nothing: only
//! proportions within one drawing hold.

mod lattice;
mod machine;
mod pen;
mod profile;
mod threads;

/// Size of every drawing, in pixels.
pub const SIZE: (f64, f64) = (160.0, 100.0);

/// What is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Picture {
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

/// How a layer is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ink {
    /// A plain line.
    Line,
    /// A thick line: what is meant.
    Strong,
    /// A dashed line: what is hidden, or would be.
    Soft,
    /// A filled shape with an outline.
    Body,
    /// The same, but meant.
    Meant,
    /// A filled dot.
    Dot,
    /// What one looks into between threads.
    Hollow,
    /// The edges of threads, a little wider than the threads.
    ThreadEdge,
    /// Threads.
    Thread,
    /// A thick line on threads.
    Mark,
    /// A filled dot on threads.
    Spot,
}

/// Path data and how it is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Layer {
    /// How.
    pub ink: Ink,
    /// Path data of moves, straight lines and closings, within [`SIZE`].
    pub path: String,
}

impl Ink {
    /// The name by which the style sheet knows it.
    pub const fn class(self) -> &'static str {
        match self {
            Self::Line => "line",
            Self::Strong => "strong",
            Self::Soft => "soft",
            Self::Body => "body",
            Self::Meant => "meant",
            Self::Dot => "dot",
            Self::Hollow => "hollow",
            Self::ThreadEdge => "braid-edge",
            Self::Thread => "braid",
            Self::Mark => "mark-line",
            Self::Spot => "spot",
        }
    }
}

impl Picture {
    /// The layers, the lowest first.
    pub fn layers(self) -> Vec<Layer> {
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
