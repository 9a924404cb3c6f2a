//! What cannot be of a swatch.

use super::{
    BEYOND, COUNTS, Complaint, DIAMETERS, LEAST_LAY, LENGTHS, MASSES, Why, WorkshopLimits,
    YarnLimits, machine, plain,
};
use crate::base::rule::Rule;
use crate::base::units::{Angle, Length, LinearDensity, Mass};
use crate::braid::geometry;
use crate::braid::takeoff::TEETH;
use crate::design::settings::Setting;
use crate::keep::book::errors;
use crate::keep::book::swatch::{Swatch, SwatchField};

/// All that is wrong with a swatch of a workshop with these limits.
pub fn complaints(swatch: &Swatch, limits: &WorkshopLimits) -> Vec<Complaint<SwatchField>> {
    let mut found = SwatchChecker {
        left: swatch.clone(),
        complaints: Vec::new(),
    };
    found.by_themselves();
    found.against_the_machine(limits);
    found.alone();
    found.against_the_yarn(limits);
    found.lays_apart();
    found.angle_off(&limits.yarn);
    found.complaints
}

/// The swatch without the numbers complained of.
pub fn sound(swatch: &Swatch, limits: &WorkshopLimits) -> Swatch {
    let mut left = swatch.clone();
    let fields = complaints(swatch, limits)
        .into_iter()
        .flat_map(|complaint| complaint.fields);
    for field in fields {
        left.set(field, None);
    }
    left
}

/// Angles between thread and axis a braid can have, degrees.
const ANGLES: (f64, f64) = (1.0, 89.0);

/// Complaints so far, and what is left without the numbers complained of: nothing is blamed for another's fault.
struct SwatchChecker {
    left: Swatch,
    complaints: Vec<Complaint<SwatchField>>,
}

impl SwatchChecker {
    fn complain(&mut self, fields: &[SwatchField], why: Why) {
        for &field in fields {
            self.left.set(field, None);
        }
        self.complaints.push(Complaint {
            fields: fields.to_vec(),
            why,
        });
    }

    /// Numbers that are none, or could never be.
    fn by_themselves(&mut self) {
        for field in SwatchField::ALL {
            if let Some(why) = self.left.get(field).and_then(|value| wrong(field, value)) {
                self.complain(&[field], why);
            }
        }
    }

    /// Numbers that say nothing without another.
    fn alone(&mut self) {
        use SwatchField::{
            Angle, Circuits, Crossings, CrossingsOver, Diameter, Ends, Length, Mass, ThreadLength,
            ThreadMass,
        };
        let missing = |left: &Swatch, needed: SwatchField| left.get(needed).is_none();
        let setup = SwatchField::SETUP
            .into_iter()
            .find(|&needed| missing(&self.left, needed));
        for field in [Circuits, Crossings, Mass, Diameter, Angle] {
            let partner = match field {
                Circuits | Mass => Some(Length),
                Crossings => Some(CrossingsOver),
                _ => None,
            };
            let partner = partner.filter(|&needed| missing(&self.left, needed));
            if let Some(needed) = setup.or(partner).filter(|_| !missing(&self.left, field)) {
                self.complain(&[field], Why::Alone(needed.name()));
            }
        }
        let mut of_thread = [Ends, ThreadLength].into_iter();
        let needed = of_thread.find(|&needed| missing(&self.left, needed));
        if let Some(needed) = needed.filter(|_| !missing(&self.left, ThreadMass)) {
            self.complain(&[ThreadMass], Why::Alone(needed.name()));
        }
    }

    fn against_the_machine(&mut self, limits: &WorkshopLimits) {
        for (fields, why) in machine::found(&self.left, limits) {
            self.complain(fields, why);
        }
    }

    fn against_the_yarn(&mut self, limits: &WorkshopLimits) {
        let left = &self.left;
        let mass = too_light(left, &limits.yarn).or_else(|| too_heavy(left, limits));
        let diameter = too_thin(left, &limits.yarn).or_else(|| too_thick(left, limits));
        let thread = too_light_a_thread(left, &limits.yarn);
        if let Some(why) = mass {
            self.complain(&[SwatchField::Mass], why);
        }
        if let Some(why) = thread {
            self.complain(&[SwatchField::ThreadMass], why);
        }
        if let Some(why) = diameter {
            self.complain(&[SwatchField::Diameter], why);
        }
    }

    /// Either count may be the wrong one, so neither is used.
    fn lays_apart(&mut self) {
        if let Some(why) = apart(&self.left) {
            self.complain(&[SwatchField::Circuits, SwatchField::Crossings], why);
        }
    }

    fn angle_off(&mut self, yarn: &YarnLimits) {
        if let Some(why) = off(&self.left, yarn) {
            self.complain(&[SwatchField::Angle], why);
        }
    }
}

/// What is wrong with a number, whatever the others are.
fn wrong(field: SwatchField, value: f64) -> Option<Why> {
    let whole = |rule: Rule| {
        let broken = || (value.fract() != 0.0).then_some(Why::NotWhole(value));
        plain(value, (rule.low, rule.high)).or_else(broken)
    };
    match field {
        SwatchField::Threads => whole(Setting::MostThreads.rule()),
        SwatchField::Ends => whole(Setting::EndsPerThread.rule()),
        SwatchField::Driver | SwatchField::Driven => whole(TEETH),
        SwatchField::Length | SwatchField::CrossingsOver | SwatchField::ThreadLength => {
            plain(value, LENGTHS)
        }
        SwatchField::Circuits | SwatchField::Crossings => plain(value, COUNTS),
        SwatchField::Mass | SwatchField::ThreadMass => plain(value, MASSES),
        SwatchField::Diameter => plain(value, DIAMETERS),
        SwatchField::Angle => plain(value, ANGLES),
    }
}

fn all_ends(swatch: &Swatch) -> Option<f64> {
    Some(swatch.threads? * swatch.ends?)
}

fn too_light(swatch: &Swatch, yarn: &YarnLimits) -> Option<Why> {
    let mass = Mass::from_grams(swatch.mass_g?);
    let length = Length::from_metres(swatch.length_m?);
    yarn.mass(mass, length, all_ends(swatch)?)
}

fn too_light_a_thread(swatch: &Swatch, yarn: &YarnLimits) -> Option<Why> {
    let mass = Mass::from_grams(swatch.thread_mass_g?);
    let length = Length::from_metres(swatch.thread_length_m?);
    yarn.mass(mass, length, swatch.ends?)
}

fn too_thin(swatch: &Swatch, yarn: &YarnLimits) -> Option<Why> {
    let diameter = Length::from_millimetres(swatch.diameter_mm?);
    yarn.diameter(diameter, all_ends(swatch)?)
}

/// Mass per length and diameter of the loosest braid it can be: of half of what gears and machine constant say a circuit draws,
/// or of the lay measured where that is shorter still. A lay counted too long blames no other number.
fn loosest(swatch: &Swatch, limits: &WorkshopLimits) -> Option<(LinearDensity, Length)> {
    let drawn = limits.take_off.constant * (swatch.ratio()? * LEAST_LAY);
    let measured = lays(swatch).into_iter().flatten();
    let measured = measured.map(|(lay, share)| lay * (1.0 - BEYOND * share).max(LEAST_LAY));
    let lay = measured.fold(drawn, Length::min);
    Some(limits.yarn.loosest(all_ends(swatch)?, lay))
}

fn too_heavy(swatch: &Swatch, limits: &WorkshopLimits) -> Option<Why> {
    let mass = Mass::from_grams(swatch.mass_g?);
    let length = Length::from_metres(swatch.length_m?);
    let longest = length + errors::of_length(length) * BEYOND;
    let most = longest * loosest(swatch, limits)?.0;
    let is_beyond = mass > most + errors::of_mass(mass) * BEYOND;
    is_beyond.then_some(Why::HeavierThanYarn { mass, most })
}

fn too_thick(swatch: &Swatch, limits: &WorkshopLimits) -> Option<Why> {
    let diameter = Length::from_millimetres(swatch.diameter_mm?);
    let most = loosest(swatch, limits)?.1;
    let is_beyond = diameter > most + errors::DIAMETER * BEYOND;
    is_beyond.then_some(Why::ThickerThanYarn { diameter, most })
}

/// The lays that circuits and crossings tell, with the error of each as a share.
fn lays(swatch: &Swatch) -> [Option<(Length, f64)>; 2] {
    let circuits = || {
        let length = Length::from_metres(swatch.length_m?);
        let share = errors::share_by_circuits(length, swatch.circuits?);
        Some((swatch.lay_by_circuits()?, share))
    };
    let crossings = || {
        let length = Length::from_metres(swatch.crossings_over_m?);
        let own = swatch.own_error(SwatchField::Crossings);
        let share = errors::share_by_crossings(length, swatch.crossings?, own);
        Some((swatch.lay_by_crossings()?, share))
    };
    [circuits(), crossings()]
}

fn apart(swatch: &Swatch) -> Option<Why> {
    let [Some((circuits, one)), Some((crossings, other))] = lays(swatch) else {
        return None;
    };
    let apart = (circuits / crossings).ln().abs();
    (apart > BEYOND * one.hypot(other)).then_some(Why::LaysApart {
        circuits,
        crossings,
    })
}

/// Complains where no wall that threads can make brings angle, lay and diameter together: `tan α = π D / L` with the path `D`
/// thinner than the braid by two threads, which lie round or as flat as the settings allow. Analytic.
fn off(swatch: &Swatch, yarn: &YarnLimits) -> Option<Why> {
    let angle = Angle::from_degrees(swatch.angle_deg?);
    let diameter = Length::from_millimetres(swatch.diameter_mm?);
    let (lay, share) = lays(swatch).into_iter().flatten().next()?;
    let mut thread = yarn.thread;
    thread.ends = Setting::EndsPerThread.rule().quanta(swatch.ends?);
    let round = thread.round_diameter();
    let flat = round / Setting::ThreadFlattening.rule().high.sqrt();
    let read = errors::of_angle(swatch.own_error(SwatchField::Angle));
    let bound = |thickness: Length, sign: f64| {
        let path = geometry::path_diameter(diameter, thickness);
        let middle = geometry::angle_of(path, lay);
        // d α = ½ sin 2α · (dD/D − dL/L).
        let off = (errors::DIAMETER / path).hypot(share) * 0.5 * (2.0 * middle.radians()).sin();
        let error = read.radians().hypot(off);
        middle + Angle::from_radians(sign * BEYOND * error)
    };
    let (low, high) = (bound(round, -1.0), bound(flat, 1.0));
    (angle < low || angle > high).then_some(Why::AngleOff { angle, low, high })
}
