//! What is expected of a swatch: one braid in its steady state, of known threads and gears.

use super::measure::{MeasureKind, Model, Source};
use crate::base::estimate::Group;
use crate::base::units::{Length, Mass};
use crate::braid::takeoff::TEETH;
use crate::design::Design;
use crate::design::parameters::Parameters;
use crate::design::settings::Setting;
use crate::keep::book::errors;
use crate::keep::book::swatch::{Swatch, SwatchField};
use crate::plan::prediction::other_parameters::{braiding, constant};

/// A swatch ready for learning.
pub(in crate::keep::book) struct SwatchModel {
    base: Design,
    threads: u32,
    ends: u32,
    /// Driver over driven.
    ratio: f64,
    /// Length weighed; nothing where it was not.
    length: Length,
    group: Group,
    sources: Vec<Source>,
}

impl SwatchModel {
    /// The swatch of this index without anything complained of; `None` where nothing is left to learn from.
    pub(in crate::keep::book) fn of(base: &Design, index: usize, swatch: &Swatch) -> Option<Self> {
        let mut model = Self {
            threads: Setting::MostThreads.rule().quanta(swatch.threads?),
            ends: Setting::EndsPerThread.rule().quanta(swatch.ends?),
            ratio: f64::from(TEETH.quanta(swatch.driver?))
                / f64::from(TEETH.quanta(swatch.driven?)),
            length: Length::from_metres(swatch.length_m.unwrap_or(0.0)),
            base: base.clone(),
            group: Group::default(),
            sources: Vec::new(),
        };
        model.lays(index, swatch);
        model.rest(index, swatch);
        (!model.sources.is_empty()).then_some(model)
    }

    fn lays(&mut self, index: usize, swatch: &Swatch) {
        if let (Some(circuits), Some(lay)) = (swatch.circuits, swatch.lay_by_circuits()) {
            let share = errors::share_by_circuits(self.length, circuits);
            let lay = lay.millimetres();
            self.push(index, SwatchField::Circuits, lay, lay * share);
        }
        if let (Some(crossings), Some(over), Some(lay)) = (
            swatch.crossings,
            swatch.crossings_over_m,
            swatch.lay_by_crossings(),
        ) {
            let share = errors::share_by_crossings(Length::from_metres(over), crossings);
            let lay = lay.millimetres();
            self.push(index, SwatchField::Crossings, lay, lay * share);
        }
    }

    fn rest(&mut self, index: usize, swatch: &Swatch) {
        if let Some(grams) = swatch.mass_g {
            let error = errors::of_mass(Mass::from_grams(grams)).grams();
            let of_length = grams * (errors::of_length(self.length) / self.length);
            self.push(index, SwatchField::Mass, grams, error.hypot(of_length));
        }
        if let Some(diameter) = swatch.diameter_mm {
            let error = errors::DIAMETER.millimetres();
            self.push(index, SwatchField::Diameter, diameter, error);
        }
        if let Some(angle) = swatch.angle_deg {
            self.push(index, SwatchField::Angle, angle, errors::ANGLE.degrees());
        }
    }

    fn push(&mut self, index: usize, field: SwatchField, measured: f64, error: f64) {
        self.group.push(measured, error, 0.0);
        self.sources.push(Source::Swatch(index, field));
    }
}

impl Model for SwatchModel {
    fn group(&self) -> &Group {
        &self.group
    }

    fn sources(&self) -> &[Source] {
        &self.sources
    }

    fn expected(&self, parameters: &Parameters) -> Vec<f64> {
        let mut braiding = braiding(&self.base, parameters);
        braiding.thread.ends = self.ends;
        let lay = constant(parameters) * self.ratio;
        let braid = braiding.at_lay(self.threads, lay);
        let expected = |source: &Source| match source.kind() {
            MeasureKind::Lay => lay.millimetres(),
            MeasureKind::Angle => braid.angle.degrees(),
            MeasureKind::Diameter => braid.diameter.millimetres(),
            _ => (self.length * braid.linear_density).grams(),
        };
        self.sources.iter().map(expected).collect()
    }
}
