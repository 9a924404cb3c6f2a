//! Kinds of step: their words, values, cautions.

use super::value::StepValue;
use crate::base::choice::Choice;

/// What is done in a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum StepKind {
    /// Look the braid over, cut off lead-in and stray ends.
    Inspect,
    /// Oil it in a jar from which the air is drawn.
    OilVacuum,
    /// Oil it without vacuum: soaked or wiped on.
    Oil,
    /// Let it drip.
    Drip,
    /// Dry it in gentle warmth.
    Warm,
    /// Dry it in air.
    Air,
    /// Cure it in daylight.
    Daylight,
    /// Test whether it is dry.
    Test,
    /// Rub it down.
    Rub,
    /// Seal it with thinned varnish in a jar from which the air is drawn.
    VarnishVacuum,
    /// Seal it with thinned varnish wiped on.
    Varnish,
    /// Polish it.
    Polish,
    /// Grease it.
    Grease,
    /// Weigh it.
    Weigh,
}

impl Choice for StepKind {
    const ALL: &'static [Self] = &[
        Self::Inspect,
        Self::OilVacuum,
        Self::Oil,
        Self::Drip,
        Self::Warm,
        Self::Air,
        Self::Daylight,
        Self::Test,
        Self::Rub,
        Self::VarnishVacuum,
        Self::Varnish,
        Self::Polish,
        Self::Grease,
        Self::Weigh,
    ];

    fn key(self) -> &'static str {
        match self {
            Self::Inspect => "inspect",
            Self::OilVacuum => "oil-vacuum",
            Self::Oil => "oil",
            Self::Drip => "drip",
            Self::Warm => "warm",
            Self::Air => "air",
            Self::Daylight => "daylight",
            Self::Test => "test",
            Self::Rub => "rub",
            Self::VarnishVacuum => "varnish-vacuum",
            Self::Varnish => "varnish",
            Self::Polish => "polish",
            Self::Grease => "grease",
            Self::Weigh => "weigh",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Inspect => "Inspect and trim",
            Self::OilVacuum => "Oil under vacuum",
            Self::Oil => "Oil, soaked or wiped on",
            Self::Drip => "Let the oil drip off",
            Self::Warm => "Dry in gentle warmth",
            Self::Air => "Dry in air",
            Self::Daylight => "Cure in daylight",
            Self::Test => "Test whether the line is dry",
            Self::Rub => "Rub down",
            Self::VarnishVacuum => "Varnish under vacuum",
            Self::Varnish => "Varnish, wiped on",
            Self::Polish => "Polish",
            Self::Grease => "Grease",
            Self::Weigh => "Weigh",
        }
    }
}

/// What can hurt in a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Caution {
    /// Rags wet with drying oil heat by themselves; so does a heap of oiled line.
    OilyRags,
    /// Glass and thin vessels implode under vacuum.
    Vacuum,
    /// Vapours of solvent and varnish burn and explode.
    Solvent,
    /// Oil and wet lines in ovens.
    Heat,
    /// Dust of dried oil and varnish.
    Dust,
    /// Blades.
    Blades,
}

impl Caution {
    /// Every caution.
    pub const ALL: [Self; 6] = [
        Self::OilyRags,
        Self::Vacuum,
        Self::Solvent,
        Self::Heat,
        Self::Dust,
        Self::Blades,
    ];

    /// What to beware of, and what to do.
    pub const fn words(self) -> &'static str {
        match self {
            Self::OilyRags => {
                "Rags, paper and wool wet with drying oil heat by themselves and catch fire. Spread them flat outdoors, or drown them in water in a closed metal can. A coiled oiled line is a pile too: hang it open."
            }
            Self::Vacuum => {
                "Glass and thin-walled vessels can implode under vacuum. Use a vessel made for it, behind a screen, with goggles on, and let the air in slowly."
            }
            Self::Solvent => {
                "White spirit and varnish burn, and their vapour explodes in air. Ventilate; no flame, spark or hot lamp; gloves on."
            }
            Self::Heat => {
                "Never warm oil, or a line still wet with solvent, in an unattended or unvented oven. Begin only when no solvent can be smelled, hang the line open, keep paper and rags away."
            }
            Self::Dust => {
                "Dust of dried oil and varnish harms the lungs. Rub wet or wear a mask. Treat the cloth as an oily rag."
            }
            Self::Blades => "Blades slip: cut away from the hand that holds the line.",
        }
    }

    /// Where that comes from.
    pub const fn source(self) -> &'static str {
        match self {
            Self::OilyRags => {
                "US OSHA 29 CFR 1926.252(e) for covered containers; self-heating of oil-soaked rags."
            }
            Self::Solvent => "International Chemical Safety Card 0361 (white spirit).",
            Self::Vacuum | Self::Heat | Self::Dust | Self::Blades => {
                "Rule of thumb of workshops, no source."
            }
        }
    }

    /// What comes before all of these.
    pub const DEFERRING: &'static str = "The safety data sheet of each product, your local codes and licensed practice have priority over anything said here.";
}

impl StepKind {
    /// The numbers that belong to it.
    pub const fn takes(self) -> &'static [StepValue] {
        use StepValue::{Celsius, Hours, Millibar, SolventShare, VarnishShare};
        match self {
            Self::OilVacuum => &[Hours, Millibar, VarnishShare],
            Self::Oil => &[Hours, VarnishShare],
            Self::Warm => &[Hours, Celsius],
            Self::VarnishVacuum => &[Hours, Millibar, SolventShare],
            Self::Varnish => &[Hours, SolventShare],
            Self::Inspect
            | Self::Drip
            | Self::Air
            | Self::Daylight
            | Self::Test
            | Self::Rub
            | Self::Polish
            | Self::Grease
            | Self::Weigh => &[Hours],
        }
    }

    /// What a number of it usually is. Common practice, no source; hours of handwork are our own guess.
    pub const fn usual(self, value: StepValue) -> f64 {
        match (value, self) {
            (StepValue::Hours, Self::Inspect | Self::Rub | Self::VarnishVacuum | Self::Varnish) => {
                1.0
            }
            (StepValue::Hours, Self::Test | Self::Grease | Self::Weigh) => 0.5,
            (StepValue::Hours, Self::OilVacuum | Self::Oil | Self::Polish) => 2.0,
            (StepValue::Hours, Self::Drip) => 12.0,
            (StepValue::Hours, Self::Warm) => 168.0,
            (StepValue::Hours, Self::Air) => 72.0,
            (StepValue::Hours, Self::Daylight) => 504.0,
            (StepValue::Celsius, _) => 45.0,
            (StepValue::Millibar, _) => 100.0,
            (StepValue::VarnishShare, _) => 0.0,
            (StepValue::SolventShare, _) => 50.0,
        }
    }

    /// Whether oil goes on.
    pub const fn is_oil(self) -> bool {
        matches!(self, Self::OilVacuum | Self::Oil)
    }

    /// Whether varnish goes on as a coat of its own.
    pub const fn is_varnish(self) -> bool {
        matches!(self, Self::VarnishVacuum | Self::Varnish)
    }

    /// Whether what is wet dries in it.
    pub const fn dries(self) -> bool {
        matches!(self, Self::Warm | Self::Air | Self::Daylight)
    }

    /// Whether it is done in warmth.
    pub const fn is_warm(self) -> bool {
        matches!(self, Self::Warm)
    }

    /// Whether it takes the maker's hands; else it goes on by itself, by day and night.
    pub const fn takes_hands(self) -> bool {
        !matches!(self, Self::Drip | Self::Warm | Self::Air | Self::Daylight)
    }

    /// What is done, in one sentence.
    pub const fn sentence(self) -> &'static str {
        match self {
            Self::Inspect => {
                "Run the braid through your fingers and past a lamp. Cut off the lead-in and trim ends that stand out. Coil the line loosely."
            }
            Self::OilVacuum => {
                "Cover the coil with oil. Pump out the air until no more bubbles rise. Let the air in again and leave the coil under the oil for a while."
            }
            Self::Oil => {
                "Let the line soak, or wipe it wet along its length. Wipe off what stays on the surface."
            }
            Self::Drip => "Hang it open, wipe off the drops, and let it drip into a tin.",
            Self::Warm => "Hang it open in moving warm air.",
            Self::Air => "Hang it open in moving air, away from dust.",
            Self::Daylight => "Hang it open in daylight, and turn it now and then.",
            Self::Test => "Pull a length firmly between clean fingers, and stretch it by hand.",
            Self::Rub => {
                "Rub it lengthwise with fine wet abrasive or felt until nothing stands out."
            }
            Self::VarnishVacuum => {
                "Cover the coil with thinned varnish. Pump out the air and let it in again. Take the line out and wipe it."
            }
            Self::Varnish => {
                "Pull the line through a cloth wet with thinned varnish, evenly and once."
            }
            Self::Polish => {
                "Polish with felt and the finest powder until the line slides through your fingers."
            }
            Self::Grease => {
                "Rub in a little grease: equal parts of soft fats, stiffened with a little wax. Wipe it off again."
            }
            Self::Weigh => {
                "Weigh the whole line, then the first 30 ft. Enter both in the bench book."
            }
        }
    }

    /// What ready means. Common practice, no source.
    pub const fn ready(self) -> &'static str {
        match self {
            Self::Inspect => "No thread stands out, and no part is thin.",
            Self::OilVacuum => "No more bubbles rise.",
            Self::Oil => "It looks evenly wet and takes up no more.",
            Self::Drip => "No drop forms within an hour.",
            Self::Warm | Self::Air => {
                "A firm pull presses no oil out. The line no longer marks paper."
            }
            Self::Daylight => "It no longer smells of oil, and its colour no longer changes.",
            Self::Test => "A dry line hardly stretches, and a firm pull presses nothing out.",
            Self::Rub => "Smooth against the run of your fingers, in both directions.",
            Self::VarnishVacuum | Self::Varnish => "Evenly wet, without beads.",
            Self::Polish => "It slides and shines, and no powder comes off.",
            Self::Grease => "Water forms beads on it, and your fingers stay clean.",
            Self::Weigh => "Two weighings agree to the last digit.",
        }
    }

    /// What can hurt in it.
    pub const fn cautions(self) -> &'static [Caution] {
        match self {
            Self::Inspect => &[Caution::Blades],
            Self::OilVacuum => &[Caution::Vacuum, Caution::OilyRags],
            Self::Oil | Self::Drip | Self::Air | Self::Test => &[Caution::OilyRags],
            Self::Warm => &[Caution::Heat, Caution::OilyRags],
            Self::Daylight | Self::Grease | Self::Weigh => &[],
            Self::Rub | Self::Polish => &[Caution::Dust],
            Self::VarnishVacuum => &[Caution::Vacuum, Caution::Solvent, Caution::OilyRags],
            Self::Varnish => &[Caution::Solvent, Caution::OilyRags],
        }
    }
}
