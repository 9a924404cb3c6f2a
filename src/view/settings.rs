//! The settings: yarn, machine, angle, dressing. Everything here is the maker's to change, and is set in blue.

use leptos::prelude::*;

use super::bench::bench;
use super::field::{ChoiceField, NumberField, TextField};
use crate::design::gears;
use crate::design::settings::Setting;
use crate::edit::Edit;
use crate::units::show::trimmed;
use crate::units::text::{Unit, read};

/// All settings, in groups.
#[component]
pub(crate) fn SettingsPanel() -> impl IntoView {
    view! {
        <section class="settings" id="settings" aria-label="Settings">
            <h2>"What you work with"</h2>
            <Yarn />
            <Machine />
            <Dressing />
            <Notes />
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
                    ground="Raw silk on a cone is usually labelled in the gum, which is boiled off before or after braiding: choose raw then. Degummed, measured or other yarn is labelled as it will be braided."
                    value=Signal::derive(move || bench.settled.with(|design| design.draft().condition))
                    commit=move |condition| bench.commit(Edit::Condition(condition))
                />
            </Show>
            <Label />
            <Numbers of=vec![Setting::EndsPerThread] />
            <Finer>
                <Numbers of=vec![
                    Setting::DegummingLoss,
                    Setting::ThreadPacking,
                    Setting::ThreadFlattening,
                    Setting::ThreadAllowance,
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
            unit=Signal::stored(Unit::Denier.symbol().to_owned())
            ground=Setting::LabelLow.ground()
            value=Signal::derive(written)
            commit=take
        />
    }
}

#[component]
fn Machine() -> impl IntoView {
    let bench = bench();
    let horn_gears = move || {
        let (track, slots) = bench
            .settled
            .with(|design| (design.track(), design.draft().pattern.slots()));
        format!(
            "That is a ring of {} horn gears with {slots} slots each.",
            track.horn_gears()
        )
    };
    let list_gears = move |text: String| {
        let teeth = gears::read(&text).map_err(|unread| unread.to_string())?;
        bench.commit(Edit::Gears(teeth))
    };
    view! {
        <fieldset>
            <legend>"Machine and angle"</legend>
            <Numbers of=vec![Setting::Carriers] />
            <ChoiceField
                label="pattern with all carriers"
                action="pattern"
                ground="What the braid is with every carrier engaged; it tells how many slots a horn gear has. Choosing one brings the nearest count of carriers that has such a track."
                value=Signal::derive(move || bench.settled.with(|design| design.draft().pattern))
                commit=move |pattern| bench.commit(Edit::Pattern(pattern))
            />
            <p class="hint">{horn_gears}</p>
            <Numbers of=vec![Setting::FewestThreads] />
            <TextField
                label="change gears you own, by teeth"
                action="gears"
                ground="Teeth of every change gear, with commas between; 15–30 stands for every tooth from 15 to 30."
                value=Signal::derive(move || bench.settled.with(|design| gears::show(&design.draft().gears)))
                commit=list_gears
            />
            <Numbers of=vec![
                Setting::PartnerTeeth,
                Setting::MachineConstant,
                Setting::TargetAngle,
                Setting::AngleTolerance,
            ] />
            <Finer>
                <Numbers of=vec![Setting::Crimp, Setting::FibreFraction] />
            </Finer>
        </fieldset>
    }
}

#[component]
fn Dressing() -> impl IntoView {
    view! {
        <fieldset>
            <legend>"Dressing"</legend>
            <Numbers of=vec![Setting::OilFill, Setting::OilGain, Setting::Film, Setting::Grease] />
            <Finer>
                <Numbers of=vec![
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
            ground=setting.ground()
            value=Signal::derive(move || bench.settled.with(|design| design.setting(setting)))
            unit=Signal::stored(rule.unit)
            decimals=4
            commit=move |value| bench.commit(Edit::Set(setting, value))
        />
    }
}
