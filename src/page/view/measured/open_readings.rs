//! The door for files of readings.

use leptos::prelude::*;

use super::state::open_measured;
use crate::keep::share::measured_file;
use crate::page::view::bench::bench;
use crate::page::view::open_file::OpenFile;

/// The door for a table of readings: it opens as a measured line of its own, or fills the one on the sheet while that is empty.
#[component]
pub(crate) fn OpenReadings() -> impl IntoView {
    let (bench, open) = (bench(), open_measured());
    view! {
        <OpenFile
            label="Open a table of readings"
            action="open-measured"
            accepts=".csv,.tsv,.txt,.json,text/csv,text/plain,text/tab-separated-values,application/json"
            largest=measured_file::LARGEST
            take=Callback::new(move |text| open.take_file(text))
            tell=Callback::new(move |said: String| bench.say(said))
        />
    }
}
