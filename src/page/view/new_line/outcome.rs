//! What the choices make, shown before the line is begun.

use core::time::Duration;
use std::sync::Arc;

use leptos::prelude::*;

use super::state::{Made, MadeLine, NewLine, line_of};
use crate::base::units::show;
use crate::design::Design;
use crate::page::view::line_picture::{frame, line_picture};
use crate::paper::chart::outline::outline;
use crate::paper::figures::prediction_detail;
use crate::paper::words;

/// Calculates what is chosen, a moment after it is: the search takes a while, and the button must answer first.
pub(super) fn watch(new_line: NewLine) {
    let asked = Memo::new(move |_| new_line.asked());
    Effect::new(move |_| {
        let Some((shape, class, source)) = asked.get() else {
            return;
        };
        new_line.made.set(Made::Coming);
        let calculate = move || {
            if asked.try_get_untracked().flatten() != Some((shape, class, source.clone())) {
                return;
            }
            let made = match line_of(shape, class, &source) {
                Ok(design) => Made::Line(Arc::new(made_line(new_line, design, &source.design))),
                Err(why) => Made::Nothing(why),
            };
            new_line.made.try_set(made);
        };
        set_timeout(calculate, Duration::from_millis(30));
    });
}

fn made_line(new_line: NewLine, design: Design, own: &Design) -> MadeLine {
    let (before, after) = (own.supply().light, design.supply().light);
    MadeLine {
        plan: new_line.bench.plan_of(&design),
        design,
        ends: (before != after).then_some((before, after)),
    }
}

/// What is shown of it.
#[component]
pub(super) fn Outcome(new_line: NewLine) -> impl IntoView {
    let shown = move || match new_line.made.get() {
        Made::Unasked => {
            view! { <p class="hint">"Choose a shape and a class to see the result here."</p> }
                .into_any()
        }
        Made::Coming => view! { <p class="hint">"Calculating …"</p> }.into_any(),
        Made::Line(made) => line(new_line, &made),
        Made::Nothing(why) => view! { <p class="said" role="alert">{why}</p> }.into_any(),
    };
    let state = move || match new_line.made.get() {
        Made::Unasked => "unasked",
        Made::Coming => "coming",
        Made::Line(_) => "line",
        Made::Nothing(_) => "nothing",
    };
    view! {
        <section class="card outcome" aria-label="Result" data-made=state>
            <h3>"Result"</h3>
            <div role="status">{shown}</div>
        </section>
    }
}

fn line(new_line: NewLine, made: &MadeLine) -> AnyView {
    let MadeLine { design, plan, ends } = made;
    let units = new_line.bench.units.get();
    let taper = design.taper();
    let picture = outline(&taper, &frame(core::slice::from_ref(&taper)));
    let (fewest, most) = (plan.threads_min(), plan.threads_max());
    let threads = if fewest == most {
        format!("{most} of {} ends", design.supply().light)
    } else {
        format!("{fewest} to {most} of {} ends", design.supply().light)
    };
    let weight = prediction_detail(plan).or_else(|| plan.head_mass.map(show::grains));
    let rows = [
        ("Threads", threads),
        ("First 30 ft", weight.unwrap_or_default()),
        ("Length", units.show_yarn(plan.length, 1)),
        ("At the machine", words::changes_in_all(plan)),
    ];
    let row = |(name, value): (&'static str, String)| view! { <div><dt>{name}</dt><dd>{value}</dd></div> };
    let warnings = words::warnings(&plan.notices)
        .map(|notice| view! { <p class="said">{words::notice(notice, units)}</p> });
    let other = ends.map(|(before, after)| {
        format!(
            "It needs {after} ends in a thread. With your gears, {before} do not give a good line."
        )
    });
    view! {
        {line_picture(picture)}
        <dl class="facts">{rows.map(row).into_iter().collect_view()}</dl>
        {other.map(|words| view! { <p data-other-ends="">{words}</p> })}
        {warnings.collect_view()}
    }
    .into_any()
}
