//! What the heading of a column says: what it holds, and in which unit.

use crate::base::units::text::{Unit, with_plain_digits};

/// What a column holds, by the words of its heading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Role {
    /// Places along the line.
    Place,
    /// Diameters.
    Diameter,
    /// Diameters where no column is surer to have them.
    PerhapsDiameter,
    /// Diameters where there are no others: a mean is no reading of its own, and a plan is none at all.
    Calculated,
    /// Places where no other column has them.
    PerhapsPlace,
    /// Something else: a number of the row, a date, a remark.
    Other,
}

/// The unit of a heading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum HeadingUnit {
    /// A unit of length.
    Length(Unit),
    /// A part of a unit that is not known here, such as hundredths of a millimetre.
    Unknown,
}

/// What a heading says.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Heading {
    /// What the column holds; `None` where the words say nothing.
    pub(super) role: Option<Role>,
    /// Its unit; `None` where none is written.
    pub(super) unit: Option<HeadingUnit>,
}

/// Words for places; what begins with a longer one is one too.
const PLACES: [&str; 17] = [
    "place",
    "position",
    "pos",
    "posición",
    "distance",
    "dist",
    "distancia",
    "at",
    "station",
    "location",
    "stelle",
    "abstand",
    "x",
    "s",
    "from",
    "where",
    "chainage",
];
/// Words for diameters.
const DIAMETERS: [&str; 16] = [
    "diameter",
    "diameters",
    "diam",
    "dia",
    "diamètre",
    "diámetro",
    "durchmesser",
    "d",
    "ø",
    "⌀",
    "∅",
    "od",
    "thickness",
    "size",
    "gauge",
    "micrometer",
];
/// Words for what may be diameters.
const PERHAPS_DIAMETERS: [&str; 3] = ["reading", "readings", "measured"];
/// Words for what follows from several readings, or was there before them.
const CALCULATED: [&str; 8] = [
    "mean", "average", "avg", "median", "target", "planned", "nominal", "wanted",
];
/// Words for what may be a place.
const PERHAPS_PLACES: [&str; 5] = ["length", "along", "mark", "länge", "longueur"];
/// Words for what is neither. They come before all others: “diameter no.” counts diameters.
const OTHERS: [&str; 36] = [
    "circumference",
    "girth",
    "radius",
    "width",
    "area",
    "load",
    "no",
    "no.",
    "nr",
    "nr.",
    "#",
    "number",
    "index",
    "row",
    "id",
    "count",
    "date",
    "datum",
    "time",
    "remark",
    "remarks",
    "note",
    "notes",
    "comment",
    "comments",
    "weight",
    "mass",
    "temperature",
    "deviation",
    "spread",
    "error",
    "tolerance",
    "σ",
    "sd",
    "angle",
    "threads",
];
/// Thousandths, as a heading writes them: of an inch, or of a millimetre where it says so.
const THOUSANDTHS: [&str; 4] = ["1/1000", "0.001", "0,001", ".001"];
/// Other parts of a unit.
const PARTS: [&str; 5] = ["1/100", "1/10", "0.01", "0,01", "0.1"];
/// What follows a part of a unit.
const WHOLES: [&str; 6] = ["mm", "in", "\"", "″", "”", "of"];

/// Longest heading, in bytes: what is longer is a text.
const LONGEST: usize = 200;

impl Heading {
    /// What the heading in a cell says.
    pub(super) fn of(cell: &str) -> Self {
        if cell.len() > LONGEST {
            return Self::default();
        }
        let text = with_plain_digits(cell).to_lowercase();
        let unit = unit(&text);
        let role = role(&text).or_else(|| Self::role_by_unit(unit?));
        Self { role, unit }
    }

    /// What a unit alone says: a line is measured in metres or feet, its diameter in something smaller.
    pub(super) fn role_by_unit(unit: HeadingUnit) -> Option<Role> {
        match unit {
            HeadingUnit::Length(Unit::Metre | Unit::Foot | Unit::Centimetre) => {
                Some(Role::PerhapsPlace)
            }
            HeadingUnit::Length(_) => Some(Role::PerhapsDiameter),
            HeadingUnit::Unknown => None,
        }
    }

    /// Whether it names a place or a diameter, or a unit of length.
    pub(super) fn says_something(self) -> bool {
        self.unit.is_some() || !matches!(self.role, None | Some(Role::Other))
    }
}

/// The unit of length that is all there is in a cell, be it in brackets.
pub(super) fn unit_alone(cell: &str) -> Option<HeadingUnit> {
    if cell.len() > LONGEST {
        return None;
    }
    let text = with_plain_digits(cell).to_lowercase();
    let bare = text.trim_matches(|c: char| c.is_whitespace() || "()[]{}".contains(c));
    let alone = Unit::of_length(bare).map(HeadingUnit::Length);
    let is_part = || {
        THOUSANDTHS
            .iter()
            .chain(&PARTS)
            .any(|part| bare.starts_with(part))
    };
    alone.or_else(|| part_of_unit(bare).filter(|_| is_part()))
}

fn unit(text: &str) -> Option<HeadingUnit> {
    if let Some(part) = part_of_unit(text) {
        return Some(part);
    }
    let length = |word: &str| Unit::of_length(word.trim()).map(HeadingUnit::Length);
    let in_brackets = text
        .split(['(', '[', '{'])
        .skip(1)
        .filter_map(|rest| length(rest.split([')', ']', '}']).next()?));
    if let Some(unit) = in_brackets.last() {
        return Some(unit);
    }
    if let Some(unit) = text.rsplit_once('/').and_then(|(_, after)| length(after)) {
        return Some(unit);
    }
    let words = words(text);
    // “in” is a unit only where it ends the heading: “in ft”, “in water”.
    let named = words.iter().enumerate().rev().find_map(|(at, word)| {
        let is_preposition = *word == "in" && at + 1 < words.len();
        length(word).filter(|_| !is_preposition)
    });
    let is_marked = text.ends_with(['"', '″', '”']);
    named.or(is_marked.then_some(HeadingUnit::Length(Unit::Inch)))
}

/// A unit written as a part of another: `1/1000"`, `0.001 in`, `1/100 mm`.
fn part_of_unit(text: &str) -> Option<HeadingUnit> {
    let whole = |parts: &[&str]| {
        let mut after = parts.iter().filter_map(|part| text.split_once(part));
        let whole = after.find_map(|(_, after)| {
            let after = after.trim_start();
            WHOLES.into_iter().find(|whole| after.starts_with(whole))
        })?;
        let is_metric = whole == "mm" || words(text).contains(&"mm");
        Some(is_metric)
    };
    match whole(&THOUSANDTHS) {
        Some(true) => Some(HeadingUnit::Length(Unit::Micrometre)),
        Some(false) => Some(HeadingUnit::Length(Unit::Thousandth)),
        None => whole(&PARTS).map(|_| HeadingUnit::Unknown),
    }
}

/// The words of a heading, without marks and without the numbers of `d1`, `d2`.
fn words(text: &str) -> Vec<&str> {
    let is_between = |c: char| c.is_whitespace() || "()[]{}/,:;_|=".contains(c);
    let words = text.split(is_between).filter(|word| !word.is_empty());
    words.map(bare).collect()
}

fn bare(word: &str) -> &str {
    let short = word.trim_end_matches(|c: char| c.is_ascii_digit() || "₁₂₃₄₅".contains(c));
    if short.is_empty() { word } else { short }
}

fn role(text: &str) -> Option<Role> {
    let words = words(text);
    // A sign may stand before a unit without a blank: Ø".
    let is = |word: &str, names: &[&str]| {
        names.contains(&word)
            || names.contains(&word.trim_end_matches(['"', '″', '”', '\'', '.', '?']))
    };
    let first_of = |names: &[&str]| words.iter().position(|word| is(word, names));
    if first_of(&OTHERS).is_some() {
        return Some(Role::Other);
    }
    if first_of(&CALCULATED).is_some() {
        return Some(Role::Calculated);
    }
    match (first_of(&PLACES), first_of(&DIAMETERS)) {
        (Some(place), Some(diameter)) if diameter < place => Some(Role::Diameter),
        (Some(_), _) => Some(Role::Place),
        (None, Some(_)) => Some(Role::Diameter),
        (None, None) if first_of(&PERHAPS_DIAMETERS).is_some() => Some(Role::PerhapsDiameter),
        (None, None) => first_of(&PERHAPS_PLACES).map(|_| Role::PerhapsPlace),
    }
}

#[cfg(test)]
mod tests {
    use super::{Heading, HeadingUnit, Role};
    use crate::base::units::text::Unit;

    #[test]
    fn headings_are_understood() {
        // Invented headings, as makers write them.
        for (cell, role, unit) in [
            ("Place (m)", Role::Place, Some(Unit::Metre)),
            ("Diameter [mm]", Role::Diameter, Some(Unit::Millimetre)),
            ("d / thou", Role::Diameter, Some(Unit::Thousandth)),
            ("dist in ft", Role::Place, Some(Unit::Foot)),
            ("Ø µm", Role::Diameter, Some(Unit::Micrometre)),
            ("Ø\"", Role::Diameter, Some(Unit::Inch)),
            ("Diameter, inch", Role::Diameter, Some(Unit::Inch)),
            ("dia mil", Role::Diameter, Some(Unit::Thousandth)),
            ("d 1/1000\"", Role::Diameter, Some(Unit::Thousandth)),
            ("d (0.001 in)", Role::Diameter, Some(Unit::Thousandth)),
            ("d 1/1000 mm", Role::Diameter, Some(Unit::Micrometre)),
            ("d1 (mm)", Role::Diameter, Some(Unit::Millimetre)),
            ("diameter_mm", Role::Diameter, Some(Unit::Millimetre)),
            ("at_m", Role::Place, Some(Unit::Metre)),
            ("Distance from tip, feet", Role::Place, Some(Unit::Foot)),
            (
                "DISTANCE IN METRES FROM TIP",
                Role::Place,
                Some(Unit::Metre),
            ),
            ("Diameter in water", Role::Diameter, None),
            ("Diameter in", Role::Diameter, Some(Unit::Inch)),
            ("Position", Role::Place, None),
            ("No.", Role::Other, None),
            ("Date", Role::Other, None),
            ("Mean d (mm)", Role::Calculated, Some(Unit::Millimetre)),
            ("Reading 2", Role::PerhapsDiameter, None),
            (
                "Diameter at 0.1 N (mm)",
                Role::Diameter,
                Some(Unit::Millimetre),
            ),
            ("m", Role::PerhapsPlace, Some(Unit::Metre)),
            ("Length (m)", Role::PerhapsPlace, Some(Unit::Metre)),
        ] {
            let heading = Heading::of(cell);
            assert_eq!(heading.role, Some(role), "{cell}");
            assert_eq!(heading.unit, unit.map(HeadingUnit::Length), "{cell}");
        }
        assert_eq!(Heading::of("d (1/100 mm)").unit, Some(HeadingUnit::Unknown));
        assert_eq!(Heading::of("Heron Weir"), Heading::default());
    }
}
