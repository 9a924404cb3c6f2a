//! What to do at the machine, in order of length.

use crate::ladder::Ladder;
use crate::stretch::Stretch;
use crate::track::Carrier;
use crate::units::{Angle, Length};

/// What to do.
#[derive(Clone, Debug, PartialEq)]
pub enum Action {
    /// Thread these carriers and begin.
    Start(Vec<Carrier>),
    /// Engage this carrier.
    Add(Carrier),
    /// Take this carrier out.
    Drop(Carrier),
    /// Change from one gear to another.
    Gear {
        /// Teeth of the gear that comes off.
        from: u32,
        /// Teeth of the gear that goes on.
        to: u32,
    },
    /// Stop; these carriers are engaged.
    End(Vec<Carrier>),
}

/// One line of the schedule.
#[derive(Clone, Debug, PartialEq)]
pub struct Event {
    /// What to do.
    pub action: Action,
    /// Where, from the tip.
    pub at: Length,
    /// Length since the line before.
    pub since: Length,
    /// Threads engaged from here on.
    pub threads: u32,
    /// Teeth of the gear fitted from here on.
    pub gear: u32,
    /// Braid angle from here on.
    pub angle: Angle,
    /// Crossings per metre along one rib from here on.
    pub crossings: f64,
}

/// The schedule of a line's stretches. Where a thread and a gear change meet, the thread comes first.
pub(super) fn events(stretches: &[Stretch], ladder: &Ladder) -> Vec<Event> {
    let mut events = Vec::with_capacity(2 * stretches.len() + 2);
    let (first, last) = (&stretches[0], &stretches[stretches.len() - 1]);
    let set = |stretch: &Stretch| ladder.engaged(stretch.threads).to_vec();
    record(
        &mut events,
        Action::Start(set(first)),
        first.from,
        first,
        first.fit.gear,
    );
    for pair in stretches.windows(2) {
        step(&mut events, &pair[0], &pair[1], ladder);
    }
    record(
        &mut events,
        Action::End(set(last)),
        last.to,
        last,
        last.fit.gear,
    );
    events
}

/// The thread change between two stretches, and the gear change where the new stretch wants another.
fn step(events: &mut Vec<Event>, before: &Stretch, after: &Stretch, ladder: &Ladder) {
    let fewer = before.threads.min(after.threads);
    if let Some(carrier) = ladder.step_above(fewer) {
        let action = if after.threads > before.threads {
            Action::Add(carrier)
        } else {
            Action::Drop(carrier)
        };
        record(events, action, after.from, after, before.fit.gear);
    }
    let (from, to) = (before.fit.gear, after.fit.gear);
    if from != to {
        record(events, Action::Gear { from, to }, after.from, after, to);
    }
}

fn record(events: &mut Vec<Event>, action: Action, at: Length, stretch: &Stretch, gear: u32) {
    let since = events.last().map_or(Length::ZERO, |event| at - event.at);
    events.push(Event {
        action,
        at,
        since,
        threads: stretch.threads,
        gear,
        angle: stretch.fit.braid.angle,
        crossings: stretch.fit.braid.crossings_per_metre(),
    });
}
