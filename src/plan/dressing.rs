//! The line in dressing: what each step takes from the jars, what stays on the line, and what to beware of.

use super::Plan;
use crate::base::units::{Density, Length, Mass, Volume};
use crate::braid::dressing::{Coat, Dressing, Materials, Stage};
use crate::braid::recipe::{DraftStep, Heat, ReadyRecipe, StepKind};
use crate::braid::stretch::Part;
use crate::design::Design;
use crate::design::settings::Setting;

/// A dressing step and the line after it.
#[derive(Clone, Debug, PartialEq)]
pub struct StepReport {
    /// The step.
    pub step: DraftStep,
    /// What goes on in it.
    pub coat: Option<CoatReport>,
    /// Grease rubbed in.
    pub grease: Mass,
    /// Share of the bare braid's voids filled after it.
    pub filled: f64,
    /// How far below the outermost thread the filling stands in the belly, were it even.
    pub below: Length,
    /// Whether something on the line is still wet.
    pub is_wet: bool,
    /// Mass of the whole line after it.
    pub mass: Mass,
    /// Mass of its first 30 ft.
    pub head: Option<Mass>,
    /// Diameter in the middle of the belly after it.
    pub diameter: Length,
    /// Mass per volume there.
    pub bulk_density: Density,
    /// What to beware of in it.
    pub warnings: Vec<StepWarning>,
}

/// A liquid in a jar or on a line.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Portion {
    /// Its mass.
    pub mass: Mass,
    /// Its volume.
    pub volume: Volume,
}

/// What is mixed for a coat, part by part.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Mixture {
    /// Oil.
    pub oil: Portion,
    /// Varnish as it is in its tin.
    pub varnish: Portion,
    /// Solvent.
    pub solvent: Portion,
}

/// A coat on this line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoatReport {
    /// The most the pressure in the jar lets in, as a share of the voids empty before; `None` without vacuum.
    pub bound: Option<f64>,
    /// What goes in, as a share of the same.
    pub fill: f64,
    /// What is poured into the jar. Without a jar, what the line takes.
    pub poured: Mixture,
    /// What the line takes of it, in its voids and on its surface.
    pub taken: Mixture,
    /// What stays on the line once it is dry.
    pub stays: Mass,
    /// What the oil takes from the air in drying.
    pub gained: Mass,
    /// What leaves the line in drying: solvent, and of varnish all but its solids.
    pub evaporates: Mass,
}

/// What to beware of in a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StepWarning {
    /// Warmer than the yarn should become, in degrees Celsius.
    TooWarm {
        /// The limit.
        limit: f64,
        /// Whether the limit is the maker's own, not the one remembered of the fibre.
        is_own: bool,
    },
    /// An oven is left alone.
    OvenAlone,
    /// What goes into the warmth may still be wet with solvent.
    SolventWet,
    /// Nothing behind it dries what goes on here.
    NeverDries,
    /// It goes on something still wet.
    OnWet,
    /// The pressure in the jar lets in less than the setting says.
    HeldByPressure {
        /// What it lets in.
        bound: f64,
        /// What the setting says.
        wished: f64,
    },
    /// The line takes more than the jar holds.
    JarTooSmall {
        /// What the line takes.
        taken: Volume,
    },
    /// Braids of this pattern usually take more coats of oil than the recipe has.
    FewCoats {
        /// Coats in the recipe.
        has: usize,
        /// Coats usual.
        usual: usize,
    },
}

impl Mixture {
    fn map(&self, portion: impl Fn(Portion) -> Portion) -> Self {
        Self {
            oil: portion(self.oil),
            varnish: portion(self.varnish),
            solvent: portion(self.solvent),
        }
    }

    /// Everything in it, by mass.
    pub fn mass(&self) -> Mass {
        self.oil.mass + self.varnish.mass + self.solvent.mass
    }

    /// Everything in it, by volume.
    pub fn volume(&self) -> Volume {
        self.oil.volume + self.varnish.volume + self.solvent.volume
    }
}

impl CoatReport {
    /// What is left in the jar.
    pub fn left(&self) -> Mixture {
        let less = |poured: Portion, taken: Portion| Portion {
            mass: poured.mass - taken.mass,
            volume: poured.volume - taken.volume,
        };
        Mixture {
            oil: less(self.poured.oil, self.taken.oil),
            varnish: less(self.poured.varnish, self.taken.varnish),
            solvent: less(self.poured.solvent, self.taken.solvent),
        }
    }
}

impl Portion {
    fn of(mass: Mass, density: Density) -> Self {
        Self {
            mass,
            volume: mass / density,
        }
    }

    fn times(self, factor: f64) -> Self {
        Self {
            mass: self.mass * factor,
            volume: self.volume * factor,
        }
    }
}

/// What a report is made from.
struct Desk<'a> {
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
    let desk = Desk {
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
    (0..steps.len()).map(|index| desk.report(index)).collect()
}

impl Desk<'_> {
    fn before(&self, index: usize) -> Stage {
        index
            .checked_sub(1)
            .map_or(Stage::BARE, |before| self.stages[before])
    }

    fn report(&self, index: usize) -> StepReport {
        let (stage, step) = (self.stages[index], self.steps[index]);
        let Plan { belly, .. } = self.plan;
        let coat = stage.coat.map(|coat| self.coat(index, &coat));
        let mass = self.whole.mass_with(&stage.dressing, stage.wet);
        let share = stage.dressing.grease / (1.0 + stage.dressing.grease);
        let diameter = stage.dressing.diameter(belly.braid.diameter);
        let dressed = stage
            .dressing
            .dress(&belly.braid, self.design.braiding().fibre_fraction);
        let wet = belly.braid.area()
            * (1.0 - self.design.braiding().fibre_fraction)
            * stage.wet
            * stage.dressing.weighed;
        StepReport {
            step,
            coat,
            grease: if step.kind == StepKind::Grease {
                mass * share
            } else {
                Mass::ZERO
            },
            filled: 1.0 - stage.empty,
            below: stage.level_below(belly.braid.diameter),
            is_wet: stage.wet > Density::ZERO,
            mass,
            head: self
                .head
                .map(|head| head.mass_with(&stage.dressing, stage.wet)),
            diameter,
            bulk_density: (dressed.linear_density + wet) / diameter.circle(),
            warnings: self.warnings(index, coat.as_ref()),
        }
    }

    /// What a coat takes from the jar and leaves on the line; the film comes from the first coat of varnish.
    fn coat(&self, index: usize, coat: &Coat) -> CoatReport {
        let line = &self.plan.line;
        let voids = line.voids(Length::ZERO, self.plan.length);
        let (film, varnish_of_film, solvent_of_film) = self.film(index);
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
            gained,
            evaporates: solvent + (varnish - solids),
        }
    }

    /// The film that a coat leaves on the surface, and the varnish and solvent it is laid down with.
    fn film(&self, index: usize) -> (Mass, Mass, Mass) {
        let is_first = self.steps[..index]
            .iter()
            .all(|step| !step.kind.is_varnish());
        let solids = self.materials.solids;
        if !self.steps[index].kind.is_varnish() || !is_first || solids <= 0.0 {
            return (Mass::ZERO, Mass::ZERO, Mass::ZERO);
        }
        let covered = Dressing {
            film: self.materials.film * self.materials.pick_up,
            film_density: self.materials.film_density,
            ..Dressing::BARE
        };
        let film = self.whole.mass_with(&covered, Density::ZERO) - self.plan.bare_mass;
        let varnish = film / solids;
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
        let is_on_wet = self.before(index).wet > Density::ZERO;
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
