//! What is said of a measured number: what was expected in its place, and how many numbers cannot be right.

use leptos::prelude::*;

use crate::base::units::show::trimmed;
use crate::keep::book::MeasureKind;
use crate::keep::book::estimate::Residual;

/// How many numbers are doubted, in words.
#[component]
pub(super) fn DoubtCount(doubts: Memo<usize>) -> impl IntoView {
    let words = move || match doubts.get() {
        0 => None,
        1 => Some("1 thing cannot be: open to see".to_owned()),
        count => Some(format!("{count} things cannot be: open to see")),
    };
    move || words().map(|words| view! { <span class="danger">{words}</span> })
}

/// What was expected, and whether the number stands out: `9.21 g expected, +0.4 spreads off`.
pub(super) fn residual_words(residual: &Residual) -> String {
    let unit = residual.source.kind().unit();
    let off = residual.standardised;
    let sign = if off < 0.0 { "\u{2212}" } else { "+" };
    let out = if residual.is_outlier() {
        ": stands out, measure again"
    } else {
        ""
    };
    let lay = matches!(residual.source.kind(), MeasureKind::Lay);
    let what = if lay { "lay of " } else { "" };
    format!(
        "expected {what}{}{}{unit}, {sign}{} spreads off{out}",
        trimmed(residual.expected, 3),
        if unit == "°" { "" } else { "\u{202f}" },
        trimmed(off.abs(), 1)
    )
}
