//! Kinds of notice: what the maker should know before braiding.

use super::bobbins::Bobbin;
use super::layout::pins::DroppedPin;
use super::layout::stops::Crowding;
use super::sections::SectionWeight;
use crate::base::units::{Angle, Length};
use crate::braid::takeoff::Wheels;
use crate::braid::track::Carrier;

/// A thing to know, with the figures to say it.
#[derive(Clone, Debug, PartialEq)]
pub enum Notice {
    /// With this many threads some never pass over, or never under.
    Unsound {
        /// Thread count.
        threads: u32,
        /// Carriers of the threads that lie loose.
        carriers: Vec<Carrier>,
    },
    /// The drawing is thicker than all threads together can make it.
    TooThick {
        /// Standard threads the thickest place calls for.
        wanted: f64,
        /// Standard threads there are.
        most: f64,
        /// Thickest finished diameter they make.
        possible: Length,
    },
    /// The drawing is thinner than the fewest threads make it.
    TooThin {
        /// Standard threads the thinnest place calls for.
        wanted: f64,
        /// Fewest threads set.
        fewest: f64,
        /// Thinnest finished diameter they make.
        possible: Length,
    },
    /// The angle is outside the tolerance.
    AngleOff {
        /// How many parts of the line.
        parts: usize,
        /// How much of the line they are together.
        length: Length,
        /// Where the angle is worst.
        at: Length,
        /// The angle there.
        angle: Angle,
        /// Wheels whose steady angle would be within the tolerance there.
        better_wheels: Option<BetterWheels>,
        /// Whether the steady angle there is within the tolerance: only the way to it is outside.
        passing: bool,
    },
    /// Threads touch although they are round: the braid jams.
    Jammed {
        /// Where the jammed part begins.
        from: Length,
        /// Where it ends.
        to: Length,
        /// The cover factor of round threads where it is largest; 1 and above means touching.
        cover_factor: f64,
    },
    /// The braid is more open than the maker wants.
    TooOpen {
        /// Where the open part begins.
        from: Length,
        /// Where it ends.
        to: Length,
        /// The least cover.
        cover: f64,
    },
    /// Stops follow each other before the angle is steady.
    Restless {
        /// How many stops.
        stops: usize,
        /// The first of them.
        at: Length,
        /// Length in which a step decays to a twentieth: three lags.
        needed: Length,
    },
    /// The lead-in is shorter than the angle needs to be steady at the tip.
    LeadInShort {
        /// The lead-in set.
        lead_in: Length,
        /// Length in which a step decays to a twentieth.
        needed: Length,
    },
    /// Changes come closer than the maker can work.
    Crowded(Crowding),
    /// A section is more than a hundredth off the mass drawn.
    SectionOff(SectionWeight),
    /// Bobbins do not hold the thread their carriers need.
    BobbinTooSmall {
        /// How many.
        bobbins: usize,
        /// The one that is empty first.
        first: Bobbin,
        /// Where.
        at: Length,
    },
    /// A pin no longer makes sense.
    PinDropped(DroppedPin),
}

/// Wheels that would bring an angle within the tolerance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BetterWheels {
    /// The wheels.
    pub wheels: Wheels,
    /// Their steady angle.
    pub angle: Angle,
    /// Whether the gears owned make them.
    pub is_owned: bool,
}
