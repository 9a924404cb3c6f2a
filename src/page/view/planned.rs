//! The design a line in the bench book is made by, with its plan.

use leptos::prelude::*;

use crate::design::Design;
use crate::keep::book::Frozen;
use crate::plan::Plan;

/// A design with its plan; nothing where there is no line, or its design cannot be read.
pub(super) type Planned = Memo<Option<(Design, Plan)>>;

/// The design of a record with its plan, calculated once for each design and not for each change of the record.
pub(super) fn planned(frozen: impl Fn() -> Option<Frozen> + Send + Sync + 'static) -> Planned {
    let frozen = Memo::new(move |_| frozen());
    Memo::new(move |_| {
        frozen.with(|frozen| {
            let design = frozen.as_ref()?.design().ok()?;
            Some((design.clone(), Plan::of(design)))
        })
    })
}
