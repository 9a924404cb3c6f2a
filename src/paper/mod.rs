//! What is shown, on screen and on paper: words, figures, drawings as numbers and path data, the taper card.

pub mod card;
pub mod chart;
pub mod code;
pub mod compare;
pub mod figures;
pub mod tag_paper;
pub mod terms;
pub mod words;
