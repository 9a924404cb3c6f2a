//! The drawing of a plan, as numbers and strings: where things lie ([`scale`]), the frame ([`frame`]), the curves
//! ([`paths`]), where points are grabbed ([`grip`]) and the ruler of classes ([`ruler`]). Nothing here knows a browser;
//! the view puts it on the screen, the card on paper.

pub mod frame;
pub mod grip;
pub mod paths;
pub mod ruler;
pub mod scale;
