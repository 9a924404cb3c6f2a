//! The machine: its ring, the places with a carrier, and what its braid is like.

use leptos::prelude::*;

use super::chosen::ChosenField;
use super::numbers::{Finer, Numbers};
use crate::braid::track::Direction;
use crate::design::chosen::Chosen;
use crate::design::settings::Setting;
use crate::design::{Design, gears, mounted};
use crate::edit::Edit;
use crate::page::view::bench::bench;
use crate::page::view::field::{ChoiceField, TextField};
use crate::page::view::terms::explained;
use crate::paper::terms::Term;

/// How carriers and horn gears are described.
#[component]
pub(super) fn Machine() -> impl IntoView {
    let bench = bench();
    let ring = move || bench.settled.with(ring_words);
    view! {
        <fieldset>
            <legend>"Machine"</legend>
            <ChosenField of=Chosen::Machine />
            <Numbers of=vec![Setting::HornGears] />
            <ChoiceField
                label="braid pattern"
                action="pattern"
                word=Some(explained(Term::Pattern))
                ground="The braid with a carrier on every place. It sets the slots of a horn gear: two, four or six. A new pattern mounts every place of the nearest possible ring."
                value=Signal::derive(move || bench.settled.with(|design| design.draft().pattern))
                commit=move |pattern| bench.commit(Edit::Pattern(pattern))
            />
            <p class="hint">{ring}</p>
            <Numbers of=vec![Setting::GuideRadius, Setting::CircuitSpeed, Setting::HandleTurns] />
            <Finer>
                <Places direction=Direction::Clockwise action="mounted-cw" label="clockwise places with a carrier" />
                <Places
                    direction=Direction::CounterClockwise
                    action="mounted-ccw"
                    label="counter\u{2011}clockwise places with a carrier"
                />
                <Numbers of=vec![
                    Setting::Crimp,
                    Setting::FibreFraction,
                    Setting::LeastCover,
                    Setting::StrengthEfficiency,
                ] />
            </Finer>
        </fieldset>
    }
}

fn ring_words(design: &Design) -> String {
    let track = design.track();
    let places = 2 * track.places_each_way();
    let mounted = if track.carriers() == places {
        "a carrier on each".to_owned()
    } else {
        format!("{} of them with a carrier", track.carriers())
    };
    format!(
        "A ring of {} horn gears with {} slots: {places} places, {mounted}.",
        track.horn_gears(),
        track.slots()
    )
}

/// The word for a carrier on every place.
const ALL: &str = "all";

/// Which places of one direction have a carrier.
#[component]
fn Places(direction: Direction, action: &'static str, label: &'static str) -> impl IntoView {
    let bench = bench();
    let written = move || {
        bench.settled.with(|design| {
            let places = design.draft().mounted.of(direction);
            let numbers: Vec<f64> = places.iter().map(|&place| f64::from(place + 1)).collect();
            if numbers.is_empty() {
                ALL.to_owned()
            } else {
                gears::show(&numbers)
            }
        })
    };
    let take = move |text: String| {
        let each_way = bench
            .settled
            .with_untracked(|design| design.track().places_each_way());
        bench.commit(Edit::Mount(direction, mounted::read(&text, each_way)?))
    };
    view! {
        <TextField
            label
            action
            word=Some(explained(Term::Place))
            ground="Numbered from 1 in track order, with commas between. 1–8 means eight in a row, “all” every place, “all but 3” every place except the third. Sixteen carriers on every second place of a ring for thirty-two are 1, 3, 5 … 15 each way. They braid a diamond."
            value=Signal::derive(written)
            commit=take
        />
    }
}
