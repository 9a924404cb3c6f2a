//! Another line to compare with, drawn dashed behind the one on the bench.

use crate::design::Design;
use crate::keep::shelf::LineNumber;
use crate::plan::Plan;

/// A line to compare with, as it was when it was chosen: its plan is calculated once, later changes do not reach it, and any other
/// line put on the bench removes it. It is neither stored nor printed.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Ghost {
    /// Its title.
    pub(crate) title: String,
    /// Its design.
    pub(crate) design: Design,
    /// Its plan.
    pub(crate) plan: Plan,
    /// Its number, where it is a stored line.
    pub(crate) number: Option<LineNumber>,
}

impl Ghost {
    /// The ghost of a design.
    pub(crate) fn of(design: Design, number: Option<LineNumber>) -> Self {
        Self {
            title: design.title().to_owned(),
            plan: Plan::of(&design),
            design,
            number,
        }
    }

    /// The ghost of the line on the bench as it was before a plan was taken for it.
    pub(crate) fn before(design: Design) -> Self {
        let ghost = Self::of(design, None);
        Self {
            title: format!("{}, before", ghost.title),
            ..ghost
        }
    }
}
