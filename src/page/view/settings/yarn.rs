//! Yarn and threads: what is plied, how much of it is engaged, and how the line is made thicker with it.

use leptos::prelude::*;

use super::chosen::ChosenField;
use super::numbers::{Finer, Numbers};
use crate::braid::threads::Build;
use crate::design::chosen::Chosen;
use crate::design::settings::Setting;
use crate::edit::Edit;
use crate::page::view::bench::bench;
use crate::page::view::field::ChoiceField;
use crate::page::view::terms::explained;
use crate::paper::terms::Term;

/// Fibre, condition and label of the yarn.
#[component]
pub(super) fn Yarn() -> impl IntoView {
    let bench = bench();
    view! {
        <fieldset>
            <legend>"Yarn"</legend>
            <ChosenField of=Chosen::Fibre />
            <Show when=move || bench.settled.with(|design| design.draft().fibre.has_gum())>
                <ChosenField of=Chosen::Condition />
            </Show>
            <ChosenField of=Chosen::Label />
            <Finer>
                <Numbers of=vec![
                    Setting::DegummingLoss,
                    Setting::ThreadPacking,
                    Setting::ThreadFlattening,
                    Setting::PlyingAllowance,
                    Setting::YarnFactor,
                ] />
            </Finer>
        </fieldset>
    }
}

/// What is plied, how many of it are engaged, and how the line is made thicker with them.
#[component]
pub(super) fn Threads() -> impl IntoView {
    let bench = bench();
    let takes_heavier = move || {
        bench
            .settled
            .with(|design| design.draft().build != Build::MoreThreads)
    };
    view! {
        <fieldset>
            <legend>"Threads"</legend>
            <ChoiceField
                label="make the line thicker by"
                action="build"
                word=Some(explained(Term::Thread))
                ground="More threads: one carrier after another is engaged. Heavier threads: the number of threads stays, and one carrier after another gets a bobbin with more ends. Both: first more threads, then heavier ones."
                value=Signal::derive(move || bench.settled.with(|design| design.draft().build))
                commit=move |build| bench.commit(Edit::Build(build))
            />
            <Numbers of=vec![Setting::EndsPerThread] />
            <Show when=takes_heavier>
                <Numbers of=vec![Setting::HeavierEnds] />
            </Show>
            <Numbers of=vec![
                Setting::FewestThreads,
                Setting::MostThreads,
                Setting::LeastSpacing,
                Setting::StopPrice,
                Setting::BuriedTail,
            ] />
            <Finer>
                <Numbers of=vec![
                    Setting::LeadIn,
                    Setting::ThreadAllowance,
                    Setting::BobbinFull,
                    Setting::BobbinBarrel,
                    Setting::BobbinWidth,
                    Setting::BobbinPacking,
                ] />
            </Finer>
        </fieldset>
    }
}
