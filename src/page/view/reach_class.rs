//! Reaching a class: what the maker lets move is moved to where the class is most likely.

use leptos::prelude::*;

use super::bench::bench;
use super::field::ChoiceField;
use crate::base::choice::Choice;
use crate::base::units::show::{self, Units};
use crate::base::units::{Angle, Length, Mass};
use crate::braid::weight::{CLASSES, Class};
use crate::design::Design;
use crate::edit::matching::{Match, Mover, reach_class};
use crate::plan::prediction::chance_percent;

/// What may be moved to reach a class.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum MayMove {
    Only(Mover),
    Any,
}

impl MayMove {
    fn movers(&self) -> &[Mover] {
        match self {
            Self::Only(mover) => core::slice::from_ref(mover),
            Self::Any => Mover::ALL,
        }
    }
}

impl Choice for MayMove {
    const ALL: &'static [Self] = &[
        Self::Only(Mover::BellySize),
        Self::Only(Mover::EndsPerThread),
        Self::Only(Mover::TaperLength),
        Self::Only(Mover::TipSize),
        Self::Only(Mover::Gears),
        Self::Any,
    ];

    fn key(self) -> &'static str {
        match self {
            Self::Only(mover) => mover.key(),
            Self::Any => "any",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Only(mover) => mover.name(),
            Self::Any => "whichever of these helps most",
        }
    }
}

/// What was moved, where it is now, and what that makes of the line.
fn reached(found: &Match, class: Class, units: Units) -> String {
    let chance = if chance_percent(found.chance) == chance_percent(found.chance_before) {
        format!("is {} likely, as before", chance_percent(found.chance))
    } else {
        format!(
            "is now {} likely; it was {}",
            chance_percent(found.chance),
            chance_percent(found.chance_before)
        )
    };
    format!(
        "{}. Class {} {chance}. The head is planned {} the target of {} gr. Only whole threads can be used, so this is the best.",
        moved(found, units),
        class.number,
        from_target(found.off),
        class.target
    )
}

/// What was moved, and where it is now.
fn moved(&Match { mover, value, .. }: &Match, units: Units) -> String {
    match mover {
        Mover::BellySize => {
            let size = Length::from_millimetres(value);
            format!("The belly is now {}", units.show_diameter_short(size))
        }
        Mover::TipSize => {
            let size = Length::from_millimetres(value);
            format!("The tip is now {}", units.show_diameter_short(size))
        }
        Mover::Gears => format!(
            "Gears are now chosen for {}",
            show::angle(Angle::from_degrees(value))
        ),
        Mover::EndsPerThread => format!("A thread now has {value:.0} ends"),
        Mover::TaperLength => {
            let end = units.show_position(Length::from_metres(value));
            format!("The front taper now ends at {end}")
        }
    }
}

/// `0.6 gr below`, `2.5 gr above`.
pub(super) fn from_target(error: Mass) -> String {
    let side = match error.grains() {
        off if off <= -0.05 => "below",
        off if off >= 0.05 => "above",
        _ => return "exactly on".to_owned(),
    };
    format!("{} {side}", show::grains(error.abs()))
}

/// Which class is wanted, what may move, and what came of it.
#[component]
pub(super) fn ReachClass() -> impl IntoView {
    let bench = bench();
    let class = RwSignal::new(
        bench
            .plan
            .with_untracked(|plan| plan.verdict.number())
            .unwrap_or(5),
    );
    let may_move = RwSignal::new(MayMove::Only(Mover::BellySize));
    let said = RwSignal::new(None::<Result<String, String>>);
    let matching = move |_| {
        let Some(class) = Class::of_number(class.get_untracked()) else {
            return;
        };
        let found = bench
            .settled
            .with_untracked(|design| reach_class(design, class, may_move.get_untracked().movers()));
        said.set(Some(match found {
            Ok(found) => bench
                .commit(found.edit.clone())
                .map(|()| reached(&found, class, bench.units.get_untracked())),
            Err(why) => Err(why.to_string()),
        }));
    };
    // The result is about the line as it was: another line, or a later change, hides it.
    let of_line = RwSignal::new(None::<Design>);
    Effect::watch(
        move || said.get(),
        move |_, _, _| of_line.set(Some(bench.settled.get_untracked())),
        false,
    );
    let is_fresh = move || {
        of_line.with(|line| {
            let same = |line: &Design| bench.settled.with(|design| design == line);
            line.as_ref().is_none_or(same)
        })
    };
    let option = move |one: &Class| {
        let number = one.number;
        view! { <option value=number.to_string() selected=move || class.get() == number>{format!("class {number}")}</option> }
    };
    let choose = move |text: String| {
        if let Ok(number) = text.parse() {
            class.set(number);
        }
    };
    view! {
        <div class="fields matching">
            <label class="field">
                <span class="label">"class wanted"</span>
                <select data-action="match-number" prop:value=move || class.get().to_string() on:change:target=move |event| choose(event.target().value())>
                    {CLASSES.iter().map(option).collect_view()}
                </select>
            </label>
            <ChoiceField
                label="change only"
                action="match-mover"
                value=Signal::derive(move || may_move.get())
                commit=move |chosen: MayMove| { may_move.set(chosen); Ok(()) }
            />
            <button data-action="match-class" on:click=matching>"Make it most likely"</button>
        </div>
        {move || said.get().filter(|_| is_fresh()).map(|said| match said {
            Ok(said) => view! { <p class="hint" role="status" data-matched="true">{said}</p> }.into_any(),
            Err(said) => view! { <p class="said" role="alert" data-matched="false">{said}</p> }.into_any(),
        })}
    }
}
