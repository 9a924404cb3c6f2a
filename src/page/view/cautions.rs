//! What can hurt in dressing a line, and what is and is not calculated here: a sheet.

use leptos::prelude::*;

use super::sheet::Sheet;
use super::sheet_kind::SheetKind;

/// Cautions and limits.
#[component]
pub(crate) fn CautionsSheet() -> impl IntoView {
    view! {
        <Sheet kind=SheetKind::Cautions>
        <section class="cautions" aria-label="Cautions">
            <h3>"Take care"</h3>
            <ul>
                <li>
                    "Rags, paper and wool wet with drying oil heat by themselves and catch fire. Spread them flat outdoors,
                    or drown them in water in a closed metal can. A coiled oiled line is a pile too: hang it open."
                    <cite>"US OSHA 29 CFR 1926.252(e) for covered containers; self-heating of oil-soaked rags."</cite>
                </li>
                <li>
                    "White spirit and varnish burn, and their vapour explodes in air. Ventilate; no flame, spark or hot lamp."
                    <cite>"International Chemical Safety Card 0361."</cite>
                </li>
                <li>
                    "Never warm oil or a freshly solvent-wet line in an unattended or unvented oven. Glass and thin-walled
                    vessels can implode under vacuum."
                </li>
                <li>"Threads are trimmed with blades that slip: cut away from the hand that holds the line."</li>
            </ul>
            <p>"The safety data sheet of each product, your local codes and licensed practice have priority over anything said here."</p>
            <h3>"What is calculated, and what is not"</h3>
            <p>
                "Threads, gears, diameters and weights follow from the settings by the geometry of braids. Defaults are averages from books and from memory. A line of your own yarn, oiled by your own hand, may weigh some percent more or less. How fast the angle follows a change depends on the radius of your guide: measure it."
            </p>
            <p>"Everything is calculated in this browser. Nothing leaves it unless you share a link or a file."</p>
        </section>
        </Sheet>
    }
}
