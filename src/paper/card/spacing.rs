//! How closely a card is set: five steps from roomy to close are tried for one sheet.

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

/// From roomy to close.
pub(super) const SPACINGS: [Spacing; 5] = [
    spacing(2.9, 2.5, 322.0, 3.0, Columns::All),
    spacing(2.7, 2.3, 312.0, 2.6, Columns::All),
    spacing(2.6, 2.15, 300.0, 2.3, Columns::Crossings),
    spacing(2.5, 2.05, 278.0, 2.05, Columns::Crossings),
    spacing(2.4, 2.0, 252.0, 2.05, Columns::Fewest),
];
/// Where there is more than one sheet nothing need be close.
pub(super) const SPREAD: Spacing = spacing(2.9, 2.5, 322.0, 2.8, Columns::All);

const fn spacing(words: f64, small: f64, drawing: f64, least: f64, columns: Columns) -> Spacing {
    Spacing {
        words,
        small,
        drawing,
        least,
        columns,
    }
}
