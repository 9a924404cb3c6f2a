//! How closely a card is set: steps from roomy to close are tried for one sheet.

/// How closely the card is set.
#[derive(Clone, Copy)]
pub(super) struct Spacing {
    /// Size of what is read at a glance, in millimetres.
    pub(super) words: f64,
    /// Size of what is read once, in millimetres.
    pub(super) small: f64,
    /// Height of the drawing in its own pixels.
    pub(super) drawing: f64,
    /// The smallest type that the lists may come to, in millimetres.
    pub(super) least: f64,
    /// How much the schedule says in its columns.
    pub(super) columns: Columns,
    /// Whether what the page and the dressing plan say too is left out.
    pub(super) is_brief: bool,
}

/// How much the schedule says of every stop.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Columns {
    /// Place, action, gear, threads and circuits.
    Fewest,
    /// Crossings too.
    Crossings,
    /// The angle too.
    All,
}

/// The smallest type on a card, in millimetres: eight points, which is read with glasses on at arm's length. Rule of thumb, no
/// source.
pub(super) const LEAST: f64 = 2.83;

/// From roomy to close.
pub(super) const SPACINGS: [Spacing; 5] = [
    spacing(3.0, 322.0, Columns::All, false),
    spacing(LEAST, 300.0, Columns::All, false),
    spacing(LEAST, 272.0, Columns::Crossings, false),
    spacing(LEAST, 272.0, Columns::Crossings, true),
    spacing(LEAST, 252.0, Columns::Fewest, true),
];
/// Where there is more than one sheet nothing need be close.
pub(super) const SPREAD: Spacing = spacing(3.0, 322.0, Columns::All, false);

const fn spacing(words: f64, drawing: f64, columns: Columns, is_brief: bool) -> Spacing {
    Spacing {
        words,
        small: LEAST,
        drawing,
        least: LEAST,
        columns,
        is_brief,
    }
}
