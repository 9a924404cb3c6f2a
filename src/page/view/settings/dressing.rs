//! Oil, varnish, jar and air: the numbers of the dressing.

use leptos::prelude::*;

use super::numbers::{Finer, Numbers};
use crate::base::units::text::{Unit, read};
use crate::design::settings::Setting;
use crate::edit::Edit;
use crate::page::view::bench::bench;
use crate::page::view::field::TextField;

/// The numbers of the dressing, and the air pressure by height.
#[component]
pub(super) fn Dressing() -> impl IntoView {
    view! {
        <fieldset>
            <legend>"Dressing"</legend>
            <Numbers of=vec![Setting::OilFill, Setting::Jar, Setting::AirPressure] />
            <Height />
            <Finer>
                <Numbers of=vec![
                    Setting::OilGain,
                    Setting::Film,
                    Setting::Grease,
                    Setting::WarmLimit,
                    Setting::VarnishPickUp,
                    Setting::Weighed,
                    Setting::SolventDensity,
                    Setting::OilDensity,
                    Setting::DriedOilDensity,
                    Setting::VarnishFill,
                    Setting::VarnishDensity,
                    Setting::VarnishSolids,
                    Setting::FilmDensity,
                ] />
            </Finer>
        </fieldset>
    }
}

/// Air pressure by the height above the sea.
#[component]
fn Height() -> impl IntoView {
    let bench = bench();
    let take = move |text: String| {
        if text.trim().is_empty() {
            return Ok(());
        }
        let metres = read(&text, Unit::Metre).map_err(|unread| unread.to_string())?;
        bench.commit(Edit::Height(metres))
    };
    view! {
        <TextField
            label="or your height above sea level"
            action="height"
            numeric=true
            unit=Signal::stored(Unit::Metre.symbol().to_owned())
            ground="Sets the air pressure of the standard atmosphere at this height (ISO 2533). Weather changes it by some 3 %."
            // It is read once; what stays is the pressure.
            value=Signal::stored(String::new())
            commit=take
        />
    }
}
