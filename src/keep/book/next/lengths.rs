//! How much of a braid or a thread is measured. Our own choice, each with its reason.

use crate::base::units::Length;

/// The length braided for a swatch: long enough for a tenth of a percent of circuits, short enough to be cut off a lead-in.
pub(super) const SWATCH_LENGTH: Length = Length::from_metres(0.3);
/// The length over which crossings are counted under a loupe: some two hundred of them.
pub(super) const CROSSINGS_LENGTH: Length = Length::from_metres(0.05);
/// The length of thread that is weighed: ten times along a metre rule.
pub const THREAD_LENGTH: Length = Length::from_metres(10.0);
