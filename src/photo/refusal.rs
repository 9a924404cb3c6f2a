//! Why a picture gives no reading.

use serde::{Deserialize, Serialize};

/// Why a picture gives no reading.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum PhotoRefusal {
    /// Too few pixels to work on.
    TooSmall,
    /// No band runs across the picture.
    NoBand,
    /// The two edges set by the maker are not those of a band.
    BadEdges,
    /// The braid is nearly black all over.
    TooDark,
    /// The braid is nearly white all over.
    TooBright,
    /// The braid is too thin in the picture.
    TooThin {
        /// Its diameter, pixels.
        diameter: f64,
        /// What it needs.
        needed: f64,
    },
    /// The braid is seen over too short a length.
    TooShort {
        /// Length over diameter.
        diameters: f64,
        /// What it needs.
        needed: f64,
    },
    /// A thread has too few pixels.
    ThreadsTooSmall {
        /// Pixels from one thread to the next.
        thread: f64,
        /// What it needs.
        needed: f64,
    },
    /// Threads have no clear edges: out of focus, moved, or too little light.
    Blurred,
    /// There are not two families of threads that cross.
    NotTwoFamilies,
    /// One family of threads lies far steeper than the other.
    Askew,
    /// The picture shows clearly another count of threads than the maker stated.
    OtherCount {
        /// What was stated.
        threads: u32,
        /// What the picture looks like.
        seen: u32,
    },
    /// The picture does not tell two counts of threads apart, and so two angles.
    CountUnsure {
        /// The likeliest count.
        threads: u32,
        /// The next likely.
        other: u32,
    },
    /// Two families were found, and what they say does not agree well enough.
    Unsure {
        /// One standard deviation of the angle, radians.
        error: f64,
    },
}
