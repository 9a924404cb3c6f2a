//! Words of the trade: underlined with dots in the text, explained at a tap, and listed on a sheet.

use leptos::prelude::*;

use super::intro::Again;
use super::sheet::Sheet;
use super::sheet_kind::SheetKind;
use crate::paper::chart::term_pictures::{SIZE, TermLayer, TermPicture};
use crate::paper::terms::Term;

/// The element that shows the note of the word tapped last.
const NOTE: &str = "term-note";

/// The word tapped last.
#[derive(Clone, Copy)]
pub(crate) struct TappedTerm(RwSignal<Option<Term>>);

impl TappedTerm {
    /// None yet.
    pub(super) fn none() -> Self {
        Self(RwSignal::new(None))
    }
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
    let TappedTerm(tapped) = expect_context();
    view! {
        <button type="button" class="term" data-term=term.key() popovertarget=NOTE on:click=move |_| tapped.set(Some(term))>{word}</button>
    }
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
pub(crate) fn explained(term: Term) -> AnyView {
    view! { <div class="note" data-term=term.key()><Named term /></div> }.into_any()
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

/// The note of the word tapped last. Placed once, at the end of the page.
#[component]
pub(crate) fn TermNote() -> impl IntoView {
    let TappedTerm(tapped) = expect_context();
    let key = move || tapped.get().map(Term::key);
    let name = move || tapped.get().map_or("", Term::name);
    view! {
        <div class="term-note" popover="auto" id=NOTE data-term=key role="note" aria-label=name>
            {move || tapped.get().map(|term| view! { <Named term /> })}
            <button type="button" popovertarget=NOTE popovertargetaction="hide">"Close"</button>
        </div>
    }
}

/// All words with their notes, in the order of the alphabet.
#[component]
pub(crate) fn WordsSheet() -> impl IntoView {
    let row = |term: Term| {
        view! {
            <details class="word" data-word=term.key()>
                <summary>{term.name()}</summary>
                <div class="note">{drawing(term)}<p>{term.note()}</p></div>
            </details>
        }
    };
    view! {
        <Sheet kind=SheetKind::Words>
            <section class="words" aria-label="Words of the trade">
                <p class="hint">"Words with a dotted underline are explained on the spot: tap them."</p>
                <Again />
                <div class="list">{Term::ALL.map(row).into_iter().collect_view()}</div>
            </section>
        </Sheet>
    }
}
