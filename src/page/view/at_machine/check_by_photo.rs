//! A check at the machine by a photo: angle, and crossings where the picture has a scale, each with the error of the photo.

use std::sync::Arc;

use leptos::prelude::*;

use super::here::{here, last};
use super::session::{Session, session};
use crate::base::units::{Angle, Length};
use crate::page::view::photo::{PhotoButton, PhotoTask, Taken};
use crate::paper::words::checks::check_value;
use crate::paper::words::photo::{NO_ERROR, PhotoAim, check_outcome};
use crate::photo::KnownDiameter;
use crate::plan::run::{CheckKind, Expected, Measured, Run};

/// The button that opens the sheet for the check where the machine stands.
#[component]
pub(super) fn CheckByPhoto(expected: Memo<Option<Expected>>) -> impl IntoView {
    let session = session();
    let task = move || untrack(|| task(session, &expected.get()?));
    let is_off = Memo::new(move |_| expected.with(Option::is_none));
    view! { <PhotoButton aim=PhotoAim::Check class="huge" is_off task /> }
}

fn task(session: Session, expected: &Expected) -> Option<PhotoTask> {
    // It belongs to the place where the machine stands now, however long the sheet is open.
    let at = here(session)?;
    let measured = last(session, CheckKind::Diameter)
        .map(|check| KnownDiameter::Measured(Length::from_millimetres(check.value)));
    let planned = Length::from_millimetres(expected.diameter.planned);
    Some(PhotoTask {
        aim: PhotoAim::Check,
        planned: Some(Angle::from_degrees(expected.angle.planned)),
        loaded: Some(expected.loaded()),
        diameter: measured.or(Some(KnownDiameter::Planned(planned))),
        take: Arc::new(move |taken| take(session, at, &taken)),
    })
}

/// Writes down what was measured as checks of the run: what can be, where not all can.
fn take(session: Session, at: Length, taken: &Taken) -> Result<String, String> {
    let crossings = taken.crossings.map(Measured::crossings_by_photo);
    let measured = [Some(Measured::angle_by_photo(taken.angle)), crossings];
    let mut run = session.run.get_untracked();
    let mut outcomes = Vec::new();
    for one in measured.into_iter().flatten() {
        let refused = match checked(session, run.as_ref(), at, one) {
            Ok(with_it) => {
                run = Some(with_it);
                None
            }
            Err(why) => Some(why),
        };
        outcomes.push((one.kind, refused));
    }
    if outcomes.iter().all(|(_, refused)| refused.is_some()) {
        return Err(check_outcome(&outcomes));
    }
    if let Some(run) = run {
        session.put(run);
    }
    if outcomes.iter().any(|(_, refused)| refused.is_some()) {
        return Ok(check_outcome(&outcomes));
    }
    Ok(taken.written(PhotoAim::Check, ""))
}

/// The run with a check more, or why there is none.
fn checked(
    session: Session,
    run: Option<&Run>,
    at: Length,
    measured: Measured,
) -> Result<Run, String> {
    // Without an error of its own it would be judged as read by hand.
    if measured.error.is_none() {
        return Err(NO_ERROR.to_owned());
    }
    let checked = untrack(|| {
        let run = run?;
        session.with_run(|_, adjusted| {
            session.with_planned(|design, _| run.checked(adjusted, design, at, measured))
        })?
    });
    let units = session.bench.units.get_untracked();
    checked
        .ok_or_else(|| "No line is at the machine now.".to_owned())?
        .map_err(|why| why.words(|value| check_value(measured.kind, value, units)))
}
