//! What moves along when a control point is moved.

/// What becomes of a level stretch when one of its ends changes size.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Level {
    /// It stays level: its other points change size alike.
    #[default]
    Stays,
    /// It becomes a taper: only the one point changes.
    Bends,
}

/// What becomes of the far end of a line whose ends are alike.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Ends {
    /// They stay alike: what is done at one end is done at the other. Has no effect where they are not alike.
    #[default]
    Alike,
    /// Each goes its own way.
    Apart,
}

/// What goes along when a point is moved lengthwise.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Along {
    /// Nothing: the stretch before it grows by what the stretch behind it loses.
    #[default]
    Alone,
    /// The next point: the stretch between the two is moved whole.
    Stretch,
    /// Everything behind it: only the stretch before it changes, and the whole line with it.
    AllBehind,
}

/// How a control point is moved.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Manner {
    /// What becomes of level stretches.
    pub level: Level,
    /// What becomes of the other end.
    pub ends: Ends,
    /// What goes along lengthwise.
    pub along: Along,
}

impl crate::base::choice::Choice for Along {
    const ALL: &'static [Self] = &[Self::Alone, Self::Stretch, Self::AllBehind];

    fn key(self) -> &'static str {
        match self {
            Self::Alone => "alone",
            Self::Stretch => "stretch",
            Self::AllBehind => "all-behind",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Alone => "nothing",
            Self::Stretch => "the next point",
            Self::AllBehind => "all behind it",
        }
    }
}
