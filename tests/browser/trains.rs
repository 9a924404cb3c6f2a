//! Change gears sit alone or in pairs, and only pairs that can be made of the gears owned are fitted.

use taperwright::base::choice::Choice;
use taperwright::braid::takeoff::Train;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::edit::Edit;

use super::fields::takes;
use super::harness::{on_the_page, until};
use super::page::Page;
use super::settings::edited;
use super::state::State;

#[test]
fn any_two_of_the_gears_owned_make_a_pair() {
    on_the_page(async |page| {
        let before = page.state().await;
        fit(page, Train::FreePair, demo()).await;
        let pairs = pairs(&page.state().await);
        // The demo owns every tooth from 16 to 34 once.
        let are_owned =
            |&(a, b): &(u32, u32)| [a, b].iter().all(|t| (16..=34).contains(t)) && a != b;
        assert!(pairs.iter().all(are_owned), "{pairs:?}");
        assert_eq!(page.matching("[data-action=partner_teeth]").await, 0);
        fit(page, Train::Driver, demo()).await;
        assert_eq!(page.state().await, before);
    });
}

#[test]
fn a_pair_on_fixed_centres_keeps_its_sum() {
    on_the_page(async |page| {
        page.enter("gears", "16-34, 46-64").await;
        let gears = (16..=34).chain(46..=64).map(f64::from).collect();
        let design = edited(demo(), Edit::Gears(gears));
        takes(page, &design).await;
        fit(page, Train::FixedCentres, design).await;
        let pairs = pairs(&page.state().await);
        assert!(pairs.iter().all(|(a, b)| a + b == 80), "{pairs:?}");
        assert_eq!(page.value("pair_sum_teeth").await, "80");
        page.enter("pair_sum_teeth", "79").await;
        let sums = |state: &State| self::pairs(state).iter().all(|(a, b)| a + b == 79);
        page.until_state("the pairs have the other sum", sums).await;
    });
}

#[test]
fn a_pair_that_cannot_be_made_is_refused_beside_the_choice() {
    on_the_page(async |page| {
        // One gear alone makes no pair, whatever the sum.
        page.enter("gears", "20").await;
        takes(page, &edited(demo(), Edit::Gears(vec![20.0]))).await;
        let before = page.state().await;
        let kept = page.storage().await;
        page.choose("train", Train::FixedCentres.key()).await;
        let said = until("the refusal is explained", async || {
            page.said_beside("train").await
        })
        .await;
        assert!(said.contains("teeth together"), "{said}");
        assert_eq!(page.state().await, before);
        assert_eq!(page.storage().await, kept);
        page.choose("train", Train::Driver.key()).await;
        until("the choice is content", async || {
            page.said_beside("train").await.is_none().then_some(())
        })
        .await;
        assert_eq!(page.state().await, before);
    });
}

#[test]
fn a_gear_that_is_driven_draws_less_the_more_teeth_it_has() {
    on_the_page(async |page| {
        // Thicker is braided with a longer lay: of a gear that drives with more teeth, of a driven one with fewer.
        let (tip, belly) = ends(&page.state().await);
        assert!(tip < belly, "{tip} {belly}");
        page.enter("gears", "41-100").await;
        let gears = (41..=100).map(f64::from).collect();
        let design = edited(demo(), Edit::Gears(gears));
        takes(page, &design).await;
        fit(page, Train::Driven, design).await;
        let (tip, belly) = ends(&page.state().await);
        assert!(tip > belly, "{tip} {belly}");
    });
}

/// Chooses a train for what is a design so far.
async fn fit(page: &Page, train: Train, design: Design) {
    page.choose("train", train.key()).await;
    takes(page, &edited(design, Edit::Train(train))).await;
}

/// Every pair of the schedule, driver first. More than one: the line has changes.
fn pairs(state: &State) -> Vec<(u32, u32)> {
    let number = |text: &str| text.parse().expect("teeth are a number");
    let pair = |gear: &str| {
        let (driver, driven) = gear.split_once('/').expect("two gears");
        (number(driver), number(driven))
    };
    let mut pairs: Vec<_> = state.events.iter().map(|line| pair(&line.gear)).collect();
    pairs.dedup();
    assert!(pairs.len() > 1, "{pairs:?}");
    pairs
}

/// Teeth at the tip and in the belly, half-way along the schedule.
fn ends(state: &State) -> (u32, u32) {
    let teeth = |place: usize| state.events[place].gear.parse().expect("one gear");
    let behind = state.events.iter().position(|line| line.metres() > 10.0);
    (teeth(0), teeth(behind.expect("the line is longer") - 1))
}
