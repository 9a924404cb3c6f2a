//! What the maker insists on: set at a row of the schedule, listed below it.

use leptos::prelude::*;

use crate::base::units::text::Unit;
use crate::braid::takeoff::Wheels;
use crate::braid::threads::Level;
use crate::braid::track::Carrier;
use crate::design::pin::DraftPin;
use crate::design::pin::Pin;
use crate::design::settings::POSITION;
use crate::edit::Edit;
use crate::page::view::bench::{Bench, bench};
use crate::page::view::field::NumberField;
use crate::page::view::field_error::FieldError;
use crate::paper::words;
use crate::plan::layout::pins::DroppedPin;
use crate::plan::{Action, Event};

/// What can be insisted on at one row: a change's place and carrier, or the gear from there on.
#[component]
pub(super) fn PinEditor(event: Memo<Option<Event>>) -> impl IntoView {
    let bench = bench();
    let is_change = move || event.with(|event| event.as_ref().and_then(Event::change).is_some());
    let has_pinned_place =
        move || event.with(|event| event.as_ref().is_some_and(|event| event.pin.is_some()));
    let has_carrier_of_its_own = move || {
        event.with(|event| {
            let action = event.as_ref().map(|event| &event.action);
            action.is_some_and(Action::is_of_threads)
        })
    };
    view! {
        <div class="pin-editor" role="group" aria-label="Pin">
            <Show when=is_change>
                <PlaceField event />
            </Show>
            <Show when=has_carrier_of_its_own>
                <CarrierField event />
            </Show>
            <Show when=move || keeps_gear(bench, event)>
                <GearField event />
            </Show>
            <Show when=move || is_change() && !has_pinned_place()>
                <PinHere event />
            </Show>
            <UnpinButton event />
        </div>
    }
}

/// Whether an event's row decides the gear of a interval: only then is it this row's to pin.
fn keeps_gear(bench: Bench, event: Memo<Option<Event>>) -> bool {
    bench.plan.with(|plan| {
        event.with(|event| {
            event
                .as_ref()
                .is_some_and(|event| plan.gear_interval(event).is_some())
        })
    })
}

/// Puts a pin on what an event is about.
fn pin(bench: Bench, pin: DraftPin, replaces: Option<usize>) -> Result<(), String> {
    bench.commit(Edit::Pin { pin, replaces })
}

#[component]
fn PlaceField(event: Memo<Option<Event>>) -> impl IntoView {
    let bench = bench();
    let unit = Signal::derive(move || bench.units.get().position());
    let value = Signal::derive(move || {
        let at = event.with(|event| event.as_ref().map_or(0.0, |event| event.at.metres()));
        Unit::Metre.convert(at, unit.get()).unwrap_or(at)
    });
    let take = move |typed: f64| {
        let at_m = unit
            .get_untracked()
            .convert(typed, POSITION.unit)
            .unwrap_or(typed);
        pin_place(bench, event, at_m)
    };
    view! { <NumberField label="pin at" action="pin-place" unit value decimals=4 commit=take /> }
}

/// Pins the change of an event at a place, metres from the tip.
fn pin_place(bench: Bench, event: Memo<Option<Event>>, at_m: f64) -> Result<(), String> {
    let Some((change, replaces)) = event.with_untracked(|event| {
        let event = event.as_ref()?;
        let change = event.change()?;
        // A pin of the same change that could not be kept gives way to the new one.
        Some((change, event.pin.or_else(|| given_up(bench, change))))
    }) else {
        return Ok(());
    };
    let (lower, rising) = change;
    let place = DraftPin::Place {
        threads: lower.threads,
        heavy: lower.heavy,
        rising,
        at_m,
    };
    pin(bench, place, replaces)
}

/// Pins a change where the plan has put it.
#[component]
fn PinHere(event: Memo<Option<Event>>) -> impl IntoView {
    let bench = bench();
    let at = move || event.with_untracked(|event| event.as_ref().map(|event| event.at.metres()));
    let pin_here = move |_| {
        if let Some(Err(said)) = at().map(|at_m| pin_place(bench, event, at_m)) {
            bench.say(said);
        }
    };
    view! { <button data-action="pin-here" on:click=pin_here>"Pin it here"</button> }
}

/// The pin of a change's place that the plan could not keep, by its place in the list.
fn given_up(bench: Bench, (lower, rising): (Level, bool)) -> Option<usize> {
    bench.plan.with_untracked(|plan| {
        let is_it = |dropped: &&DroppedPin| {
            matches!(dropped.pin, Pin::Place { lower: l, rising: r, .. } if (l, r) == (lower, rising))
        };
        let dropped = plan.layout.dropped_pins.iter().find(is_it);
        dropped.map(|dropped| dropped.index)
    })
}

/// A select that has nothing chosen until the maker chooses.
fn select(
    label: &'static str,
    action: &'static str,
    options: Vec<(String, String)>,
    chosen: Signal<String>,
    take: Callback<String, Result<(), String>>,
) -> impl IntoView {
    let wrong = FieldError::none();
    let option = move |(key, words): (String, String)| {
        let own = key.clone();
        view! { <option value=key selected=move || chosen.get() == own>{words}</option> }
    };
    view! {
        <label class="field">
            <span class="label">{label}</span>
            <select
                data-action=action
                aria-invalid=move || wrong.invalid()
                aria-describedby=move || wrong.described_by()
                prop:value=move || chosen.get()
                on:change:target=move |event| wrong.set(take.run(event.target().value()).err())
            >
                {options.into_iter().map(option).collect_view()}
            </select>
            {wrong.shown()}
        </label>
    }
}

#[component]
fn CarrierField(event: Memo<Option<Event>>) -> impl IntoView {
    let bench = bench();
    let mounted = move || {
        bench
            .settled
            .with(|design| design.track().all().collect::<Vec<_>>())
    };
    let chosen = Signal::derive(move || {
        let carrier = event.with(|event| event.as_ref().and_then(|event| event.action.carrier()));
        carrier
            .map(|carrier| carrier.to_string())
            .unwrap_or_default()
    });
    let take = move |key: String| {
        let carrier = mounted()
            .into_iter()
            .find(|carrier| carrier.to_string() == key);
        let of_event = event.with_untracked(|event| {
            let event = event.as_ref()?;
            let is_swap = matches!(event.action, Action::Swap { .. });
            Some((event.change()?.0, is_swap, event.carrier_pin))
        });
        let Some((Carrier { direction, number }, (lower, is_swap, replaces))) =
            carrier.zip(of_event)
        else {
            return Ok(());
        };
        let carrier = if is_swap {
            DraftPin::Swap {
                heavy: lower.heavy,
                direction,
                number,
            }
        } else {
            DraftPin::Carrier {
                threads: lower.threads,
                direction,
                number,
            }
        };
        pin(bench, carrier, replaces)
    };
    let options = move || {
        let option = |carrier: Carrier| (carrier.to_string(), words::short(carrier));
        mounted().into_iter().map(option).collect::<Vec<_>>()
    };
    move || {
        select(
            "on carrier",
            "pin-carrier",
            options(),
            chosen,
            Callback::new(take),
        )
    }
}

#[component]
fn GearField(event: Memo<Option<Event>>) -> impl IntoView {
    let bench = bench();
    let choices = move || bench.settled.with(|design| design.take_off().choices());
    let chosen = Signal::derive(move || {
        event.with(|event| {
            event
                .as_ref()
                .map(|event| event.wheels.to_string())
                .unwrap_or_default()
        })
    });
    let take = move |key: String| {
        let wheels = choices()
            .into_iter()
            .find(|wheels| wheels.to_string() == key);
        let interval = bench.plan.with_untracked(|plan| {
            event.with_untracked(|event| event.as_ref().and_then(|event| plan.gear_interval(event)))
        });
        let Some((Wheels { driver, driven, .. }, interval)) = wheels.zip(interval) else {
            return Ok(());
        };
        let wheels = DraftPin::Wheels {
            threads: interval.level.threads,
            heavy: interval.level.heavy,
            at_m: interval.middle.metres(),
            driver,
            driven,
        };
        pin(bench, wheels, interval.pin)
    };
    let options = move || {
        let option = |wheels: Wheels| (wheels.to_string(), wheels.to_string());
        choices().into_iter().map(option).collect::<Vec<_>>()
    };
    move || {
        select(
            "pin this gear from here",
            "pin-gear",
            options(),
            chosen,
            Callback::new(take),
        )
    }
}

#[component]
fn UnpinButton(event: Memo<Option<Event>>) -> impl IntoView {
    let bench = bench();
    let held = move || {
        event.with(|event| {
            let event = event.as_ref()?;
            event.pin.or(event.wheels_pin).or(event.carrier_pin)
        })
    };
    let let_go = move |_| {
        if let Some(index) = held() {
            unpin(bench, index);
        }
    };
    view! {
        <Show when=move || held().is_some()>
            <button data-action="unpin" on:click=let_go>"Remove pin"</button>
        </Show>
    }
}

fn unpin(bench: Bench, index: usize) {
    bench.commit_or_say(Edit::Unpin(index));
}

/// Every pin, with whether it is kept.
#[component]
pub(super) fn PinList() -> impl IntoView {
    let bench = bench();
    let pins = Memo::new(move |_| {
        bench.settled.with(|design| {
            bench.settled_plan.with(|plan| {
                let is_dropped = |index| {
                    plan.layout
                        .dropped_pins
                        .iter()
                        .any(|pin| pin.index == index)
                };
                let pins = design.pins().into_iter().enumerate();
                pins.map(|(index, pin)| (index, pin, is_dropped(index)))
                    .collect::<Vec<_>>()
            })
        })
    });
    let row = move |(index, pin, is_dropped)| {
        let words = words::pin(&pin, bench.units.get());
        let state = if is_dropped {
            "not used, see above: "
        } else {
            ""
        };
        view! {
            <li data-pin=index data-kept=(!is_dropped).to_string()>
                <span>{state}{words}</span>
                <button data-action="let-go" on:click=move |_| unpin(bench, index)>"Remove pin"</button>
            </li>
        }
    };
    view! {
        <Show when=move || pins.with(|pins| !pins.is_empty())>
            <div class="pins">
                <h3>"Your pins"</h3>
                <ul>{move || pins.get().into_iter().map(row).collect_view()}</ul>
            </div>
        </Show>
    }
}
