//! A line planned with what a book teaches.

use super::estimate::Estimate;
use crate::design::Design;
use crate::edit::Edit;

impl Estimate {
    /// The line with what the book of a workshop of this name teaches, and the edit that makes it so; `None` where that makes no
    /// valid design.
    pub fn taught(&self, design: &Design, workshop: &str) -> Option<(Design, Edit)> {
        let edit = Edit::Learn {
            parameters: self.parameters(),
            learned: Some(Box::new(self.learned())),
            workshop: workshop.to_owned(),
        };
        edit.clone().apply(design).ok().map(|design| (design, edit))
    }
}
