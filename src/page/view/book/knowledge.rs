//! What is learnt: each number with its spread, what it was before, and from what it is known.

use leptos::prelude::*;

use super::open_book::open_book;
use crate::base::units::show::trimmed;
use crate::base::units::text::Unit;
use crate::design::parameters::Parameter;
use crate::keep::book::estimate::Learnt;
use crate::page::view::terms::TermWord;
use crate::paper::terms::Term;
use crate::plan::prediction::NINETY_FIVE;

/// What the book knows.
#[component]
pub(super) fn Knowledge() -> impl IntoView {
    let open_book = open_book();
    let rows = move || {
        let estimate = open_book.estimate.read();
        estimate.learnt.iter().map(row).collect_view()
    };
    let told = move || {
        let estimate = open_book.estimate.read();
        estimate.learnt.iter().map(told).collect_view()
    };
    let from = move || {
        let estimate = open_book.estimate.read();
        match (estimate.swatches, estimate.lines) {
            (0, 0) => "Nothing measured yet. These are the values you set, each with a guess of its possible error.".to_owned(),
            (swatches, lines) => format!(
                "Learnt from {} and {}, starting from the values set when the book was started.",
                counted(swatches, "swatch", "swatches"),
                counted(lines, "line", "lines")
            ),
        }
    };
    view! {
        <section class="known card" aria-label="What your book knows">
            <h2>"What your book knows"</h2>
            <p class="hint" data-learnt-from>{from}</p>
            <table>
                <tbody>{rows}</tbody>
            </table>
            <details class="finer">
                <summary data-action="where-from">"Where each value comes from"</summary>
                <dl class="told">{told}</dl>
            </details>
            <details class="finer">
                <summary>"How it is calculated"</summary>
                <p class="ground">
                    "± holds in 95 of 100 cases: two "<TermWord term=Term::Spread word="spreads" />" either way. All numbers are estimated together by weighted least squares. A measurement counts more, the smaller the error of its instrument. The values you began with count too, as if measured once with the spread in brackets. Those spreads are our own choice. Machine constant 3 %, crimp 1.5 points, how solid the braid is 3 points, yarn the range of its label. Voids filled 5 points, varnish 30 %, dressed weight 2 %. Lines differ from each other by about 1.5 %. “Measured” is the share of what is known that comes from your measurements. A number more than 1.345 of its errors from the rest counts as that far only (Huber 1964). A number more than five spreads from the expected value is left out until you say that it is right."
                </p>
            </details>
        </section>
    }
}

fn counted(count: u32, one: &str, more: &str) -> String {
    let word = if count == 1 { one } else { more };
    format!("{count} {word}")
}

/// A value with the margin that holds 95 times in 100, no finer than that margin: `3.27 mm ± 0.02`.
fn row(learnt: &Learnt) -> impl IntoView + use<> {
    let parameter = learnt.parameter;
    let margin = NINETY_FIVE * learnt.spread;
    let decimals = decimals(margin);
    let value = format!(
        "{}{} ± {}",
        trimmed(learnt.value, decimals),
        unit(parameter),
        trimmed(margin, decimals)
    );
    view! {
        <tr data-parameter=parameter.setting().key() data-value=learnt.value data-spread=learnt.spread>
            <th scope="row">{parameter.name()}</th>
            <td>{value}</td>
        </tr>
    }
}

/// What a value is known from, and what it was before.
fn told(learnt: &Learnt) -> impl IntoView + use<> {
    let parameter = learnt.parameter;
    let before = format!(
        "{} (± {})",
        number(parameter, learnt.prior),
        plain(parameter, NINETY_FIVE * learnt.prior_spread)
    );
    let measured = match learnt.told_by_words() {
        words if words.is_empty() => "not measured".to_owned(),
        words => format!("{:.0} % measured: {words}", learnt.from_measuring() * 100.0),
    };
    view! { <div><dt>{parameter.name()}</dt><dd>{measured}"; before "{before}</dd></div> }
}

/// As many decimals as the first digit of a margin needs, three at most.
// Between 0 and 3.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn decimals(margin: f64) -> usize {
    if margin > 0.0 {
        (-margin.log10().floor()).clamp(0.0, 3.0) as usize
    } else {
        3
    }
}

fn unit(parameter: Parameter) -> String {
    match parameter.setting().rule().unit {
        Unit::One => String::new(),
        unit => format!("\u{202f}{}", unit.symbol()),
    }
}

/// A value to one digit more than the step of its setting shows, with its unit.
pub(super) fn number(parameter: Parameter, value: f64) -> String {
    format!("{}{}", plain(parameter, value), unit(parameter))
}

fn plain(parameter: Parameter, value: f64) -> String {
    let decimals = match parameter {
        Parameter::Constant => 3,
        Parameter::Crimp | Parameter::Yarn | Parameter::Weighed => 2,
        Parameter::FibreFraction | Parameter::OilFill | Parameter::VarnishPickUp => 1,
    };
    trimmed(value, decimals)
}
