//! All that is known of a line and of those that can be weighed, put together for one question.

use super::around::Around;
use super::known::{Known, Rows};
use super::line_rows::LineRows;
use super::possible::{Adds, Possible};
use super::sureness::{Sureness, meant_for};
use super::swatch_rows;
use super::waiting::in_the_making;
use crate::braid::weight::Class;
use crate::design::Design;
use crate::keep::book::check;
use crate::keep::book::check::line::{LinePlace, is_same_yarn};
use crate::keep::book::estimate::Estimate;
use crate::keep::book::frozen::Frozen;
use crate::keep::book::model::{Model as _, Source};
use crate::keep::book::record::{LineField, LineRecord, LineStage};
use crate::keep::book::swatch::{Swatch, SwatchField};
use crate::keep::book::workshop::Workshop;
use crate::plan::Plan;

/// The head of the finished line.
const HEAD: LinePlace = (LineStage::Finished, LineField::HeadMass);

/// All that is known of a line, and of those that can be weighed.
pub(super) struct Scene<'a> {
    around: Around<'a>,
    class: Class,
    lines: Vec<LineRows>,
    pub(super) known: Known,
    /// The head whose weight is to be known, and what it is expected to weigh, in grams.
    head: Rows,
    grams: f64,
}

impl<'a> Scene<'a> {
    pub(super) fn of(
        workshop: &'a Workshop,
        estimate: &Estimate,
        (design, plan): (&Design, &Plan),
        all: &[Possible],
    ) -> Option<Self> {
        let class = meant_for(plan).filter(|_| is_same_yarn(design, &workshop.base))?;
        let around = Around::of(workshop, estimate);
        let own = in_the_making(workshop, design);
        let lines = lines(&around, workshop, (own, design), all);
        let is_learnt = |source| {
            estimate
                .residuals
                .iter()
                .any(|residual| residual.source == source)
        };
        let measured: Vec<_> = lines
            .iter()
            .map(|line| (line, line.measured(is_learnt)))
            .collect();
        let known = Known::of(&around.covariance, &measured);
        let line = lines.iter().find(|line| line.index == own)?;
        let row = line.row(HEAD)?;
        Some(Self {
            head: known.rows((&line.group, &line.slopes), own, &[row]),
            grams: line.group.measured[row],
            around,
            class,
            known,
            lines,
        })
    }

    pub(super) fn sureness(&self, known: &Known) -> Sureness {
        let share = known.variance(&self.head).sqrt() / self.grams;
        Sureness::of(self.class, share)
    }

    /// The rows that a measurement adds; `None` where it teaches nothing.
    pub(super) fn rows(&self, adds: &Adds) -> Option<Rows> {
        match adds {
            Adds::OfSwatch(swatch, wanted) => self.of_swatch(swatch, wanted),
            Adds::OfLine(index, wanted) => {
                let line = self.lines.iter().find(|line| line.index == *index)?;
                let rows: Vec<usize> = wanted.iter().filter_map(|&at| line.row(at)).collect();
                Some(self.known.rows((&line.group, &line.slopes), *index, &rows))
            }
        }
    }

    fn of_swatch(&self, swatch: &Swatch, wanted: &[SwatchField]) -> Option<Rows> {
        let model = swatch_rows::expected(&self.around, swatch, wanted)?;
        let is_new =
            |source: &Source| matches!(source, Source::Swatch(_, field) if wanted.contains(field));
        let sources = model.sources().iter().enumerate();
        let rows: Vec<usize> = sources
            .filter(|row| is_new(row.1))
            .map(|row| row.0)
            .collect();
        let slopes = self.around.slopes(&model);
        Some(self.known.rows((model.group(), &slopes), None, &rows))
    }
}

/// The line whose head is to be known, and every line of which something can be weighed, each with all numbers asked of it.
fn lines(
    around: &Around<'_>,
    workshop: &Workshop,
    (own, design): (Option<usize>, &Design),
    all: &[Possible],
) -> Vec<LineRows> {
    let mut asked: Vec<(Option<usize>, Vec<LinePlace>)> = vec![(own, vec![HEAD])];
    for possible in all {
        let Adds::OfLine(index, wanted) = &possible.adds else {
            continue;
        };
        match asked.iter_mut().find(|asked| asked.0 == *index) {
            Some(asked) => asked.1.extend(wanted),
            None => asked.push((*index, wanted.clone())),
        }
    }
    let line = |(index, wanted): (Option<usize>, Vec<_>)| {
        let record = match index {
            Some(index) => check::line::sound(workshop.records.get(index)?, &workshop.base),
            None => LineRecord::new(String::new(), Frozen::of(design)),
        };
        LineRows::of(around, index, &record, &wanted)
    };
    asked.into_iter().filter_map(line).collect()
}
