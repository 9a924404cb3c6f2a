//! The line in dressing: what each step takes from the jars, what stays on the line, and what to be careful about.
//!
//! A recipe is calculated once, not along the line. Whatever fills voids is proportional to their volume, so all coats reduce to
//! a mass per volume of voids ([`Dressing`]), and the mass of any stretch at any stage follows from two sums kept along the line:
//! its bare mass, and its bare diameter times length for the film.

use super::contents::Plan;
use super::step_report::{CoatReport, Ledger, Mixture, Portion, StepReport, StepWarning};
use crate::base::units::{Density, Length, Mass, Volume};
use crate::braid::dressing::{Coat, Dressing, Materials, Stage, WetFilm};
use crate::braid::recipe::{DraftStep, Heat, ReadyRecipe};
use crate::braid::stretch::Part;
use crate::design::Design;
use crate::design::settings::Setting;

/// What a report is made from.
struct DressedLine<'a> {
    design: &'a Design,
    plan: &'a Plan,
    materials: Materials,
    steps: &'a [DraftStep],
    stages: Vec<Stage>,
    /// The whole line, and its head where it is long enough to have one.
    whole: Part,
    head: Option<Part>,
}

/// The steps of a design's recipe on its line.
pub(super) fn of(design: &Design, plan: &Plan) -> Vec<StepReport> {
    let materials = design.materials();
    let steps = &design.draft().recipe;
    let line = DressedLine {
        design,
        plan,
        stages: materials.stages(steps),
        materials,
        steps,
        whole: plan.line.part(Length::ZERO, plan.length),
        head: plan
            .head_mass
            .map(|_| plan.line.part(plan.head.from, plan.head.to)),
    };
    (0..steps.len()).map(|index| line.report(index)).collect()
}

/// What a stretch of line weighs at a stage.
fn mass(part: &Part, stage: &Stage) -> Mass {
    part.mass_with(&stage.weighing(), stage.wet)
}

impl DressedLine<'_> {
    fn before(&self, index: usize) -> Stage {
        index
            .checked_sub(1)
            .map_or(Stage::BARE, |before| self.stages[before])
    }

    fn report(&self, index: usize) -> StepReport {
        let (stage, step) = (self.stages[index], self.steps[index]);
        let Plan { belly, .. } = self.plan;
        let coat = stage.coat.map(|coat| self.coat(index, &coat));
        let diameter = stage.dressing.diameter(belly.braid.diameter);
        let fibre_fraction = self.design.braiding().fibre_fraction;
        let dressed = stage.weighing().dress(&belly.braid, fibre_fraction);
        let factor = (1.0 + stage.dressing.grease) * stage.dressing.weighed;
        let wet = belly.braid.area() * (1.0 - fibre_fraction) * stage.wet * factor;
        StepReport {
            step,
            coat,
            ledger: self.ledger(index, coat.as_ref()),
            filled: 1.0 - stage.empty,
            below: stage.level_below(belly.braid.diameter),
            is_wet: stage.is_wet(),
            head: self.head.map(|head| mass(&head, &stage)),
            diameter,
            bulk_density: (dressed.linear_density + wet) / diameter.circle(),
            warnings: self.warnings(index, coat.as_ref()),
        }
    }

    /// What a step does to the mass of the line.
    fn ledger(&self, index: usize, coat: Option<&CoatReport>) -> Ledger {
        let stage = self.stages[index];
        let (before, after) = (
            mass(&self.whole, &self.before(index)),
            mass(&self.whole, &stage),
        );
        let taken = coat.map_or(Mass::ZERO, |coat| coat.taken.mass());
        let (evaporates, gained) = self.dried_off(index);
        let share = stage.dressing.grease;
        let rubbed_in = share - self.before(index).dressing.grease;
        let grease = after * (rubbed_in / (1.0 + share));
        Ledger {
            before,
            taken,
            gained,
            grease,
            corrected: after - before - taken - gained - grease + evaporates,
            evaporates,
            after,
        }
    }

    /// What leaves the coats that dry in a step, and what they take from the air.
    fn dried_off(&self, index: usize) -> (Mass, Mass) {
        if !self.steps[index].kind.dries() {
            return (Mass::ZERO, Mass::ZERO);
        }
        let wet = (0..index)
            .rev()
            .take_while(|&before| !self.steps[before].kind.dries());
        let coats = wet.filter_map(|before| {
            let coat = self.stages[before].coat?;
            let report = self.coat(before, &coat);
            Some((report.evaporates, report.gained))
        });
        let nothing = (Mass::ZERO, Mass::ZERO);
        coats.fold(nothing, |all, coat| (all.0 + coat.0, all.1 + coat.1))
    }

    /// What a coat takes from the jar and leaves on the line; the film comes from the first coat of varnish.
    fn coat(&self, index: usize, coat: &Coat) -> CoatReport {
        let line = &self.plan.line;
        let voids = line.voids(Length::ZERO, self.plan.length);
        let (film, varnish_of_film, solvent_of_film) = self.film(index, coat.film);
        let oil = voids * coat.oil;
        let varnish = voids * coat.varnish + varnish_of_film;
        let solvent = voids * coat.solvent + solvent_of_film;
        let materials = &self.materials;
        let taken = Mixture {
            oil: Portion::of(oil, materials.oil),
            varnish: Portion::of(varnish, materials.varnish),
            solvent: Portion::of(solvent, materials.solvent),
        };
        let solids = voids * coat.varnish * materials.solids + film;
        let gained = oil * materials.oil_gain;
        CoatReport {
            bound: coat.bound,
            fill: coat.fill,
            poured: self.poured(index, &taken),
            taken,
            stays: oil + gained + solids,
            dry: mass(&self.whole, &materials.dried(self.stages[index])),
            gained,
            evaporates: solvent + (varnish - solids),
        }
    }

    /// The film that a coat leaves on the surface, and the varnish and solvent it takes.
    fn film(&self, index: usize, film: Option<WetFilm>) -> (Mass, Mass, Mass) {
        let Some(film) = film else {
            return (Mass::ZERO, Mass::ZERO, Mass::ZERO);
        };
        let covered = Dressing {
            film: film.dry,
            film_density: self.materials.film_density,
            ..Dressing::BARE
        };
        let film = self.whole.mass_with(&covered, Density::ZERO) - self.plan.bare_mass;
        let varnish = film / self.materials.solids;
        let parts = self.steps[index].solvent_percent / 100.0;
        (film, varnish, varnish * (parts / (1.0 - parts)))
    }

    /// A jar is filled until the line is covered; what is wiped on is only what the line takes.
    fn poured(&self, index: usize, taken: &Mixture) -> Mixture {
        let jar = Volume::from_millilitres(self.design.setting(Setting::Jar));
        let has_jar = self.steps[index].pressure().is_some();
        let volume = taken.volume();
        if !has_jar || volume <= Volume::ZERO {
            return *taken;
        }
        taken.map(|portion| portion.times(jar.max(volume) / volume))
    }

    fn warnings(&self, index: usize, coat: Option<&CoatReport>) -> Vec<StepWarning> {
        let mut warnings = Vec::new();
        let step = &self.steps[index];
        if step.kind.is_warm() {
            warnings.extend(self.too_warm(step));
            warnings.extend((step.heat == Heat::OvenAlone).then_some(StepWarning::OvenAlone));
            let is_wet = self.may_hold_solvent(index);
            warnings.extend(is_wet.then_some(StepWarning::SolventWet));
        }
        if let Some(coat) = coat {
            warnings.extend(self.of_coat(index, coat));
        }
        warnings
    }

    fn too_warm(&self, step: &DraftStep) -> Option<StepWarning> {
        let own = self.design.setting(Setting::WarmLimit);
        let is_own = own > 0.0;
        let limit = if is_own {
            own
        } else {
            self.design.draft().fibre.warm_limit()
        };
        (step.celsius > limit).then_some(StepWarning::TooWarm { limit, is_own })
    }

    /// Whether varnish or solvent went on since the line last hung in air.
    fn may_hold_solvent(&self, index: usize) -> bool {
        let before = self.steps[..index].iter().rev();
        let since = before.take_while(|step| !step.kind.dries() || step.kind.is_warm());
        since
            .into_iter()
            .any(|step| step.kind.is_varnish() || step.varnish_percent > 0.0)
    }

    fn of_coat(&self, index: usize, coat: &CoatReport) -> Vec<StepWarning> {
        let step = &self.steps[index];
        let dries = self.steps[index..].iter().any(|step| step.kind.dries());
        let is_on_wet = self.before(index).is_wet();
        let wished = if step.kind.is_oil() {
            self.materials.oil_fill
        } else {
            (self.materials.varnish_fill * self.materials.pick_up).min(1.0)
        };
        let bound = coat.bound.filter(|&bound| bound < wished);
        let jar = Volume::from_millilitres(self.design.setting(Setting::Jar));
        let taken = coat.taken.volume();
        let is_small = step.pressure().is_some() && taken > jar;
        [
            (!dries).then_some(StepWarning::NeverDries),
            is_on_wet.then_some(StepWarning::OnWet),
            bound.map(|bound| StepWarning::HeldByPressure { bound, wished }),
            is_small.then_some(StepWarning::JarTooSmall { taken }),
            self.few_coats(index),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    /// At the last coat of oil, whether more would be usual.
    fn few_coats(&self, index: usize) -> Option<StepWarning> {
        let is_oil = |step: &DraftStep| step.kind.is_oil();
        let last = self.steps.iter().rposition(is_oil);
        let has = self.steps.iter().filter(|step| is_oil(step)).count();
        let usual = ReadyRecipe::usual_coats(self.design.draft().pattern);
        (last == Some(index) && has < usual).then_some(StepWarning::FewCoats { has, usual })
    }
}
