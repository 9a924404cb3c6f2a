//! A measured number: where and of what kind; and what every model of one says.

use crate::base::estimate::Group;
use crate::design::parameters::Parameters;
use crate::keep::book::record::{LineField, LineStage};
use crate::keep::book::swatch::SwatchField;

/// Where a number was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Source {
    /// On the swatch of this index; circuits and crossings stand for the lay they tell.
    Swatch(usize, SwatchField),
    /// On the line of this index.
    Line(usize, LineStage, LineField),
}

/// What kind of number was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum MeasureKind {
    /// A lay, by circuits or crossings; millimetres.
    Lay,
    /// The weight of a swatch; grams.
    SwatchWeight,
    /// A braid angle; degrees.
    Angle,
    /// A diameter of a swatch or a line; millimetres.
    Diameter,
    /// The weight of a bare line or of its head; grams.
    BareWeight,
    /// The weight of an oiled line or of its head; grams.
    OiledWeight,
    /// The weight of a finished line or of its head; grams.
    FinishedWeight,
    /// The weight of thread not braided; grams.
    ThreadWeight,
}

impl MeasureKind {
    /// So many of them in words: `1 lay`, `2 lays`.
    pub fn counted(self, count: usize) -> String {
        let (one, more) = match self {
            Self::Lay => ("lay", "lays"),
            Self::SwatchWeight => ("swatch weight", "swatch weights"),
            Self::Angle => ("angle", "angles"),
            Self::Diameter => ("diameter", "diameters"),
            Self::BareWeight => ("bare weight", "bare weights"),
            Self::OiledWeight => ("oiled weight", "oiled weights"),
            Self::FinishedWeight => ("finished weight", "finished weights"),
            Self::ThreadWeight => ("thread weight", "thread weights"),
        };
        format!("{count} {}", if count == 1 { one } else { more })
    }

    /// The unit its numbers are in.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Lay | Self::Diameter => "mm",
            Self::Angle => "°",
            _ => "g",
        }
    }
}

impl Source {
    /// What kind of number it is.
    pub const fn kind(self) -> MeasureKind {
        match self {
            Self::Swatch(_, SwatchField::Mass) => MeasureKind::SwatchWeight,
            Self::Swatch(_, SwatchField::Angle) => MeasureKind::Angle,
            Self::Swatch(_, SwatchField::ThreadMass) => MeasureKind::ThreadWeight,
            Self::Swatch(_, SwatchField::Diameter)
            | Self::Line(_, _, LineField::Diameter(_) | LineField::At(_)) => MeasureKind::Diameter,
            Self::Swatch(..) => MeasureKind::Lay,
            Self::Line(_, LineStage::Bare, _) => MeasureKind::BareWeight,
            Self::Line(_, LineStage::Coat(_), _) => MeasureKind::OiledWeight,
            Self::Line(_, LineStage::Finished, _) => MeasureKind::FinishedWeight,
        }
    }
}

/// A swatch or a line: numbers measured, and what is expected of them.
pub(in crate::keep::book) trait Model {
    /// The numbers measured with their errors.
    fn group(&self) -> &Group;
    /// Where each was measured.
    fn sources(&self) -> &[Source];
    /// What is expected of each with these parameters, in the same order and units.
    fn expected(&self, parameters: &Parameters) -> Vec<f64>;
}
