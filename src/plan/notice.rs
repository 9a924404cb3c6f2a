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
    /// The angle stays outside the tolerance: what is fitted there has a steady angle outside it.
    AngleOff {
        /// Where.
        parts: OutsideParts,
        /// Why, by the part that is farthest off.
        cause: AngleCause,
    },
    /// The angle is outside the tolerance only while it settles: the steady angle there is within it.
    AngleSettling(OutsideParts),
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
    /// Changes come closer than the maker can work. Never [`Crowding::LeftOut`].
    Crowded(Crowding),
    /// The drawing asks for changes that are not worth their stops; they are left out.
    LeftOut {
        /// Where, in order, each place once.
        places: Vec<Length>,
    },
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

/// The parts of a line whose angle is outside the tolerance, all for the same reason.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OutsideParts {
    /// How many.
    pub count: usize,
    /// How long they are together.
    pub length: Length,
    /// The longest: where it begins and ends.
    pub longest: (Length, Length),
    /// Where the angle is farthest from the target.
    pub at: Length,
    /// The angle there.
    pub angle: Angle,
}

/// Why the angle stays outside the tolerance, and what would bring it back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AngleCause {
    /// Wheels that the gears owned make would do; the price of a gear change, or a pin, keeps others on.
    OtherWheelsChosen(BetterWheels),
    /// No wheels owned would do.
    NoWheelsOwned {
        /// What would do with one more gear.
        buy: Option<BetterWheels>,
        /// How the gears owned fail.
        fault: GearFault,
    },
}

/// How the gears owned fail to bring a load to the target angle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GearFault {
    /// Even the slowest take-off is too fast: the angle is too small.
    AllTooFast,
    /// Even the fastest take-off is too slow: the angle is too large.
    AllTooSlow,
    /// The target lies between two take-offs that are too far apart.
    TooFarApart,
}

/// Wheels that would bring an angle within the tolerance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BetterWheels {
    /// The wheels.
    pub wheels: Wheels,
    /// Their steady angle.
    pub angle: Angle,
}
