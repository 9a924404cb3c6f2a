//! The numbers a maker sets: one table of names, units, ranges, steps, defaults and where each default comes from.
//!
//! What a rule is stands in [`crate::base::rule`].

use serde::de::Error as _;
use serde::ser::SerializeMap as _;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::base::bounded::number_table;
use crate::base::rule::{Misfit, Rule, rule};
use crate::base::units::text::Unit;

/// Position of a control point. The step of 0.1 mm makes quarter feet exact.
pub const POSITION: Rule = rule("distance from the tip", Unit::Metre, 0.0, 100.0, 10_000);
/// Finished diameter at a control point. The step of 0.1 µm makes thousandths of an inch exact.
pub const DIAMETER: Rule = rule("finished diameter", Unit::Millimetre, 0.1, 10.0, 10_000);

macro_rules! settings {
    ($($variant:ident $key:literal $name:literal $unit:ident $low:literal ..= $high:literal / $steps:literal = $default:literal,
       $ground:literal;)*) => {
        /// A number the maker sets.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum Setting {
            $(#[doc = $name] $variant,)*
        }

        impl Setting {
            /// Every setting, in the order of the link format: append only.
            pub const ALL: [Self; [$($default),*].len()] = [$(Self::$variant),*];

            /// The key in design files.
            pub const fn key(self) -> &'static str {
                match self { $(Self::$variant => $key,)* }
            }

            /// Name, unit, range and step.
            pub const fn rule(self) -> Rule {
                match self { $(Self::$variant => rule($name, Unit::$unit, $low, $high, $steps),)* }
            }

            /// The value a new design begins with.
            pub const fn default_value(self) -> f64 {
                match self { $(Self::$variant => $default,)* }
            }

            /// What it means and where the default comes from.
            pub const fn ground(self) -> &'static str {
                match self { $(Self::$variant => $ground,)* }
            }
        }
    };
}

settings! {
    LabelLow "label_low_denier" "finest end on the label" Denier 0.1..=20_000.0 / 100 = 20.0,
        "Filament silk labelled 20/22 lies anywhere between 20 and 22 denier; the middle is used. Type one number once you have weighed a measured length. Tex is understood too. The default is a usual size, common practice, no source.";
    LabelHigh "label_high_denier" "heaviest end on the label" Denier 0.1..=20_000.0 / 100 = 22.0,
        "The other end of the label's range.";
    EndsPerThread "ends_per_thread" "ends plied to one thread" One 1.0..=500.0 / 1 = 12.0,
        "Common practice for a class 5 belly, no source.";
    DegummingLoss "degumming_loss_percent" "degumming loss" Percent 0.0..=40.0 / 10 = 24.0,
        "Gum is 20 to 30 % of raw silk, a textbook range for sericin; 24 % within it is our own choice. Used only for silk entered as raw.";
    ThreadPacking "thread_packing_percent" "fibre in the thread's section" Percent 40.0..=90.0 / 10 = 70.0,
        "From memory, 65 to 75 % for lightly plied filament; the limit of hexagonal packing is 90.7 %.";
    ThreadFlattening "thread_flattening" "width to thickness of a thread" One 1.0..=4.0 / 100 = 1.5,
        "From memory: a soft thread flattens in the braid.";
    HornGears "horn_gears" "horn gears in the ring" One 2.0..=64.0 / 1 = 8.0,
        "An even number, since neighbours turn opposite ways. With S slots each, H of them have H × S ÷ 2 places for carriers: 8 of four slots make sixteen, the usual machine; common practice, no source.";
    FewestThreads "fewest_threads" "fewest threads to braid with" One 3.0..=64.0 / 1 = 8.0,
        "The plan never goes below this many. Half the carriers is common practice, no source.";
    PartnerTeeth "partner_teeth" "teeth of the fixed partner" One 8.0..=200.0 / 1 = 40.0,
        "The wheel the change gear works with. The default belongs to the invented demo machine. One carrier circuit draws constant × change gear ÷ partner.";
    MachineConstant "machine_constant_mm" "take-off per carrier circuit at 1:1" Millimetre 0.1..=500.0 / 1000 = 3.25,
        "Measure it once: braid ten circuits, measure the length, multiply by partner ÷ change gear, divide by ten. The default belongs to the invented demo machine.";
    TargetAngle "target_angle_deg" "braid angle aimed at" Degree 15.0..=70.0 / 100 = 45.0,
        "About 45° is common practice, no source.";
    AngleTolerance "angle_tolerance_deg" "tolerance of the angle" Degree 0.1..=15.0 / 100 = 1.5,
        "Our own choice: one tooth of thirty turns the angle by about 1.5° at 45°, so the nearest gear is within half of that.";
    Crimp "crimp_percent" "crimp" Percent 0.0..=21.0 / 100 = 2.0,
        "Extra thread from waving over and under, from memory. 20.9 % is the bound of a jammed 1/1 weave (after Peirce, 1937). A measured swatch tells.";
    FibreFraction "fibre_fraction_percent" "how solid the braid is" Percent 30.0..=90.0 / 10 = 55.0,
        "From packing: 50 to 60 % for 8 to 16 threads without a core. A measured swatch tells.";
    OilFill "oil_fill_percent" "voids filled by oil" Percent 0.0..=100.0 / 10 = 90.0,
        "Under vacuum at most 1 − p/p₀, with p the absolute pressure and p₀ that of the air (Boyle): 90 % at 100 mbar.";
    OilDensity "oil_density_g_cm3" "density of the oil" GramPerCubicCentimetre 0.7..=1.2 / 1000 = 0.93,
        "Linseed oil, 0.928 to 0.953: Encyclopaedia Britannica, 11th and 14th ed.";
    OilGain "oil_gain_percent" "mass gained in drying" Percent 0.0..=30.0 / 10 = 10.0,
        "Drying oil takes up oxygen, up to 12 % of its mass: Surface Coatings International B, doi 10.1007/BF02765585.";
    DriedOilDensity "dried_oil_density_g_cm3" "density of the dried oil" GramPerCubicCentimetre 0.8..=1.5 / 1000 = 1.1,
        "Follows from the gain in mass and a loss of volume of a few percent, same source; chosen within it.";
    VarnishFill "varnish_fill_percent" "voids left, filled by varnish" Percent 0.0..=100.0 / 10 = 90.0,
        "By the same rule as the oil; the 90 % are our own choice.";
    VarnishDensity "tin_varnish_density_g_cm3" "density of the varnish" GramPerCubicCentimetre 0.7..=1.3 / 1000 = 0.93,
        "As it is in the tin, not thinned. From memory; the tin's data sheet knows better.";
    VarnishSolids "tin_varnish_solids_percent" "solids in the varnish" Percent 0.0..=100.0 / 10 = 52.0,
        "By mass, as it is in the tin. From memory: half of it is left when it is thinned one to one. The tin's data sheet knows better.";
    Film "film_um" "varnish film on the surface" Micrometre 0.0..=200.0 / 10 = 10.0,
        "From memory, after polishing.";
    FilmDensity "film_density_g_cm3" "density of the film" GramPerCubicCentimetre 0.8..=1.5 / 1000 = 1.1,
        "From memory.";
    Grease "grease_percent" "grease" Percent 0.0..=5.0 / 10 = 1.0,
        "From memory: under 2 % of the line's mass.";
    ThreadAllowance "thread_allowance_m" "thread allowance per engagement" Metre 0.0..=20.0 / 1000 = 0.8,
        "Lead-in to the braiding point and what stays on the bobbin. Common practice, no source.";
    MostThreads "most_threads" "most threads to braid with" One 3.0..=64.0 / 1 = 16.0,
        "The plan never goes above this many. At most the carriers mounted; fewer leaves room for a thicker line.";
    HeavierEnds "heavier_ends" "ends plied to the heavier thread" One 1.0..=500.0 / 1 = 20.0,
        "For lines made thicker by swapping in bobbins with a heavier thread. Used only when the line is built so. Our own choice.";
    BuriedTail "buried_tail_mm" "tail buried after a drop" Millimetre 0.0..=1000.0 / 10 = 50.0,
        "A dropped thread is cut this long and lies straight in the core until it ends: it counts in mass, diameter and yarn. 0 cuts it flush. Common practice, no source.";
    LeastSpacing "least_spacing_mm" "least distance between stops" Millimetre 1.0..=1000.0 / 10 = 30.0,
        "The machine is stopped for every change. Changes that come closer are made at one stop. Common practice, no source.";
    LeadIn "lead_in_mm" "lead-in before the tip" Millimetre 0.0..=5000.0 / 10 = 300.0,
        "Braided ahead of the tip until the angle is steady, and cut off. Its thread and time are counted, its weight is not. Common practice, no source.";
    GuideRadius "guide_radius_mm" "radius of the guide" Millimetre 2.0..=500.0 / 10 = 25.0,
        "From the line's axis to where the threads last touch the machine before they meet. The angle follows a change over about this length. The default belongs to the invented demo machine: measure yours.";
    GearChangePrice "gear_change_price_m" "price of a gear change" Metre 0.0..=50.0 / 1000 = 0.15,
        "So much line, one degree off, is as bad as one gear change; two degrees off count four times as much. A larger value changes gears less often. Our own choice.";
    PairSum "pair_sum_teeth" "teeth of a pair together" One 16.0..=400.0 / 1 = 80.0,
        "On fixed centres the two change gears always have this many teeth together. Used only with that train.";
    StrengthEfficiency "strength_efficiency_percent" "strength kept by a braid" Percent 30.0..=100.0 / 10 = 85.0,
        "Threads in a braid do not all pull alike. From memory, 80 to 95 %.";
    BobbinFull "bobbin_full_mm" "bobbin, diameter full" Millimetre 5.0..=200.0 / 10 = 25.0,
        "Of the wound thread, up to the flange. The default belongs to the invented demo machine.";
    BobbinBarrel "bobbin_barrel_mm" "bobbin, diameter of the barrel" Millimetre 1.0..=150.0 / 10 = 10.0,
        "Of the empty bobbin. The default belongs to the invented demo machine.";
    BobbinWidth "bobbin_width_mm" "bobbin, width between flanges" Millimetre 1.0..=300.0 / 10 = 30.0,
        "The default belongs to the invented demo machine.";
    BobbinPacking "bobbin_packing_percent" "fibre in the winding" Percent 30.0..=90.0 / 10 = 60.0,
        "From memory, 50 to 70 %.";
    PlyingAllowance "plying_allowance_percent" "more yarn for plying" Percent 0.0..=50.0 / 10 = 5.0,
        "For joining, twisting and what the cone keeps. Our own choice.";
    CircuitSpeed "circuits_per_minute" "carrier circuits a minute" One 0.1..=600.0 / 10 = 40.0,
        "How fast the carriers go round while the machine runs. The default belongs to the invented demo machine: count yours.";
    HandleTurns "handle_turns_per_circuit" "handle turns in a circuit" One 0.0..=100.0 / 1000 = 0.0,
        "For a machine turned by hand; 0 where a motor drives it.";
    LeastCover "least_cover_percent" "least cover" Percent 0.0..=100.0 / 10 = 60.0,
        "Below it the braid is called too open. Our own choice.";
    SolventDensity "solvent_density_g_cm3" "density of the solvent" GramPerCubicCentimetre 0.6..=1.1 / 1000 = 0.78,
        "White spirit, from memory.";
    AirPressure "air_pressure_mbar" "air pressure around you" Millibar 500.0..=1_100.0 / 100 = 1_013.25,
        "At sea level in the standard atmosphere, ISO 2533. It falls by about a tenth for every 900 m of height: type your height below, or what a weather station nearby says of its own place, not reduced to sea level.";
    Jar "jar_ml" "liquid that covers a line in your jar" Millilitre 1.0..=5_000.0 / 10 = 150.0,
        "So much has to stand in the jar. Most of it stays there: what the line takes up is calculated. Our own choice; measure yours.";
    YarnFactor "yarn_of_label_percent" "actual yarn size, of its label" Percent 50.0..=200.0 / 100 = 100.0,
        "100 % until a swatch of yours was measured; the bench book sets it.";
    VarnishPickUp "varnish_pick_up_percent" "varnish correction" Percent 0.0..=400.0 / 10 = 100.0,
        "In voids and film. 100 % until finished lines of yours were weighed; the bench book sets it.";
    Weighed "dressed_weight_percent" "dressed weight correction" Percent 80.0..=125.0 / 100 = 100.0,
        "What your dressed lines weigh beyond all that is calculated here. 100 % until finished lines of yours were weighed; the bench book sets it.";
    WarmLimit "warm_limit_celsius" "warmest the yarn may become" Celsius 0.0..=250.0 / 10 = 0.0,
        "Ask the yarn's maker. 0 stands for what is remembered of the fibre, no source: silk 110, nylon 90, polyester 120, polypropylene 80, viscose and cotton 110, flax 110, high-modulus polyethylene 60 °C.";
    StopPrice "stop_price_m" "price of a stop" Metre 0.0..=10.0 / 1000 = 0.1,
        "So much line, one thread too thick or too thin, is as bad as one stop. A swelling or a waist that needs two stops, and a change near the tip or the end that needs one, are left out where they put less right than that. 0 leaves out only what the least distance forbids. Our own choice.";
}

/// The values of all settings, each in the unit of its rule.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Settings([f64; Setting::ALL.len()]);

impl Default for Settings {
    fn default() -> Self {
        Self(Setting::ALL.map(Setting::default_value))
    }
}

impl Settings {
    /// The value of a setting, in the unit of its rule.
    pub fn get(&self, setting: Setting) -> f64 {
        self.0[setting as usize]
    }

    /// Sets a value; it is checked when the draft becomes a design.
    pub fn set(&mut self, setting: Setting, value: f64) {
        self.0[setting as usize] = value;
    }

    /// Brings every value to its nearest step.
    ///
    /// # Errors
    /// The first setting that does not fit its rule, in their order, and why.
    pub fn admitted(mut self) -> Result<Self, (Setting, Misfit)> {
        for setting in Setting::ALL {
            let admitted = setting.rule().admit(self.get(setting));
            let value = admitted.map_err(|misfit| (setting, misfit))?;
            self.set(setting, value);
        }
        Ok(self)
    }
}

/// A map of keys to numbers; units stand in the keys.
impl Serialize for Settings {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(Setting::ALL.len()))?;
        for setting in Setting::ALL {
            map.serialize_entry(setting.key(), &self.get(setting))?;
        }
        map.end()
    }
}

impl Setting {
    /// Whether a design file may lack it, since files of its format are older than the setting. It then has its default.
    pub const fn may_be_missing(self) -> bool {
        matches!(self, Self::StopPrice)
    }
}

/// Every setting that may not be missing must be there, and nothing unknown: a default slipped in would silently change
/// somebody's line.
impl<'de> Deserialize<'de> for Settings {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let mut given = number_table(deserializer)?;
        let mut settings = Self::default();
        for setting in Setting::ALL {
            let later = setting.may_be_missing().then_some(setting.default_value());
            let value = given.remove(setting.key()).or(later);
            let missing = || format!("the setting “{}” is missing", setting.key());
            settings.set(setting, value.ok_or_else(|| D::Error::custom(missing()))?);
        }
        match given.pop_first() {
            None => Ok(settings),
            Some((key, _)) => Err(D::Error::custom(format!(
                "the setting “{key}” is not known to this version"
            ))),
        }
    }
}
