//! What can be measured next, in words.

use super::lengths::THREAD_LENGTH;
use crate::keep::book::model::Source;
use crate::keep::book::swatch::SwatchField;
use crate::keep::book::workshop::Workshop;

/// What to do next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NextMeasure {
    /// Weigh the line of this place in the book before it is oiled.
    Bare(usize),
    /// Weigh the line of this place in the book, after this coat of oil has dried.
    Oiled(usize, usize),
    /// Weigh the line of this place in the book: it is finished.
    Finished(usize),
    /// Answer the question that a number raises.
    Answer(Source),
    /// Measure what is missing of the swatch of this place in the book.
    Rest(usize),
    /// Weigh a length of thread.
    Thread,
    /// Braid a swatch and measure all of it.
    Swatch,
    /// Braid a swatch and measure one thing of it.
    SwatchPart(SwatchPart),
    /// Make a line and weigh it finished.
    Line,
}

/// One thing measured of a swatch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SwatchPart {
    /// Its circuits are counted.
    Count,
    /// It is weighed.
    Weigh,
    /// Its angle is measured by a gauge.
    Angle,
}

impl SwatchPart {
    /// Every part, in the order of the work.
    pub const ALL: [Self; 3] = [Self::Count, Self::Weigh, Self::Angle];

    /// All that is measured of a whole swatch.
    pub const WHOLE: [SwatchField; 5] = [
        SwatchField::Length,
        SwatchField::Circuits,
        SwatchField::Mass,
        SwatchField::Diameter,
        SwatchField::Angle,
    ];

    /// The numbers it takes.
    pub const fn fields(self) -> &'static [SwatchField] {
        match self {
            Self::Count => &[SwatchField::Length, SwatchField::Circuits],
            Self::Weigh => &[SwatchField::Length, SwatchField::Mass],
            Self::Angle => &[SwatchField::Angle],
        }
    }
}

impl NextMeasure {
    /// Whether it can never be done later: the next coat covers what is weighed now.
    pub const fn is_now_or_never(self) -> bool {
        matches!(self, Self::Bare(_) | Self::Oiled(..))
    }

    /// A key for tests.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Bare(_) => "bare",
            Self::Oiled(..) => "oiled",
            Self::Finished(_) => "finished",
            Self::Answer(_) => "answer",
            Self::Rest(_) => "rest",
            Self::Thread => "thread",
            Self::Swatch => "swatch",
            Self::SwatchPart(SwatchPart::Count) => "swatch-count",
            Self::SwatchPart(SwatchPart::Weigh) => "swatch-weigh",
            Self::SwatchPart(SwatchPart::Angle) => "swatch-angle",
            Self::Line => "line",
        }
    }

    /// What to do, in a few words.
    pub const fn heading(self) -> &'static str {
        match self {
            Self::Bare(_) => "Next, weigh the bare line",
            Self::Oiled(..) => "Next, weigh the oiled line",
            Self::Finished(_) | Self::Line => "Next, weigh a finished line",
            Self::Answer(_) => "Next, answer a question",
            Self::Rest(_) => "Next, measure more of a swatch",
            Self::Thread => "Next, weigh some thread",
            Self::Swatch => "Next, braid and measure a swatch",
            Self::SwatchPart(SwatchPart::Count) => "Next, braid a swatch and count",
            Self::SwatchPart(SwatchPart::Weigh) => "Next, braid a swatch and weigh it",
            Self::SwatchPart(SwatchPart::Angle) => "Next, braid a swatch for its angle",
        }
    }

    /// What to do, of what, for a row of a list.
    pub fn words(self, workshop: &Workshop) -> String {
        match self {
            Self::Bare(index) => format!("Weigh {} bare", line_name(workshop, index)),
            Self::Oiled(index, coat) => {
                format!(
                    "Weigh {} after oil {}",
                    line_name(workshop, index),
                    coat + 1
                )
            }
            Self::Finished(index) => {
                format!(
                    "Weigh {}, finished, and its first 30 ft",
                    line_name(workshop, index)
                )
            }
            Self::Answer(source) => format!("Answer: {}", workshop.place_words(source)),
            Self::Rest(index) => {
                let swatch = workshop.swatches.get(index);
                let name = swatch.map_or("", |swatch| swatch.name.as_str());
                format!("Measure what is missing of {name}")
            }
            Self::Thread => format!("Weigh {:.0} m of thread", THREAD_LENGTH.metres()),
            Self::Swatch => "Braid a swatch and measure all of it".to_owned(),
            Self::SwatchPart(SwatchPart::Count) => {
                "Braid a swatch and only count its circuits".to_owned()
            }
            Self::SwatchPart(SwatchPart::Weigh) => "Braid a swatch and only weigh it".to_owned(),
            Self::SwatchPart(SwatchPart::Angle) => {
                "Braid a swatch and only measure its angle".to_owned()
            }
            Self::Line => "Braid the next line, dress it and weigh it".to_owned(),
        }
    }

    /// Why, and which.
    pub fn reason(self, workshop: &Workshop) -> String {
        match self {
            Self::Bare(index) => {
                let name = line_name(workshop, index);
                format!("{name}: once oiled it cannot be weighed bare.")
            }
            Self::Oiled(index, coat) => format!(
                "{}: oil {} is dry, and the next coat will cover it.",
                line_name(workshop, index),
                coat + 1
            ),
            Self::Finished(index) => format!(
                "{}: the whole line, then its first 30 ft.",
                line_name(workshop, index)
            ),
            Self::Answer(source) => {
                format!("Something stands out: {}.", workshop.place_words(source))
            }
            Self::Rest(_) => {
                "The swatch is braided. What is missing of it takes a few minutes.".to_owned()
            }
            Self::Thread => format!(
                "Wind {:.0} m off along a rule, with all its ends, and weigh them.",
                THREAD_LENGTH.metres()
            ),
            Self::Swatch | Self::SwatchPart(_) => {
                "About 30 cm with the threads and gears of the belly.".to_owned()
            }
            Self::Line => "Each line weighed shows how well the plan fits your hand.".to_owned(),
        }
    }

    /// What its button says.
    pub const fn button(self) -> &'static str {
        match self {
            Self::Bare(_) | Self::Oiled(..) | Self::Finished(_) => "Enter the weight",
            Self::Answer(_) => "Show it",
            Self::Rest(_) => "Enter the numbers",
            Self::Thread => "Enter thread",
            Self::Swatch | Self::SwatchPart(_) => "Enter a swatch",
            Self::Line => "Enter a line",
        }
    }
}

fn line_name(workshop: &Workshop, index: usize) -> &str {
    let record = workshop.records.get(index);
    record.map_or("", |record| record.name.as_str())
}
