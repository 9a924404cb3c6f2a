//! What a sheet of paper holds: texts, paths, rules and boxes in millimetres from its upper left corner. Screen, printer and file
//! draw these items and nothing else, so they agree to the last stroke.

/// A sheet of paper.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sheet {
    /// All that is on it, the lowest first.
    pub items: Vec<Item>,
}

/// A point on a sheet, in millimetres from its left and upper edge.
pub type SheetPoint = (f64, f64);

/// One thing on a sheet.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A line of text on its foot line.
    Text {
        /// Where.
        at: SheetPoint,
        /// Which point of it is there.
        anchor: Anchor,
        /// How it is set.
        set: Type,
        /// What it says; never empty.
        words: String,
    },
    /// A shape.
    Path {
        /// Where, and how large.
        place: Placement,
        /// How it is painted.
        paint: Paint,
        /// SVG path data, in its own units.
        data: String,
    },
    /// A straight rule.
    Rule {
        /// From here.
        from: SheetPoint,
        /// To here.
        to: SheetPoint,
        /// Its width, in millimetres.
        width: f64,
    },
    /// An empty square to tick.
    TickBox {
        /// Its upper left corner.
        at: SheetPoint,
        /// Its side, in millimetres.
        side: f64,
    },
}

/// Which point of a text is at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// It begins there.
    Start,
    /// Its middle is there.
    Middle,
    /// It ends there.
    End,
}

impl Anchor {
    /// The word for it. Source: SVG 1.1, `text-anchor`.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Start => "start",
            Self::Middle => "middle",
            Self::End => "end",
        }
    }
}

/// How a text is set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Type {
    /// Size of the type, in millimetres.
    pub size: f64,
    /// Whether it is heavy.
    pub bold: bool,
    /// Whether it is white, to stand on black.
    pub white: bool,
}

/// Type of a size, in millimetres.
pub(super) const fn plain(size: f64) -> Type {
    Type {
        size,
        bold: false,
        white: false,
    }
}

/// The same, heavy.
pub(super) const fn bold(size: f64) -> Type {
    Type {
        bold: true,
        ..plain(size)
    }
}

/// From the units of a path to millimetres on the sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placement {
    /// Where its origin is.
    pub at: SheetPoint,
    /// Millimetres of one of its units.
    pub scale: f64,
    /// How far it is turned, in degrees clockwise.
    pub turn: f64,
}

impl Placement {
    /// The SVG transform for it.
    pub fn transform(&self) -> String {
        let Self {
            at: (x, y),
            scale,
            turn,
        } = self;
        if *turn == 0.0 {
            format!("translate({x:.3} {y:.3}) scale({scale:.5})")
        } else {
            format!("translate({x:.3} {y:.3}) rotate({turn:.1}) scale({scale:.5})")
        }
    }
}

/// How a shape is painted: black, white and greys, so that any printer does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Paint {
    /// Filled, without an edge, in a grey: 0 is black, 255 white.
    Fill(u8),
    /// A black line of this width, in units of the path.
    Line(f64),
    /// Filled in a grey, with a black edge of this width.
    Edged(u8, f64),
    /// Filled with black on the squares of a code: no edge between them may be softened.
    Squares,
}

impl Paint {
    /// What is inside.
    pub fn fill(self) -> String {
        match self {
            Self::Line(_) => "none".to_owned(),
            Self::Squares => "#000".to_owned(),
            Self::Fill(grey) | Self::Edged(grey, _) => format!("#{grey:02x}{grey:02x}{grey:02x}"),
        }
    }

    /// Width of its edge, in units of the path, where it has one.
    pub const fn edge(self) -> Option<f64> {
        match self {
            Self::Line(width) | Self::Edged(_, width) => Some(width),
            Self::Fill(_) | Self::Squares => None,
        }
    }
}

impl Sheet {
    pub(super) fn text(&mut self, at: SheetPoint, anchor: Anchor, set: Type, words: &str) {
        if !words.is_empty() {
            let words = words.to_owned();
            self.items.push(Item::Text {
                at,
                anchor,
                set,
                words,
            });
        }
    }

    pub(super) fn path(&mut self, place: Placement, paint: Paint, data: String) {
        self.items.push(Item::Path { place, paint, data });
    }

    pub(super) fn rule(&mut self, from: SheetPoint, to: SheetPoint, width: f64) {
        self.items.push(Item::Rule { from, to, width });
    }

    pub(super) fn tick_box(&mut self, at: SheetPoint, side: f64) {
        self.items.push(Item::TickBox { at, side });
    }
}
