//! What moves along with the chosen point, and what points snap to. Every choice keeps its room when it does not apply, so
//! that nothing jumps.

use leptos::prelude::*;

use crate::base::choice::Choice;
use crate::edit::snap::Snap;
use crate::edit::{Along, LevelStretch, LineEnds, MoveOptions, ends_are_alike};
use crate::page::view::bench::bench;
use crate::page::view::field::options;
use crate::page::view::icon::{Glyph, Icon};

/// The popover with the choices.
const MANNER: &str = "manner";

/// All of them, behind a button.
#[component]
pub(super) fn MoveChoices(
    /// The chosen point.
    index: Memo<usize>,
) -> impl IntoView {
    let bench = bench();
    let summary = move || {
        let (options, snap) = (bench.move_options.get(), bench.snap.get());
        let are_alike = bench.settled.with(ends_are_alike);
        manner_in_words(options, snap, are_alike)
    };
    let words = move || format!("How points move: {}", summary());
    view! {
        <button class="plain" data-action="manner" popovertarget=MANNER aria-label=words title=words><Glyph icon=Icon::Rules /></button>
        <div class="manner" id=MANNER popover="auto" role="group" aria-label="How points move">
            <h3>"How points move"</h3>
            <div class="choices">
                <LevelChoice index />
                <EndsChoice />
                <AlongChoice />
                <SnapChoices />
            </div>
            <button popovertarget=MANNER popovertargetaction="hide">"Close"</button>
        </div>
    }
}

/// All choices in a few words: `level kept, both ends alike, to whole threads`.
fn manner_in_words(options: MoveOptions, snap: Snap, are_alike: bool) -> String {
    let mut words = Vec::new();
    if options.level == LevelStretch::Stays {
        words.push("level parts stay level");
    }
    if are_alike && options.ends == LineEnds::Alike {
        words.push("both ends alike");
    }
    words.push(match options.along {
        Along::Alone => "one point",
        Along::Stretch => "with the next point",
        Along::AllAfter => "with all after it",
    });
    let snaps = [
        (snap.threads, "to whole threads"),
        (snap.letters, "to size letters"),
        (snap.lengths, "to round lengths"),
    ];
    words.extend(snaps.into_iter().filter(|snap| snap.0).map(|snap| snap.1));
    words.join(", ")
}

/// A tick box with its words; it keeps its room while it does not apply.
#[component]
fn OptionBox(
    /// A key for tests.
    action: &'static str,
    /// What it says.
    #[prop(into)]
    words: Signal<String>,
    /// Whether it applies.
    #[prop(into)]
    applies: Signal<bool>,
    /// Whether it is ticked.
    #[prop(into)]
    on: Signal<bool>,
    /// Takes the other state.
    #[prop(into)]
    set: Callback<bool>,
) -> impl IntoView {
    view! {
        <label class="level" class:idle=move || !applies.get()>
            <input
                type="checkbox"
                data-action=action
                disabled=move || !applies.get()
                prop:checked=move || on.get()
                on:change:target=move |event| set.run(event.target().checked())
            />
            <span>{words}</span>
        </label>
    }
}

/// Whether a level stretch stays level when one of its points changes size.
#[component]
fn LevelChoice(index: Memo<usize>) -> impl IntoView {
    let bench = bench();
    let run = Memo::new(move |_| {
        let (first, last) = bench.drawn(|design| design.taper().level_run(index.get()));
        (first < last).then_some((first + 1, last + 1))
    });
    let words = move || match run.get() {
        Some((first, last)) => {
            format!("Keep points {first} to {last} level: they change size together")
        }
        None => "No level stretch begins or ends at this point".to_owned(),
    };
    let set = move |on: bool| {
        let level = if on {
            LevelStretch::Stays
        } else {
            LevelStretch::Bends
        };
        bench.move_options.update(|options| options.level = level);
    };
    view! {
        <OptionBox
            action="keep-level"
            words=Signal::derive(words)
            applies=Signal::derive(move || run.get().is_some())
            on=Signal::derive(move || bench.move_options.get().level == LevelStretch::Stays)
            set
        />
    }
}

/// Whether both ends of a double taper move together.
#[component]
fn EndsChoice() -> impl IntoView {
    let bench = bench();
    let are_alike = Memo::new(move |_| bench.settled.with(ends_are_alike));
    let words = move || {
        if are_alike.get() {
            "Keep both ends alike: a change at one end is made at the other too"
        } else {
            "The ends of this line are not alike"
        }
        .to_owned()
    };
    let set = move |on: bool| {
        let ends = if on { LineEnds::Alike } else { LineEnds::Apart };
        bench.move_options.update(|options| options.ends = ends);
    };
    view! {
        <OptionBox
            action="keep-ends"
            words=Signal::derive(words)
            applies=are_alike
            on=Signal::derive(move || bench.move_options.get().ends == LineEnds::Alike)
            set
        />
    }
}

/// What moves along when a point is moved lengthwise.
#[component]
fn AlongChoice() -> impl IntoView {
    let bench = bench();
    let choose = move |key: String| {
        if let Some(along) = Along::from_key(&key) {
            bench.move_options.update(|options| options.along = along);
        }
    };
    let chosen = Signal::derive(move || bench.move_options.get().along);
    view! {
        <label class="along">
            <span>"When a point moves, also move"</span>
            <select data-action="along" on:change:target=move |event| choose(event.target().value())>
                {options(chosen)}
            </select>
        </label>
    }
}

/// What points snap to.
#[component]
fn SnapChoices() -> impl IntoView {
    let bench = bench();
    let tick = move |action, words: &'static str, of: fn(&mut Snap) -> &mut bool| {
        let on = move || *of(&mut bench.snap.get());
        let set = move |on: bool| bench.snap.update(|snap| *of(snap) = on);
        view! { <OptionBox action words=Signal::derive(move || words.to_owned()) applies=true on=Signal::derive(on) set /> }
    };
    view! {
        <fieldset class="snap">
            <legend>"A dragged point snaps to the nearest"</legend>
            {tick("snap-threads", "whole thread", |snap| &mut snap.threads)}
            {tick("snap-threads-by-finger", "whole thread, under a finger", |snap| &mut snap.threads_by_finger)}
            {tick("snap-letters", "size letter", |snap| &mut snap.letters)}
            {tick("snap-lengths", "round length", |snap| &mut snap.lengths)}
        </fieldset>
    }
}
