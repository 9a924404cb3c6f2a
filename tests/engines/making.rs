//! What goes to the machine: the steps there, and the card.

use taperwright::design::demo::demo;

use super::harness::until;
use super::page::Page;
use super::pool::in_both_engines;
use super::shed::Shed;

in_both_engines!(steps, card);

/// Ticks the step shown, by a tap that counts.
const TICK: &str = "document.querySelector('[data-action=run-done]').click();";

/// A line is begun at the machine; a step that is ticked is still ticked after the page is loaded again, and can be taken back.
async fn steps(_: &mut Shed, page: &Page) {
    page.go_to("braid").await;
    page.press("run-begin").await;
    page.until_there("[data-step-index='0']").await;
    let first = page.words_of(".stand .operation").await;
    // A tap soon after another is taken for the same one, so taps go on until one counts.
    until("the step is ticked", async || {
        if page.matching("[data-step-index='1']").await == 0 {
            page.run(TICK, vec![]).await;
        }
        (page.matching("[data-step-index='1']").await > 0).then_some(())
    })
    .await;
    until("the tick is kept", async || {
        let book = page.kept_book(1).await?;
        let run = book.records.last()?.run.as_ref()?;
        (run.done == 1).then_some(())
    })
    .await;
    page.reload().await;
    page.until_there("[data-step-index='1']").await;
    assert_ne!(page.words_of(".stand .operation").await, first);
    page.press("run-back").await;
    page.until_there("[data-step-index='0']").await;
}

/// The card bears the name of the line; it closes by the browser's way back, which leaves the page open.
async fn card(_: &mut Shed, page: &Page) {
    page.press("card").await;
    page.until_there(".card-desk.shown [data-sheet]").await;
    page.until_said(demo().title()).await;
    let title = page.words_of("[data-sheet='1']").await;
    assert!(title.contains(demo().title()), "{title}");
    page.session.client.back().await.expect("it goes back");
    page.until_gone(".card-desk.shown").await;
    assert!(page.state().await.shows(&demo()));
}
