//! Pins in the payload of a link.

use serde::{Deserialize, Serialize};

use super::choices::{choice_at, place_of};
use crate::design::pin::DraftPin;
use crate::design::settings::POSITION;

/// A pin: its numbers are counts, positions in steps. New kinds go to the end.
#[derive(Serialize, Deserialize)]
pub(super) enum PayloadPin {
    Place(u32, u32, bool, u32),
    Carrier(u32, u8, u32),
    Wheels(u32, u32, u32, u32, u32),
    Swap(u32, u8, u32),
}

impl PayloadPin {
    pub(super) fn of(pin: &DraftPin) -> Self {
        let at = |at_m| POSITION.quanta(at_m);
        match *pin {
            DraftPin::Place {
                threads,
                heavy,
                rising,
                at_m,
            } => Self::Place(threads, heavy, rising, at(at_m)),
            DraftPin::Carrier {
                threads,
                direction,
                number,
            } => Self::Carrier(threads, place_of(direction), number),
            DraftPin::Swap {
                heavy,
                direction,
                number,
            } => Self::Swap(heavy, place_of(direction), number),
            DraftPin::Wheels {
                threads,
                heavy,
                at_m,
                driver,
                driven,
            } => Self::Wheels(threads, heavy, at(at_m), driver, driven),
        }
    }

    pub(super) fn draft(&self) -> Option<DraftPin> {
        Some(match *self {
            Self::Place(threads, heavy, rising, at) => DraftPin::Place {
                threads,
                heavy,
                rising,
                at_m: POSITION.value(at),
            },
            Self::Carrier(threads, direction, number) => DraftPin::Carrier {
                threads,
                direction: choice_at(direction)?,
                number,
            },
            Self::Swap(heavy, direction, number) => DraftPin::Swap {
                heavy,
                direction: choice_at(direction)?,
                number,
            },
            Self::Wheels(threads, heavy, at, driver, driven) => DraftPin::Wheels {
                threads,
                heavy,
                at_m: POSITION.value(at),
                driver,
                driven,
            },
        })
    }
}
