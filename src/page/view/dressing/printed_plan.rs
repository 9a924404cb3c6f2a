//! The dressing plan to print: steps to tick, with their days, amounts and cautions.

use leptos::prelude::*;

use super::days::days;
use crate::base::choice::Choice as _;
use crate::base::units::show::{self, Units};
use crate::braid::recipe::Caution;
use crate::design::Design;
use crate::page::view::bench::bench;
use crate::page::view::sheet::Sheet;
use crate::page::view::sheet_kind::SheetKind;
use crate::paper::figures::{verdict_detail, verdict_title};
use crate::paper::words;
use crate::paper::words::ledger::{ShownLedger, shown};
use crate::plan::days::Day;
use crate::plan::days::dates::{DatedStep, StepStatus};
use crate::plan::{Plan, StepReport};

/// The sheet; its content is made only while it is shown.
#[component]
pub(crate) fn DressingSheet() -> impl IntoView {
    let (bench, days) = (bench(), days());
    let page = move || {
        (bench.sheet.get() == Some(SheetKind::Dressing)).then(|| {
            let (units, dated) = (bench.units.get(), days.all());
            bench.settled.with(|design| {
                bench
                    .settled_plan
                    .with(|plan| sheet(design, plan, &dated, units))
            })
        })
    };
    view! {
        <Sheet kind=SheetKind::Dressing>
            <article class="paper-sheet">
                {page}
            </article>
        </Sheet>
    }
}

fn sheet(design: &Design, plan: &Plan, dated: &[DatedStep], units: Units) -> impl IntoView + use<> {
    let rows = plan.dressing.iter().enumerate();
    let rows = rows.map(|(index, report)| row(report, dated.get(index)));
    let used = |caution: &&Caution| {
        plan.dressing
            .iter()
            .any(|report| report.step.kind.cautions().contains(caution))
    };
    let cautions = Caution::ALL.iter().filter(used).map(|&caution| {
        view! { <p><b>{words::danger(caution)}": "</b>{caution.words()}</p> }
    });
    let bare = plan
        .head_bare_mass
        .map(|head| format!(", its first 30 ft {}", show::mass(head)));
    view! {
        <div class="sheet">
            <header>
                <h1>{format!("Dressing: {}", design.title())}</h1>
                <p class="class">{verdict_title(&plan.verdict)}</p>
                <p class="detail">{verdict_detail(plan, units)}</p>
                <p class="detail">{format!("The bare line weighs {}{}.", show::grams(plan.bare_mass), bare.unwrap_or_default())}</p>
            </header>
            <table class="dressing-table">
                <thead>
                    <tr>
                        <th><span class="spoken">"done"</span></th>
                        <th class="operation">"step"</th>
                        <th class="operation">"days"</th>
                        <th class="operation">"for this line and jar"</th>
                        <th class="operation">"ready when"</th>
                        <th>"weight after"</th>
                    </tr>
                </thead>
                <tbody>{rows.collect_view()}</tbody>
            </table>
            <section class="card-cautions">
                <h2>"Take care"</h2>
                {cautions.collect_view()}
                <p>{Caution::DEFERRING}</p>
            </section>
        </div>
    }
}

/// One step: a box, filled where it was ticked.
fn row(report: &StepReport, dated: Option<&DatedStep>) -> impl IntoView + use<> {
    let kind = report.step.kind;
    let is_done = dated.is_some_and(|dated| matches!(dated.status, StepStatus::Done { .. }));
    let ledger = ShownLedger::of(report);
    let amounts = report.coat.map(|coat| {
        let [poured, taken, _] = words::coat_parts(&coat, &ledger).map(|parts| parts.join(" and "));
        let fill = show::percent(coat.fill);
        format!("Pour {poured}; the line takes up {taken}. Fills {fill} of the empty voids.")
    });
    let dangers: Vec<&str> = kind
        .cautions()
        .iter()
        .map(|&caution| words::danger(caution))
        .collect();
    let dangers = (!dangers.is_empty()).then(|| format!("Take care: {}.", dangers.join(", ")));
    let warnings: Vec<String> = report.warnings.iter().map(words::step_warning).collect();
    view! {
        <tr data-step=kind.key()>
            <td><span class="box" class:filled=is_done></span></td>
            <td class="operation"><b>{kind.name()}</b>" "{words::step_values(&report.step)}<span class="danger">{dangers}</span></td>
            <td class="operation">{dated.map(|dated| Day::range(dated.first, dated.last))}</td>
            <td class="operation">{amounts.unwrap_or_else(|| ledger.change_words())}<span class="danger">{warnings.join(" ")}</span></td>
            <td class="operation">{kind.ready()}</td>
            <td>{shown(ledger.after)}</td>
        </tr>
    }
}
