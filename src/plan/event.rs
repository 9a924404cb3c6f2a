//! One line of the schedule: what to do, and where.

use crate::base::units::{Angle, Length};
use crate::braid::takeoff::Wheels;
use crate::braid::threads::Level;
use crate::braid::track::Carrier;

/// Carriers with the ends of their threads.
pub type Set = Vec<(Carrier, u32)>;

/// What to do.
#[derive(Clone, Debug, PartialEq)]
pub enum Action {
    /// Thread these carriers and begin.
    Start(Set),
    /// Engage this carrier.
    Add {
        /// The carrier.
        carrier: Carrier,
        /// Ends of its thread.
        ends: u32,
    },
    /// Take this carrier out.
    Drop {
        /// The carrier.
        carrier: Carrier,
        /// Ends of its thread.
        ends: u32,
    },
    /// Give this carrier another bobbin.
    Swap {
        /// The carrier.
        carrier: Carrier,
        /// Ends of the thread that comes off.
        from: u32,
        /// Ends of the thread that goes on.
        to: u32,
    },
    /// Change from one choice of wheels to another.
    Gear {
        /// The wheels that come off.
        from: Wheels,
        /// The wheels that go on.
        to: Wheels,
    },
    /// Stop; these carriers are engaged.
    End(Set),
}

impl Action {
    /// Whether it changes threads on the way.
    pub fn is_of_threads(&self) -> bool {
        matches!(
            self,
            Self::Add { .. } | Self::Drop { .. } | Self::Swap { .. }
        )
    }

    /// The one carrier it is about.
    pub fn carrier(&self) -> Option<Carrier> {
        match *self {
            Self::Add { carrier, .. } | Self::Drop { carrier, .. } | Self::Swap { carrier, .. } => {
                Some(carrier)
            }
            Self::Start(_) | Self::Gear { .. } | Self::End(_) => None,
        }
    }
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
    /// Carrier circuits since the line before.
    pub circuits: f64,
    /// The level from here on.
    pub level: Level,
    /// Ends of the standard thread, or of the thread this is about.
    pub ends: u32,
    /// The wheels fitted from here on.
    pub wheels: Wheels,
    /// The braid angle that the line has come to before the next stop.
    pub angle: Angle,
    /// Crossings per metre along one rib there.
    pub crossings: f64,
    /// The pin that holds its place, by its place in the design's list.
    pub pin: Option<usize>,
    /// The pin that holds the wheels of the interval that begins here.
    pub wheels_pin: Option<usize>,
    /// The pin that holds its carrier.
    pub carrier_pin: Option<usize>,
}

impl Event {
    /// The lower of the two levels of a change of threads, and whether the line gets thicker there.
    pub fn change(&self) -> Option<(Level, bool)> {
        let Level { threads, heavy } = self.level;
        let below = |threads, heavy| Level { threads, heavy };
        Some(match self.action {
            Action::Add { .. } => (below(threads - 1, heavy), true),
            Action::Swap { from, to, .. } if from < to => (below(threads, heavy - 1), true),
            Action::Drop { .. } | Action::Swap { .. } => (self.level, false),
            Action::Start(_) | Action::Gear { .. } | Action::End(_) => return None,
        })
    }

    /// Whether the next event belongs to the same step at the machine: both change something, at one place.
    pub fn is_with(&self, next: &Self) -> bool {
        let is_change = |event: &Self| !matches!(event.action, Action::Start(_) | Action::End(_));
        self.at == next.at && is_change(self) && is_change(next)
    }

    /// Whether a pin of the maker's holds it.
    pub fn is_pinned(&self) -> bool {
        self.pin.or(self.wheels_pin).or(self.carrier_pin).is_some()
    }

    /// Threads engaged from here on.
    pub fn threads(&self) -> u32 {
        self.level.threads
    }
}

/// The carriers engaged once these events are done.
pub(super) fn engaged<'a>(events: impl Iterator<Item = &'a Event>) -> Set {
    let mut set = Set::new();
    for event in events {
        match &event.action {
            Action::Start(start) => set.clone_from(start),
            Action::Add { carrier, ends } => set.push((*carrier, *ends)),
            Action::Drop { carrier, .. } => set.retain(|(other, _)| other != carrier),
            Action::Swap { carrier, to, .. } => {
                set.iter_mut()
                    .filter(|(other, _)| other == carrier)
                    .for_each(|(_, ends)| *ends = *to);
            }
            Action::Gear { .. } | Action::End(_) => {}
        }
    }
    set
}
