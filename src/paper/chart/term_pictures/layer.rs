//! Layers of a drawing: path data, and how it is drawn.

/// Size of every drawing, in pixels.
pub const SIZE: (f64, f64) = (160.0, 100.0);

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
pub struct TermLayer {
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
