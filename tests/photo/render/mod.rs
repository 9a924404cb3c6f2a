//! A camera for braids that nobody has braided: pictures with a known truth, for tests only.
//!
//! Nothing here is shared with what measures pictures. A [`Scene`] says everything, [`render`] takes its picture, [`truth`] says what
//! is in it. The same scene gives the same picture.
//!
//! - Rising threads go round the axis one way, falling threads the other; where they cross, the pattern says which is on top.
//! - The angle of a scene refers to the path of the threads, whose diameter is the outer one less two thread thicknesses. A picture
//!   shows other radii: on the crowns the threads stand at a greater angle, and the surface as a whole lies between the two. The truth
//!   gives all three. They differ by much where threads are thick: for 16 threads by 7°, for 48 by 2°.
//! - Lay and crossings along the axis are the same at every radius.
//! - Directions in the picture: degrees from its right towards its foot.
#![allow(
    dead_code,
    unused_imports,
    reason = "each test program uses a part of it"
)]
#![allow(
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    clippy::cast_sign_loss,
    reason = "pixels, table places and bits are cut on purpose"
)]

mod camera;
mod cloth;
mod film;
mod march;
mod noise;
mod paint;
mod rule;
mod scene;
mod shape;
mod threads;
mod weave;

pub(crate) use film::Photo;
pub(crate) use march::Body;
pub(crate) use scene::{Background, Family, Flaw, Pattern, Rule, Scene, Subject};
pub(crate) use shape::{Truth, truth, truth_at};

/// Takes the picture of a scene.
pub(crate) fn render(scene: &Scene) -> Photo {
    film::develop(scene, camera::light(scene))
}
