//! The dressing plan: its steps are the maker's to change, what they add is what the core calculates, and what is dangerous is
//! said where it is done.

use taperwright::base::choice::Choice as _;
use taperwright::base::units::{Length, Pressure};
use taperwright::braid::recipe::{DraftStep, ReadyRecipe, StepKind, StepValue};
use taperwright::braid::vacuum;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::edit::Edit;

use super::cautions::warns_as_planned;
use super::fields::{refuses, refuses_at, takes};
use super::harness::{on_the_page, until};
use super::page::Page;
use super::settings::edited;
use super::states::until_weighs;

/// Keys of the steps, in their order.
const KINDS: &str =
    "return [...document.querySelectorAll('li[data-step]')].map((step) => step.dataset.step);";

#[test]
fn a_value_is_taken_in_any_unit_of_its_kind() {
    on_the_page(async |page| {
        let mut design = demo();
        for (action, value, typed, number) in [
            ("step-hours", StepValue::Hours, "10 days", 240.0),
            ("step-hours", StepValue::Hours, "2 weeks", 336.0),
            ("step-hours", StepValue::Hours, "7,5", 7.5),
            ("step-celsius", StepValue::Celsius, "104 °F", 40.0),
        ] {
            unfold(page, StepKind::Warm).await;
            page.enter_at(&field(StepKind::Warm, action), typed).await;
            design = with(&design, StepKind::Warm, |step| step.set(value, number));
            takes(page, &design).await;
            unfold(page, StepKind::Warm).await;
            let shown = page.value_at(&field(StepKind::Warm, action)).await;
            assert_eq!(shown, number.to_string());
        }
    });
}

#[test]
fn nonsense_stays_in_its_field_and_is_explained() {
    on_the_page(async |page| {
        unfold(page, StepKind::Warm).await;
        let hours = field(StepKind::Warm, "step-hours");
        refuses_at(page, &hours, "a while", &["a while"]).await;
        refuses_at(page, &hours, "3 g", &["g"]).await;
        refuses_at(page, &hours, "-2", &["-2", "0", "4800"]).await;
        let celsius = field(StepKind::Warm, "step-celsius");
        refuses_at(page, &celsius, "900", &["900", "200"]).await;
        refuses(page, "height", "upstairs", &["upstairs"]).await;
    });
}

#[test]
fn no_more_can_be_left_in_the_jar_than_there_is_air_around_it() {
    on_the_page(async |page| {
        unfold(page, StepKind::OilVacuum).await;
        let (index, mut step) = step_of(&demo(), StepKind::OilVacuum);
        step.set(StepValue::Millibar, 1050.0);
        let refusal = Edit::Step(index, step).apply(&demo()).unwrap_err();
        let left = field(StepKind::OilVacuum, "step-mbar");
        refuses_at(page, &left, "1050", &[&refusal.to_string()]).await;
    });
}

/// A gauge shows the difference to the air around it, with or without a minus.
#[test]
fn what_a_gauge_shows_becomes_what_is_left_in_the_jar() {
    on_the_page(async |page| {
        for (typed, millibars) in [("-0.9 bar", -900.0), ("800", 800.0)] {
            unfold(page, StepKind::OilVacuum).await;
            let gauge = field(StepKind::OilVacuum, "step-gauge");
            page.enter_at(&gauge, typed).await;
            let left = vacuum::absolute(Pressure::from_millibars(millibars), demo().air());
            let design = with(&demo(), StepKind::OilVacuum, |step| {
                step.set(StepValue::Millibar, left.millibars());
            });
            takes(page, &design).await;
            warns_as_planned(page, &design).await;
        }
    });
}

#[test]
fn height_above_the_sea_sets_the_air() {
    on_the_page(async |page| {
        page.enter("height", "1500").await;
        let air = vacuum::air_at(Length::from_metres(1500.0)).millibars();
        let design = edited(demo(), Edit::Set(Setting::AirPressure, air));
        assert!(design.air() < demo().air());
        takes(page, &design).await;
        warns_as_planned(page, &design).await;
    });
}

#[test]
fn oil_once_more_adds_coat_drying_test_and_weight_and_is_one_step_to_undo() {
    on_the_page(async |page| {
        let before = until_weighs(page, &demo()).await;
        unfold(page, StepKind::OilVacuum).await;
        page.press_at(&field(StepKind::OilVacuum, "add-coat")).await;
        // After the drying and the testing of the first coat.
        let (test, _) = step_of(&demo(), StepKind::Test);
        let design = edited(demo(), Edit::AddCoat(test + 1));
        takes(page, &design).await;
        let after = until_weighs(page, &design).await;
        assert!(after > before, "{after:?} is no more than {before:?}");
        let further = [StepKind::Oil, StepKind::Air, StepKind::Test];
        page.go_to("dress").await;
        let kinds = kinds(page).await;
        assert_eq!(kinds, keys(&design));
        assert_eq!(
            kinds[test + 1..test + 4],
            further.map(StepKind::key).map(str::to_owned)
        );
        page.press("undo").await;
        takes(page, &demo()).await;
        assert_eq!(until_weighs(page, &demo()).await, before);
    });
}

#[test]
fn steps_are_moved_taken_out_and_added() {
    on_the_page(async |page| {
        let (rub, _) = step_of(&demo(), StepKind::Rub);
        edit_steps(page).await;
        page.press_at(&field(StepKind::Rub, "step-later")).await;
        // The button of a step that was moved keeps the keyboard: it is seldom moved by one place alone.
        page.until_focused(&field(StepKind::Rub, "step-later"))
            .await;
        let later = edited(demo(), Edit::SwapSteps(rub));
        follows(page, &later).await;
        edit_steps(page).await;
        page.press_at(&field(StepKind::Rub, "step-earlier")).await;
        follows(page, &demo()).await;
        edit_steps(page).await;
        page.press_at(&field(StepKind::Rub, "step-remove")).await;
        let without = edited(demo(), Edit::RemoveStep(rub));
        let next = without.draft().recipe[rub].kind;
        page.until_focused(&format!("{} summary", row(next))).await;
        follows(page, &without).await;
        edit_steps(page).await;
        page.choose("add-step", StepKind::Rub.key()).await;
        let end = without.draft().recipe.len();
        follows(page, &edited(without, Edit::AddStep(end, StepKind::Rub))).await;
    });
}

#[test]
fn the_first_step_goes_no_earlier_and_the_last_no_later() {
    on_the_page(async |page| {
        let demo = demo();
        let steps = &demo.draft().recipe;
        edit_steps(page).await;
        for (step, action) in [
            (steps.first(), "step-earlier"),
            (steps.last(), "step-later"),
        ] {
            let kind = step.expect("the demo is dressed").kind;
            let button = field(kind, action);
            assert!(
                page.attribute_at(&button, "disabled").await.is_some(),
                "{button}"
            );
        }
    });
}

#[test]
fn a_ready_recipe_is_taken_and_still_named_after_a_reload() {
    on_the_page(async |page| {
        for ready in [ReadyRecipe::VeryRough, ReadyRecipe::Undressed] {
            page.choose("recipe", ready.key()).await;
            let design = edited(demo(), Edit::Recipe(ready));
            follows(page, &design).await;
            warns_as_planned(page, &design).await;
            page.reload().await;
            page.go_to("dress").await;
            assert_eq!(page.value("recipe").await, ready.key());
            assert_eq!(kinds(page).await, keys(&design));
        }
        // Once a step is changed, it is nobody's recipe but the maker's.
        unfold(page, StepKind::Weigh).await;
        page.enter_at(&field(StepKind::Weigh, "step-hours"), "3")
            .await;
        until("the recipe is one's own", async || {
            page.value("recipe").await.is_empty().then_some(())
        })
        .await;
    });
}

/// The row of a step; where there are several of a kind, the first.
pub(super) fn row(kind: StepKind) -> String {
    format!("li[data-step={}]", kind.key())
}

/// A control of a step.
pub(super) fn field(kind: StepKind, action: &str) -> String {
    format!("{} [data-action={action}]", row(kind))
}

/// Goes to the dressing, and opens a step unless it is open.
pub(super) async fn unfold(page: &Page, kind: StepKind) {
    page.go_to("dress").await;
    let is_open = format!("{} > details[open]", row(kind));
    if page.matching(&is_open).await == 0 {
        let summary = format!("{} > details > summary", row(kind));
        page.until_there(&summary).await;
        page.press_at(&summary).await;
    }
    page.until_there(&is_open).await;
}

/// The first step of a kind, with its place.
fn step_of(design: &Design, kind: StepKind) -> (usize, DraftStep) {
    let steps = design.draft().recipe.iter().copied().enumerate();
    let mut of_kind = steps.filter(|(_, step)| step.kind == kind);
    of_kind.next().expect("there is such a step")
}

/// The design with its first step of a kind changed.
pub(super) fn with(design: &Design, kind: StepKind, change: impl FnOnce(&mut DraftStep)) -> Design {
    let (index, mut step) = step_of(design, kind);
    change(&mut step);
    edited(design.clone(), Edit::Step(index, step))
}

fn keys(design: &Design) -> Vec<String> {
    let steps = design.draft().recipe.iter();
    steps.map(|step| step.kind.key().to_owned()).collect()
}

/// Goes to the dressing, where the list of steps is edited from now on.
async fn edit_steps(page: &Page) {
    page.go_to("dress").await;
    if page.matching("[data-action=add-step]").await == 0 {
        page.press("edit-steps").await;
    }
    page.until_there("[data-action=add-step]").await;
}

async fn kinds(page: &Page) -> Vec<String> {
    page.ask(KINDS, vec![]).await
}

/// The page keeps the design, and lists its steps in their order.
async fn follows(page: &Page, design: &Design) {
    takes(page, design).await;
    page.go_to("dress").await;
    until("the steps stand in their order", async || {
        (kinds(page).await == keys(design)).then_some(())
    })
    .await;
}
