//! All numbers of a workshop that are sound, with what is expected of each; and some of them, to learn from.

use super::check;
use super::model::{LineModel, Model, Source, SwatchModel};
use super::workshop::Workshop;
use crate::base::estimate::{Group, Unknown};
use crate::design::parameters::Parameters;

/// Swatches and lines of a workshop as models: what is complained of is left out.
pub(super) struct Numbers(Vec<Box<dyn Model>>);

/// A model and which of its numbers are meant.
type Part<'a> = (&'a dyn Model, Vec<usize>);

/// Some of the numbers, in the order of the book.
pub(super) struct Chosen<'a> {
    parts: Vec<Part<'a>>,
    /// What was measured, with its errors.
    pub(super) groups: Vec<Group>,
    /// Where each was measured.
    pub(super) sources: Vec<Source>,
}

impl Numbers {
    pub(super) fn of(workshop: &Workshop) -> Self {
        Self(swatches(workshop).chain(lines(workshop)).collect())
    }

    /// The numbers wanted; `bend` says from how many errors on one pulls no harder.
    pub(super) fn choose(
        &self,
        is_wanted: impl Fn(Source) -> bool,
        bend: impl Fn(Source) -> f64,
    ) -> Chosen<'_> {
        let mut chosen = Chosen {
            parts: Vec::new(),
            groups: Vec::new(),
            sources: Vec::new(),
        };
        for model in &self.0 {
            let rows = model.sources().iter().enumerate();
            let rows = rows.filter(|(_, source)| is_wanted(**source));
            let rows: Vec<usize> = rows.map(|(row, _)| row).collect();
            if !rows.is_empty() {
                chosen.add(model.as_ref(), rows, &bend);
            }
        }
        chosen
    }
}

impl<'a> Chosen<'a> {
    fn add(&mut self, model: &'a dyn Model, rows: Vec<usize>, bend: impl Fn(Source) -> f64) {
        let (all, sources) = (model.group(), model.sources());
        let mut group = Group::default();
        for &row in &rows {
            group.push(all.measured[row], all.errors[row], all.shared[row]);
            self.sources.push(sources[row]);
        }
        group.bends = rows.iter().map(|&row| bend(sources[row])).collect();
        self.groups.push(group);
        self.parts.push((model, rows));
    }

    /// What is expected of each, in order, with these values of the parameters.
    pub(super) fn expected(&self, values: &[f64]) -> Vec<f64> {
        let parameters = Parameters(core::array::from_fn(|index| values[index]));
        let of = |(model, rows): &Part<'_>| -> Vec<f64> {
            let all = model.expected(&parameters);
            rows.iter().map(|&row| all[row]).collect()
        };
        self.parts.iter().flat_map(of).collect()
    }

    /// What was measured, in order.
    pub(super) fn measured(&self) -> impl Iterator<Item = f64> + '_ {
        self.groups
            .iter()
            .flat_map(|group| group.measured.iter().copied())
    }

    /// The whole error of each, its part in a shared one included, in order.
    pub(super) fn errors(&self) -> impl Iterator<Item = f64> + '_ {
        self.groups.iter().flat_map(|group| {
            let pairs = group.errors.iter().zip(&group.shared);
            pairs.map(|(own, shared)| own.hypot(*shared))
        })
    }

    /// The own error of each, in order.
    pub(super) fn own_errors(&self) -> impl Iterator<Item = f64> + '_ {
        self.groups
            .iter()
            .flat_map(|group| group.errors.iter().copied())
    }

    /// The kinds of number that tell of the unknown of this index, since a spread of it moves them by more than this share
    /// of their errors, their parts in shared ones included.
    pub(super) fn telling<'b>(
        &'b self,
        slopes: impl Fn(usize) -> f64 + 'b,
        unknown: &'b Unknown,
        share: f64,
    ) -> impl Iterator<Item = Source> + 'b {
        let tells = move |(row, error): (usize, f64)| {
            let moved = slopes(row) * unknown.spread;
            (moved.abs() > share * error).then(|| self.sources[row])
        };
        self.errors().enumerate().filter_map(tells)
    }

    /// How many swatches and how many lines there is a number of.
    pub(super) fn counts(&self) -> [u32; 2] {
        let is_swatch = |part: &&Part<'_>| matches!(part.0.sources()[0], Source::Swatch(..));
        let swatches = self.parts.iter().filter(is_swatch).count();
        [swatches, self.parts.len() - swatches].map(|count| u32::try_from(count).unwrap_or(0))
    }
}

fn swatches(workshop: &Workshop) -> impl Iterator<Item = Box<dyn Model>> + '_ {
    let limits = workshop.limits();
    let model = move |(index, swatch)| {
        let sound = check::swatch::sound(swatch, &limits);
        let model = SwatchModel::of(&workshop.base, index, &sound)?;
        Some(Box::new(model) as Box<dyn Model>)
    };
    workshop.swatches.iter().enumerate().filter_map(model)
}

fn lines(workshop: &Workshop) -> impl Iterator<Item = Box<dyn Model>> + '_ {
    let model = |(index, record)| {
        let sound = check::line::sound(record, &workshop.base);
        let model = LineModel::of(index, &sound)?;
        Some(Box::new(model) as Box<dyn Model>)
    };
    workshop.records.iter().enumerate().filter_map(model)
}
