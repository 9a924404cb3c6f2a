//! The strip below the drawing has the angle along the line, what one gear would make of it, and a mark for each gear
//! change.

use serde::Deserialize;

use super::harness::{on_the_page, until};
use super::page::Page;

/// Path data of the drawing on the bench, not of the one for the printer.
const STRIP: &str = r"
    const drawing = document.querySelector('[data-point]').ownerSVGElement;
    const [line, one, marks] = ['angle-line', 'angle-one-gear', 'gear-marks']
        .map((kind) => drawing.querySelector(`path.${kind}`)?.getAttribute('d') ?? '');
    return { line, one, marks };";

#[derive(Debug, PartialEq, Deserialize)]
struct Strip {
    line: String,
    one: String,
    marks: String,
}

impl Strip {
    /// Where the marks stand, from left to right.
    fn places(&self) -> Vec<f64> {
        let starts = self.marks.split('M').filter(|mark| !mark.is_empty());
        let x = |mark: &str| mark.split_whitespace().next().and_then(|x| x.parse().ok());
        starts
            .map(|mark| x(mark).expect("a mark has a place"))
            .collect()
    }
}

#[test]
fn every_gear_change_has_its_mark_where_it_is_made() {
    on_the_page(async |page| {
        let strip = strip(page).await;
        let state = page.state().await;
        let gears = state.of_kind("gear");
        let places = strip.places();
        assert_eq!(places.len(), gears.len());
        assert!(!places.is_empty(), "the example shows nothing");
        // Along the line as in the schedule: the marks lie on one straight scale, to the tenth of a pixel they are written in.
        let at: Vec<f64> = gears.iter().map(|line| line.metres()).collect();
        let last = places.len() - 1;
        let scale = (places[last] - places[0]) / (at[last] - at[0]);
        for (place, at_m) in places.iter().zip(&at) {
            let wanted = places[0] + scale * (at_m - at[0]);
            assert!((place - wanted).abs() < 0.2, "{place} is not {wanted}");
        }
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
        let strip = until("the marks are gone", async || {
            Some(strip(page).await).filter(|strip| strip.marks.is_empty())
        })
        .await;
        assert_eq!(strip.line, strip.one);
        assert_eq!(page.state().await.si("gear-changes"), 0.0);
    });
}

async fn strip(page: &Page) -> Strip {
    page.ask(STRIP, vec![]).await
}
