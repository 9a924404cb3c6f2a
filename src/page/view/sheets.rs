//! All sheets of the page, and what lies over everything.

use leptos::prelude::*;

use super::deferred::Deferred;
use super::{
    book, card, cautions, compare, dressing, drop_to_open, figures_sheet, finder, kept, measured,
    new_line, photo, points, questions, settings, share_sheet, terms, turnover,
};

/// The sheets, each empty until it is opened, and what lies over them.
#[component]
pub(super) fn Sheets() -> impl IntoView {
    view! {
        <figures_sheet::FiguresSheet />
        <kept::KeptSheet />
        <measured::MeasuredSheet />
        <photo::PhotoSheet />
        <new_line::NewLineSheet />
        <share_sheet::ShareSheet />
        <questions::QuestionsSheet />
        <settings::WorkshopSheet />
        <points::NumbersSheet />
        <compare::CompareSheet />
        <turnover::TurnoverSheet />
        <finder::PlansSheet />
        <terms::WordsSheet />
        <cautions::CautionsSheet />
        <Deferred><card::CardSheet /></Deferred>
        <Deferred><dressing::DressingSheet /></Deferred>
        <Deferred><book::Tag /></Deferred>
        <drop_to_open::DropHint />
        <terms::TermNote />
    }
}
