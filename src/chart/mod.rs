//! The drawing of a plan, as numbers and strings: where things lie ([`scale`]), the frame ([`frame`]) and the curves
//! ([`paths`]). Nothing here knows a browser; the view puts it on the screen, the card on paper.

pub mod frame;
pub mod paths;
pub mod scale;
