//! What is expected of a line made: its own layout, braided with other parameters; threads and wheels stay.

use core::cell::RefCell;

use super::measure::{Model, Source};
use crate::base::estimate::Group;
use crate::base::units::{Density, Length, Mass};
use crate::braid::dressing::{Dressing, Stage as Dressed};
use crate::braid::recipe::{DraftStep, StepKind};
use crate::braid::stretch::{BraidedLine, Piece, Process};
use crate::braid::weight::Head;
use crate::design::Design;
use crate::design::parameters::{Parameter, Parameters};
use crate::keep::book::errors;
use crate::keep::book::record::{LineField, LineRecord, LineStage, Measures};
use crate::plan::layout::Ground;
use crate::plan::prediction::other_parameters::{braided, materials};
use crate::plan::prediction::prior;

/// The parameters a braid depends on before it is dressed.
const OF_THE_BRAID: [Parameter; 4] = [
    Parameter::Constant,
    Parameter::Crimp,
    Parameter::FibreFraction,
    Parameter::Yarn,
];

/// A line laid out once, to be braided and dressed with any parameters.
#[derive(Debug)]
pub(in crate::keep::book) struct MadeLine {
    design: Design,
    process: Process,
    pieces: Vec<Piece>,
    /// Whole length as planned.
    pub(in crate::keep::book) length: Length,
    /// The stretch that is weighed.
    pub(in crate::keep::book) head: Head,
    /// The line last braided, with the parameters of the braid it was braided with.
    last: RefCell<Option<([f64; 4], BraidedLine)>>,
}

impl MadeLine {
    /// The line of a design, laid out as its own settings have it.
    pub(in crate::keep::book) fn of(design: &Design) -> Self {
        let ground = Ground::of(design);
        let layout = ground.lay_out(&design.pins());
        Self {
            pieces: ground.pieces(&layout),
            process: ground.process,
            length: ground.taper.length(),
            head: Head::of(&ground.taper.sections()),
            design: design.clone(),
            last: RefCell::new(None),
        }
    }

    /// What is on the machine, and where.
    pub(in crate::keep::book) fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// What is on the line at a stage, for good; `None` where the recipe has no such stage, or never dries it.
    pub(in crate::keep::book) fn dressing(
        &self,
        stage: LineStage,
        parameters: &Parameters,
    ) -> Option<Dressing> {
        dressing_at(&self.design, stage, parameters)
    }

    /// Does something with the line braided with these parameters.
    pub(in crate::keep::book) fn with<T>(
        &self,
        parameters: &Parameters,
        then: impl FnOnce(&BraidedLine) -> T,
    ) -> T {
        let key = OF_THE_BRAID.map(|parameter| parameters.get(parameter));
        let mut last = self.last.borrow_mut();
        match &*last {
            Some((same, line)) if *same == key => then(line),
            _ => {
                let line = braided(&self.design, self.process, &self.pieces, parameters);
                then(&last.insert((key, line)).1)
            }
        }
    }
}

/// A number asked of a line.
#[derive(Clone, Copy)]
enum Asked {
    /// The mass of the whole, were it so long.
    Whole(Length),
    /// The mass of the head.
    Head,
    /// The diameter at a place.
    Diameter(Length),
}

/// A line ready for learning.
pub(in crate::keep::book) struct LineModel {
    made: MadeLine,
    asked: Vec<(LineStage, Asked)>,
    group: Group,
    sources: Vec<Source>,
}

impl LineModel {
    /// The line of this index without anything complained of; `None` where nothing is left to learn from.
    pub(in crate::keep::book) fn of(index: usize, record: &LineRecord) -> Option<Self> {
        let design = record.design.design().ok()?;
        let mut model = Self {
            made: MadeLine::of(design),
            asked: Vec::new(),
            group: Group::default(),
            sources: Vec::new(),
        };
        let planned = design.parameters();
        let mut length = model.made.length;
        for (stage, measures) in record.stages() {
            length = measures.length_m.map_or(length, Length::from_metres);
            if model.made.dressing(stage, &planned).is_some() {
                model.weights(index, stage, measures, length);
                model.diameters(index, stage, measures, &planned);
            }
        }
        (!model.sources.is_empty()).then_some(model)
    }

    /// The same line with every weight as these parameters make one expect it: its errors are those of measuring just that.
    #[must_use]
    pub(in crate::keep::book) fn with_expected(mut self, parameters: &Parameters) -> Self {
        let expected = self.expected(parameters);
        for (row, (value, &(stage, asked))) in expected.into_iter().zip(&self.asked).enumerate() {
            self.group.measured[row] = value;
            if !matches!(asked, Asked::Diameter(_)) {
                let (error, shared) = of_weight(value, stage);
                (self.group.errors[row], self.group.shared[row]) = (error, shared);
            }
        }
        self
    }

    fn weights(&mut self, index: usize, stage: LineStage, measures: &Measures, length: Length) {
        let rows = [
            (LineField::Mass, Asked::Whole(length)),
            (LineField::HeadMass, Asked::Head),
        ];
        for (field, asked) in rows {
            let Some(grams) = measures.get(field) else {
                continue;
            };
            let (error, shared) = of_weight(grams, stage);
            self.group.push(grams, error, shared);
            self.sources.push(Source::Line(index, stage, field));
            self.asked.push((stage, asked));
        }
    }

    fn diameters(
        &mut self,
        index: usize,
        stage: LineStage,
        measures: &Measures,
        planned: &Parameters,
    ) {
        for (place, measured) in measures.diameters.iter().enumerate() {
            let (Some(at), Some(diameter)) = (measured.at_m, measured.diameter_mm) else {
                continue;
            };
            let at = Length::from_metres(at);
            let error = errors::DIAMETER
                .millimetres()
                .hypot(self.slope(at, planned));
            let field = LineField::Diameter(place);
            self.group.push(diameter, error, 0.0);
            self.sources.push(Source::Line(index, stage, field));
            self.asked.push((stage, Asked::Diameter(at)));
        }
    }

    /// What a place that is a little off makes of a diameter, in millimetres.
    fn slope(&self, at: Length, planned: &Parameters) -> f64 {
        let diameter = |line: &BraidedLine, at| line.station(at).braid.diameter;
        let apart = self.made.with(planned, |line| {
            diameter(line, at + errors::PLACE) - diameter(line, at - errors::PLACE)
        });
        0.5 * apart.abs().millimetres()
    }
}

impl Model for LineModel {
    fn group(&self) -> &Group {
        &self.group
    }

    fn sources(&self) -> &[Source] {
        &self.sources
    }

    fn expected(&self, parameters: &Parameters) -> Vec<f64> {
        let mut stage = LineStage::Bare;
        let mut dressing = Dressing::BARE;
        let made = &self.made;
        made.with(parameters, |line| {
            let asked = self.asked.iter().map(|&(at, asked)| {
                if at != stage {
                    stage = at;
                    dressing = made.dressing(stage, parameters).unwrap_or(Dressing::BARE);
                }
                match asked {
                    Asked::Whole(length) => whole(line, &dressing, length).grams(),
                    Asked::Head => head(line, &dressing, made.head).grams(),
                    Asked::Diameter(at) => diameter(line, &dressing, at).millimetres(),
                }
            });
            asked.collect()
        })
    }
}

/// Error of a weight of so many grams by itself, and its part in what differs from line to line: only dressed lines do.
fn of_weight(grams: f64, stage: LineStage) -> (f64, f64) {
    let error = errors::of_mass(Mass::from_grams(grams)).grams();
    let shared = match stage {
        LineStage::Bare => 0.0,
        LineStage::Coat(_) | LineStage::Finished => prior::SCATTER * grams,
    };
    (error, shared)
}

/// The mass of a whole line that came out so long: what is over or missing is at its end.
pub(in crate::keep::book) fn whole(
    line: &BraidedLine,
    dressing: &Dressing,
    length: Length,
) -> Mass {
    let planned = line.length();
    let end = line.station_before(planned).braid;
    let fibre_fraction = line.process().braiding.fibre_fraction;
    let per_length = dressing.dress(&end, fibre_fraction).linear_density;
    line.mass_with(dressing, Density::ZERO, Length::ZERO, planned) + (length - planned) * per_length
}

/// The mass of the head.
pub(in crate::keep::book) fn head(line: &BraidedLine, dressing: &Dressing, head: Head) -> Mass {
    line.mass_with(dressing, Density::ZERO, head.from, head.to)
}

/// The diameter at a place.
pub(in crate::keep::book) fn diameter(
    line: &BraidedLine,
    dressing: &Dressing,
    at: Length,
) -> Length {
    dressing.diameter(line.station(at).braid.diameter)
}

/// What is on a line of a design at a stage, for good, with these parameters; `None` where its recipe has no such stage, or
/// never dries it.
pub(in crate::keep::book) fn dressing_at(
    design: &Design,
    stage: LineStage,
    parameters: &Parameters,
) -> Option<Dressing> {
    let materials = materials(design, parameters);
    let recipe = &design.draft().recipe;
    match stage {
        LineStage::Bare => Some(Dressing::BARE),
        LineStage::Finished => Some(materials.finished(recipe)),
        LineStage::Coat(coat) => {
            let end = end_of_coat(recipe, coat)?;
            let dried = materials.stages(&recipe[..end]).pop()?;
            let is_dry = |stage: &Dressed| !stage.is_wet();
            Some(dried).filter(is_dry).map(|stage| stage.dressing)
        }
    }
}

/// Steps up to the next coat of anything after a coat of oil.
pub(in crate::keep::book) fn end_of_coat(recipe: &[DraftStep], coat: usize) -> Option<usize> {
    let mut oils = (0..recipe.len()).filter(|&index| recipe[index].kind.is_oil());
    let first = oils.nth(coat)?;
    let goes_on = |index: &usize| {
        let kind = recipe[*index].kind;
        kind.is_oil() || kind.is_varnish() || kind == StepKind::Grease
    };
    let next = (first + 1..recipe.len()).find(goes_on);
    Some(next.unwrap_or(recipe.len()))
}
