//! The dressing plan: its steps are the maker's to change, what they add is what the core reckons, and what is dangerous is
//! said where it is done.

use serde_json::json;
use taperwright::chart::heft::Finish;
use taperwright::choice::Choice as _;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::edit::Edit;
use taperwright::plan::Plan;
use taperwright::recipe::{DraftStep, Heat, ReadyRecipe, StepKind, StepValue};
use taperwright::units::{Length, Mass, Pressure};
use taperwright::vacuum;

use super::fields::{refuses, refuses_at, takes};
use super::harness::{on_the_page, until};
use super::page::Page;
use super::settings::edited;
use super::state::near;

/// Keys of the steps, in their order.
const KINDS: &str =
    "return [...document.querySelectorAll('li[data-step]')].map((step) => step.dataset.step);";

/// How many warnings stand at each step.
const WARNINGS: &str = "
    const steps = [...document.querySelectorAll('li[data-step]')];
    return steps.map((step) => step.querySelectorAll('.warnings li').length);";

#[test]
fn a_value_is_taken_in_any_unit_of_its_kind() {
    on_the_page(async |page| {
        unfold(page, StepKind::Warm).await;
        let mut design = demo();
        for (action, value, typed, number) in [
            ("step-hours", StepValue::Hours, "10 days", 240.0),
            ("step-hours", StepValue::Hours, "2 weeks", 336.0),
            ("step-hours", StepValue::Hours, "7,5", 7.5),
            ("step-celsius", StepValue::Celsius, "104 °F", 40.0),
        ] {
            page.enter_at(&field(StepKind::Warm, action), typed).await;
            design = with(&design, StepKind::Warm, |step| step.set(value, number));
            takes(page, &design).await;
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
        unfold(page, StepKind::OilVacuum).await;
        for (typed, millibars) in [("-0.9 bar", -900.0), ("800", 800.0)] {
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
        // Behind the drying and the testing of the first coat.
        let (test, _) = step_of(&demo(), StepKind::Test);
        let design = edited(demo(), Edit::AddCoat(test + 1));
        takes(page, &design).await;
        let after = until_weighs(page, &design).await;
        assert!(after > before, "{after:?} is no more than {before:?}");
        let further = [StepKind::Oil, StepKind::Air, StepKind::Test];
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
        unfold(page, StepKind::Rub).await;
        page.press_at(&field(StepKind::Rub, "step-later")).await;
        let later = edited(demo(), Edit::SwapSteps(rub));
        follows(page, &later).await;
        // A step that was moved stays open, and its button keeps the keyboard: it is seldom moved by one place alone.
        until_focused(page, &field(StepKind::Rub, "step-later")).await;
        page.press_at(&field(StepKind::Rub, "step-earlier")).await;
        follows(page, &demo()).await;
        page.press_at(&field(StepKind::Rub, "step-remove")).await;
        let without = edited(demo(), Edit::RemoveStep(rub));
        follows(page, &without).await;
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
        for (step, action) in [
            (steps.first(), "step-earlier"),
            (steps.last(), "step-later"),
        ] {
            let kind = step.expect("the demo is dressed").kind;
            unfold(page, kind).await;
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

#[test]
fn warmth_above_what_the_fibre_bears_is_warned_of_at_its_step() {
    on_the_page(async |page| {
        warns_as_planned(page, &demo()).await;
        let limit = demo().draft().fibre.warm_limit();
        unfold(page, StepKind::Warm).await;
        let celsius = field(StepKind::Warm, "step-celsius");
        for (degrees, is_warned) in [(limit, false), (limit + 1.0, true)] {
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
        unfold(page, StepKind::Warm).await;
        for heat in [Heat::OvenAlone, Heat::OvenWatched] {
            page.press_at(&field(StepKind::Warm, "step-heat")).await;
            choose_at(page, &field(StepKind::Warm, "step-heat"), heat.key()).await;
            let design = with(&demo(), StepKind::Warm, |step| step.heat = heat);
            takes(page, &design).await;
            warns_as_planned(page, &design).await;
            let said = warnings_at(page, StepKind::Warm).await;
            let is_warned = heat == Heat::OvenAlone;
            assert_eq!(said.contains("Never leave an oven alone"), is_warned);
        }
    });
}

/// What can hurt is read without opening anything; opened, the step says it in full, with where it comes from.
#[test]
fn cautions_stand_in_the_row_before_it_is_opened() {
    on_the_page(async |page| {
        for kind in demo().draft().recipe.iter().map(|step| step.kind) {
            let row = row(kind);
            let closed = words_at(page, &format!("{row} > details > summary")).await;
            let dangers = closed.split("Take care: ").nth(1).unwrap_or_default();
            let dangers = dangers.split(", ").filter(|word| !word.trim().is_empty());
            assert_eq!(dangers.count(), kind.cautions().len(), "“{closed}”");
            unfold(page, kind).await;
            let open = words_at(page, &row).await;
            for caution in kind.cautions() {
                assert!(!closed.contains(caution.words()), "it was open before");
                assert!(open.contains(caution.words()), "“{open}” lacks {caution:?}");
                assert!(open.contains(caution.source()), "{caution:?} has no source");
            }
        }
    });
}

#[test]
fn the_line_is_looked_at_bare_oiled_and_finished() {
    on_the_page(async |page| {
        let plan = Plan::of(&demo());
        let at = Length::from_metres(here(page, "at").await);
        let braid = plan.station(at).braid.diameter;
        let whole = plan.line.making().dressing;
        let mut seen: Vec<(Length, String)> = Vec::new();
        for finish in Finish::ALL {
            page.press(&format!("show-{}", finish.name())).await;
            let made = finish.dressing(&whole).diameter(braid);
            until("the readout follows", async || {
                near(here(page, "diameter").await, made.metres()).then_some(())
            })
            .await;
            let said = page.words_of(".readout").await;
            for other in [Finish::Bare, Finish::Oiled] {
                assert_eq!(said.contains(other.name()), other == finish, "“{said}”");
            }
            let path = page.attribute_at(".sight .silhouette", "d").await;
            seen.push((made, path.expect("a silhouette has a path")));
        }
        assert_ne!(seen[0].0, seen[2].0, "the demo's film has no thickness");
        for (a, b) in [(0, 1), (1, 2), (0, 2)] {
            let (a, b) = (&seen[a], &seen[b]);
            assert_eq!(a.0 == b.0, a.1 == b.1, "{:?} and {:?}", a.0, b.0);
        }
    });
}

/// The table of states weighs what the plan does.
#[test]
fn every_state_weighs_what_the_plan_says() {
    on_the_page(async |page| {
        let plan = Plan::of(&demo());
        let head = until_weighs(page, &demo()).await;
        assert!(near(head.kilograms(), plan.head_mass.unwrap().kilograms()));
        for (finish, whole, head) in [
            (Finish::Bare, plan.bare_mass, plan.head_bare_mass),
            (Finish::Finished, plan.total_mass, plan.head_mass),
        ] {
            let shown = weights(page, finish).await;
            assert!(near(shown.0, whole.kilograms()), "{finish:?}: {shown:?}");
            assert!(
                near(shown.1, head.unwrap().kilograms()),
                "{finish:?}: {shown:?}"
            );
        }
        let [bare, oiled, finished] =
            [Finish::Bare, Finish::Oiled, Finish::Finished].map(Finish::name);
        assert_eq!([bare, oiled, finished], ["bare", "oiled", "finished"]);
        let oiled = weights(page, Finish::Oiled).await;
        assert!(plan.bare_mass.kilograms() < oiled.0 && oiled.0 < plan.total_mass.kilograms());
        // The last step leaves the finished line.
        let last = page
            .attribute_at("li[data-step]:last-child", "data-mass")
            .await;
        let last: f64 = last.expect("a step has a mass").parse().unwrap();
        assert!(near(last, plan.total_mass.kilograms()));
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

/// Opens a step.
pub(super) async fn unfold(page: &Page, kind: StepKind) {
    page.press_at(&format!("{} > details > summary", row(kind)))
        .await;
    page.until_there(&format!("{} > details[open]", row(kind)))
        .await;
}

/// The first step of a kind, with its place.
fn step_of(design: &Design, kind: StepKind) -> (usize, DraftStep) {
    let steps = design.draft().recipe.iter().copied().enumerate();
    let mut of_kind = steps.filter(|(_, step)| step.kind == kind);
    of_kind.next().expect("there is such a step")
}

/// The design with its first step of a kind changed.
fn with(design: &Design, kind: StepKind, change: impl FnOnce(&mut DraftStep)) -> Design {
    let (index, mut step) = step_of(design, kind);
    change(&mut step);
    edited(design.clone(), Edit::Step(index, step))
}

fn keys(design: &Design) -> Vec<String> {
    let steps = design.draft().recipe.iter();
    steps.map(|step| step.kind.key().to_owned()).collect()
}

async fn kinds(page: &Page) -> Vec<String> {
    page.ask(KINDS, vec![]).await
}

/// The page keeps the design, and lists its steps in their order.
async fn follows(page: &Page, design: &Design) {
    takes(page, design).await;
    until("the steps stand in their order", async || {
        (kinds(page).await == keys(design)).then_some(())
    })
    .await;
}

/// At every step stand as many warnings as the plan has for it.
async fn warns_as_planned(page: &Page, design: &Design) {
    let plan = Plan::of(design);
    let planned: Vec<usize> = plan.dressing.iter().map(|it| it.warnings.len()).collect();
    until("the warnings are those of the plan", async || {
        let shown: Vec<usize> = page.ask(WARNINGS, vec![]).await;
        (shown == planned).then_some(())
    })
    .await;
}

/// All that is warned of at a step.
async fn warnings_at(page: &Page, kind: StepKind) -> String {
    let script = "return document.querySelector(arguments[0])?.innerText ?? '';";
    let selector = format!("{} .warnings", row(kind));
    page.ask(script, vec![json!(selector)]).await
}

async fn words_at(page: &Page, selector: &str) -> String {
    let script = "return document.querySelector(arguments[0]).innerText;";
    page.ask(script, vec![json!(selector)]).await
}

async fn until_focused(page: &Page, selector: &str) {
    let script = "return document.activeElement === document.querySelector(arguments[0]);";
    until(&format!("{selector} has the focus"), async || {
        let has: bool = page.ask(script, vec![json!(selector)]).await;
        has.then_some(())
    })
    .await;
}

async fn choose_at(page: &Page, selector: &str, value: &str) {
    page.press_at(&format!("{selector} option[value={value}]"))
        .await;
}

/// The number of the station that the page tells of.
async fn here(page: &Page, key: &str) -> f64 {
    let si = page
        .attribute_at(&format!("[data-here={key}]"), "data-si")
        .await;
    si.and_then(|si| si.parse().ok())
        .expect("the readout has numbers")
}

/// Mass of the whole line and of its head in a state, in kilograms.
async fn weights(page: &Page, finish: Finish) -> (f64, f64) {
    let row = format!("tr[data-state={}]", finish.name());
    let mut numbers = Vec::new();
    for name in ["data-mass", "data-head"] {
        let text = page.attribute_at(&row, name).await;
        numbers.push(text.and_then(|text| text.parse().ok()).expect("a weight"));
    }
    (numbers[0], numbers[1])
}

/// The mass of the finished head, once the page shows that of the design.
async fn until_weighs(page: &Page, design: &Design) -> Mass {
    let head = Plan::of(design).head_mass.expect("the line has a head");
    until("the head weighs what the plan says", async || {
        let shown = weights(page, Finish::Finished).await.1;
        near(shown, head.kilograms()).then(|| Mass::from_kilograms(shown))
    })
    .await
}
