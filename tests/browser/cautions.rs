//! What can hurt, or goes wrong, in dressing is said at the step it belongs to.

use serde_json::json;
use taperwright::base::choice::Choice as _;
use taperwright::braid::recipe::{Heat, StepKind, StepValue};
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::plan::Plan;

use super::dressing::{field, row, unfold, with};
use super::fields::takes;
use super::harness::{on_the_page, until};
use super::page::Page;

/// How many warnings stand at each step.
const WARNINGS: &str = "
    const steps = [...document.querySelectorAll('li[data-step]')];
    return steps.map((step) => step.querySelectorAll('.warnings li').length);";

#[test]
fn warmth_above_what_the_fibre_bears_is_warned_of_at_its_step() {
    on_the_page(async |page| {
        warns_as_planned(page, &demo()).await;
        let limit = demo().draft().fibre.warm_limit();
        unfold(page, StepKind::Warm).await;
        let celsius = field(StepKind::Warm, "step-celsius");
        for (degrees, is_warned) in [(limit, false), (limit + 1.0, true)] {
            unfold(page, StepKind::Warm).await;
            page.enter_at(&celsius, &degrees.to_string()).await;
            let design = with(&demo(), StepKind::Warm, |step| {
                step.set(StepValue::Celsius, degrees);
            });
            takes(page, &design).await;
            warns_as_planned(page, &design).await;
            let said = warnings_at(page, StepKind::Warm).await;
            let is_said = said.contains("Too warm") && said.contains(&format!("{limit} °C"));
            assert_eq!(is_said, is_warned, "{degrees} °C: “{said}”");
        }
        // The maker's own limit counts before the fibre's.
        page.unfold("warm_limit_celsius").await;
        page.enter("warm_limit_celsius", "60").await;
        page.go_to("dress").await;
        until("the own limit is named", async || {
            let said = warnings_at(page, StepKind::Warm).await;
            (said.contains("60 °C") && said.contains("you set")).then_some(())
        })
        .await;
    });
}

#[test]
fn an_oven_left_alone_is_warned_of_and_one_watched_is_not() {
    on_the_page(async |page| {
        for heat in [Heat::OvenAlone, Heat::OvenWatched] {
            unfold(page, StepKind::Warm).await;
            page.choose_at(&field(StepKind::Warm, "step-heat"), heat.key())
                .await;
            let design = with(&demo(), StepKind::Warm, |step| step.heat = heat);
            takes(page, &design).await;
            warns_as_planned(page, &design).await;
            let said = warnings_at(page, StepKind::Warm).await;
            let is_warned = heat == Heat::OvenAlone;
            assert_eq!(said.contains("Never leave an oven unattended"), is_warned);
        }
    });
}

/// What can hurt is read without opening anything; opened, the step says it in full, with where it comes from.
#[test]
fn cautions_stand_in_the_row_before_it_is_opened() {
    on_the_page(async |page| {
        page.go_to("dress").await;
        for kind in demo().draft().recipe.iter().map(|step| step.kind) {
            let row = row(kind);
            let closed = page.words_of(&format!("{row} > details > summary")).await;
            let dangers = closed.split("Take care: ").nth(1).unwrap_or_default();
            let dangers = dangers.split(", ").filter(|word| !word.trim().is_empty());
            assert_eq!(dangers.count(), kind.cautions().len(), "“{closed}”");
            unfold(page, kind).await;
            let open = page.words_of(&row).await;
            for caution in kind.cautions() {
                assert!(!closed.contains(caution.words()), "it was open before");
                assert!(open.contains(caution.words()), "“{open}” lacks {caution:?}");
                assert!(open.contains(caution.source()), "{caution:?} has no source");
            }
        }
    });
}

/// At every step stand as many warnings as the plan has for it.
pub(super) async fn warns_as_planned(page: &Page, design: &Design) {
    let plan = Plan::of(design);
    let planned: Vec<usize> = plan.dressing.iter().map(|it| it.warnings.len()).collect();
    page.go_to("dress").await;
    until("the warnings are those of the plan", async || {
        let shown: Vec<usize> = page.ask(WARNINGS, vec![]).await;
        (shown == planned).then_some(())
    })
    .await;
}

/// All that is warned of at a step.
async fn warnings_at(page: &Page, kind: StepKind) -> String {
    let script = "return document.querySelector(arguments[0])?.textContent ?? '';";
    let selector = format!("{} .warnings", row(kind));
    page.ask(script, vec![json!(selector)]).await
}
