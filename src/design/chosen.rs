//! The settings that are no single number: chosen from a list, or listed by the maker. Numbers are in [`super::settings`].

use super::machine::ReadyMade;
use super::settings::Setting;
use super::{Design, gears, label};
use crate::base::choice::Choice as _;
use crate::base::units::text::Unit;
use crate::braid::recipe::RecipeChoice;

/// Such a setting.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chosen {
    /// Fibre of the yarn.
    Fibre,
    /// Whether the label counts the yarn raw.
    Condition,
    /// Both ends of the label's range.
    Label,
    /// The machine's ring and its carriers.
    Machine,
    /// How the change gears sit in the train.
    Train,
    /// The change gears owned.
    Gears,
    /// The steps of the dressing.
    Recipe,
}

impl Chosen {
    /// The key of its field.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Fibre => "fibre",
            Self::Condition => "condition",
            Self::Label => "label",
            Self::Machine => "machine",
            Self::Train => "train",
            Self::Gears => "gears",
            Self::Recipe => "recipe",
        }
    }

    /// The name shown.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Fibre => "fibre",
            Self::Condition => "yarn label refers to",
            Self::Label => "size of one end",
            Self::Machine => "the machine is",
            Self::Train => "how change gears are fitted",
            Self::Gears => "change gears you own, by teeth",
            Self::Recipe => "dressing steps for",
        }
    }

    /// What it means and where the default comes from.
    pub const fn ground(self) -> &'static str {
        match self {
            Self::Fibre => {
                "Sets the density of the solid fibre. Flax and polyethylene are from memory. Source: Morton & Hearle, Physical Properties of Textile Fibres, 4th ed. 2008, Tables 5.1–5.2."
            }
            Self::Condition => {
                "Raw silk on a cone is usually labelled with its gum, which is boiled off before or after braiding. Choose raw for it. Degummed, measured or other yarn is labelled as it will be braided."
            }
            Self::Label => Setting::LabelLow.ground(),
            Self::Machine => {
                "This sets horn gears, slots and mounted places together. Any other machine is set in the workshop, value by value."
            }
            Self::Train => {
                "Either one change gear and a fixed gear, one driving the other. Or two change gears on fixed centres, whose teeth always have the same sum. Or any two of your gears. A gear is used once unless you own it twice."
            }
            Self::Gears => {
                "Teeth of every change gear, with commas between. 15–30 means every tooth from 15 to 30. “all but 21 and 23” removes these from the present list. List a gear twice if you own it twice."
            }
            Self::Recipe => {
                "Sets all steps of the dressing. What they are is a rule of thumb, no source. You can change each step in Dress."
            }
        }
    }

    /// Its value in a design, in words.
    pub fn words(self, design: &Design) -> String {
        let draft = design.draft();
        match self {
            Self::Fibre => draft.fibre.name().to_owned(),
            Self::Condition => draft.condition.name().to_owned(),
            Self::Label => {
                let [low, high] =
                    [Setting::LabelLow, Setting::LabelHigh].map(|end| design.setting(end));
                format!("{} {}", label::show(low, high), Unit::Denier.symbol())
            }
            Self::Machine => ReadyMade::of(draft).name().to_owned(),
            Self::Train => draft.train.name().to_owned(),
            Self::Gears => gears::show(&draft.gears),
            Self::Recipe => RecipeChoice::of(&draft.recipe).name().to_owned(),
        }
    }
}
