//! What comes after the step, and the machine as it stands.

use leptos::prelude::*;

use super::to_do::deed_words;
use super::work::work;
use crate::plan::Event;
use crate::units::Length;
use crate::view::machine::{Map, Station};

/// The next two steps.
#[component]
pub(super) fn Ahead() -> impl IntoView {
    let work = work();
    let rows = move || {
        let units = work.bench.units.get();
        let ahead = work.now.with(|now| {
            now.as_ref()
                .map(|now| now.ahead.clone())
                .unwrap_or_default()
        });
        let row = |event: Event| {
            let words = format!(
                "at {}: {}",
                units.show_position(event.at),
                deed_words(&event)
            );
            view! { <li>{words}</li> }
        };
        ahead.into_iter().map(row).collect_view()
    };
    view! {
        <h2>"Then"</h2>
        <ol class="ahead">{rows}</ol>
    }
}

/// The ring with the carriers that are on, and the one this step is about.
#[component]
pub(super) fn MapThere() -> impl IntoView {
    let work = work();
    let at = Memo::new(move |_| {
        work.now
            .with(|now| now.as_ref().map_or(Length::ZERO, |now| now.stands))
    });
    let here = Memo::new(move |_| {
        work.planned.with(|planned| {
            let (design, plan) = planned.as_ref()?;
            work.now.with(|now| {
                let now = now.as_ref()?;
                Some(Station::of_run(design, plan, now))
            })
        })
    });
    let next_at = Memo::new(move |_| {
        work.now.with(|now| {
            let now = now.as_ref()?;
            let behind = now.event.iter().chain(&now.ahead);
            behind
                .clone()
                .find(|event| event.action.is_of_threads())
                .map(|event| event.at)
        })
    });
    view! {
        {move || here.get().map(|here| {
            let here = Memo::new(move |_| here.clone());
            view! { <Map station=Station { at, here, next_at } /> }
        })}
    }
}
