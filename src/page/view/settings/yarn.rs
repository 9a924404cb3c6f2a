//! Yarn and threads: what is plied, how much of it is engaged, and how the line is made thicker with it.

use leptos::prelude::*;

use super::numbers::{Finer, Numbers};
use crate::base::units::show::trimmed;
use crate::base::units::text::Unit;
use crate::braid::threads::Build;
use crate::design::label;
use crate::design::settings::Setting;
use crate::edit::Edit;
use crate::page::view::bench::bench;
use crate::page::view::field::{ChoiceField, TextField};
use crate::page::view::terms::explained;
use crate::paper::terms::Term;

/// Fibre, condition and label of the yarn.
#[component]
pub(super) fn Yarn() -> impl IntoView {
    let bench = bench();
    view! {
        <fieldset>
            <legend>"Yarn"</legend>
            <ChoiceField
                label="fibre"
                action="fibre"
                ground="Sets the density of the solid fibre. Flax and polyethylene are from memory. Source: Morton & Hearle, Physical Properties of Textile Fibres, 4th ed. 2008, Tables 5.1–5.2."
                value=Signal::derive(move || bench.settled.with(|design| design.draft().fibre))
                commit=move |fibre| bench.commit(Edit::Fibre(fibre))
            />
            <Show when=move || bench.settled.with(|design| design.draft().fibre.has_gum())>
                <ChoiceField
                    label="yarn label refers to"
                    action="condition"
                    word=Some(explained(Term::Degumming))
                    ground="Raw silk on a cone is usually labelled with its gum, which is boiled off before or after braiding. Choose raw for it. Degummed, measured or other yarn is labelled as it will be braided."
                    value=Signal::derive(move || bench.settled.with(|design| design.draft().condition))
                    commit=move |condition| bench.commit(Edit::Condition(condition))
                />
            </Show>
            <Label />
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

/// The size of one end as the label writes it: `20/22`, or one number once it was measured.
#[component]
fn Label() -> impl IntoView {
    let bench = bench();
    let written = move || {
        bench.settled.with(|design| {
            let [low, high] =
                [Setting::LabelLow, Setting::LabelHigh].map(|end| trimmed(design.setting(end), 4));
            if low == high {
                low
            } else {
                format!("{low}/{high}")
            }
        })
    };
    let take = move |text: String| {
        let (low, high) = label::read(&text).map_err(|unread| unread.to_string())?;
        bench.commit(Edit::Label { low, high })
    };
    view! {
        <TextField
            label="size of one end"
            action="label"
            word=Some(explained(Term::Denier))
            unit=Signal::stored(Unit::Denier.symbol().to_owned())
            ground=Setting::LabelLow.ground()
            value=Signal::derive(written)
            commit=take
        />
    }
}
