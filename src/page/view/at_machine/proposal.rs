//! What follows from something that went otherwise, before it is taken.

use leptos::prelude::*;

use super::focus::{STEP, focus_part};
use super::session::session;
use super::step_words::step_words;
use crate::base::units::show;
use crate::base::units::{Length, Mass};
use crate::paper::figures::verdict_title;
use crate::paper::words;
use crate::plan::run::Proposal;

/// The head, the place and the next step as they would be; taken or left.
#[component]
pub(super) fn ProposalPanel(made: Proposal) -> impl IntoView {
    let session = session();
    let positions = untrack(|| session.positions());
    let stands = made.run.mishaps.last().map(|mishap| {
        let at = positions.show(Length::from_metres(mishap.at_m));
        format!("The machine is at {at}.")
    });
    let next = made.next.first().map(|event| {
        let at = positions.show(event.at);
        format!("Next, at {at}: {}.", step_words(&made.next))
    });
    let gears = made.regearing.as_ref().map(|regearing| {
        let length = session.with_planned(|_, plan| plan.length);
        let length = length.unwrap_or(Length::ZERO);
        let sentences = words::checks::regearing(regearing, length, |at| positions.show(at));
        let rows = sentences
            .into_iter()
            .map(|words| view! { <li>{words}</li> });
        view! { <ul class="regearing">{rows.collect_view()}</ul> }
    });
    let run = made.run.clone();
    let take = move |_| {
        session.take(run.mishaps.last());
        focus_part(STEP);
    };
    let leave = move |_| {
        session.proposal.set(None);
        focus_part(STEP);
    };
    view! {
        <div class="proposal" role="group" aria-label="What follows" tabindex="-1" data-head=made.after.map(Mass::kilograms)>
            <p><b>{head_words(&made)}</b></p>
            {gears}
            <p>{stands}</p>
            <p>{next}</p>
            <div class="big-buttons" data-answers="">
                <button class="main huge" data-action="mishap-take" on:click=take>"Use this correction"</button>
                <button class="huge" data-action="mishap-leave" on:click=leave>"Cancel"</button>
            </div>
        </div>
    }
}

/// What becomes of the head.
fn head_words(made: &Proposal) -> String {
    let (Some(before), Some(after)) = (made.before, made.after) else {
        return "The line is too short to have a class. The rest of the plan is recalculated."
            .to_owned();
    };
    if made.regearing.is_some() {
        return corrected_words(before, after, made);
    }
    let by = (after - before).grains();
    let class = verdict_title(&made.verdict).to_lowercase();
    if by.abs() < 0.05 {
        format!(
            "The first 30\u{202f}ft stay at {}, {class}.",
            show::grains(after)
        )
    } else {
        let sign = if by < 0.0 { "lighter" } else { "heavier" };
        format!(
            "The first 30\u{202f}ft will weigh {}, {:.1}\u{202f}gr {sign}: {class}.",
            show::grains(after),
            by.abs()
        )
    }
}

/// What becomes of the head with other gears, and without them.
fn corrected_words(before: Mass, after: Mass, made: &Proposal) -> String {
    let class = verdict_title(&made.verdict).to_lowercase();
    let after = show::grains(after);
    if made
        .regearing
        .as_ref()
        .is_some_and(|gears| gears.others.is_empty())
    {
        return format!(
            "By what you measured, the first 30\u{202f}ft will weigh {after}: {class}."
        );
    }
    let before = show::grains(before);
    format!(
        "With the gears below the first 30\u{202f}ft will weigh {after}: {class}. With the gears as planned: {before}."
    )
}
