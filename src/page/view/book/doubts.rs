//! What is said of a measured number: what was expected in its place, how many numbers cannot be right, and the question to
//! the maker where one is far from all that is expected.

use leptos::prelude::*;

use super::open_book::open_book;
use crate::base::units::show::{Units, number, trimmed};
use crate::base::units::text::Unit;
use crate::keep::book::doubt::{Doubt, Slip};
use crate::keep::book::estimate::Residual;
use crate::keep::book::record::LineField;
use crate::keep::book::swatch::SwatchField;
use crate::keep::book::{MeasureKind, Source};
use crate::page::view::bench::bench;

/// How many numbers of an entry cannot be, and how many wait for an answer, in words.
#[component]
pub(super) fn DoubtCount(
    /// Complaints.
    doubts: Memo<usize>,
    /// Questions.
    questions: Memo<usize>,
) -> impl IntoView {
    let impossible = move || match doubts.get() {
        0 => None,
        1 => Some("1 number is impossible".to_owned()),
        count => Some(format!("{count} numbers are impossible")),
    };
    let open = move || match questions.get() {
        0 => None,
        1 => Some("1 question for you".to_owned()),
        count => Some(format!("{count} questions for you")),
    };
    let words = move || {
        let parts: Vec<String> = [impossible(), open()].into_iter().flatten().collect();
        (!parts.is_empty()).then(|| format!("{}: open to see", parts.join(", ")))
    };
    move || words().map(|words| view! { <span class="danger">{words}</span> })
}

/// The question a number raises, and the buttons that answer it.
#[component]
pub(super) fn Question(of: Doubt) -> impl IntoView {
    let (bench, open_book) = (bench(), open_book());
    let words = move || question(&of, bench.units.get());
    let take = move |slip: Slip| open_book.press(|book| book.set(slip.at, Some(slip.value)));
    let offer = move |slip: Slip| {
        let label = move || format!("Use {}", meant(&slip, bench.units.get()));
        view! { <button data-action="take-suggestion" on:click=move |_| take(slip)>{label}</button> }
    };
    view! {
        <div class="question" role="status">
            <p>{words}</p>
            <div class="step-buttons">
                {of.slip.map(offer)}
                <button data-action="confirm-value" on:click=move |_| open_book.press(|book| book.confirm(of.source))>
                    "It is right: use it"
                </button>
            </div>
        </div>
    }
}

/// The question in words: how far the number is from what is expected, what it looks like, and what becomes of it.
fn question(doubt: &Doubt, units: Units) -> String {
    let kind = doubt.source.kind();
    let what = if kind == MeasureKind::Lay {
        "A lay of "
    } else {
        ""
    };
    let shown = |value| of_kind(kind, value, units);
    let far = format!(
        "{what}{} is far from the {} ± {} expected.",
        shown(doubt.measured),
        shown(doubt.expected),
        shown(doubt.spread)
    );
    let meanwhile = if doubt.is_used {
        "It counts little until you answer."
    } else {
        "Nothing is learnt from it until you answer."
    };
    let guess = doubt.slip.map_or_else(
        || "Check it, and measure again.".to_owned(),
        |slip| format!("{} Did you mean {}?", slip.words, meant(&slip, units)),
    );
    format!("{far} {guess} {meanwhile}")
}

/// A value of a kind of number, in the unit the reader wants.
fn of_kind(kind: MeasureKind, value: f64, units: Units) -> String {
    match kind {
        MeasureKind::Angle => number(value, 1, Unit::Degree),
        MeasureKind::Lay | MeasureKind::Diameter => {
            in_unit(Unit::Millimetre, units.diameter(), value)
        }
        _ => in_unit(Unit::Gram, Unit::Gram, value),
    }
}

fn in_unit(kept: Unit, wanted: Unit, value: f64) -> String {
    let shown = kept.convert(value, wanted).unwrap_or(value);
    format!("{}\u{202f}{}", trimmed(shown, 3), wanted.symbol())
}

/// What was probably meant: `1.15 mm`, `16 threads`, `0.3 m for the length`.
fn meant(slip: &Slip, units: Units) -> String {
    let value = slip.value;
    match slip.at {
        Source::Swatch(_, SwatchField::Threads) => format!("{} threads", trimmed(value, 0)),
        Source::Swatch(_, SwatchField::Circuits) => format!("{} circuits", trimmed(value, 1)),
        Source::Swatch(_, SwatchField::Crossings) => format!("{} crossings", trimmed(value, 1)),
        Source::Swatch(_, SwatchField::Length) => {
            let length = in_unit(Unit::Metre, units.position(), value);
            format!("{length} for the length")
        }
        Source::Swatch(_, SwatchField::Diameter) | Source::Line(_, _, LineField::Diameter(_)) => {
            in_unit(Unit::Millimetre, units.diameter(), value)
        }
        Source::Swatch(_, SwatchField::Angle) => number(value, 1, Unit::Degree),
        Source::Swatch(..) | Source::Line(..) => in_unit(Unit::Gram, Unit::Gram, value),
    }
}

/// What was expected, and how well the number goes with that: `expected 9.21 g, fits well`.
pub(super) fn residual_words(residual: &Residual) -> String {
    let unit = residual.source.kind().unit();
    let lay = matches!(residual.source.kind(), MeasureKind::Lay);
    let what = if lay { "lay of " } else { "" };
    format!(
        "expected {what}{}{}{unit}, {}",
        trimmed(residual.expected, 3),
        if unit == "°" { "" } else { "\u{202f}" },
        residual.fit_words()
    )
}
