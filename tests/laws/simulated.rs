//! Workshops whose truth is known, measured one thing after another. Each truth is drawn from what is believed before measuring;
//! instruments err and lines scatter as the book says they do.

use std::thread;

use taperwright::base::units::{Length, Mass};
use taperwright::design::Design;
use taperwright::design::parameters::Parameters;
use taperwright::design::settings::Setting;
use taperwright::keep::book::estimate::Estimate;
use taperwright::keep::book::next::{NextMeasure, SwatchPart, THREAD_LENGTH, Worths};
use taperwright::keep::book::record::LineRecord;
use taperwright::keep::book::swatch::{Swatch, SwatchField};
use taperwright::keep::book::{Frozen, Workshop, errors};
use taperwright::plan::Plan;

use crate::chance::Chance;
use crate::designs::{draft, parsed};
use crate::learning::{Planned, light, read, record, truth};

/// The book's own lengths for a swatch and for counting crossings.
const SWATCH_METRES: f64 = 0.3;
const CROSSINGS_METRES: f64 = 0.05;

/// A workshop whose truth is known, with its book and the line it is for.
pub(crate) struct Simulated<'a> {
    planned: &'a Planned,
    plan: &'a Plan,
    pub(crate) truth: Parameters,
    /// The design as it comes out.
    made: Design,
    pub(crate) book: Workshop,
    pub(crate) chance: Chance,
}

impl<'a> Simulated<'a> {
    pub(crate) fn of(seed: u64, (planned, plan): (&'a Planned, &'a Plan)) -> Self {
        let mut chance = Chance::of(seed);
        let truth = truth(&planned.design, &mut chance);
        Self {
            made: planned.made(&truth).0,
            book: Workshop::new("simulated".to_owned(), &planned.design),
            planned,
            plan,
            truth,
            chance,
        }
    }

    pub(crate) fn worths(&self) -> Worths {
        let line = (&self.planned.design, self.plan);
        Worths::of(&self.book, &Estimate::of(&self.book), line).expect("it has a class")
    }

    /// A line of which nothing is written down yet.
    pub(crate) fn earlier_line(&self) -> LineRecord {
        LineRecord::new("a line".to_owned(), Frozen::of(&self.planned.design))
    }

    /// Measures, and writes it in the book.
    pub(crate) fn measure(&mut self, measure: NextMeasure) {
        match measure {
            NextMeasure::Line => {
                let index = self.book.records.len();
                let line = self.earlier_line();
                self.book.records.push(line);
                self.measure(NextMeasure::Finished(index));
            }
            NextMeasure::Finished(index) => {
                let all = record(self.planned, &self.truth, &mut self.chance).finished;
                let finished = &mut self.book.records[index].finished;
                (finished.mass_g, finished.head_mass_g) = (all.mass_g, all.head_mass_g);
            }
            NextMeasure::Thread => {
                self.swatch(&[SwatchField::ThreadLength, SwatchField::ThreadMass]);
            }
            NextMeasure::Swatch => self.swatch(&SwatchPart::WHOLE),
            NextMeasure::SwatchPart(part) => self.swatch(part.fields()),
            NextMeasure::Rest(index) => {
                let mut swatch = self.book.swatches[index].clone();
                for field in SwatchField::ALL {
                    if is_of_the_rest(field) && swatch.get(field).is_none() {
                        self.read(&mut swatch, field);
                    }
                }
                self.book.swatches[index] = swatch;
            }
            other => panic!("{other:?} is not simulated"),
        }
    }

    fn swatch(&mut self, fields: &[SwatchField]) {
        let mut swatch = Swatch::of_belly(&self.planned.design, self.plan);
        for &field in fields {
            self.read(&mut swatch, field);
        }
        self.book.swatches.push(swatch);
    }

    /// Reads a number off a swatch, with the error of its instrument.
    fn read(&mut self, swatch: &mut Swatch, field: SwatchField) {
        let piece = self.plan.belly.piece;
        let threads = piece.load.threads;
        let constant = Length::from_millimetres(self.made.setting(Setting::MachineConstant));
        let lay = constant * piece.wheels.ratio();
        let braid = self.made.braiding().at_lay(threads, lay);
        let thread = self.made.braiding().thread.linear_density();
        let [long, over] = [SWATCH_METRES, CROSSINGS_METRES].map(Length::from_metres);
        let length = |length: Length| (length.metres(), errors::of_length(length).metres());
        let mass = |mass: Mass| (mass.grams(), errors::of_mass(mass).grams());
        let (value, error) = match field {
            SwatchField::Length => length(long),
            SwatchField::Circuits => (long / lay, errors::CIRCUITS),
            SwatchField::CrossingsOver => length(over),
            SwatchField::Crossings => (0.5 * f64::from(threads) * (over / lay), errors::CROSSINGS),
            SwatchField::Mass => mass(long * braid.linear_density),
            SwatchField::Diameter => (braid.diameter.millimetres(), errors::DIAMETER.millimetres()),
            SwatchField::Angle => (braid.angle.degrees(), errors::ANGLE.degrees()),
            SwatchField::ThreadLength => length(THREAD_LENGTH),
            SwatchField::ThreadMass => mass(THREAD_LENGTH * thread),
            other => panic!("{other:?} is set up, not read off"),
        };
        swatch.set(field, Some(read(&mut self.chance, value, error)));
    }
}

/// Whether a number can be measured of a swatch that is braided already.
fn is_of_the_rest(field: SwatchField) -> bool {
    use SwatchField::{Circuits, ThreadLength, ThreadMass};
    !SwatchField::SETUP.contains(&field) && ![Circuits, ThreadLength, ThreadMass].contains(&field)
}

/// Something of each of so many workshops, by two threads.
pub(crate) fn all<T: Send>(count: u64, of: impl Fn(u64) -> T + Sync) -> Vec<T> {
    let half = |first: u64| (first..count).step_by(2).map(&of).collect::<Vec<_>>();
    thread::scope(|scope| {
        let other = scope.spawn(|| half(1));
        let mut all = half(0);
        all.extend(other.join().expect("the other half comes to an end"));
        all
    })
}

pub(crate) fn class_five() -> (Planned, Plan) {
    let design = light(1.06);
    let plan = Plan::of(&design);
    (Planned::of(design), plan)
}

/// A light line of class 3, whose band is wider for its weight: 94 to 106 grains.
pub(crate) fn class_three() -> (Planned, Plan) {
    let points = [(0.0, 0.83), (0.3, 0.83), (2.0, 0.898), (11.0, 0.898)];
    let settings = [
        (Setting::FewestThreads, 10.0),
        (Setting::GearChangePrice, 50.0),
    ];
    let mut light = draft(&settings, &points);
    for step in &mut light.recipe {
        if step.pressure().is_some() {
            step.mbar = 5.0;
        }
    }
    let design = parsed(light);
    let plan = Plan::of(&design);
    assert_eq!(plan.verdict.number(), Some(3), "{:?}", plan.head_mass);
    (Planned::of(design), plan)
}
