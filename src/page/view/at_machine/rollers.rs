//! Where the maker measures, when that is not where the threads meet.

use leptos::prelude::*;

use super::session::{can_be_rollers, session};
use crate::base::units::show;
use crate::base::units::text::Unit;
use crate::page::view::field::TextField;

/// The distance to where the maker measures, set once.
#[component]
pub(super) fn Rollers() -> impl IntoView {
    let session = session();
    let unit = move || session.positions().short();
    let value = move || {
        Unit::Metre
            .convert(session.rollers.get().metres(), unit())
            .unwrap_or(0.0)
    };
    let take = move |text: String| {
        let distance = session.positions().read_short(&text)?;
        if !can_be_rollers(distance) {
            return Err("Type 0 to 10 m, from where the threads meet to your mark.".to_owned());
        }
        session.set_rollers(distance);
        Ok(())
    };
    view! {
        <details class="finer">
            <summary>"I measure from another point"</summary>
            <TextField
                label="from where the threads meet to your mark"
                action="rollers"
                numeric=true
                unit=Signal::derive(move || unit().symbol().to_owned())
                value=Signal::derive(move || show::trimmed(value(), 2))
                commit=take
                ground="For example at the rollers. Measure it once along the braid. Every length is then also shown at your mark."
            />
        </details>
    }
}
