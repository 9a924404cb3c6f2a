//! The ribbon below the profile has a cell for every stretch of threads and one for every gear, and the strip below that the angle
//! along the line, and what one gear would make of it.

use serde::Deserialize;
use taperwright::base::units::Length;
use taperwright::design::demo::demo;
use taperwright::plan::Plan;

use super::harness::{on_the_page, until};
use super::page::Page;

/// Path data of the drawing on the bench, not of the one for the printer.
const STRIP: &str = r"
    const drawing = document.querySelector('[data-point]').ownerSVGElement;
    const [line, one] = ['angle-line', 'angle-one-gear']
        .map((kind) => drawing.querySelector(`path.${kind}`)?.getAttribute('d') ?? '');
    return { line, one };";

#[derive(Debug, PartialEq, Deserialize)]
struct Strip {
    line: String,
    one: String,
}

#[test]
fn the_ribbon_has_what_the_plan_has_where_it_has_it() {
    on_the_page(async |page| {
        let (plan, chart) = (Plan::of(&demo()), page.chart().await);
        for cell in &chart.threads {
            let middle = Length::from_metres(f64::midpoint(cell.from, cell.to));
            assert_eq!(
                cell.value,
                plan.station(middle).piece.load.threads.to_string()
            );
        }
        for cell in &chart.gears {
            let middle = Length::from_metres(f64::midpoint(cell.from, cell.to));
            assert_eq!(cell.value, plan.station(middle).piece.wheels.to_string());
        }
        // A change of gear ends a cell, and nothing else does.
        assert_eq!(chart.gears.len(), plan.gear_changes() + 1);
        assert!(chart.gears.len() > 1, "the example shows nothing");
        for row in [&chart.threads, &chart.gears] {
            assert!(row.windows(2).all(|pair| pair[0].to == pair[1].from));
            assert!((row[row.len() - 1].to - plan.length.metres()).abs() < 1e-9);
        }
        let strip = strip(page).await;
        for path in [&strip.line, &strip.one] {
            assert!(path.starts_with('M') && path.len() > 100, "{path}");
        }
        assert_ne!(strip.line, strip.one);
    });
}

#[test]
fn with_one_gear_owned_both_angles_are_one() {
    on_the_page(async |page| {
        page.enter("gears", "22").await;
        page.close_sheet().await;
        page.go_to("draw").await;
        page.until_chart("one gear is left", |now| now.gears.len() == 1)
            .await;
        let strip = until("both angles are one", async || {
            Some(strip(page).await).filter(|strip| strip.line == strip.one)
        })
        .await;
        assert!(!strip.line.is_empty());
        assert_eq!(page.state().await.si("gear-changes"), 0.0);
    });
}

async fn strip(page: &Page) -> Strip {
    page.ask(STRIP, vec![]).await
}
