//! The points of the taper found, in numbers.

use leptos::prelude::*;

use super::state::open_measured;
use crate::base::units::{Length, show::Units};
use crate::measured::{FoundPoint, FoundTaper};
use crate::page::view::bench::bench;

/// The table of points.
#[component]
pub(super) fn FoundPoints() -> impl IntoView {
    let (bench, open) = (bench(), open_measured());
    let rows = move || {
        let units = bench.units.get();
        let found = open.found.get()?;
        let rows = (0..found.points.len()).map(|index| row(&found, index, units));
        Some(rows.collect_view())
    };
    view! {
        <section class="card" aria-label="Points of the taper">
            <table class="found-points">
                <caption>"Points of the taper"</caption>
                <thead>
                    <tr>
                        <th scope="col">"point"</th>
                        <th scope="col">"place"</th>
                        <th scope="col">"diameter"</th>
                        <th scope="col">"then"</th>
                    </tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
            <p class="hint">"After ± is one standard deviation."</p>
        </section>
    }
}

/// Whole millimetres, and one at least: no hand places a change better.
fn to_millimetre(spread: Length) -> Length {
    Length::from_millimetres(spread.millimetres().round().max(1.0))
}

fn row(found: &FoundTaper, index: usize, units: Units) -> impl IntoView + use<> {
    let FoundPoint {
        at,
        diameter,
        at_spread,
        diameter_spread,
    } = found.points[index];
    let after = found.points.get(index + 1);
    let then = match (found.is_level.get(index), after) {
        (Some(true), _) => "level",
        (Some(false), Some(after)) if after.diameter > diameter => "thicker",
        (Some(false), Some(_)) => "thinner",
        _ => "",
    };
    let place = if at_spread.metres() > 0.0 {
        format!(
            "{} ± {}",
            units.show_position(at),
            units.show_short(to_millimetre(at_spread))
        )
    } else {
        units.show_position(at)
    };
    let size = format!(
        "{} ± {:.0}\u{202f}µm",
        units.show_diameter_short(diameter),
        diameter_spread.metres() * 1e6
    );
    view! {
        <tr
            data-measured-point=index.to_string()
            data-at=at.metres().to_string()
            data-diameter=diameter.metres().to_string()
        >
            <th scope="row">{index + 1}</th>
            <td>{place}</td>
            <td>{size}</td>
            <td>{then}</td>
        </tr>
    }
}
