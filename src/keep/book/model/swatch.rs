//! What is expected of a swatch: one braid in its steady state, of known threads and gears; and of thread not braided.

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
    ends: u32,
    /// The threads, and driver over driven; `None` where they are not known and thread alone was weighed.
    set_up: Option<(u32, f64)>,
    /// Length weighed; nothing where it was not.
    length: Length,
    /// Length of thread weighed; nothing where it was not.
    thread: Length,
    group: Group,
    sources: Vec<Source>,
}

impl SwatchModel {
    /// The swatch of this index without anything complained of; `None` where nothing is left to learn from.
    pub(in crate::keep::book) fn of(base: &Design, index: usize, swatch: &Swatch) -> Option<Self> {
        let mut model = Self {
            ends: Setting::EndsPerThread.rule().quanta(swatch.ends?),
            set_up: set_up(swatch),
            length: Length::from_metres(swatch.length_m.unwrap_or(0.0)),
            thread: Length::from_metres(swatch.thread_length_m.unwrap_or(0.0)),
            base: base.clone(),
            group: Group::default(),
            sources: Vec::new(),
        };
        if model.set_up.is_some() {
            model.lays(index, swatch);
            model.rest(index, swatch);
        }
        model.thread(index, swatch);
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
            let own = swatch.own_error(SwatchField::Crossings);
            let share = errors::share_by_crossings(Length::from_metres(over), crossings, own);
            let lay = lay.millimetres();
            self.push(index, SwatchField::Crossings, lay, lay * share);
        }
    }

    fn rest(&mut self, index: usize, swatch: &Swatch) {
        if let Some(grams) = swatch.mass_g {
            let error = of_mass_over(grams, self.length);
            self.push(index, SwatchField::Mass, grams, error);
        }
        if let Some(diameter) = swatch.diameter_mm {
            let error = errors::DIAMETER.millimetres();
            self.push(index, SwatchField::Diameter, diameter, error);
        }
        if let Some(angle) = swatch.angle_deg {
            let error = errors::of_angle(swatch.own_error(SwatchField::Angle));
            self.push(index, SwatchField::Angle, angle, error.degrees());
        }
    }

    fn thread(&mut self, index: usize, swatch: &Swatch) {
        if let Some(grams) = swatch.thread_mass_g {
            let error = of_mass_over(grams, self.thread);
            self.push(index, SwatchField::ThreadMass, grams, error);
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
        let thread = braiding.thread.linear_density();
        let braid = self.set_up.map(|(threads, ratio)| {
            let lay = constant(parameters) * ratio;
            (lay, braiding.at_lay(threads, lay))
        });
        let expected = |source: &Source| match (source.kind(), &braid) {
            (MeasureKind::Lay, Some((lay, _))) => lay.millimetres(),
            (MeasureKind::Angle, Some((_, braid))) => braid.angle.degrees(),
            (MeasureKind::Diameter, Some((_, braid))) => braid.diameter.millimetres(),
            (MeasureKind::SwatchWeight, Some((_, braid))) => {
                (self.length * braid.linear_density).grams()
            }
            _ => (self.thread * thread).grams(),
        };
        self.sources.iter().map(expected).collect()
    }
}

fn set_up(swatch: &Swatch) -> Option<(u32, f64)> {
    let threads = Setting::MostThreads.rule().quanta(swatch.threads?);
    let [driver, driven] = [swatch.driver?, swatch.driven?].map(|teeth| TEETH.quanta(teeth));
    Some((threads, f64::from(driver) / f64::from(driven)))
}

/// Error of a mass of some length, grams: that of the scale, and that of the length. Analytic: independent shares add as squares.
fn of_mass_over(grams: f64, length: Length) -> f64 {
    let error = errors::of_mass(Mass::from_grams(grams)).grams();
    error.hypot(grams * (errors::of_length(length) / length))
}
