//! What cannot be of a line made.

use super::most::MostDressing;
use super::{BEYOND, Complaint, DIAMETERS, LEAST_LAY, LENGTHS, MASSES, Why, YarnLimits, plain};
use crate::base::units::{Length, Mass};
use crate::braid::stretch::Piece;
use crate::design::Design;
use crate::design::settings::Setting;
use crate::keep::book::errors;
use crate::keep::book::model::line::MadeLine;
use crate::keep::book::record::{LineField, LineRecord, LineStage, Measures};
use crate::keep::share::link::LinkError;

/// Where a number of a line stands.
pub type LinePlace = (LineStage, LineField);

/// All that is wrong with a line of a workshop with these settings.
pub fn complaints(record: &LineRecord, base: &Design) -> Vec<Complaint<LinePlace>> {
    let unusable = |why| {
        let fields = written(record).collect();
        vec![Complaint { fields, why }]
    };
    match record.design.design() {
        Err(error) => unusable(Why::NoDesign {
            is_newer: matches!(error, LinkError::Newer(_)),
        }),
        Ok(design) if !is_same_yarn(design, base) => unusable(Why::OtherYarn),
        Ok(design) => {
            let mut found = LineChecker {
                left: record.clone(),
                complaints: Vec::new(),
                made: MadeLine::of(design),
                yarn: YarnLimits::of(design.thread(), design.label_spread()),
                ends: design.setting(Setting::EndsPerThread),
                most: MostDressing::of(design),
            };
            found.all(design);
            found.complaints
        }
    }
}

/// The line without the numbers complained of.
pub fn sound(record: &LineRecord, base: &Design) -> LineRecord {
    let mut left = record.clone();
    for complaint in complaints(record, base) {
        strike(&mut left, &complaint.fields);
    }
    left
}

fn strike(record: &mut LineRecord, places: &[LinePlace]) {
    for &(stage, field) in places {
        if let Some(measures) = record.measures_mut(stage) {
            measures.set(field, None);
        }
    }
}

/// Every number written down.
fn written(record: &LineRecord) -> impl Iterator<Item = LinePlace> + '_ {
    let of = |(stage, measures): (LineStage, &Measures)| -> Vec<LinePlace> {
        let fields = measures
            .fields()
            .filter(|&field| measures.get(field).is_some());
        fields.map(|field| (stage, field)).collect()
    };
    record.stages().flat_map(of)
}

/// What is known of the yarn may differ, the yarn may not.
pub(in crate::keep::book) fn is_same_yarn(one: &Design, other: &Design) -> bool {
    let (ours, theirs) = (one.draft(), other.draft());
    let label = |design: &Design| {
        [Setting::LabelLow, Setting::LabelHigh].map(|setting| design.setting(setting))
    };
    ours.fibre == theirs.fibre
        && one.kept_in_degumming() == other.kept_in_degumming()
        && label(one) == label(other)
}

/// Complaints so far, and what is left without the numbers complained of: nothing is blamed for another's fault.
struct LineChecker {
    left: LineRecord,
    complaints: Vec<Complaint<LinePlace>>,
    made: MadeLine,
    yarn: YarnLimits,
    ends: f64,
    most: MostDressing,
}

impl LineChecker {
    fn complain(&mut self, fields: Vec<LinePlace>, why: Why) {
        strike(&mut self.left, &fields);
        self.complaints.push(Complaint { fields, why });
    }

    fn all(&mut self, design: &Design) {
        self.by_themselves();
        self.coats(design);
        let stages: Vec<LineStage> = self.left.stages().map(|(stage, _)| stage).collect();
        for &stage in &stages {
            self.places(stage);
            self.head(stage, LineField::HeadMass);
            self.head(stage, LineField::RearHeadMass);
            self.against_the_yarn(stage);
        }
        for later in 1..stages.len() {
            for field in [LineField::Mass, LineField::HeadMass] {
                self.lighter_than_before(&stages[..=later], field);
            }
        }
    }

    fn get(&self, (stage, field): LinePlace) -> Option<f64> {
        self.left.measures(stage)?.get(field)
    }

    /// The length at a stage: measured then or before, or else as planned.
    fn length(&self, stage: LineStage) -> Length {
        let until = self.left.stages().filter(|(at, _)| *at <= stage);
        let measured = until.filter_map(|(_, measures)| measures.length_m).last();
        measured.map_or(self.made.length, Length::from_metres)
    }

    fn by_themselves(&mut self) {
        let all: Vec<LinePlace> = written(&self.left).collect();
        for place in all {
            // What goes with a place that cannot be was struck out with it.
            let Some(value) = self.get(place) else {
                continue;
            };
            let (stage, field) = place;
            let (is_tip, fields) = match field {
                LineField::At(index) => {
                    let diameter = (stage, LineField::Diameter(index));
                    (value == 0.0, vec![place, diameter])
                }
                _ => (false, vec![place]),
            };
            if let Some(why) = plain(value, range(field)).filter(|_| !is_tip) {
                self.complain(fields, why);
            }
        }
    }

    /// Coats the recipe does not have, or never dries.
    fn coats(&mut self, design: &Design) {
        let parameters = design.parameters();
        let oils = design.draft().recipe.iter();
        let planned = oils.filter(|step| step.kind.is_oil()).count();
        for coat in 0..self.left.coats.len() {
            let stage = LineStage::Coat(coat);
            let fields: Vec<LinePlace> = written(&self.left)
                .filter(|place| place.0 == stage)
                .collect();
            let is_there = self.made.dressing(stage, &parameters).is_some();
            if !is_there && !fields.is_empty() {
                self.complain(fields, Why::NoSuchCoat(planned));
            }
        }
    }

    fn places(&mut self, stage: LineStage) {
        let length = self.length(stage);
        let end = length + errors::of_length(length) * BEYOND;
        let count = self
            .left
            .measures(stage)
            .map_or(0, |measures| measures.diameters.len());
        for index in 0..count {
            let (at, diameter) = (LineField::At(index), LineField::Diameter(index));
            let place = self.get((stage, at)).map(Length::from_metres);
            match (place, self.get((stage, diameter))) {
                (None, Some(_)) => self.complain(vec![(stage, diameter)], Why::Alone(at.name())),
                (Some(place), _) if place > end => self.complain(
                    vec![(stage, at), (stage, diameter)],
                    Why::BeyondEnd { at: place, length },
                ),
                _ => {}
            }
        }
    }

    fn head(&mut self, stage: LineStage, field: LineField) {
        let place = (stage, field);
        let Some(head) = self.get(place).map(Mass::from_grams) else {
            return;
        };
        if let Some(missing) = self
            .made
            .head
            .missing(self.length(stage).min(self.made.length))
        {
            self.complain(vec![place], Why::NoHead(missing));
            return;
        }
        let whole_place = (stage, LineField::Mass);
        if let Some(whole) = self.get(whole_place).map(Mass::from_grams)
            && head - whole > error_of(head, whole)
        {
            let why = Why::HeadOverWhole { head, whole };
            self.complain(vec![place, whole_place], why);
        }
    }

    fn against_the_yarn(&mut self, stage: LineStage) {
        let whole = (Length::ZERO, self.length(stage).min(self.made.length));
        let head = (self.made.head.from, self.made.head.to);
        for (field, (from, to)) in [(LineField::Mass, whole), (LineField::HeadMass, head)] {
            let place = (stage, field);
            let mass = self.get(place).map(Mass::from_grams);
            let why = mass.and_then(|mass| {
                let too_heavy = || self.too_heavy(stage, mass, from, to);
                self.too_light(mass, from, to).or_else(too_heavy)
            });
            if let Some(why) = why {
                self.complain(vec![place], why);
            }
        }
        let measures = self.left.measures(stage).cloned().unwrap_or_default();
        for (index, measured) in measures.diameters.iter().enumerate() {
            let why = self.thickness(stage, measured.at_m, measured.diameter_mm);
            if let Some(why) = why {
                self.complain(vec![(stage, LineField::Diameter(index))], why);
            }
        }
    }

    /// Complains of a mass below that of the engaged threads between two places, laid straight.
    fn too_light(&self, mass: Mass, from: Length, to: Length) -> Option<Why> {
        let within = |piece: &Piece| {
            let length = piece.to.min(to) - piece.from.max(from);
            length.max(Length::ZERO).metres() * piece.load.yarn
        };
        let thread_metres: f64 = self.made.pieces().iter().map(within).sum();
        let length = Length::from_metres(thread_metres);
        self.yarn.mass(mass, length, self.ends)
    }

    /// Complains of a mass above that of the loosest braid between two places, with all that can be on it at a stage.
    fn too_heavy(&self, stage: LineStage, mass: Mass, from: Length, to: Length) -> Option<Why> {
        let of = |piece: &Piece| {
            let length = piece.to.min(to) - piece.from.max(from);
            let ends = (piece.load.yarn + piece.load.buried) * self.ends;
            let (bare, diameter) = self.yarn.loosest(ends, piece.lay * LEAST_LAY);
            let most = match stage {
                LineStage::Bare => bare,
                _ => self.most.dressed(diameter),
            };
            length.max(Length::ZERO) * most
        };
        let most: Mass = self.made.pieces().iter().map(of).sum();
        let is_beyond = mass > most + errors::of_mass(mass) * BEYOND;
        is_beyond.then_some(Why::HeavierThanYarn { mass, most })
    }

    fn thickness(&self, stage: LineStage, at: Option<f64>, diameter: Option<f64>) -> Option<Why> {
        let (at, diameter) = (
            Length::from_metres(at?),
            Length::from_millimetres(diameter?),
        );
        // The jaws may be a little off the place, on the other side of a change.
        let near =
            |piece: &&Piece| piece.from <= at + errors::PLACE && at <= piece.to + errors::PLACE;
        let pieces = || self.made.pieces().iter().filter(near);
        let least = pieces()
            .map(|piece| piece.load.yarn)
            .reduce(f64::min)
            .map(|yarn| yarn * self.ends)?;
        let loosest = |piece: &Piece| {
            let ends = (piece.load.yarn + piece.load.buried) * self.ends;
            self.yarn.loosest(ends, piece.lay * LEAST_LAY).1
        };
        let film = match stage {
            LineStage::Bare => Length::ZERO,
            _ => self.most.film,
        };
        let most = pieces().map(loosest).reduce(Length::max)? + film * 2.0;
        let is_beyond = diameter > most + errors::DIAMETER * BEYOND;
        let too_thick = is_beyond.then_some(Why::ThickerThanYarn { diameter, most });
        self.yarn.diameter(diameter, least).or(too_thick)
    }

    /// Complains of the last of these stages if it is lighter than the one weighed before; either weight may be wrong.
    fn lighter_than_before(&mut self, stages: &[LineStage], field: LineField) {
        let Some((&later, before)) = stages.split_last() else {
            return;
        };
        let weighed =
            |stage: &LineStage| Some((*stage, Mass::from_grams(self.get((*stage, field))?)));
        let earlier = before.iter().rev().find_map(weighed);
        let (Some((earlier, before)), Some((_, after))) = (earlier, weighed(&later)) else {
            return;
        };
        let is_shorter = field == LineField::Mass
            && self.length(earlier) - self.length(later) > errors::of_length(self.length(later));
        if before - after > error_of(before, after) && !is_shorter {
            self.complain(
                vec![(earlier, field), (later, field)],
                Why::LighterThanBefore {
                    earlier,
                    later,
                    before,
                    after,
                },
            );
        }
    }
}

/// Where a number can lie.
fn range(field: LineField) -> (f64, f64) {
    match field {
        LineField::Length => LENGTHS,
        // Right after the tip is a place too.
        LineField::At(_) => (0.0, LENGTHS.1),
        LineField::Mass | LineField::HeadMass | LineField::RearHeadMass => MASSES,
        LineField::Diameter(_) => DIAMETERS,
    }
}

/// As far as two masses that are the same may be apart.
fn error_of(one: Mass, other: Mass) -> Mass {
    let (one, other) = (errors::of_mass(one).grams(), errors::of_mass(other).grams());
    Mass::from_grams(BEYOND * one.hypot(other))
}
