//! Designs on their way out and in: as a link ([`link`]) and as a file ([`mod@file`]); the steps of a sketch ([`steps`]); dressing
//! days as a calendar ([`calendar`]); schedule and bobbins as tables ([`table`]); the card as a picture ([`card_svg`]).

pub mod calendar;
pub mod card_svg;
pub(crate) mod envelope;
pub mod file;
mod found;
pub mod link;
mod payload;
mod said;
pub(crate) mod shape;
pub mod steps;
pub mod table;
