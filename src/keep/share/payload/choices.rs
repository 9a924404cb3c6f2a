//! A choice as one byte: its place in its list.

use crate::base::choice::Choice;

/// The place of a choice in its list. The lists are far shorter than 256.
#[allow(clippy::cast_possible_truncation)]
pub(super) fn place_of<C: Choice>(choice: C) -> u8 {
    C::ALL
        .iter()
        .position(|other| *other == choice)
        .unwrap_or(0) as u8
}

pub(super) fn choice_at<C: Choice>(place: u8) -> Option<C> {
    C::ALL.get(usize::from(place)).copied()
}
