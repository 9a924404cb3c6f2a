//! Finding the machine constant: from a braid measured, or from roller and train.

use leptos::prelude::*;

use crate::base::choice::Choice;
use crate::base::units::Length;
use crate::base::units::show::trimmed;
use crate::base::units::text::Unit;
use crate::braid::takeoff::Measured;
use crate::design::settings::Setting;
use crate::edit::Edit;
use crate::page::view::bench::bench;
use crate::page::view::entries::{Entries, EntryGroup};
use crate::page::view::field::{ChoiceField, NumberField};
use crate::page::view::field_error::FieldError;
use crate::page::view::terms::explained;
use crate::paper::terms::Term;

/// What was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum ConstantMethod {
    Circuits,
    Crossings,
    Roller,
}

impl Choice for ConstantMethod {
    const ALL: &'static [Self] = &[Self::Circuits, Self::Crossings, Self::Roller];

    fn key(self) -> &'static str {
        match self {
            Self::Circuits => "circuits",
            Self::Crossings => "crossings",
            Self::Roller => "roller",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Circuits => "carrier circuits over a length",
            Self::Crossings => "crossings along one rib over a length",
            Self::Roller => "roller and train",
        }
    }
}

/// What was typed. Lengths in millimetres.
#[derive(Clone, Copy)]
struct ConstantInput {
    method: RwSignal<ConstantMethod>,
    counted: RwSignal<f64>,
    length: RwSignal<f64>,
    driver: RwSignal<f64>,
    driven: RwSignal<f64>,
    threads: RwSignal<f64>,
    horn_gears: RwSignal<f64>,
    roller: RwSignal<f64>,
    train: RwSignal<f64>,
}

impl ConstantInput {
    /// Begins with round numbers, which the maker types over.
    fn new() -> Self {
        Self {
            method: RwSignal::new(ConstantMethod::Circuits),
            counted: RwSignal::new(100.0),
            length: RwSignal::new(170.0),
            driver: RwSignal::new(20.0),
            driven: RwSignal::new(40.0),
            threads: RwSignal::new(16.0),
            horn_gears: RwSignal::new(8.0),
            roller: RwSignal::new(50.0),
            train: RwSignal::new(0.005),
        }
    }

    fn measured(self) -> Measured {
        let ratio = self.driver.get() / self.driven.get();
        let length = Length::from_millimetres(self.length.get());
        match self.method.get() {
            ConstantMethod::Circuits => Measured::Circuits {
                circuits: self.counted.get(),
                length,
                ratio,
            },
            ConstantMethod::Crossings => Measured::Crossings {
                crossings: self.counted.get(),
                length,
                threads: self.threads.get(),
                ratio,
            },
            ConstantMethod::Roller => Measured::Roller {
                horn_gears: self.horn_gears.get(),
                diameter: Length::from_millimetres(self.roller.get()),
                train: self.train.get(),
            },
        }
    }
}

/// A small bench of its own, folded away.
#[component]
pub(crate) fn ConstantFinder() -> impl IntoView {
    let bench = bench();
    let input = ConstantInput::new();
    let constant = Memo::new(move |_| input.measured().constant());
    let said = FieldError::none();
    let words = move || {
        let constant = constant.get();
        if constant.is_finite() {
            format!(
                "This gives {} mm at 1:1.",
                trimmed(constant.millimetres(), 3)
            )
        } else {
            "This gives no number yet.".to_owned()
        }
    };
    let use_it = move |_| {
        let edit = Edit::Set(
            Setting::MachineConstant,
            constant.get_untracked().millimetres(),
        );
        said.set(bench.commit(edit).err());
    };
    let is_roller = move || input.method.get() == ConstantMethod::Roller;
    view! {
        <EntryGroup entries=Entries::new()><details class="finer" id="constant">
            <summary>"Find the take-off per circuit at 1:1"</summary>
            <div class="fields">
                <ChoiceField
                    label="what you measured"
                    action="constant-way"
                    word=Some(explained(Term::MachineConstant))
                    ground="One measured braid gives the constant, with wear and slip of the roller included. Braid with known gears until the angle is steady. Mark, count, and mark again. Count crossings along one rib under a loupe."
                    value=Signal::derive(move || input.method.get())
                    commit=move |method| { input.method.set(method); Ok(()) }
                />
                <Show when=move || !is_roller()>
                    <Measure label="counted" action="constant-counted" of=input.counted unit=Unit::One />
                    <Measure label="over a length of" action="constant-length" of=input.length unit=Unit::Millimetre />
                    <Measure label="teeth of the driving gear" action="constant-driver" of=input.driver unit=Unit::One />
                    <Measure label="teeth of the driven gear" action="constant-driven" of=input.driven unit=Unit::One />
                </Show>
                <Show when=move || input.method.get() == ConstantMethod::Crossings>
                    <Measure label="threads engaged" action="constant-threads" of=input.threads unit=Unit::One />
                </Show>
                <Show when=is_roller>
                    <Measure label="horn gears" action="constant-horn-gears" of=input.horn_gears unit=Unit::One />
                    <Measure label="roller diameter" action="constant-roller" of=input.roller unit=Unit::Millimetre />
                    <Measure label="roller turns per horn gear turn" action="constant-train" of=input.train unit=Unit::One />
                </Show>
                <p class="hint" data-constant=move || constant.get().metres().to_string()>{words}</p>
                <div class="field">
                    <button data-action="use-constant" on:click=use_it>"Use this value"</button>
                    {said.shown()}
                </div>
            </div>
        </details></EntryGroup>
    }
}

/// One number of the entry; it must be more than nothing.
#[component]
fn Measure(
    label: &'static str,
    action: &'static str,
    of: RwSignal<f64>,
    unit: Unit,
) -> impl IntoView {
    let take = move |value: f64| {
        if value > 0.0 && value.is_finite() {
            of.set(value);
            Ok(())
        } else {
            Err(format!("“{label}” needs a number above 0."))
        }
    };
    view! {
        <NumberField label action value=Signal::derive(move || of.get()) unit=Signal::stored(unit) decimals=6 commit=take />
    }
}
