//! What the maker decides.
//!
//! A [`Draft`] is a design as it comes in, from a field, a file or a link: anything goes. [`Design::parse`] turns it
//! into a [`Design`], which is always valid; there is no other door. Everything computed starts from the typed parts
//! a design gives out: [`Design::braiding`], [`Design::track`], [`Design::taper`] and so on.

pub(crate) mod check;
pub mod chosen;
pub mod demo;
mod draft;
pub mod gears;
pub mod label;
pub mod machine;
pub mod mounted;
pub mod parameters;
pub mod pin;
mod recipe;
pub mod refusal;
pub mod settings;

use crate::base::units::{Angle, Density, Length, LinearDensity, Pressure};
use crate::braid::bobbin::BobbinSize;
use crate::braid::dressing::{Dressing, Materials};
use crate::braid::geometry::Braiding;
use crate::braid::stretch::Process;
use crate::braid::takeoff::{TEETH, TakeOff};
use crate::braid::taper::{Point, Taper};
use crate::braid::threads::Supply;
use crate::braid::track::Track;
use crate::braid::yarn::{Condition, Thread};
use crate::design::parameters::{DraftLearned, Parameters};
use crate::design::pin::Pin;
use refusal::{Place, Refusal};
use settings::Setting;

pub use draft::{Draft, DraftOriginal, DraftPoint};

/// Most characters in a line's name.
pub const NAME_ROOM: usize = 80;
/// Most characters in its notes.
pub const NOTES_ROOM: usize = 400;
/// What a line is called until it has a name.
pub const UNNAMED: &str = "Unnamed line";

/// A valid design: every number finite, in range and on its step; points in order; a track and gears that exist.
#[derive(Clone, Debug, PartialEq)]
pub struct Design(Draft);

impl Design {
    /// Checks a draft and brings every number to its nearest step.
    ///
    /// # Errors
    /// The first [`Refusal`] found; it names the place, the value and what would be allowed.
    pub fn parse(draft: Draft) -> Result<Self, Refusal> {
        let settings = draft
            .settings
            .admitted()
            .map_err(|(setting, misfit)| Refusal::Misfit {
                place: Place::Setting(setting),
                misfit,
            })?;
        check::label(&settings)?;
        check::packing(&settings)?;
        check::bobbin(&settings)?;
        let draft = Draft {
            name: check::text(&draft.name, Place::Name, NAME_ROOM)?,
            notes: check::text(&draft.notes, Place::Notes, NOTES_ROOM)?,
            mounted: check::mounted(draft.mounted),
            gears: check::gears(&draft.gears)?,
            pins: pin::admitted(&draft.pins)?,
            points: check::points(&draft.points)?,
            recipe: recipe::admitted(&draft.recipe, settings.get(Setting::AirPressure))?,
            workshop: check::text(&draft.workshop, Place::Workshop, NAME_ROOM)?,
            learned: draft
                .learned
                .as_ref()
                .map(DraftLearned::admitted)
                .transpose()?,
            original: draft
                .original
                .map(|original| check::original(original, NAME_ROOM))
                .transpose()?,
            settings,
            ..draft
        };
        check::machine(&draft)?;
        let design = Self(draft);
        check::wheels(&design.0, &design.take_off())?;
        Ok(design)
    }

    /// The design as plain data, to be changed and parsed again, or written out.
    pub fn draft(&self) -> &Draft {
        &self.0
    }

    /// The line's name, or a stand-in where it has none.
    pub fn title(&self) -> &str {
        if self.0.name.is_empty() {
            UNNAMED
        } else {
            &self.0.name
        }
    }

    /// The value of a setting, in the unit of its rule.
    pub fn setting(&self, setting: Setting) -> f64 {
        self.0.settings.get(setting)
    }

    /// The thread on every carrier.
    pub fn thread(&self) -> Thread {
        let label = 0.5 * (self.setting(Setting::LabelLow) + self.setting(Setting::LabelHigh));
        Thread {
            fibre_density: self.0.fibre.density(),
            end: LinearDensity::from_denier(label)
                * (self.kept_in_degumming() * self.share(Setting::YarnFactor)),
            ends: self.count(Setting::EndsPerThread),
            packing: self.share(Setting::ThreadPacking),
            flattening: self.setting(Setting::ThreadFlattening),
        }
    }

    /// Share of the bought yarn's mass that is left on the machine; 1 unless it is silk entered raw.
    pub fn kept_in_degumming(&self) -> f64 {
        match self.0.condition {
            Condition::Raw if self.0.fibre.has_gum() => 1.0 - self.share(Setting::DegummingLoss),
            Condition::Raw | Condition::AsBraided => 1.0,
        }
    }

    /// How far the yarn may be from the middle of its label, either way, as a share of it.
    pub fn label_spread(&self) -> f64 {
        let (low, high) = (
            self.setting(Setting::LabelLow),
            self.setting(Setting::LabelHigh),
        );
        (high - low) / (high + low)
    }

    /// How threads make a braid.
    pub fn braiding(&self) -> Braiding {
        Braiding {
            thread: self.thread(),
            crimp: self.share(Setting::Crimp),
            fibre_fraction: self.share(Setting::FibreFraction),
        }
    }

    /// How lines are made.
    pub fn process(&self) -> Process {
        Process {
            braiding: self.braiding(),
            dressing: self.dressing(),
            guide: self.millimetres(Setting::GuideRadius),
            target: self.target_angle(),
        }
    }

    /// The threads there are, and how the line is made thicker with them.
    pub fn supply(&self) -> Supply {
        Supply {
            build: self.0.build,
            fewest: self.count(Setting::FewestThreads),
            most: self.count(Setting::MostThreads),
            light: self.count(Setting::EndsPerThread),
            heavy: self.count(Setting::HeavierEnds),
        }
    }

    /// What the maker insists on.
    pub fn pins(&self) -> Vec<Pin> {
        let train = self.0.train;
        self.0.pins.iter().map(|pin| pin.typed(train)).collect()
    }

    /// The machine's track.
    pub fn track(&self) -> Track {
        machine::track_of(&self.0).expect("a design is only parsed with a track that exists")
    }

    /// The take-off with the gears owned.
    pub fn take_off(&self) -> TakeOff {
        let teeth = self.0.gears.iter().map(|&teeth| TEETH.quanta(teeth));
        TakeOff {
            train: self.0.train,
            gears: teeth.collect(),
            partner: self.count(Setting::PartnerTeeth),
            pair_sum: self.count(Setting::PairSum),
            constant: self.millimetres(Setting::MachineConstant),
        }
    }

    /// A bobbin of the machine.
    pub fn bobbin(&self) -> BobbinSize {
        BobbinSize {
            full: self.millimetres(Setting::BobbinFull),
            barrel: self.millimetres(Setting::BobbinBarrel),
            width: self.millimetres(Setting::BobbinWidth),
            packing: self.share(Setting::BobbinPacking),
        }
    }

    /// Length of line, one degree off, that a change of wheels is worth.
    pub fn gear_change_price(&self) -> Length {
        Length::from_metres(self.setting(Setting::GearChangePrice))
    }

    /// Length of line, one standard thread too thick or too thin, that is as bad as one stop.
    pub fn stop_price(&self) -> Length {
        Length::from_metres(self.setting(Setting::StopPrice))
    }

    /// Least distance between two stops.
    pub fn least_spacing(&self) -> Length {
        self.millimetres(Setting::LeastSpacing)
    }

    /// Length of the tail of a dropped thread.
    pub fn buried_tail(&self) -> Length {
        self.millimetres(Setting::BuriedTail)
    }

    /// Length braided before the tip.
    pub fn lead_in(&self) -> Length {
        self.millimetres(Setting::LeadIn)
    }

    /// Breaking force of all threads together, dry, that is left in the braid, over their linear density.
    pub fn braid_tenacity(&self) -> f64 {
        self.0.fibre.tenacity() * self.share(Setting::StrengthEfficiency)
    }

    /// What the line is dressed with, and how it takes.
    pub fn materials(&self) -> Materials {
        let density = |setting| Density::from_grams_per_cubic_centimetre(self.setting(setting));
        Materials {
            oil_fill: self.share(Setting::OilFill),
            oil: density(Setting::OilDensity),
            oil_gain: self.share(Setting::OilGain),
            dried_oil: density(Setting::DriedOilDensity),
            varnish_fill: self.share(Setting::VarnishFill),
            varnish: density(Setting::VarnishDensity),
            solids: self.share(Setting::VarnishSolids),
            solvent: density(Setting::SolventDensity),
            film_density: density(Setting::FilmDensity),
            film: Length::from_micrometres(self.setting(Setting::Film)),
            pick_up: self.share(Setting::VarnishPickUp),
            grease: self.share(Setting::Grease),
            weighed: self.share(Setting::Weighed),
            air: self.air(),
        }
    }

    /// Pressure of the air around.
    pub fn air(&self) -> Pressure {
        Pressure::from_millibars(self.setting(Setting::AirPressure))
    }

    /// The dressing of the finished line.
    pub fn dressing(&self) -> Dressing {
        self.materials().finished(&self.0.recipe)
    }

    /// The numbers that can be learnt from measuring, as this design has them.
    pub fn parameters(&self) -> Parameters {
        Parameters::of(&self.0.settings)
    }

    /// The same design with other values for them.
    ///
    /// # Errors
    /// [`Refusal`] where one of them is out of range.
    pub fn with_parameters(&self, parameters: &Parameters) -> Result<Self, Refusal> {
        let mut draft = self.0.clone();
        parameters.put_into(&mut draft.settings);
        Self::parse(draft)
    }

    /// The drawn taper.
    pub fn taper(&self) -> Taper {
        taper_of(&self.0.points)
    }

    /// The line it is a copy of, with the taper that was measured.
    pub fn original(&self) -> Option<(&DraftOriginal, Taper)> {
        let original = self.0.original.as_ref();
        original.map(|original| (original, taper_of(&original.points)))
    }

    /// The taper of the line it is a copy of.
    pub fn original_taper(&self) -> Option<Taper> {
        self.original().map(|(_, taper)| taper)
    }

    /// The braid angle aimed at.
    pub fn target_angle(&self) -> Angle {
        Angle::from_degrees(self.setting(Setting::TargetAngle))
    }

    /// How far from it the angle may be.
    pub fn angle_tolerance(&self) -> Angle {
        Angle::from_degrees(self.setting(Setting::AngleTolerance))
    }

    /// Thread allowed for each engagement of a carrier.
    pub fn thread_allowance(&self) -> Length {
        Length::from_metres(self.setting(Setting::ThreadAllowance))
    }

    /// A percentage among the settings as a share of 1.
    pub(crate) fn share(&self, setting: Setting) -> f64 {
        self.setting(setting) / 100.0
    }

    fn millimetres(&self, setting: Setting) -> Length {
        Length::from_millimetres(self.setting(setting))
    }

    fn count(&self, setting: Setting) -> u32 {
        setting.rule().quanta(self.setting(setting))
    }
}

fn taper_of(points: &[DraftPoint]) -> Taper {
    let point = |point: &DraftPoint| Point {
        at: Length::from_metres(point.at_m),
        diameter: Length::from_millimetres(point.diameter_mm),
    };
    Taper::new(points.iter().map(point).collect())
        .expect("a design is only parsed with points in order")
}
