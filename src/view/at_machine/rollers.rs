//! Where the maker measures, when that is not where the threads meet.

use leptos::prelude::*;

use super::work::work;
use crate::units::Length;
use crate::units::show;
use crate::units::text::{Unit, read};
use crate::view::field::TextField;

/// The distance to where the maker measures, set once.
#[component]
pub(super) fn Rollers() -> impl IntoView {
    let work = work();
    let unit = move || match work.bench.units.get() {
        show::Units::Metric => Unit::Centimetre,
        show::Units::Imperial => Unit::Inch,
    };
    let value = move || {
        Unit::Metre
            .convert(work.rollers.get().metres(), unit())
            .unwrap_or(0.0)
    };
    let take = move |text: String| {
        let typed = read(&text, unit()).map_err(|unread| unread.to_string())?;
        let metres = unit().convert(typed, Unit::Metre).unwrap_or(0.0);
        if !(0.0..=10.0).contains(&metres) {
            return Err(
                "The rollers are between 0 and 10 m from where the threads meet.".to_owned(),
            );
        }
        work.set_rollers(Length::from_metres(metres));
        Ok(())
    };
    view! {
        <details class="finer">
            <summary>"I measure elsewhere than where the threads meet"</summary>
            <TextField
                label="from where the threads meet to your mark"
                action="rollers"
                numeric=true
                unit=Signal::derive(move || unit().symbol().to_owned())
                value=Signal::derive(move || show::trimmed(value(), 2))
                commit=take
                ground="At the rollers, say. Measured once along the braid; every length is then also told at your mark."
            />
        </details>
    }
}
