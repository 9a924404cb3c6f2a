//! Which columns of a table are the places and the diameters.

use crate::base::units::text::Unit;

use super::grid::GridRow;
use super::heading::{Heading, HeadingUnit, Role};
use super::place;
use super::size;
use super::values::Values;

/// How many times larger or smaller a column may be than the diameters beside it, to be diameters too.
const LIKE_DIAMETERS: f64 = 2.0;

/// The columns that are read.
pub(super) struct Columns {
    /// The places.
    pub(super) place: usize,
    /// The diameters, one column at least.
    pub(super) diameters: Vec<usize>,
}

impl Columns {
    /// Finds the columns by their headings, and by their numbers where those do not say enough; `None` where there are not both.
    pub(super) fn find(
        rows: &[GridRow<'_>],
        (headings, names): (&[Heading], &[&str]),
        values: &[Values],
        wanted: Option<Unit>,
    ) -> Option<Self> {
        let role = |column: usize| headings.get(column).and_then(|heading| heading.role);
        let unit = |column: usize| headings.get(column).and_then(|heading| heading.unit);
        let with = |wanted: Role| -> Vec<usize> {
            let columns = 0..values.len();
            columns
                .filter(|column| role(*column) == Some(wanted))
                .collect()
        };
        let has_numbers = |column: &usize| values[*column].count > 0;
        let mut diameters = under_one_name(&with(Role::Diameter), names, headings, values);
        let named = with(Role::Place);
        let perhaps: Vec<usize> = with(Role::PerhapsPlace)
            .into_iter()
            .filter(has_numbers)
            .collect();
        let mut place = named
            .iter()
            .find(|column| has_numbers(column))
            .or(named.first())
            .or(perhaps.first())
            .copied();
        for weaker in [Role::PerhapsDiameter, Role::Calculated] {
            if diameters.is_empty() {
                diameters = with(weaker).into_iter().filter(has_numbers).collect();
                diameters.retain(|column| Some(*column) != place);
            }
        }
        // One column with a unit for small things can be the place all the same: two columns in mm.
        let is_free = |column: &usize| {
            !matches!(role(*column), Some(Role::Other)) && values[*column].is_numbers()
        };
        if place.is_none() {
            let is_sure = |column: &usize| role(*column) == Some(Role::Diameter);
            let free = (0..values.len()).filter(|column| is_free(column) && !is_sure(column));
            place = place::find(&free.collect::<Vec<_>>(), rows, values);
            diameters.retain(|column| Some(*column) != place);
        }
        let place = place?;
        if diameters.is_empty() {
            let is_unnamed = |column: &usize| {
                !matches!(role(*column), Some(Role::Place | Role::PerhapsPlace)) && *column != place
            };
            let free = (0..values.len()).filter(|column| is_free(column) && is_unnamed(column));
            diameters = alike(&free.collect::<Vec<_>>(), rows, values, place);
        }
        let diameters = one_unit(&diameters, unit, wanted);
        (!diameters.is_empty()).then_some(Self { place, diameters })
    }

    /// Whether a column is read.
    pub(super) fn has(&self, column: usize) -> bool {
        self.place == column || self.diameters.contains(&column)
    }
}

/// Columns with the name of diameters, and those without a name after one of them: a heading may stand over several columns.
fn under_one_name(
    named: &[usize],
    names: &[&str],
    headings: &[Heading],
    values: &[Values],
) -> Vec<usize> {
    let is_unnamed = |column: usize| {
        names.get(column).is_none_or(|name| name.is_empty())
            && headings
                .get(column)
                .is_none_or(|heading| heading.unit.is_none())
            && values[column].is_numbers()
    };
    let mut columns: Vec<usize> = Vec::new();
    for column in 0..values.len() {
        let follows = columns.last().is_some_and(|last| {
            column == last + 1 && is_unnamed(column) && are_alike(&values[*last], &values[column])
        });
        if follows || named.contains(&column) {
            columns.push(column);
        }
    }
    columns
}

/// Whether the numbers of two columns are of about one size, in one unit.
fn are_alike(one: &Values, other: &Values) -> bool {
    one.unit == other.unit
        && other.middle <= one.middle * LIKE_DIAMETERS
        && one.middle <= other.middle * LIKE_DIAMETERS
}

/// Of columns without a name, those that are diameters by their size: the first that can be, and what is like it.
fn alike(free: &[usize], rows: &[GridRow<'_>], values: &[Values], place: usize) -> Vec<usize> {
    let is_counter = |column: usize| place::is_counter(rows, values, column);
    let free: Vec<usize> = free
        .iter()
        .copied()
        .filter(|column| !is_counter(*column))
        .collect();
    let is_likely = |column: &&usize| {
        let values = &values[**column];
        values.unit.is_some() || size::may_be_diameter(values.middle)
    };
    let first = free.iter().find(is_likely).or(free.first());
    let Some(first) = first.copied() else {
        return Vec::new();
    };
    let is_like = |column: &usize| *column != place && are_alike(&values[first], &values[*column]);
    free.into_iter().filter(is_like).collect()
}

/// The same diameters in two units are one reading, not two: only columns with the unit wanted, or with the first that is
/// written. A column without a unit has that of those beside it.
fn one_unit(
    columns: &[usize],
    unit: impl Fn(usize) -> Option<HeadingUnit>,
    wanted: Option<Unit>,
) -> Vec<usize> {
    let wanted = wanted.map(HeadingUnit::Length);
    let written = || columns.iter().filter_map(|column| unit(*column));
    let one = written()
        .find(|unit| Some(*unit) == wanted)
        .or(written().next());
    let is_kept = |column: &usize| unit(*column).is_none_or(|unit| Some(unit) == one);
    columns.iter().copied().filter(is_kept).collect()
}
