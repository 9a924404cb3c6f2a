//! What the label leaves open is said: what the head weighs with the finest yarn of it, and with the heaviest.

use super::harness::on_the_page;
use super::page::Page;

#[test]
fn the_head_lies_between_those_of_the_finest_and_the_heaviest_yarn() {
    on_the_page(async |page| {
        let state = page.state().await;
        let [low, mass, high] =
            ["head-mass-low", "head-mass", "head-mass-high"].map(|key| state.si(key));
        assert!(low < mass && mass < high, "{low} {mass} {high}");
        // 20/22 denier lies 4.8 % to either side of 21. Heavier yarn also makes a thicker braid, which at the same lay is a
        // steeper one: it weighs more than in proportion, but never twice that.
        let share = 1.0 / 21.0;
        for spread in [mass / low - 1.0, high / mass - 1.0] {
            assert!(share < spread && spread < 2.0 * share, "{spread}");
        }
        let words = words(page).await;
        for kilograms in [low, high] {
            let grains = format!("{:.1}", kilograms * 1e6 / 64.798_91);
            assert!(words.contains(&grains), "“{words}” does not name {grains}");
        }
        assert!(words.contains("with the finest"), "{words}");
    });
}

#[test]
fn yarn_of_one_size_leaves_nothing_open() {
    on_the_page(async |page| {
        let before = page.state().await;
        page.enter("label", "21").await;
        page.until_state("the range is closed", |now| {
            now.si("head-mass-low") == now.si("head-mass-high")
        })
        .await;
        let state = page.state().await;
        assert_eq!(state.si("head-mass-low"), state.si("head-mass"));
        // 21 is the middle of 20/22: the line itself stays the same.
        assert_eq!(state.si("head-mass"), before.si("head-mass"));
        assert_eq!(words(page).await, "");
        page.enter("label", "20/22").await;
        page.until_state("the range is open again", |now| *now == before)
            .await;
        assert_ne!(words(page).await, "");
    });
}

/// What is said of the range.
async fn words(page: &Page) -> String {
    page.open_sheet("all-figures").await;
    // Where it says nothing it takes no room.
    let script = "return document.querySelector('[data-figure=class-range]').textContent;";
    let words: String = page.ask(script, vec![]).await;
    page.close_sheet().await;
    words
}
