//! A bobbin seen from the side, filled as far as it will be. All bobbins of a machine have the same scale.

use crate::base::units::{Density, Length, Mass};
use crate::braid::bobbin::BobbinSize;

/// Size of the picture, in pixels.
pub const SIZE: (f64, f64) = (112.0, 72.0);
/// Thickness of a flange, in pixels.
const FLANGE: f64 = 6.0;
/// How high the flanges may be at most, so that a bobbin too full is seen to be so.
const FLANGE_ROOM: f64 = 0.86 * SIZE.1;
/// How wide the winding may be at most.
const WINDING_ROOM: f64 = SIZE.0 - 2.0 * FLANGE - 8.0;

/// A rectangle of the picture, in pixels from its left upper corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Area {
    /// Its left side.
    pub x: f64,
    /// Its upper side.
    pub y: f64,
    /// From left to right.
    pub width: f64,
    /// From top to bottom.
    pub height: f64,
}

/// The parts of the picture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BobbinPicture {
    /// The discs at its ends, as high as the fullest winding.
    pub flanges: [Area; 2],
    /// The barrel between them.
    pub barrel: Area,
    /// The thread on it, the barrel hidden below; where it does not fit it stands out above and below the flanges, as far as
    /// there is room in the picture.
    pub winding: Area,
    /// Whether it fits.
    pub fits: bool,
}

/// The picture of a bobbin of this size with so much fibre of this density on.
pub fn bobbin_picture(size: &BobbinSize, mass: Mass, density: Density) -> BobbinPicture {
    let scale = (FLANGE_ROOM / size.full.metres()).min(WINDING_ROOM / size.width.metres());
    let px = |length: Length| length.metres() * scale;
    let (width, full) = (px(size.width), px(size.full));
    let around_middle = |x: f64, width: f64, height: f64| Area {
        x,
        y: 0.5 * (SIZE.1 - height),
        width,
        height,
    };
    let left = 0.5 * (SIZE.0 - width);
    let wound = size.wound(mass, density);
    BobbinPicture {
        flanges: [left - FLANGE, left + width].map(|x| around_middle(x, FLANGE, full)),
        barrel: around_middle(left, width, px(size.barrel)),
        winding: around_middle(left, width, px(wound).min(SIZE.1)),
        fits: mass <= size.capacity(density),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::demo::demo;

    fn picture(share: f64) -> BobbinPicture {
        let (size, density) = (demo().bobbin(), demo().thread().fibre_density);
        bobbin_picture(&size, size.capacity(density) * share, density)
    }

    #[test]
    fn a_full_bobbin_reaches_its_flanges_and_an_empty_one_shows_its_barrel() {
        let (full, empty) = (picture(1.0), picture(0.0));
        assert!((full.winding.height - full.flanges[0].height).abs() < 1e-9);
        assert!((empty.winding.height - empty.barrel.height).abs() < 1e-9);
        assert!(empty.fits);
    }

    /// Half the fibre fills half of the ring around the barrel, which is more than half of its depth.
    #[test]
    fn it_is_to_scale() {
        let half = picture(0.5);
        let area = |diameter: f64| diameter * diameter;
        let [winding, barrel, full] =
            [half.winding, half.barrel, half.flanges[0]].map(|it| it.height);
        let share = (area(winding) - area(barrel)) / (area(full) - area(barrel));
        assert!((share - 0.5).abs() < 1e-9);
        let size = demo().bobbin();
        assert!((half.winding.width / full - size.width / size.full).abs() < 1e-9);
    }

    #[test]
    fn a_bobbin_too_full_stands_out_and_stays_in_the_picture() {
        for share in [1.1, 50.0] {
            let over = picture(share);
            assert!(!over.fits);
            assert!(over.winding.height > over.flanges[0].height);
            assert!(over.winding.height <= SIZE.1 && over.winding.y >= 0.0);
        }
    }
}
