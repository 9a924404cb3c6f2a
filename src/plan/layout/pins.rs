//! What the maker insists on: the place of a change, its carrier, the wheels of a interval. A pin holds through later edits
//! as long as it still makes sense; where not, it is passed over and reported with the reason.

use super::ground::Ground;
use super::stops::{Crowding, Step, Stop, ends};
use crate::base::units::Length;
use crate::braid::gearing::Interval;
use crate::braid::ladder::{CarrierPin, GivenUp};
use crate::braid::threads::Level;
use crate::braid::track::Carrier;
use crate::design::pin::Pin;

/// A pin that no longer makes sense.
#[derive(Clone, Debug, PartialEq)]
pub struct DroppedPin {
    /// Its place in the design's list.
    pub index: usize,
    /// The pin.
    pub pin: Pin,
    /// What speaks against it.
    pub why: Why,
}

/// What speaks against a pin.
#[derive(Clone, Debug, PartialEq)]
pub enum Why {
    /// The line nowhere passes between these levels in this sense.
    NoSuchChange,
    /// An earlier pin holds the change, the step, or the interval.
    Held,
    /// The change cannot lie there: its neighbours leave only this room.
    OutOfOrder {
        /// From here.
        from: Length,
        /// To here.
        to: Length,
    },
    /// The swelling it belongs to is shorter than the least distance and left out.
    LeftOut,
    /// No interval of the same rise or fall has this level.
    NoSuchTread,
    /// The gears owned no longer make these wheels.
    NotOwned,
    /// The carrier has no thread where threads are swapped.
    NotEngaged,
    /// The carrier runs the way whose turn it is not: heavier threads alternate.
    NotItsTurn,
    /// The ladder of carriers cannot take it.
    Carrier(GivenUp),
}

/// Moves the changes that are pinned. Those between a pinned one and where it would have been move along to it.
pub(super) fn place(steps: &mut [Step], pins: &[Pin], ground: &Ground) -> Vec<DroppedPin> {
    let mut dropped = Vec::new();
    for (index, &pin) in pins.iter().enumerate() {
        let Pin::Place { lower, rising, at } = pin else {
            continue;
        };
        let moved = find(steps, ground, lower, (rising, at))
            .and_then(|step| move_to(steps, step, at, ground.taper.length()).map(|()| step));
        match moved {
            Ok(step) => steps[step].pinned = Some(index),
            Err(why) => dropped.push(DroppedPin { index, pin, why }),
        }
    }
    dropped
}

/// The change a pin means: of those between the two levels in that sense, the nearest that no other pin holds.
fn find(
    steps: &[Step],
    ground: &Ground,
    lower: Level,
    (rising, at): (bool, Length),
) -> Result<usize, Why> {
    let lower = ground.levels.iter().position(|&level| level == lower);
    let is_meant = |step: &&Step| Some(step.change.lower) == lower && step.change.rising == rising;
    let meant = || steps.iter().enumerate().filter(|(_, step)| is_meant(step));
    let apart = |step: &Step| (step.change.at - at).abs().metres();
    let nearest = meant()
        .filter(|(_, step)| step.pinned.is_none())
        .min_by(|a, b| apart(a.1).total_cmp(&apart(b.1)));
    match nearest {
        Some((index, _)) => Ok(index),
        None if meant().next().is_some() => Err(Why::Held),
        None => Err(Why::NoSuchChange),
    }
}

/// Moves one change, and those it would overtake along with it.
fn move_to(steps: &mut [Step], index: usize, at: Length, length: Length) -> Result<(), Why> {
    let stands =
        |other: &Step| other.pinned.is_some() || other.change.rising != steps[index].change.rising;
    let before = steps[..index].iter().rposition(stands);
    let behind = steps[index..]
        .iter()
        .position(stands)
        .map(|behind| index + behind);
    let from = before.map_or(Length::ZERO, |before| steps[before].change.at);
    let to = behind.map_or(length, |behind| steps[behind].change.at);
    if !(from < at && at < to) {
        return Err(Why::OutOfOrder { from, to });
    }
    let first = before.map_or(0, |before| before + 1);
    let last = behind.unwrap_or(steps.len());
    for step in &mut steps[first..index] {
        step.change.at = step.change.at.min(at);
    }
    for step in &mut steps[index + 1..last] {
        step.change.at = step.change.at.max(at);
    }
    steps[index].change.at = at;
    Ok(())
}

/// Pinned changes that were left out with their swelling.
pub(super) fn lost_in(crowdings: &[Crowding], pins: &[Pin]) -> Vec<DroppedPin> {
    let of_crowd = |crowd: &Crowding| match crowd {
        Crowding::LeftOut { into, out_of } => [into.pinned, out_of.and_then(|step| step.pinned)],
        Crowding::Together { .. } | Crowding::Close { .. } => [None, None],
    };
    let lost = crowdings.iter().flat_map(of_crowd).flatten();
    lost.map(|index| DroppedPin {
        index,
        pin: pins[index],
        why: Why::LeftOut,
    })
    .collect()
}

/// Gives intervals the wheels pinned to them: for every interval the pin that holds it, and the pins that hold none.
pub(super) fn fit(
    intervals: &mut [Interval],
    pins: &[Pin],
    ground: &Ground,
    stops: &[Stop],
) -> (Vec<Option<usize>>, Vec<DroppedPin>) {
    let mut held = vec![None; intervals.len()];
    let mut dropped = Vec::new();
    for (index, &pin) in pins.iter().enumerate() {
        let Pin::Wheels {
            level,
            near,
            wheels,
        } = pin
        else {
            continue;
        };
        let interval = tread_of(intervals, ground, stops, (level, near));
        let fits = interval.ok_or(Why::NoSuchTread).and_then(|interval| {
            match (held[interval], ground.take_off.can_fit(wheels)) {
                (Some(_), _) => Err(Why::Held),
                (None, false) => Err(Why::NotOwned),
                (None, true) => Ok(interval),
            }
        });
        match fits {
            Ok(interval) => {
                intervals[interval].pinned = Some(wheels);
                held[interval] = Some(index);
            }
            Err(why) => dropped.push(DroppedPin { index, pin, why }),
        }
    }
    (held, dropped)
}

/// The interval a pin means: the nearest of that level in the same rise or fall. One beyond a turn of the line is another
/// part of it, however much alike.
fn tread_of(
    intervals: &[Interval],
    ground: &Ground,
    stops: &[Stop],
    (level, near): (Level, Length),
) -> Option<usize> {
    let level = ground.levels.iter().position(|&other| other == level)?;
    let here = stops.partition_point(|stop| stop.at <= near);
    let in_one_sense = |interval: usize| {
        let between = &stops[interval.min(here)..interval.max(here)];
        between
            .windows(2)
            .all(|pair| pair[0].is_rising() == pair[1].is_rising())
    };
    let ends = ends(stops, ground.taper.length());
    let apart = |&interval: &usize| {
        let (from, to) = (ends[interval], ends[interval + 1]);
        (from - near).max(near - to).max(Length::ZERO).metres()
    };
    (0..intervals.len())
        .filter(|&interval| intervals[interval].load == level && in_one_sense(interval))
        .min_by(|a, b| apart(a).total_cmp(&apart(b)))
}

/// The pins of carriers as the ladder takes them, each said once.
pub fn of_carriers(pins: &[Pin]) -> Vec<CarrierPin> {
    let carrier = |pin: &Pin| match *pin {
        Pin::Carrier { threads, carrier } => Some(CarrierPin { threads, carrier }),
        Pin::Place { .. } | Pin::Swap { .. } | Pin::Wheels { .. } => None,
    };
    let mut said: Vec<CarrierPin> = Vec::new();
    for pin in pins.iter().filter_map(carrier) {
        if !said.contains(&pin) {
            said.push(pin);
        }
    }
    said
}

/// Pins of carriers that a ladder gave up, and those that only say once more what an earlier one says.
pub fn given_up(given_up: &[(CarrierPin, GivenUp)], pins: &[Pin]) -> Vec<DroppedPin> {
    let dropped = |(index, &pin): (usize, &Pin)| {
        let Pin::Carrier { threads, carrier } = pin else {
            return None;
        };
        let said = CarrierPin { threads, carrier };
        let why = if pins[..index].contains(&pin) {
            Why::Held
        } else {
            let (_, why) = given_up.iter().find(|(given, _)| *given == said)?;
            Why::Carrier(why.clone())
        };
        Some(DroppedPin { index, pin, why })
    };
    pins.iter().enumerate().filter_map(dropped).collect()
}

/// The pins of swaps as the ladder takes them: threads heavier before, and the carrier.
pub fn of_swaps(pins: &[Pin]) -> Vec<(u32, Carrier)> {
    let swap = |pin: &Pin| match *pin {
        Pin::Swap { heavy, carrier } => Some((heavy, carrier)),
        Pin::Place { .. } | Pin::Carrier { .. } | Pin::Wheels { .. } => None,
    };
    pins.iter().filter_map(swap).collect()
}

/// Pins of swaps that do not hold, of a line that swaps these carriers in this order while those are engaged.
pub fn swaps_given_up(pins: &[Pin], swapped: &[Carrier], engaged: &[Carrier]) -> Vec<DroppedPin> {
    let dropped = |(index, &pin): (usize, &Pin)| {
        let Pin::Swap { heavy, carrier } = pin else {
            return None;
        };
        let said_before = pins[..index].contains(&pin);
        let why = match swapped.get(heavy as usize) {
            None => Why::NoSuchChange,
            Some(swap) if *swap == carrier && !said_before => return None,
            Some(_) if !engaged.contains(&carrier) => Why::NotEngaged,
            Some(swap) if swap.direction != carrier.direction => Why::NotItsTurn,
            Some(_) => Why::Held,
        };
        Some(DroppedPin { index, pin, why })
    };
    pins.iter().enumerate().filter_map(dropped).collect()
}
