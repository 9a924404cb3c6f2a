//! The braid read from a photograph: braid angle, crossings along a rib, evenness.
//!
//! A [`Picture`] holds brightness only. [`read_braid`] gives a [`PhotoReading`] of the braid in it or says why it gives none
//! ([`PhotoRefusal`]). It knows no plan and no browser. In the order of the work:
//!
//! | file | what it does |
//! |---|---|
//! | `band`, `axis` | finds the straight bar that the braid is, or takes it from edges set by the maker |
//! | `edges`, `profile` | finds the outline exactly, over the crowns of the threads |
//! | `surface` | lays the round surface flat |
//! | `spacing` | measures from crossing to crossing along the axis |
//! | `waves`, `count` | counts the threads round the braid |
//! | `windows`, `likeness` | does it piece by piece: error, evenness, what is odd |
//! | `found`, `read` | puts it together |
//!
//! With `N` threads, the spacing `p` and the diameter `d` the angle on the surface is `tan α = 2 π d/(N p)`: in one lay `L = N p/2` a
//! thread goes once round. Analytic.
//!
//! Local directions of brightness, as the structure tensor gives them (Bigun and Granlund 1987), were tried first. On a braid printed
//! on a cylinder they are exact; where threads bulge, their round ends and shadows turn the directions: on the pictures of
//! `tests/photo` half of the angles were off by more than 4°, and one in twenty by 13°. What repeats is not turned.

mod axis;
mod band;
mod count;
mod edges;
mod found;
mod grid;
mod likeness;
mod picture;
mod place;
mod profile;
mod pyramid;
mod read;
mod reading;
mod refusal;
mod scale;
mod spacing;
mod surface;
mod waves;
mod windows;

pub use picture::{MOST_PIXELS, Picture};
pub use place::{Line, Point};
pub use read::{Asked, read_braid};
pub use reading::{Estimate, PhotoReading, PhotoScale, PhotoWindow, WindowDoubt};
pub use refusal::PhotoRefusal;
pub use scale::KnownDiameter;
