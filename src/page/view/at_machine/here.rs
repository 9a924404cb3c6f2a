//! Where the machine stands, what the braid should look like there, and what was measured of it.

use leptos::prelude::*;

use super::progress::counted_from;
use super::session::Session;
use crate::base::units::Length;
use crate::plan::run::{Check, CheckKind, Expected};

/// Where the machine stands, by count and clock since the last step; `None` where that is unknown.
pub(super) fn here(session: Session) -> Option<Length> {
    let circuits = session.clocks.circuits()?;
    session.with_now(|now| now.stands + counted_from(now, circuits))
}

/// What the braid should look like there.
pub(super) fn expected_here(session: Session) -> Memo<Option<Expected>> {
    Memo::new(move |_| {
        let at = here(session)?;
        session.with_run(|run, adjusted| {
            session.with_planned(|design, _| run.expected(adjusted, design, at))?
        })?
    })
}

/// The last check of a kind since the last step.
pub(super) fn last(session: Session, kind: CheckKind) -> Option<Check> {
    session
        .run
        .with(|run| run.as_ref()?.last_check(kind).copied())
}
