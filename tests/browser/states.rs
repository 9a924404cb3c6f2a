//! The line bare, oiled and finished: what it weighs, and how it looks.

use taperwright::base::units::{Length, Mass};
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::paper::chart::finish::Finish;
use taperwright::plan::Plan;

use super::harness::{on_the_page, until};
use super::page::Page;
use super::state::near;

#[test]
fn the_line_is_looked_at_bare_oiled_and_finished() {
    on_the_page(async |page| {
        let plan = Plan::of(&demo());
        let at = Length::from_metres(here(page, "at").await);
        let braid = plan.station(at).braid.diameter;
        let whole = plan.line.process().dressing;
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
        let oiled = weights(page, Finish::Oiled).await;
        assert!(plan.bare_mass.kilograms() < oiled.0 && oiled.0 < plan.total_mass.kilograms());
        page.go_to("dress").await;
        // The last step leaves the finished line.
        let last = page
            .attribute_at("li[data-step]:last-child", "data-mass")
            .await;
        let last: f64 = last.expect("a step has a mass").parse().unwrap();
        assert!(near(last, plan.total_mass.kilograms()));
    });
}

/// The number of the station that the page tells of.
async fn here(page: &Page, key: &str) -> f64 {
    page.go_to("draw").await;
    let numbers = page.attribute_at("[data-station]", "data-station").await;
    let numbers = numbers.expect("the readout has numbers");
    let numbers = numbers.split(' ').map(|number| number.parse().ok());
    let named = ["at", "diameter", "threads", "angle"]
        .into_iter()
        .zip(numbers);
    named
        .into_iter()
        .find_map(|(name, number)| number.filter(|_| name == key))
        .expect("one of these")
}

/// Mass of the whole line and of its head in a state, in kilograms.
async fn weights(page: &Page, finish: Finish) -> (f64, f64) {
    page.go_to("dress").await;
    let row = format!("tr[data-state={}]", finish.name());
    let mut numbers = Vec::new();
    for name in ["data-mass", "data-head"] {
        let text = page.attribute_at(&row, name).await;
        numbers.push(text.and_then(|text| text.parse().ok()).expect("a weight"));
    }
    (numbers[0], numbers[1])
}

/// The mass of the finished head, once the page shows that of the design.
pub(super) async fn until_weighs(page: &Page, design: &Design) -> Mass {
    let head = Plan::of(design).head_mass.expect("the line has a head");
    until("the head weighs what the plan says", async || {
        let shown = weights(page, Finish::Finished).await.1;
        near(shown, head.kilograms()).then(|| Mass::from_kilograms(shown))
    })
    .await
}
