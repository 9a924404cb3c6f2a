//! Which pins can be honoured.

use super::carrier_pin::{CarrierPin, GivenUp};
use super::constraints::Constraints;
use super::{exact, walk, wide};
use crate::braid::track::{Carrier, Direction, Engaged};

/// A ladder's carriers, and the pins it gives up.
type Settled = (Vec<Carrier>, Vec<(CarrierPin, GivenUp)>);

/// The best ladder that honours the pins, one after another, as far as each can be honoured with those before it.
pub(super) fn settle(bare: &Constraints, pins: &[CarrierPin]) -> Settled {
    let (pinned, given_up) = screened(bare, pins);
    let carriers = search(&pinned);
    if given_up.len() == pins.len() || loose(&pinned, &carriers).is_empty() {
        return (carriers, given_up);
    }
    one_by_one(bare, pins)
}

/// The constraints with all pins that keep the rules, whether it braids soundly or not.
fn screened(bare: &Constraints, pins: &[CarrierPin]) -> (Constraints, Vec<(CarrierPin, GivenUp)>) {
    let mut constraints = bare.clone();
    let mut given_up = Vec::new();
    for &pin in pins {
        match allowed(&constraints, pin) {
            Ok(more) => constraints = more,
            Err(reason) => given_up.push((pin, reason)),
        }
    }
    (constraints, given_up)
}

/// Some pin makes the braid fall apart, or it does so without pins: each is tried on what holds so far.
fn one_by_one(bare: &Constraints, pins: &[CarrierPin]) -> Settled {
    let mut constraints = bare.clone();
    let mut carriers = search(bare);
    let holds = loose(bare, &carriers).is_empty();
    let mut given_up = Vec::new();
    for &pin in pins {
        match tried(&constraints, pin, holds) {
            Ok(kept) => (constraints, carriers) = kept,
            Err(reason) => given_up.push((pin, reason)),
        }
    }
    (carriers, given_up)
}

/// The constraints with one pin more and its best ladder. What falls apart anyway may do so with the pin too.
fn tried(
    constraints: &Constraints,
    pin: CarrierPin,
    must_hold: bool,
) -> Result<(Constraints, Vec<Carrier>), GivenUp> {
    let more = allowed(constraints, pin)?;
    let carriers = search(&more);
    let loose = loose(&more, &carriers);
    if must_hold && !loose.is_empty() {
        return Err(GivenUp::FallsApart(loose));
    }
    Ok((more, carriers))
}

/// The constraints with one pin more, if that keeps the rules.
fn allowed(constraints: &Constraints, pin: CarrierPin) -> Result<Constraints, GivenUp> {
    if !constraints.track.has(pin.carrier) {
        return Err(GivenUp::NotMounted);
    }
    if !constraints.takes_step(pin.threads) {
        return Err(GivenUp::StepNotOnLine);
    }
    if constraints.pins_either(pin) {
        return Err(GivenUp::Twice);
    }
    let more = constraints.with(pin);
    more.is_balanced()
        .then_some(more)
        .ok_or(GivenUp::Unbalanced)
}

/// The carriers that lie loose in any state of a ladder, clockwise ones first, in track order.
fn loose(constraints: &Constraints, carriers: &[Carrier]) -> Vec<Carrier> {
    let states =
        (constraints.start..=constraints.full).map(|threads| &carriers[..threads as usize]);
    let set = states.fold(Engaged::default(), |set, state| {
        let found = constraints
            .track
            .interlacing(&Engaged::from_carriers(state));
        found.unsound.into_iter().fold(set, Engaged::with)
    });
    set.carriers().collect()
}

/// The best ladder of a constraints, all its pins honoured; they must leave the directions balanced.
fn search(constraints: &Constraints) -> Vec<Carrier> {
    let is_small = |direction| constraints.track.mounted(direction) <= exact::MOST_EACH_WAY;
    if Direction::BOTH.into_iter().all(is_small) {
        walk::shortest(&exact::Search::ranked(constraints))
    } else {
        wide::good(constraints)
    }
}
