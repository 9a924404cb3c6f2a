//! The questions that make a first plan that of the maker's own workshop, not of the invented one.
//!
//! They stand in the order of how far their answers move or widen the planned weight of the head, the most first: a test calculates
//! that (`tests/tables/first_answers.rs`). It also shows what is said of each: a line braided by the default's plan, where the answer is
//! another, can weigh what no range of that plan holds. The take-off comes last because gears make up for it, once it is known.
//! What nobody knows before a swatch is measured, such as crimp, is no question: the bench book learns it, and until then the range
//! of the weight allows for it.
//!
//! An answer is an ordinary [`Edit`]. A design does not record what was answered. So a value equal to that of the invented workshop
//! ([`demo`]) counts as not known, also where the maker typed it: the plan is the same either way. [`Question::is_known`] says so,
//! and the page says it too.

mod asked;

use crate::base::choice::Choice;
use crate::base::units::show::trimmed;
use crate::base::units::text::Unit;
use crate::braid::takeoff::Train;
use crate::design::Design;
use crate::design::chosen::Chosen;
use crate::design::demo::demo;
use crate::design::parameters::Parameter;
use crate::design::settings::Setting;
use crate::edit::Edit;
use crate::plan::prediction::NINETY_FIVE;
use crate::plan::prediction::knowledge::Knowledge;

pub use asked::Asked;

/// A question to a new maker.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Question {
    /// The size of the yarn.
    Label,
    /// How much of it makes a thread.
    Ends,
    /// How many carriers there are.
    Machine,
    /// What is put on the braid.
    Dressing,
    /// What the yarn is.
    Fibre,
    /// Which gears can be fitted, and how.
    Gears,
    /// Whether silk is bought raw.
    Condition,
    /// What one circuit takes off.
    Constant,
}

impl Choice for Question {
    const ALL: &'static [Self] = &[
        Self::Label,
        Self::Ends,
        Self::Machine,
        Self::Dressing,
        Self::Fibre,
        Self::Gears,
        Self::Condition,
        Self::Constant,
    ];

    fn key(self) -> &'static str {
        match self {
            Self::Label => "label",
            Self::Ends => "ends",
            Self::Machine => "machine",
            Self::Dressing => "dressing",
            Self::Fibre => "fibre",
            Self::Gears => "gears",
            Self::Condition => "condition",
            Self::Constant => "constant",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Label => "How fine is your yarn?",
            Self::Ends => "How many ends do you ply to a thread?",
            Self::Machine => "Which machine do you have?",
            Self::Dressing => "How do you dress the line?",
            Self::Fibre => "What is your yarn made of?",
            Self::Gears => "Which gears do you have?",
            Self::Condition => "Is your silk labelled raw?",
            Self::Constant => "How much line does one circuit take off?",
        }
    }
}

impl Question {
    /// Every setting it can fill. Earlier ones come first where one decides what another may be.
    const fn settings(self) -> &'static [Asked] {
        match self {
            Self::Label => &[Asked::Chosen(Chosen::Label)],
            Self::Ends => &[Asked::Number(Setting::EndsPerThread)],
            Self::Machine => &[Asked::Chosen(Chosen::Machine)],
            Self::Dressing => &[Asked::Chosen(Chosen::Recipe)],
            Self::Fibre => &[Asked::Chosen(Chosen::Fibre)],
            Self::Gears => &[
                Asked::Chosen(Chosen::Train),
                Asked::Chosen(Chosen::Gears),
                Asked::Number(Setting::PartnerTeeth),
                Asked::Number(Setting::PairSum),
            ],
            Self::Condition => &[Asked::Chosen(Chosen::Condition)],
            Self::Constant => &[Asked::Number(Setting::MachineConstant)],
        }
    }

    /// The settings it fills in a design, none of which is without effect there: a question without any is not asked.
    pub fn asks(self, design: &Design) -> Vec<Asked> {
        let (train, fibre) = (design.draft().train, design.draft().fibre);
        let counts = |asked: &&Asked| match asked {
            Asked::Chosen(Chosen::Condition) => fibre.has_gum(),
            Asked::Number(Setting::PartnerTeeth) => !train.is_pair(),
            Asked::Number(Setting::PairSum) => train == Train::FixedCentres,
            Asked::Number(_) | Asked::Chosen(_) => true,
        };
        self.settings().iter().filter(counts).copied().collect()
    }

    /// Whether one of its settings has another value than the default. One equal to the default counts as not known.
    pub fn is_known(self, design: &Design) -> bool {
        let default = demo();
        let mut asked = self.asks(design).into_iter();
        asked.any(|asked| asked.words(design) != asked.words(&default))
    }

    /// What “I do not know” changes: each setting that has not its default gets it, one finished change after the other. Nothing
    /// where all have it.
    pub fn left_open(self, design: &Design) -> Vec<Edit> {
        let default = demo();
        let edits = self.settings().iter();
        edits
            .filter_map(|asked| asked.as_in(&default, design))
            .collect()
    }

    /// The learnt values that say how far its default may be off.
    const fn parameters(self) -> &'static [Parameter] {
        match self {
            Self::Label => &[Parameter::Yarn],
            Self::Constant => &[Parameter::Constant],
            Self::Dressing => &[
                Parameter::OilFill,
                Parameter::VarnishPickUp,
                Parameter::Weighed,
            ],
            Self::Ends | Self::Machine | Self::Fibre | Self::Gears | Self::Condition => &[],
        }
    }

    /// What “I do not know” keeps, in words: `3.25 mm`.
    pub fn default_words(self) -> String {
        let default = demo();
        let asked = self.asks(&default);
        let is_one = asked.len() == 1;
        let named = asked.iter().map(|asked| {
            let words = asked.words(&default);
            if is_one {
                words
            } else {
                format!("{}: {words}", asked.name())
            }
        });
        named.collect::<Vec<_>>().join("; ")
    }

    /// How far from its value the range of the weight allows a setting to be, in words, with what is known of a design.
    pub fn range_words(self, design: &Design) -> String {
        let spreads = Knowledge::of(design).spreads;
        let range = |&parameter: &Parameter| {
            let rule = parameter.setting().rule();
            let decimals = usize::from(rule.unit != Unit::Percent) * 2;
            let value = trimmed(design.setting(parameter.setting()), decimals);
            let margin = trimmed(NINETY_FIVE * spreads[parameter as usize], decimals);
            let unit = rule.unit.symbol();
            format!("{} {value} ± {margin} {unit}", rule.name)
        };
        let ranges: Vec<String> = self.parameters().iter().map(range).collect();
        match ranges.as_slice() {
            [] => "Its range covers no other answer.".to_owned(),
            ranges => format!(
                "Its range covers {}, but no other answer.",
                ranges.join("; ")
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::braid::recipe::ReadyRecipe;
    use crate::braid::yarn::{Condition, Fibre};
    use crate::design::machine::ReadyMade;

    /// An answer to each question that is not the default.
    fn answer(question: Question) -> Edit {
        match question {
            Question::Label => Edit::Label {
                low: 24.0,
                high: 26.0,
            },
            Question::Ends => Edit::Set(Setting::EndsPerThread, 11.0),
            Question::Machine => Edit::Machine(ReadyMade::TwelveRegular),
            Question::Dressing => Edit::Recipe(ReadyRecipe::Rough),
            Question::Fibre => Edit::Fibre(Fibre::Polyester),
            Question::Gears => Edit::Gears(vec![18.0, 22.0, 26.0]),
            Question::Condition => Edit::Condition(Condition::Raw),
            Question::Constant => Edit::Set(Setting::MachineConstant, 3.4),
        }
    }

    fn after(edits: impl IntoIterator<Item = Edit>, design: Design) -> Design {
        let apply = |design: Design, edit: Edit| edit.apply(&design).expect("it can be made");
        edits.into_iter().fold(design, apply)
    }

    #[test]
    fn an_answer_makes_one_question_known_and_not_knowing_takes_it_back() {
        for &question in Question::ALL {
            let answered = after([answer(question)], demo());
            for &other in Question::ALL {
                assert_eq!(
                    other.is_known(&answered),
                    other == question,
                    "{question:?}, {other:?}"
                );
            }
            let open = question.left_open(&answered);
            assert!(!open.is_empty(), "{question:?}");
            let again = after(open, answered);
            assert!(!question.is_known(&again), "{question:?}");
            assert!(question.left_open(&again).is_empty(), "{question:?}");
            assert_eq!(again, demo(), "{question:?}");
        }
    }

    /// The default gears make no pair on fixed centres, so the train has to change first.
    #[test]
    fn not_knowing_the_gears_is_possible_with_every_train() {
        for &train in Train::ALL {
            let gears = Edit::Gears(vec![30.0, 38.0, 42.0, 50.0]);
            let answered = after([gears, Edit::Train(train)], demo());
            let again = after(Question::Gears.left_open(&answered), answered.clone());
            assert!(!Question::Gears.is_known(&again), "{train:?}");
            assert_eq!(again.draft().gears, demo().draft().gears, "{train:?}");
        }
    }

    #[test]
    fn what_has_no_effect_is_not_asked() {
        let nylon = after([Edit::Fibre(Fibre::Nylon)], demo());
        assert!(Question::Condition.asks(&nylon).is_empty());
        let pair = after([Edit::Train(Train::FreePair)], demo());
        let teeth = Asked::Number(Setting::PartnerTeeth);
        assert!(!Question::Gears.asks(&pair).contains(&teeth));
        assert!(Question::Gears.asks(&demo()).contains(&teeth));
        for &question in Question::ALL {
            for asked in question.asks(&demo()) {
                assert!(!asked.ground().is_empty(), "{asked:?}");
            }
        }
    }

    #[test]
    fn the_default_and_its_range_are_said() {
        assert_eq!(Question::Label.default_words(), "20/22 den");
        assert_eq!(Question::Constant.default_words(), "3.25 mm");
        // A share of 0.03 is the prior; 1.96 spreads hold 95 of 100, any table of the normal distribution.
        let range = Question::Constant.range_words(&demo());
        let margin = trimmed(1.96 * 0.03 * 3.25, 2);
        assert!(range.contains(&format!("3.25 ± {margin} mm")), "{range}");
        for &question in Question::ALL {
            let range = question.range_words(&demo());
            assert!(range.contains("no other answer"), "{range}");
        }
    }
}
