//! Words of the trade: underlined with dots in the text, explained at a tap, and listed at the foot of the page.

use leptos::prelude::*;

use super::intro::Again;
use crate::paper::chart::term_pictures::{SIZE, TermLayer, TermPicture};
use crate::paper::terms::Term;

/// The element that shows the note of a word.
fn id(term: Term) -> String {
    format!("term-{}", term.key())
}

/// A word in the text that a tap explains.
#[component]
pub(crate) fn TermWord(
    /// What it means.
    term: Term,
    /// How it reads here, where that is another form of it.
    #[prop(optional)]
    word: &'static str,
) -> impl IntoView {
    let word = if word.is_empty() { term.name() } else { word };
    view! { <button type="button" class="term" data-term=term.key() popovertarget=id(term)>{word}</button> }
}

/// The words a part of the page uses, each to be tapped.
#[component]
pub(crate) fn TermLine(
    /// Which.
    of: &'static [Term],
) -> impl IntoView {
    view! {
        <p class="terms">
            <span class="hint">"Words used here:"</span>
            {of.iter().map(|&term| view! { <TermWord term /> }).collect_view()}
        </p>
    }
}

/// What a word means, with its name, within other text.
#[component]
pub(crate) fn Explained(
    /// Which.
    term: Term,
) -> impl IntoView {
    view! { <div class="note" data-term=term.key()><Named term /></div> }
}

#[component]
fn Named(term: Term) -> impl IntoView {
    view! {
        {drawing(term)}
        <p><dfn>{term.name()}</dfn>": "{term.note()}</p>
    }
}

/// The drawing of a word. Its note says all that it does, so it stays silent.
fn drawing(term: Term) -> impl IntoView {
    let layer = |TermLayer { ink, path }: TermLayer| view! { <path class=ink.class() d=path /> };
    let svg = move |picture: TermPicture| {
        let (width, height) = SIZE;
        view! {
            <svg
                class="term-picture"
                aria-hidden="true"
                viewBox=format!("0 0 {width} {height}")
                width=width
                height=height
            >
                {picture.layers().into_iter().map(layer).collect_view()}
            </svg>
        }
    };
    term.picture().map(svg)
}

/// The notes of all words, each hidden until its word is tapped. Placed once, at the end of the page.
#[component]
pub(crate) fn TermNotes() -> impl IntoView {
    let note = |term: Term| {
        view! {
            <div class="term-note" popover="auto" id=id(term) data-term=term.key() role="note" aria-label=term.name()>
                <Named term />
                <button type="button" popovertarget=id(term) popovertargetaction="hide">"Close"</button>
            </div>
        }
    };
    Term::ALL.map(note).into_iter().collect_view()
}

/// All words with their notes, in the order of the alphabet.
#[component]
pub(crate) fn Words() -> impl IntoView {
    let row = |term: Term| {
        view! {
            <details class="word" data-word=term.key()>
                <summary>{term.name()}</summary>
                <div class="note">{drawing(term)}<p>{term.note()}</p></div>
            </details>
        }
    };
    view! {
        <section class="words" id="words" aria-label="Words of the trade">
            <h2>"Words of the trade"</h2>
            <p class="hint">"As this page means them. Words underlined with dots are explained where they stand: tap them."</p>
            <Again />
            <div class="list">{Term::ALL.map(row).into_iter().collect_view()}</div>
        </section>
    }
}
