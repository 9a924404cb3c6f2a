//! The numbers of a line, measured or not yet, as what is known makes one expect them.

use nalgebra::DMatrix;

use super::around::Around;
use crate::base::estimate::Group;
use crate::keep::book::check::line::LinePlace;
use crate::keep::book::model::{LineModel, Model as _, Source};
use crate::keep::book::record::LineRecord;

/// A line with its numbers and their slopes.
pub(super) struct LineRows {
    /// Its place in the book; `None` for the next one, which is not in it.
    pub(super) index: Option<usize>,
    sources: Vec<Source>,
    /// What is expected, with the errors of measuring just that. The error shared is the line's own scatter.
    pub(super) group: Group,
    /// Slopes by the parameters.
    pub(super) slopes: DMatrix<f64>,
}

impl LineRows {
    /// The line of a record with these numbers besides those measured; `None` where nothing of it can be expected.
    pub(super) fn of(
        around: &Around<'_>,
        index: Option<usize>,
        record: &LineRecord,
        wanted: &[LinePlace],
    ) -> Option<Self> {
        let mut record = record.clone();
        for &(stage, field) in wanted {
            let measures = record.measures_mut(stage)?;
            if measures.get(field).is_none() {
                measures.set(field, Some(1.0));
            }
        }
        let model = LineModel::of(index.unwrap_or(0), &record)?.with_expected(&around.at);
        Some(Self {
            index,
            sources: model.sources().to_vec(),
            group: model.group().clone(),
            slopes: around.slopes(&model),
        })
    }

    /// A line of invented numbers.
    #[cfg(test)]
    pub(super) fn invented(
        index: Option<usize>,
        sources: Vec<Source>,
        group: Group,
        slopes: DMatrix<f64>,
    ) -> Self {
        Self {
            index,
            sources,
            group,
            slopes,
        }
    }

    /// The row of a number.
    pub(super) fn row(&self, (stage, field): LinePlace) -> Option<usize> {
        let is_it = |source: &Source| matches!(source, Source::Line(_, at, of) if (*at, *of) == (stage, field));
        self.sources.iter().position(is_it)
    }

    /// The rows of numbers that are learnt from already.
    pub(super) fn measured(&self, is_learnt: impl Fn(Source) -> bool) -> Vec<usize> {
        let rows = self.sources.iter().enumerate();
        rows.filter(|(_, source)| self.index.is_some() && is_learnt(**source))
            .map(|(row, _)| row)
            .collect()
    }
}
