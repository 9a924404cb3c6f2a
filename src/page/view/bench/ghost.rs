//! Another line laid behind the one on the bench.

use crate::design::Design;
use crate::keep::shelf::LineNumber;
use crate::plan::Plan;

/// A line to compare with, as it was when it was laid there.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Ghost {
    /// Its title.
    pub(crate) title: String,
    /// Its design.
    pub(crate) design: Design,
    /// Its plan, reckoned once.
    pub(crate) plan: Plan,
    /// Its number on the shelf, where it was taken from there.
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
}
