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
/// The rule of what the original of a copy weighs.
pub const ORIGINAL_MASS: Rule = rule("weight of the original", Unit::Gram, 0.0, 1_000.0, 1_000);

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
        "Filament silk labelled 20/22 can have any size between 20 and 22 denier. The middle is used. Type one number once you have weighed a measured length. You can type tex too. The default is a usual size: rule of thumb, no source.";
    LabelHigh "label_high_denier" "heaviest end on the label" Denier 0.1..=20_000.0 / 100 = 22.0,
        "The other end of the label's range.";
    EndsPerThread "ends_per_thread" "ends plied to one thread" One 1.0..=500.0 / 1 = 12.0,
        "Rule of thumb for a class 5 belly, no source.";
    DegummingLoss "degumming_loss_percent" "degumming loss" Percent 0.0..=40.0 / 10 = 24.0,
        "Gum is 20 to 30 % of raw silk, a textbook range for sericin. 24 % within it is our own choice. Used only for silk entered as raw.";
    ThreadPacking "thread_packing_percent" "how solid a thread is" Percent 40.0..=90.0 / 10 = 70.0,
        "Share of fibre in the section of a thread. From memory, 65 to 75 % for lightly plied filament. The limit of hexagonal packing is 90.7 %.";
    ThreadFlattening "thread_flattening" "width of a thread ÷ its thickness" One 1.0..=4.0 / 100 = 1.5,
        "From memory: a soft thread flattens in the braid.";
    HornGears "horn_gears" "horn gears in the ring" One 2.0..=64.0 / 1 = 8.0,
        "An even number, because neighbours turn opposite ways. H horn gears with S slots each have H × S ÷ 2 places for carriers. The usual machine has 8 of four slots, so sixteen places: rule of thumb, no source.";
    FewestThreads "fewest_threads" "fewest threads to braid with" One 3.0..=64.0 / 1 = 8.0,
        "The plan never has fewer threads. Half the carriers is a rule of thumb, no source.";
    PartnerTeeth "partner_teeth" "teeth on the fixed gear" One 8.0..=200.0 / 1 = 40.0,
        "The gear that works with the change gear. One carrier circuit takes off constant × change gear ÷ fixed gear. The default belongs to the invented demo machine.";
    MachineConstant "machine_constant_mm" "take-off per carrier circuit at 1:1" Millimetre 0.1..=500.0 / 1000 = 3.25,
        "Measure it once. Braid ten circuits and measure the length. Multiply by fixed gear ÷ change gear and divide by ten. The default belongs to the invented demo machine.";
    TargetAngle "target_angle_deg" "target angle" Degree 15.0..=70.0 / 100 = 45.0,
        "About 45° is a rule of thumb, no source.";
    AngleTolerance "angle_tolerance_deg" "angle tolerance" Degree 0.1..=15.0 / 100 = 1.5,
        "Our own choice. At 45°, one tooth of thirty changes the angle by about 1.5°. So the nearest gear is within half of that.";
    Crimp "crimp_percent" "crimp" Percent 0.0..=21.0 / 100 = 2.0,
        "Extra thread from waving over and under, from memory. 20.9 % is the limit of a jammed 1/1 weave (after Peirce, 1937). A measured swatch gives your value.";
    FibreFraction "fibre_fraction_percent" "how solid the braid is" Percent 30.0..=90.0 / 10 = 55.0,
        "Share of fibre in the section of the braid. From packing: 50 to 60 % for 8 to 16 threads without a core. A measured swatch gives your value.";
    OilFill "oil_fill_percent" "voids filled by oil" Percent 0.0..=100.0 / 10 = 90.0,
        "Under vacuum at most 1 − p/p₀: 90 % at 100 mbar. p is the absolute pressure, p₀ that of the air around you. Source: Boyle's law.";
    OilDensity "oil_density_g_cm3" "density of the oil" GramPerCubicCentimetre 0.7..=1.2 / 1000 = 0.93,
        "Linseed oil: 0.928 to 0.953. Source: Encyclopaedia Britannica, 11th and 14th ed.";
    OilGain "oil_gain_percent" "mass the oil gains in drying" Percent 0.0..=30.0 / 10 = 10.0,
        "Drying oil takes up oxygen, up to 12 % of its mass. Source: Surface Coatings International B, doi 10.1007/BF02765585.";
    DriedOilDensity "dried_oil_density_g_cm3" "density of the dried oil" GramPerCubicCentimetre 0.8..=1.5 / 1000 = 1.1,
        "Follows from the gain in mass and a loss of volume of a few percent; chosen within it. Source: as for the gain in mass.";
    VarnishFill "varnish_fill_percent" "remaining voids filled by varnish" Percent 0.0..=100.0 / 10 = 90.0,
        "By the same rule as the oil. The 90 % is our own choice.";
    VarnishDensity "tin_varnish_density_g_cm3" "density of the varnish" GramPerCubicCentimetre 0.7..=1.3 / 1000 = 0.93,
        "As it is in the tin, not thinned. From memory; the tin's data sheet is more exact.";
    VarnishSolids "tin_varnish_solids_percent" "solids in the varnish" Percent 0.0..=100.0 / 10 = 52.0,
        "By mass, as it is in the tin. From memory: half of it is left when it is thinned one to one. The tin's data sheet is more exact.";
    Film "film_um" "varnish film on the surface" Micrometre 0.0..=200.0 / 10 = 10.0,
        "From memory, after polishing.";
    FilmDensity "film_density_g_cm3" "density of the film" GramPerCubicCentimetre 0.8..=1.5 / 1000 = 1.1,
        "From memory.";
    Grease "grease_percent" "grease" Percent 0.0..=5.0 / 10 = 1.0,
        "From memory: under 2 % of the line's mass.";
    ThreadAllowance "thread_allowance_m" "thread allowance per engagement" Metre 0.0..=20.0 / 1000 = 0.8,
        "Lead-in to the braiding point, and what stays on the bobbin. Rule of thumb, no source.";
    MostThreads "most_threads" "most threads to braid with" One 3.0..=64.0 / 1 = 16.0,
        "The plan never has more threads. The limit is the number of carriers mounted. A smaller number leaves room for a thicker line.";
    HeavierEnds "heavier_ends" "ends plied to the heavier thread" One 1.0..=500.0 / 1 = 20.0,
        "For lines made thicker by swapping in bobbins with a heavier thread. Used only when the line is built so. Our own choice.";
    BuriedTail "buried_tail_mm" "buried tail of a dropped thread" Millimetre 0.0..=1000.0 / 10 = 50.0,
        "A dropped thread is cut this long. Its tail runs straight in the core until it ends. It counts in mass, diameter and yarn. 0 means cut flush. Rule of thumb, no source.";
    LeastSpacing "least_spacing_mm" "least distance between stops" Millimetre 1.0..=1000.0 / 10 = 30.0,
        "The machine is stopped for every change. Changes closer together than this are made at one stop. Rule of thumb, no source.";
    LeadIn "lead_in_mm" "lead-in before the tip" Millimetre 0.0..=5000.0 / 10 = 300.0,
        "Braided before the tip until the angle is steady, then cut off. Its thread and time are counted, its weight is not. Rule of thumb, no source.";
    GuideRadius "guide_radius_mm" "radius of the guide" Millimetre 2.0..=500.0 / 10 = 25.0,
        "From the line's axis to where the threads last touch the machine before they meet. The angle follows a change over about this length. The default belongs to the invented demo machine: measure yours.";
    GearChangePrice "gear_change_price_m" "how much to avoid gear changes" Metre 0.0..=50.0 / 1000 = 0.15,
        "One gear change counts as much as this length of line at one degree off. Two degrees off count four times as much. A larger value gives fewer gear changes. Our own choice.";
    PairSum "pair_sum_teeth" "total teeth of a pair" One 16.0..=400.0 / 1 = 80.0,
        "On fixed centres the two change gears always have this many teeth together. Used only with such gears.";
    StrengthEfficiency "strength_efficiency_percent" "strength of the braid, % of its threads" Percent 30.0..=100.0 / 10 = 85.0,
        "The threads in a braid do not all pull alike. From memory, 80 to 95 %.";
    BobbinFull "bobbin_full_mm" "diameter of a full bobbin" Millimetre 5.0..=200.0 / 10 = 25.0,
        "Diameter of the wound thread, up to the flange. The default belongs to the invented demo machine.";
    BobbinBarrel "bobbin_barrel_mm" "diameter of the bobbin barrel" Millimetre 1.0..=150.0 / 10 = 10.0,
        "Diameter of the empty bobbin. The default belongs to the invented demo machine.";
    BobbinWidth "bobbin_width_mm" "bobbin width between flanges" Millimetre 1.0..=300.0 / 10 = 30.0,
        "The default belongs to the invented demo machine.";
    BobbinPacking "bobbin_packing_percent" "how solid the winding is" Percent 30.0..=90.0 / 10 = 60.0,
        "Share of fibre in the winding. From memory, 50 to 70 %.";
    PlyingAllowance "plying_allowance_percent" "extra yarn for plying" Percent 0.0..=50.0 / 10 = 5.0,
        "For joining, twisting and what stays on the cone. Our own choice.";
    CircuitSpeed "circuits_per_minute" "carrier circuits per minute" One 0.1..=600.0 / 10 = 40.0,
        "How fast the carriers run while the machine runs. The default belongs to the invented demo machine: count yours.";
    HandleTurns "handle_turns_per_circuit" "handle turns per circuit" One 0.0..=100.0 / 1000 = 0.0,
        "For a machine turned by hand. Type 0 for a motor.";
    LeastCover "least_cover_percent" "least cover" Percent 0.0..=100.0 / 10 = 60.0,
        "Below this cover, the page calls the braid too open. Our own choice.";
    SolventDensity "solvent_density_g_cm3" "density of the solvent" GramPerCubicCentimetre 0.6..=1.1 / 1000 = 0.78,
        "White spirit, from memory.";
    AirPressure "air_pressure_mbar" "air pressure around you" Millibar 500.0..=1_100.0 / 100 = 1_013.25,
        "At sea level in the standard atmosphere (ISO 2533). It falls by about a tenth for every 900 m of height. Type your height below, or the pressure from a weather station nearby. The station's value must not be reduced to sea level.";
    Jar "jar_ml" "liquid needed to cover a line in your jar" Millilitre 1.0..=5_000.0 / 10 = 150.0,
        "This much must be in the jar. Most of it stays there: the plan calculates what the line takes up. Our own choice; measure yours.";
    YarnFactor "yarn_of_label_percent" "actual yarn size, of its label" Percent 50.0..=200.0 / 100 = 100.0,
        "100 % until you measure a swatch; the bench book then sets it.";
    VarnishPickUp "varnish_pick_up_percent" "varnish correction" Percent 0.0..=400.0 / 10 = 100.0,
        "Varnish taken up in voids and film, in percent of the calculation. 100 % until you weigh finished lines; the bench book then sets it.";
    Weighed "dressed_weight_percent" "dressed weight correction" Percent 80.0..=125.0 / 100 = 100.0,
        "Weight of your dressed lines, in percent of the calculation. 100 % until you weigh finished lines; the bench book then sets it.";
    WarmLimit "warm_limit_celsius" "highest temperature for the yarn" Celsius 0.0..=250.0 / 10 = 0.0,
        "Ask the yarn's maker. 0 means the value for the fibre, from memory. Silk, viscose, cotton and flax: 110 °C. Nylon: 90 °C. Polyester: 120 °C. Polypropylene: 80 °C. High-modulus polyethylene: 60 °C.";
    StopPrice "stop_price_m" "how much to avoid stops" Metre 0.0..=10.0 / 1000 = 0.1,
        "One stop counts as much as this length of line with one thread too many or too few. A swelling or a waist needs two stops. A change near the tip or the end needs one. Each is left out if it improves less than its stops cost. 0 leaves out only changes closer than the least distance. Our own choice.";
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
