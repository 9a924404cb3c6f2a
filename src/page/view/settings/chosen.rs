//! Fields for the settings that are no single number.

use leptos::prelude::*;

use crate::base::units::text::Unit;
use crate::braid::recipe::RecipeChoice;
use crate::design::chosen::Chosen;
use crate::design::machine::ReadyMade;
use crate::design::settings::Setting;
use crate::design::{gears, label};
use crate::edit::Edit;
use crate::page::view::bench::{Bench, bench};
use crate::page::view::field::{ChoiceField, TextField};
use crate::page::view::terms::explained;
use crate::paper::terms::Term;

/// The field of such a setting.
#[component]
pub(crate) fn ChosenField(of: Chosen) -> impl IntoView {
    let bench = bench();
    match of {
        Chosen::Fibre => view! {
            <ChoiceField
                label=of.name()
                action=of.key()
                ground=of.ground()
                value=Signal::derive(move || bench.settled.with(|design| design.draft().fibre))
                commit=move |fibre| bench.commit(Edit::Fibre(fibre))
            />
        }
        .into_any(),
        Chosen::Condition => view! {
            <ChoiceField
                label=of.name()
                action=of.key()
                word=Some(explained(Term::Degumming))
                ground=of.ground()
                value=Signal::derive(move || bench.settled.with(|design| design.draft().condition))
                commit=move |condition| bench.commit(Edit::Condition(condition))
            />
        }
        .into_any(),
        Chosen::Machine => view! {
            <ChoiceField
                label=of.name()
                action=of.key()
                ground=of.ground()
                value=Signal::derive(move || bench.settled.with(|design| ReadyMade::of(design.draft())))
                commit=move |ready_made| bench.commit(Edit::Machine(ready_made))
            />
        }
        .into_any(),
        Chosen::Train => view! {
            <ChoiceField
                label=of.name()
                action=of.key()
                word=Some(explained(Term::Train))
                ground=of.ground()
                value=Signal::derive(move || bench.settled.with(|design| design.draft().train))
                commit=move |train| bench.commit(Edit::Train(train))
            />
        }
        .into_any(),
        Chosen::Recipe => view! {
            <ChoiceField
                label=of.name()
                action=of.key()
                word=Some(explained(Term::Dressing))
                ground=of.ground()
                value=Signal::derive(move || bench.settled.with(|design| RecipeChoice::of(&design.draft().recipe)))
                commit=move |recipe| dress_by(bench, recipe)
            />
        }
        .into_any(),
        Chosen::Label => view! { <Label /> }.into_any(),
        Chosen::Gears => view! { <Gears /> }.into_any(),
    }
}

/// Takes a ready recipe; steps of one's own are made elsewhere.
fn dress_by(bench: Bench, recipe: RecipeChoice) -> Result<(), String> {
    match recipe {
        RecipeChoice::Ready(ready) => bench.commit(Edit::Recipe(ready)),
        RecipeChoice::Own => Err(
            "To make your own recipe, choose a ready one. Then edit its steps in Dress.".to_owned(),
        ),
    }
}

/// The size of one end as the label writes it: `20/22`, or one number once it was measured.
#[component]
fn Label() -> impl IntoView {
    let bench = bench();
    let written = move || {
        bench.settled.with(|design| {
            let [low, high] =
                [Setting::LabelLow, Setting::LabelHigh].map(|end| design.setting(end));
            label::show(low, high)
        })
    };
    let take = move |text: String| {
        let (low, high) = label::read(&text).map_err(|unread| unread.to_string())?;
        bench.commit(Edit::Label { low, high })
    };
    let of = Chosen::Label;
    view! {
        <TextField
            label=of.name()
            action=of.key()
            word=Some(explained(Term::Denier))
            unit=Signal::stored(Unit::Denier.symbol().to_owned())
            ground=of.ground()
            value=Signal::derive(written)
            commit=take
        />
    }
}

/// The change gears owned, by their teeth.
#[component]
fn Gears() -> impl IntoView {
    let bench = bench();
    let take = move |text: String| {
        let owned = bench
            .settled
            .with_untracked(|design| design.draft().gears.clone());
        let teeth = gears::read(&text, &owned).map_err(|unread| unread.to_string())?;
        bench.commit(Edit::Gears(teeth))
    };
    let of = Chosen::Gears;
    view! {
        <TextField
            label=of.name()
            action=of.key()
            word=Some(explained(Term::ChangeGear))
            ground=of.ground()
            value=Signal::derive(move || bench.settled.with(|design| gears::show(&design.draft().gears)))
            commit=take
        />
    }
}
