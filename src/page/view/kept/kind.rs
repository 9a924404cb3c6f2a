//! The kinds of work the sheet deals with: how one of each is opened, and what takes its place when it is put away.

use leptos::prelude::*;

use super::stock::Stock;
use crate::design::Design;
use crate::keep::book::Workshop;
use crate::keep::shelf::Work;
use crate::page::view::overlay::Sheet;

/// A kind of work that lies on the shelf.
pub(super) trait Piece: Work + Send + Sync + 'static {
    /// Whether it is the one open on this page.
    fn is_open(stock: Stock, number: u32) -> bool;

    /// Opens it.
    fn open(stock: Stock, number: u32);

    /// Whether the one open may be put away; where that would lose something, says so.
    fn may_go(stock: Stock) -> bool;

    /// Puts another in the place of the one open.
    fn put_away(stock: Stock);
}

impl Piece for Design {
    fn is_open(stock: Stock, number: u32) -> bool {
        stock.bench().number_untracked() == Some(number)
    }

    fn open(stock: Stock, number: u32) {
        stock.bench().sheet.set(None);
        stock.bench().fetch(number);
    }

    fn may_go(stock: Stock) -> bool {
        stock.bench().may_leave()
    }

    fn put_away(stock: Stock) {
        stock.bench().turn_to_own();
    }
}

impl Piece for Workshop {
    fn is_open(stock: Stock, number: u32) -> bool {
        stock.desk().is_open(number)
    }

    fn open(stock: Stock, number: u32) {
        stock.desk().choose(number);
        stock.bench().sheet.set(Some(Sheet::Book));
    }

    fn may_go(stock: Stock) -> bool {
        stock.desk().may_leave()
    }

    fn put_away(stock: Stock) {
        let design = stock.bench().settled.get_untracked();
        stock.desk().turn_to_another(&design);
    }
}
