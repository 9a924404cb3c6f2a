//! The braid is measured on the way: a value is judged at once and kept, and asks for other gears before they are taken.

use taperwright::base::units::Length;
use taperwright::base::units::show::{self, Units};
use taperwright::paper::words::checks as words;
use taperwright::plan::run::{CheckKind, CheckLevel, Run};
use taperwright::plan::{Action, Plan};

use super::at_machine::{begin, run_of, until_done};
use super::harness::on_the_page;
use super::page::Page;

/// Begins the example, does its first step and unfolds the checks.
async fn measured(page: &Page) -> (Plan, taperwright::design::Design, Run) {
    let design = begin(page).await;
    page.press("run-done").await;
    let run = until_done(page, 1).await;
    page.unfold("check-angle").await;
    (Plan::of(&design), design, run)
}

/// What a line should look like is shown without unfolding anything. A value typed is judged beside its field, kept over a reload,
/// listed, and taken back with its text.
#[test]
fn a_value_is_judged_and_kept() {
    on_the_page(async |page| {
        let (plan, design, run) = measured(page).await;
        let adjusted = plan.unadjusted();
        let expected = run.expected(&adjusted, &design, Length::ZERO);
        let expected = expected.expect("something is braided");
        let summary = page.words_of("[data-action=checks]").await;
        let look = words::expected(&expected, Units::Metric);
        assert!(summary.contains(&look), "“{summary}” lacks “{look}”");
        // Before anything is typed, the range is there.
        let range = words::check_range(CheckKind::Angle, &expected.angle, Units::Metric);
        page.until_said(&format!("fine: {range}")).await;
        for (typed, level) in [
            (expected.angle.planned + 0.5, CheckLevel::Fine),
            (expected.angle.high() + 0.5, CheckLevel::Drifting),
            (expected.angle.planned + 9.0, CheckLevel::Stop),
        ] {
            page.enter("check-angle", &format!("{typed:.1}")).await;
            let verdict = format!(".check-verdict[data-level={}]", level.name());
            page.until_there(&verdict).await;
            let said = page.words_of(&verdict).await;
            assert!(
                said.contains(level.name()) && said.contains(&range),
                "{said}"
            );
        }
        page.until_said("broken or slack thread").await;
        // Typed again at its place, a value takes the place of the one before.
        let book = page
            .until_book("the check is kept", |book| {
                run_of(book).is_some_and(|run| {
                    let checks = &run.checks;
                    checks.len() == 1 && checks[0].level() == CheckLevel::Stop
                })
            })
            .await;
        let check = run_of(&book).expect("a run").checks[0];
        page.reload().await;
        page.go_to("braid").await;
        page.unfold("check-angle").await;
        let text = words::check_text(CheckKind::Angle, check.value, Units::Metric);
        assert_eq!(page.value("check-angle").await, text);
        page.until_there(".check-verdict[data-level=stop]").await;
        let at = Units::Metric.show_position(Length::ZERO);
        let row = words::check_row(&check, &at, Units::Metric);
        assert_eq!(page.words_of(".check-log li").await, row);
        page.enter("check-angle", "").await;
        page.until_gone(".check-verdict[data-level]").await;
        page.until_book("the check is taken back", |book| {
            run_of(book).is_some_and(|run| run.checks.is_empty())
        })
        .await;
    });
}

#[test]
fn a_value_that_cannot_be_is_said_beside_its_field() {
    on_the_page(async |page| {
        let (_, _, run) = measured(page).await;
        for (action, text, words) in [
            ("check-angle", "95", "less than 90°"),
            ("check-crossings", "0", "above 0"),
            ("check-diameter", "90", "cannot be right"),
            ("check-diameter", "thick", "not a number"),
        ] {
            page.enter(action, text).await;
            let said = page.said_beside(action).await.unwrap_or_default();
            assert!(said.contains(words), "{action} {text}: {said}");
            assert_eq!(page.value(action).await, text);
        }
        let book = page.kept_book(1).await.expect("a book");
        assert_eq!(run_of(&book), Some(&run));
    });
}

/// The take-off draws too much: the class with other gears is shown before they are taken, then the gear is the next step, and one
/// step back takes the correction back.
#[test]
fn a_correction_is_shown_before_it_is_taken() {
    on_the_page(async |page| {
        let (plan, design, run) = measured(page).await;
        let adjusted = plan.unadjusted();
        let expected = run.expected(&adjusted, &design, Length::ZERO);
        let crossings = expected.expect("something is braided").crossings.planned;
        assert_eq!(page.count("check-correct").await, 0);
        let typed = format!("{:.1}", crossings / 1.08);
        page.enter("check-crossings", &typed).await;
        let book = page
            .until_book("the check is kept", |book| {
                run_of(book).is_some_and(|run| !run.checks.is_empty())
            })
            .await;
        let checked = run_of(&book).expect("a run").clone();
        let wished = checked.offered_correction(&adjusted, &design, &plan, Length::ZERO);
        let wished = wished.expect("a correction is offered");
        page.press("check-correct").await;
        page.until_there(".proposal").await;
        let shown = page.words_of(".proposal").await;
        for head in [wished.before, wished.after] {
            let grains = show::grains(head.expect("a head"));
            assert!(shown.contains(&grains), "“{shown}” lacks “{grains}”");
        }
        let gears = wished.regearing.as_ref().expect("gears");
        let first = gears.others[0];
        let gear = format!("Gear {} instead of {} now", first.wheels, first.instead_of);
        assert!(shown.contains(&gear), "“{shown}” lacks “{gear}”");
        // Left, nothing has changed; asked again, it is offered again.
        page.press("mishap-leave").await;
        page.until_gone(".proposal").await;
        let kept = page.kept_book(1).await.expect("a book");
        assert_eq!(run_of(&kept), Some(&checked));
        page.unfold("check-angle").await;
        page.press("check-correct").await;
        page.press("mishap-take").await;
        let book = page
            .until_book("the correction is kept", |book| {
                run_of(book).is_some_and(|run| !run.mishaps.is_empty())
            })
            .await;
        let taken = run_of(&book).expect("a run");
        assert_eq!(taken.mishaps, wished.run.mishaps);
        let after = taken.adjusted(&design, &plan);
        let step = taken.steps_ahead(&after).next().expect("a step");
        assert!(matches!(step[0].action, Action::Gear { to, .. } if to == first.wheels));
        page.until_said(&format!("fit {}", first.wheels)).await;
        page.reload().await;
        page.go_to("braid").await;
        page.until_said("gears corrected after a check").await;
        page.press("run-back").await;
        page.until_book("the correction is taken back", |book| {
            run_of(book).is_some_and(|run| run.mishaps.is_empty() && run.checks.len() == 1)
        })
        .await;
        page.until_gone(".proposal").await;
    });
}
