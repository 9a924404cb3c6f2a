//! What the machine of a workshop cannot have braided: more threads than carriers, gears that are not owned.

use super::{Why, WorkshopLimits};
use crate::braid::takeoff::{TEETH, TakeOff, Train, Wheels};
use crate::design::Design;
use crate::design::gears;
use crate::keep::book::swatch::{Swatch, SwatchField};

/// Numbers of a swatch, and why they cannot be.
type Found = (&'static [SwatchField], Why);

const DRIVER: &[SwatchField] = &[SwatchField::Driver];
const DRIVEN: &[SwatchField] = &[SwatchField::Driven];
const BOTH: &[SwatchField] = &[SwatchField::Driver, SwatchField::Driven];

/// Everything of a swatch that this machine cannot have braided.
pub(super) fn found(swatch: &Swatch, limits: &WorkshopLimits) -> Vec<Found> {
    let threads = swatch
        .threads
        .filter(|threads| *threads > f64::from(limits.carriers));
    let threads = threads.map(|threads| Why::MoreThanCarriers {
        threads,
        carriers: limits.carriers,
    });
    let threads = threads.map(|why| (&[SwatchField::Threads][..], why));
    let take_off = &limits.take_off;
    let single = [(DRIVER, swatch.driver), (DRIVEN, swatch.driven)];
    let single = single.map(|(field, teeth)| {
        let why = wheel(take_off, field == DRIVER, teeth?)?;
        Some((field, why))
    });
    let wheels: Vec<Found> = single.into_iter().flatten().collect();
    let pair = wheels.is_empty().then(|| pair(swatch, take_off)).flatten();
    let pair = pair.map(|why| (BOTH, why));
    threads.into_iter().chain(wheels).chain(pair).collect()
}

/// What is wrong with one wheel: the fixed partner has teeth of its own, any other has to be owned.
fn wheel(take_off: &TakeOff, drives: bool, teeth: f64) -> Option<Why> {
    let is_fixed = match take_off.train {
        Train::Driver => !drives,
        Train::Driven => drives,
        Train::FixedCentres | Train::FreePair => false,
    };
    let partner = take_off.partner;
    if is_fixed {
        return (teeth != f64::from(partner)).then_some(Why::OtherPartner { teeth, partner });
    }
    let mut owned = take_off.gears.iter();
    let is_owned = owned.any(|gear| f64::from(*gear) == teeth);
    let all = || take_off.gears.iter().map(|gear| f64::from(*gear));
    (!is_owned).then(|| Why::NoSuchGear {
        teeth,
        owned: gears::show(&all().collect::<Vec<f64>>()),
    })
}

/// What is wrong with two wheels that are owned.
fn pair(swatch: &Swatch, take_off: &TakeOff) -> Option<Why> {
    let (driver, driven) = (swatch.driver?, swatch.driven?);
    let wheels = Wheels {
        driver: TEETH.quanta(driver),
        driven: TEETH.quanta(driven),
        train: take_off.train,
    };
    if take_off.can_fit(wheels) {
        None
    } else if driver == driven {
        Some(Why::OnlyOneGear(driver))
    } else {
        Some(Why::OtherSum {
            sum: driver + driven,
            fits: take_off.pair_sum,
        })
    }
}

impl WorkshopLimits {
    /// Whether another design's machine can have braided what this one cannot.
    pub fn yields_to(&self, swatch: &Swatch, other: &Design) -> bool {
        let others = Self::of(other);
        !found(swatch, self).is_empty() && found(swatch, &others).is_empty()
    }
}

impl Why {
    /// Whether it is the machine that does not allow it.
    pub const fn is_of_the_machine(&self) -> bool {
        matches!(
            self,
            Self::MoreThanCarriers { .. }
                | Self::NoSuchGear { .. }
                | Self::OnlyOneGear(_)
                | Self::OtherPartner { .. }
                | Self::OtherSum { .. }
        )
    }
}
