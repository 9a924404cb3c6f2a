//! After one visit the page opens and works without a connection.

use taperwright::design::demo::demo;
use taperwright::keep::share::link;

use super::gesture::{Pointer, dragged};
use super::page::Page;
use super::pool::in_both_engines;
use super::shed::Shed;

in_both_engines!(without_a_connection, newer);

/// Nothing listens at the site's address any more: the page opens, changes, keeps, and shows the card and what comes by a link.
async fn without_a_connection(shed: &mut Shed, page: &Page) {
    page.until_ready().await;
    shed.disconnect();
    page.reload().await;
    let (state, design) = dragged(page, Pointer::Mouse).await;
    page.press("card").await;
    page.until_there(".card-desk.shown").await;
    page.press("card-close").await;
    page.reload().await;
    assert_eq!(page.state().await, state);
    let shared = link::encode(&demo()).expect("short");
    page.go(&format!("?by=mail#{shared}")).await;
    page.until_there("[data-action=keep-copy]").await;
    page.go("").await;
    assert_eq!(page.kept().await, Some(design));
}

/// A whole newer build is offered to an open page, and taken when that is wished.
async fn newer(shed: &mut Shed, page: &Page) {
    page.until_ready().await;
    let build = page.build().await;
    shed.rebuild("b");
    page.back_online().await;
    page.until_there("[data-action=use-newer]").await;
    page.bring("[data-action=use-newer]").await;
    page.press("use-newer").await;
    page.until_not(&build).await;
    page.at_rest().await;
}
