//! The settings: yarn, threads, machine, take-off, dressing. Everything here is the maker's to change, and is set in blue.

mod constant;
mod machine;
mod takeoff;

use leptos::prelude::*;

use super::bench::bench;
use super::field::{ChoiceField, NumberField, TextField};
use super::look::LookChoice;
use crate::base::units::Length;
use crate::base::units::show::trimmed;
use crate::base::units::text::{Unit, read};
use crate::braid::threads::Build;
use crate::braid::vacuum;
use crate::design::settings::Setting;
use crate::edit::Edit;
use crate::paper::terms::Term;

/// All settings, in groups.
#[component]
pub(crate) fn SettingsPanel() -> impl IntoView {
    view! {
        <section class="settings" id="settings" aria-label="Settings">
            <h2>"What you work with"</h2>
            <Yarn />
            <Threads />
            <machine::Machine />
            <takeoff::TakeOff />
            <Dressing />
            <Notes />
            <fieldset>
                <legend>"This page"</legend>
                <LookChoice />
            </fieldset>
        </section>
    }
}

#[component]
fn Yarn() -> impl IntoView {
    let bench = bench();
    view! {
        <fieldset>
            <legend>"Yarn"</legend>
            <ChoiceField
                label="fibre"
                action="fibre"
                ground="Sets the density of the solid fibre. Morton & Hearle, Physical Properties of Textile Fibres, 4th ed. 2008, Tables 5.1–5.2; flax and polyethylene from memory."
                value=Signal::derive(move || bench.settled.with(|design| design.draft().fibre))
                commit=move |fibre| bench.commit(Edit::Fibre(fibre))
            />
            <Show when=move || bench.settled.with(|design| design.draft().fibre.has_gum())>
                <ChoiceField
                    label="the label counts it"
                    action="condition"
                    term=Some(Term::Degumming)
                    ground="Raw silk on a cone is usually labelled in the gum, which is boiled off before or after braiding: choose raw then. Degummed, measured or other yarn is labelled as it will be braided."
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
fn Threads() -> impl IntoView {
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
                label="the line is made thicker by"
                action="build"
                term=Some(Term::Thread)
                ground="More threads: one carrier after another is engaged. Heavier threads: the threads stay as many, and one carrier after another gets a bobbin with more ends. Both: first the one, then the other."
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
        let (low, high) = text.split_once('/').unwrap_or((&text, &text));
        let denier = |end: &str| read(end, Unit::Denier).map_err(|unread| unread.to_string());
        bench.commit(Edit::Label {
            low: denier(low)?,
            high: denier(high)?,
        })
    };
    view! {
        <TextField
            label="size of one end"
            action="label"
            term=Some(Term::Denier)
            unit=Signal::stored(Unit::Denier.symbol().to_owned())
            ground=Setting::LabelLow.ground()
            value=Signal::derive(written)
            commit=take
        />
    }
}

#[component]
fn Dressing() -> impl IntoView {
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
        let air = vacuum::air_at(Length::from_metres(metres));
        bench.commit(Edit::Set(Setting::AirPressure, air.millibars()))
    };
    view! {
        <TextField
            label="or your height above the sea"
            action="height"
            numeric=true
            unit=Signal::stored(Unit::Metre.symbol().to_owned())
            ground="Sets the air pressure to that of the standard atmosphere at this height, ISO 2533. Weather moves it by some 3 %."
            // It is read once; what stays is the pressure.
            value=Signal::stored(String::new())
            commit=take
        />
    }
}

#[component]
fn Notes() -> impl IntoView {
    let bench = bench();
    let wrong = RwSignal::new(None::<String>);
    let take = move |notes: String| wrong.set(bench.commit(Edit::Notes(notes)).err());
    let notes = Memo::new(move |_| bench.settled.with(|design| design.draft().notes.clone()));
    Effect::watch(move || notes.get(), move |_, _, _| wrong.set(None), false);
    view! {
        <fieldset class="wide">
            <legend>"Notes"</legend>
            <textarea
                rows="3"
                aria-label="anything to remember"
                data-action="notes"
                prop:value=notes
                on:change:target=move |event| take(event.target().value())
            ></textarea>
            {move || wrong.get().map(|said| view! { <p class="said" role="alert">{said}</p> })}
        </fieldset>
    }
}

/// Values a maker rarely touches, one tap away.
#[component]
fn Finer(children: Children) -> impl IntoView {
    view! {
        <details class="finer">
            <summary>"finer values"</summary>
            <div class="fields">{children()}</div>
        </details>
    }
}

#[component]
fn Numbers(of: Vec<Setting>) -> impl IntoView {
    of.into_iter()
        .map(|setting| view! { <Number setting /> })
        .collect_view()
}

#[component]
fn Number(setting: Setting) -> impl IntoView {
    let bench = bench();
    let rule = setting.rule();
    view! {
        <NumberField
            label=rule.name
            action=setting.key()
            term=Term::of_setting(setting)
            ground=setting.ground()
            value=Signal::derive(move || bench.settled.with(|design| design.setting(setting)))
            unit=Signal::stored(rule.unit)
            decimals=4
            commit=move |value| bench.commit(Edit::Set(setting, value))
        />
    }
}
