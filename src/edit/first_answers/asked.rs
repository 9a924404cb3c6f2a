//! A setting that a question fills.

use crate::base::units::show::trimmed;
use crate::braid::recipe::RecipeChoice;
use crate::design::Design;
use crate::design::chosen::Chosen;
use crate::design::machine::ReadyMade;
use crate::design::settings::Setting;
use crate::edit::Edit;

/// A setting that a question fills, of either kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asked {
    /// A number.
    Number(Setting),
    /// What is no single number.
    Chosen(Chosen),
}

impl Asked {
    /// The key of its field.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Number(setting) => setting.key(),
            Self::Chosen(chosen) => chosen.key(),
        }
    }

    /// The name of the setting.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Number(setting) => setting.rule().name,
            Self::Chosen(chosen) => chosen.name(),
        }
    }

    /// What it means and where its default comes from: the setting's own words.
    pub const fn ground(self) -> &'static str {
        match self {
            Self::Number(setting) => setting.ground(),
            Self::Chosen(chosen) => chosen.ground(),
        }
    }

    /// Its value in a design, in words, with every digit that can be set.
    pub fn words(self, design: &Design) -> String {
        match self {
            Self::Number(setting) => {
                let value = trimmed(design.setting(setting), 4);
                let unit = setting.rule().unit.symbol();
                format!("{value} {unit}").trim_end().to_owned()
            }
            Self::Chosen(chosen) => chosen.words(design),
        }
    }

    /// The edit that gives it the value of another design, where it has another.
    pub(super) fn as_in(self, other: &Design, design: &Design) -> Option<Edit> {
        if self.words(design) == self.words(other) {
            return None;
        }
        let draft = other.draft();
        Some(match self {
            Self::Number(setting) => Edit::Set(setting, other.setting(setting)),
            Self::Chosen(Chosen::Fibre) => Edit::Fibre(draft.fibre),
            Self::Chosen(Chosen::Condition) => Edit::Condition(draft.condition),
            Self::Chosen(Chosen::Label) => Edit::Label {
                low: other.setting(Setting::LabelLow),
                high: other.setting(Setting::LabelHigh),
            },
            Self::Chosen(Chosen::Machine) => Edit::Machine(ReadyMade::of(draft)),
            Self::Chosen(Chosen::Train) => Edit::Train(draft.train),
            Self::Chosen(Chosen::Gears) => Edit::Gears(draft.gears.clone()),
            Self::Chosen(Chosen::Recipe) => match RecipeChoice::of(&draft.recipe) {
                RecipeChoice::Ready(ready) => Edit::Recipe(ready),
                RecipeChoice::Own => return None,
            },
        })
    }
}
