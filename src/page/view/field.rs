//! Fields to type in. What was typed stays in the field until it is understood; what is wrong is shown below it.
//!
//! Snapping is for hands, not for fields: a typed number is taken as it is.

use leptos::prelude::*;

use super::entries::{Entries, Entry};
use super::field_error::FieldError;
use crate::base::choice::Choice;
use crate::base::units::show::trimmed;
use crate::base::units::text::{Unit, read};
use crate::page::browser::focus::reveal;

/// Takes what was entered, or says what is wrong with it. Erased, so that a field is compiled once and not for each use.
pub(crate) type Commit<T> = Callback<T, Result<(), String>>;

/// A field of text. `commit` runs when it is left or Enter is pressed, and says what is wrong.
#[component]
pub(crate) fn TextField(
    /// Its name.
    #[prop(into)]
    label: String,
    /// What it shows while nothing is being typed.
    value: Signal<String>,
    /// Takes what was typed.
    #[prop(into)]
    commit: Commit<String>,
    /// The unit after it.
    #[prop(into, optional)]
    unit: Signal<String>,
    /// Whether a tablet should offer its number keys.
    #[prop(optional)]
    numeric: bool,
    /// A key for tests.
    #[prop(optional)]
    action: &'static str,
    /// What the value means and where its default comes from, one tap away.
    #[prop(optional)]
    ground: &'static str,
    /// The word of the trade it is about, explained before that. It comes built: a field as such knows no words.
    #[prop(optional_no_strip)]
    word: Option<AnyView>,
) -> impl IntoView {
    let typed = RwSignal::new(None::<String>);
    let wrong = FieldError::none();
    // Another design, or the same value changed elsewhere, takes the place of what was typed.
    Effect::watch(
        move || value.get(),
        move |now, before, _| {
            if before.is_some_and(|before| before != now) {
                typed.set(None);
                wrong.set(None);
            }
        },
        false,
    );
    let finish = move || {
        let Some(text) = typed.get_untracked() else {
            return;
        };
        let is_emptied = text.is_empty() && value.with_untracked(String::is_empty);
        let taken = if is_emptied { Ok(()) } else { commit.run(text) };
        match taken {
            Ok(()) => {
                typed.set(None);
                wrong.set(None);
            }
            Err(said) => wrong.set(Some(said)),
        }
    };
    let input = NodeRef::<leptos::html::Input>::new();
    expect_context::<Entries>().add(Entry {
        is_open: Callback::new(move |()| typed.with_untracked(Option::is_some)),
        show: Callback::new(move |()| {
            if let Some(input) = input.get_untracked() {
                reveal(&input);
            }
        }),
    });
    let shown = move || typed.get().unwrap_or_else(|| value.get());
    let name = label.clone();
    view! {
        <div class="field" class:wrong=move || wrong.is_there()>
            <FieldLabel label ground word />
            <span class="entry">
                <input
                    node_ref=input
                    type="text"
                    aria-label=name
                    inputmode=if numeric { "decimal" } else { "text" }
                    autocomplete="off"
                    spellcheck="false"
                    data-action=(!action.is_empty()).then_some(action)
                    aria-invalid=move || wrong.invalid()
                    aria-describedby=move || wrong.described_by()
                    prop:value=shown
                    on:input:target=move |event| typed.set(Some(event.target().value()))
                    on:change=move |_| finish()
                    on:keydown=move |event| {
                        match event.key().as_str() {
                            "Enter" => finish(),
                            "Escape" => {
                                // What was typed goes first; another Escape is for what the field stands in.
                                if typed.with_untracked(Option::is_some) {
                                    event.stop_propagation();
                                }
                                typed.set(None);
                                wrong.set(None);
                            }
                            _ => {}
                        }
                    }
                />
                <span class="unit">{move || unit.get()}</span>
            </span>
            {wrong.shown()}
        </div>
    }
}

/// The name of a field; where there is more to say, a tap opens it.
#[component]
fn FieldLabel(label: String, ground: &'static str, word: Option<AnyView>) -> impl IntoView {
    if ground.is_empty() {
        view! { <span class="label">{label}</span> }.into_any()
    } else {
        view! {
            <details class="label">
                <summary>{label}</summary>
                {word}
                <p class="ground">{ground}</p>
            </details>
        }
        .into_any()
    }
}

/// A field for a number in a unit. Another unit of the same kind may be typed after the number.
#[component]
pub(crate) fn NumberField(
    /// Its name.
    #[prop(into)]
    label: String,
    /// The value, in `unit`.
    value: Signal<f64>,
    /// The unit.
    unit: Signal<Unit>,
    /// Most decimals shown.
    decimals: usize,
    /// Takes the number, in `unit`.
    #[prop(into)]
    commit: Commit<f64>,
    /// A key for tests.
    #[prop(optional)]
    action: &'static str,
    /// What the value means and where its default comes from.
    #[prop(optional)]
    ground: &'static str,
    /// The word of the trade it is about, explained before that. It comes built: a field as such knows no words.
    #[prop(optional_no_strip)]
    word: Option<AnyView>,
) -> impl IntoView {
    let take = move |text: String| {
        let number = read(&text, unit.get_untracked()).map_err(|unread| unread.to_string())?;
        commit.run(number)
    };
    // Written only when the text changes: a drag moves one point, and most fields stay the same.
    let shown = Memo::new(move |_| trimmed(value.get(), decimals));
    view! {
        <TextField
            label
            value=shown.into()
            unit=Signal::derive(move || unit.get().symbol().to_owned())
            numeric=true
            commit=take
            action
            ground
            word
        />
    }
}

/// A choice from a short list.
#[component]
pub(crate) fn ChoiceField<C>(
    /// Its name.
    label: &'static str,
    /// The chosen one.
    value: Signal<C>,
    /// Takes another.
    #[prop(into)]
    commit: Commit<C>,
    /// A key for tests.
    action: &'static str,
    /// What the choice means.
    #[prop(optional)]
    ground: &'static str,
    /// The word of the trade it is about, explained before that. It comes built: a field as such knows no words.
    #[prop(optional_no_strip)]
    word: Option<AnyView>,
) -> impl IntoView
where
    C: Choice + Send + Sync,
{
    let wrong = FieldError::none();
    let take = move |key: String| {
        if let Some(choice) = C::from_key(&key) {
            wrong.set(commit.run(choice).err());
        }
    };
    view! {
        <div class="field" class:wrong=move || wrong.is_there()>
            <FieldLabel label=label.to_owned() ground word />
            <span class="entry">
                <select
                    aria-label=label
                    data-action=action
                    aria-invalid=move || wrong.invalid()
                    aria-describedby=move || wrong.described_by()
                    prop:value=move || value.get().key()
                    on:change:target=move |event| take(event.target().value())
                >
                    {options(value)}
                </select>
            </span>
            {wrong.shown()}
        </div>
    }
}

/// The options of a select: every choice there is.
pub(crate) fn options<C: Choice + Send + Sync>(chosen: Signal<C>) -> impl IntoView {
    let option = |choice: &C| {
        let choice = *choice;
        view! { <option value=choice.key() selected=move || chosen.get() == choice>{choice.name()}</option> }
    };
    C::ALL.iter().map(option).collect_view()
}
