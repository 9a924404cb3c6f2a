//! Which pins can be honoured.

use super::carrier_pin::{CarrierPin, GivenUp};
use super::course::Course;
use super::{exact, walk, wide};
use crate::braid::track::{Carrier, Direction, Engaged};

/// A ladder's carriers, and the pins it gives up.
type Settled = (Vec<Carrier>, Vec<(CarrierPin, GivenUp)>);

/// The best ladder that honours the pins, one after another, as far as each can be honoured with those before it.
pub(super) fn settle(bare: &Course, pins: &[CarrierPin]) -> Settled {
    let (pinned, given_up) = screened(bare, pins);
    let carriers = search(&pinned);
    if given_up.len() == pins.len() || loose(&pinned, &carriers).is_empty() {
        return (carriers, given_up);
    }
    one_by_one(bare, pins)
}

/// The course with all pins that keep the rules, whether it braids soundly or not.
fn screened(bare: &Course, pins: &[CarrierPin]) -> (Course, Vec<(CarrierPin, GivenUp)>) {
    let mut course = bare.clone();
    let mut given_up = Vec::new();
    for &pin in pins {
        match allowed(&course, pin) {
            Ok(more) => course = more,
            Err(reason) => given_up.push((pin, reason)),
        }
    }
    (course, given_up)
}

/// Some pin makes the braid fall apart, or it does so without pins: each is tried on what holds so far.
fn one_by_one(bare: &Course, pins: &[CarrierPin]) -> Settled {
    let mut course = bare.clone();
    let mut carriers = search(bare);
    let holds = loose(bare, &carriers).is_empty();
    let mut given_up = Vec::new();
    for &pin in pins {
        match tried(&course, pin, holds) {
            Ok(kept) => (course, carriers) = kept,
            Err(reason) => given_up.push((pin, reason)),
        }
    }
    (carriers, given_up)
}

/// The course with one pin more and its best ladder. What falls apart anyway may do so with the pin too.
fn tried(
    course: &Course,
    pin: CarrierPin,
    must_hold: bool,
) -> Result<(Course, Vec<Carrier>), GivenUp> {
    let more = allowed(course, pin)?;
    let carriers = search(&more);
    let loose = loose(&more, &carriers);
    if must_hold && !loose.is_empty() {
        return Err(GivenUp::FallsApart(loose));
    }
    Ok((more, carriers))
}

/// The course with one pin more, if that keeps the rules.
fn allowed(course: &Course, pin: CarrierPin) -> Result<Course, GivenUp> {
    if !course.track.has(pin.carrier) {
        return Err(GivenUp::NotMounted);
    }
    if !course.takes_step(pin.threads) {
        return Err(GivenUp::StepNotOnLine);
    }
    if course.pins_either(pin) {
        return Err(GivenUp::Twice);
    }
    let more = course.with(pin);
    more.is_balanced()
        .then_some(more)
        .ok_or(GivenUp::Unbalanced)
}

/// The carriers that lie loose in any state of a ladder, clockwise ones first, in track order.
fn loose(course: &Course, carriers: &[Carrier]) -> Vec<Carrier> {
    let states = (course.start..=course.full).map(|threads| &carriers[..threads as usize]);
    let set = states.fold(Engaged::default(), |set, state| {
        let found = course.track.interlacing(&Engaged::from_carriers(state));
        found.unsound.into_iter().fold(set, Engaged::with)
    });
    set.carriers().collect()
}

/// The best ladder of a course, all its pins honoured; they must leave the directions balanced.
fn search(course: &Course) -> Vec<Carrier> {
    let is_small = |direction| course.track.mounted(direction) <= exact::MOST_EACH_WAY;
    if Direction::BOTH.into_iter().all(is_small) {
        walk::shortest(&exact::Search::ranked(course))
    } else {
        wide::good(course)
    }
}
